"""The weather table to figures of each year, month and day, with what was not read beside them."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.degree_days import daily_degree_days
from journal.studies.frosts import Frosts, frosts_of_year
from journal.studies.notes import Note, counted
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.spells import RAIN_DAY_MM, TRACE_MM, longest_run
from journal.studies.weather_days import (
    READ,
    calendar,
    rain_left_out,
    rain_over_days,
    was_read,
    weather_days,
)

Row = dict[str, Any]
READ_AS = {"rain": "rain", "t_min": "the minimum", "t_max": "the maximum"}
RUNS = {"longest run under 1 mm": RAIN_DAY_MM, "longest run under 0.2 mm": TRACE_MM}


@once_a_diary
def climate(diary: Diary) -> pd.DataFrame:
    """The weather of each year: the columns of the table `climate`, one row a year and measure.

    Of the open air, the diary's own reading before a met file's; a reading belongs to the day it is
    written under. Days that were not read are no figure: `days read` says how many were.

    - `rain` (mm): the sum of what was read, with totals of several days that lie in the year.
    - `rain days`: days with 1.0 mm or more (the ETCCDI wet day).
    - `wettest day` (mm): the most on one day, the earliest of equals.
    - `frost days`: days with an air minimum below 0.0 C (ETCCDI index FD).
    - `last spring frost`, `first autumn frost` (C): the minimum and its day, in the half of the
      year before and after midsummer, mirrored south of the equator.
    - `frost-free days`: the days between the two, neither counted; blank where a night between
      was not read. South of the equator from the spring of the year before.
    - `longest run under 1 mm`, `longest run under 0.2 mm` (days): within the calendar year,
      whatever the length; a day not read ends it.
    - `degree days` (C d): sum of max(mean - 10, 0), mean = (minimum + maximum) / 2: simple
      averaging, base 10 C (McMaster and Wilhelm 1997, method 1). Other bases and methods: the
      study `degree days`.
    - `days read`: days with rain, a minimum or a maximum.
    """
    days = weather_days(diary)
    stretches = rain_over_days(diary)
    south = (diary.plot.latitude or 0.0) < 0
    read = {*calendar(days[was_read(days)]).year, *_within(stretches).dropna().dt.year}
    rows = [
        {"year": year} | row
        for year in sorted(read)
        for row in _figures(
            days[calendar(days).year == year],
            stretches[_within(stretches).dt.year == year],
            frosts_of_year(days["t_min"], year, south),
        )
    ]
    return shaped("climate", rows)


def _within(stretches: pd.DataFrame) -> "pd.Series[Any]":
    """The last day of each stretch that lies in one year; missing for one over its end."""
    same = stretches["date"].dt.year == stretches["date_end"].dt.year
    return stretches["date_end"].where(same)


def _row(measure: str, value: Any, unit: str, first: Any = pd.NaT, last: Any = pd.NaT) -> Row:
    return {"measure": measure, "value": value, "unit": unit, "date": first, "date_end": last}


def _figures(own: pd.DataFrame, stretches: pd.DataFrame, frosts: Frosts) -> list[Row]:
    return [*_rain(own["rain"], stretches), *_frosts(own["t_min"], frosts), *_rest(own)]


def _rain(rain: "pd.Series[Any]", stretches: pd.DataFrame) -> list[Row]:
    over_days = stretches["value"].sum(min_count=1)
    if not rain.notna().any():
        return [
            _row("rain", over_days, "mm"),
            _row("rain days", pd.NA, "days"),
            _row("wettest day", pd.NA, "mm"),
        ]
    total = rain.sum() + (0 if pd.isna(over_days) else over_days)
    wettest: Any = rain.idxmax()
    return [
        _row("rain", round(total, 6), "mm"),
        _row("rain days", int((rain >= RAIN_DAY_MM).sum()), "days"),
        _row("wettest day", rain[wettest], "mm", wettest, wettest),
    ]


def _frosts(minima: "pd.Series[Any]", frosts: Frosts) -> list[Row]:
    count = frosts.days if minima.notna().any() else pd.NA
    known = not pd.isna(frosts.begins) and not frosts.unread
    free = (frosts.ends - frosts.begins).days + 1 if known else pd.NA
    span = (frosts.begins, frosts.ends) if known else (pd.NaT, pd.NaT)
    return [
        _row("frost days", count, "days"),
        _frost("last spring frost", frosts.last_spring, minima),
        _frost("first autumn frost", frosts.first_autumn, minima),
        _row("frost-free days", free, "days", *span),
    ]


def _frost(measure: str, day: Any, minima: "pd.Series[Any]") -> Row:
    return _row(measure, pd.NA if pd.isna(day) else minima[day], "C", day, day)


def _rest(own: pd.DataFrame) -> list[Row]:
    each = daily_degree_days(own)
    total = round(float(each.sum()), 6) if each.notna().any() else pd.NA
    return [
        *(_run(measure, own["rain"], limit) for measure, limit in RUNS.items()),
        _row("degree days", total, "C d"),
        _row("days read", int(was_read(own).sum()), "days"),
    ]


def _run(measure: str, rain: "pd.Series[Any]", limit: float) -> Row:
    if not rain.notna().any():
        return _row(measure, pd.NA, "days")
    return _row(measure, *_split(longest_run(rain < limit)))


def _split(run: tuple[int, Any, Any]) -> tuple[int, str, Any, Any]:
    days, first, last = run
    return days, "days", first, last


@once_a_diary
def climate_gaps(diary: Diary) -> pd.DataFrame:
    """What was not read: `year variable days days_read days_unread longest_gap begins ends`.

    One row a year of the climate study and variable (rain, t_min, t_max). `days` are those of the
    year, of the year still open those to today; `begins` to `ends` is the longest gap.
    """
    days = weather_days(diary)
    years = sorted(set(calendar(days[was_read(days)]).year))
    rows = [_gap(days[name], year, diary) for year in years for name in READ]
    return shaped("climate_gaps", rows)


def _gap(readings: "pd.Series[Any]", year: int, diary: Diary) -> Row:
    last = min(pd.Timestamp(year, 12, 31), pd.Timestamp(diary.today))
    every = pd.date_range(pd.Timestamp(year, 1, 1), last, freq="D", unit="s")
    missing = readings.reindex(every).isna()
    longest, begins, ends = longest_run(missing)
    unread = int(missing.sum())
    counts = {"days": len(every), "days_read": len(every) - unread, "days_unread": unread}
    place = {"longest_gap": longest, "begins": begins, "ends": ends}
    return {"year": year, "variable": readings.name} | counts | place


def climate_notes(diary: Diary) -> list[Note]:
    """Years that are less than whole because days were not read, and rain in no year's sum."""
    gaps = climate_gaps(diary)
    unread = [
        Note(
            "climate",
            "weather",
            READ_AS[row["variable"]],
            f"not read on {counted(row['days_unread'], 'day')} of {row['days']}",
            int(row["year"]),
        )
        for row in gaps[gaps["days_unread"] > 0].to_dict("records")
    ]
    return unread + [_left_out(row) for row in rain_left_out(diary).to_dict("records")]


def _left_out(row: dict[Any, Any]) -> Note:
    first, last = row["date"], row["date_end"]
    days = f"{row['value']:g} mm of {first.day} {first:%B %Y} to {last.day} {last:%B %Y}"
    if not row["days_read"]:
        return Note("climate", "weather", "rain", f"{days} may belong to either year")
    why = f"{counted(row['days_read'], 'day')} of them read alone too, so they are not added"
    year = first.year if first.year == last.year else None
    return Note("climate", "weather", "rain", f"{days}: {why}", year)
