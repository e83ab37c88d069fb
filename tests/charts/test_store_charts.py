"""The charts of ground, feeds, heaps and money draw their studies' figures, in words and signs."""

from datetime import date
from typing import Any

import pytest
from support.hand_made import bed, diary, happened, picked

from journal.charts.catalog import CHARTS
from journal.charts.feeding import feeding_chart
from journal.charts.files import chart_spec
from journal.charts.ground import came_back, ground_chart
from journal.charts.heaps import heaps_chart
from journal.charts.money import money_chart, price, worth_chart
from journal.diary import Diary
from journal.events.model import MaterialDeclared, PlaceDeclared, PriceDeclared
from journal.reading import Reading, read_sources
from journal.source import Source
from journal.studies.feeding import feeding
from journal.studies.ground import ground
from journal.studies.heaps import heaps_log
from journal.studies.money import money
from journal.studies.money_worth import money_worth

MINE = ("ground", "feeding", "heaps log", "money", "money worth")


def panels(chart: Any) -> list[dict[str, Any]]:
    spec = chart_spec(chart)
    return list(spec.get("vconcat", [spec]))


def rows_of(chart: Any, at: int = 0) -> list[dict[str, Any]]:
    """All rows that a panel draws, of every layer."""
    spec = chart_spec(chart)
    panel = spec.get("vconcat", [spec])[at]
    names = [
        panel.get("data"),
        spec.get("data"),
        *(layer.get("data") for layer in panel.get("layer", ())),
    ]
    named = dict.fromkeys(name["name"] for name in names if name)
    return [row for name in named for row in spec["datasets"][name]]


@pytest.mark.parametrize("name", MINE)
def test_nothing_to_draw_is_said_in_a_sentence(name: str):
    spec = chart_spec(CHARTS[name].draw(CHARTS[name].study(diary([]))))
    assert "mark" in spec and spec["description"].endswith(".")


# ------------------------------------------------------------ ground


@pytest.mark.parametrize(
    ("years", "sign"), [(1.9, "▼"), (2.0, "■"), (6.9, "■"), (7.0, "●"), (None, "○")]
)
def test_a_return_has_the_sign_of_how_long_it_stayed_away(years: float | None, sign: str):
    # advised two to seven years
    assert came_back(float("nan") if years is None else years, 2.0, 7.0) == sign


def rotation(text: str) -> Diary:
    sheet = "- bed Long 1, 1.2 x 4.8 m\n"
    today = date(2026, 3, 1)
    return Diary(read_sources([Source("2020.txt", text), Source("plot.txt", sheet)], today), today)


def test_a_bed_has_a_cell_for_each_family_and_year():
    text = "".join(
        f"1 April {year}\n- plant {crop} in Long 1\n\n1 September {year}\n- clear Long 1\n\n"
        for crop, year in (("potato", 2022), ("tomato", 2023), ("leek", 2024))
    )
    chart = ground_chart(ground(rotation(text)))
    cells = {(row["year"], row["says"]) for row in rows_of(chart) if row.get("says")}
    assert cells == {(2022, "○ potato"), (2023, "▼ tomato"), (2024, "○ leek")}
    assert [row["heading"] for row in rows_of(chart) if "heading" in row] == ["Long 1"]
    (panel,) = panels(chart)
    assert "1 return came sooner" in panel["description"]


def test_a_family_that_stands_on_is_no_return():
    text = "4 July 2024\n- plant 40 leek in Long 1\n\n8 March 2025\n- clear Long 1\n"
    says = [row["says"] for row in rows_of(ground_chart(ground(rotation(text)))) if "says" in row]
    assert says == ["○ leek", "– leek"]


def test_only_the_latest_years_are_drawn():
    text = "".join(
        f"1 April {year}\n- plant potato in Long 1\n\n1 September {year}\n- clear Long 1\n\n"
        for year in range(2014, 2026)
    )
    shown = {row["year"] for row in rows_of(ground_chart(ground(rotation(text)))) if "year" in row}
    assert shown == {2021, 2022, 2023, 2024, 2025}


# ------------------------------------------------------------ feeds


def test_each_nutrient_is_a_panel_with_a_bar_a_place():
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")
    words = {"material": "tomato feed", "dose_l": 0.05}
    one = diary(
        [
            happened("feed", "feed", "2025-07-01", place="Long 1", **words),
            happened("feed", "feed", "2025-07-08", place="Long 1", **words),
            happened("feed", "feed", "2025-07-08", place="Long 2", **words),
            happened("dressing", "spread", "2025-03-01", place="Long 2", material="compost"),
            happened("dressing", "spread", "2025-03-01", place="Edge", material="compost"),
        ],
        (bed("Long 1", 2.0), bed("Long 2", 2.0)),
        materials=(label,),
    )
    chart = feeding_chart(feeding(one))
    assert [panel["title"]["text"] for panel in panels(chart)] == [
        "Nitrogen (N)",
        "Phosphate (P2O5)",
        "Potash (K2O)",
    ]
    # 2 g N a feed on 2 m2: Long 1 twice, Long 2 once beside compost of which nothing is known
    assert [(row["name"], row["says"], row["g"]) for row in rows_of(chart)] == [
        ("Long 1", "2 g", 2.0),
        ("Long 2", "≥ 1 g", 1.0),
    ]
    assert "1 more place had only" in panels(chart)[0]["title"]["subtitle"][1]


