"""Moisture and C:N of mixes: Cornell's formulas, the analyses of Missouri S&T and NRAES-54."""

import json
from pathlib import Path
from typing import Any

import pytest

from journal.studies.compost_mix import Filling, Stuff, c_to_n_of, mix, moisture_of

PRINTED: dict[str, dict[str, Any]] = {
    row["id"]: row
    for row in json.loads(
        (Path(__file__).parent.parent / "external" / "worked_examples.json").read_text()
    )
}

# Missouri S&T, http://web.mst.edu/~gbert/CompostMixture.html
CATTLE = (2.4, 19, 81)
STRAW = (0.7, 80, 12)
GRASS = (4, 17, 82)
LEAVES = (0.9, 54, 38)


def test_leaves_bring_wet_stuff_to_the_printed_moisture():
    # Cornell prints 6.8 kg of leaves at 35 % to bring 10 kg at 77 % to 60 %.
    example = PRINTED["compost-Q2-moisture"]
    assert example["expected_origin"] == "printed" and example["agrees"]
    given = example["inputs"]
    wet = Stuff(given["Q1_kg"], 2.4, 19, given["M1"])
    dry = Stuff(example["expected"], 0.75, 67, given["M2"])
    assert moisture_of([wet, dry]) == pytest.approx(given["G"], abs=0.05)


@pytest.mark.parametrize(
    ("parts", "c_to_n", "moisture"),
    [
        # Regression cases: Cornell's formula on Missouri S&T's analyses, computed.
        ([Stuff(10, *CATTLE), Stuff(2, *STRAW)], 31.98, 69.5),
        ([Stuff(10, *GRASS), Stuff(10, *LEAVES)], 33.15, 60.0),
    ],
)
def test_a_mix_is_blended_on_dry_mass(parts: list[Stuff], c_to_n: float, moisture: float):
    assert c_to_n_of(parts) == pytest.approx(c_to_n, abs=0.006)
    assert moisture_of(parts) == pytest.approx(moisture, abs=0.006)


@pytest.mark.parametrize(
    ("parts", "averaged"),
    [
        # the mean of the ratios by wet mass, which some pages print
        ([Stuff(10, *CATTLE), Stuff(2, *STRAW)], 29.2),
        ([Stuff(10, *GRASS), Stuff(10, *LEAVES)], 35.5),
    ],
)
def test_ratios_are_never_averaged(parts: list[Stuff], averaged: float):
    wet = sum(part.kg for part in parts)
    assert sum(part.kg * part.c_to_n for part in parts) / wet == pytest.approx(averaged, abs=0.05)
    assert abs(c_to_n_of(parts) - averaged) > 2


def test_one_material_has_its_own_ratio_and_moisture():
    alone = [Stuff(3, *STRAW)]
    assert (c_to_n_of(alone), moisture_of(alone)) == (pytest.approx(80), pytest.approx(12))


def test_fillings_by_weight_need_no_density():
    found = mix([Filling("cow manure", None, 10.0), Filling("straw", None, 2.0)])
    # both sources of straw have the same analysis
    assert found.c_to_n == pytest.approx((31.98, 31.98), abs=0.006)
    assert found.moisture_pct == pytest.approx((69.5, 69.5), abs=0.006)


def test_sources_that_differ_leave_a_range():
    # 10 kg grass (N 4 % by Missouri S&T, 3.4 % by NRAES-54) and 10 kg leaves: with 3.4 %
    # carbon 10 x 3.4 x 17 x 18 + 10 x 0.9 x 54 x 62 = 40536, nitrogen 10 x 3.4 x 18 + 10 x 0.9 x 62
    found = mix([Filling("grass clippings", None, 10.0), Filling("leaves", None, 10.0)])
    assert found.c_to_n == pytest.approx((33.15, 40536 / 1170), abs=0.006)


def test_barrows_are_weighed_loose():
    # 100 l of straw are 12.0 kg by Missouri S&T, 13.5 by NRAES-54; 100 l of cattle manure 86.3
    found = mix([Filling("cow manure", 100.0), Filling("straw", 100.0)])
    wettest = (86.3 * 81 + 12.0 * 12) / 98.3
    driest = (86.3 * 81 + 13.5 * 12) / 99.8
    assert found.moisture_pct == pytest.approx((driest, wettest), abs=0.01)


def test_several_fillings_of_one_material_are_one_mass():
    once = mix([Filling("straw", None, 2.0), Filling("cow manure", None, 10.0)])
    twice = mix(
        [
            Filling("straw", None, 1.0),
            Filling("cow manure", None, 10.0),
            Filling("straw", None, 1.0),
        ]
    )
    assert once == twice


@pytest.mark.parametrize(
    ("filling", "name"),
    [
        (Filling("nettles", 80.0), "nettles"),
        (Filling("straw", None), "straw"),
        (Filling("hay", 80.0), "hay"),  # an analysis, and no density
    ],
)
def test_one_material_without_a_figure_leaves_none_and_is_named(filling: Filling, name: str):
    found = mix([Filling("leaves", 100.0), filling])
    assert found.c_to_n is None and found.moisture_pct is None
    assert name in found.lack


def test_nothing_has_no_mix():
    assert mix([]).c_to_n is None
    with pytest.raises(ValueError, match="no moisture"):
        moisture_of([])
    with pytest.raises(ValueError, match="no C:N"):
        c_to_n_of([])
