"""Lark's tree of a weather entry to nodes; spans count from the entry's text."""

import re
from typing import Any

from lark import Token

from journal.source import Span
from journal.syntax import nodes
from journal.syntax.build import Build
from journal.syntax.numbers import number, squeeze

_VARIABLES = {
    "rainfall": "rain",
    "snowfall": "snow",
    "sunshine": "sun",
    "gusts": "gust",
    "minimum": "min",
    "maximum": "max",
    "down to": "min",
    "up to": "max",
    "low": "min",
    "high": "max",
}
# What there may be none of: a day of 0 mm is a reading, a day without frost is none.
_NAUGHT = frozenset(["rain", "rainfall", "snow", "snowfall", "sun", "sunshine"])
_PHENOMENA = {
    "foggy": "fog",
    "misty": "mist",
    "thunderstorm": "thunder",
    "thunderstorms": "thunder",
    "gales": "gale",
    "showers": "shower",
    "cloudy": "cloud",
    "breezy": "breeze",
    "stormy": "storm",
    "hazy": "haze",
    "downpours": "downpour",
    "sunny": "sun",
    "frosty": "frost",
    "hoar": "frost",
    "rime": "frost",
    "snowy": "snow",
    "rainy": "rain",
}
_COMPASS = {"north": "N", "south": "S", "east": "E", "west": "W"}


class BuildWeather(Build):
    """Turns each rule of weather.lark into its node."""

    def weather(self, children: list[Any]) -> tuple[list[Token], tuple[Any, ...], tuple[Any, ...]]:
        """The verb and its parts, in the shape that an entry has."""
        return [children[0]], (), tuple(children[1:])

    def _said(self, children: list[Any]) -> nodes.Aside:
        span = Span(children[0].start_pos, children[-1].end_pos)
        return nodes.Aside(" ".join(self._slice(span).split()), span)

    without = _said

    def outside(self, children: list[Any]) -> nodes.Place:
        """The open air, which has no name."""
        return nodes.Place("outside", (), span=Span(children[0].start_pos, children[0].end_pos))

    def reading(self, children: list[Any]) -> nodes.WeatherFigure | nodes.Aside:
        """`rain 2.5 mm`."""
        kinds: dict[str, list[str]] = {}
        for token in children:
            kinds.setdefault(token.type, []).append(self._word(token))
        word = squeeze(kinds["VARIABLE"][0]).rstrip(" :=") if "VARIABLE" in kinds else ""
        word = "wind" if "FORCE" in kinds else word
        figures = [_signed(text) for text in _figures(kinds)]
        if "TRACE" in kinds:
            word, figures = word or "rain", [0.0]
        if "NIL" in kinds and not word:
            span = Span(children[0].start_pos, children[-1].end_pos)
            return nodes.WeatherFigure("", 0.0, 0.0, "nil", span=span)
        if ("NO" in kinds or "NIL" in kinds) and word in _NAUGHT:
            figures = [0.0]
        elif "NO" in kinds or "NIL" in kinds:
            return self._said(children)
        span = Span(children[0].start_pos, children[-1].end_pos)
        return nodes.WeatherFigure(
            _VARIABLES.get(word, word),
            min(figures) if figures else None,
            max(figures) if figures else None,
            "trace" if "TRACE" in kinds else squeeze(kinds.get("WUNIT", [""])[0]),
            _compass(kinds.get("DIRECTION", [""])[0]),
            span,
        )

    def phenomenon(self, children: list[Any]) -> nodes.Phenomenon:
        """`fog`."""
        word = squeeze(self._word(children[0]))
        return nodes.Phenomenon(
            _PHENOMENA.get(word, word), Span(children[0].start_pos, children[0].end_pos)
        )


def _figures(kinds: dict[str, list[str]]) -> list[str]:
    """The figures of a reading; `3 C` of `3 C to 14 C` has the unit of the last one."""
    with_unit = [text.rstrip("CFcf°degrs ") for text in kinds.get("SIGNED_UNIT", [])]
    return [*with_unit, *kinds.get("SIGNED", []), *kinds.get("FRACTION", [])]


def _signed(text: str) -> float:
    plain = text.lower().replace("minus", "-").replace("−", "-").replace("–", "-").lstrip("+")
    value = number(plain.removeprefix("-").strip())
    return -value if plain.startswith("-") else value


def _compass(text: str) -> str:
    words = squeeze(text).removeprefix("from ").removeprefix("the ")
    letters = "".join(
        _COMPASS[word] for word in re.findall(r"north|south|east|west", words) if word in _COMPASS
    )
    return letters or words.upper().strip()
