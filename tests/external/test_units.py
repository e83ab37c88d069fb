"""Units against printed tables, the law and a units library: no number here is our own.

`worked_examples.json` holds only examples whose result was printed by the source and agrees
with a recomputation; each names its source and how it was read.
"""

import json
import math
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.reference.units import (
    FOOT,
    INCH,
    ROD_AREA,
    ROD_LENGTH,
    SI_NAMES,
    Unit,
    convert,
    to_si,
    unit_table,
)

EXAMPLES = {
    example["id"]: example
    for example in json.loads(
        (Path(__file__).parent / "worked_examples.json").read_text(encoding="utf-8")
    )
}
UK = unit_table()
US = unit_table(us=True)
ALL = {**{f"uk {unit.name}": unit for unit in UK.values()}, "uk rod length": ROD_LENGTH} | {
    f"us {unit.name}": unit for unit in US.values()
}


def test_only_printed_and_agreeing_examples_count():
    assert EXAMPLES
    assert all(
        example["expected_origin"] == "printed" and example["agrees"] and example["source"]
        for example in EXAMPLES.values()
    )


@pytest.mark.parametrize(
    ("example", "unit", "to"),
    [
        ("unit-lb-kg", "lb", "kg"),
        ("unit-oz-g", "oz", "g"),
        ("unit-longton-kg", "ton", "kg"),
        ("unit-inch-mm", "inch", "mm"),
        ("unit-foot-m", "ft", "m"),
        ("unit-yard-m", "yd", "m"),
        ("unit-sqft-m2", "sq ft", "m2"),
        ("unit-sqyd-m2", "sq yd", "m2"),
        ("unit-acre-m2", "acre", "m2"),
        ("unit-ukgal-L", "gallon", "l"),
        ("unit-yd3", "cubic yard", "l"),
    ],
)
def test_a_unit_agrees_with_the_printed_table(example: str, unit: str, to: str):
    printed = EXAMPLES[example]
    assert convert(1, UK[unit], UK[to]) == pytest.approx(
        printed["expected"], abs=printed["tolerance"], rel=0
    )


def test_an_acre_is_160_poles_and_16_ten_pole_plots():
    poles, plots = EXAMPLES["unit-poles-acre"]["expected"]
    assert convert(1, UK["acre"], UK["pole"]) == pytest.approx(poles, rel=1e-12)
    assert convert(1, UK["acre"], UK["pole"]) / 10 == pytest.approx(plots, rel=1e-12)


def test_ten_rods_are_302_and_a_half_square_yards():
    # The example's second number, in m2, was computed and not printed.
    square_yards, _ = EXAMPLES["unit-10rods"]["expected"]
    assert convert(10, UK["rods"], UK["square yards"]) == pytest.approx(square_yards, rel=1e-12)


def test_a_pound_an_acre_in_kg_a_hectare():
    printed = EXAMPLES["unit-lbac"]
    rate = convert(1, UK["lb"], UK["kg"]) / convert(1, UK["acre"], UK["ha"])
    assert rate == pytest.approx(printed["expected"], abs=printed["tolerance"], rel=0)


@pytest.mark.parametrize(
    ("unit", "value", "to", "source"),
    [
        # Weights and Measures Act 1985, Schedule 1, read at legislation.gov.uk.
        ("pound", 0.45359237, "kg", "Part V as in force 1 Feb 1991"),
        ("ounce", 1 / 16, "lb", "Part V as in force 1 Feb 1991"),
        ("tonne", 1000, "kg", "current text"),
        ("hectare", 100 * 100, "m2", "current text: 100 ares of 100 m2"),
        # Weights and Measures Ordinance (Hong Kong), restating the British units, read at
        # https://hkintexts.histsyn.com/page/1396767
        ("cwt", 112, "lb", "hundredweight"),
        ("ton", 2240, "lb", "ton"),
        ("acre", 4840, "sq yd", "acre"),
        ("pint", 20, "fl oz", "pint"),
        # Cooley, quoting the Weights and Measures Act 1878, read at https://bitlit.ru
        ("peck", 2, "gallon", "peck"),
        ("bushel", 8, "gallon", "bushel"),
        # Allotment sizes, read at allotmentssouthwest.org.uk
        ("pole", 30.25, "sq yd", "5 1/2 x 5 1/2 yards"),
    ],
)
def test_a_unit_is_what_the_law_says(unit: str, value: float, to: str, source: str):
    assert convert(1, UK[unit], UK[to]) == pytest.approx(value, rel=1e-12), source


