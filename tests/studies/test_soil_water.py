"""Coefficients and root-zone water at their edges; FAO-56's own examples are in tests/external."""

from hypothesis import given
from hypothesis import strategies as st

from journal.studies.crop_coefficient import STAGES, adjusted_mid, stage_at
from journal.studies.soil_water import (
    Bounds,
    Day,
    adjusted_fraction,
    depletions,
    next_depletion,
)


def test_a_crop_goes_from_stage_to_stage_by_days():
    # FAO-56 example 28: stages of 25, 25, 30 and 20 days
    stages = [STAGES[at] for at in stage_at([20, 25, 26, 40, 70, 95, 101], (25, 25, 30, 20))]
    assert stages == ["initial", "initial", "development", "development", "middle", "late", "after"]


def test_the_part_easily_taken_up_stays_within_its_limits():
    # FAO-56 Table 22, note; the limits from memory, not re-read
    assert adjusted_fraction(0.2, 9.0) == 0.1
    assert adjusted_fraction(0.7, 0.0) == 0.8


def test_an_end_below_045_is_not_adjusted():
    assert adjusted_mid(0.35, 5.0, 30.0, 0.4) == 0.35


def test_rain_beyond_field_capacity_drains_away():
    # eqs. 85 and 88 by hand: 8 - 15 + 3 = -4, so nothing is depleted and 4 mm drain
    assert next_depletion(8.0, 100.0, 40.0, 3.0, 15.0) == 0.0


def test_a_day_not_read_parts_the_bounds_and_a_soaking_joins_them():
    known = Day((3.0, 3.0), (0.0, 0.0), 40.0)
    unread = Day((0.0, 6.0), (0.0, float("inf")), 40.0)
    soaking = Day((2.0, 2.0), (120.0, 120.0), 40.0)
    found = depletions(Bounds(10.0, 10.0), 100.0, [known, unread, known, soaking])
    assert found == [Bounds(13.0, 13.0), Bounds(0.0, 19.0), Bounds(3.0, 22.0), Bounds(0.0, 0.0)]


amounts = st.floats(0, 12)
brought = st.tuples(amounts, st.one_of(st.just(0.0), st.floats(0, 40)))


@given(st.floats(0, 100), st.lists(brought, max_size=40), st.data())
def test_whatever_the_days_not_read_brought_lies_between_the_bounds(start, days, data):
    """Each day's figures may be hidden; the true depletion stays within the bounds."""
    told, depletion, truth = [], start, []
    for crop_mm, water_mm in days:
        hidden = data.draw(st.booleans())
        water = (0.0, float("inf")) if hidden else (water_mm, water_mm)
        told.append(Day((0.0, 12.0) if hidden else (crop_mm, crop_mm), water, 40.0))
        depletion = next_depletion(depletion, 100.0, 40.0, crop_mm, water_mm)
        truth.append(depletion)
    found = depletions(Bounds(0.0, 100.0), 100.0, told)
    assert all(
        bound.low - 1e-9 <= true <= bound.high + 1e-9
        for bound, true in zip(found, truth, strict=True)
    )
