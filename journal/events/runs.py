"""The flat parts of an entry made ready for grouping: words into runs, amounts with their tails."""

from typing import Any

from journal.events.items import AmountNode, Measured, Words
from journal.source import Span
from journal.syntax import nodes as n


def with_tails(parts: list[Any]) -> list[Any]:
    """Puts the words that qualify an amount (`deep`, `each`) together with it."""
    made: list[Any] = []
    for part in parts:
        amount = isinstance(part, AmountNode)
        if amount:
            made.append(Measured(part, frozenset(), part.span))
        elif isinstance(part, n.Tail) and made and _is_spacing(made[-1], part):
            # `thin to 5 cm apart`
            inside = made.pop()
            made.append(Measured(inside.quantity, frozenset({part.kind}), inside.quantity.span))
        elif isinstance(part, n.Tail) and made and isinstance(made[-1], Measured):
            last = made[-1]
            span = Span(last.span.start, part.span.end)
            made[-1] = Measured(last.node, last.tails | {part.kind}, span)
        else:
            made.append(part)
    return made


def _is_spacing(part: Any, tail: n.Tail) -> bool:
    plain = isinstance(part, n.Inside) and part.quantity is not None and not part.vessel
    return plain and tail.kind in {"apart", "deep", "between_rows", "per_area"}


def run_words(parts: tuple[Any, ...], text: str) -> list[Any]:
    """Puts neighbouring words that no rule claims together into runs."""
    made: list[Any] = []
    for part in parts:
        if isinstance(part, n.Stray) and made and isinstance(made[-1], n.Stray):
            # One fault for a row of signs.
            span = Span(made.pop().span.start, part.span.end)
            made.append(n.Stray(text[span.start : span.end], span))
            continue
        if not isinstance(part, n.Unread):
            made.append(part)
            continue
        span = part.span
        if made and isinstance(made[-1], Words) and side_by_side(text, made[-1].span, span):
            span = Span(made.pop().span.start, span.end)
        made.append(Words(" ".join(text[span.start : span.end].split()), span))
    return made


SMALL_WORDS = frozenset(["the", "some", "of", "our", "my", "its", "a", "an"])


def side_by_side(text: str, first: Span, second: Span) -> bool:
    """Whether only white space and words that are passed over stand between two spans."""
    between = text[first.end : second.start].lower().split()
    return all(word in SMALL_WORDS for word in between)


def may_lead(part: Measured) -> bool:
    """Whether an amount may lead an item: no depth, spacing or rate."""
    if part.tails - {"each"}:
        return False
    return not isinstance(part.node, n.Ratio | n.Rows)


def looks_like_place(text: str) -> bool:
    """Whether undeclared words are a place's name: `North`, `bed 9`."""
    return text[:1].isupper() or text[-1:].isdigit()


def is_bare(part: Any) -> bool:
    """Whether a part is a whole number and nothing else."""
    if not isinstance(part, Measured) or part.tails or not isinstance(part.node, n.Quantity):
        return False
    figure = part.node.figure
    return not part.node.unit and figure.low == int(min(figure.low, 1e6)) and figure.high < 1e6
