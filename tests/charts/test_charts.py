"""Every chart draws its study's figures and no others, and says in a sentence what it shows."""

from typing import Any

import pandas as pd
import pytest
from support.garden import garden
from support.hand_made import diary, happened, picked

from journal.charts.catalog import CHARTS
from journal.charts.files import chart_spec
from journal.charts.harvest import harvest_chart
from journal.charts.labour import labour_chart
from journal.charts.words import running
from journal.charts.years import whole_crops, years_chart
from journal.studies.catalog import STUDIES
from journal.studies.harvest import harvest
from journal.studies.labour import labour, labour_totals
from journal.studies.years import years

# the charts of weather and water are held to the same in test_weather_charts.py
# and the garden has neither prices nor corners: worth and plan have tests of their own
ELSEWHERE = {"money worth", "plan"}
NAMES = sorted(
    name for name in CHARTS if name not in ELSEWHERE and not CHARTS[name].study(garden(1)).empty
)
STUDY_OF = {"climate": "climate_days"}


def drawn(name: str, one: Any, year: int = 2025) -> dict[str, Any]:
    frame = CHARTS[name].study(one)
    return chart_spec(CHARTS[name].draw(frame[frame["year"] == year]))


def walk(value: Any) -> list[Any]:
    """Every value of a document, itself and all below it."""
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return [value, *(deep for each in inner for deep in walk(each))]


def rows_of(spec: dict[str, Any]) -> list[list[dict[str, Any]]]:
    """The data of each panel."""
    named = spec["datasets"]
    panels = spec.get("vconcat", [spec])
    return [named[_data(panel, spec)["name"]] for panel in panels]


def _data(panel: dict[str, Any], spec: dict[str, Any]) -> dict[str, Any]:
    """A panel's own data, else that of its first layer, else the chart's."""
    return panel.get("data") or panel.get("layer", [{}])[0].get("data") or spec["data"]


@pytest.mark.parametrize("name", sorted(CHARTS))
def test_a_chart_is_of_the_study_of_its_name(name: str) -> None:
    assert CHARTS[name].study is STUDIES[STUDY_OF.get(name, name)]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("varieties", [1, 4, 40])
def test_no_chart_computes_a_figure(name: str, varieties: int) -> None:
    spec = drawn(name, garden(varieties))
    keys = {key for value in walk(spec) if isinstance(value, dict) for key in value}
    assert not keys & {"aggregate", "transform", "bin", "timeUnit", "impute"}
    assert all(value.get("stack") is None for value in walk(spec) if isinstance(value, dict))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("varieties", [1, 4, 40])
def test_every_panel_says_what_it_shows_and_each_figure_has_its_unit(
    name: str, varieties: int
) -> None:
    spec = drawn(name, garden(varieties))
    assert spec["description"].endswith(".")
    assert "2025" in spec["description"]
    for panel in spec.get("vconcat", [spec]):
        assert panel["description"].endswith(".")
        assert panel["title"]["text"]
        titles = [axis["title"] for axis in axes(panel) if axis.get("title")]
        assert titles or "Person-hours" in panel["title"]["subtitle"]


def axes(panel: dict[str, Any]) -> list[dict[str, Any]]:
    found = [value.get("axis") for value in walk(panel) if isinstance(value, dict)]
    return [axis for axis in found if axis]


def test_the_harvest_chart_draws_the_studys_rows_whole() -> None:
    one = garden(7)
    frame = harvest(one)
    frame = frame[frame["year"] == 2025]
    (rows,) = rows_of(drawn("harvest", one))
    shown = pd.DataFrame(rows).sort_values(["crop", "cultivar", "place"], ignore_index=True)
    own = frame.sort_values(["crop", "cultivar", "place"], ignore_index=True)
    for column in ("crop", "cultivar", "place", "kg", "pickings", "unweighed", "kg_per_m2"):
        assert shown[column].tolist() == own[column].tolist(), column


def test_the_heaviest_crop_stands_first_with_all_its_rows() -> None:
    one = diary(
        [
            picked("leek", "2025-01-01", 3.0),
            picked("kale", "2025-01-01", 2.0, place="A"),
            picked("kale", "2025-01-01", 2.5, place="B"),
            picked("chard", "2025-01-01"),
        ]
    )
    (rows,) = rows_of(drawn("harvest", one))
    assert [row["name"] for row in rows] == ["kale · B", "kale · A", "leek", "chard"]
    assert [row["says"] for row in rows] == ["2.5 kg", "2 kg", "3 kg", "not weighed"]


def test_a_weight_that_leaves_pickings_out_says_so() -> None:
    one = diary([picked("kale", "2025-01-01", 0.85), picked("kale", "2025-02-01")])
    (rows,) = rows_of(drawn("harvest", one))
    assert rows[0]["says"] == "≥ 850 g"


