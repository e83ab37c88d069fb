"""The charts of weather and water draw their studies' figures, break at what was not read, and say
in a sentence what they show."""

from datetime import date, timedelta
from typing import Any

import pandas as pd
import pytest
from support.seattle import as_diary, seattle
from support.weather import weather_diary

from journal.charts.catalog import CHARTS
from journal.charts.climate import climate_chart
from journal.charts.files import chart_spec, chart_svg
from journal.charts.rain_store import rain_store_chart
from journal.charts.water_need import water_need_chart
from journal.diary import Diary
from journal.studies.climate_days import climate_days
from journal.studies.rain_store import rain_store
from journal.studies.water_need import water_need

NAMES = ("climate", "rain_store", "water_need")
SHEET = (
    "- plot Home, latitude 52\n- bed Long 1, 6 m2, soil loam\n- tank Butt, 200 l\n"
    "- roof Shed, 12 m2, to Butt"
)


def walk(value: Any) -> list[Any]:
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return [value, *(deep for each in inner for deep in walk(each))]


def layers_of(spec: dict[str, Any], panel: int) -> list[list[dict[str, Any]]]:
    """The rows of each layer of a panel."""
    named = spec["datasets"]
    one = spec["vconcat"][panel]
    own = one.get("data")
    return [named[(layer.get("data") or own)["name"]] for layer in one["layer"]]


@pytest.fixture(scope="module")
def dry() -> Diary:
    """A summer with two waterings, a gauge not read on 20 June, and a tank that runs over."""
    lines = []
    for at in range(120):
        day = date(2025, 4, 1) + timedelta(days=at)
        rain = 60.0 if at in (0, 30) else 0.0
        lines += [f"{day}", "- weather 8 to 20 C" + ("" if at == 80 else f", rain {rain} mm")]
        if at == 1:
            lines.append("- sow pea in Long 1\n- level Butt 150 l")
        if at in (60, 70):
            lines.append("- water Long 1 30 l from Butt")
        lines.append("")
    return weather_diary("\n".join(lines), SHEET, date(2025, 7, 29))


def drawn(name: str, diary: Diary, year: int = 2025) -> dict[str, Any]:
    frame = CHARTS[name].study(diary)
    return chart_spec(CHARTS[name].draw(frame[frame["year"] == year]))


@pytest.mark.parametrize("name", NAMES)
def test_no_chart_computes_a_figure(name: str, dry: Diary):
    keys = {key for value in walk(drawn(name, dry)) if isinstance(value, dict) for key in value}
    assert not keys & {"aggregate", "transform", "bin", "timeUnit", "impute"}


@pytest.mark.parametrize("name", NAMES)
def test_every_panel_has_a_title_a_unit_and_a_sentence(name: str, dry: Diary):
    spec = drawn(name, dry)
    for panel in spec["vconcat"]:
        assert panel["title"]["text"].endswith("2025") and panel["title"]["subtitle"]
        assert panel["description"].endswith(".") and "2025" in panel["description"]
        titles = {
            value["axis"]["title"]
            for value in walk(panel)
            if isinstance(value, dict) and isinstance(value.get("axis"), dict)
        }
        assert titles & {"mm", "°C", "°C days", "litres"}
    assert chart_svg(spec).startswith("<svg")


@pytest.mark.parametrize("name", NAMES)
def test_nothing_to_draw_is_said_in_a_sentence(name: str):
    nothing = weather_diary("3 May 2025\n- weed Long 1 1h\n")
    frame = CHARTS[name].study(nothing)
    assert frame.empty
    text = chart_spec(CHARTS[name].draw(frame))["description"]
    assert text.startswith("No ") and text.endswith(".")


@pytest.fixture(scope="module")
def four_years() -> pd.DataFrame:
    return climate_days(as_diary(seattle()))


