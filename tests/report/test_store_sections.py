"""The page's sections of ground and stores say what the studies say, with cautions in place."""

from datetime import date
from typing import Any

import pytest
from support.hand_made import bed, diary, happened, picked

from journal.diary import Diary
from journal.events.model import MaterialDeclared, PlaceDeclared, PriceDeclared
from journal.reading import Reading, read_sources
from journal.report.ground_sections import (
    GROUND_SECTIONS,
    feeding_section,
    ground_section,
    heaps_section,
    manure_section,
)
from journal.report.ranges import span
from journal.report.section import Section
from journal.report.sections import SECTIONS
from journal.report.store_sections import (
    STORE_SECTIONS,
    books_section,
    money_section,
    seed_section,
    structures_section,
    worth_section,
)
from journal.source import Source


def table(section: Section | None, at: int = 0) -> list[dict[str, str]]:
    """A table of a section as rows of words by their heads."""
    assert section is not None
    shown = section.tables[at]
    return [dict(zip(shown.heads, row, strict=True)) for row in shown.rows]


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (1, 2, "1 to 2"),
        (2, 2, "2"),
        (3, None, "≥ 3"),
        (None, None, ""),
        (104.0, 134.0, "104 to 134"),
    ],
)
def test_a_range_is_said_in_one_way(low: Any, high: Any, said: str):
    assert span(low, high) == said


@pytest.mark.parametrize("make", [*GROUND_SECTIONS, *STORE_SECTIONS])
def test_a_year_of_which_nothing_is_written_has_no_such_section(make: Any):
    assert make(diary([]), 2025) is None


def test_every_section_stands_on_the_page_once():
    for make in (*GROUND_SECTIONS, *STORE_SECTIONS):
        assert SECTIONS.count(make) == 1


def test_the_ground_tells_what_came_back_and_where_it_can_go_next():
    text = "".join(
        f"1 April {year}\n- plant potato in {place}\n\n1 September {year}\n- clear {place}\n\n"
        for year, place in ((2021, "Long 1"), (2023, "Long 2"), (2025, "Long 1"))
    )
    sheet = "- bed Long 1, 6 m2\n- bed Long 2, 6 m2\n"
    reading = read_sources([Source("2020.txt", text), Source("plot.txt", sheet)], date(2025, 12, 1))
    section = ground_section(Diary(reading, date(2025, 12, 1)), 2025)
    (back,) = table(section)
    assert (back["place"], back["what came back"], back["advised"]) == (
        "Long 1",
        "potato",
        "2 to 9",
    )
    # 1 September 2021 to 1 April 2025: 3.6 years
    assert back["years without"] == "3.6"
    (following,) = table(section, 1)
    assert following == {"crop": "potato", "by some sources": "Long 2"}
    assert section is not None and section.caution == ""


def test_manure_to_table_counts_what_came_sooner_and_cautions():
    manure = {"place": "Long 1", "material": "horse manure"}
    section = manure_section(
        diary(
            [
                happened("dressing", "dig in", "2025-02-08", **manure),
                picked("lettuce", "2025-04-16", place="Long 1"),
                picked("carrot", "2025-09-01", place="Long 1"),
                happened("dressing", "spread", "2025-12-01", **manure),
            ]
        ),
        2025,
    )
    assert section is not None
    assert "1 crop came sooner" in section.words and "local rules" in section.caution
    rows = table(section)
    assert [(row["crop"], row["days"], row["asked for"]) for row in rows] == [
        ("carrot", "205", "120"),
        ("lettuce", "67", "120"),
        ("", "", "120"),
    ]


def test_feeds_stand_with_their_label_and_the_caution():
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")
    manure = MaterialDeclared(None, "material", "horse manure", (), 0.7, 0.3, 0.6)
    section = feeding_section(
        diary(
            [
                happened(
                    "feed",
                    "feed",
                    "2025-07-01",
                    place="Long 1",
                    material="tomato feed",
                    dose_l=0.05,
                ),
                happened(
                    "dressing",
                    "spread",
                    "2025-03-01",
                    place="Long 1",
                    material="horse manure",
                    mass_kg=10.0,
                ),
            ],
            (bed("Long 1", 2.0),),
            materials=(label, manure),
        ),
        2025,
    )
    fed = table(section)
    assert [(row["material"], row["N, g/m²"]) for row in fed] == [
        ("horse manure", "35.00"),
        ("tomato feed", "1.00"),
    ]
    assert table(section, 1)[0]["N, kg/ha"] == "350" and table(section, 1)[0]["limit"] == "250"
    assert section is not None and "the label governs" in section.caution


