"""A weather entry to readings: temperatures, rain, snow, sun, wind, and words such as fog."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from journal.events.dates import Days
from journal.events.model import WeatherReading
from journal.reference.units import unit_table
from journal.source import Source, Span
from journal.syntax import nodes as n
from journal.syntax.nodes import Entry

Complain = Callable[..., None]
_MPS = {"m/s": 1.0, "km/h": 1 / 3.6, "kph": 1 / 3.6, "mph": 0.44704, "knot": 1852 / 3600}
_MPS |= {"knots": 1852 / 3600, "kn": 1852 / 3600}
# Beaufort force to the middle of its range at 10 m, v = 0.836 B^(3/2) m/s (WMO code 1100).
_BEAUFORT = 0.836
_BEARINGS = {
    name: at * 22.5
    for at, name in enumerate(
        [
            "N",
            "NNE",
            "NE",
            "ENE",
            "E",
            "ESE",
            "SE",
            "SSE",
            "S",
            "SSW",
            "SW",
            "WSW",
            "W",
            "WNW",
            "NW",
            "NNW",
        ]
    )
}
_RAIN_MM = {"mm": 1.0, "cm": 10.0, "inch": 25.4, "inches": 25.4, '"': 25.4}
_SNOW_CM = {"cm": 1.0, "mm": 0.1, "inch": 2.54, "inches": 2.54, '"': 2.54}
# Beyond the coldest and hottest air ever measured, -89.2 C and 56.7 C (WMO Weather and Climate
# Extremes Archive), with room for a glasshouse.
_COLDEST, _HOTTEST = -90.0, 65.0
_USUAL = {"rain": "mm", "snow": "cm", "sun": "h", "wind": "mph", "gust": "mph"}
_NEAR = 40  # characters in which the next word is looked for
_HOURS = {"h", "hr", "hrs", "hour", "hours"}
_OPEN = frozenset(["rain", "snow", "wind", "gust"])
_UNITS_OF = {"rain": _RAIN_MM.keys(), "snow": _SNOW_CM.keys(), "sun": _HOURS}


@dataclass(slots=True)
class WeatherReader:
    """Turns the parts of one entry into readings of its day and place."""

    entry: Entry
    source: Source
    days: Days | None
    place: str
    covered: bool
    fahrenheit: bool
    complain: Complain

    def read(self) -> list[WeatherReading]:
        """The entry's readings in the order written."""
        made: list[WeatherReading] = []
        word = self.entry.verb if self.entry.verb in {"rain", "frost"} else ""
        segments = _placed(_segments(self.entry.parts), self.place, self.covered)
        for parts, self.place in segments:
            for part in _with_their_word(parts):
                if isinstance(part, n.Phenomenon):
                    made.append(self._made(part.name, None, "", part.span))
                elif not self._in_inches(part):
                    made.extend(self._figure(part, word))
                    word = ""
        if word and not any(parts for parts, _ in segments):
            made.append(self._made(word, None, "", self.entry.verb_span))
        return made

    def _in_inches(self, part: n.WeatherFigure) -> bool:
        """`0.5 in` is told as no unit, and its figure not used."""
        following = self.entry.text[part.span.end : part.span.end + _NEAR].split(maxsplit=1)
        return (
            not part.unit
            and bool(following)
            and following[0].rstrip(",;") == "in"
            and (len(following) == 1 or following[0] != "in")
        )

    def _made(
        self, variable: str, value: float | None, unit: str, span: Span, mark: str = ""
    ) -> WeatherReading:
        first = self.days.first if self.days else None
        last = self.days.last if self.days else None
        at = self.entry.at(span)
        tidy = None if value is None else float(f"{value:.10g}")
        return WeatherReading(first, last, self.place, variable, tidy, unit, mark, self.source, at)

    def _figure(self, part: n.WeatherFigure, verb: str) -> list[WeatherReading]:
        if part.low is not None and not abs(part.low) < 1e6:
            self.complain("J403", part.span, word=self._written(part))
            return []
        if part.unit == "nil" and verb != "rain":
            self.complain("J101", part.span, word=self._written(part))
            return []
        variable = part.variable or self._by_unit(part) or verb
        if part.low is None:
            return self._bare(part, variable)
        reader = {
            "rain": self._rain,
            "snow": self._snow,
            "sun": self._sun,
            "wind": self._wind,
            "gust": self._wind,
        }.get(variable)
        if reader is not None:
            return reader(part, variable)
        return self._warmth(part, variable)

    def _written(self, part: Any) -> str:
        return self.entry.text[part.span.start : part.span.end]

    def _by_unit(self, part: n.WeatherFigure) -> str:
        if part.unit == "mm":
            return "rain"
        if part.unit == "cm":
            return "snow"
        if part.unit in _HOURS:
            return "sun"
        return "wind" if part.unit in _MPS or part.direction else ""

    def _bare(self, part: n.WeatherFigure, variable: str) -> list[WeatherReading]:
        """A word without a figure: `frost`, `rain`, `wind SW`."""
        if part.direction:
            return [self._direction(part)]
        if variable in {"rain", "snow", "sun", "frost", "wind"}:
            return [self._made(variable if variable != "wind" else "windy", None, "", part.span)]
        self.complain("J101", part.span, word=self._written(part))
        return []

    def _rain(self, part: n.WeatherFigure, variable: str) -> list[WeatherReading]:
        if part.unit == "trace":
            rain = self._made("rain", 0.0, "mm", part.span, "trace")
            return [rain, self._made("trace", None, "", part.span)]
        factor = _RAIN_MM.get(part.unit if part.unit not in {"", "nil"} else "mm")
        return self._scaled(part, "rain", factor, "mm")

    def _snow(self, part: n.WeatherFigure, variable: str) -> list[WeatherReading]:
        return self._scaled(part, "snow", _SNOW_CM.get(part.unit or "cm"), "cm")

    def _sun(self, part: n.WeatherFigure, variable: str) -> list[WeatherReading]:
        factor = 1.0 if part.unit in _HOURS or not part.unit else None
        return self._scaled(part, "sun", factor, "h")

    def _tell_unit(self, part: n.WeatherFigure, variable: str) -> None:
        """A unit that is none of this reading's; the mend has the figure with one that is."""
        unit = _USUAL.get(variable, "C")
        example = f"{variable} {part.low:g} {unit}".strip()
        written, what = self._written(part), variable or "weather"
        self.complain("J411", part.span, word=written, what=what, example=example)

    def _scaled(
        self, part: n.WeatherFigure, variable: str, factor: float | None, unit: str
    ) -> list[WeatherReading]:
        if factor is None or part.low is None or part.high is None:
            self._tell_unit(part, variable)
            return []
        if part.low < 0:
            self.complain("J403", part.span, word=self._written(part))
            return []
        middle = (part.low + part.high) / 2
        return [self._made(variable, middle * factor, unit, part.span)]

    def _wind(self, part: n.WeatherFigure, variable: str) -> list[WeatherReading]:
        assert part.low is not None and part.high is not None
        middle = (part.low + part.high) / 2
        made = []
        if part.unit in {"", "force", "bft", "beaufort"} and 0 <= middle <= 12:
            mark = f"Beaufort {middle:g}"
            value = round(_BEAUFORT * middle**1.5, 3)
        elif part.unit in _MPS:
            mark, value = "", middle * _MPS[part.unit]
        else:
            self._tell_unit(part, "wind")
            return []
        made.append(self._made(variable, value, "m/s", part.span, mark))
        if part.direction:
            made.append(self._direction(part))
        return made

    def _direction(self, part: n.WeatherFigure) -> WeatherReading:
        """Where the wind came from, in degrees clockwise from north."""
        bearing = _BEARINGS.get(part.direction)
        return self._made("wind_from", bearing, "", part.span, part.direction)

    def _celsius(self, value: float, unit: str) -> float | None:
        plain = unit.replace("°", "").strip()
        if plain in {"deg", "degree", "degrees", ""}:
            plain = "f" if self.fahrenheit else "c"
        known = unit_table().get(unit) or unit_table().get(plain)
        if known is None or known.dimension != "temperature":
            return None
        return value if known.name == "C" else (value - 32) / 1.8

    def _warmth(self, part: n.WeatherFigure, variable: str) -> list[WeatherReading]:
        assert part.low is not None and part.high is not None
        low, high = self._celsius(part.low, part.unit), self._celsius(part.high, part.unit)
        if low is None or high is None:
            self._tell_unit(part, variable)
            return []
        if variable == "frost" and low > 0:
            cure = f"write `frost -{part.low:g} C`"
            self.complain("J101", part.span, word=self._written(part), cure=cure)
            return []
        if not _COLDEST <= low <= high <= _HOTTEST:
            written = self._written(part)
            said = {} if part.unit else {"cure": f"write `{written} F`"}
            self.complain("J403", part.span, word=written, **said)
            return []
        named = {"min": "t_min", "frost": "t_min", "max": "t_max", "soil": "soil_t"}
        if variable in named:
            return [self._made(named[variable], (low + high) / 2, "C", part.span)]
        if low != high:
            return [
                self._made("t_min", low, "C", part.span),
                self._made("t_max", high, "C", part.span),
            ]
        return [self._made("t", low, "C", part.span)]


