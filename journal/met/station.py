"""A weather station's CSV file, one row a day, to figures; refuses a file of several rows a day.

Columns are found by their headings, units by the heading, else the sheet, else what is usual.
"""

from collections.abc import Iterator
from datetime import date

from journal.events.model import MetFileDeclared
from journal.met.columns import Heading, Units, read_heading
from journal.met.figures import FAULT, read_cell, read_day
from journal.met.model import Fault, Faults, Figure, MetReading, cells_of
from journal.reference.weather_units import MEASURED
from journal.source import Source, Span

# a file may open with a few lines about the station
_LONGEST_PREAMBLE = 60
Cells = list[tuple[str, Span]]


def read_station(
    source: Source, declared: MetFileDeclared, units: Units, month_first: bool
) -> MetReading:
    """The readings of a station's file; what it does not read stands in its faults."""
    made = MetReading(source)
    found = _heading(source, declared, units)
    if found is None:
        reason = "no line names a date and a figure"
        made.faults.append(Fault("J006", Span(0, 0), {"word": declared.name, "reason": reason}))
        return made
    line, delimiter, columns = found
    made.faults.extend(_unscaled(source, line, delimiter, columns))
    rows = _Rows(made, columns, month_first, "," if delimiter == ";" else ".")
    for number in range(line + 1, source.line_count + 1):
        text = source.line_text(number)
        if text.strip() and not text.lstrip().startswith("#"):
            rows.read(cells_of(text, source.line_span(number).start, delimiter))
    made.faults.extend(rows.faults())
    if rows.several:
        made.figures.clear()
    return made


def _heading(
    source: Source, declared: MetFileDeclared, units: Units
) -> tuple[int, str, dict[str, Heading]] | None:
    for number in range(1, min(source.line_count, _LONGEST_PREAMBLE) + 1):
        text = source.line_text(number)
        delimiter = max(",;\t", key=text.count)
        cells = [cell for cell, _ in cells_of(text.lstrip("#"), 0, delimiter)]
        columns = read_heading(cells, declared, units)
        if columns is not None:
            return number, delimiter, columns
    return None


def _unscaled(
    source: Source, line: int, delimiter: str, columns: dict[str, Heading]
) -> Iterator[Fault]:
    """Columns whose unit is not known are left out, each told at its heading."""
    cells = cells_of(source.line_text(line), source.line_span(line).start, delimiter)
    for heading in columns.values():
        if heading.name in MEASURED and heading.scale is None:
            text, span = cells[heading.at]
            usual = MEASURED[heading.name].unit
            yield Fault("J009", span, {"word": text, "name": heading.name, "unit": usual})


class _Rows:
    """Reads one row after another into a `MetReading`, gathering what is wrong by kind."""

    def __init__(
        self, made: MetReading, columns: dict[str, Heading], month_first: bool, decimal: str
    ) -> None:
        self.made = made
        self.columns = columns
        self.read_from = [row for row in columns.values() if row.scale is not None]
        self.month_first = month_first
        self.decimal = decimal
        self.days: dict[date, str] = {}
        self.no_day = Faults("J007")
        self.no_figure = Faults("J007")
        self.twice = Faults("J010")
        self.several = False

    def read(self, cells: Cells) -> None:
        found = self._day(cells)
        if found is None:
            at = self.columns["date"].at if "date" in self.columns else 0
            text, span = cells[min(at, len(cells) - 1)]
            self.no_day.note(span, text)
            return
        day, clock, span = found
        if day in self.days:
            self.several |= clock != self.days[day]
            self.twice.note(span, str(day))
            return
        self.days[day] = clock
        for column in self.read_from:
            if column.at < len(cells):
                self._figure(day, column, *cells[column.at])

    def _day(self, cells: Cells) -> tuple[date, str, Span] | None:
        dated = self.columns.get("date")
        if dated is not None:
            if dated.at >= len(cells):
                return None
            text, span = cells[dated.at]
        else:
            places = [self.columns[name].at for name in ("year", "month", "dom")]
            if max(places) >= len(cells):
                return None
            text = "-".join(cells[at][0] for at in places)
            span = cells[places[0]][1]
        found = read_day(text, self.month_first)
        return None if found is None else (*found, span)

    def _figure(self, day: date, column: Heading, text: str, span: Span) -> None:
        assert column.scale is not None
        cell = read_cell(text, MEASURED[column.name], column.scale, self.decimal)
        if cell == FAULT:
            self.no_figure.note(span, text)
        elif cell.value is not None:
            self.made.add(Figure(day, column.name, cell.value, span, cell.mark))

    def faults(self) -> Iterator[Fault]:
        if self.several:
            reason = "it has several rows a day"
            yield Fault("J006", Span(0, 0), {"word": self.made.source.path, "reason": reason})
            return
        yield from self.no_day.told(what="date")
        yield from self.no_figure.told(what="figure of the weather")
        yield from self.twice.told()
