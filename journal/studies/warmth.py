"""First pickings by warmth: the usual degree days from a beginning, and how well they predict."""

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.water import load_water
from journal.studies.degree_days import BASE_C, daily_degree_days
from journal.studies.weather_days import weather_days

ENOUGH_YEARS = 2
# a prediction that would come later than this many days after the real day is not looked for
FARTHEST = 200


Span = tuple[date, date]


@dataclass(frozen=True)
class Warmth:
    """The temperatures of a diary, for one question after the other."""

    diary: Diary

    @cached_property
    def days(self) -> pd.DataFrame:
        """The weather, one row a day."""
        return weather_days(self.diary)

    def of(self, crop: str, spans: list[Span]) -> dict[str, float]:
        """`base_c`, `degree_days` and `degree_error_days` of beginnings and what came of each.

        The base is the crop's published one, else 10 C. Empty where fewer than two spans have a
        reading of every day.
        """
        if self.days.empty:
            return {}
        known = load_water().base(crop)
        base = BASE_C if known is None else known.base_c
        each = daily_degree_days(self.days, base, None if known is None else known.cutoff_c)
        whole = [span for span in spans if _all_read(each, *span)]
        if len(whole) < ENOUGH_YEARS:
            return {}
        sums = [float(_stretch(each, *span).sum()) for span in whole]
        row = {"base_c": base, "degree_days": median(sums)}
        errors = [
            _error(each, span, median(sums[:at] + sums[at + 1 :])) for at, span in enumerate(whole)
        ]
        found = [error for error in errors if error is not None]
        if len(found) == len(errors):
            row["degree_error_days"] = sum(found) / len(found)
        return row


def _stretch(each: "pd.Series[Any]", first: date, last: date) -> "pd.Series[Any]":
    return each.loc[pd.Timestamp(first) : pd.Timestamp(last)]


def _all_read(each: "pd.Series[Any]", first: date, last: date) -> bool:
    stretch = _stretch(each, first, last)
    return len(stretch) == (last - first).days + 1 and bool(stretch.notna().all())


def _error(each: "pd.Series[Any]", span: Span, wanted: float) -> float | None:
    """Days between the real day and the one on which so many degree days were reached.

    None where they were never reached, or a day on the way was not read.
    """
    first, last = span
    later = _stretch(each, first, last + timedelta(days=FARTHEST))
    warm = (later.cumsum() >= wanted).to_numpy()
    if not warm.any():
        return None
    days = int(warm.argmax())
    if later.iloc[:days].isna().any():
        return None
    return float(abs(days - (last - first).days))
