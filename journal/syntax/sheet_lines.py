"""Dash lines that declare a thing of the plot: their word, name and comma-separated pieces."""

import re
from functools import lru_cache
from typing import Any

from lark import Lark, Token
from lark.exceptions import UnexpectedInput

from journal.source import Span
from journal.syntax import nodes
from journal.syntax.build import Build
from journal.syntax.grammar import build_parser
from journal.syntax.lines import DashLine
from journal.syntax.nodes import Declaration, Field, Quantity
from journal.syntax.numbers import squeeze
from journal.syntax.verbs import SHEET_WORDS
from journal.syntax.words import Words

_WORD = re.compile(r"(met\s+file|[a-z]+)\s+(?=\S)", re.IGNORECASE)
_PIECE = re.compile(r"(?:['‘](?!\s)[^\n]{0,200}?['’](?!\w)|\([^()\n]*\)|[^,\n])+")
_REMARK = re.compile(r"\(([^()\n]*)\)")
_LABEL = re.compile(r"\s*\d{1,2}(?:\.\d+)?\s*[-–]\s*\d{1,2}(?:\.\d+)?\s*[-–]\s*\d")
_BARE_NAME = re.compile(r"(?:[A-Z0-9][^\s,]*)(?:\s+[^\s,]+){0,3}\s*$")
_CUT = {"split": re.compile(r"\s+into\s+", re.I), "rename": re.compile(r"\s+(?:to|as)\s+", re.I)}
_LONGEST = 5_000


def declaration(line: DashLine, words: Words, dated: bool) -> Declaration | None:
    """The declaration that a dash line is, or None when it is an entry or prose.

    `dated` tells whether a day line stands before it: without a comma, only a proper name declares
    a thing there.
    """
    text = line.text[:_LONGEST]
    match = _WORD.match(text)
    if match is None:
        return None
    word = squeeze(match[1])
    if word.split()[0] not in SHEET_WORDS or word == "met":
        return None
    rest = text[match.end() :]
    if not _declares(word, rest, words, dated):
        return None
    return _cut(line, word, rest, match.end(), words)


def _declares(word: str, rest: str, words: Words, dated: bool) -> bool:
    name, comma, after = rest.partition(",")
    if word == "feed":
        return bool(comma) and _LABEL.match(after) is not None
    if word == "pot" and re.match(r"(?:up|on)(?!\w)", rest, re.IGNORECASE):
        return False
    if word in _CUT:
        return _CUT[word].search(rest) is not None
    if word == "store":
        first = squeeze(name)
        # `store Apple loft` before any day has no apples to put away
        crop = dated and any(first == one or first.startswith(one + " ") for one in words.crops)
        return not crop and _BARE_NAME.match(name.strip()) is not None and not name[:1].isdigit()
    if comma or not dated or word in {"person", "met file", "plot"}:
        return True
    return _BARE_NAME.match(rest.strip()) is not None


def _cut(line: DashLine, word: str, rest: str, offset: int, words: Words) -> Declaration:
    start = line.start + offset
    notes = [remark.strip() for remark in _REMARK.findall(rest)]
    plain = _REMARK.sub(lambda match: " " * len(match[0]), rest)
    if word in _CUT:
        cut = _CUT[word].search(plain)
        assert cut is not None
        name, pieces, first = plain[: cut.start()], plain[cut.end() :], cut.end()
    else:
        found = _PIECE.match(plain)
        end = found.end() if found else len(plain)
        name, pieces, first = plain[:end], plain[end + 1 :], end + 1
    fields = [
        _field(match[0], start + first + match.start(), words)
        for match in _PIECE.finditer(pieces)
        if match[0].strip()
    ]
    lead = len(name) - len(name.lstrip())
    tidy = " ".join(name.split())
    name_span = Span(start + lead, start + max(lead, len(name.rstrip())))
    notes.extend(line.notes)
    return Declaration(word, tidy, tuple(fields), tuple(notes), name_span, line.span)


def _field(piece: str, start: int, words: Words) -> Field:
    lead = len(piece) - len(piece.lstrip())
    text = piece.strip()
    span = Span(start + lead, start + lead + len(text))
    lark, build = _parser(words.units)
    build.text = text
    try:
        made: Any = lark.parse(text)
    except UnexpectedInput:
        # `4 m2 purple`: the sheet tells that it makes nothing of it.
        made = ("words", text)
    key, value = made
    return Field(text, key, value, span)


@lru_cache(maxsize=8)
def _parser(units: frozenset[str]) -> tuple[Lark, "BuildField"]:
    build = BuildField()
    return build_parser("sheet.lark", "field", units, build), build


class BuildField(Build):
    """Turns a piece of a declaration into its key and value."""

    def field(self, children: list[Any]) -> tuple[str, Any]:
        """`also N1` is ("also", "N1"); a size is ("size", Product)."""
        first = children[0]
        if isinstance(first, Token):
            return self._keyed(first, children)
        if isinstance(first, Quantity):
            return ("amount", first) if len(children) == 1 else ("dose", (first, children[-1]))
        kinds = {nodes.Product: "size", nodes.Ratio: "ratio", nodes.Fault: "words"}
        key = kinds[type(first)]
        return (key, first.text if key == "words" else first)

    def _keyed(self, first: Token, children: list[Any]) -> tuple[str, Any]:
        rest = children[1] if len(children) > 1 else None
        if first.type == "KEY":
            return squeeze(str(first)), " ".join(str(rest or "").split())
        if first.type == "DEGREES_KEY":
            return squeeze(str(first)), _degrees(str(rest))
        if first.type == "AT":
            return "at", rest
        if first.type == "NPK":
            figures = tuple(float(figure) for figure in re.findall(r"\d+(?:\.\d+)?", str(first)))
            return "label", (figures, str(rest or "").lower())
        if first.type == "MONEY":
            per = re.sub(r"^(?:per|an?|/)\s*", "", squeeze(str(rest or "")))
            return "price", (self.money([first]), per)
        return "words", " ".join(str(first).split())


def _degrees(text: str) -> float:
    figure = re.search(r"[-−+]?\d+(?:\.\d+)?", text)
    value = float(figure[0].replace("−", "-")) if figure else 0.0
    return -value if re.search(r"[SW]|south|west", text, re.IGNORECASE) else value