Said = list[n.WeatherFigure | n.Phenomenon]


def _segments(parts: tuple[Any, ...]) -> list[tuple[Said, n.Place | None]]:
    """What stands between two commas, with the place that is said there."""
    made: list[tuple[Said, n.Place | None]] = [([], None)]
    for part in parts:
        said = made[-1][0]
        if isinstance(part, n.Separator):
            made.append(([], None))
        elif isinstance(part, n.Place):
            made[-1] = (said, part)
        elif isinstance(part, n.WeatherFigure | n.Phenomenon):
            said.append(part)
    return made


def _placed(
    segments: list[tuple[Said, n.Place | None]], place: str, covered: bool
) -> list[tuple[Said, str]]:
    """Each segment with its place, which serves the others too where that can be.

    A second reading of the same (`4 to 18 C, 6 to 31 C in Glasshouse`), and rain or wind beside one
    that is under cover, are of the open air.
    """
    named = [said for said, at in segments if at is not None and at.names]
    taken = {_measured(part) for said in named for part in said}
    made = []
    for said, at in segments:
        measured = {_measured(part) for part in said}
        apart = bool(measured & taken) or (covered and measured <= _OPEN)
        open_air = apart if at is None else not at.names
        made.append((said, "" if open_air else place))
    return made


def _measured(part: n.WeatherFigure | n.Phenomenon) -> str:
    """What a part is a reading of: `t` for the temperature of the air."""
    if isinstance(part, n.Phenomenon):
        return part.name
    if part.variable:
        return part.variable
    return {"mm": "rain", "cm": "snow"}.get(part.unit, "sun" if part.unit in _HOURS else "t")


def _with_their_word(parts: Said) -> Said:
    """`6 h sun`, `12 mm rain`: the word behind a figure names it."""
    made: Said = []
    for part in parts:
        before = made[-1] if made else None
        if (
            isinstance(part, n.WeatherFigure)
            and isinstance(before, n.WeatherFigure)
            and part.low is None
            and not (before.variable or before.low is None)
            and before.unit in _UNITS_OF.get(part.variable, ())
        ):
            made[-1] = replace(before, variable=part.variable)
        else:
            made.append(part)
    return made
