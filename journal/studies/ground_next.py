"""Where each crop can go next: every bed with what speaks for it and what against."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import PlaceDeclared
from journal.reference.load import load
from journal.reference.stuff import COMMON_PRACTICE
from journal.studies.ground import (
    Dressing,
    dressings,
    is_root,
    within_a_year_before,
    years_without,
)
from journal.studies.in_soil import Stood, in_soil
from journal.studies.once import once_a_diary
from journal.studies.rotation import Advice, advice
from journal.studies.seed import order_year
from journal.tables.schema import TABLES, make_frame

YES, SOME, SO_FAR, NO = "yes", "by some sources", "as far as the diary goes", "no"
NOTHING_WRITTEN = "nothing is written of what grew there"
NOT_SOWN_YET = "what goes in there before {year} is not written yet"
_BY_PRACTICE = f"({COMMON_PRACTICE})"
_HUNGRY = ("potato", "brassica", "cucurbit")


@dataclass(frozen=True, slots=True)
class _Bed:
    """A bed with what the diary tells of it: its batches and its dressings."""

    name: str
    stood: tuple[Stood, ...]
    given: tuple[Dressing, ...]


@once_a_diary
def ground_next(diary: Diary) -> pd.DataFrame:
    """Every crop that was grown, against every bed, for the coming season: `ground next`.

    `where_next` for each annual crop that ever stood in this diary. The season is this year's, and
    next year's from September on.
    """
    crops = sorted({one.crop for one in in_soil(diary) if not one.perennial})
    year = order_year(diary) + 1
    frames = [where_next(diary, crop, year) for crop in crops]
    return pd.concat(frames, ignore_index=True) if frames else make_frame("ground next", {})


def where_next(diary: Diary, crop: str, year: int) -> pd.DataFrame:
    """The beds for a crop in a year, the best first: the columns of the table `ground next`.

    - `years_without`: days / 365.2425 from the last possible day that any of its family stood
      there (today, for what stands) to `goes_in`, the median day of the year on which the crop
      was sown or planted on this plot, else 1 April; empty where the family was never there.
    - `fits`: `yes` where that is at least what every source advises, `by some sources` where it
      is enough for one but not for all, else `no`. Where the family was never there the years
      that the diary tells of that ground count, and fewer than advised are `as far as the diary
      goes`. A perennial that stands there makes it `no`.
    - `reasons_for` and `reasons_against`: which source is content and which is not, and what is
      common practice, no published source: roots not on ground manured within the year; potatoes,
      cabbages and squashes gladly there; potatoes not on limed ground, cabbages gladly; cabbages
      gladly after peas and beans; a perennial in the way.

    Sources of the advised years: `studies.rotation`. It weighs nothing else: not shade, not
    drainage, not what the keeper has in mind.
    """
    family = family_of(diary, crop)
    advised, goes_in = advice([crop]), usual_day(diary, crop, year)
    rows = [_row(bed, crop, family, goes_in, advised, diary) for bed in _beds(diary)]
    order = {YES: 0, SOME: 1, SO_FAR: 2, NO: 3}
    rows.sort(key=lambda row: (order[row["fits"]], bool(row["reasons_against"]), row["place"]))
    names = TABLES["ground next"].column_names
    return make_frame("ground next", {name: [row[name] for row in rows] for name in names})


@once_a_diary
def _beds(diary: Diary) -> list[_Bed]:
    batches, given = in_soil(diary), dressings(diary)
    return [
        _Bed(
            place.name,
            tuple(one for one in batches if one.ground == place.name),
            tuple(given.get(place.name, ())),
        )
        for place in beds_today(diary)
    ]


def beds_today(diary: Diary) -> list[PlaceDeclared]:
    """The beds that the sheet has today."""
    names = dict.fromkeys(place.name for place in diary.sheet.places if place.kind == "bed")
    held = [diary.sheet.place_on(name, diary.today) for name in names]
    return [
        place
        for place in held
        if place is not None
        and not place.ended
        and (place.date is None or place.date <= diary.today)
    ]


def family_of(diary: Diary, crop: str) -> str:
    """A crop's family, as the diary's events have it, else as the reference tables do."""
    for event in diary.reading.events:
        if event.crop == crop and event.family:
            return event.family
    known = load().crops.get(crop)
    return known.family if known is not None else ""


def _row(
    bed: _Bed, crop: str, family: str, goes_in: date, advised: Advice, diary: Diary
) -> dict[str, Any]:
    kin = [one for one in bed.stood if one.kin == (family or crop) and one.since < goes_in]
    last = min(max(one.until for one in kin), goes_in) if kin else None
    off = years_without(goes_in, last)
    standing = [one for one in bed.stood if one.stands]
    in_the_way = list(dict.fromkeys(one.crop for one in standing if one.perennial))
    good, bad = _practice(bed, crop, goes_in.year)
    content, too_soon = _by_source(kin, last, off, family, advised)
    of_the_last = [one.event for one in kin if last is not None and one.until >= last]
    return {
        "year": goes_in.year,
        "crop": crop,
        "family": family,
        "place": bed.name,
        "fits": NO if in_the_way else _fits(off, _years_told(bed, goes_in), advised),
        "last_before": last,
        "goes_in": goes_in,
        "years_without": off,
        "advised_low": advised.low,
        "advised_high": advised.high,
        "advice": advised.words,
        "standing": ", ".join(dict.fromkeys(one.crop for one in standing)),
        "reasons_for": "; ".join([*content, *good]),
        "reasons_against": "; ".join(
            [*too_soon, *[f"{name} stands there" for name in in_the_way], *bad]
        ),
        "events": ", ".join(str(event) for event in of_the_last),
        "why": "; ".join(_unsure(bed, goes_in.year, diary)),
    }


def _unsure(bed: _Bed, year: int, diary: Diary) -> list[str]:
    said = [] if bed.stood else [NOTHING_WRITTEN]
    return [*said, NOT_SOWN_YET.format(year=year)] if year > diary.today.year else said


def _years_told(bed: _Bed, goes_in: date) -> float:
    """How long the diary has told of that ground by then."""
    first = min((one.since for one in bed.stood), default=None)
    return years_without(goes_in, first) or 0.0


def _fits(off: float | None, told: float, advised: Advice) -> str:
    if advised.low is None or advised.high is None:
        return SO_FAR
    if off is None:
        return YES if told >= advised.high else SO_FAR
    if off >= advised.high:
        return YES
    return SOME if advised.enough(off) else NO


def usual_day(diary: Diary, crop: str, year: int) -> date:
    """The day of a year on which the crop usually goes in: the diary's median, else 1 April."""
    days = [one.since.timetuple().tm_yday for one in in_soil(diary) if one.crop == crop]
    return date(year, 1, 1) + timedelta(days=(int(median(days)) if days else 91) - 1)


