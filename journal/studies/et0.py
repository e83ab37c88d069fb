"""Reference evapotranspiration of each day: Penman-Monteith where all is measured, else Hargreaves.

Only days with both extremes of temperature, and only where the sheet gives a latitude; other days
have the most that the sun could evaporate as a bound, and no figure.
"""

from typing import Any

import numpy as np
import pandas as pd

from journal.diary import Diary
from journal.studies import evapotranspiration as fao
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.weather_days import DIARY, calendar, open_air, weather_days, winning

PENMAN_MONTEITH, HARGREAVES = "penman-monteith", "hargreaves"


@once_a_diary
def et0(diary: Diary) -> pd.DataFrame:
    """One row a day of the weather: `year date et0_mm method most_mm`.

    - `method` is penman-monteith (FAO-56 eq. 6) on days with both extremes of temperature and of
      humidity, the sun, and a day's mean wind from a met file, brought to 2 m (eq. 47);
      hargreaves (eq. 52) where only the temperatures are there; empty where not even these.
    - The sun is solar radiation as a station measured it, else the hours of sunshine (eq. 35).
      Radiation above what the sun brings to the top of the air is no reading.
    - `et0_mm` is blank on a day without both extremes, or with a minimum above the maximum.
      Hargreaves is meant as the mean of several days: one day may be far off, a week's sum less.
    - `most_mm` is what the sun above the air could evaporate, 0.408 Ra (eqs. 20 and 21): no day
      can need more by the sun, which bounds a day that was not read.

    Empty without a latitude on the sheet. A wind written in the diary is one look at the trees and
    no day's mean, so it is not used. Altitude is the sheet's, else 0 m.
    """
    days = weather_days(diary)
    latitude = diary.plot.latitude
    if latitude is None or days.empty:
        return shaped("et0", [])
    above = fao.extraterrestrial(latitude, calendar(days).day_of_year.to_numpy(dtype=float))
    low, high = days["t_min"].to_numpy(), days["t_max"].to_numpy()
    simple = fao.hargreaves(low, high, above)
    full = _penman_monteith(diary, days, above, latitude)
    method = np.where(~np.isnan(full), PENMAN_MONTEITH, HARGREAVES)
    best = np.where(np.isnan(full), simple, full)
    frame = pd.DataFrame(
        {
            "year": calendar(days).year,
            "date": calendar(days),
            "et0_mm": best.round(6),
            "method": np.where(np.isnan(best), "", method),
            "most_mm": (fao.MM_PER_MJ * above).round(6),
        }
    )
    return shaped("et0", frame)


def _penman_monteith(diary: Diary, days: pd.DataFrame, above: Any, latitude: float) -> Any:
    """Penman-Monteith of each day, missing where one of its causes was not measured."""
    altitude = diary.plot.altitude_m or 0.0
    low, high = days["t_min"].to_numpy(), days["t_max"].to_numpy()
    hours = fao.daylight_hours(latitude, calendar(days).day_of_year.to_numpy(dtype=float))
    measured = days["solar"].to_numpy()
    by_hours = fao.solar(above, days["sun"].to_numpy(), hours)
    sun = np.where(measured <= above, measured, by_hours)
    vapour = fao.vapour_pressure(low, high, days["rh_min"].to_numpy(), days["rh_max"].to_numpy())
    net = fao.net_radiation(low, high, vapour, sun, fao.clear_sky(above, altitude))
    wind = mean_wind(diary).reindex(calendar(days)).to_numpy()
    found = fao.penman_monteith(low, high, net, vapour, wind, altitude)
    return np.where(high >= low, found, np.nan)


def mean_wind(diary: Diary) -> "pd.Series[Any]":
    """Each day's mean wind at 2 m from the met files, in m/s; the first on the sheet counts."""
    readings = open_air(diary)
    measured = readings[(readings["variable"] == "wind") & (readings["source"] != DIARY)]
    won = winning(measured, diary.sheet.met_files)
    heights = won["source"].map({row.name: row.wind_m for row in diary.sheet.mets}).astype(float)
    at_2m = fao.wind_at_2m(won["value"].to_numpy(), heights.to_numpy())
    return pd.Series(at_2m, index=pd.DatetimeIndex(won["date"]), dtype="float64")


def et0_notes(diary: Diary) -> list[Note]:
    """What makes all figures doubtful: no latitude, or one beyond 55 degrees."""
    latitude = diary.plot.latitude
    if latitude is None:
        reason = "the sheet gives no latitude, so what the plants need cannot be computed"
        return [Note("water_need", "weather", "water need", reason)]
    if abs(latitude) > fao.FARTHEST_LATITUDE:
        reason = f"beyond {fao.FARTHEST_LATITUDE:g} degrees of latitude the formulas hold less well"
        return [Note("water_need", "weather", "water need", reason)]
    return []
