"""First pickings beside earlier years in days and degree days, by hand on made-up springs."""

from datetime import date, timedelta

import pandas as pd
import pytest
from support.weather import weather_diary

from journal.diary import Diary
from journal.studies.season_shift import season_shift, shift_notes, shift_words
from journal.studies.seasons import day_of_season


def year(year: int, warm: float, picked: str, left_out: str = "") -> str:
    """Days from 1 January to July whose mean is `warm` C, with a first picking of beans."""
    lines = []
    day = date(year, 1, 1)
    while day < date(year, 8, 1):
        if str(day) != left_out:
            lines += [str(day), f"- weather {warm - 5} to {warm + 5} C"]
            lines += ["- pick 1 kg french bean from Top bed"] if str(day) == picked else []
            lines.append("")
        day += timedelta(days=1)
    return "\n".join(lines)


def diary_of(*years: str, sheet: str = "- plot Home") -> Diary:
    return weather_diary("\n".join(years), sheet)


def beans(diary: Diary, of: int) -> dict:
    frame = season_shift(diary)
    (row,) = frame[(frame["crop"] == "french bean") & (frame["year"] == of)].to_dict("records")
    return row


def test_a_crop_that_came_later_in_days_and_in_degree_days():
    # base 10 C (NCSU, beans): 1 January to 10 July 2023 is 191 days of 2 degree days, 2024 to 18
    # July 200 days of 2.2, of which 29 February is one
    diary = diary_of(year(2023, 12.0, "2023-07-10"), year(2024, 12.2, "2024-07-18"))
    before, row = beans(diary, 2023), beans(diary, 2024)
    assert before["degree_days_low"] == pytest.approx(191 * 2.0)
    assert row["degree_days_high"] == pytest.approx(200 * 2.2)
    assert (row["change_days"], f"{row['before']:%Y-%m-%d}") == (8, "2023-07-10")
    assert (row["change_low"], row["change_high"]) == pytest.approx((58, 58))
    assert row["source"] == "M. Peet, North Carolina State University"
    assert shift_words(row) == "8 days and 58 degree days later than the year before"
    assert shift_words(before) == "no first picking of the year before to compare"


def test_a_cold_spring_delays_the_days_and_not_the_warmth():
    # 182 days of 3.0 degree days, 191 of 2.8: 546 against 534.8
    diary = diary_of(year(2022, 13.0, "2022-07-01"), year(2023, 12.8, "2023-07-10"))
    row = beans(diary, 2023)
    assert row["change_days"] == 9
    assert shift_words(row) == "9 days later than the year before, 11 degree days earlier"


def test_the_mean_of_all_earlier_years_stands_beside_it():
    diary = diary_of(
        year(2021, 12.0, "2021-07-01"),
        year(2022, 12.0, "2022-07-05"),
        year(2023, 12.0, "2023-07-09"),
    )
    row = beans(diary, 2023)
    assert (row["mean_change_days"], row["years_before"]) == (6.0, 2)
    assert row["mean_change_low"] == pytest.approx(12.0)


def test_a_year_between_that_has_none_is_not_the_year_before():
    diary = diary_of(year(2021, 12.0, "2021-07-01"), year(2023, 12.0, "2023-07-09"))
    row = beans(diary, 2023)
    assert pd.isna(row["change_days"]) and row["mean_change_days"] == 8.0


def test_a_day_not_read_may_have_been_as_warm_as_any_within_a_fortnight():
    diary = diary_of(
        year(2022, 12.0, "2022-07-01"), year(2023, 12.0, "2023-07-09", left_out="2023-03-03")
    )
    row = beans(diary, 2023)
    # 190 days of 2 degree days, less the one not read, which had from 0 to 2
    assert (row["degree_days_low"], row["degree_days_high"]) == (378.0, 380.0)
    assert row["unread"] == 1
    assert shift_words(row) == "8 days later than the year before, 14 to 16 degree days later"
    assert [str(note) for note in shift_notes(diary)] == [
        "degree days of french bean: 1 day before the first picking not read"
    ]


def test_without_any_day_near_one_not_read_nothing_is_said_of_warmth():
    page = "1 January 2022\n- weather 8 to 20 C\n\n1 July 2022\n- pick 1 kg leek from Top bed\n"
    row = season_shift(weather_diary(page)).iloc[0]
    assert pd.isna(row["degree_days_low"]) and pd.isna(row["degree_days_high"])


@pytest.mark.parametrize(
    ("days", "low", "high", "said"),
    [
        (9, 40.0, 40.0, "9 days and 40 degree days later than the year before"),
        (-9, -40.0, -40.0, "9 days and 40 degree days earlier than the year before"),
        (0, 12.0, 12.0, "the same day as the year before, 12 degree days later"),
        (3, 0.0, 0.0, "3 days later than the year before, at the same degree days"),
        (
            1,
            -5.0,
            7.0,
            "1 day later than the year before, between 5 degree days earlier and 7 later",
        ),
        (2, pd.NA, pd.NA, "2 days later than the year before"),
    ],
)
def test_a_shift_is_said_in_words(days: int, low, high, said: str):
    assert shift_words({"change_days": days, "change_low": low, "change_high": high}) == said


def test_a_crop_without_a_published_base_has_ten():
    page = year(2023, 12.0, "2023-07-01").replace("french bean", "oca")
    row = season_shift(diary_of(page)).iloc[0]
    assert (row["base_c"], row["source"]) == (10.0, "")


def test_nothing_picked_gives_no_rows():
    assert season_shift(weather_diary("3 May 2025\n- weed Top bed 1h\n")).empty


SOUTH = "- plot Home, latitude -38"


def test_south_of_the_equator_a_season_runs_over_new_year():
    # French beans above 10 C: 1 July to 15 December 2023 is 168 days of 3 degree days; 1 July 2024
    # to 8 January 2025 is 192; 1 July to 20 December 2025 is 173
    lines, day = [], date(2023, 7, 1)
    while day <= date(2026, 1, 31):
        lines += [str(day), "- weather 8 to 18 C"]
        if str(day) in ("2023-12-15", "2025-01-08", "2025-12-20"):
            lines += ["- pick 1 kg french bean from Top bed"]
        lines.append("")
        day += timedelta(days=1)
    diary = diary_of("\n".join(lines), sheet=SOUTH)
    rows = [beans(diary, year) for year in (2024, 2025, 2026)]
    assert [f"{row['date']:%Y-%m-%d}" for row in rows] == ["2023-12-15", "2025-01-08", "2025-12-20"]
    assert [row["degree_days_low"] for row in rows] == pytest.approx([504.0, 576.0, 519.0])
    # 15 December to 8 January is 24 days; back to 20 December 19
    assert [row["change_days"] for row in rows[1:]] == [24, -19]
    assert [row["change_low"] for row in rows[1:]] == pytest.approx([72.0, -57.0])


@pytest.mark.parametrize(
    ("first", "second", "days"),
    [
        ("2024-02-29", "2025-03-01", 0),  # 29 February counts with 1 March
        ("2023-06-30", "2023-07-01", -364),  # the last and the first day of a season
        ("2023-07-01", "2024-07-02", 1),
    ],
)
def test_days_of_a_southern_season_count_from_july(first: str, second: str, days: int):
    both = pd.Series(pd.to_datetime([first, second]))
    one, other = day_of_season(both, south=True)
    assert other - one == days