def test_the_us_bushel_is_2150_42_cubic_inches():
    # Minnesota Statutes section 239.32, read at revisor.mn.gov.
    cubic_inch_l = (INCH.factor * 10) ** 3
    assert US["bushel"].factor == pytest.approx(2150.42 * cubic_inch_l, rel=1e-12)


ORACLE = {
    "kg": "kilogram",
    "g": "gram",
    "t": "metric_ton",
    "lb": "pound",
    "oz": "ounce",
    "st": "stone",
    "l": "liter",
    "cl": "centiliter",
    "ml": "milliliter",
    "m3": "meter**3",
    "ft3": "foot**3",
    "yd3": "yard**3",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "inch": "inch",
    "ft": "foot",
    "yd": "yard",
    "cm2": "centimeter**2",
    "m2": "meter**2",
    "ft2": "foot**2",
    "yd2": "yard**2",
    "rod": "statute_rod**2",
    "acre": "statute_acre",
    "ha": "hectare",
    "min": "minute",
    "h": "hour",
}
ORACLE_UK = {
    "cwt": "long_hundredweight",
    "ton": "long_ton",
    "fl oz": "imperial_fluid_ounce",
    "pint": "imperial_pint",
    "quart": "imperial_quart",
    "gallon": "imperial_gallon",
    "peck": "imperial_peck",
    "bushel": "imperial_bushel",
}
ORACLE_US = {
    "cwt": "short_hundredweight",
    "ton": "short_ton",
    "fl oz": "US_fluid_ounce",
    "pint": "US_pint",
    "quart": "US_liquid_quart",
    "gallon": "US_liquid_gallon",
    "peck": "peck",
    "bushel": "bushel",
}


@pytest.fixture(scope="module")
def pint_units() -> pint.UnitRegistry:
    """pint's own rod and acre rest on the US survey foot; these are the statute ones."""
    registry = pint.UnitRegistry()
    registry.define("statute_rod = 5.5 * yard")
    registry.define("statute_acre = 4840 * yard ** 2")
    return registry


@pytest.mark.parametrize(
    ("us", "unit"),
    [
        pytest.param(us, unit, id=f"{'us' if us else 'uk'} {unit.name}")
        for us in (False, True)
        for unit in dict.fromkeys(unit_table(us).values())
        if unit.dimension != "temperature"
    ],
)
def test_every_factor_agrees_with_pint(pint_units: pint.UnitRegistry, us: bool, unit: Unit):
    names = ORACLE | (ORACLE_US if us else ORACLE_UK)
    si = {"l": "liter", "m2": "meter**2", "min": "minute"}.get(
        SI_NAMES[unit.dimension], SI_NAMES[unit.dimension]
    )
    theirs = pint_units.Quantity(1.0, names[unit.name]).to(si).magnitude
    assert unit.factor == pytest.approx(theirs, rel=1e-9)


def test_lengths_outside_the_table_agree_with_pint(pint_units: pint.UnitRegistry):
    for unit, name in ((ROD_LENGTH, "statute_rod"), (FOOT, "foot"), (INCH, "inch")):
        assert unit.factor == pytest.approx(pint_units.Quantity(1.0, name).to("m").magnitude)
    assert ROD_LENGTH.factor**2 == pytest.approx(ROD_AREA.factor, rel=1e-12)


@pytest.mark.parametrize("fahrenheit", [-40.0, 0.0, 32.0, 50.0, 86.0, 131.0])
def test_fahrenheit_agrees_with_pint(pint_units: pint.UnitRegistry, fahrenheit: float):
    theirs = pint_units.Quantity(fahrenheit, "degF").to("degC").magnitude
    assert to_si(fahrenheit, UK["f"]) == pytest.approx(theirs, abs=1e-9)


@st.composite
def _fellows(draw: st.DrawFn) -> tuple[Unit, Unit]:
    unit = draw(st.sampled_from(list(ALL.values())))
    fellows = [other for other in ALL.values() if other.dimension == unit.dimension]
    return unit, draw(st.sampled_from(fellows))


@given(_fellows(), st.floats(-1e6, 1e6, allow_subnormal=False))
def test_there_and_back_is_where_it_began(pair: tuple[Unit, Unit], value: float):
    unit, to = pair
    there = convert(value, unit, to)
    assert math.isclose(convert(there, to, unit), value, rel_tol=1e-12, abs_tol=1e-9)
