"""The weather day by day and month by month, and how far each year had come beside earlier ones."""

from typing import Any

import numpy as np
import pandas as pd

from journal.diary import Diary
from journal.studies.degree_days import daily_degree_days
from journal.studies.frosts import FREEZING_C
from journal.studies.once import once_a_diary
from journal.studies.seasons import season_day
from journal.studies.shaping import shaped
from journal.studies.spells import RAIN_DAY_MM
from journal.studies.weather_days import (
    calendar,
    mean_temperature,
    rain_over_days,
    was_read,
    weather_days,
)

# an earlier year that lacks more of its days is no yardstick
MOST_LACKING = 1 / 30
_SUMS = ("rain", "degree_days")
_RANGE = ("low", "mean", "high", "years", "lacking")


@once_a_diary
def climate_days(diary: Diary) -> pd.DataFrame:
    """Each day of each year with any reading, to today: one row a day.

    `t_min_c t_max_c rain_mm degree_days` are the day's (base 10 C, averaging), blank where it was
    not read; `frost` is true for a minimum below 0 C. `rain_to_date` and `degree_days_to_date` sum
    what was read since 1 January, `..._unread` counts the days of the year so far that were not.
    `..._low`, `..._mean`, `..._high` are over the earlier years to the same day of theirs:
    `..._years` of them, of which the one read worst lacks `..._lacking` days. Only years count
    that lack at most one day in thirty, so that no gap looks like drought (common practice, no
    published source). 29 February counts with 1 March.
    """
    days = _whole_years(diary)
    frame = pd.DataFrame(
        {
            "year": calendar(days).year,
            "date": days.index,
            "t_min_c": days["t_min"].to_numpy(),
            "t_max_c": days["t_max"].to_numpy(),
            "rain_mm": days["rain"].to_numpy(),
            "degree_days": daily_degree_days(days).to_numpy(),
        }
    )
    frame["frost"] = (frame["t_min_c"] < FREEZING_C).astype("boolean").mask(frame["t_min_c"].isna())
    for name in _SUMS:
        column = frame["rain_mm" if name == "rain" else name]
        frame = frame.join(_to_date(frame["year"], frame["date"], column, name))
    return shaped("climate_days", frame)


def _whole_years(diary: Diary) -> pd.DataFrame:
    """The days of every year with a reading, from 1 January to 31 December or today."""
    days = weather_days(diary)
    years = sorted(set(calendar(days[was_read(days)]).year))
    last = pd.Timestamp(diary.today)
    spans = [
        pd.date_range(f"{year}-01-01", min(pd.Timestamp(year, 12, 31), last), unit="s")
        for year in years
    ]
    every = pd.DatetimeIndex(np.concatenate(spans)) if spans else calendar(days)
    return days.reindex(every)


def _to_date(
    year: "pd.Series[Any]", day: "pd.Series[Any]", values: "pd.Series[Any]", name: str
) -> pd.DataFrame:
    """The sum since 1 January and its range over the earlier years that were read well enough."""
    so_far = values.fillna(0).groupby(year).cumsum()
    unread = values.isna().groupby(year).cumsum()
    season = season_day(day).astype("int64")
    lacking = values.isna().groupby(year).sum()
    whole = lacking[lacking <= values.groupby(year).size() * MOST_LACKING]
    by_season = so_far.groupby([season, year]).last().unstack("year")
    parts = []
    for each in by_season.columns:
        counted = [other for other in whole.index if other < each]
        earlier = by_season[counted]
        stats = {
            f"{name}_low": earlier.min(axis=1),
            f"{name}_mean": earlier.mean(axis=1),
            f"{name}_high": earlier.max(axis=1),
            f"{name}_years": len(counted),
            f"{name}_lacking": whole[counted].max() if counted else 0,
        }
        mine = season[year == each]
        parts.append(pd.DataFrame(stats, by_season.index).reindex(mine).set_axis(mine.index))
    empty = pd.DataFrame({f"{name}_{part}": pd.Series(dtype="float64") for part in _RANGE})
    ranges = pd.concat(parts) if parts else empty
    told = pd.DataFrame({f"{name}_to_date": so_far, f"{name}_unread": unread})
    return told.join(ranges)


def well_read(days: pd.DataFrame, name: str) -> bool:
    """Whether one year's rows of `climate_days` lack at most one day in thirty of `name`."""
    return bool(days[f"{name}_unread"].max() <= len(days) * MOST_LACKING)


@once_a_diary
def climate_months(diary: Diary) -> pd.DataFrame:
    """One row a month with any reading: sums and means of what was read in it.

    `rain_mm rain_days frost_days degree_days` are counts and sums, `rain_mm` with what was written
    under several days of the month at once, `t_min_mean_c t_max_mean_c
    t_mean_c` means (of the middle of the extremes), `coldest_c hottest_c` the extremes.
    `rain_read` and `temperature_read` say on how many of the month's `days` it was read: a sum is
    at least that where they are fewer, a mean is of those days.
    """
    days = weather_days(diary)
    days = days[was_read(days)]
    by = [calendar(days).year.rename("year"), calendar(days).month.rename("month")]
    mean = mean_temperature(days)
    each = pd.DataFrame(
        {
            "rain_days": (days["rain"] >= RAIN_DAY_MM).where(days["rain"].notna()).astype(float),
            "frost_days": (days["t_min"] < FREEZING_C).where(days["t_min"].notna()).astype(float),
            "degree_days": daily_degree_days(days),
        }
    )
    groups, own = days.groupby(by), each.groupby(by)
    frame = pd.DataFrame(
        {
            "rain_mm": groups["rain"].sum(min_count=1),
            "rain_days": own["rain_days"].sum(min_count=1),
            "t_min_mean_c": groups["t_min"].mean(),
            "t_max_mean_c": groups["t_max"].mean(),
            "t_mean_c": mean.groupby(by).mean(),
            "coldest_c": groups["t_min"].min(),
            "hottest_c": groups["t_max"].max(),
            "frost_days": own["frost_days"].sum(min_count=1),
            "degree_days": own["degree_days"].sum(min_count=1),
            "rain_read": groups["rain"].count(),
            "temperature_read": mean.groupby(by).count(),
        }
    )
    frame = _with_stretches(frame, diary).reset_index()
    frame["days"] = pd.to_datetime(frame[["year", "month"]].assign(day=1)).dt.days_in_month
    return shaped("climate_months", frame)


def _with_stretches(months: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    """The months with the rain of stretches of days that lie in one of them."""
    stretches = rain_over_days(diary)
    first, last = stretches["date"].dt, stretches["date_end"].dt
    within = stretches[(first.year == last.year) & (first.month == last.month)]
    by = [within["date"].dt.year.rename("year"), within["date"].dt.month.rename("month")]
    more = within.groupby(by)["value"].sum()
    whole = months.reindex(months.index.union(more.index))
    counts = ["rain_read", "temperature_read"]
    whole[counts] = whole[counts].fillna(0)
    whole.loc[more.index, "rain_mm"] = whole["rain_mm"].add(more, fill_value=0)
    return whole