def test_the_year_of_weather_draws_each_day_and_marks_each_frost(four_years: pd.DataFrame):
    spec = chart_spec(climate_chart(four_years[four_years["year"] == 2013]))
    freezing, strokes, dots = layers_of(spec, 0)
    own = four_years[four_years["year"] == 2013]
    assert [row["t_min_c"] for row in strokes] == own["t_min_c"].tolist()
    assert [row["t_max_c"] for row in strokes] == own["t_max_c"].tolist()
    # 26 frosts, by the dataset itself
    assert len(dots) == 26 and freezing == [{"at": 0.0}]
    assert "with 26 frosts" in spec["vconcat"][0]["description"]
    (rain,) = layers_of(spec, 1)
    assert sum(row["rain_mm"] for row in rain) == pytest.approx(828.0)


def test_sums_stand_beside_the_least_and_most_of_earlier_years(four_years: pd.DataFrame):
    spec = chart_spec(climate_chart(four_years[four_years["year"] == 2015]))
    titles = [panel["title"]["text"] for panel in spec["vconcat"]]
    assert titles == [
        "Temperature, 2015",
        "Rain, 2015",
        "Rain since New Year, 2015",
        "Degree days since New Year, 2015",
    ]
    rows = layers_of(spec, 2)[-1]
    assert (rows[-1]["rain_low"], rows[-1]["rain_high"]) == (828.0, 1232.8)
    assert rows[-1]["rain_to_date"] == pytest.approx(1139.2)
    assert "3 earlier years" in spec["vconcat"][2]["title"]["subtitle"][1]
    assert spec["vconcat"][2]["description"].endswith("earlier years had 828 to 1,233 by then.")


def test_a_year_with_many_days_not_read_has_no_sums_and_says_how_many():
    days = seattle()
    gone = days["date"].between("2012-03-01", "2012-04-09")
    frame = climate_days(as_diary(days[(days["date"].dt.year == 2012) & ~gone]))
    spec = chart_spec(climate_chart(frame))
    assert [panel["title"]["text"] for panel in spec["vconcat"]] == [
        "Temperature, 2012",
        "Rain, 2012",
    ]
    for panel in spec["vconcat"]:
        assert panel["title"]["subtitle"].endswith("Not read: 40 days.")


def test_a_bed_draws_its_lack_its_limit_the_rain_and_each_watering(dry: Diary):
    frame = water_need(dry)
    spec = chart_spec(water_need_chart(frame))
    band, limit, lack, rain, cans = layers_of(spec, 0)
    assert band == limit == lack
    assert [row["depletion_low_mm"] for row in lack] == frame["depletion_low_mm"].tolist()
    assert [row["readily_mm"] for row in lack] == frame["readily_mm"].tolist()
    assert [row["rain_mm"] for row in rain] == [60.0]
    assert [row["watered_mm"] for row in cans] == [5.0, 5.0]
    days = int((frame["state"] == "needs water").sum())
    assert days and f"on {days} days" in spec["description"]


def test_a_line_breaks_between_two_crops_of_a_place(dry: Diary):
    frame = water_need(dry)
    gap = frame["date"].between("2025-05-01", "2025-05-10")
    lack = layers_of(chart_spec(water_need_chart(frame[~gap])), 0)[2]
    assert sum(row["depletion_low_mm"] is None for row in lack) == 10


def test_a_watering_of_unknown_litres_stands_at_the_foot():
    page = "2025-06-01\n- weather 8 to 20 C, rain 90 mm\n- sow pea in Long 1\n- water Long 1\n"
    frame = water_need(weather_diary(page, SHEET, date(2025, 6, 1)))
    (row,) = layers_of(chart_spec(water_need_chart(frame)), 0)[4]
    assert row["watered_mm"] == 0.0


def test_a_tank_draws_its_level_the_readings_and_the_days_it_ran_over(dry: Diary):
    frame = rain_store(dry)
    spec = chart_spec(rain_store_chart(frame))
    _, level, over, read = layers_of(spec, 0)
    assert [row["level_low_l"] for row in level] == frame["level_low_l"].tolist()
    assert [row["read_l"] for row in read] == [150.0]
    # 576 l came on 1 May into a tank that held 150
    assert [row["overflow_l"] for row in over] == [526.0]
    assert "ran over on 1 day" in spec["description"]
