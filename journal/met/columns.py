"""A heading of a station's file to the variable and unit that its column holds."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from journal.events.model import MetFileDeclared
from journal.reference.weather_units import MEASURED, Scale

# Common headings, letters and figures only (no spaces, dots or underscores).
_SPELLINGS = {
    "date": "date day time datetime timestamp obsdate observationdate datetimelocal localdate",
    "t_min": "tmin mintemp tempmin mintemperature temperaturemin minimumtemperature min minimum "
    "tempminimum temperatureminimum templow lowtemp lowtemperature low airtempmin minairtemp tn "
    "tnn temperature2mmin outsidelow outdoorlow",
    "t_max": "tmax maxtemp tempmax maxtemperature temperaturemax maximumtemperature max maximum "
    "tempmaximum temperaturemaximum temphigh hightemp hightemperature high airtempmax maxairtemp "
    "tx txx temperature2mmax outsidehigh outdoorhigh hitemp",
    "t": "t tmean temp temperature tavg tempavg avgtemp meantemp tempmean meantemperature "
    "averagetemperature temperaturemean airtemp airtemperature tg temperature2mmean",
    "rain": "rain rainfall precip precipitation prcp rr rr24 rraw precipitationsum rainsum "
    "totalprecip totalprecipitation totalrain dailyrain dailyrainfall raintotal preciptotal "
    "rainfallamount",
    "snow": "snow snowfall newsnow totalsnow snowfallsum",
    "sun": "sun sunshine sunhours sunshinehours sunshineduration hoursofsunshine brightsunshine ss",
    "solar": "solar solarrad solarradiation avgsolarrad avgsolarradiation solarradavg meansolarrad "
    "solarradiationmean dailysolarradiation globalradiation globalsolarradiation srad "
    "shortwaveradiation shortwaveradiationsum",
    "wind": "wind windspeed meanwind meanwindspeed windspeedmean avgwind avgwindspeed windavg "
    "windspeedavg wspd awnd ff fg dailymeanwindspeed",
    "rh_min": "rhmin minrh humiditymin minhumidity lowhumidity relativehumidity2mmin",
    "rh_max": "rhmax maxrh humiditymax maxhumidity highhumidity relativehumidity2mmax",
    "rh": "rh humidity relativehumidity meanrh rhmean avghumidity humidityavg outdoorhumidity "
    "relativehumidity2mmean",
    "soil_t": "soilt soiltemp soiltemperature tempsoil",
    "year": "year yyyy",
    "month": "month mm mo",
    "dom": "dayofmonth dd dom",
}
_BY_SPELLING = {word: name for name, words in _SPELLINGS.items() for word in words.split()}
_UNITS = sorted({unit for row in MEASURED.values() for unit in row.scales}, key=len, reverse=True)
_BRACKETED = re.compile(r"\s*[\[(]([^\])]*)[\])]\s*$")
_ENDING = re.compile(
    rf"(?:[\s_,./-]+|(?=°))((?:deg\s*|°|º)?(?:{'|'.join(map(re.escape, _UNITS))}))\s*$",
    re.IGNORECASE,
)
# our own tables' units, for a heading that is a column of the weather table and says no more
_USUAL = {"t_min": "c", "t_max": "c", "t": "c", "soil_t": "c", "rain": "mm", "snow": "cm"}
_USUAL |= {"sun": "h", "rh_min": "%", "rh_max": "%", "rh": "%"}
_USUAL_US = {"t_min": "f", "t_max": "f", "t": "f", "soil_t": "f", "rain": "in", "snow": "in"}


@dataclass(frozen=True, slots=True)
class Heading:
    """One column that is read: where it stands, its variable, and its unit as a scale.

    `scale` is None where neither the heading nor the sheet gives a unit and none is usual.
    """

    at: int
    name: str
    scale: Scale | None


@dataclass(frozen=True, slots=True)
class Units:
    """The units that hold where a heading gives none."""

    fahrenheit: bool = False
    us: bool = False


def _squeezed(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.lower())


def _cut_unit(heading: str) -> tuple[str, str]:
    """`Rain (mm)` and `rain_mm` are (Rain, mm)."""
    for pattern in (_BRACKETED, _ENDING):
        if found := pattern.search(heading):
            return heading[: found.start()], found[1]
    return heading, ""


def _names(heading: str, spellings: Mapping[str, str]) -> tuple[str, str]:
    """The variable and the unit of a heading, both "" where it has none.

    The whole heading goes first: the `min` of `t_min` is no unit.
    """
    if name := spellings.get(_squeezed(heading)):
        return name, ""
    bare, unit = _cut_unit(heading)
    name = spellings.get(_squeezed(bare), "")
    return name, unit if name else ""


def read_heading(
    cells: list[str], declared: MetFileDeclared, units: Units
) -> dict[str, Heading] | None:
    """The columns of a heading row by their variable, or None when it is no heading.

    What the sheet says of columns and units counts before the headings' own words; of two columns
    of one variable the first is read.
    """
    wanted = {_squeezed(column): name for name, column in declared.columns}
    claimed = set(wanted.values())
    usual = {word: name for word, name in _BY_SPELLING.items() if name not in claimed}
    told = dict(declared.units)
    found: dict[str, Heading] = {}
    for at, cell in enumerate(cells):
        name, unit = _names(cell, usual | wanted)
        if name and name not in found:
            found[name] = Heading(at, name, _scale(name, told.get(name) or unit, units))
    dated = "date" in found or {"year", "month", "dom"} <= set(found)
    return found if dated and set(found) & set(MEASURED) else None


def _scale(name: str, written: str, units: Units) -> Scale | None:
    measured = MEASURED.get(name)
    if measured is None:
        return None
    if written:
        return measured.scale(written)
    usual = _USUAL.get(name, "")
    if units.us or (units.fahrenheit and usual == "c"):
        usual = _USUAL_US.get(name, usual)
    return measured.scale(usual)
