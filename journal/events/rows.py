"""Rows as columns of few different values: what is kept on disk, and what frames are made of.

A row is made into its dataclass when it is asked for; a column never needs its rows.
"""

import sys
from array import array
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
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
    values: tuple[Any, ...]
    codes: "array[int] | None" = None

    @classmethod
    def of(cls, cells: Sequence[Any]) -> "Coded":
        """A column of cells of one type or None; 0.0 and -0.0 are kept apart."""
        at = dict.fromkeys(cells)
        keys: Sequence[Any] = cells
        if 0.0 in at and any(isinstance(value, float) for value in at):
            keys = list(map(repr, cells))
            at = dict.fromkeys(keys)
        if len(at) == len(cells) or len(at) == 1:
            return cls(len(cells), tuple(cells[: len(at)]))
        values = tuple(at if keys is cells else dict(zip(keys, cells, strict=True)).values())
        codes = {key: code for code, key in enumerate(at)}
        return cls(len(cells), values, array(_width(len(at)), map(codes.__getitem__, keys)))

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


class Rows(Sequence[Row], Generic[Row]):
    """Dataclass rows with a source and a span, or their columns: either is made from the other.

    The columns are each field's, but for `source` its place in `sources`, and for `span` its
    `start` and `end`; besides them `line` and `column`. Equal to a tuple of the same rows.
    """

    def __init__(
        self,
        kind: type[Row],
        sources: Sequence[Source],
        *,
        made: Sequence[Row] | None = None,
        columns: Mapping[str, Coded] | None = None,
    ):
        """Takes rows, whose sources are among `sources`, or columns."""
        self.kind = kind
        self.sources = sources
        if made is not None:
            self.made = tuple(made)
        if columns is not None:
            self.columns = columns

    @cached_property
    def columns(self) -> Mapping[str, Coded]:
        """The columns, made once; KeyError where a row's source is not among the sources."""
        rows: Sequence[Any] = self.made
        at = {id(source): place for place, source in enumerate(self.sources)}
        made = {name: Coded.of(list(map(attrgetter(name), rows))) for name in self._names}
        places = [row.source.line_column(row.span.start) for row in rows]
        return made | {
            "source": Coded.of([at[id(row.source)] for row in rows]),
            "start": Coded.of([row.span.start for row in rows]),
            "end": Coded.of([row.span.end for row in rows]),
            "line": Coded.of([line for line, _ in places]),
            "column": Coded.of([column for _, column in places]),
        }

    @cached_property
    def made(self) -> tuple[Row, ...]:
        """The rows, made once."""
        columns = self.columns
        spans = list(map(Span, columns["start"].cells(), columns["end"].cells()))
        cells = {name: columns[name].cells() for name in self._names} | {"span": spans}
        cells["source"] = [self.sources[at] for at in columns["source"].cells()]
        names = [field.name for field in fields(self.kind)]  # type: ignore[arg-type]
        return tuple(map(self.kind, *(cells[name] for name in names)))

    @property
    def _names(self) -> list[str]:
        names = [field.name for field in fields(self.kind)]  # type: ignore[arg-type]
        return [name for name in names if name not in {"source", "span"}]

    def column(self, name: str) -> Coded:
        """A field's column, or `file`, `line` and `column` of where the rows stand."""
        if name != "file":
            return self.columns[name]
        source = self.columns["source"]
        paths = tuple(self.sources[at].path for at in source.values)
        return Coded(source.rows, paths, source.codes)

    def __len__(self) -> int:
        """How many rows there are."""
        return len(self.made) if "made" in self.__dict__ else self.columns["start"].rows

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