def test_several_years_stand_one_below_the_other() -> None:
    spec = chart_spec(harvest_chart(harvest(garden(2))))
    assert [panel["title"]["text"] for panel in spec["vconcat"]] == [
        "Picked in 2023",
        "Picked in 2024",
        "Picked in 2025",
    ]


def test_the_labour_chart_draws_the_studys_totals() -> None:
    one = garden(12)
    frame = labour(one)
    frame = frame[frame["year"] == 2025]
    months, places, jobs = rows_of(drawn("labour", one))
    assert sum(row["minutes"] for row in months) == pytest.approx(frame["minutes"].sum())
    own = labour_totals(frame, ["place"])
    assert [(row["place"], row["hours"]) for row in places] == list(
        zip(own["place"], own["hours"], strict=True)
    )
    verbs = labour_totals(frame, ["verb"])["verb"].tolist()
    assert [row["job"] for row in jobs] == [running(verb) for verb in verbs]


def test_small_jobs_stand_together_and_are_counted() -> None:
    # 20 jobs of 60, 59 ... 41 min: the 14 longest by name, the six of 46 to 41 min are 261 min
    one = diary(
        [
            happened("job", f"hoe {at}", "2025-05-01", minutes=60.0 - at, place="A")
            for at in range(20)
        ]
    )
    *_, jobs = rows_of(drawn("labour", one))
    assert [row["name"] for row in jobs][-2:] == ["hoeing 13", "6 other jobs"]
    assert jobs[-1]["minutes"] == 261
    assert "20 jobs" in drawn("labour", one)["vconcat"][-1]["description"]


def test_time_without_a_place_stands_last_beside_its_own_bar() -> None:
    one = diary(
        [
            happened("job", "dig", "2025-05-01", minutes=30.0, place="A"),
            happened("job", "weed", "2025-05-02", minutes=90.0),
        ]
    )
    places = drawn("labour", one)["vconcat"][1]
    assert places["description"].endswith("A took most, 30 min; 1 h 30 min with no place written.")
    shares = [
        row for rows in drawn("labour", one)["datasets"].values() for row in rows if "until" in row
    ]
    assert [(row["job"], row["row"], row["until"]) for row in shares] == [
        ("other jobs", 1, 1.5),
        ("digging", 0, 0.5),
    ]


def test_time_of_an_uncertain_month_stands_in_no_month() -> None:
    one = diary([happened("job", "dig", "2025-05-28", "2025-06-03", minutes=60.0)])
    spec = drawn("labour", one)
    assert [panel["title"]["text"] for panel in spec["vconcat"]] == [
        "Hours by place, 2025",
        "Hours by job, 2025",
    ]


def test_the_years_chart_draws_the_studys_rows() -> None:
    one = garden(4)
    frame = years(one)
    weights = whole_crops(frame[frame["year"] == 2025], "kg")
    shown, firsts = rows_of(drawn("years", one))
    assert {row["crop"]: row["value"] for row in shown} == dict(
        zip(weights["crop"], weights["value"], strict=True)
    )
    assert {row["crop"]: row["before"] for row in shown} == dict(
        zip(weights["crop"], weights["before"], strict=True)
    )
    assert [row["value"] for row in firsts] == sorted(row["value"] for row in firsts)


def test_a_shift_is_said_in_days() -> None:
    one = diary([picked("pea", "2024-07-14", 1.0), picked("pea", "2025-07-12", 1.4)])
    (weight,), (first,) = rows_of(drawn("years", one))
    assert weight["says"] == "1.4 kg (+40 %)"
    assert first["says"] == "12 July, 2 days earlier"


def test_a_weight_of_nothing_does_not_break_a_logarithm() -> None:
    one = diary(
        [
            picked("pea", "2024-07-14", 0.0),
            picked("pea", "2025-07-12", 1.4),
            picked("leek", "2025-07-12", 0.0),
        ]
    )
    (weight,), _ = rows_of(drawn("years", one))
    assert weight["crop"] == "pea"


@pytest.mark.parametrize("draw", [harvest_chart, labour_chart, years_chart])
def test_nothing_to_draw_is_a_sentence_and_not_an_empty_frame(draw: Any) -> None:
    empty = {harvest_chart: harvest, labour_chart: labour, years_chart: years}[draw](diary([]))
    spec = chart_spec(draw(empty))
    assert spec["mark"]["type"] == "text"
    ((row,),) = rows_of(spec) if "datasets" in spec else ([spec["data"]["values"]][0:1],)
    assert row["text"].endswith(".")
    assert spec["description"] == row["text"]
