"""Usual days from the diary's own years, worked by hand, and how far off they would have been."""

from datetime import date, timedelta
from typing import Any

import pandas as pd
import pytest
from support.written import SHEET, written

from journal.studies.ahead import ahead, ahead_notes, ahead_years, falling_due
from journal.studies.happened import day_of_year, over_new_year
from journal.studies.perennials import on_day
from journal.tables.schema import check_frame


def sowings(*days: str, crop: str = "beetroot") -> str:
    return "".join(f"{day}\n- sow 10 {crop} in Long 1\n" for day in days)


def the_row(page: str, today: date, what: str = "sowing", sheet: str = SHEET) -> dict[str, Any]:
    frame = ahead(written(page, today, sheet))
    check_frame(frame, "ahead")
    (row,) = frame[(frame["what"] == what) & (frame["cultivar"] == "")].to_dict("records")
    return row


def test_the_usual_day_is_the_middle_of_the_years_and_its_error_what_the_others_would_have_said():
    # days of the year 100, 104 and 114 (10, 14 and 24 April); without each in turn the middle of
    # the other two is 109, 107 and 102: off by 9, 3 and 12 days, 8 in the mean
    row = the_row(sowings("2023-04-10", "2024-04-14", "2025-04-24"), date(2026, 3, 1))
    assert (row["years"], row["earliest"], row["usual"], row["latest"]) == (3, 100, 104, 114)
    assert (row["error_days"], row["error_most"]) == (8, 12)
    assert [row[name].date() for name in ("due_low", "due", "due_high")] == [
        date(2026, 4, 10),
        date(2026, 4, 14),
        date(2026, 4, 24),
    ]


def test_only_the_first_of_a_year_counts():
    page = sowings("2023-04-10", "2023-06-01", "2024-04-14", "2024-07-01")
    assert the_row(page, date(2026, 3, 1))["usual"] == 102


def test_what_has_happened_this_year_is_told_and_not_due():
    row = the_row(sowings("2024-04-10", "2025-04-14", "2026-04-02"), date(2026, 5, 1))
    assert row["this_year"].date() == date(2026, 4, 2)
    assert row["years"] == 2 and pd.isna(row["due"])


def test_what_was_first_done_this_year_has_no_usual_day_at_all():
    row = the_row(sowings("2026-02-10"), date(2026, 3, 1))
    assert row["years"] == 0 and row["this_year"].date() == date(2026, 2, 10)
    assert pd.isna(row["earliest"]) and pd.isna(row["latest"])


def test_one_year_makes_no_usual_day():
    page = sowings("2025-04-10")
    row = the_row(page, date(2026, 3, 1))
    assert pd.isna(row["usual"]) and pd.isna(row["due"]) and row["source"] == ""
    (note,) = ahead_notes(written(page, date(2026, 3, 1)))
    assert str(note) == "sowing of beetroot: only one year before this one tells when"


def test_without_two_years_the_published_days_to_harvest_are_shown_with_their_source():
    # NDSU H-912 prints 50 to 80 days for beetroot, and 1 April is its sowing
    page = sowings("2025-04-01") + "2025-06-10\n- pull 1 kg beetroot\n- clear beetroot\n"
    page += sowings("2026-04-01")
    row = the_row(page, date(2026, 5, 1), "first picking")
    assert (row["due_low"].date(), row["due_high"].date()) == (date(2026, 5, 21), date(2026, 6, 20))
    assert "H-912" in row["source"] and pd.isna(row["usual"])


def test_autumn_sowings_are_told_apart_from_those_of_spring():
    page = sowings("2024-02-10", "2024-10-20", "2025-02-20", "2025-10-30", crop="broad bean")
    frame = ahead(written(page, date(2026, 1, 1)))
    sown = frame[(frame["what"] == "sowing") & (frame["cultivar"] == "")]
    assert dict(zip(sown["season"], sown["usual"], strict=True)) == {"autumn": 298, "spring": 46}


def test_south_of_the_equator_autumn_begins_in_february():
    sheet = SHEET.replace("latitude 54", "latitude -36")
    page = sowings("2024-03-10", "2025-03-20", crop="broad bean")
    assert the_row(page, date(2026, 1, 1), sheet=sheet)["season"] == "autumn"


def test_a_day_that_is_not_certain_is_no_usual_day():
    page = "April 2023\n- sow 10 beetroot in Long 1\n" + sowings("2024-04-10", "2025-04-20")
    assert the_row(page, date(2026, 3, 1))["years"] == 2


def test_a_perennials_first_picking_is_that_of_each_year():
    page = "2020-03-01\n- plant 2 rhubarb in Long 1\n" + "".join(
        f"{day}\n- pick 500 g rhubarb\n"
        for day in ("2024-03-10", "2024-05-01", "2025-03-20", "2025-06-01")
    )
    assert the_row(page, date(2026, 1, 1), "first picking")["usual"] == 74


