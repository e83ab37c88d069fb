"""Frosts below, not at, 0 C, on both sides of the equator, and the growing season of ETCCDI."""

from datetime import date, timedelta
from math import cos, pi

import pandas as pd
from support.weather import weather_diary

from journal.diary import Diary
from journal.studies.climate import climate
from journal.studies.growing_season import growing_season


def diary_of(means: dict[date, tuple[float, float]], sheet: str = "- plot Home") -> Diary:
    lines = [
        f"{day}\n- weather min {low} C\n- weather max {high} C\n"
        for day, (low, high) in means.items()
    ]
    return weather_diary("\n".join(lines), sheet, max(means) + timedelta(days=1))


def value(diary: Diary, measure: str, year: int = 2025, name: str = "value"):
    frame = climate(diary)
    return frame.loc[(frame["measure"] == measure) & (frame["year"] == year), name].iloc[0]


def test_a_minimum_of_nought_is_no_frost():
    # ETCCDI FD: TN < 0 (list_27_indices); 0.0 and 0.1 are none, -0.1 and -3.0 are
    days = [date(2025, 1, day) for day in (1, 2, 3, 4)]
    lows = [0.0, -0.1, 0.1, -3.0]
    diary = diary_of({day: (low, 5.0) for day, low in zip(days, lows, strict=True)})
    assert value(diary, "frost days") == 2
    assert value(diary, "last spring frost") == -3.0
    assert value(diary, "last spring frost", name="date") == pd.Timestamp("2025-01-04")


def test_a_word_of_frost_without_a_figure_is_no_minimum():
    diary = weather_diary("3 January 2025\n- weather frost\n- rain 1 mm\n")
    assert pd.isna(value(diary, "frost days"))


def test_frosts_before_and_after_midsummer_are_springs_and_autumns():
    diary = diary_of({date(2025, 6, 30): (-1.0, 9.0), date(2025, 7, 1): (-2.0, 9.0)})
    assert value(diary, "last spring frost", name="date") == pd.Timestamp("2025-06-30")
    assert value(diary, "first autumn frost", name="date") == pd.Timestamp("2025-07-01")
    assert value(diary, "frost-free days") == 0


def year_of(year: int, frosts: set[date]) -> dict[date, tuple[float, float]]:
    first = date(year, 1, 1)
    days = [first + timedelta(days=at) for at in range(365 + (year % 4 == 0))]
    return {day: (-1.0 if day in frosts else 6.0, 15.0) for day in days}


def test_south_of_the_equator_the_halves_change_places():
    frosts = {date(2024, 9, 20), date(2025, 5, 10), date(2025, 8, 1), date(2025, 10, 2)}
    days = year_of(2024, frosts) | year_of(2025, frosts)
    diary = diary_of(days, "- plot Home, latitude -33.9")
    assert value(diary, "first autumn frost", name="date") == pd.Timestamp("2025-05-10")
    assert value(diary, "last spring frost", name="date") == pd.Timestamp("2025-10-02")
    # 21 September 2024 to 9 May 2025: the season that ended in 2025
    assert value(diary, "frost-free days", name="date") == pd.Timestamp("2024-09-21")
    assert value(diary, "frost-free days") == (date(2025, 5, 10) - date(2024, 9, 20)).days - 1


def sinusoid(false_start: bool) -> dict[date, tuple[float, float]]:
    """A year whose daily mean is 10 - 8 cos(2 pi (day - 15) / 365), with five warm days in Feb."""
    days = {}
    for at in range(365):
        day = date(2025, 1, 1) + timedelta(days=at)
        mean = 10 - 8 * cos(2 * pi * (at + 1 - 15) / 365)
        if false_start and date(2025, 2, 1) <= day <= date(2025, 2, 6):
            mean = 3.0 if day.day == 6 else 6.0
        days[day] = (mean, mean)
    return days


def test_a_growing_season_begins_with_six_warm_days_and_not_with_five():
    # xclim 0.62.0 growing_season_length on the same series: 260 days from 9 March, cold from 24
    # November
    frame = growing_season(diary_of(sinusoid(false_start=True)))
    row = frame[frame["year"] == 2025].iloc[0]
    assert (str(row["begins"].date()), str(row["ends"].date())) == ("2025-03-09", "2025-11-24")
    assert (row["days"], row["unread"]) == (260, 0)


def test_a_day_at_five_degrees_is_neither_warm_nor_cold():
    days = year_of(2025, set())
    days = {day: (5.0, 5.0) for day in days}
    row = growing_season(diary_of(days)).iloc[0]
    assert pd.isna(row["begins"]) and pd.isna(row["days"])


def test_a_season_is_blank_where_days_before_or_within_it_were_not_read():
    whole = sinusoid(false_start=False)
    before = {day: means for day, means in whole.items() if day != date(2025, 2, 1)}
    assert pd.isna(growing_season(diary_of(before)).iloc[0]["begins"])
    within = {day: means for day, means in whole.items() if day != date(2025, 6, 1)}
    row = growing_season(diary_of(within)).iloc[0]
    assert str(row["begins"].date()) == "2025-03-09"
    assert pd.isna(row["days"]) and row["unread"] == 1


def test_in_the_south_a_season_is_named_by_the_year_it_begins_in():
    north = sinusoid(false_start=False)
    south = {day + timedelta(days=181): means for day, means in north.items()}
    frame = growing_season(diary_of(south, "- plot Home, latitude -33.9"))
    row = frame[frame["days"].notna()].iloc[0]
    assert row["year"] == 2025 and row["days"] == 260


def test_a_season_does_not_end_before_it_begins():
    # six cold days from 1 July stand before the first six warm ones, and six cold ones after them
    warm = {date(2025, 8, at): (9.0, 9.0) for at in range(1, 21)}
    days = {day: (3.0, 3.0) for day in year_of(2025, set())} | warm
    row = growing_season(diary_of(days)).iloc[0]
    assert (str(row["begins"].date()), str(row["ends"].date())) == ("2025-08-01", "2025-08-21")
    assert row["days"] == 20
