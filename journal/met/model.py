"""What a met file comes to before it joins the weather table: readings, faults, what was left out.

Spans are offsets in the file's own text, so that every figure can be shown where it stands.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from journal.source import Source, Span


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of one day, in the weather table's unit."""

    day: date
    variable: str
    value: float
    span: Span
    mark: str = ""


@dataclass(frozen=True, slots=True)
class Fault:
    """Something in the file that was not read: the code's own words and where it stands."""

    code: str
    span: Span
    words: dict[str, Any]


@dataclass(slots=True)
class MetReading:
    """What one file holds so far; `faults` are in the order of the file."""

    source: Source
    figures: list[Figure] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    _seen: set[tuple[date, str]] = field(default_factory=set)

    def add(self, figure: Figure) -> bool:
        """Takes a figure unless its day already has one of that variable; False where it has."""
        key = (figure.day, figure.variable)
        if key in self._seen:
            return False
        self._seen.add(key)
        self.figures.append(figure)
        return True


@dataclass(slots=True)
class Faults:
    """Faults of one kind, told once at the first with their number."""

    code: str
    first: Span | None = None
    word: str = ""
    count: int = 0

    def note(self, span: Span, word: str) -> None:
        """One more of them."""
        if self.first is None:
            self.first, self.word = span, word
        self.count += 1

    def told(self, **words: Any) -> Iterator[Fault]:
        """The fault to tell, if there was any."""
        if self.first is not None:
            more = f", the first of {self.count}" if self.count > 1 else ""
            yield Fault(self.code, self.first, {"word": self.word, "more": more, **words})


def cells_of(line: str, start: int, delimiter: str) -> list[tuple[str, Span]]:
    """The cells of a line with their places; quotes hold a cell together and are taken off."""
    cells: list[tuple[str, Span]] = []
    at = 0
    while at <= len(line):
        end = _cell_end(line, at, delimiter)
        first, last = _inside(line, at, end)
        text = line[first:last].replace('""', '"')
        cells.append((text, Span(start + first, start + last)))
        at = end + 1
    return cells


def _inside(line: str, at: int, end: int) -> tuple[int, int]:
    """Where a cell's own words begin and end, without blanks around them and without its quotes."""
    text = line[at:end].strip()
    quotes = 1 if len(text) > 1 and text[0] == text[-1] == '"' else 0
    inner = text[quotes : len(text) - quotes]
    first = line.index(text, at) + quotes + len(inner) - len(inner.lstrip())
    return first, first + len(inner.strip())


def _cell_end(line: str, at: int, delimiter: str) -> int:
    quoted = False
    for end in range(at, len(line)):
        if line[end] == '"':
            quoted = not quoted
        elif line[end] == delimiter and not quoted:
            return end
    return len(line)
