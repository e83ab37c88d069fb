"""What family stood where in which year, and how long each stayed away before it came back."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.load import load
from journal.reference.stuff import is_raw_manure
from journal.studies.in_soil import Stood, in_soil
from journal.studies.ledger.grounds import Grounds
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.products import known_name
from journal.studies.put_on import puts_on
from journal.studies.rotation import advice
from journal.studies.structures import YEAR_DAYS
from journal.tables.schema import TABLES, make_frame

YEAR = timedelta(days=365)

STOOD_ON = "stands on from before, so nothing came back"
NOT_BEFORE = "not before in this diary, which tells of that ground from {year}"
ROOTS_ON_MANURE = (
    "roots on ground manured within the year, where they may fork "
    "(common practice, no published source)"
)
_COMPOST = ("compost", "leaf mould")


@once_a_diary
def ground(diary: Diary) -> pd.DataFrame:
    """Families on the ground, one row a year, ground and family: the columns of `ground`.

    - A family stands in every year that holds a possible day of one of its batches there, by the
      plant ledger and not only by sowing lines (`studies.in_soil`): what stood over the winter
      stands in both years. Ground goes by the names of today.
    - `years_without` = days / 365.2425 from `last_before`, the last possible day of a batch of
      earlier years, to the first possible day that one of the family was sown or planted there
      that year (`arrived`); 0 where both stood together.
    - `advised_low` to `advised_high`: years without, by every source of `rotation_years.csv` for
      the crops that arrived and for whole rotations; a break of n years is n, a rotation of n
      years n - 1. `advice` has each with its source; where sources differ the range is theirs.
    - `manured`, `composted`: the last raw manure, and the last compost or leaf mould, on that
      ground in the 365 days before the first of them arrived.

    Roots on freshly manured ground may fork: common practice, no published source. `why` says
    what leaves `years_without` empty.
    """
    by_ground: dict[str, list[Stood]] = {}
    for one in in_soil(diary):
        by_ground.setdefault(one.ground, []).append(one)
    given = dressings(diary)
    rows = [
        _row(year, kin, there, given.get(place, ()))
        for place, there in by_ground.items()
        for year, kin in sorted({(year, one.kin) for one in there for year in one.years})
    ]
    rows.sort(key=lambda row: (row["year"], row["place"], row["family"], row["crops"]))
    names = TABLES["ground"].column_names
    return make_frame("ground", {name: [row[name] for row in rows] for name in names})


def _row(
    year: int, kin: str, there: Sequence[Stood], given: Sequence["Dressing"]
) -> dict[str, Any]:
    """`there` are all batches of the ground, and `kin` the family that the row is of."""
    own = [one for one in there if one.kin == kin and year in one.years]
    came = [one for one in own if one.since.year == year]
    arrival = min((one.since for one in came), default=None)
    earlier = [one.until for one in there if one.kin == kin and one.since.year < year]
    last = max(earlier, default=None) if came else None
    advised = advice(dict.fromkeys(one.crop for one in came))
    before = within_a_year_before(arrival, given) if arrival is not None else {}
    roots = any(is_root(one.crop) for one in came)
    on_manure = roots and "manure" in before
    return {
        "year": year,
        "place": own[0].ground,
        "family": own[0].family,
        "crops": ", ".join(dict.fromkeys(one.crop for one in own)),
        "since": max(min(one.since for one in own), date(year, 1, 1)),
        "until": min(max(one.until for one in own), date(year, 12, 31)),
        "arrived": bool(came),
        "last_before": last,
        "years_without": None if arrival is None else years_without(arrival, last),
        "advised_low": advised.low,
        "advised_high": advised.high,
        "advice": advised.words,
        "roots": roots,
        "manured": before.get("manure"),
        "composted": before.get("compost"),
        "events": ", ".join(str(one.event) for one in came),
        "why": "; ".join(_reasons(came, last, min(one.since for one in there).year, on_manure)),
    }


def _reasons(
    came: Sequence[Stood], last: date | None, first_year: int, on_manure: bool
) -> list[str]:
    if not came:
        return [STOOD_ON]
    said = [NOT_BEFORE.format(year=first_year)] if last is None else []
    return [*said, ROOTS_ON_MANURE] if on_manure else said


def years_without(arrival: date, last: date | None) -> float | None:
    """Years from the last day of the one to the arrival of the next, none below nothing."""
    return None if last is None else max(0, (arrival - last).days) / YEAR_DAYS


def is_root(crop: str) -> bool:
    """Whether a crop goes with the roots in a rotation and is eaten from under the ground."""
    known = load().crops.get(crop)
    return known is not None and known.rotation_group == "root" and known.soil_contact == "in_soil"


# ------------------------------------------------------------ what the ground was given


@dataclass(frozen=True, slots=True)
class Dressing:
    """A dressing of `manure` (raw), `compost` (or leaf mould) or `lime`, on its possible days."""

    what: str
    first: date
    last: date


def dressings(diary: Diary) -> dict[str, list[Dressing]]:
    """The dressings of each ground, by its name of today."""
    grounds = Grounds(diary.sheet)
    found: dict[str, list[Dressing]] = {}
    for event in diary.reading.events:
        put = puts_on(event.kind, event.verb, event.material, event.vessel)
        what = _dressing(event.material) if put else ""
        if what and event.place and event.date is not None and event.date_end is not None:
            for name in grounds.of(event.place, event.date):
                found.setdefault(name, []).append(Dressing(what, event.date, event.date_end))
    return found


def _dressing(material: str) -> str:
    name = known_name(material)
    if is_raw_manure(material, load()):
        return "manure"
    if name == "lime":
        return "lime"
    return "compost" if any(word in name for word in _COMPOST) else ""


def within_a_year_before(day: date, given: Iterable[Dressing]) -> dict[str, date]:
    """The last possible day of each kind of dressing in the 365 days before a day."""
    found: dict[str, date] = {}
    for one in given:
        if one.first <= day and one.last >= day - YEAR:
            found[one.what] = max(found.get(one.what, date.min), min(one.last, day))
    return found


def ground_notes(diary: Diary) -> list[Note]:
    """Crops of which no family is known, so that each rotates by itself."""
    nameless = dict.fromkeys(one.crop for one in in_soil(diary) if not one.family)
    reason = "no family is known, so it rotates by itself"
    return [Note("ground", "family", crop, reason) for crop in nameless]
