"""The flat parts of an entry made ready for grouping: words into runs, amounts with their tails."""

import re
from collections.abc import Iterator
from dataclasses import replace
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
            quantity, tails = inside.quantity, frozenset({part.kind})
            made.append(Measured(quantity, tails, quantity.span, ground=part.ground))
        elif isinstance(part, n.Tail) and made and isinstance(made[-1], Measured):
            last = made[-1]
            span = Span(last.span.start, part.span.end)
            ground = part.ground or last.ground
            made[-1] = Measured(last.node, last.tails | {part.kind}, span, ground=ground)
        else:
            made.append(part)
    return made


def _is_spacing(part: Any, tail: n.Tail) -> bool:
    plain = isinstance(part, n.Inside) and part.quantity is not None and not part.vessel
    return plain and tail.kind in {"apart", "each_way", "deep", "between_rows", "per_area"}


def opened(parts: tuple[Any, ...], lost: bool) -> tuple[Any, ...]:
    """Puts the crop of `on broad bean` among the parts; `to carrot fly` of a loss stays whole."""
    made: list[Any] = []
    for part in parts:
        if isinstance(part, n.Companion) and part.crops and not (lost and part.preposition == "to"):
            made.extend(part.crops)
        else:
            made.append(part)
    return tuple(made)


def joined(parts: list[Any], text: str) -> list[Any]:
    """Puts figures together that only mean something together, and passes over the x between.

    `12 x leek` and `2 x 6 leek` are counts, `20 min each x 2` is two people's time, `two 4 m rows`
    are rows of 4 m.
    """
    made: list[Any] = []
    for at, part in enumerate(parts):
        following = parts[at + 1] if at + 1 < len(parts) else None
        beside = bool(made) and side_by_side(text, made[-1].span, part.span)
        if beside and _is_times(part) and (is_bare(made[-1]) or _is_each(made[-1])):
            if isinstance(following, _NAMED) or is_bare(following):
                continue
        elif beside and _is_times(part) and is_bare(following) and isinstance(made[-1], _CROP):
            continue  # `raspberry 'Glen Ample' x 10`
        elif beside and _is_of(part, following) and _holds(made[-1]):
            continue
        elif is_bare(part) and made and _holds(made[-1]) and _has_of(text, made[-1], part):
            made.append(_times(part, made[-1]))
            continue
        elif beside and _is_rows(part) and (rows := _rows_of(made[-1])) is not None:
            made[-1] = replace(rows, span=Span(rows.span.start, part.span.end))
            continue
        elif isinstance(part, Measured) and _is_count(part, following, text):
            made.append(_counted(part))
            continue
        elif is_bare(part) and made and _is_each(made[-1]) and _has_times(text, made[-1], part):
            made[-1] = _of_people(made[-1], part)
            continue
        elif beside and is_bare(made[-1]) and _is_long_row(part):
            made[-1] = _many_rows(made[-1], part)
            continue
        made.append(part)
    return made


def held_together(parts: list[Any], text: str) -> list[Any]:
    """Rows and vessels that a number opens: `in 4 rows of 3 m`, `in 6 x 500 ml jars`."""
    if not any(_holds(part) for part in parts):
        return parts
    made: list[Any] = []
    at = 0
    while at < len(parts):
        three = parts[at : at + 3]
        whole = _inside_three(three, text) if len(three) == 3 else None
        made.append(whole or parts[at])
        at += 3 if whole else 1
    return made


def _inside_three(three: list[Any], text: str) -> Any:
    first, word, last = three
    if not _holds(first) or not isinstance(word, Words):
        return None
    if not (side_by_side(text, first.span, word.span) and side_by_side(text, word.span, last.span)):
        return None
    span = Span(first.span.start, last.span.end)
    long = isinstance(last, Measured) and isinstance(last.node, n.Quantity) and not last.tails
    if long and _ROWS_OF.match(word.text):
        return Measured(n.Rows(first.quantity.figure, last.node, span), frozenset(), span)
    if _is_times(word) and isinstance(last, n.Inside) and last.vessel and not last.preposition:
        vessel = " ".join(text[first.quantity.span.start : span.end].split())
        return n.Inside(first.preposition, first.quantity, vessel, span)
    return None


def _is_times(part: Any) -> bool:
    return isinstance(part, Words) and part.text.lower() in {"x", "×"}


def _is_of(part: Any, following: Any) -> bool:
    return isinstance(part, Words) and part.text.lower() == "of" and is_bare(following)


def _holds(part: Any) -> bool:
    """`3 trays`, of which each may hold so many."""
    return isinstance(part, n.Inside) and part.quantity is not None and not part.quantity.unit


def _has_of(text: str, first: Any, second: Any) -> bool:
    return text[first.span.end : second.span.start].strip().lower() == "of"


