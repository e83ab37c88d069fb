"""Lark's tree of amounts, times, moments and money to nodes."""

import re
from typing import Any

from lark import Token

from journal.source import Span
from journal.syntax import nodes
from journal.syntax.nodes import Figure, Quantity
from journal.syntax.numbers import number, squeeze
from journal.syntax.tokens import Child, Written, span_of, tokens_of

_TAILS = {
    "DEEP": "deep",
    "LONG": "long",
    "APART": "apart",
    "BETWEEN_ROWS": "between_rows",
    "PER_AREA": "per_area",
    "PER_ROW": "per_row",
    "PER_VESSEL": "per_vessel",
    "EACH_WAY": "each_way",
    "EACH": "each",
    "ALTOGETHER": "altogether",
}
_MOMENTS = {
    "ON_DATE": "on",
    "BY_DATE": "by",
    "IN_SPAN": "within",
    "IN_MONTH": "in",
    "EVERY": "every",
    "UNTIL": "until",
    "NEXT": "next",
}
_SYMBOLS = {"£": "GBP", "$": "$", "€": "EUR"}
# Weights and Measures Act 1985, Schedule 1.
_YARD, _FOOT = 0.9144, 0.3048


class BuildAmounts(Written):
    """The rules of how much, how long, when and for how much money."""

    def figure(self, children: list[Child]) -> tuple[Figure, Span]:
        """`24`, `2-3`."""
        figures = [number(self._word(token)) for token in tokens_of(children, "NUMBER")]
        word = squeeze(self._word(children[0]))
        return (
            Figure(min(figures), max(figures), len(figures) > 1 or word.startswith("a couple")),
            span_of(children),
        )

    def quantity(self, children: list[Child]) -> Quantity:
        """A figure with its unit."""
        span = span_of(children)
        kinds = {child.type for child in children if isinstance(child, Token)}
        about = bool(kinds & {"APPROX", "OR_SO"})
        if "HOURS_MINUTES" in kinds:
            hours, minutes = re.findall(r"\d+", self._word(tokens_of(children, "HOURS_MINUTES")[0]))
            return Quantity(
                Figure(float(hours), float(hours), about),
                "h",
                Figure(float(minutes), float(minutes)),
                "min",
                span=span,
            )
        figures = [child[0] for child in children if isinstance(child, tuple)]
        first = _hedged(figures[0], about)
        if "AND_HALF" in kinds:
            first = Figure(first.low + 0.5, first.high + 0.5, first.approximate)
        units = [squeeze(self._word(t)).rstrip(".") for t in children if _is_unit(t)]
        if "MAJOR" in kinds:
            major = units[0].removesuffix(" and")
            minor_unit = units[1] if len(units) > 1 else ""
            return Quantity(
                first, major, figures[1] if len(figures) > 1 else None, minor_unit, span=span
            )
        return _dozens(Quantity(first, units[0] if units else "", span=span))

    def product(self, children: list[Child]) -> nodes.Product | nodes.Fault:
        """`15 x 30 cm`."""
        span = span_of(children)
        if isinstance(children[-1], Token):
            return nodes.Fault("times", self._slice(span), span)
        first, last = children[0], children[-1]
        if isinstance(first, nodes.Fault):
            return first
        head = first.factors if isinstance(first, nodes.Product) else (first,)
        return nodes.Product((*head, last), span)

    def part_of(self, children: list[Child]) -> nodes.PartOf | nodes.Fault:
        """`36 of 40`."""
        span = span_of(children)
        if isinstance(children[-1], Token):
            return nodes.Fault("of", self._slice(span), span)
        return nodes.PartOf(children[0], children[-1], span)

    def rows(self, children: list[Child]) -> nodes.Rows | nodes.Fault:
        """`3 rows of 4 m`."""
        span = span_of(children)
        last = children[-1].type if isinstance(children[-1], Token) else ""
        if last == "ROWS_OF":
            return nodes.Fault("rows", self._slice(span), span)
        if last == "BARE_ROWS":
            return nodes.Rows(None, None, span)
        head: Quantity = children[0]
        if head.unit:  # `a 4 m row`
            return nodes.Rows(Figure(1, 1), head, span)
        length = children[-1] if isinstance(children[-1], Quantity) and len(children) > 2 else None
        return nodes.Rows(head.figure, length, span)

    def ratio(self, children: list[Child]) -> nodes.Ratio:
        """`1:200`."""
        one, water = self._word(children[0]).replace(";", ":").split(":")
        return nodes.Ratio(float(one), float(water), span_of(children))

    def counted(self, children: list[Child]) -> tuple[Any, ...] | nodes.Form:
        """`2 packets`."""
        form = nodes.Form(squeeze(self._word(children[-1])), span_of(children[-1:]))
        return form if len(children) == 1 else (children[0], form)

    def tail(self, children: list[Child]) -> nodes.Tail:
        """`deep`, `apart`, `each`."""
        token = children[0]
        kind, word = _TAILS[token.type], self._word(token)
        ground = _ground(squeeze(word)) if kind == "per_area" else 0.0
        return nodes.Tail(kind, word, ground, span_of(children))

    def hedge(self, children: list[Child]) -> nodes.Tail:
        """`or so`, `each`, `altogether`, apart from its amount."""
        if children[0].type == "OR_SO":
            return nodes.Tail("or_so", self._word(children[0]), span=span_of(children))
        return self.tail(children)

    def duration(self, children: list[Child]) -> nodes.Duration | nodes.Fault:
        """`for 2 hours`."""
        if len(children) == 1:
            return nodes.Fault("for", self._word(children[0]), span_of(children))
        return nodes.Duration(children[1], span_of(children))

    def vague(self, children: list[Child]) -> nodes.Vague:
        """`a few`."""
        token = children[0]
        return nodes.Vague(
            " ".join(self._word(token).split()), token.type == "VAGUE_TIME", span_of(children)
        )

    def moment(self, children: list[Child]) -> nodes.Moment:
        """`on 5 Nov`."""
        token = children[0]
        return nodes.Moment(
            _MOMENTS[token.type], " ".join(self._word(token).split()), span_of(children)
        )

    def times(self, children: list[Child]) -> nodes.Times:
        """`twice`, `2 people`."""
        if children[0].type == "PEOPLE":
            number_of = re.match(r"\d+|\w+", self._word(children[0]))
            people = int(number(number_of[0])) if number_of else 1
            return nodes.Times(max(1, people), True, span_of(children))
        words = squeeze(self._word(children[0])).split()
        counts = {"twice": 2, "thrice": 3}
        count = counts.get(words[0]) or int(number(words[0]))
        return nodes.Times(max(1, min(count, 31)), False, span_of(children))

    def money(self, children: list[Child]) -> nodes.Money | nodes.Fault:
        """`£4.50`, and `each` before or after it."""
        span = span_of(children)
        amount = tokens_of(children, "MONEY")
        if not amount:
            return nodes.Fault("price", self._word(children[0]), span)
        kinds = [child.type for child in children]
        if kinds[-1] == "PER":
            return nodes.Fault("per", self._slice(span), span)
        if "PER" in kinds:
            return _money(self._word(amount[0]), False, span, squeeze(self._word(children[-1])))
        return _money(self._word(amount[0]), len(children) > 1, span)


