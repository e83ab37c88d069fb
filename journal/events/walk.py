"""The walk over an entry's parts: where a grouper is, what comes next, what it has made so far."""

from typing import Any

from journal.events.items import Grouped, Item, Measured, Words
from journal.events.runs import held_together, joined, opened, run_words, side_by_side, with_tails
from journal.source import Span
from journal.syntax import nodes as n
from journal.syntax.verbs import Verb

_CROP_KINDS = frozenset(
    {
        "sowing",
        "raising",
        "planting",
        "moving",
        "harvest",
        "loss",
        "stock check",
        "kitchen",
        "purchase",
        "verdict",
    }
)


class Walk:
    """Where a grouper is among an entry's parts, and what it has made so far."""

    def __init__(self, text: str, verb: Verb, parts: tuple[Any, ...], time_units: frozenset[str]):
        """`verb` is the planned verb where the entry is an intention."""
        self.text = text
        self.verb = verb
        words = run_words(opened(parts, verb.kind == "loss"), text)
        self.parts = joined(held_together(with_tails(words), text), text)
        self.time_units = time_units
        self.on_crops = verb.kind in _CROP_KINDS
        self.out = Grouped(items=[Item()])
        self.with_open = False
        self.at = 0
        self.before: Any = None

    @property
    def item(self) -> Item:
        """The item that is being filled."""
        return self.out.items[-1]

    def _next(self, ahead: int = 0) -> Any:
        at = self.at + ahead
        return self.parts[at] if at < len(self.parts) else None

    def _fault(self, code: str, span: Span, **words: object) -> None:
        self.out.faults.append((code, span, words))

    def _written(self, span: Span) -> Words:
        return Words(" ".join(self.text[span.start : span.end].split()), span)

    def _beside(self, first: Span, second: Span) -> bool:
        """Whether two parts stand side by side, the second after the first."""
        return first.end <= second.start and side_by_side(self.text, first, second)

    def _beside_next(self, span: Span, *kinds: type) -> bool:
        following = self._next()
        return isinstance(following, kinds) and self._beside(span, _span_of(following))

    def _is_time(self, part: Measured) -> bool:
        node = part.node
        if isinstance(node, n.Vague):
            return node.time
        if isinstance(node, n.Product):
            return any(factor.unit in self.time_units for factor in node.factors)
        return isinstance(node, n.Quantity) and node.unit in self.time_units

    def _open_item(self) -> None:
        if self.item.headed:
            self.out.items.append(Item())
        self.with_open = False


def _span_of(part: Any) -> Span:
    span: Span = part.span
    return span
