"""Degree days of a day from its extremes, by averaging with either threshold rule and by a sine.

The functions take figures or columns of them, in one scale, and give degree days of that scale.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd

from journal.diary import Diary
from journal.reference.water import BaseTemperature, load_water
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.weather_days import calendar, weather_days

BASE_C = 10.0
NEAR_DAYS = 14
Figures = Any


def by_mean(low: Figures, high: Figures, base: float, cutoff: float | None = None) -> Figures:
    """Simple averaging, the thresholds applied to the mean: max(min(mean, cutoff), base) - base.

    McMaster and Wilhelm 1997, Agric. For. Meteorol. 87:291-300, method 1.
    """
    return np.clip((low + high) / 2, base, cutoff) - base


def by_extremes(low: Figures, high: Figures, base: float, cutoff: float | None = None) -> Figures:
    """Simple averaging, the thresholds applied to each extreme first: the mean of both less base.

    McMaster and Wilhelm 1997, method 2; with 50 F and 86 F the rule of maize growers in the US. It
    differs from method 1 only where an extreme lies beyond a threshold.
    """
    return (np.clip(low, base, cutoff) + np.clip(high, base, cutoff)) / 2 - base


def by_sine(low: Figures, high: Figures, base: float, cutoff: float | None = None) -> Figures:
    """Single sine with a horizontal cutoff: S(base) - S(cutoff), of a sine through the extremes.

    With m the mean, a half the range and t = arcsin((T - m) / a), the part above a threshold T is
    S(T) = ((m - T)(pi/2 - t) + a cos t) / pi between the extremes, m - T where the whole day is
    above, 0 where it is below. Baskerville and Emin 1969, Ecology 50:514-517, in the six-case form
    of the University of California; angles in radians.
    """
    above = _sine_above(low, high, base)
    return above if cutoff is None else above - _sine_above(low, high, cutoff)


def _sine_above(low: Figures, high: Figures, threshold: float) -> Figures:
    low, high = np.asarray(low, dtype=float), np.asarray(high, dtype=float)
    middle, half = (low + high) / 2, (high - low) / 2
    between = (low < threshold) & (threshold < high)
    angle = np.arcsin(np.divide(threshold - middle, half, out=np.zeros_like(half), where=between))
    part = ((middle - threshold) * (np.pi / 2 - angle) + half * np.cos(angle)) / np.pi
    whole = np.where(np.isnan(middle), np.nan, np.maximum(middle - threshold, 0.0))
    return np.where(between, part, whole)


METHODS = {
    "averaging, mean against the thresholds": by_mean,
    "averaging, extremes against the thresholds": by_extremes,
    "single sine": by_sine,
}


def daily_degree_days(
    days: pd.DataFrame, base: float = BASE_C, cutoff: float | None = None
) -> "pd.Series[Any]":
    """Degree days of each day by averaging (method 1), missing where an extreme is."""
    counted: pd.Series[Any] = by_mean(days["t_min"], days["t_max"], base, cutoff)
    return counted


@once_a_diary
def degree_days(diary: Diary) -> pd.DataFrame:
    """Degree days of each year by every method, for the usual base and for each crop's own.

    One row a year, method and base: `crop year method base_c cutoff_c degree_days days_read
    source`, in C days. The rows without a crop have base 10 C. A crop of the diary has a row where
    a published base was read (`source`); bases differ between sources, so the first of the table
    is taken and named. `degree_days` sums the `days_read` days that had both extremes.
    """
    days = weather_days(diary)
    wanted = [BaseTemperature("", BASE_C, None, ""), *crop_bases(diary)]
    frames = [_yearly(days, base, method) for base in wanted for method in METHODS]
    return shaped("degree_days", pd.concat(frames, ignore_index=True))


def crop_bases(diary: Diary) -> list[BaseTemperature]:
    """The published base of each crop that was sown or planted, in order of their names."""
    grown = diary.events.loc[diary.events["kind"].isin(["sowing", "planting"]), "crop"]
    found = (load_water().base(crop) for crop in sorted(set(grown)))
    return [base for base in found if base is not None]


def _yearly(days: pd.DataFrame, base: BaseTemperature, method: str) -> pd.DataFrame:
    each = METHODS[method](days["t_min"], days["t_max"], base.base_c, base.cutoff_c)
    by_year = pd.Series(each, index=days.index).groupby(calendar(days).year)
    sums = pd.DataFrame({"degree_days": by_year.sum(min_count=1), "days_read": by_year.count()})
    return (
        sums.rename_axis("year")
        .reset_index()
        .assign(
            crop=base.crop,
            method=method,
            base_c=base.base_c,
            cutoff_c=np.nan if base.cutoff_c is None else base.cutoff_c,
            source=base.source,
        )
    )


@dataclass(frozen=True, slots=True)
class Sum:
    """Degree days over a stretch of days: at least `low`, at most `high`, with `unread` days."""

    low: float
    high: float
    unread: int


def accumulated(
    each: "pd.Series[Any]", highest: "pd.Series[Any]", start: pd.Timestamp, end: pd.Timestamp
) -> Sum:
    """Degree days from one day to another, both counted.

    `each` are the degree days of every day and `highest` those of `highest_near`: a day that was
    not read has from none to as many as the warmest read within a fortnight of it, without bound
    where none was.
    """
    stretch = each.loc[start:end]
    days = (end - start).days + 1
    read = stretch.notna()
    unread = days - int(read.sum())
    low = float(stretch.sum())
    if not unread:
        return Sum(low, low, 0)
    near = highest.loc[start:end][~read]
    bounded = len(stretch) == days and near.notna().all()
    return Sum(low, low + float(near.sum()) if bounded else np.inf, unread)


def highest_near(each: "pd.Series[Any]") -> "pd.Series[Any]":
    """Of every day the most degree days of a day read within a fortnight before or after it."""
    near: pd.Series[Any] = each.rolling(2 * NEAR_DAYS + 1, center=True, min_periods=1).max()
    return near
