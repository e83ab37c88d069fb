"""The books as a text and back, so that the next run need not keep them anew.

Every object is a row of plain values; days, numbers and totals, of which many are alike, stand
once each. What is not exactly what was once written is not taken.
"""

import json
from collections.abc import Callable, Iterable
from dataclasses import astuple, fields
from datetime import date
from itertools import islice
from operator import attrgetter
from typing import Any

from journal.events.dates import Days
from journal.events.reading import Aside
from journal.studies.ledger.batches import Batch, Number, Part, Stay, Totals
from journal.studies.ledger.books import Books
from journal.studies.ledger.entries import Joined, Unplaced
from journal.studies.ledger.grounds import Grounds

_WHAT = "books"
_Columns = dict[str, list[Any]]

# how a value is written, and made again
_POOLS: dict[str, tuple[Callable[[Any], Any], Callable[[Any], Any]]] = {
    "days": (
        lambda days: [days.first.toordinal(), days.last.toordinal(), days.spread],
        lambda own: Days(date.fromordinal(own[0]), date.fromordinal(own[1]), own[2]),
    ),
    "dates": (date.toordinal, date.fromordinal),
    "numbers": (astuple, lambda own: Number(*own)),
    "totals": (astuple, lambda own: Totals(*own)),
    "grounds": (sorted, frozenset),
}
# which fields are not plain themselves
_POOLED: dict[type[Any], dict[str, str]] = {
    Batch: {
        **dict.fromkeys(("started", "first_harvest", "last_harvest", "ended_on"), "days"),
        "over_after": "dates",
        "totals": "totals",
    },
    Stay: {"since": "days", "until": "days", "alive": "numbers", "totals": "totals"},
    Part: {"ground": "grounds", "alive": "numbers", "tended": "days", "parted": "days"},
    Joined: {"count": "numbers"},
    Unplaced: {"day": "dates"},
}
# which are other objects; of a batch how many it has is kept, of a part which stay it is in
_OWN = {Batch: ("parts", "stays"), Part: ("batch", "stay")}


def take_books(aside: Aside, grounds: Grounds) -> Books | None:
    """The books that were put there for this very diary and day, else None."""
    text = aside.take(_WHAT)
    try:
        return None if text is None else from_json(text, grounds)
    except (AttributeError, IndexError, KeyError, OverflowError, TypeError, ValueError):
        return None


def put_books(aside: Aside, books: Books) -> None:
    """Keeps the books."""
    aside.put(_WHAT, to_json(books))


def to_json(books: Books) -> str:
    """The books, but for the grounds, which are the sheet's."""
    pools: dict[str, dict[Any, int]] = {name: {} for name in _POOLS}
    batches = books.batches
    stays = [stay for batch in batches for stay in batch.stays]
    parts = [part for batch in batches for part in batch.parts]
    at = {id(stay): place for place, stay in enumerate(stays)}
    kept = {
        "batches": _columns(Batch, batches, pools),
        "stays": _columns(Stay, stays, pools),
        "parts": _columns(Part, parts, pools),
        "joined": _columns(Joined, books.joined, pools),
        "unplaced": _columns(Unplaced, books.unplaced, pools),
        "stays of": [len(batch.stays) for batch in batches],
        "parts of": [len(batch.parts) for batch in batches],
        "stay of": [at[id(part.stay)] for part in parts],
    }
    written = {name: list(map(_POOLS[name][0], pool)) for name, pool in pools.items()}
    return json.dumps(kept | {"pools": written}, ensure_ascii=False, separators=(",", ":"))


def _names(kind: type[Any]) -> list[str]:
    own = _OWN.get(kind, ())
    return [field.name for field in fields(kind) if field.name not in own]


def _columns(kind: type[Any], rows: Iterable[Any], pools: dict[str, dict[Any, int]]) -> _Columns:
    found = {}
    for name in _names(kind):
        cells = list(map(attrgetter(name), rows))
        pool = pools.get(_POOLED[kind].get(name, ""))
        found[name] = cells if pool is None else [_code(pool, cell) for cell in cells]
    return found


def _code(pool: dict[Any, int], value: Any) -> int:
    """Where the value stands in the pool; none stands last, at -1."""
    return -1 if value is None else pool.setdefault(value, len(pool))


def from_json(text: str, grounds: Grounds) -> Books:
    """The books that `to_json` wrote, on the same grounds."""
    kept = json.loads(text)
    pools = {name: [*map(made, kept["pools"][name]), None] for name, (_, made) in _POOLS.items()}
    stays = list(map(Stay, *_cells(Stay, kept["stays"], pools).values()))
    joined = list(map(Joined, *_cells(Joined, kept["joined"], pools).values()))
    unplaced = list(map(Unplaced, *_cells(Unplaced, kept["unplaced"], pools).values()))
    shares = _shares(stays, kept["stays of"])
    batches = _made(Batch, _cells(Batch, kept["batches"], pools) | {"stays": shares})
    owners = [
        each for each, many in zip(batches, kept["parts of"], strict=True) for _ in [0] * many
    ]
    own = {"batch": owners, "stay": [stays[at] for at in kept["stay of"]]}
    for part in _made(Part, _cells(Part, kept["parts"], pools) | own):
        part.batch.parts.append(part)
    return Books(grounds, batches, joined, unplaced)


def _cells(kind: type[Any], columns: _Columns, pools: dict[str, list[Any]]) -> _Columns:
    found = {}
    for name in _names(kind):
        pool = pools.get(_POOLED[kind].get(name, ""))
        found[name] = columns[name] if pool is None else [pool[code] for code in columns[name]]
    return found


def _made(kind: type[Any], cells: _Columns) -> list[Any]:
    return [kind(**dict(zip(cells, row, strict=True))) for row in zip(*cells.values(), strict=True)]


def _shares(rows: list[Any], counts: Iterable[int]) -> list[list[Any]]:
    """The rows dealt out in order, so many to each."""
    left = iter(rows)
    return [list(islice(left, many)) for many in counts]
