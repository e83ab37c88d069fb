"""The stage text -> `Document`: `parse(source, words)` raises on no text and loses none of it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from lark import Lark

from journal.source import Source, Span
from journal.syntax.build import Build
from journal.syntax.build_weather import BuildWeather
from journal.syntax.grammar import build_parser
from journal.syntax.lines import DashLine, ProseLine, Shape, shapes
from journal.syntax.marks import Marker
from journal.syntax.nodes import DayLine, Declaration, Document, Entry, Line, Prose
from journal.syntax.numbers import squeeze
from journal.syntax.sheet_lines import declaration
from journal.syntax.tokens import entry_span
from journal.syntax.verbs import BY_FORM, INTENTIONS, WEATHER_VERBS
from journal.syntax.words import Words

_FIRST_WORD = re.compile(r"\S+")
_LONGEST_ENTRY = 20_000
_PLANS = frozenset(form for form, verb in BY_FORM.items() if verb.name in INTENTIONS)
_MOST_KNOWN = 24_000  # some 40 MB
_WEATHER = re.compile(
    r"(?:"
    + "|".join(form for form, verb in BY_FORM.items() if verb.name in WEATHER_VERBS)
    + r")(?!\w)",
    re.IGNORECASE,
)


@dataclass(slots=True)
class EntryParser:
    """Parses the entries of one diary, each different text once."""

    marker: Marker
    units: frozenset[str]
    known: dict[str, Entry | None] = field(default_factory=dict)

    def parse(self, text: str) -> Entry | None:
        """The entry that a dash line's text is, with spans from its start; None without a verb."""
        if text in self.known:
            return self.known[text]
        entry = self._parse(text)
        if len(self.known) < _MOST_KNOWN:
            self.known[text] = entry
        return entry

    def _parse(self, text: str) -> Entry | None:
        # A line beyond all measure is read as far as a page is wide a hundred times over; the rest
        # is its remark, so that nothing is lost and nobody waits.
        head, rest = text[:_LONGEST_ENTRY], text[_LONGEST_ENTRY:].strip()
        marked = self.marker.mark(head)
        if marked is None:
            return None
        weather = _WEATHER.match(head) is not None
        lark, build = _weather_lark(self.units) if weather else _entry_lark(self.units)
        build.text = head
        made: Any = lark.parse(marked)
        entry = _entry(text, made)
        return replace(entry, notes=(rest,)) if rest else entry


@lru_cache(maxsize=2)
def _entry_lark(units: frozenset[str]) -> tuple[Lark, Build]:
    build = Build()
    return build_parser("diary.lark", "entry", units, build), build


@lru_cache(maxsize=2)
def _weather_lark(units: frozenset[str]) -> tuple[Lark, Build]:
    build = BuildWeather()
    return build_parser("weather.lark", "weather", units, build), build


@lru_cache(maxsize=8)
def entry_parser(words: Words) -> EntryParser:
    """The parser for a diary with these words, built once."""
    return EntryParser(Marker(words), words.units)


def _entry(text: str, made: tuple[Any, tuple[Any, ...], tuple[Any, ...]]) -> Entry:
    tokens, lead, parts = made
    spans = [entry_span(token.start_pos, token.end_pos) for token in tokens]
    names = [_verb(text[span.start : span.end]) for span in spans]
    return Entry(
        names[0],
        names[1] if len(names) > 1 else "",
        parts,
        text,
        lead=lead,
        verb_span=spans[0],
    )


def _verb(written: str) -> str:
    words = squeeze(written)
    if words.split(" ")[0] in _PLANS:
        words = words.split(" ")[0]  # `plan to sow`, `abandon the plan to sow`
    return BY_FORM[words].name if words in BY_FORM else f"state:{words}"


Outline = list[Shape | Declaration]


def outline(source: Source, words: Words) -> Outline:
    """A file's lines by shape, with the declarations read: enough to know the diary's words."""
    made: Outline = []
    dated = False
    for shape in shapes(source):
        declared = declaration(shape, words, dated) if isinstance(shape, DashLine) else None
        dated = dated or isinstance(shape, DayLine)
        made.append(declared or shape)
    return made


def complete(source: Source, lines: Outline, words: Words) -> Document:
    """The outline of a file with its entries read in the diary's own words."""
    return Document(source, tuple(completed(source, lines, words)))


def completed(source: Source, lines: Outline, words: Words) -> Iterator[Line]:
    """The lines of a file one by one, its entries read in the diary's own words.

    Every character belongs to exactly one line: each line's span reaches to the next one's start,
    the first one's from the start of the file. An empty text has no lines.
    """
    parser = entry_parser(words)
    if not lines:
        yield from _blank(source)
    for at, shape in enumerate(lines):
        start = shape.span.start if at else 0
        end = lines[at + 1].span.start if at + 1 < len(lines) else len(source.text)
        yield _line(shape, Span(start, end), source, parser)


def parse(source: Source, words: Words) -> Document:
    """A file as its lines in order, read with the given words."""
    return complete(source, outline(source, words), words)


def _blank(source: Source) -> tuple[Line, ...]:
    whole = Span(0, len(source.text))
    return (Prose(source.text, span=whole),) if source.text else ()


def _line(shape: Shape | Declaration, span: Span, source: Source, parser: EntryParser) -> Line:
    """A shape as the line that it is; `span` reaches to the next line."""
    if isinstance(shape, ProseLine):
        return Prose(shape.text, span=span, near=shape.near)
    if not isinstance(shape, DashLine):
        return replace(shape, span=span)
    entry = parser.parse(shape.text)
    if entry is not None:
        return entry.placed(shape.notes, shape.start, span)
    return replace(_dash_prose(shape, source, parser.marker), span=span)


def _dash_prose(shape: DashLine, source: Source, marker: Marker) -> Prose:
    """A dash line without a verb, kept as prose with the word that should have been one."""
    crop = marker.crop_end(shape.text)
    first = _FIRST_WORD.search(shape.text, crop) or _FIRST_WORD.search(shape.text)
    word = first[0].rstrip(",;:.") or first[0] if first else ""
    start = shape.start + (first.start() if first else 0)
    where = Span(start, start + len(word))
    text = "\n".join([source.slice(shape.span), *shape.notes])
    return Prose(text, word, where, shape.span)
