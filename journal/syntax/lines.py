"""Text to day, year, dash, continuation and prose lines by their shape alone."""

import re
from dataclasses import dataclass, field

from journal.source import Source, Span
from journal.syntax.days import day_or_year_line
from journal.syntax.near_days import near_day
from journal.syntax.near_entries import near_entry
from journal.syntax.nodes import DayLine, Near, YearLine

_DASH = re.compile(r"[-–—•](?:[ \t\u00a0]+(?=\S)|(?=[^\W\d_]))")
_HEAD = 200  # as much of a line as a date at its head may take
_RULE = re.compile(r"[-–—•\s]*$")


@dataclass(frozen=True, slots=True)
class DashLine:
    """A line that opens with a dash; `start` is where the text after the dash begins."""

    text: str
    start: int
    span: Span
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ProseLine:
    """A line of prose; `near` is what in it is almost a day line or an entry."""

    text: str
    span: Span
    near: Near | None = None


Shape = DayLine | YearLine | DashLine | ProseLine


def shapes(source: Source) -> list[Shape]:
    """The lines of a file in order; spans reach to the next shape, so that none is lost.

    Blank lines belong to what stands before them, those at the top of a file to the first line.
    Indented lines straight below a dash line are its notes.
    """
    gathered = _Gathered([])
    for line in range(1, source.line_count + 1):
        span = source.line_span(line)
        gathered.take(source.slice(span), span)
    gathered.close()
    return gathered.found


@dataclass(slots=True)
class _Gathered:
    """Shapes so far; the last one may still be open to notes below it or to more prose."""

    found: list[Shape]
    open_dash: bool = False
    prose: bool = False
    below: list[str] = field(default_factory=list)
    end: int = 0

    def take(self, text: str, span: Span) -> None:
        """The next line of the file."""
        if not text.strip():
            self.close()
        elif self.open_dash and text[0] in " \t\u00a0":
            self.below.append(text.strip())
        else:
            self._shape(text, span)

    def close(self) -> None:
        """Ends what is open, with the lines that were gathered below it."""
        if self.below:
            last = self.found[-1]
            if isinstance(last, DashLine):
                self.found[-1] = DashLine(last.text, last.start, last.span, tuple(self.below))
            elif isinstance(last, ProseLine):
                text = "\n".join((last.text, *self.below))
                self.found[-1] = ProseLine(text, Span(last.span.start, self.end), last.near)
            self.below.clear()
        self.open_dash = self.prose = False

    def _shape(self, text: str, span: Span) -> None:
        shape = _shape(text, span)
        near = None
        if shape is None:
            near = near_day(text[:_HEAD], span.start, self.prose)
            if near is None and not self.prose:
                near = near_entry(text, span.start)
        if shape is None and self.prose:
            self._more_prose(text, span, near)
            return
        self.close()
        self.found.append(shape or ProseLine(text, span, near))
        self.open_dash, self.prose = isinstance(shape, DashLine), shape is None

    def _more_prose(self, text: str, span: Span, near: Near | None) -> None:
        last = self.found[-1]
        assert isinstance(last, ProseLine)
        if near is not None and last.near is None:
            self.found[-1] = ProseLine(last.text, last.span, near)
        self.below.append(text)
        self.end = span.end


def _shape(text: str, span: Span) -> Shape | None:
    """What a line is by itself; None for prose."""
    dash = _DASH.match(text)
    if dash and not _RULE.match(text):
        return DashLine(text[dash.end() :], span.start + dash.end(), span)
    return day_or_year_line(text, span.start)
