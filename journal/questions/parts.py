"""The parts of a question as plain values, and its tree read into them."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal, cast

from lark import Token, Tree

from journal.questions.calendar_words import CALENDAR
from journal.questions.lexer import Tokens
from journal.questions.names import Sense
from journal.questions.periods import (
    Clock,
    NoPeriodError,
    Period,
    after,
    before,
    day_words,
    from_to,
    one_day,
    since,
    until,
    year_period,
)

PartKind = Literal[
    "head", "aux", "self", "act", "order", "superlative", "compare", "noun", "kind", "state",
    "unit", "thing", "place", "person", "preposition", "period", "clause", "interval", "ahead",
    "each", "per", "joint", "prose", "particle", "limit", "unread",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Part:
    """One part: what it is, its word, where it stands in the question, and what it means.

    `name` is the word of its class (`sow` of an act) or, for a place, person or thing, the
    preposition before it; `senses` are the meanings of its name.
    """

    kind: PartKind
    name: str
    start: int
    end: int
    senses: tuple[Sense, ...] = ()
    period: Period | None = None
    others: tuple[str, ...] = ()


def parts_of(tree: Tree[Any], found: Tokens, clock: Clock) -> list[Part]:
    """The parts in the order of the question; NoPeriodError where a stretch of days is none."""
    trees = [child for child in tree.children if isinstance(child, Tree)]
    return [part for child in trees for part in _parts(child, found, clock)]


def _parts(tree: Tree[Any], found: Tokens, clock: Clock) -> list[Part]:
    """One part; of a phrase that names things on the way, those too."""
    if tree.data not in ("interval", "doing", "pair"):
        return [_part(tree, found, clock)]
    leaves = [leaf for leaf in tree.scan_values(lambda leaf: isinstance(leaf, Token))]
    things = [_leaf_part("thing", "", leaf, found) for leaf in leaves if leaf.type == "THING"]
    lead = leaves[0].type.lower()
    if tree.data == "interval":
        acts = tuple(str(leaf) for leaf in leaves if leaf.type == "ACT")
        start, end = leaves[0].start_pos or 0, leaves[-1].end_pos or 0
        lasts = [leaf for leaf in leaves if leaf.type == "ORDER" and str(leaf) != "first"]
        orders = [_leaf_part("order", str(leaf), leaf, found) for leaf in lasts]
        return [Part("interval", lead, start, end, others=acts), *things, *orders]
    word = _leaf_part("preposition", lead, leaves[0], found)
    if tree.data == "pair":
        return [word, things[0], _leaf_part("joint", "and", leaves[2], found), things[1]]
    act = next(leaf for leaf in leaves if leaf.type == "ACT")
    return [word, _leaf_part("act", str(act), act, found), *things]


def _leaf_part(kind: PartKind, name: str, leaf: Token, found: Tokens) -> Part:
    start, end = leaf.start_pos or 0, leaf.end_pos or 0
    senses = tuple(found.senses.get(start, ())) if kind == "thing" else ()
    return Part(kind, name, start, end, senses)


def _part(tree: Tree[Any], found: Tokens, clock: Clock) -> Part:
    leaves = [leaf for leaf in tree.scan_values(lambda leaf: isinstance(leaf, Token))]
    start, end = leaves[0].start_pos, leaves[-1].end_pos
    if tree.data == "period":
        span = next(child for child in tree.children if isinstance(child, Tree))
        return Part("period", _lead(leaves), start, end, period=_period(span, found, clock))
    if tree.data == "edge":
        return _edge(tree, leaves, found, clock)
    if tree.data in ("where", "whom", "about"):
        return _named(leaves, found)
    if tree.data in ("thing", "unit"):
        senses = tuple(found.senses.get(leaves[0].start_pos, ()))
        if tree.data == "thing":
            return Part("thing", "", start, end, senses)
        return Part("unit", str(leaves[0]), start, end, senses)
    if tree.data in ("each", "per"):
        last = leaves[-1]
        name = str(last) if last.type in ("NOUN", "UNIT") else last.type.lower()
        return Part(cast(PartKind, str(tree.data)), name, start, end)
    kind = cast(PartKind, str(tree.data))
    return Part(kind, str(leaves[0]).lower(), start, end)


def _lead(leaves: list[Token]) -> str:
    return leaves[0].type.lower() if len(leaves) > 1 else ""


def _named(leaves: list[Token], found: Tokens) -> Part:
    last = leaves[-1]
    start, end = leaves[0].start_pos, last.end_pos
    assert start is not None and end is not None
    preposition = leaves[0].type.lower() if len(leaves) > 1 else ""
    preposition = "on" if preposition == "during" else preposition
    if last.type not in ("PLACE", "PERSON", "THING"):
        return Part("preposition", last.type.lower(), start, end)
    kind: PartKind = {"PLACE": "place", "PERSON": "person"}.get(last.type, "thing")  # type: ignore[assignment]
    return Part(kind, preposition, start, end, tuple(found.senses[last.start_pos or 0]))


def _period(tree: Tree[Any], found: Tokens, clock: Clock) -> Period:
    leaves = [leaf for leaf in tree.children if isinstance(leaf, Token)]
    words = [str(leaf) for leaf in leaves]
    kinds = [leaf.type for leaf in leaves]
    texts = [found.text[leaf.start_pos : leaf.end_pos] for leaf in leaves]
    if tree.data == "span":
        if kinds[0] == "OF_YEAR":
            return _year(clock.said_year(texts[0]), clock)
        if words[0] == "iso_date":
            return _on_weekday(clock.iso_day(texts[0]), found, leaves[0])
        if words[0] in CALENDAR:
            return CALENDAR[words[0]](clock, " ".join(texts[0].lower().split()))
        return clock.span(words[0], texts[0])
    if tree.data == "year":
        if "/" in words[0]:
            raise NoPeriodError(f"`{words[0]}` is two years; ask for one")
        return _year(int(words[0]), clock)
    year = clock.said_year(texts[-1]) if kinds[-1] in ("YEAR", "OF_YEAR") else None
    if "/" in texts[-1] and year is not None:
        # a winter of two years goes by its January
        if tree.data != "season":
            raise NoPeriodError(f"`{texts[-1]}` is two years; ask for one")
        year += 1
    if tree.data == "season":
        return clock.season(words[0], year)
    if tree.data == "month":
        part = _part_of(words[0]) if kinds[0] == "PART_OF" else ""
        return clock.month(words[kinds.index("MONTH")], year, part)
    number = next(word for word, kind in zip(words, kinds, strict=True) if kind in _FIGURES)
    if kinds == ["MONTH", "NUMBER"] and not _ON.search(found.text[: leaves[0].start_pos]):
        _not_a_year(" ".join(texts), clock)
    return _on_weekday(clock.day(number, words[kinds.index("MONTH")], year), found, leaves[0])


_ON = re.compile(r"\bon (?:the )?$|day,? $", re.IGNORECASE)
_WEEKDAY = re.compile(
    r"\b((?:mon|tues|wednes|thurs|fri|satur|sun)day),?(?: the)? ?$", re.IGNORECASE
)
# `june 24`: of so many years the two figures may be one
_YEARS_BACK = 12


def _not_a_year(words: str, clock: Clock) -> None:
    """`june 24` may be a month of 2024 or a day; NoPeriodError, for it may not be guessed."""
    year = 2000 + int(float(words.split()[-1]))
    if clock.today.year - _YEARS_BACK <= year <= clock.today.year:
        raise NoPeriodError(f"`{words}` may be a day or in {year}; write `{year}` or `on {words}`")


def _on_weekday(period: Period, found: Tokens, first: Token) -> Period:
    """The day, where a weekday that is said before it is its own; NoPeriodError where not."""
    said = _WEEKDAY.search(found.text[: first.start_pos])
    assert period.first is not None
    name = f"{period.first:%A}"
    if said and said[1].lower() != name.lower():
        day = day_words(period.first)
        raise NoPeriodError(f"{day} is a {name}, not a {said[1].title()}; ask by one of them")
    return period


def _part_of(words: str) -> str:
    """`the start of` a month is early in it, as the diary's day lines have it."""
    return next(part for word, part in _PARTS.items() if word in words.lower())


