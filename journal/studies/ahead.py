"""When each crop is usually sown, planted and first picked here, and what falls due next."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.dates import Days
from journal.studies.ledger.batches import Batch
from journal.studies.ledger.habits import is_perennial
from journal.studies.notes import Note, crop_words
from journal.studies.once import once_a_diary
from journal.studies.perennials import on_day
from journal.studies.pickings import pickings
from journal.studies.plants import books_of, certain, reached, typed
from journal.studies.usual import batch_season, is_south, published_time, season_of
from journal.studies.warmth import Warmth

WHATS = ("sowing", "planting", "first picking")
ENOUGH_YEARS = 2
HALF_A_YEAR = 183


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


@once_a_diary
def ahead(diary: Diary) -> pd.DataFrame:
    """The usual day of each sowing, planting and first picking, from the diary's own years.

    One row a crop, cultivar (blank: all of them), season of its beginning (`spring`, or `autumn`
    for what is begun from August on and stands over the winter) and `what`.

    - `earliest`, `usual`, `latest`: of the first such day in each of the `years` before this one,
      as days of the year (29 February counts with 1 March); `usual` is their median. With fewer
      than two years `usual` is blank. Days of a winter go on past 365 into the next year.
    - `error_days`: how far the median of the other years was from each year's own day, the mean
      over the years (leave one year out); `error_most` the farthest.
    - `degree_days`: the median sum above `base_c` from the beginning to the first picking, over
      years of which every day was read; `degree_error_days` the mean error in days of predicting
      each year's day by the median sum of the others. Blank without temperatures.
    - `this_year`: its day in the year of today, if it has come. `due_low`, `due`, `due_high`: the
      earliest, usual and latest day of the year that it falls in next, blank when it happened
      this year. Where the diary has fewer than two years of a first picking and the crop stands,
      the published days to harvest from its beginning serve, and `source` says whose they are.

    A median and a range, no published source; base temperatures as `degree_days` names them.
    """
    rows = [_row(diary, *group) for group in _groups(diary)]
    return typed(pd.DataFrame(rows, columns=_COLUMNS), _WORDS, _DATES)


_WORDS = ("crop", "cultivar", "season", "what", "source")
_DATES = ("this_year", "due_low", "due", "due_high")
_COLUMNS = [
    *_WORDS[:4],
    "years",
    "earliest",
    "usual",
    "latest",
    "error_days",
    "error_most",
    "base_c",
    "degree_days",
    "degree_error_days",
    *_DATES,
    "source",
]
_Key = tuple[str, str, str, str]


@once_a_diary
def ahead_years(diary: Diary) -> pd.DataFrame:
    """One row a year of each row of `ahead`: the day of the year that it happened, and the date.

    What the chart of usual days draws beside them.
    """
    rows = [
        {
            "crop": crop,
            "cultivar": cultivar,
            "season": season,
            "what": what,
            "year": year,
            "day": day_of_year(first.day),
            "date": first.day,
        }
        for (crop, cultivar, season, what), by_year in _groups(diary)
        for year, first in sorted(by_year.items())
    ]
    names = [*_WORDS[:4], "year", "day", "date"]
    frame = typed(pd.DataFrame(rows, columns=names), _WORDS[:4], ("date",))
    return frame.astype({"year": "Int64"})


def happenings(diary: Diary) -> list[Happened]:
    """Every sowing, planting and first picking of a batch whose day is certain.

    A planting is of what was raised or is planted; a perennial's first picking is that of each
    year.
    """
    south = is_south(diary)
    found = [row for batch in books_of(diary).batches for row in _of_batch(batch, south)]
    return found + list(_perennial_pickings(diary, south))


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


def _perennial_pickings(diary: Diary, south: bool) -> Iterator[Happened]:
    """The first of each year, which is of the season that it falls in."""
    picked = pickings(diary.events)
    sure = (picked["date"] == picked["date_end"]) & picked["crop"].map(is_perennial).astype(bool)
    past = picked["date"] <= pd.Timestamp(diary.today)
    kept = picked[(sure & past).fillna(False)].sort_values(["date", "event"])
    for row in kept.drop_duplicates(["crop", "cultivar", "year"]).to_dict("records"):
        day = row["date"].date()
        yield Happened(row["crop"], row["cultivar"], season_of(day.month, south), WHATS[2], day)


def _groups(diary: Diary) -> Iterator[tuple[_Key, dict[int, Happened]]]:
    """The first happening of each year, by crop and by crop and cultivar."""
    groups: dict[_Key, dict[int, Happened]] = defaultdict(dict)
    for one in happenings(diary):
        if one.day > diary.today:
            continue
        for cultivar in {"", one.cultivar}:
            years = groups[one.crop, cultivar, one.season, one.what]
            held = years.get(one.day.year)
            if held is None or one.day < held.day:
                years[one.day.year] = one
    order = sorted(groups, key=lambda key: (key[0], key[1], key[2], WHATS.index(key[3])))
    for key in order:
        yield key, groups[key]


def day_of_year(day: date) -> int:
    """The day of the season: 14 July is 195 in every year; 29 February counts with 1 March."""
    plain = day.replace(day=28) if (day.month, day.day) == (2, 29) else day
    return plain.replace(year=2001).timetuple().tm_yday + (plain is not day)


def _row(diary: Diary, key: _Key, by_year: dict[int, Happened]) -> dict[str, Any]:
    crop, cultivar, season, what = key
    year = diary.today.year
    earlier = {when: one for when, one in by_year.items() if when < year}
    days = over_new_year([day_of_year(one.day) for one in earlier.values()])
    enough = len(days) >= ENOUGH_YEARS
    now = by_year[year].day if year in by_year else None
    errors = _left_out(days) if enough else []
    row: dict[str, Any] = {
        "crop": crop,
        "cultivar": cultivar,
        "season": season,
        "what": what,
        "years": len(days),
        "earliest": min(days) if days else None,
        "usual": median(days) if enough else None,
        "latest": max(days) if days else None,
        "error_days": sum(errors) / len(errors) if errors else None,
        "error_most": max(errors, default=None),
        "this_year": now,
        "source": f"this diary, {len(days)} years" if enough else "",
    }
    if what == "first picking" and enough:
        spans = [(one.since, one.day) for one in earlier.values() if one.since is not None]
        row |= Warmth(diary).of(crop, spans)
    if now is None:
        row |= _due(diary, days) if enough else _published(diary, key)
    return {name: row.get(name) for name in _COLUMNS}


def over_new_year(days: list[int]) -> list[int]:
    """Days of the year; where they lie on both sides of New Year, those of spring come after it."""
    if not days or max(days) - min(days) <= HALF_A_YEAR:
        return days
    return [day + 365 if day <= HALF_A_YEAR else day for day in days]


def _left_out(days: list[int]) -> list[float]:
    """How far each year's day is from the median of the others."""
    return [abs(day - median(days[:at] + days[at + 1 :])) for at, day in enumerate(days)]


