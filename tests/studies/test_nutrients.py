"""The arithmetic of feeds against printed examples and the conversions of two tables."""

import json
from pathlib import Path
from typing import Any

import pytest

from journal.studies.nutrients import (
    K_IN_K2O,
    P_IN_P2O5,
    Label,
    grams_by_mass,
    grams_by_volume,
    kg_per_ha,
    mg_per_l,
)

# Only examples whose result is printed in the source named there, and agrees.
PRINTED: dict[str, dict[str, Any]] = {
    row["id"]: row
    for row in json.loads(
        (Path(__file__).parent.parent / "external" / "worked_examples.json").read_text()
    )
}
# NIST Handbook 44 App. C, exact: ounce in g, US gallon in litres.
OZ, US_GALLON = 28.349523125, 3.785411784


def test_every_example_used_here_is_printed_and_agrees():
    used = ["P2O5-to-P", "K2O-to-K", "KCl-label", "fert-20-10-10", "fert-rate-1", "fert-rate-2"]
    used += ["ppm-75-rule", "ppm-umass-20", "ppm-umass-15"]
    for name in used:
        assert PRINTED[name]["expected_origin"] == "printed" and PRINTED[name]["agrees"]


@pytest.mark.parametrize(("example", "factor"), [("P2O5-to-P", P_IN_P2O5), ("K2O-to-K", K_IN_K2O)])
def test_the_oxide_factors_are_the_printed_ones(example: str, factor: float):
    # IFA table 0.4364 (0.8302), Virginia Tech SPES-201NP 0.8301 (0.4365)
    assert factor == pytest.approx(PRINTED[example]["expected"], abs=1e-9)


@pytest.mark.parametrize(
    ("oxide_mass", "element_mass", "factor"),
    [
        # Atomic masses P 30.973762, K 39.0983, O 15.999: P2O5 and K2O
        (2 * 30.973762 + 5 * 15.999, 2 * 30.973762, P_IN_P2O5),
        (2 * 39.0983 + 15.999, 2 * 39.0983, K_IN_K2O),
    ],
)
def test_the_oxide_factors_follow_from_the_atomic_masses(
    oxide_mass: float, element_mass: float, factor: float
):
    assert factor == pytest.approx(element_mass / oxide_mass, abs=1e-4)


def test_muriate_of_potash_is_60_per_cent_k2o_on_its_label():
    # Virginia Tech SPES-201NP: 49.8 % K is 60 % K2O.
    label = Label(None, None, PRINTED["KCl-label"]["expected"], "w/w", "")
    assert label.pct("K") == pytest.approx(PRINTED["KCl-label"]["inputs"]["K_pct"], abs=0.05)


def test_100_kg_of_a_20_10_10_compound():
    # ELS Handbook 2010, Appendix 4
    example = PRINTED["fert-20-10-10"]
    label = Label(20, 10, 10, "w/w", "")
    kg = example["inputs"]["kg"]
    held = [grams_by_mass(kg, label.pct(name) or 0) / 1000 for name in ("N", "P2O5", "K2O")]
    assert held == pytest.approx(example["expected"])


@pytest.mark.parametrize("example", ["fert-rate-1", "fert-rate-2"])
def test_the_rate_of_a_product_gives_the_nutrient_asked_for(example: str):
    # ELS Handbook 2010, Appendix 4 prints 250 and 145 kg/ha of product for 50 kg N/ha.
    row = PRINTED[example]
    kg_per_m2 = row["expected"] / 10_000
    given = kg_per_ha(grams_by_mass(kg_per_m2, row["inputs"]["N_pct"]))
    assert given == pytest.approx(row["inputs"]["N_kg_ha"], abs=0.1)


def test_an_ounce_in_100_us_gallons_of_a_15_per_cent_feed():
    # Texas A&M prints 11.25 ppm by its rule of 75; the exact factor is 74.89.
    example = PRINTED["ppm-75-rule"]
    grams = grams_by_mass(OZ / 1000, 100 * example["inputs"]["N_frac"])
    assert mg_per_l(grams, 100 * US_GALLON) == pytest.approx(example["expected"], abs=0.02)


@pytest.mark.parametrize("example", ["ppm-umass-20", "ppm-umass-15"])
def test_ounces_for_200_ppm_of_nitrogen(example: str):
    # UMass Extension prints 13 1/2 oz of 20 %, 18 oz of 15 %, in quarter ounces.
    row = PRINTED[example]
    pct = 100 * row["inputs"]["N_frac"]
    strength_of_an_ounce = mg_per_l(grams_by_mass(OZ / 1000, pct), 100 * US_GALLON)
    ounces = row["inputs"]["ppm"] / strength_of_an_ounce
    assert ounces == pytest.approx(row["expected"], abs=row["tolerance"])


def test_a_gram_a_litre_of_20_20_20():
    # Regression case, computed: 200 mg N, 87.28 mg P, 166.02 mg K.
    label = Label(20, 20, 20, "w/w", "")
    held = [mg_per_l(grams_by_mass(0.001, label.pct(name) or 0), 1) for name in ("N", "P", "K")]
    assert held == pytest.approx([200, 87.28, 166.02])


def test_a_liquid_by_volume_needs_no_density():
    # Regression case, computed: 50 ml of 4-3-8 w/v hold 2 g N; w/w at 1.1 kg/l they hold 2.2 g.
    assert grams_by_volume(0.05, 4) == pytest.approx(2)
    assert grams_by_mass(0.05 * 1.1, 4) == pytest.approx(2.2)


def test_30_t_of_cattle_manure_a_hectare():
    # Regression case on the RB209 figures 6.0, 3.2 and 9.4 kg/t: 180, 96, 282 kg/ha of 3 kg a m2.
    label = Label(0.6, 0.32, 0.94, "w/w", "")
    held = [kg_per_ha(grams_by_mass(3, label.pct(name) or 0)) for name in ("N", "P2O5", "K2O")]
    assert held == pytest.approx([180, 96, 282])


def test_what_a_label_does_not_say_is_not_said():
    label = Label(4, None, None, "", "")
    assert label.pct("N") == 4 and label.pct("P2O5") is None and label.pct("P") is None
