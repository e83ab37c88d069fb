"""The met files that a sheet names to weather readings and problems.

The one module of the room that opens files, and only inside the diary's folder, links resolved.
"""

import re
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from journal.events.model import MetFileDeclared, Plot, WeatherReading
from journal.met.columns import Units
from journal.met.ghcn import is_ghcn, read_ghcn
from journal.met.model import MetReading
from journal.met.station import read_station
from journal.problems.model import Problem, make
from journal.reference.weather_units import MEASURED
from journal.source import Source, decode, named_file

_PAGES = {".txt", ".md"}
_DRIVE = re.compile(r"[A-Za-z]:[\\/]|\\\\")
Read = tuple[tuple[Source, ...], tuple[WeatherReading, ...], tuple[Problem, ...]]


def read_met_files(
    declared: Sequence[MetFileDeclared], folder: Path, plot: Plot, today: date
) -> Read:
    """The texts of the files in the sheet's order, their readings up to today, and what was wrong.

    A file is read by the units that its headings give, else the sheet's line, else the plot's.
    A reading's day is the one it stands under in the file; a forecast for a later day is not one.
    """
    sources: list[Source] = []
    weather: list[WeatherReading] = []
    problems: list[Problem] = []
    first = {row.name: row for row in reversed(declared)}
    for each in (first[name] for name in dict.fromkeys(row.name for row in declared)):
        source, problem = open_met_file(each, folder)
        if problem is not None:
            problems.append(problem)
        if source is not None:
            made = _read(source, each, plot)
            sources.append(source)
            weather.extend(_readings(made, today))
            problems.extend(make(row.code, source, row.span, **row.words) for row in made.faults)
    return tuple(sources), tuple(weather), tuple(problems)


def open_met_file(declared: MetFileDeclared, folder: Path) -> tuple[Source | None, Problem | None]:
    """The text of a declared file, or why it cannot be had: one of the two."""

    def told(code: str, **words: Any) -> tuple[None, Problem]:
        words = {"word": declared.name, **words}
        return None, make(code, declared.source, declared.span, **words)

    home = folder.resolve()
    try:
        place = named_file(folder, declared.name).resolve()
        # a drive of Windows is no part of a folder elsewhere either
        if not place.is_relative_to(home) or (_DRIVE.match(declared.name) and not place.exists()):
            return told("J005")
        if place.suffix.lower() in _PAGES:
            return told("J006", reason="its ending makes it a page of the diary")
        if not place.is_file():
            return told("J004")
        source, damage = decode(declared.name, place.read_bytes())
    except RuntimeError:
        # a link to itself, which from Python 3.13 on is no file instead
        return told("J004")
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is no file's"
        return told("J003", reason=reason)
    if damage is not None and "\0" in source.text:
        return told("J006", reason="it is no text")
    return source, None


def _read(source: Source, declared: MetFileDeclared, plot: Plot) -> MetReading:
    if is_ghcn(source) and not declared.columns:
        return read_ghcn(source, declared)
    units = Units(plot.fahrenheit, plot.us_units)
    return read_station(source, declared, units, plot.month_first)


def _readings(made: MetReading, today: date) -> list[WeatherReading]:
    return [
        WeatherReading(
            row.day,
            row.day,
            "",
            row.variable,
            row.value,
            MEASURED[row.variable].unit,
            row.mark,
            made.source,
            row.span,
        )
        for row in sorted(made.figures, key=lambda row: row.day)
        if row.day <= today
    ]
