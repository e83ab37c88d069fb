"""Degree days against a numerical integral, and by crop; printed examples are in tests/external."""

import numpy as np
import pytest
from support.weather import weather_diary

from journal.studies.degree_days import by_extremes, by_sine, degree_days


@pytest.mark.parametrize(
    ("low", "high"), [(5, 35), (12, 32), (5, 25), (31, 38), (1, 8), (11, 25), (10, 10), (5, 30)]
)
def test_the_sine_is_the_area_under_a_sine_between_the_thresholds(low: float, high: float):
    phase = (np.arange(1_000_000) + 0.5) / 1_000_000 * 2 * np.pi
    wave = (low + high) / 2 + (high - low) / 2 * np.sin(phase)
    area = (np.clip(wave, 10, 30) - 10).mean()
    assert float(by_sine(low, high, 10, 30)) == pytest.approx(area, abs=1e-6)


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