def test_days_on_both_sides_of_new_year_lie_in_one_winter():
    assert over_new_year([350, 10]) == [350, 375]
    assert over_new_year([100, 120]) == [100, 120]
    assert on_day(375, 2025) == date(2026, 1, 10)


@pytest.mark.parametrize("year", [2023, 2024])
def test_a_day_of_the_season_has_one_number_in_every_year(year: int):
    assert day_of_year(date(year, 7, 14)) == 195
    assert on_day(195, year) == date(year, 7, 14)
    assert day_of_year(date(2024, 2, 29)) == day_of_year(date(2024, 3, 1)) == 60


def test_what_falls_due_is_what_is_usual_by_now_and_not_yet_done():
    page = sowings("2024-04-10", "2025-04-20") + sowings("2024-08-01", "2025-08-03", crop="kale")
    one = written(page, date(2026, 4, 12))
    assert falling_due(one, 7)["crop"].tolist() == ["beetroot"]
    assert falling_due(written(page, date(2026, 4, 21)), 7).empty
    assert falling_due(written(page + sowings("2026-04-01"), date(2026, 4, 12)), 7).empty


def test_a_picking_falls_due_only_of_what_stands():
    page = "".join(
        f"{year}-04-01\n- sow 10 beetroot in Long 1\n"
        f"{year}-06-15\n- pull 1 kg beetroot\n- clear Long 1\n"
        for year in (2024, 2025)
    )
    assert falling_due(written(page, date(2026, 6, 12)), 7)["what"].tolist() == []
    standing = written(page + sowings("2026-04-01"), date(2026, 6, 12))
    assert falling_due(standing, 7)["what"].tolist() == ["first picking"]


def test_each_year_stands_beside_those_before_it():
    page = sowings("2023-04-10", "2024-04-14", "2025-04-24")
    frame = ahead_years(written(page, date(2026, 3, 1)))
    frame = frame[(frame["cultivar"] == "") & (frame["what"] == "sowing")].set_index("year")
    assert frame["day"].astype(object).where(frame["day"].notna(), None).to_dict() == {
        2023: 100,
        2024: 104,
        2025: 114,
        2026: None,
    }
    assert frame["years_before"].tolist() == [0, 1, 2, 3]
    assert frame.loc[2025, ["earliest_before", "usual_before", "latest_before"]].tolist() == [
        100,
        102,
        104,
    ]


def warm(year: int, degrees: float) -> str:
    """Every day from April to July with a mean so many degrees above the base of 10 C."""
    first = date(year, 4, 1)
    days = (first + timedelta(days=at) for at in range(120))
    return "".join(f"{day}\n- weather {8 + degrees:g} to {12 + degrees:g} C\n" for day in days)


def test_the_usual_warmth_from_sowing_to_picking_predicts_better_than_the_calendar():
    # sown on 1 April; 5 and 10 degree days a day, both days counted: picked after 40 days of 5 and
    # after 20 of 10, both 200 degree days, so that each year's sum finds the other's day exactly,
    # and the calendar is off by 20 days
    page = warm(2024, 5) + warm(2025, 10)
    for year, day in ((2024, "05-10"), (2025, "04-20")):
        page += f"{year}-04-01\n- sow 10 beetroot in Long 1\n{year}-{day}\n- pull 1 kg beetroot\n"
        page += f"{year}-07-01\n- clear Long 1\n"
    row = the_row(page, date(2026, 3, 1), "first picking")
    assert (row["base_c"], row["degree_days"], row["degree_error_days"]) == (10, 200, 0)
    assert row["error_days"] == 20


def test_without_every_days_temperature_there_is_no_warmth():
    page = sowings("2024-04-01", "2025-04-01")
    page += "2024-06-01\n- pull 1 kg beetroot\n- clear Long 1\n2025-06-10\n- pull 1 kg beetroot\n"
    row = the_row(page, date(2026, 3, 1), "first picking")
    assert pd.isna(row["degree_days"]) and row["usual"] == 156.5


def test_first_pickings_on_both_sides_of_new_year_are_each_of_their_own_season():
    # south of the equator, sown each September: 15 December 2023, 8 January 2025 (day 373 of the
    # season begun in 2024) and 20 December 2025
    page = "".join(
        f"{sown}\n- sow beetroot in Long 1\n\n{picked}\n- pull 1 kg beetroot from Long 1\n\n"
        f"{cleared}\n- clear Long 1\n\n"
        for sown, picked, cleared in (
            ("2023-09-10", "2023-12-15", "2024-01-20"),
            ("2024-09-20", "2025-01-08", "2025-02-10"),
            ("2025-09-25", "2025-12-20", "2026-01-20"),
        )
    )
    sheet = "- plot Home, latitude -38\n- bed Long 1, 6 m2\n"
    row = the_row(page, date(2026, 2, 12), "first picking", sheet)
    assert (row["years"], row["earliest"], row["usual"], row["latest"]) == (3, 349, 354, 373)
    # 14.5, 7 and 21.5 days off the middle of the two others
    assert row["error_days"] == pytest.approx(43 / 3)
