"""Problems to text for people (full, or a line each) and to records for programs.

Draws the line as a terminal shows it: tabs, wide and zero-width characters, control characters
and very long lines keep the caret under its text. Knows no colours: a piece has a role, and
`cli/` decides how a role looks.
"""

import json
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from journal.problems.model import Problem
from journal.source import Source, Span

_TAB = "    "
_WINDOW = 96
_LEAD = 24
_CUT = "…"


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text and what it is: a severity, "gutter", "place", "related", "mend" or ""."""

    text: str
    role: str = ""


Line = tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class _Mark:
    """What is drawn under one line: columns `start` to `end` in characters of that line."""

    line: int
    start: int
    end: int


def render_full(problem: Problem) -> str:
    """A problem with its line, its caret, its related places and its mend; no line end at the end.

    Lines and columns count from 1, columns in code points.
    """
    return "\n".join("".join(piece.text for piece in line) for line in full_lines(problem))


def full_lines(problem: Problem) -> list[Line]:
    """The same in pieces, for a terminal that has colours."""
    shown = [(problem.source, problem.span), *((r.source, r.span) for r in problem.related)]
    pad = max(len(str(_marks(source, span)[-1].line)) for source, span in shown)
    headline = (
        Piece(f"{problem.severity.value}[{problem.code}]", problem.severity.value),
        Piece(f": {visible(problem.message)}", "message"),
    )
    lines = [headline, _address(pad, "-->", problem.source, problem.span)]
    lines += _excerpt(pad, problem.source, problem.span, "", problem.severity.value)
    for place in problem.related:
        lines.append(_address(pad, ":::", place.source, place.span))
        lines += _excerpt(pad, place.source, place.span, visible(place.label), "related")
    if problem.mend is not None:
        lines.append(
            (Piece(" " * pad + " = ", "gutter"), Piece(f"mend: {visible(problem.mend)}", "mend"))
        )
    return lines


def render_short(problem: Problem) -> str:
    """A problem on one line: place, severity, code, message and mend."""
    place = _where(problem.source, problem.span)
    mend = "" if problem.mend is None else f" (mend: {visible(problem.mend)})"
    head = f"{place}: {problem.severity.value}[{problem.code}]"
    return f"{head}: {visible(problem.message)}{mend}"


def problem_record(problem: Problem) -> dict[str, str | int]:
    """A problem under the column names of the problems table.

    `column_end` is half-open and on the problem's first line: a span that runs on ends with it.
    A missing mend is "".
    """
    line, column = problem.source.line_column(problem.span.start)
    first = _marks(problem.source, problem.span)[0]
    return {
        "code": problem.code,
        "severity": problem.severity.value,
        "file": problem.source.path,
        "line": line,
        "column": column,
        "column_end": max(column, first.end + 1),
        "message": problem.message,
        "mend": problem.mend or "",
    }


def render_json(problems: Iterable[Problem]) -> str:
    """Problems as a JSON list, one record a line."""
    rows = [json.dumps(problem_record(problem), ensure_ascii=False) for problem in problems]
    return "[" + "".join(f"\n  {row}," for row in rows).removesuffix(",") + ("\n]" if rows else "]")


def visible(text: str) -> str:
    """Text on one line with tabs as spaces and control characters as signs that can be seen."""
    return "".join(_visible_character(character) for character in text)


def display_width(text: str) -> int:
    """How many terminal columns a text takes; `text` holds no tab and no control character."""
    return sum(_width(character) for character in text)


def _visible_character(character: str) -> str:
    if character == "\t":
        return _TAB
    code = ord(character)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "␡"
    if 0x80 <= code < 0xA0 or unicodedata.bidirectional(character) in _TURNING:
        return "�"
    return "�" if character in "\u2028\u2029" else character


_TURNING = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}


def _width(character: str) -> int:
    if unicodedata.category(character) in {"Mn", "Me", "Cf"}:
        return 0
    return 2 if unicodedata.east_asian_width(character) in {"W", "F"} else 1


def _where(source: Source, span: Span) -> str:
    line, column = source.line_column(span.start)
    return f"{visible(source.path)}:{line}:{column}"


def _address(pad: int, arrow: str, source: Source, span: Span) -> Line:
    return (Piece(f"{' ' * pad}{arrow} ", "gutter"), Piece(_where(source, span), "place"))


def _marks(source: Source, span: Span) -> list[_Mark]:
    """The first and the last line of a span with the part of each that it covers.

    A span that ends with a line end belongs to the line that it ends.
    """
    first = source.line_number(span.start)
    last = source.line_number(max(span.start, span.end - 1))
    marks = []
    for number in sorted({first, last}):
        whole = source.line_span(number)
        start = min(max(span.start, whole.start), whole.end)
        if number != first:
            text = source.slice(whole)
            start += min(len(text) - len(text.lstrip()), max(span.end - start, 0))
        end = max(start, min(span.end, whole.end))
        marks.append(_Mark(number, start - whole.start, end - whole.start))
    return marks


def _excerpt(pad: int, source: Source, span: Span, label: str, role: str) -> list[Line]:
    marks = _marks(source, span)
    blank = " " * pad + " |"
    lines: list[Line] = [(Piece(blank, "gutter"),)]
    for index, mark in enumerate(marks):
        if index and mark.line > marks[index - 1].line + 1:
            lines.append((Piece(" " * pad + " :", "gutter"),))
        text, indent, width = _window(source.line_text(mark.line), mark)
        gutter = f"{mark.line:>{pad}} |"
        shown = text.rstrip()
        lines.append((Piece(gutter, "gutter"), Piece(f" {shown}" if shown else "")))
        sign = "-" if role == "related" else "^"
        words = f" {label}" if label and mark is marks[-1] else ""
        under = Piece(" " * (indent + 1) + sign * max(width, 1) + words, role)
        lines.append((Piece(blank, "gutter"), under))
    return lines


def _window(text: str, mark: _Mark) -> tuple[str, int, int]:
    """The part of a line to show, with the columns before the mark and the mark's width."""
    before, within = visible(text[: mark.start]), visible(text[mark.start : mark.end])
    after = visible(text[mark.end :])
    if display_width(before + within + after) <= _WINDOW:
        return before + within + after, display_width(before), display_width(within)
    if display_width(within) > _WINDOW - _LEAD:
        within, after = _head(within, _WINDOW - _LEAD - 1) + _CUT, ""
    room = _WINDOW - display_width(within)
    lead = max(_LEAD, room - display_width(after)) if after else room
    if display_width(before) > lead:
        before = _CUT + _tail(before, lead - 1)
    room -= display_width(before)
    if display_width(after) > room:
        after = _head(after, room - 1) + _CUT
    return before + within + after, display_width(before), display_width(within)


def _head(text: str, columns: int) -> str:
    """As much of the beginning as `columns` hold."""
    taken = 0
    for index, character in enumerate(text):
        taken += _width(character)
        if taken > columns:
            return text[:index]
    return text


def _tail(text: str, columns: int) -> str:
    """As much of the end as `columns` hold."""
    taken = 0
    for index in range(len(text) - 1, -1, -1):
        taken += _width(text[index])
        if taken > columns:
            return text[index + 1 :]
    return text
