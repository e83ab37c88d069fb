"""Published figures come with their source, whole and unmixed, and agree with what was printed."""

import csv
from collections.abc import Iterator

import pytest

from journal.reference.books import Books, Published
from journal.reference.load import Reference
from journal.reference.units import convert, to_celsius, unit_table
from journal.resources import shared_folder

UNITS = unit_table()
TABLES = (
    "days_to_harvest",
    "expected_yields",
    "germination",
    "rotation_years",
    "seed_viability",
    "spacing",
    "weights",
)


def _rows(table: str) -> Iterator[dict[str, str]]:
    with (shared_folder() / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def _as_printed(rows: tuple[Published, ...]) -> set[tuple[str, str]]:
    return {(row.source_id, row.printed) for row in rows}


def test_sources_that_differ_are_all_kept(reference: Reference):
    # Knott's Handbook (by Iowa State), Watts, and Iowa State's own answer.
    life = reference.books.seed_life("carrot")
    assert _as_printed(life) == {
        ("ISU-SEED", "3 years"),
        ("WATTS", "1 years"),
        ("ISU-FAQ", "3 to 4 years"),
    }


def test_a_yield_is_in_the_unit_of_the_harvest(reference: Reference):
    yields = {
        (row.unit, row.source_id): row for row in reference.books.expected_yield("runner bean")
    } | {(row.unit, row.source_id): row for row in reference.books.expected_yield("parsnip")}
    kansas = yields["kg per m", "KSU-MF315"]
    assert kansas.printed == "100 lb/100 ft row"
    assert kansas.low == pytest.approx(0.45359237 / 0.3048, rel=1e-5)
    assert kansas.source == "Kansas State University MF-315"


def test_days_to_harvest_say_from_what_they_count(reference: Reference):
    measures = {row.measure for row in reference.books.days_to_harvest("cabbage")}
    assert measures == {"transplanting to harvest", "planting to harvest", "crop cycle"}
    carrot = [row for row in reference.books.days_to_harvest("carrot") if "sowing" in row.measure]
    assert [(row.low, row.high) for row in carrot] == [(60, 85)]


def test_emergence_holds_at_a_soil_temperature(reference: Reference):
    # Harrington and Minges: carrots at 50 F (10 C) take 17 days, at 59 F (15 C) 10 days.
    knott = {
        row.soil_c: row.low
        for row in reference.books.emergence("carrot")
        if row.source_id == "KNOTT-HM54"
    }
    assert knott[10] == pytest.approx(17, abs=0.5)
    assert knott[15] == pytest.approx(10, abs=0.5)


def test_seed_law_gives_a_least_germination(reference: Reference):
    # 7 CFR 201.31: carrot 55 per cent, lettuce 80 per cent.
    for crop, least in (("carrot", 55), ("lettuce", 80)):
        (row,) = reference.books.germination_minimum(crop)
        assert (row.low, row.unit, row.source) == (least, "%", "US 7 CFR 201.31")


def test_soil_temperatures_are_celsius(reference: Reference):
    rows = reference.books.soil_temperature("lettuce")
    lowest = {row.low for row in rows if row.measure == "lowest soil temperature"}
    assert lowest == {1.67}  # 35 F in both sources
    highest = {row.source_id: row.printed for row in rows if row.measure.startswith("highest")}
    assert highest == {"OSU-HARR": "95 deg F", "ACES-1061": "85 deg F"}


def test_a_crop_answers_with_the_breaks_of_its_groups(reference: Reference):
    books = reference.books
    clubroot = [row for row in books.rotation("kale") if row.condition == "clubroot"]
    assert {(row.measure, row.low) for row in clubroot} == {
        ("break without host", 7),
        ("survival in soil", 15),
    }
    assert set(books.rotation("kale")) == set(books.rotation("brassica"))
    assert set(books.rotation("brassica")) <= set(books.rotation("Brassicaceae"))


def test_a_family_answers_with_the_breaks_of_its_crops(reference: Reference):
    hosts = {row.crop for row in reference.books.rotation("Solanaceae")}
    assert hosts == {"potato", "aubergine"}
    assert {row.crop for row in reference.books.rotation("potato")} == {"potato"}


def test_an_endless_break_has_no_years(reference: Reference):
    asparagus = reference.books.rotation("asparagus")
    assert [(row.low, row.high) for row in asparagus] == [(None, None)]


def test_the_whole_plot_has_rotations(reference: Reference):
    lengths = {row.low for row in reference.books.rotation("whole plot")}
    assert lengths == {3, 4}


def test_spacing_says_which_way_it_runs(reference: Reference):
    maine = {
        row.measure: (row.low, row.high)
        for row in reference.books.spacing("potato")
        if row.source_id == "UMAINE"
    }
    assert maine == {
        "between plants": (0.2032, 0.3048),
        "between rows": (0.762, 0.9144),
        "deep": (0.1016, 0.1524),
    }


def test_a_bushel_weighs_what_each_law_says(reference: Reference):
    bushels = {
        row.source_id: row.printed
        for row in reference.books.weight("carrot")
        if row.measure == "bushel by law"
    }
    assert bushels == {"MN-239.32": "45 lb/US bushel", "IA-210.10": "50 lb/US bushel"}


def test_a_crop_without_a_figure_has_none_of_another(reference: Reference):
    assert reference.books.expected_yield("spring cabbage") == ()
    assert reference.books.days_to_harvest("purple sprouting broccoli") == ()
    assert reference.books.seed_life("no such crop") == ()
    assert reference.books.rotation("no such crop") == ()
    assert Books().spacing("leek") == ()


@pytest.mark.parametrize("table", TABLES)
def test_every_figure_was_read_and_names_its_source(reference: Reference, table: str):
    with (shared_folder() / "sources.csv").open(encoding="utf-8", newline="") as file:
        sources = {row["source_id"]: row for row in csv.DictReader(file)}
    for row in _rows(table):
        assert row["basis"] == "read"
        assert sources[row["source_id"]]["basis"] == "read"
        assert sources[row["source_id"]]["cite"]


PER = {
    "100 ft row": convert(100, UNITS["ft"], UNITS["m"]),
    "10 ft row": convert(10, UNITS["ft"], UNITS["m"]),
    "acre": convert(1, UNITS["acre"], UNITS["m2"]),
    "square foot": convert(1, UNITS["square foot"], UNITS["m2"]),
    "1 lb of sets planted": UNITS["lb"].factor,
    "5 lb of seed potatoes planted": 5 * UNITS["lb"].factor,
    "10 items": 10,
}


def _recomputed(printed: float, unit: str) -> float:
    if unit == "deg F":
        return to_celsius(printed, UNITS["f"])
    if unit == "inch":
        return convert(printed, UNITS["inch"], UNITS["m"])
    amount, _, per = unit.partition("/")
    mass = UNITS[amount].factor if amount in ("lb", "kg", "g") else 1
    return printed * mass / PER.get(per, 1)


@pytest.mark.parametrize("table", TABLES)
def test_every_figure_is_what_was_printed_in_other_units(table: str):
    for row in _rows(table):
        for end in ("low", "high"):
            if row[f"printed_{end}"]:
                printed = float(row[f"printed_{end}"])
                again = _recomputed(printed, row["printed_unit"])
                assert float(row[end]) == pytest.approx(again, rel=1e-5, abs=0.006), row
            else:
                assert row[end] == "", row
