"""The water of a root zone from day to day by FAO-56 chapter 8, between the bounds that are known.

A depletion is carried as its least and its most: where the diary leaves a day open the two part,
and a soaking brings them together again. Nothing is filled in.
"""

from collections.abc import Iterable
from dataclasses import dataclass

LEAST_FRACTION, MOST_FRACTION = 0.1, 0.8


def total_available(available: float, root_m: float) -> float:
    """TAW in mm: 1000 x (field capacity - wilting point) x depth of roots in m (eq. 82)."""
    return 1000 * available * root_m


def adjusted_fraction(table: float, crop_mm: float) -> float:
    """p for a day's use of water: table + 0.04 (5 - ETc), within 0.1 and 0.8 (Table 22, note)."""
    return min(max(table + 0.04 * (5 - crop_mm), LEAST_FRACTION), MOST_FRACTION)


def readily_available(total: float, fraction: float) -> float:
    """RAW in mm: p x TAW (eq. 83)."""
    return fraction * total


def stress(depletion: float, total: float, readily: float) -> float:
    """Ks: 1 up to RAW, then falling straight to 0 at TAW (eq. 84)."""
    if depletion <= readily:
        return 1.0
    return max((total - depletion) / (total - readily), 0.0)


def next_depletion(
    before: float, total: float, readily: float, crop_mm: float, water_mm: float
) -> float:
    """Dr at the end of a day (eqs. 85 to 88), within 0 and TAW; what is too much drains away.

    Ks is taken from the depletion at the end of the day before. No runoff and no capillary rise.
    """
    used = stress(before, total, readily) * crop_mm
    return min(max(before - water_mm + used, 0.0), total)


@dataclass(frozen=True, slots=True)
class Day:
    """What one day brings, least and most: crop water use ETc, and water by rain and can, in mm."""

    crop_mm: tuple[float, float]
    water_mm: tuple[float, float]
    readily: float


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least and the most that a depletion can be, in mm."""

    low: float
    high: float


def depletions(start: Bounds, total: float, days: Iterable[Day]) -> list[Bounds]:
    """The depletion at the end of each day: the least with the most water and the least use.

    A greater depletion at a day's start never ends it the lesser one, so that the two bounds hold
    whatever lies between.
    """
    found = []
    low, high = start.low, start.high
    for day in days:
        low = next_depletion(low, total, day.readily, day.crop_mm[0], day.water_mm[1])
        high = next_depletion(high, total, day.readily, day.crop_mm[1], day.water_mm[0])
        found.append(Bounds(low, max(low, high)))
    return found
