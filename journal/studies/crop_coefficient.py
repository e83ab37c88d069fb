"""How much more or less than grass a crop drinks at each of its stages, by FAO-56 (1998).

Coefficients and stage lengths are the tables' of that edition; its revision of 2025 has others.
"""

from typing import Any

import numpy as np

from journal.reference.water import CropWater

Figures = Any
STAGES = ("initial", "development", "middle", "late", "after")


def stage_at(days: Figures, lengths: tuple[float, float, float, float]) -> Figures:
    """The stage of each day since sowing or planting, as its place in `STAGES`, day 1 the first."""
    return np.searchsorted(np.cumsum(lengths), np.asarray(days), side="left")


def coefficient(
    days: Figures, lengths: tuple[float, float, float, float], ini: float, mid: float, end: float
) -> Figures:
    """Kc of each day since sowing or planting, straight lines between the stages (eq. 66).

    The initial and middle stages are level; after the last stage the end's coefficient holds.
    """
    ends = np.cumsum(lengths)
    corners = [ends[0], ends[1], ends[2], ends[3]]
    return np.interp(np.asarray(days, dtype=float), corners, [ini, mid, mid, end])


def adjusted_mid(kc: float, wind_2m: float, rh_min: float, height_m: float) -> float:
    """A middle or end coefficient for other air than the tables' (eqs. 62 and 65).

    kc + (0.04 (u2 - 2) - 0.004 (RHmin - 45)) (h / 3)^0.3, for RHmin of 20 to 80 per cent and wind
    of 1 to 6 m/s, beyond which the ends of these ranges hold. An end below 0.45 stays as it is.
    """
    if kc < 0.45:
        return kc
    wind, humidity = min(max(wind_2m, 1.0), 6.0), min(max(rh_min, 20.0), 80.0)
    return kc + (0.04 * (wind - 2) - 0.004 * (humidity - 45)) * float((height_m / 3) ** 0.3)


def crop_coefficients(
    crop: CropWater, days: Figures, wind_2m: float | None, rh_min: float | None
) -> Figures:
    """Kc of a crop of the tables on each day since sowing or planting; it must have stages.

    Adjusted for the air where its mean wind and least humidity are known, else the tables' own.
    """
    assert crop.stages is not None
    mid, end = crop.kc_mid, crop.kc_end
    if wind_2m is not None and rh_min is not None:
        mid, end = (adjusted_mid(kc, wind_2m, rh_min, crop.height_m) for kc in (mid, end))
    return coefficient(days, crop.stages, crop.kc_ini, mid, end)
