"""Lark's tree of one entry to nodes, as the parser goes; spans count from the entry's text."""

from typing import Any

from lark import Token

from journal.syntax import nodes
from journal.syntax.build_amounts import BuildAmounts
from journal.syntax.build_names import BuildNames
from journal.syntax.marks import VESSELS
from journal.syntax.nodes import Figure, Quantity
from journal.syntax.numbers import squeeze
from journal.syntax.tokens import Child, span_of


class Build(BuildAmounts, BuildNames):
    """Turns each rule of diary.lark into its node; `text` is set to the entry's before parsing."""

    def lead(self, children: list[Child]) -> tuple[Any, ...]:
        """The crop that stands before its verb."""
        return _flat(children)

    def inside(self, children: list[Child]) -> nodes.Inside:
        """`into 9 cm pots`; `per litre` is in a litre."""
        span = span_of(children)
        if isinstance(children[0], Token) and children[0].type == "PER_LITRE":
            unit = squeeze(self._word(children[0])).split()[-1]
            return nodes.Inside("in", Quantity(Figure(1, 1), unit, span=span), span=span)
        preposition = squeeze(self._word(children[0])) if isinstance(children[0], Token) else ""
        quantity = next((child for child in children if isinstance(child, Quantity)), None)
        vessel = ""
        if isinstance(children[-1], Token) and children[-1].type == "VESSEL":
            start = quantity.span.start if quantity else children[-1].start_pos
            vessel = " ".join(self.text[start : span.end].split())
        elif preposition and quantity is not None and quantity.unit in VESSELS:
            vessel = " ".join(self._slice(quantity.span).split())
        return nodes.Inside(preposition, quantity, vessel, span)

    def aside(self, children: list[Child]) -> nodes.Aside:
        """`along the path`."""
        span = span_of(children)
        return nodes.Aside(" ".join(self._slice(span).split()), span)

    def remark(self, children: list[Child]) -> nodes.Remark:
        """`(wind-rocked)`."""
        token = children[0]
        closed = token.type == "REMARK"
        text = self._word(token)[1:-1] if closed else self._word(token)[1:]
        return nodes.Remark(text.strip(), closed, span_of(children))

    def separator(self, children: list[Child]) -> nodes.Separator:
        """A comma or `and`."""
        return nodes.Separator(squeeze(self._word(children[0])), span_of(children))

    def unread(self, children: list[Child]) -> nodes.Unread:
        """A word of no rule."""
        return nodes.Unread(self._word(children[0]), span_of(children))

    def loose(self, children: list[Child]) -> nodes.Unread:
        """`rows` or `x` behind a part that has no use for it."""
        return nodes.Unread(self._word(children[0]), span_of(children))

    loose_times = loose

    def stray(self, children: list[Child]) -> nodes.Stray:
        """A sign without meaning here."""
        return nodes.Stray(self._word(children[0]), span_of(children))

    def fault(self, children: list[Child]) -> nodes.Fault:
        """A preposition with nothing behind it, a comma for a point, a quote that never closes."""
        kinds = {"PREP": "place", "OPEN_QUOTE": "quote", "CLOCK_SPAN": "clock"}
        kinds["BAD_FIGURE"] = "figure"
        kind = kinds.get(children[0].type, "comma")
        return nodes.Fault(kind, self._word(children[0]), span_of(children))

    def entry(self, children: list[Child]) -> tuple[list[Token], tuple[Any, ...], tuple[Any, ...]]:
        """The verb tokens, the crop before them, and the parts after them, flat."""
        tokens = [child for child in children if isinstance(child, Token)]
        first = children[0]
        lead: tuple[Any, ...] = () if isinstance(first, Token) else first
        rest = children[0 if isinstance(first, Token) else 1 :]
        return tokens, lead, _flat([child for child in rest if not isinstance(child, Token)])


def _flat(children: list[Child]) -> tuple[Any, ...]:
    flat: list[Any] = []
    for child in children:
        flat.extend(child) if isinstance(child, tuple) else flat.append(child)
    return tuple(flat)
