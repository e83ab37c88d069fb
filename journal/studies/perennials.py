"""When perennials are picked: the first and last day of the picking season over the years."""

from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.ledger.habits import is_perennial
from journal.studies.pickings import pickings
from journal.studies.seasons import season_day

_DAYS_IN_YEAR = 365


@dataclass(frozen=True, slots=True)
class Window:
    """The usual days of the year from the first picking to the last, and over how many years."""

    first: float
    last: float
    years: int

    def around(self, today: date) -> tuple[date, date]:
        """The season that is on or comes next, as days."""
        for year in (today.year, today.year + 1):
            first, last = on_day(self.first, year), on_day(self.last, year)
            if last >= today:
                break
        return first, last


def on_day(day_of_year: float, year: int) -> date:
    """A day of the season in a year: 195 is 14 July in every year, 366 next New Year's Day."""
    more, day = divmod(round(day_of_year) - 1, _DAYS_IN_YEAR)
    return (date(2001, 1, 1) + timedelta(days=day)).replace(year=year + more)


def picking_windows(diary: Diary) -> dict[tuple[str, str], Window]:
    """The median first and last picking of each perennial, by crop and by crop and cultivar.

    Only years that have ended and whose pickings are all surely dated; a blank cultivar means
    all.
    """
    picked = pickings(diary.events)
    certain = picked["date"] == picked["date_end"]
    ended = (picked["year"] < diary.today.year).fillna(False).astype(bool)
    kept = picked[perennial(picked) & certain & ended].copy()
    kept["day"] = season_day(kept["date"])
    found: dict[tuple[str, str], Window] = {}
    for grain in (["crop"], ["crop", "cultivar"]):
        found |= _windows(kept, grain)
    return found


def perennial(rows: pd.DataFrame) -> "pd.Series[bool]":
    """Whether the crop of each row is known to be a perennial."""
    return pd.Series([is_perennial(crop) for crop in rows["crop"]], index=rows.index, dtype=bool)


def _windows(kept: pd.DataFrame, grain: list[str]) -> dict[tuple[str, str], Window]:
    years = kept.groupby([*grain, "year"])["day"].agg(["min", "max"]).reset_index()
    found: dict[tuple[str, str], Window] = {}
    for row in years[grain].drop_duplicates().to_dict("records"):
        own = years[(years[grain] == pd.Series(row)).all(axis=1)]
        key = (str(row["crop"]), str(row.get("cultivar", "")))
        found[key] = Window(_middle(own["min"]), _middle(own["max"]), len(own))
    return found


def _middle(days: "pd.Series[Any]") -> float:
    return float(median(days.tolist()))