_PARTS = {
    "early": "early", "start": "early", "beginning": "early",
    "mid": "mid", "middle": "mid", "late": "late", "end": "late",
}  # fmt: skip
_FIGURES = ("NUMBER", "ORDINAL")


def _year(year: int, clock: Clock) -> Period:
    return year_period(year, clock.today)


def _edge(tree: Tree[Any], leaves: list[Token], found: Tokens, clock: Clock) -> Part:
    start, end = leaves[0].start_pos, leaves[-1].end_pos
    assert start is not None and end is not None
    word = leaves[0].type.lower()
    inner = [child for child in tree.children if isinstance(child, Tree)]
    if inner[0].data == "clause":
        return _clause(inner[0], word, start, end, found)
    spans = [_period(child, found, clock) for child in inner]
    if [leaf.value for leaf in inner[0].scan_values(bool)] == ["this_time_last_year"]:
        # `by this time last year` is up to that very day
        spans = [_middle(spans[0]), *spans[1:]]
    if len(spans) == 2:
        return Part("period", word, start, end, period=from_to(*spans))
    if word == "by" and spans[0].last is not None:
        # `by the end of July 2025` is within its year
        last = spans[0].last
        said = f"in {last.year} by {day_words(last, year=False)}"
        return Part("period", word, start, end, period=Period(date(last.year, 1, 1), last, said))
    if word == "from" and inner[0].data in ("year", "season", "span") and _is_long(spans[0]):
        said = found.text[leaves[1].start_pos : end]
        raise NoPeriodError(f"`from {said}` may be of that time or since it; write `of` or `since`")
    made = {"since": since, "from": since, "after": after, "before": before}.get(word, until)
    return Part("period", word, start, end, period=made(spans[0]))


def _middle(period: Period) -> Period:
    assert period.first is not None and period.last is not None
    return one_day(period.first + (period.last - period.first) / 2)


_SEASON_DAYS = 80


def _is_long(period: Period) -> bool:
    """A season or a year: `the beans from last year` are not those since it began."""
    if period.first is None or period.last is None:
        return True
    return (period.last - period.first).days > _SEASON_DAYS


def _clause(tree: Tree[Any], word: str, start: int, end: int, found: Tokens) -> Part:
    """`since the peas went in`: the days it means are for the events to tell."""
    leaves = [leaf for leaf in tree.children if isinstance(leaf, Token)]
    act = next(str(leaf) for leaf in leaves if leaf.type == "ACT")
    senses = [
        sense
        for leaf in leaves
        if leaf.type == "THING"
        for sense in found.senses.get(leaf.start_pos or 0, ())
    ]
    return Part("clause", word, start, end, tuple(senses), others=(act,))