def _times(part: Measured, trays: n.Inside) -> Measured:
    """`3 trays of 24`: the count is of all of them."""
    assert isinstance(part.node, n.Quantity) and trays.quantity is not None
    figure, many = part.node.figure, trays.quantity.figure
    low, high = figure.low * many.low, figure.high * many.high
    made = n.Figure(low, high, figure.approximate or many.approximate or low != high)
    span = Span(trays.quantity.span.start, part.span.end)
    return replace(part, node=replace(part.node, figure=made), span=span)


def _is_each(part: Any) -> bool:
    if not isinstance(part, Measured) or not isinstance(part.node, n.Quantity):
        return False
    return "each" in part.tails


def _has_times(text: str, first: Measured, second: Measured) -> bool:
    return text[first.span.end : second.span.start].strip().lower() in {"x", "×", "*"}


def _of_people(time: Measured, people: Measured) -> Measured:
    assert isinstance(time.node, n.Quantity) and isinstance(people.node, n.Quantity)
    span = Span(time.span.start, people.span.end)
    return Measured(n.Product((people.node, time.node), span), time.tails, span)


def _is_count(part: Measured, following: Any, text: str) -> bool:
    """`2 x 6` straight before a crop."""
    node = part.node
    bare = isinstance(node, n.Product) and not any(factor.unit for factor in node.factors)
    named = isinstance(following, n.Crop | n.Form)
    return bare and named and side_by_side(text, part.span, following.span)


def _counted(part: Measured) -> Measured:
    assert isinstance(part.node, n.Product)
    low = high = 1.0
    for factor in part.node.factors:
        low, high = low * factor.figure.low, high * factor.figure.high
    node = n.Quantity(n.Figure(low, high, low != high), span=part.span)
    return Measured(node, part.tails, part.span)


def _is_rows(part: Any) -> bool:
    return isinstance(part, Words) and part.text.lower() in {"row", "rows"}


def _rows_of(part: Any) -> Measured | None:
    """`2 x 4 m rows`, `in 3 rows`."""
    if isinstance(part, n.Inside) and part.quantity and not (part.vessel or part.quantity.unit):
        rows = n.Rows(part.quantity.figure, None, part.span)
        return Measured(rows, frozenset(), part.span)
    if not isinstance(part, Measured) or not isinstance(part.node, n.Product):
        return None
    many, *lengths = part.node.factors
    if many.unit or len(lengths) != 1:
        return None
    return Measured(n.Rows(many.figure, lengths[0], part.span), part.tails, part.span)


def _is_long_row(part: Any) -> bool:
    row = part.node if isinstance(part, Measured) else None
    return (
        isinstance(row, n.Rows)
        and row.length is not None
        and row.length.span.start == row.span.start
    )


def _many_rows(count: Measured, row: Measured) -> Measured:
    assert isinstance(count.node, n.Quantity) and isinstance(row.node, n.Rows)
    span = Span(count.span.start, row.span.end)
    return Measured(n.Rows(count.node.figure, row.node.length, span), row.tails, span)


def run_words(parts: tuple[Any, ...], text: str) -> list[Any]:
    """Puts neighbouring words that no rule claims together into runs."""
    made: list[Any] = []
    for run in _runs(parts, text):
        span = Span(run[0].span.start, run[-1].span.end)
        if isinstance(run[0], n.Unread):
            made.append(Words(" ".join(text[span.start : span.end].split()), span))
        elif len(run) > 1:
            # One fault for a row of signs.
            made.append(n.Stray(text[span.start : span.end], span))
        else:
            made.append(run[0])
    return made


def _runs(parts: tuple[Any, ...], text: str) -> Iterator[list[Any]]:
    run: list[Any] = []
    for part in parts:
        if run and not _goes_on(run[-1], part, text):
            yield run
            run = []
        run.append(part)
    if run:
        yield run


def _goes_on(before: Any, part: Any, text: str) -> bool:
    """Whether a part is one more word, or one more sign, of the same run."""
    if isinstance(part, n.Stray):
        return isinstance(before, n.Stray)
    both = isinstance(part, n.Unread) and isinstance(before, n.Unread)
    return both and side_by_side(text, before.span, part.span)


_CROP = (n.Crop, n.Cultivar, n.Form)
_NAMED = (*_CROP, n.Material, Words)
_ROWS_OF = re.compile(r"(?:\w+ )?(?:rows?|drills?) (?:of|x|×|each|at)$", re.IGNORECASE)
SMALL_WORDS = frozenset(["the", "some", "of", "our", "my", "its", "a", "an"])
# looks no further than the first word that is another
_PASSED = re.compile(rf"(?:\s*+(?:{'|'.join(sorted(SMALL_WORDS))})(?=\s|\Z))*+\s*+", re.IGNORECASE)


def side_by_side(text: str, first: Span, second: Span) -> bool:
    """Whether only white space and words that are passed over stand between two spans."""
    if second.start <= first.end:
        return True
    passed = _PASSED.match(text, first.end, second.start)
    return passed is not None and passed.end() == second.start


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
