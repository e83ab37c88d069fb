"""The year, month and day of the season of events whose days may be uncertain.

A day that may lie in two years belongs to neither: its year is missing, never guessed.
"""

from typing import Any

import pandas as pd

# from 1 July to the next 1 January
HALF_A_YEAR = pd.Timedelta(days=184)


def certain_year(events: pd.DataFrame) -> "pd.Series[Any]":
    """The year that holds both the first and the last possible day, else missing."""
    year: pd.Series[Any] = events["date"].dt.year.astype("Int64")
    return year.where(year == events["date_end"].dt.year.astype("Int64"))


def certain_month(events: pd.DataFrame) -> "pd.Series[Any]":
    """The month (1 to 12) that holds both possible days of one year, else missing."""
    month: pd.Series[Any] = events["date"].dt.month.astype("Int64")
    same = month == events["date_end"].dt.month.astype("Int64")
    return month.where(same & certain_year(events).notna())


def season_day(days: "pd.Series[Any]") -> "pd.Series[Any]":
    """The day of the year, counted as in a year without 29 February, which counts with 1 March.

    So 14 July is day 195 in every year, and a shift between two years is one of the calendar.
    """
    day: pd.Series[Any] = days.dt.day_of_year.astype("Int64")
    past_february: pd.Series[Any] = days.dt.is_leap_year & (day > 60).fillna(False)
    day -= past_february.astype("Int64")
    return day


def certain_season(events: pd.DataFrame, south: bool) -> "pd.Series[Any]":
    """The year of the growing season that holds both possible days, else missing.

    South of the equator from 1 July to 30 June, named by its January; elsewhere the calendar year.
    """
    return certain_year(events[["date", "date_end"]] + HALF_A_YEAR if south else events)


def day_of_season(days: "pd.Series[Any]", south: bool) -> "pd.Series[Any]":
    """The day of the growing season, 1 the first; 29 February counts with 1 March."""
    day = season_day(days)
    # 1 July is day 182 of the calendar
    return (day - 182) % 365 + 1 if south else day


def to_day_of_season(events: pd.DataFrame, month: int, day: int) -> pd.DataFrame:
    """Events that were certainly over by this day of their own year."""
    end = events["date_end"]
    over = (end.dt.month < month) | ((end.dt.month == month) & (end.dt.day <= day))
    sure: pd.DataFrame = events.loc[over & certain_year(events).notna()]
    return sure
