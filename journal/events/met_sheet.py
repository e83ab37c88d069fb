"""A sheet's `met file` line to what it says of the file: units, columns, the wind's height.

`- met file met.csv, temperatures F, rain inch, t_max from Hi Temp, wind at 2 m`
"""

import re
from dataclasses import replace

from journal.events.model import MetFileDeclared
from journal.problems.model import Problem, make
from journal.reference.weather_units import MEASURED
from journal.source import Source
from journal.syntax.nodes import Declaration, Field

MEND = "write it like `temperatures F`, `rain inch`, `t_max from Hi Temp`, `wind at 2 m`"
_HEIGHT = re.compile(r"wind\s+at\s+(\d+(?:\.\d+)?)\s*m$", re.IGNORECASE)
_NAMES = {"min": "t_min", "max": "t_max", "minimum": "t_min", "maximum": "t_max", "soil": "soil_t"}
_WARMTHS = ("t_min", "t_max", "t", "soil_t")
# a station's file in US units gives all of these, and wind in miles an hour
_US = (*((name, "f") for name in _WARMTHS), ("rain", "inch"), ("snow", "inch"), ("wind", "mph"))


def met_file(line: Declaration, source: Source, problems: list[Problem]) -> MetFileDeclared:
    """The declaration of one met file; a piece that says nothing about it is a problem."""
    made = MetFileDeclared(line.name, source=source, span=line.name_span)
    for piece in line.fields:
        changed = _piece(made, piece)
        if changed is None:
            problems.append(make("J601", source, piece.span, mend=MEND, word=piece.text))
        else:
            made = changed
    return made


def _piece(made: MetFileDeclared, piece: Field) -> MetFileDeclared | None:
    text = " ".join(piece.text.split())
    first, _, rest = text.partition(" ")
    if first.lower().startswith("temperature"):
        pairs = tuple((name, rest) for name in _WARMTHS)
        return replace(made, units=(*made.units, *pairs)) if _fits("t", rest) else None
    if first.lower() == "units":
        known = {"us": _US, "metric": ()}.get(rest.lower())
        return None if known is None else replace(made, units=(*made.units, *known))
    if height := _HEIGHT.match(text):
        return replace(made, wind_m=float(height[1]))
    name = _NAMES.get(first.lower(), first.lower())
    if name not in MEASURED and name != "date":
        return None
    if rest.lower().startswith("from "):
        return replace(made, columns=(*made.columns, (name, rest[5:].strip())))
    return replace(made, units=(*made.units, (name, rest))) if _fits(name, rest) else None


def _fits(name: str, unit: str) -> bool:
    return name in MEASURED and MEASURED[name].scale(unit) is not None
