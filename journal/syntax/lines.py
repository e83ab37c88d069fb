"""Text to day, year, dash, continuation and prose lines by their shape alone."""

import re
from dataclasses import dataclass

from journal.source import Source, Span
from journal.syntax.days import day_or_year_line, near_day
from journal.syntax.nodes import DayLine, YearLine

_DASH = re.compile(r"[-–—•](?:[ \t\u00a0]+(?=\S)|(?=[^\W\d_]))")
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
    """A line of prose; `near` is a date at its head that a dash keeps from being a day line."""

    text: str
    span: Span
    near: Span | None = None


Shape = DayLine | YearLine | DashLine | ProseLine


def shapes(source: Source) -> list[Shape]:
    """The lines of a file in order; spans reach to the next shape, so that none is lost.

    Blank lines belong to what stands before them, those at the top of a file to the first line.
    Indented lines straight below a dash line are its notes.
    """
    found: list[Shape] = []
    notes: list[str] = []
    open_dash = gap = False
    for line in range(1, source.line_count + 1):
        span = source.line_span(line)
        text = source.slice(span)
        if not text.strip():
            open_dash, gap = False, True
            continue
        if open_dash and text[0] in " \t\u00a0":
            notes.append(text.strip())
            continue
        _close(found, notes)
        shape = _shape(text, span, found, gap)
        open_dash, gap = isinstance(shape, DashLine), False
        if shape is not None:
            found.append(shape)
    _close(found, notes)
    return found


def _close(found: list[Shape], notes: list[str]) -> None:
    if notes and isinstance(found[-1], DashLine):
        last = found[-1]
        found[-1] = DashLine(last.text, last.start, last.span, tuple(notes))
    notes.clear()


def _shape(text: str, span: Span, found: list[Shape], gap: bool) -> Shape | None:
    dash = _DASH.match(text)
    if dash and not _RULE.match(text):
        return DashLine(text[dash.end() :], span.start + dash.end(), span)
    dated = day_or_year_line(text, span.start)
    if dated is not None:
        return dated
    if found and not gap and isinstance(found[-1], ProseLine):
        last = found[-1]
        near = last.near or near_day(text, span.start)
        found[-1] = ProseLine(f"{last.text}\n{text}", Span(last.span.start, span.end), near)
        return None
    return ProseLine(text, span, near_day(text, span.start))
