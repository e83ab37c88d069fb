"""A GHCN-Daily file to figures: tenths to units, values with a quality flag left out and counted.

Reads the three forms that NOAA gives out: `.dly` (a month a line), one element a line without a
heading, and one day a line with a heading. Layout and flags: GHCN-Daily readme, section III
(element units, MFLAG, QFLAG; -9999 is missing).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from journal.events.model import MetFileDeclared
from journal.met.figures import read_day
from journal.met.model import Fault, Faults, Figure, MetReading, cells_of
from journal.reference.weather_units import MEASURED, Scale
from journal.source import Source, Span

# element: variable of the weather table, and what one count of the file is in its unit
ELEMENTS = {
    "TMIN": ("t_min", 0.1),
    "TMAX": ("t_max", 0.1),
    "TAVG": ("t", 0.1),
    "PRCP": ("rain", 0.1),
    "SNOW": ("snow", 0.1),
    "AWND": ("wind", 0.1),
    "TSUN": ("sun", 1 / 60),
    "RHMN": ("rh_min", 1.0),
    "RHMX": ("rh_max", 1.0),
    "RHAV": ("rh", 1.0),
}
MISSING = -9999
_NUMBER = re.compile(r"-?[0-9]{1,12}(?:\.[0-9]{1,12})?")
_SIX_DIGITS = re.compile(r"[0-9]{6}")
_DLY = re.compile(r"[A-Z]{2}[A-Z0-9_-]{9}\d{6}[A-Z]{2}[A-Z0-9]{2}[ \d-]{5}")
_ELEMENT_LINE = re.compile(r"\"?[A-Z]{2}[A-Z0-9_-]{9}\"?,\"?\d{8}\"?,\"?[A-Z0-9]{4}\"?,")


@dataclass(frozen=True, slots=True)
class _Written:
    """One value as the file has it, with its flags and its place."""

    day: date
    element: str
    text: str
    measured: str
    quality: str
    span: Span


def is_ghcn(source: Source) -> bool:
    """Whether the first line has the shape of one of the three forms."""
    first = source.line_text(1)
    return bool(_DLY.match(first) or _ELEMENT_LINE.match(first) or _by_day(first))


def _by_day(heading: str) -> bool:
    names = {cell.upper() for cell, _ in cells_of(heading, 0, ",")}
    dated = {"STATION", "DATE"} <= names or {"ID", "DATE", "ELEMENT"} <= names
    return dated and bool(names & {*ELEMENTS, "ELEMENT"})


def read_ghcn(source: Source, declared: MetFileDeclared) -> MetReading:
    """The readings of a GHCN-Daily file, with what was left out in its faults.

    Left out: values with a quality flag, and totals of several days or of a day presumed dry
    (measurement flags A and P), since they are no reading of the day they stand under.
    """
    made = MetReading(source)
    first = source.line_text(1)
    if _DLY.match(first):
        written = _months(source)
    elif _ELEMENT_LINE.match(first) or "ELEMENT" in first.upper():
        written = _elements(source)
    else:
        written = _days(source)
    faults = _Counted(made, _scales(declared))
    for value in written:
        faults.take(value)
    if faults.decimals.count:
        reason = "no tenths, and the sheet gives no units"
        made.figures.clear()
        made.faults.append(Fault("J006", Span(0, 0), {"word": declared.name, "reason": reason}))
    else:
        made.faults.extend(faults.told())
    return made


def _scales(declared: MetFileDeclared) -> dict[str, Scale]:
    """The scales of the variables whose unit the sheet gives: downloads come in other units too."""
    scales = {name: MEASURED[name].scale(unit) for name, unit in declared.units}
    return {name: scale for name, scale in scales.items() if scale is not None}


class _Counted:
    """Sorts values into figures and those left out, by kind."""

    def __init__(self, made: MetReading, scales: dict[str, Scale]) -> None:
        self.made = made
        self.scales = scales
        self.flagged = Faults("J008")
        self.several_days = Faults("J008")
        self.no_figure = Faults("J007")
        self.decimals = Faults("J006")

    def take(self, value: _Written) -> None:
        name, step = ELEMENTS[value.element]
        scale = self.scales.get(name)
        if not value.text or value.text == str(MISSING):
            return
        if value.quality:
            self.flagged.note(value.span, value.text)
        elif value.measured in {"A", "P"}:
            self.several_days.note(value.span, value.text)
        elif not _NUMBER.fullmatch(value.text):
            self.no_figure.note(value.span, value.text)
        elif scale is not None:
            self._add(value, name, float(value.text) * scale.factor + scale.offset)
        elif "." in value.text:
            self.decimals.note(value.span, value.text)
        else:
            self._add(value, name, int(value.text) * step)

    def _add(self, value: _Written, name: str, exact: float) -> None:
        figure = float(f"{exact:.10g}")
        if not MEASURED[name].low <= figure <= MEASURED[name].high:
            self.no_figure.note(value.span, value.text)
            return
        mark = "trace" if value.measured == "T" else ""
        self.made.add(Figure(value.day, name, figure, value.span, mark))

    def told(self) -> Iterator[Fault]:
        yield from self.flagged.told(count=self.flagged.count, why="a quality flag")
        why = "the flag of no single day"
        yield from self.several_days.told(count=self.several_days.count, why=why)
        yield from self.no_figure.told(what="figure of the weather")


def _months(source: Source) -> Iterator[_Written]:
    """`.dly`: station 1-11, year 12-15, month 16-17, element 18-21, then 31 days of 8 columns."""
    for number in range(1, source.line_count + 1):
        line = source.line_text(number)
        element = line[17:21]
        if element not in ELEMENTS or not _SIX_DIGITS.fullmatch(line[11:17]):
            continue
        start = source.line_span(number).start
        for at in range(min(31, (len(line) - 21 + 7) // 8)):
            cell = line[21 + 8 * at : 29 + 8 * at].ljust(8)
            day = _calendar_day(int(line[11:15]), int(line[15:17]), at + 1)
            if day is not None:
                span = Span(start + 21 + 8 * at, start + min(26 + 8 * at, len(line)))
                text = cell[:5].strip()
                yield _Written(day, element, text, cell[5].strip(), cell[6].strip(), span)


def _calendar_day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _elements(source: Source) -> Iterator[_Written]:
    """One element a line: station, date, element, value, MFLAG, QFLAG, SFLAG, time."""
    for number in range(1, source.line_count + 1):
        cells = cells_of(source.line_text(number), source.line_span(number).start, ",")
        found = read_day(cells[1][0], False) if len(cells) > 5 else None
        if found is not None and cells[2][0] in ELEMENTS:
            text, span = cells[3]
            yield _Written(found[0], cells[2][0], text, cells[4][0], cells[5][0], span)


def _days(source: Source) -> Iterator[_Written]:
    """One day a line: a column an element, its flags in the column `..._ATTRIBUTES` beside it."""
    heading = [cell.upper() for cell, _ in cells_of(source.line_text(1), 0, ",")]
    at = {name: place for place, name in enumerate(heading)}
    columns = [name for name in ELEMENTS if name in at]
    for number in range(2, source.line_count + 1):
        cells = cells_of(source.line_text(number), source.line_span(number).start, ",")
        found = read_day(cells[at["DATE"]][0], False) if len(cells) > at["DATE"] else None
        if found is None:
            continue
        for name in columns:
            if at[name] < len(cells):
                text, span = cells[at[name]]
                measured, quality = _flags(cells, at.get(f"{name}_ATTRIBUTES"))
                yield _Written(found[0], name, text, measured, quality, span)


def _flags(cells: list[tuple[str, Span]], place: int | None) -> tuple[str, str]:
    if place is None or place >= len(cells):
        return "", ""
    parts = [*cells[place][0].split(","), "", ""]
    return parts[0].strip(), parts[1].strip()