def _due(diary: Diary, days: list[int]) -> dict[str, Any]:
    """The days in this year, or in the next where the latest has passed by half a year."""
    year = diary.today.year
    if (diary.today - on_day(max(days), year)).days > HALF_A_YEAR:
        year += 1
    return {
        "due_low": on_day(min(days), year),
        "due": on_day(median(days), year),
        "due_high": on_day(max(days), year),
    }


def _published(diary: Diary, key: _Key) -> dict[str, Any]:
    """The published days to harvest of the oldest batch that stands unpicked, if it is spring's."""
    crop, cultivar, season, what = key
    if what != "first picking":
        return {}
    for batch in books_of(diary).batches:
        waiting = batch.crop == crop and not batch.ended and batch.first_harvest is None
        if waiting and cultivar in {"", batch.cultivar} and batch_season(batch, is_south(diary)):
            return _published_of(batch, season)
    return {}


def _published_of(batch: Batch, season: str) -> dict[str, Any]:
    planted = reached(batch, "planted")
    usual = published_time(batch, season, batch.how == "sow" and planted is not None)
    start = None
    if usual is not None:
        start = certain(batch.started if usual.start == "sown" else planted)
    if usual is None or start is None:
        return {}
    high = start + timedelta(days=round(usual.high))
    low = None if usual.low is None else start + timedelta(days=round(usual.low))
    return {"due_low": low, "due_high": high, "source": usual.source}


def ahead_notes(diary: Diary) -> list[Note]:
    """Crops of which the diary has fewer than two years, so that it has no usual day for them."""
    frame = ahead(diary)
    few = frame[(frame["years"] < ENOUGH_YEARS) & (frame["cultivar"] == "")]
    words = {0: "no year before this one", 1: "only one year before this one"}
    return [
        Note(
            "ahead",
            "history",
            f"{row['what']} of {crop_words(row['crop'])} begun in {row['season']}",
            f"{words[row['years']]} tells when",
        )
        for row in few.to_dict("records")
    ]


def falling_due(diary: Diary, days: int) -> pd.DataFrame:
    """The rows of `ahead` for whole crops whose usual day is within so many days, or just past.

    What has not happened this year: its usual day is at most `days` ahead and its latest not yet
    gone by. A first picking counts only of what stands.
    """
    frame = ahead(diary)
    stands = frame["crop"].isin(
        [batch.crop for batch in books_of(diary).batches if not batch.ended]
    )
    frame = frame[stands | (frame["what"] != WHATS[2])]
    today = pd.Timestamp(diary.today)
    soon = (frame["due"] <= today + pd.Timedelta(days=days)) & (frame["due_high"] >= today)
    mine = soon.fillna(False) & (frame["cultivar"] == "")
    return frame[mine].sort_values(["due", "crop"]).reset_index(drop=True)
