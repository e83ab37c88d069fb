"""The sections of weather, warmth, water and tanks: there when the year holds them, and true."""

from datetime import date

import pytest
from support.garden import garden
from support.seattle import as_diary, seattle
from support.weather import weather_diary

from journal.diary import Diary
from journal.report.thirst import thirst_aside, thirst_lines
from journal.report.weather_sections import (
    rain_store_section,
    warmth_section,
    water_section,
    weather_section,
)

SHEET = (
    "- plot Home, latitude {latitude}\n- bed Long 1, 6 m2, soil loam\n- tank Butt, 200 l\n"
    "- roof Shed, 12 m2, to Butt"
)


def summer(latitude: float = 52.0) -> Diary:
    """Peas sown after a soaking, then two months without rain."""
    lines = ["2025-05-01", "- sow pea in Long 1", "- weather 8 to 20 C, rain 200 mm", ""]
    for at in range(1, 62):
        day = date.fromordinal(date(2025, 5, 1).toordinal() + at)
        lines += [str(day), "- weather 8 to 20 C, rain 0 mm", ""]
    return weather_diary("\n".join(lines), SHEET.format(latitude=latitude), date(2025, 7, 1))


@pytest.fixture(scope="module")
def four_years() -> Diary:
    return as_diary(seattle())


def test_a_diary_without_weather_has_none_of_them():
    for make in (weather_section, warmth_section, water_section, rain_store_section):
        assert make(garden(), 2025) is None


def test_the_year_is_said_in_the_figures_of_the_study(four_years: Diary):
    # Seattle 2012, figures computed from the dataset itself; 48 days published
    section = weather_section(four_years, 2012)
    assert section is not None and section.chart is not None
    assert section.words.endswith("Every day was read.")
    assert section.items == (
        "Rain: 1,226 mm, 1 mm or more on 148 days; the wettest was 19 November with 54.1 mm.",
        "Frosts, below 0 °C: 18 nights; the last of spring 19 March (−1.1 °C) and the first of "
        "autumn 10 November (−0.6 °C).",
        "Longest without 1 mm on a day: 81 days, 23 July to 11 October.",
        "Longest without 0.2 mm on a day: 48 days, 23 July to 8 September.",
        "Between the last frost of spring and the first of autumn: 235 days.",
        "Degree days above 10 °C: 1,133.",
    )
    months, spells = section.tables
    assert len(months.rows) == 12
    assert ("absolute drought", "23 Jul", "8 Sep", "48", "0") in [row[:5] for row in spells.rows]


def test_a_year_with_gaps_says_how_many_days_and_that_sums_are_at_least():
    days = seattle()
    gone = days["date"].between("2012-03-01", "2012-04-09")
    section = weather_section(as_diary(days[(days["date"].dt.year == 2012) & ~gone]), 2012)
    assert section is not None
    assert section.words.endswith(
        "Not read: rain on 40 days, the minimum on 40 days and the maximum on 40 days; sums are "
        "at least what they say."
    )
    assert not [item for item in section.items if item.startswith("Between the last frost")]


def test_thirst_is_told_with_its_method_and_its_worst():
    section = water_section(summer(), 2025)
    assert section is not None and section.chart is not None
    assert "FAO-56 (1998)" in section.words and "beyond 55 degrees" not in section.words
    (row,) = section.tables[0].rows
    assert row[:2] == ("Long 1", "pea") and int(row[2]) > 0


def test_the_caveat_of_the_north_stands_with_the_figures():
    section = water_section(summer(latitude=57.5), 2025)
    assert section is not None and "Beyond 55 degrees of latitude" in section.words
    assert "Beyond 55 degrees" in thirst_aside(summer(latitude=57.5))
    assert "Beyond 55 degrees" not in thirst_aside(summer())


def test_the_tanks_stand_with_their_caution():
    section = rain_store_section(summer(), 2025)
    assert section is not None and "not for drinking" in section.caution
    # 12 m2 x 200 mm x 0.8
    assert section.tables[0].rows[0][:2] == ("Butt", "1,920")


def test_first_pickings_are_told_by_warmth():
    page = "".join(
        f"{year}-01-{day:02}\n- weather {10 + year % 2} to 20 C\n"
        + ("- pick 1 kg kale from Top bed\n" if day == first else "")
        + "\n"
        for year, first in ((2024, 10), (2025, 15))
        for day in range(1, 20)
    )
    section = warmth_section(weather_diary(page), 2025)
    assert section is not None
    # kale has 4.444 C (40 F, Delaware): 10 days of 10.556 in 2024, 15 of 11.056 in 2025
    assert section.tables[0].rows == (("kale", "15 Jan", "5 days and 60 degree days later", "4.4"),)


def test_haulm_now_names_the_thirsty_places_with_their_litres():
    (line,) = thirst_lines(summer())
    place, says, row = line
    assert place == "Long 1"
    assert says.startswith("pea: ") and says.endswith(" l to fill")
    assert row["past_l"] > 0 and row["fill_l"] > row["past_l"] and row["crops"] == ["pea"]
    assert thirst_lines(garden()) == []
