"""The weather table to one row a day of the open air: the diary's own reading wins over a met file.

Only readings whose day is certain; a day without a reading has no figure and is never a dry one.
"""

from collections.abc import Sequence
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary

# how several readings of one day come together
TOGETHER = {
    "t_min": "min",
    "t_max": "max",
    "rain": "sum",
    "snow": "sum",
    "sun": "max",
    "solar": "mean",
    "wind": "mean",
    "rh_min": "min",
    "rh_max": "max",
    "rh": "mean",
}
# what counts as having read the day
READ = ("rain", "t_min", "t_max")
DIARY = "diary"


@once_a_diary
def weather_days(diary: Diary) -> pd.DataFrame:
    """One row a day, indexed by `date`, with every variable of `TOGETHER` as a column.

    Gauge readings of one day add up, of two minima the lower counts and of two maxima the higher.
    Of a variable that the diary itself read on the day no met file counts; of several met files
    the first on the sheet. From the first day read to the last, each day has a row; what was not
    read is missing.
    """
    readings = open_air(diary)
    if readings.empty:
        index = pd.DatetimeIndex([], name="date", dtype="datetime64[s]")
        return pd.DataFrame({name: pd.Series(dtype="float64") for name in TOGETHER}, index=index)
    won = winning(readings, diary.sheet.met_files)
    columns = {
        name: won[won["variable"] == name].groupby("date")["value"].agg(how)
        for name, how in TOGETHER.items()
    }
    days = pd.DataFrame(columns)
    every = pd.date_range(days.index.min(), days.index.max(), freq="D", name="date", unit="s")
    whole: pd.DataFrame = days.reindex(every).astype("float64").round(6)
    return whole


def open_air(diary: Diary) -> pd.DataFrame:
    """The readings of the open air whose day is certain and has come, without mere words."""
    weather = diary.weather
    mine = (weather["place"] == "") & weather["value"].notna() & weather["variable"].isin(TOGETHER)
    mine &= (weather["date"] == weather["date_end"]).fillna(False)
    mine &= weather["date"] <= pd.Timestamp(diary.today)
    readings: pd.DataFrame = weather.loc[mine, ["date", "variable", "value", "source"]]
    return readings.astype({"value": "float64"})


def winning(readings: pd.DataFrame, met_files: Sequence[str]) -> pd.DataFrame:
    """Of each day and variable only the readings of the source that wins."""
    order = {name: at for at, name in enumerate((DIARY, *met_files))}
    rank = readings["source"].map(order)
    best = rank.groupby([readings["date"], readings["variable"]]).transform("min")
    won: pd.DataFrame = readings.loc[rank == best]
    return won


def rain_over_days(diary: Diary) -> pd.DataFrame:
    """Rain written under a stretch of days, such as `3 to 5 May`: `date`, `date_end`, `value`.

    None where a day of the stretch was read on its own, which would count it twice.
    """
    stretches = _rain_stretches(diary)
    kept = stretches[stretches["days_read"] == 0].reset_index(drop=True)
    return kept[["date", "date_end", "value"]]


def rain_left_out(diary: Diary) -> pd.DataFrame:
    """The stretches whose rain is in no year's sum: `date date_end value days days_read`.

    Some of their days were read on their own, though not all, or they run over the end of a year.
    """
    stretches = _rain_stretches(diary)
    over = stretches["date"].dt.year != stretches["date_end"].dt.year
    partly = stretches["days_read"].gt(0) | over
    kept: pd.DataFrame = stretches[partly & (stretches["days_read"] < stretches["days"])]
    return kept.reset_index(drop=True)


def _rain_stretches(diary: Diary) -> pd.DataFrame:
    weather = diary.weather
    mine = (weather["place"] == "") & (weather["variable"] == "rain") & weather["value"].notna()
    mine &= (weather["date"] < weather["date_end"]).fillna(False)
    mine &= weather["date_end"] <= pd.Timestamp(diary.today)
    stretches: pd.DataFrame = weather.loc[mine, ["date", "date_end", "value"]]
    read = weather_days(diary)["rain"].dropna().index
    spans = zip(stretches["date"], stretches["date_end"], strict=True)
    counts = [int(((read >= first) & (read <= last)).sum()) for first, last in spans]
    stretches["days"] = (stretches["date_end"] - stretches["date"]).dt.days + 1
    stretches["days_read"] = pd.array(counts, dtype="Int64")
    return stretches


def mean_temperature(days: pd.DataFrame) -> "pd.Series[Any]":
    """The day's mean as the middle of its extremes; missing where one of them is."""
    mean: pd.Series[Any] = (days["t_min"] + days["t_max"]) / 2
    return mean


def was_read(days: pd.DataFrame) -> "pd.Series[Any]":
    """Whether rain or a temperature was read on the day."""
    read: pd.Series[Any] = days[list(READ)].notna().any(axis=1)
    return read


def calendar(days: "pd.DataFrame | pd.Series[Any]") -> pd.DatetimeIndex:
    """The days that a frame of days is indexed by."""
    return pd.DatetimeIndex(days.index)