def test_heaps_have_their_books_and_their_cautions():
    bay = PlaceDeclared(None, "bay", "Bay A", (), 2.0, 1.0, 1.5, 2.0, 3000.0)
    heap = {"place": "Bay A", "material": "straw"}
    section = heaps_section(
        diary(
            [
                happened("heap", "fill", "2025-02-01", volume_l=300.0, **heap),
                happened(
                    "dressing",
                    "spread",
                    "2025-08-01",
                    place="Long 1",
                    place_from="Bay A",
                    material="compost",
                    volume_l=100.0,
                ),
            ],
            (bay,),
        ),
        2025,
    )
    (now,), (used,) = table(section), table(section, 1)
    assert (now["holds, l"], now["full, %"]) == ("≥ 200", "7")
    assert (used["days"], used.get("C:N", "")) == ("181", "")
    assert section is not None
    for word in ("gloves", "tetanus", "barrows"):
        assert word in section.caution


def test_the_fabric_tells_ages_and_what_is_due():
    boards = {"material": "scaffold boards", "place": "Long 1"}
    section = structures_section(
        diary(
            [
                happened("structure", "fit", "2018-04-09", **boards),
                happened("structure", "replace", "2025-02-01", **boards),
            ]
        ),
        2025,
    )
    old, new = table(section)
    assert (old["seasons"], old["ended"]) == ("7", "replaced")
    assert new["due by your own"] == "27 Nov 2031"
    assert new["said to last"] == "6 to 7 seasons (common practice, no published source)"


def test_money_is_told_in_one_currency_each():
    seed = {"crop": "kale", "packets": 1.0}
    section = money_section(
        diary(
            [
                happened("purchase", "buy", "2025-02-01", cost=2.0, currency="GBP", **seed),
                happened("purchase", "buy", "2025-02-01", cost=3.95, currency="EUR", **seed),
            ]
        ),
        2025,
    )
    assert [(row["currency"], row["spent"]) for row in table(section)] == [
        ("EUR", "€3.95"),
        ("GBP", "£2.00"),
    ]


def test_the_worth_of_a_year_without_prices_is_no_section():
    events = [picked("potato", "2025-07-01", 5.0)]
    assert worth_section(diary(events), 2025) is None
    priced = (PriceDeclared(None, "potato", "", 1.2, "GBP", "kg", 1.2),)
    assert table(worth_section(diary(events, prices=priced), 2025)) == [
        {"crop": "potato", "weight": "5 kg", "worth": "£6.00"}
    ]


def test_seed_is_told_for_the_year_that_would_be_grown_again():
    events = [
        happened("purchase", "buy", "2025-02-01", crop="carrot", packets=1.0),
        happened("sowing", "sow", "2025-04-01", crop="carrot", length_m=8.0),
    ]
    one = diary(events, today=date(2026, 1, 15))
    assert table(seed_section(one, 2025))[0]["to order"] == "1 packet"
    assert seed_section(one, 2024) is None


def test_the_books_stand_beside_the_year_without_a_verdict():
    section = books_section(
        diary(
            [
                happened(
                    "sowing", "sow", "2025-04-01", crop="carrot", place="Long 2", length_m=12.0
                ),
                picked("carrot", "2025-08-01", 9.0, place="Long 2"),
            ]
        ),
        2025,
    )
    assert {row["here"] for row in table(section)} == {"0.75"}
    assert section is not None and "no verdict" in section.words


@pytest.mark.parametrize("year", [2022, 2023, 2024, 2025, 2026])
def test_the_sample_has_every_section_in_a_full_year(sample: Reading, year: int):
    one = Diary(sample, date(2026, 3, 1))
    names = {
        section.name for make in (*GROUND_SECTIONS, *STORE_SECTIONS) if (section := make(one, year))
    }
    assert {"ground", "feeding", "heaps", "money"} <= names
    assert ("seed" in names) == (year == 2025)