def _ground(words: str) -> float:
    """`per m2`, `per sq yd`, `per 100 sq ft` in square metres."""
    side = _YARD if "y" in words else _FOOT if "f" in words else 1.0
    figure = re.search(r"\d+(?:\.\d+)?(?!\d*$)", words)
    many = float(figure[0]) if figure and len(figure[0]) < 9 else 1.0
    return many * side**2 if many else side**2


def _is_unit(child: Child) -> bool:
    return isinstance(child, Token) and child.type in {"UNIT", "MEASURE", "MAJOR"}


def _hedged(figure: Figure, about: bool) -> Figure:
    return Figure(figure.low, figure.high, figure.approximate or about)


def _dozens(quantity: Quantity) -> Quantity:
    if quantity.unit != "dozen":
        return quantity
    figure = quantity.figure
    twelves = Figure(figure.low * 12, figure.high * 12, figure.approximate)
    return Quantity(twelves, span=quantity.span)


def _money(text: str, each: bool, span: Span, per: str = "") -> nodes.Money:
    figure = re.search(r"[\d.,]+", text)
    value = float(figure[0].replace(",", "")) if figure and len(figure[0]) < 20 else float("inf")
    word = re.sub(r"[\d.,\s]", "", text)
    if word.lower() in {"p", "pence"}:
        return nodes.Money(value / 100, "GBP", each, per, span)
    if word.lower().startswith("euro"):
        return nodes.Money(value, "EUR", each, per, span)
    return nodes.Money(value, _SYMBOLS.get(word, word.upper()), each, per, span)
