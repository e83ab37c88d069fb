"""A table of `shared/` as rows of checked cells; a bad one raises, naming file and row."""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import isfinite
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table, with the place to name when it is bad; rows count from 2."""

    path: Path
    number: int
    cells: Mapping[str, str]

    def bad(self, why: str) -> ValueError:
        """The error to raise for this row."""
        return ValueError(f"{self.path.name}, row {self.number}: {why}")

    def text(self, column: str) -> str:
        """A cell that must not be empty."""
        if not self.cells[column]:
            raise self.bad(f"{column} is empty")
        return self.cells[column]

    def one_of(self, column: str, allowed: tuple[str, ...]) -> str:
        """A cell that must be one of a few words."""
        if self.cells[column] not in allowed:
            raise self.bad(f"{column} is {self.cells[column]!r}, not one of {allowed}")
        return self.cells[column]

    def words(self, column: str) -> tuple[str, ...]:
        """The parts of a cell between semicolons; none of an empty cell."""
        return tuple(self.cells[column].split(";")) if self.cells[column] else ()

    def truth(self, column: str) -> bool:
        """A cell that says yes or no."""
        return self.one_of(column, ("yes", "no")) == "yes"

    def number_or_none(self, column: str) -> float | None:
        """A cell that holds a number, or nothing."""
        written = self.cells[column]
        if not written:
            return None
        try:
            value = float(written)
        except ValueError:
            raise self.bad(f"{column} is {written!r}, not a number") from None
        if not isfinite(value):
            raise self.bad(f"{column} is {written!r}, not a number")
        return value


def read_rows(path: Path, columns: tuple[str, ...]) -> Iterator[Row]:
    """The rows of one table; raises when the heading or a row has other columns."""
    with path.open(encoding="utf-8", newline="") as file:
        reader = csv.reader(file)
        heading = tuple(next(reader, ()))
        if heading != columns:
            raise ValueError(f"{path.name}, row 1: columns are {heading}, not {columns}")
        for number, cells in enumerate(reader, start=2):
            if len(cells) != len(columns):
                raise ValueError(
                    f"{path.name}, row {number}: {len(cells)} cells, not {len(columns)}"
                )
            yield Row(path, number, dict(zip(columns, cells, strict=True)))
