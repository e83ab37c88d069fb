"""How much earlier or later each crop was first picked, in days and in degree days.

A cold spring delays a crop in days and not in degree days; a late sowing delays it in both.
"""

from datetime import date
from math import inf
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.water import load_water
from journal.studies.carried_over import carried_over_season
from journal.studies.degree_days import BASE_C, accumulated, daily_degree_days, highest_near
from journal.studies.notes import Note, counted, crop_words
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.seasons import certain_season, day_of_season
from journal.studies.shaping import shaped
from journal.studies.usual import is_south
from journal.studies.weather_days import weather_days

GRAINS = (["crop"], ["crop", "cultivar"])


@once_a_diary
def season_shift(diary: Diary) -> pd.DataFrame:
    """One row a crop, cultivar and year with a first picking of a certain day.

    A blank cultivar means all of the crop's. South of the equator a `year` runs from 1 July and is
    named by its January, so that a crop of December and one of January are of one season.

    - `date`: the day of the first picking, which is none that goes on from a crop of the year
      before (`carried_over`); `degree_days_low` and `..._high`: the sum from 1
      January (south of the equator 1 July of the year before) to it, both counted, by averaging
      (McMaster and Wilhelm 1997, method 1) above `base_c`: the crop's published base with its
      `source`, else 10 C. Low and high are the same where every day was read; each of the
      `unread` days had from none to as many as the warmest day read within a fortnight, and both
      are blank where there was no such day.
    - `change_days`: less the day of the year before, which is `before`; later is
      positive. Days are of the season: 29 February counts with 1 March. `change_low` to
      `change_high` the same in degree days.
    - `mean_change_days`, `mean_change_low`, `mean_change_high`: less the mean of all earlier years;
      `years_before` of them have the degree days.

    Plain differences, no published source.
    """
    south = is_south(diary)
    picked = pickings(diary.events)
    picked = picked[~picked["event"].isin(carried_over_season(diary))]
    picked = picked.assign(year=certain_season(picked, south))
    tables = [_firsts(picked, grain) for grain in GRAINS]
    rows = pd.concat(tables, ignore_index=True)
    rows = _warmed(rows, diary)
    rows["day"] = day_of_season(rows["date"], south)
    whole = [_against_earlier(own) for _, own in rows.groupby(["crop", "cultivar"], sort=True)]
    return shaped("season_shift", pd.concat(whole) if whole else [])


def warmth_apart(
    diary: Diary, crop: str, cultivar: str, days: tuple[date, date]
) -> tuple[float, float, float] | None:
    """Degree days to the first of two first pickings less those to the other: low, high, base in C.

    The days are those of rows of `season_shift`; None where one is not, or its sum is blank.
    """
    frame = season_shift(diary)
    own = frame[(frame["crop"] == crop) & (frame["cultivar"] == cultivar)]
    known = own.dropna(subset="degree_days_low")
    rows = [known[known["date"] == pd.Timestamp(day)] for day in days]
    if any(row.empty for row in rows):
        return None
    one, other = rows
    low = float(one["degree_days_low"].iloc[0] - other["degree_days_high"].iloc[0])
    high = float(one["degree_days_high"].iloc[0] - other["degree_days_low"].iloc[0])
    return low, high, float(one["base_c"].iloc[0])


def _firsts(picked: pd.DataFrame, grain: list[str]) -> pd.DataFrame:
    named = picked[(picked[grain] != "").all(axis=1) & picked["year"].notna()]
    sums = sum_pickings(named, ["year", *grain])
    kept = sums.loc[sums["first"].notna(), ["year", *grain, "first"]]
    return kept.rename(columns={"first": "date"}).assign(
        cultivar=kept["cultivar"] if "cultivar" in grain else ""
    )


