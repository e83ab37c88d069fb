"""How much earlier or later each crop was first picked, in days and in degree days.

A cold spring delays a crop in days and not in degree days; a late sowing delays it in both.
"""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.water import load_water
from journal.studies.degree_days import BASE_C, accumulated
from journal.studies.notes import Note, counted, crop_words
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.seasons import season_day
from journal.studies.weather_days import weather_days

GRAINS = (["crop"], ["crop", "cultivar"])
COLUMNS = {
    "crop": "string",
    "cultivar": "string",
    "year": "Int64",
    "date": "datetime64[s]",
    "base_c": "Float64",
    "source": "string",
    "degree_days": "Float64",
    "unread": "Int64",
    "before": "datetime64[s]",
    "change_days": "Int64",
    "change_degree_days": "Float64",
    "mean_change_days": "Float64",
    "mean_change_degree_days": "Float64",
    "years_before": "Int64",
}


@once_a_diary
def season_shift(diary: Diary) -> pd.DataFrame:
    """One row a crop, cultivar and year with a first picking of a certain day.

    A blank cultivar means all of the crop's.

    - `date`: the day of the first picking; `degree_days`: the sum from 1 January (south of the
      equator 1 July of the year before) to it, both counted, by averaging (McMaster and Wilhelm
      1997, method 1) above `base_c`: the crop's published base with its `source`, else 10 C. Blank
      where a day of these was not read, `unread` of them.
    - `change_days` and `change_degree_days`: less those of the calendar year before, whose day is
      `before`; later is positive. Days are of the season: 29 February counts with 1 March.
    - `mean_change_days`, `mean_change_degree_days`: less the mean of all earlier years that have
      the figure; `years_before` of them have the degree days.

    Plain differences, no published source.
    """
    picked = pickings(diary.events)
    tables = [_firsts(picked, grain) for grain in GRAINS]
    rows = pd.concat(tables, ignore_index=True)
    rows = _warmed(rows, diary)
    rows["day"] = season_day(rows["date"])
    whole = [_against_earlier(own) for _, own in rows.groupby(["crop", "cultivar"], sort=True)]
    frame = pd.concat(whole, ignore_index=True) if whole else rows.reindex(columns=list(COLUMNS))
    return frame[list(COLUMNS)].astype(COLUMNS)


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
    south = (diary.plot.latitude or 0.0) < 0
    bases = [load_water().base(crop) for crop in rows["crop"]]
    rows["base_c"] = [BASE_C if base is None else base.base_c for base in bases]
    rows["source"] = ["" if base is None else base.source for base in bases]
    starts = [
        pd.Timestamp(int(year) - 1, 7, 1) if south else pd.Timestamp(int(year), 1, 1)
        for year in rows["year"]
    ]
    sums = [
        accumulated(days, [start], [end], base)[0]
        for start, end, base in zip(starts, rows["date"], rows["base_c"], strict=True)
    ]
    rows["unread"] = [each.unread for each in sums]
    rows["degree_days"] = [None if each.unread else round(each.degree_days, 6) for each in sums]
    return rows.astype({"degree_days": "Float64"})


def _against_earlier(own: pd.DataFrame) -> pd.DataFrame:
    """One crop's years, each beside the year before and the mean of all earlier ones."""
    own = own.sort_values("year", ignore_index=True)
    following: pd.Series[Any] = own["year"].diff() == 1
    own["before"] = own["date"].shift().where(following)
    own["change_days"] = own["day"].diff().where(following)
    own["change_degree_days"] = own["degree_days"].diff().where(following)
    for name, figure in (("days", "day"), ("degree_days", "degree_days")):
        mean = own[figure].astype("Float64").expanding().mean().shift()
        own[f"mean_change_{name}"] = own[figure] - mean
    own["years_before"] = own["degree_days"].notna().cumsum().shift(fill_value=0)
    return own


def shift_words(row: dict[Any, Any]) -> str:
    """A row as a person says it: `9 days and 40 degree days later than the year before`."""
    days = None if pd.isna(row["change_days"]) else int(row["change_days"])
    warmth = row["change_degree_days"]
    if days is None:
        return "no first picking of the year before to compare"
    said = _said(days, "day")
    if pd.isna(warmth):
        return f"{said} than the year before" if days else "on the same day as the year before"
    degrees = round(warmth)
    if (days < 0) == (degrees < 0) and days and degrees:
        both = f"{counted(abs(days), 'day')} and {counted(abs(degrees), 'degree day')}"
        return f"{both} {'earlier' if days < 0 else 'later'} than the year before"
    parts = [said if days else "on the same day", _said(degrees, "degree day")]
    return f"{parts[0]} but {parts[1]} than the year before"


def _said(change: int, one: str) -> str:
    if not change:
        return f"no {one}s apart"
    return f"{counted(abs(change), one)} {'earlier' if change < 0 else 'later'}"


def shift_notes(diary: Diary) -> list[Note]:
    """First pickings whose degree days are not known because days before them were not read."""
    frame = season_shift(diary)
    short = frame[(frame["unread"] > 0) & (frame["cultivar"] == "")]
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
