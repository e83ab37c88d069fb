"""What a weather station measures, in which units it may be written, and how far it can go.

Pure values; a unit that is not here is not read. The bounds are the world's records, rounded out:
a figure beyond them is a fault of the file.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Scale:
    """How a written unit becomes the weather table's: value = written x `factor` + `offset`."""

    factor: float
    offset: float = 0.0


@dataclass(frozen=True, slots=True)
class Measured:
    """One variable of the weather table: its unit, the units it may be written in, its bounds."""

    name: str
    unit: str
    scales: dict[str, Scale]
    low: float
    high: float

    def scale(self, unit: str) -> Scale | None:
        """The scale of a written unit, or None where it does not fit this variable."""
        return self.scales.get(_plain(unit))


def _plain(unit: str) -> str:
    text = unit.strip().lower().replace("°", "").replace("º", "")
    return text.removeprefix("deg").strip(" ._")


_CELSIUS = {name: Scale(1.0) for name in ("c", "celsius", "degrees c")}
_FAHRENHEIT = {name: Scale(1 / 1.8, -32 / 1.8) for name in ("f", "fahrenheit", "degrees f", "degf")}
_KELVIN = {name: Scale(1.0, -273.15) for name in ("k", "kelvin")}
_WARMTH = _CELSIUS | _FAHRENHEIT | _KELVIN
_INCHES = ("in", "inch", "inches")
_RAIN = {"mm": Scale(1.0), "cm": Scale(10.0)} | dict.fromkeys(_INCHES, Scale(25.4))
_SNOW = {"cm": Scale(1.0), "mm": Scale(0.1)} | dict.fromkeys(_INCHES, Scale(2.54))
_HOURS = dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), Scale(1.0))
_SUN = _HOURS | dict.fromkeys(("min", "mins", "minutes"), Scale(1 / 60)) | {"s": Scale(1 / 3600)}
_WIND = (
    dict.fromkeys(("m/s", "mps", "ms-1", "m s-1"), Scale(1.0))
    | dict.fromkeys(("km/h", "kmh", "kph", "kmph"), Scale(1 / 3.6))
    | {"mph": Scale(0.44704)}
    | dict.fromkeys(("kn", "kt", "kts", "knot", "knots"), Scale(1852 / 3600))
)
# what falls on a square metre in a day; watts are the day's mean, for 86 400 s
_PER_M2 = ("/m2", "/m²", "/m^2", "m-2", " m-2")
_PER_CM2 = ("/cm2", "/cm²", "/cm^2", " cm-2")
_SOLAR = (
    {f"mj{area}{day}": Scale(1.0) for area in _PER_M2 for day in ("", "/day", "/d")}
    | {f"w{area}": Scale(0.0864) for area in _PER_M2}
    | {f"wh{area}": Scale(0.0036) for area in _PER_M2}
    | {f"kwh{area}": Scale(3.6) for area in _PER_M2}
    | {f"j{area}": Scale(0.01) for area in _PER_CM2}
)
_PER_CENT = dict.fromkeys(("%", "pct", "percent", "per cent"), Scale(1.0))

# Records: 56.7 C and -89.2 C, 1825 mm of rain in 24 h, a gust of 113 m/s (WMO World Weather and
# Climate Extremes Archive, from memory, not re-read; used as bounds, never shown). No day's sun
# above the air brings 50 MJ to a square metre (FAO-56 eq. 21 over all latitudes and days).
MEASURED: dict[str, Measured] = {
    row.name: row
    for row in (
        Measured("t_min", "C", _WARMTH, -90.0, 60.0),
        Measured("t_max", "C", _WARMTH, -90.0, 60.0),
        Measured("t", "C", _WARMTH, -90.0, 60.0),
        Measured("soil_t", "C", _WARMTH, -60.0, 80.0),
        Measured("rain", "mm", _RAIN, 0.0, 2000.0),
        Measured("snow", "cm", _SNOW, 0.0, 2000.0),
        Measured("sun", "h", _SUN, 0.0, 24.0),
        Measured("solar", "MJ/m2", _SOLAR, 0.0, 50.0),
        Measured("wind", "m/s", _WIND, 0.0, 115.0),
        Measured("rh_min", "%", _PER_CENT, 0.0, 100.0),
        Measured("rh_max", "%", _PER_CENT, 0.0, 100.0),
        Measured("rh", "%", _PER_CENT, 0.0, 100.0),
    )
}