# ------------------------------------------------------------ heaps


def test_a_bay_has_its_litres_and_its_heat():
    bay = PlaceDeclared(None, "bay", "Bay A", (), 1.0, 1.0, 1.0, 1.0, 1000.0)
    heap = {"place": "Bay A"}
    one = diary(
        [
            happened("heap", "level", "2025-01-01", volume_l=400.0, **heap),
            happened("heap", "fill", "2025-04-01", volume_l=100.0, material="straw", **heap),
            happened("heap", "probe", "2025-04-09", temperature_c=58.0, **heap),
            happened("heap", "probe", "2025-04-10", temperature_c=58.0, **heap),
            happened("heap", "probe", "2025-04-11", temperature_c=58.0, **heap),
        ],
        (bay,),
    )
    chart = heaps_chart(heaps_log(one))
    held, heat = panels(chart)
    assert (held["title"]["text"], heat["title"]["text"]) == (
        "Bay A: what it held",
        "Bay A: its heat",
    )
    assert [row["held_l_low"] for row in rows_of(chart, 0)][:3] == [400, 500, 500]
    assert {row["temperature_c"] for row in rows_of(chart, 1)} == {55.0, 58.0}
    assert "58 °C at most" in heat["description"]


def test_a_heat_read_once_is_a_sentence_and_no_picture():
    bay = PlaceDeclared(None, "bay", "Bay A", (), 1.0, 1.0, 1.0, 1.0, 1000.0)
    events = [
        happened("heap", "fill", "2025-04-01", place="Bay A", volume_l=100.0, material="straw"),
        happened("heap", "probe", "2025-04-09", place="Bay A", temperature_c=58.0),
    ]
    (held,) = panels(heaps_chart(heaps_log(diary(events, (bay,)))))
    assert held["description"].endswith("; its heat was 58 °C on 9 April.")


def test_a_day_that_is_not_certain_is_drawn_in_the_middle_of_its_days():
    bay = PlaceDeclared(None, "bay", "Bay A", (), 1.0, 1.0, 1.0, 1.0, 1000.0)
    event = happened("heap", "level", "2025-01-01", "2025-01-31", place="Bay A", volume_l=400.0)
    (row, *_) = rows_of(heaps_chart(heaps_log(diary([event], (bay,)))))
    assert row["day"].startswith("2025-01-16")


# ------------------------------------------------------------ money


def test_each_year_and_currency_is_a_panel_of_its_own():
    paid = {"cost": 2.4, "currency": "GBP", "crop": "carrot", "packets": 1.0}
    one = diary(
        [
            happened("purchase", "buy", "2024-02-01", **paid),
            happened("purchase", "buy", "2025-02-01", **paid),
            happened("purchase", "buy", "2025-02-01", **(paid | {"currency": "EUR"})),
            happened("kitchen", "sell", "2025-08-01", crop="carrot", cost=9.0, currency="GBP"),
        ]
    )
    chart = money_chart(money(one))
    assert [panel["title"]["text"] for panel in panels(chart)] == [
        "Spent in 2024, in GBP",
        "Spent in 2025, in EUR",
        "Spent in 2025, in GBP",
    ]
    assert [row["says"] for row in rows_of(chart, 1)] == ["€2.40"]
    assert [row["name"] for row in rows_of(chart, 2)] == ["seed"]


def test_what_has_no_price_is_no_bar_and_is_named_below_the_title():
    one = diary(
        [
            picked("kale", "2025-07-01", 1.0),
            picked("potato", "2025-07-01", 5.0),
            picked("potato", "2025-07-08"),
        ],
        prices=(PriceDeclared(None, "potato", "", 1.2, "", "kg", 1.2),),
    )
    chart = worth_chart(money_worth(one))
    assert [(row["name"], row["says"]) for row in rows_of(chart)] == [("potato", "≥ 6.00")]
    (panel,) = panels(chart)
    assert panel["title"]["subtitle"].endswith("No price, or not weighed: kale.")


def test_a_harvest_without_a_price_is_said_to_have_none():
    chart = worth_chart(money_worth(diary([picked("kale", "2025-07-01", 1.0)])))
    assert chart.description == "Nothing that was picked has a price on the sheet."


def test_money_is_written_with_its_sign_or_its_code():
    assert [price(4.5, code) for code in ("GBP", "EUR", "CHF", "")] == [
        "£4.50",
        "€4.50",
        "4.50 CHF",
        "4.50",
    ]


def test_the_sample_draws_every_chart(sample: Reading):
    one = Diary(sample, date(2026, 3, 1))
    for name in MINE:
        assert chart_spec(CHARTS[name].draw(CHARTS[name].study(one)))["vconcat"]
