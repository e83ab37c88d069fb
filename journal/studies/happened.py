"""The days on which each crop was first sown, planted and picked in each year of the diary."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import pandas as pd

from journal.diary import Diary
from journal.events.dates import Days
from journal.studies.ledger.batches import Batch
from journal.studies.ledger.habits import is_perennial
from journal.studies.perennials import perennial
from journal.studies.pickings import pickings
from journal.studies.plants import books_of, certain, reached
from journal.studies.usual import batch_season, is_south

WHATS = ("sowing", "planting", "first picking")
HALF_A_YEAR = 183
Key = tuple[str, str, str, str]


@dataclass(frozen=True, slots=True)
class Happened:
    """The first time in a year that a crop was sown, planted or picked; `since` its start."""

    crop: str
    cultivar: str
    season: str
    what: str
    day: date
    since: date | None = None
    batch: int = 0


def happenings(diary: Diary) -> list[Happened]:
    """Every sowing, planting and first picking of a batch whose day is certain.

    A planting is of what was raised or is planted; a perennial's first picking is that of each
    year.
    """
    south = is_south(diary)
    found = [row for batch in books_of(diary).batches for row in _of_batch(batch, south)]
    return found + list(_perennial_pickings(diary))


def _of_batch(batch: Batch, south: bool) -> Iterator[Happened]:
    season = batch_season(batch, south)
    planted = reached(batch, "planted")
    days: dict[str, Days | None] = {
        "sowing": batch.started if batch.how == "sow" else None,
        "planting": planted,
        "first picking": None if is_perennial(batch.crop) else batch.first_harvest,
    }
    since = certain(planted) if planted is not None else certain(batch.started)
    if batch.how == "heel in":
        return
    for what, when in days.items():
        day = certain(when)
        if day is not None and season:
            yield Happened(batch.crop, batch.cultivar, season, what, day, since, batch.number)


def _perennial_pickings(diary: Diary) -> Iterator[Happened]:
    """The first of each year, of no season."""
    picked = pickings(diary.events)
    sure = picked["date"] == picked["date_end"]
    past = picked["date"] <= pd.Timestamp(diary.today)
    kept = picked[perennial(picked) & sure & past].sort_values(["date", "event"])
    for row in kept.drop_duplicates(["crop", "cultivar", "year"]).to_dict("records"):
        yield Happened(row["crop"], row["cultivar"], "", WHATS[2], row["date"].date())


def firsts(diary: Diary) -> Iterator[tuple[Key, dict[int, Happened]]]:
    """The first happening of each year, by crop and by crop and cultivar.

    Where first pickings lie on both sides of New Year, those of spring belong to the year before.
    """
    groups: dict[Key, list[Happened]] = defaultdict(list)
    for one in happenings(diary):
        if one.day <= diary.today:
            for cultivar in {"", one.cultivar}:
                groups[one.crop, cultivar, one.season, one.what].append(one)
    order = sorted(groups, key=lambda key: (key[0], key[1], key[2], WHATS.index(key[3])))
    for key in order:
        yield key, _by_year(key, groups[key])


def _by_year(key: Key, happened: list[Happened]) -> dict[int, Happened]:
    days = [day_of_year(one.day) for one in happened]
    parted = key[3] == "first picking" and key[2] != "" and over_new_year(days) != days
    years: dict[int, Happened] = {}
    for one in sorted(happened, key=lambda one: one.day):
        past = parted and day_of_year(one.day) <= HALF_A_YEAR
        years.setdefault(one.day.year - 1 if past else one.day.year, one)
    return years


def day_of_year(day: date) -> int:
    """The day of the season: 14 July is 195 in every year; 29 February counts with 1 March."""
    plain = day.replace(day=28) if (day.month, day.day) == (2, 29) else day
    return plain.replace(year=2001).timetuple().tm_yday + (plain is not day)


def over_new_year(days: list[int]) -> list[int]:
    """Days of the year; where they lie on both sides of New Year, those of spring come after it."""
    if not days or max(days) - min(days) <= HALF_A_YEAR:
        return days
    return [day + 365 if day <= HALF_A_YEAR else day for day in days]
