"""Frosts of a year, by air minimum below 0 C: the last of spring, the first of autumn, between.

North of the equator spring is January to June; south of it the halves change places, and the
season between the frosts runs over the turn of the year.
"""

from dataclasses import dataclass
from typing import Any

import pandas as pd

from journal.studies.weather_days import calendar

FREEZING_C = 0.0
SECOND_HALF = 7


@dataclass(frozen=True, slots=True)
class Frosts:
    """One year's frosts; days are NaT where the year has none in that half.

    `begins` to `ends` are the days without frost between the last spring frost before and the
    first autumn frost, and `unread` how many nights of them have no reading.
    """

    days: int
    last_spring: Any = pd.NaT
    first_autumn: Any = pd.NaT
    begins: Any = pd.NaT
    ends: Any = pd.NaT
    unread: int = 0


def frosts_of_year(minima: "pd.Series[Any]", year: int, south: bool) -> Frosts:
    """The frosts of one calendar year; `minima` has a row for each day, missing where unread.

    A frost is a minimum below 0.0 C in the air; one at 0.0 is none (UK practice and ETCCDI index
    FD, list_27_indices; the Canadian count takes 0.0 in).
    """
    cold = calendar(minima[minima < FREEZING_C])
    of_year = _of(cold, cold.year == year)
    first_half = _of(of_year, of_year.month < SECOND_HALF)
    second_half = _of(of_year, of_year.month >= SECOND_HALF)
    spring, autumn = (second_half, first_half) if south else (first_half, second_half)
    last, first = _end(spring, -1), _end(autumn, 0)
    since = _last_before_midsummer(cold, year) if south else last
    if pd.isna(since) or pd.isna(first):
        return Frosts(len(of_year), last, first)
    day = pd.Timedelta(days=1)
    begins, ends = since + day, first - day
    unread = int(minima.loc[begins:ends].isna().sum())
    return Frosts(len(of_year), last, first, begins, ends, unread)


def _last_before_midsummer(cold: pd.DatetimeIndex, year: int) -> Any:
    """The last frost of the second half of the year before: spring south of the equator."""
    before = _of(cold, (cold.year == year - 1) & (cold.month >= SECOND_HALF))
    return _end(before, -1)


def _of(days: pd.DatetimeIndex, held: Any) -> pd.DatetimeIndex:
    return pd.DatetimeIndex(days[held])


def _end(days: pd.DatetimeIndex, at: int) -> Any:
    return days[at] if len(days) else pd.NaT
