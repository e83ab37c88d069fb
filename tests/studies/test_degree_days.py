"""Degree days by three methods against printed examples, a numerical integral, and by crop."""

import json
from pathlib import Path

import numpy as np
import pytest
from support.weather import weather_diary

from journal.studies.degree_days import by_extremes, by_mean, by_sine, degree_days

# Printed results with their sources: see `source` of each example.
EXAMPLES = {
    example["id"]: example
    for example in json.loads(
        (Path(__file__).parent.parent / "external" / "worked_examples.json").read_text("utf-8")
    )
}


@pytest.mark.parametrize(
    "example",
    ["gdd-m2-corn-1", "gdd-m2-corn-2", "gdd-m2-corn-3", "gdd-m2-ohio"],
)
def test_the_rule_of_maize_growers_is_the_one_that_clips_the_extremes(example: str):
    row = EXAMPLES[example]
    given = row["inputs"]
    found = by_extremes(given["tmin_F"], given["tmax_F"], given["base_F"], given["upper_F"])
    assert found == pytest.approx(row["expected"], abs=row["tolerance"])


@pytest.mark.parametrize("example", ["gdd-m2-iowa", "gdd-m2-iowa-max"])
def test_iowas_examples_of_the_same_rule(example: str):
    given, expected = EXAMPLES[example]["inputs"], EXAMPLES[example]["expected"]
    low, high, base = given["tmin_F"], given["tmax_F"], given["base_F"]
    assert by_extremes(low, high, base, given["upper_F"]) == expected


def test_three_days_of_it_add_up_as_printed():
    days = [EXAMPLES[f"gdd-m2-corn-{number}"]["inputs"] for number in (1, 2, 3)]
    total = sum(by_extremes(day["tmin_F"], day["tmax_F"], 50, 86) for day in days)
    assert total == pytest.approx(EXAMPLES["gdd-m2-corn-sum"]["expected"], abs=0.05)


def test_a_single_sine_gives_the_printed_example():
    # TrenchR reference manual, degree_days, single sine: 7 and 14 C, thresholds 12 and 33 C
    row = EXAMPLES["gdd-sine-1"]
    assert float(by_sine(7, 14, 12, 33)) == pytest.approx(row["expected"], abs=row["tolerance"])


@pytest.mark.parametrize(
    ("low", "high", "mean_first", "extremes_first"),
    [
        # The two readings of one formula (McMaster and Wilhelm 1997), worked by hand, base 10:
        # (20 + 4) / 2 - 10 = 2 against (20 + 10) / 2 - 10 = 5
        (4, 20, 2.0, 5.0),
        # (14 + 4) / 2 = 9 is below 10 against (14 + 10) / 2 - 10 = 2
        (4, 14, 0.0, 2.0),
        (1, 8, 0.0, 0.0),
    ],
)
def test_the_two_ways_of_averaging_differ_where_the_minimum_is_below_the_base(
    low: float, high: float, mean_first: float, extremes_first: float
):
    assert (by_mean(low, high, 10), by_extremes(low, high, 10)) == (mean_first, extremes_first)


def test_the_two_ways_differ_above_the_cutoff_too():
    # base 10, cutoff 30, 12 and 35 C: 23.5 - 10 = 13.5 against (12 + 30) / 2 - 10 = 11
    assert (by_mean(12, 35, 10, 30), by_extremes(12, 35, 10, 30)) == (13.5, 11.0)


@pytest.mark.parametrize(
    ("low", "high"), [(5, 35), (12, 32), (5, 25), (31, 38), (1, 8), (11, 25), (10, 10), (5, 30)]
)
def test_the_sine_is_the_area_under_a_sine_between_the_thresholds(low: float, high: float):
    phase = (np.arange(1_000_000) + 0.5) / 1_000_000 * 2 * np.pi
    wave = (low + high) / 2 + (high - low) / 2 * np.sin(phase)
    area = (np.clip(wave, 10, 30) - 10).mean()
    assert float(by_sine(low, high, 10, 30)) == pytest.approx(area, abs=1e-6)


def test_a_day_wholly_above_the_cutoff_counts_the_whole_band():
    # an error of one published version gives 0 here
    assert float(by_sine(31, 38, 10, 30)) == 20.0


def test_a_day_without_an_extreme_has_none():
    assert np.isnan(by_sine(np.nan, 20, 10))


def test_a_sum_in_fahrenheit_becomes_one_in_celsius_without_an_offset():
    fahrenheit = by_extremes(63, 87, 50, 86)
    celsius = by_extremes((63 - 32) / 1.8, (87 - 32) / 1.8, 10, 30)
    assert celsius == pytest.approx(fahrenheit / 1.8)


def test_a_crop_has_its_own_published_base_with_its_source():
    page = (
        "1 May 2025\n- sow sweetcorn in Top bed\n- sow oca in Top bed\n- weather 4 to 20 C\n\n"
        "2 May 2025\n- weather 31 to 38 C\n"
    )
    frame = degree_days(weather_diary(page))
    assert frame["crop"].drop_duplicates().tolist() == ["", "sweetcorn"]
    own = frame[frame["crop"] == "sweetcorn"].set_index("method")
    # base 10 C (50 F), as NCSU prints it for corn and beans
    assert own["source"].unique().tolist() == ["M. Peet, North Carolina State University"]
    assert own["base_c"].unique().tolist() == [10.0]
    # day 1: 2 and 5; day 2: 34.5 - 10 both ways
    assert own["degree_days"].tolist()[:2] == pytest.approx([26.5, 29.5])
    assert own["days_read"].unique().tolist() == [2]


def test_without_weather_there_are_none():
    assert degree_days(weather_diary("1 May 2025\n- sow sweetcorn in Top bed\n")).empty