# ------------------------------------------------------------ reasons


def _by_source(
    kin: Sequence[Stood], last: date | None, off: float | None, family: str, advised: Advice
) -> tuple[list[str], list[str]]:
    """What speaks for and against by the published years, each with who says so."""
    if last is None or off is None:
        return [f"no {family or 'such crop'} there in this diary"], []
    crops = ", ".join(dict.fromkeys(one.crop for one in kin if one.until >= last))
    there = f"{crops} there until {_said(last)}, {off:.1f} years"
    enough, too_soon = advised.enough(off), advised.too_soon(off)
    return (
        [f"{there}: enough for {', '.join(enough)}"] if enough else [],
        [f"{there}: too soon for {', '.join(too_soon)}"] if too_soon else [],
    )


def _practice(bed: _Bed, crop: str, year: int) -> tuple[list[str], list[str]]:
    """What gardeners say of dressings and of the crop before; no published source."""
    known = load().crops.get(crop)
    group = known.rotation_group if known is not None else ""
    # in the year before March, when the season's sowing begins
    given = within_a_year_before(date(year, 3, 1), bed.given)
    good, bad = [], []
    if (day := given.get("manure")) is not None:
        bad += [f"manured on {_said(day)} {_BY_PRACTICE}"] if is_root(crop) else []
        good += [f"manured on {_said(day)} {_BY_PRACTICE}"] if group in _HUNGRY else []
    if (day := given.get("lime")) is not None:
        bad += [f"limed on {_said(day)} {_BY_PRACTICE}"] if group == "potato" else []
        good += [f"limed on {_said(day)} {_BY_PRACTICE}"] if group == "brassica" else []
    if group == "brassica" and _followed(bed, year, "legume"):
        good.append(f"peas or beans there in {year - 1} {_BY_PRACTICE}")
    return good, bad


def _said(day: date) -> str:
    return f"{day.day} {day:%B %Y}"


def _followed(bed: _Bed, year: int, group: str) -> bool:
    crops = load().crops
    before = [one.crop for one in bed.stood if one.until.year == year - 1]
    return any(crop in crops and crops[crop].rotation_group == group for crop in before)
