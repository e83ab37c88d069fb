"""Rows as columns of few different values: what is kept on disk, and what frames are made of.

A row is made into its dataclass when it is asked for; a column never needs its rows.
"""

import sys
from array import array
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property
from operator import attrgetter
from typing import Any, Generic, TypeVar, overload

from journal.source import Source, Span

Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class Coded:
    """A column as its different values and, for each row, which of them it has.

    Without `codes` row n has the n-th value, or every row the only one.
    """

    rows: int
    values: Sequence[Any]
    codes: "array[int] | None" = None

    def cells(self) -> list[Any]:
        """One value a row."""
        if self.codes is not None:
            return list(map(self.values.__getitem__, self.codes))
        return list(self.values) if len(self.values) == self.rows else [self.values[0]] * self.rows

    def packed(self) -> str:
        """The codes as text: little-endian, in base 64; "" without codes."""
        return "" if self.codes is None else b64encode(_little(self.codes).tobytes()).decode()

    @classmethod
    def unpacked(cls, rows: int, values: Iterable[Any], packed: str) -> "Coded":
        """The column whose codes were packed; ValueError where they are not such a column's."""
        made = tuple(values)
        if not packed:
            if len(made) not in {1, rows}:
                raise ValueError("a column has a value for each row, or one for all")
            return cls(rows, made)
        codes = array(_width(len(made)))
        codes.frombytes(b64decode(packed, validate=True))
        codes = _little(codes)
        if len(codes) != rows or max(codes) >= len(made):
            raise ValueError("a column's codes are those of its values")
        return cls(rows, made, codes)


def _width(values: int) -> str:
    return "B" if values <= 1 << 8 else "H" if values <= 1 << 16 else "I"


def _little(codes: "array[int]") -> "array[int]":
    if sys.byteorder == "big":
        codes = codes[:]
        codes.byteswap()
    return codes


class _Codes(dict[Any, int]):
    """The code of each value, given when it is first asked for."""

    def __missing__(self, value: Any) -> int:
        code = self[value] = len(self)
        return code


@dataclass(slots=True)
class _Column:
    """A column that grows; its codes stay wide until it is whole."""

    codes: _Codes = field(default_factory=_Codes)
    of_rows: "array[int]" = field(default_factory=lambda: array("I"))

    def extend(self, cells: Sequence[Any]) -> None:
        if 0.0 in cells and any(isinstance(cell, float) and repr(cell) == "-0.0" for cell in cells):
            cells = [_MINUS_NOUGHT if repr(cell) == "-0.0" else cell for cell in cells]
        self.of_rows.extend(map(self.codes.__getitem__, cells))

    def whole(self) -> Coded:
        values = tuple(-0.0 if value is _MINUS_NOUGHT else value for value in self.codes)
        rows = len(self.of_rows)
        if len(values) in {1, rows}:
            return Coded(rows, values)
        return Coded(rows, values, array(_width(len(values)), self.of_rows))


# equal to 0.0 as a key, and yet another value
_MINUS_NOUGHT = object()
# numbers of which each row has its own; so many keys would take more room than they save
_COUNTED = ("event", "entry")
_PLACED = ("source", "start", "end", "line", "column")
_AT_ONCE = 4096


class Gathering(Generic[Row]):
    """Takes rows one by one and keeps their columns only; each row's source is one of `sources`."""

    def __init__(self, kind: type[Row], sources: Sequence[Source]):
        """Begins without rows."""
        self._kind = kind
        self._sources = sources
        self._at = {id(source): place for place, source in enumerate(sources)}
        self._names = [name for name in _names(kind) if name not in _COUNTED]
        self._columns = {name: _Column() for name in self._names}
        counted = [name for name in _names(kind) if name in _COUNTED]
        self._numbers = {name: array("I") for name in (*counted, *_PLACED)}
        self._waiting: list[Row] = []

    def __len__(self) -> int:
        """How many rows came."""
        return len(self._numbers["start"]) + len(self._waiting)

    def append(self, row: Row) -> None:
        """Takes a row."""
        self._waiting.append(row)
        if len(self._waiting) == _AT_ONCE:
            self._flush()

    def extend(self, rows: Iterable[Row]) -> None:
        """Takes rows."""
        for row in rows:
            self.append(row)

    def rows(self) -> "Rows[Row]":
        """All the rows."""
        self._flush()
        numbers = {name: Coded(len(self), own) for name, own in self._numbers.items()}
        columns = {name: column.whole() for name, column in self._columns.items()}
        return Rows(self._kind, self._sources, columns=columns | numbers)

    def _flush(self) -> None:
        rows: Sequence[Any] = self._waiting
        for name, column in self._columns.items():
            column.extend(list(map(attrgetter(name), rows)))
        places = [row.source.line_column(row.span.start) for row in rows]
        cells: dict[str, list[int]] = {
            "source": [self._at[id(row.source)] for row in rows],
            "start": [row.span.start for row in rows],
            "end": [row.span.end for row in rows],
            "line": [line for line, _ in places],
            "column": [column for _, column in places],
        }
        for name, numbers in self._numbers.items():
            own = cells[name] if name in cells else list(map(attrgetter(name), rows))
            numbers.extend(own)
        self._waiting = []


class Rows(Sequence[Row], Generic[Row]):
    """Dataclass rows with a source and a span, kept as columns.

    The columns are each field's, but for `source` its place in `sources`, and for `span` its
    `start` and `end`; besides them `line` and `column`. Equal to a tuple of the same rows.
    """

    def __init__(self, kind: type[Row], sources: Sequence[Source], *, columns: Mapping[str, Coded]):
        """Makes no row yet."""
        self.kind = kind
        self.sources = sources
        self.columns = columns

    @classmethod
    def of(cls, kind: type[Row], rows: Iterable[Row], sources: Sequence[Source]) -> "Rows[Row]":
        """Rows as columns; KeyError where the source of one is not among the sources."""
        gathering = Gathering(kind, sources)
        gathering.extend(rows)
        return gathering.rows()

    @cached_property
    def made(self) -> tuple[Row, ...]:
        """The rows, made once."""
        columns = self.columns
        spans = list(map(Span, columns["start"].cells(), columns["end"].cells()))
        cells = {name: columns[name].cells() for name in _names(self.kind)} | {"span": spans}
        cells["source"] = [self.sources[at] for at in columns["source"].cells()]
        names = [field.name for field in fields(self.kind)]  # type: ignore[arg-type]
        return tuple(map(self.kind, *(cells[name] for name in names)))

    def column(self, name: str) -> Coded:
        """A field's column, or `file`, `line` and `column` of where the rows stand."""
        if name != "file":
            return self.columns[name]
        source = self.columns["source"]
        names = _Column()
        names.extend([self.sources[at].path for at in source.cells()])
        return names.whole()

    def __len__(self) -> int:
        """How many rows there are."""
        return self.columns["start"].rows

    @overload
    def __getitem__(self, at: int) -> Row: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[Row, ...]: ...
    def __getitem__(self, at: int | slice) -> Row | tuple[Row, ...]:
        """One row, or some as a tuple."""
        return self.made[at]

    def __iter__(self) -> Iterator[Row]:
        """The rows in order."""
        return iter(self.made)

    def __eq__(self, other: object) -> bool:
        """Whether the other has the same rows."""
        return self.made == other.made if isinstance(other, Rows) else self.made == other

    def __hash__(self) -> int:
        """The hash of the rows as a tuple."""
        return hash(self.made)


def _names(kind: type[Any]) -> list[str]:
    return [field.name for field in fields(kind) if field.name not in {"source", "span"}]