def _warmed(rows: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    """The rows with the degree days of their season so far, by each crop's base."""
    days = weather_days(diary)
    south = is_south(diary)
    bases = [load_water().base(crop) for crop in rows["crop"]]
    rows["base_c"] = [BASE_C if base is None else base.base_c for base in bases]
    rows["source"] = ["" if base is None else base.source for base in bases]
    starts = [
        pd.Timestamp(int(year) - 1, 7, 1) if south else pd.Timestamp(int(year), 1, 1)
        for year in rows["year"]
    ]
    warmth = {base: daily_degree_days(days, base) for base in set(rows["base_c"])}
    highest = {base: highest_near(each) for base, each in warmth.items()}
    sums = [
        accumulated(warmth[base], highest[base], start, end)
        for start, end, base in zip(starts, rows["date"], rows["base_c"], strict=True)
    ]
    known = [each.high < inf for each in sums]
    rows["unread"] = [each.unread for each in sums]
    for name in ("low", "high"):
        figures = [
            getattr(each, name) if fine else None for each, fine in zip(sums, known, strict=True)
        ]
        rows[f"degree_days_{name}"] = pd.Series(figures, rows.index, dtype="Float64").round(6)
    return rows


def _against_earlier(own: pd.DataFrame) -> pd.DataFrame:
    """One crop's years, each beside the year before and the mean of all earlier ones."""
    own = own.sort_values("year", ignore_index=True)
    following: pd.Series[Any] = own["year"].diff() == 1
    low, high = own["degree_days_low"], own["degree_days_high"]
    own["before"] = own["date"].shift().where(following)
    own["change_days"] = own["day"].diff().where(following)
    own["change_low"] = (low - high.shift()).where(following)
    own["change_high"] = (high - low.shift()).where(following)
    own["mean_change_days"] = own["day"] - _mean_before(own["day"].astype("Float64"))
    own["mean_change_low"] = low - _mean_before(high)
    own["mean_change_high"] = high - _mean_before(low)
    own["years_before"] = low.notna().cumsum().shift(fill_value=0)
    return own


def _mean_before(figures: "pd.Series[Any]") -> "pd.Series[Any]":
    mean: pd.Series[Any] = figures.expanding().mean().shift()
    return mean


def shift_words(row: dict[Any, Any]) -> str:
    """A row as a person says it: `9 days and 40 degree days later than the year before`."""
    if pd.isna(row["change_days"]):
        return "no first picking of the year before to compare"
    days = int(row["change_days"])
    said = (
        f"{_later(days, 'day')} than the year before" if days else "the same day as the year before"
    )
    if pd.isna(row["change_low"]):
        return said
    low, high = round(row["change_low"]), round(row["change_high"])
    if low == high and days and low and (days > 0) == (low > 0):
        both = f"{counted(abs(days), 'day')} and {counted(abs(low), 'degree day')}"
        return f"{both} {'later' if days > 0 else 'earlier'} than the year before"
    return f"{said}, {_warmth(low, high)}"


def _warmth(low: int, high: int) -> str:
    """A change in degree days that may be a range: `11 degree days earlier`."""
    if low == high:
        return _later(low, "degree day") if low else "at the same degree days"
    if low < 0 < high:
        return f"between {-low} degree days earlier and {high} later"
    near, far = sorted((abs(low), abs(high)))
    return f"{near} to {far} degree days {'later' if high > 0 else 'earlier'}"


def _later(change: int, one: str) -> str:
    return f"{counted(abs(change), one)} {'later' if change > 0 else 'earlier'}"


def shift_notes(diary: Diary) -> list[Note]:
    """First pickings whose degree days are a range, since days before them were not read."""
    frame = season_shift(diary)
    short = frame[frame["unread"].gt(0) & (frame["cultivar"] == "")]
    short = short[short["degree_days_low"].notna()]
    return [
        Note(
            "season_shift",
            "weather",
            f"degree days of {crop_words(row['crop'])}",
            f"{counted(row['unread'], 'day')} before the first picking not read",
            int(row["year"]),
        )
        for row in short.to_dict("records")
    ]
