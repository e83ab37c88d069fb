"""Reference evapotranspiration by FAO-56: radiation and day length, Penman-Monteith, Hargreaves.

Allen, Pereira, Raes and Smith 1998, FAO Irrigation and Drainage Paper 56; each function names its
equations. Latitude in degrees (north positive), `day` the day of the year from 1, temperatures in
C, pressures in kPa, radiation in MJ a m2 and day, wind in m/s; figures or arrays of them.
"""

from typing import Any

import numpy as np

Figures = Any
SOLAR_CONSTANT = 0.0820
STEFAN_BOLTZMANN = 4.903e-9
MM_PER_MJ = 0.408
ALBEDO = 0.23
INLAND = 0.16
LEAST_CLEARNESS = 0.3
# from here polewards the equations are of limited validity (NCL, radext_fao56)
FARTHEST_LATITUDE = 55.0


def sun_distance(day: Figures) -> Figures:
    """Inverse relative distance from earth to sun (eq. 23)."""
    return 1 + 0.033 * np.cos(2 * np.pi * day / 365)


def declination(day: Figures) -> Figures:
    """Solar declination in radians (eq. 24)."""
    return 0.409 * np.sin(2 * np.pi * day / 365 - 1.39)


def sunset_angle(latitude: float, day: Figures) -> Figures:
    """Sunset hour angle in radians (eq. 25); 0 in polar night, pi in polar day."""
    return np.arccos(np.clip(-np.tan(np.radians(latitude)) * np.tan(declination(day)), -1, 1))


def extraterrestrial(latitude: float, day: Figures) -> Figures:
    """Radiation above the air, Ra (eq. 21)."""
    phi, delta, omega = np.radians(latitude), declination(day), sunset_angle(latitude, day)
    turned = omega * np.sin(phi) * np.sin(delta) + np.cos(phi) * np.cos(delta) * np.sin(omega)
    return 24 * 60 / np.pi * SOLAR_CONSTANT * sun_distance(day) * turned


def daylight_hours(latitude: float, day: Figures) -> Figures:
    """Hours of daylight, N (eq. 34): geometric, so a little short of an almanac's."""
    return 24 / np.pi * sunset_angle(latitude, day)


def solar(radiation: Figures, sun_h: Figures, daylight_h: Figures) -> Figures:
    """Solar radiation Rs from hours of sun (eq. 35), with the constants 0.25 and 0.50.

    Sun for longer than the geometric day counts as the whole day.
    """
    share = np.divide(
        sun_h, daylight_h, out=np.zeros_like(daylight_h + sun_h), where=daylight_h > 0
    )
    return (0.25 + 0.50 * np.minimum(share, 1.0)) * radiation


def solar_by_range(
    radiation: Figures, low: Figures, high: Figures, site: float = INLAND
) -> Figures:
    """Solar radiation Rs from the range of temperature (eq. 50); `site` 0.16 inland, 0.19 coast."""
    return site * np.sqrt(np.maximum(high - low, 0)) * radiation


def clear_sky(radiation: Figures, altitude_m: float) -> Figures:
    """Solar radiation of a clear day, Rso (eq. 37)."""
    return (0.75 + 2e-5 * altitude_m) * radiation


def saturation(celsius: Figures) -> Figures:
    """Saturation vapour pressure at a temperature (eq. 11)."""
    return 0.6108 * np.exp(17.27 * celsius / (celsius + 237.3))


def saturation_of_day(low: Figures, high: Figures) -> Figures:
    """Mean saturation vapour pressure of a day, es (eq. 12)."""
    return (saturation(low) + saturation(high)) / 2


def saturation_slope(celsius: Figures) -> Figures:
    """Slope of the saturation curve (eq. 13)."""
    return 4098 * saturation(celsius) / (celsius + 237.3) ** 2


def vapour_pressure(low: Figures, high: Figures, rh_min: Figures, rh_max: Figures) -> Figures:
    """Actual vapour pressure ea from the extremes of relative humidity in per cent (eq. 17)."""
    return (saturation(low) * rh_max + saturation(high) * rh_min) / 200


def psychrometric(altitude_m: float) -> float:
    """Psychrometric constant from altitude, by the air's pressure (eqs. 7 and 8)."""
    return float(0.000665 * 101.3 * ((293 - 0.0065 * altitude_m) / 293) ** 5.26)


def wind_at_2m(wind: Figures, height_m: Figures) -> Figures:
    """Wind speed at 2 m over grass from that at another height (eq. 47)."""
    return wind * 4.87 / np.log(67.8 * height_m - 5.42)


def net_longwave(low: Figures, high: Figures, vapour: Figures, clearness: Figures) -> Figures:
    """Net outgoing longwave radiation, Rnl (eq. 39); `clearness` is Rs / Rso, from 0.3 to 1.

    The most is eq. 39's own, the least that of its American revision (ASCE 2005, as refet and
    pyfao56 have it): radiation by hours of sun never falls below it, a measured one may.
    """
    fourth = ((high + 273.16) ** 4 + (low + 273.16) ** 4) / 2
    cloud = 1.35 * np.clip(clearness, LEAST_CLEARNESS, 1.0) - 0.35
    return STEFAN_BOLTZMANN * fourth * (0.34 - 0.14 * np.sqrt(vapour)) * cloud


def net_radiation(
    low: Figures, high: Figures, vapour: Figures, sun: Figures, clear: Figures
) -> Figures:
    """Net radiation Rn = (1 - 0.23) Rs - Rnl (eqs. 38 to 40); `sun` is Rs, `clear` Rso."""
    clearness = np.divide(sun, clear, out=np.ones_like(clear + sun), where=clear > 0)
    return (1 - ALBEDO) * sun - net_longwave(low, high, vapour, clearness)


def penman_monteith(
    low: Figures,
    high: Figures,
    net: Figures,
    vapour: Figures,
    wind_2m: Figures,
    altitude_m: float,
    soil_heat: Figures = 0.0,
) -> Figures:
    """Reference evapotranspiration in mm a day from all four of its causes (eq. 6).

    `net` is Rn and `soil_heat` G, 0 over a day; the slope is taken at the mean temperature.
    """
    mean = (low + high) / 2
    slope, gamma = saturation_slope(mean), psychrometric(altitude_m)
    warmth = MM_PER_MJ * slope * (net - soil_heat)
    dryness = saturation_of_day(low, high) - vapour
    air = gamma * 900 / (mean + 273) * wind_2m * dryness
    return np.maximum((warmth + air) / (slope + gamma * (1 + 0.34 * wind_2m)), 0.0)


def hargreaves(low: Figures, high: Figures, radiation: Figures) -> Figures:
    """Reference evapotranspiration in mm a day from temperatures alone (eq. 52), at least 0.

    0.0023 (mean + 17.8) sqrt(high - low) Ra, Ra in mm. Meant as the mean of several days: a single
    day may be far off. Where the minimum is above the maximum there is none.
    """
    spread = np.sqrt(np.where(high >= low, high - low, np.nan))
    mean = (low + high) / 2
    return np.maximum(0.0023 * (mean + 17.8) * spread * MM_PER_MJ * radiation, 0.0)
