"""Lark's tree of a weather entry to nodes; spans count from the entry's text."""

import re
from typing import Any

from lark import Token

from journal.source import Span
from journal.syntax import nodes
from journal.syntax.build import Build
from journal.syntax.numbers import squeeze

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

    def reading(self, children: list[Any]) -> nodes.WeatherFigure:
        """`rain 2.5 mm`."""
        kinds: dict[str, list[str]] = {}
        for token in children:
            kinds.setdefault(token.type, []).append(self._word(token))
        word = squeeze(kinds["VARIABLE"][0]) if "VARIABLE" in kinds else ""
        figures = [_signed(text) for text in _figures(kinds)]
        if "TRACE" in kinds:
            word, figures = word or "rain", [0.0]
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
    return [*with_unit, *kinds.get("SIGNED", [])]


def _signed(text: str) -> float:
    plain = text.lower().replace("minus", "-").replace("−", "-").replace("–", "-").replace(" ", "")
    return float(plain) if len(plain) < 40 else float("inf")


def _compass(text: str) -> str:
    words = squeeze(text).removeprefix("from ").removeprefix("the ")
    letters = "".join(
        _COMPASS[word] for word in re.findall(r"north|south|east|west", words) if word in _COMPASS
    )
    return letters or text.upper().strip()
