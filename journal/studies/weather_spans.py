"""The weather of any stretch of days: totals, extremes and frosts, with the days not read counted.

The open air comes from `weather_days`; a place under glass from the diary's own readings there.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.frosts import FREEZING_C, frosts_of_year
from journal.studies.spells import RAIN_DAY_MM, longest_run
from journal.studies.weather_days import TOGETHER, rain_over_days, weather_days


@dataclass(frozen=True, slots=True)
class Total:
    """A sum over a stretch: `value` in the variable's unit, None where no day was read.

    `read` and `unread` are days; the days that one reading of several covers are read.
    """

    value: float | None
    read: int
    unread: int


def readings(
    diary: Diary, variable: str, first: date | None, last: date | None, places: Sequence[str] = ()
) -> "pd.Series[Any]":
    """The readings of a variable by day: the open air's, or those written of `places`.

    From the first day to the last or today, missing where not read; without an end, from or to
    where the weather begins or ends.
    """
    values = _under_glass(diary, variable, places) if places else weather_days(diary)[variable]
    known = values.dropna().index
    if known.empty:
        return values.iloc[0:0]
    start = known.min() if first is None else pd.Timestamp(first)
    end = min(known.max() if last is None else pd.Timestamp(last), pd.Timestamp(diary.today))
    every = pd.date_range(start, max(start, end), unit="s") if start <= end else known[:0]
    found: pd.Series[Any] = values.reindex(every)
    return found


def _under_glass(diary: Diary, variable: str, places: Sequence[str]) -> "pd.Series[Any]":
    weather = diary.weather
    mine = weather["place"].isin(places) & weather["value"].notna()
    mine &= (weather["variable"] == variable) & (weather["date"] == weather["date_end"])
    rows = weather[mine.fillna(False)].astype({"value": "float64"})
    found: pd.Series[Any] = rows.groupby("date")["value"].agg(TOGETHER[variable])
    return found


def total(diary: Diary, variable: str, first: date | None, last: date | None) -> Total:
    """The sum of a variable over the days that were read, with rain written under several days."""
    days = readings(diary, variable, first, last)
    stretches = _stretches(diary, first, last) if variable == "rain" else pd.DataFrame()
    days = _with_days_of(stretches, days, (first, last and min(last, diary.today)))
    covered = _covered(days, stretches)
    if not days.notna().any() and stretches.empty:
        return Total(None, 0, len(days))
    more = float(stretches["value"].sum()) if len(stretches) else 0.0
    read = int(days.notna().sum()) + covered
    return Total(round(float(days.sum()) + more, 6), read, len(days) - read)


def _stretches(diary: Diary, first: date | None, last: date | None) -> pd.DataFrame:
    found = rain_over_days(diary)
    if first is not None:
        found = found[found["date"] >= pd.Timestamp(first)]
    if last is not None:
        found = found[found["date_end"] <= pd.Timestamp(last)]
    return found


def _with_days_of(
    stretches: pd.DataFrame, days: "pd.Series[Any]", period: tuple[date | None, date | None]
) -> "pd.Series[Any]":
    """The days of the period, also where nothing but stretches of them was read; missing then.

    Without an end, from or to where the weather begins or ends.
    """
    if stretches.empty:
        return days
    ends = [stretches["date"].min(), stretches["date_end"].max(), *days.index]
    start, end = (
        limit if asked is None else pd.Timestamp(asked)
        for asked, limit in zip(period, (min(ends), max(ends)), strict=True)
    )
    whole: pd.Series[Any] = days.reindex(pd.date_range(start, end, unit="s"))
    return whole


def _covered(days: "pd.Series[Any]", stretches: pd.DataFrame) -> int:
    covered = pd.Series(False, index=days.index)
    for first, last in zip(stretches.get("date", ()), stretches.get("date_end", ()), strict=True):
        covered |= (days.index >= first) & (days.index <= last)
    return int((covered & days.isna()).sum())


def frosts(diary: Diary, first: date | None, last: date | None) -> "pd.Series[Any]":
    """The minima below 0 C, by day."""
    minima = readings(diary, "t_min", first, last)
    found: pd.Series[Any] = minima[minima < FREEZING_C]
    return found


def wet_days(diary: Diary, first: date | None, last: date | None) -> "pd.Series[Any]":
    """The days with 1.0 mm of rain or more (the ETCCDI wet day)."""
    rain = readings(diary, "rain", first, last)
    found: pd.Series[Any] = rain[rain >= RAIN_DAY_MM]
    return found


def dry_run(diary: Diary, first: date | None, last: date | None) -> tuple[int, Any, Any]:
    """The longest run of days under 1 mm of rain: days, its first and its last; unread ends it."""
    rain = readings(diary, "rain", first, last)
    return longest_run(rain < RAIN_DAY_MM) if len(rain) else (0, pd.NaT, pd.NaT)


def season_frost(
    diary: Diary, year: int, *, spring: bool, south: bool
) -> tuple[pd.Timestamp, float] | None:
    """The last frost before midsummer of a year, or the first after it, with its minimum in C."""
    minima = weather_days(diary)["t_min"]
    found = frosts_of_year(minima, year, south)
    day = found.last_spring if spring else found.first_autumn
    return None if pd.isna(day) else (day, float(minima[day]))


def by_span(days: "pd.Series[Any]", span: str) -> pd.DataFrame:
    """Sums of a variable by calendar `month` or `year`: `value`, `read`, `days`, `unread`.

    A month or year cut short by the first or the last day read has unread days.
    """
    period = "M" if span == "month" else "Y"
    whole = pd.date_range(
        days.index.min().to_period(period).start_time,
        days.index.max().to_period(period).end_time.normalize(),
        unit="s",
    )
    full = days.reindex(whole)
    groups = full.groupby(full.index.to_period(period))  # type: ignore[attr-defined]
    table = pd.DataFrame(
        {"value": groups.sum(min_count=1), "read": groups.count(), "days": groups.size()}
    )
    table["unread"] = table["days"] - table["read"]
    return table.rename_axis(span).reset_index()
