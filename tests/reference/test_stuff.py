"""Heap materials and manures carry their sources' figures, and raw manure is read the safe way."""

import csv

import pytest

from journal.reference.load import Reference
from journal.reference.stuff import is_raw_manure, load_stuff
from journal.resources import shared_folder

# NIST Handbook 44 App. C: the pound, the US gallon and the cubic yard, exact.
KG_PER_M3 = {
    "lb/US gallon": 0.45359237 / 3.785411784e-3,
    "lb/yd3": 0.45359237 / 0.764554857984,
}


def rows(name: str) -> list[dict[str, str]]:
    with (shared_folder() / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows("heap_stuff.csv"), ids=lambda row: row["material"])
def test_a_density_is_the_printed_one_in_kg_a_cubic_metre(row: dict[str, str]):
    if not row["printed_density"]:
        assert not row["kg_per_m3"] and not row["printed_unit"]
        return
    printed = float(row["printed_density"]) * KG_PER_M3[row["printed_unit"]]
    assert float(row["kg_per_m3"]) == pytest.approx(printed, abs=0.5)


def test_two_sources_of_straw_stand_side_by_side():
    straw = load_stuff().heap["straw"]
    assert {one.kg_per_m3 for one in straw} == {120, 135}
    assert len({one.source for one in straw}) == 2


def test_two_editions_of_horse_manure_are_both_kept():
    # AHDB RB209 and its older edition: 5.0 and 7.0 kg N a tonne.
    assert {one.n_kg_per_t for one in load_stuff().manures["horse manure"]} == {5.0, 7.0}


def test_cattle_manure_has_the_figures_of_rb209():
    (cattle,) = load_stuff().manures["cow manure"]
    assert (cattle.n_kg_per_t, cattle.p2o5_kg_per_t, cattle.k2o_kg_per_t) == (6.0, 3.2, 9.4)


def test_scaffold_boards_last_six_to_seven_seasons():
    # common practice, no published source
    boards = load_stuff().lives["scaffold boards"]
    assert (boards.seasons_low, boards.seasons_high) == (6, 7)
    assert boards.basis == "common practice, no published source"


@pytest.mark.parametrize("row", rows("feed_origins.csv"), ids=lambda row: row["material"])
def test_what_is_raw_manure_comes_from_livestock(row: dict[str, str], reference: Reference):
    if is_raw_manure(row["material"], reference):
        assert row["origin"] == "livestock"


@pytest.mark.parametrize(
    ("written", "raw"),
    [
        ("horse manure", True),
        ("well-rotted manure", True),
        ("composted manure", False),
        ("chicken pellets", False),
        ("compost", False),
        ("Bob's stable muck", True),
        ("dried cow manure", True),
        ("sterilised dung", False),
        ("mushroom compost", False),
    ],
)
def test_manure_is_raw_unless_it_is_said_to_be_treated(
    written: str, raw: bool, reference: Reference
):
    assert is_raw_manure(written, reference) is raw
