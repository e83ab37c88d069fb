"""What a table's column is, and the one-line ways to declare one of each kind."""

from dataclasses import dataclass
from typing import Literal

Dtype = Literal["string", "Float64", "Int64", "boolean", "datetime64[s]"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column; an empty cell is "" for words, NaT for days and NA for the rest."""

    name: str
    dtype: Dtype
    meaning: str
    may_be_empty: bool = True


@dataclass(frozen=True, slots=True)
class Table:
    """One table: what a row is, its columns in order, and the columns that tell rows apart."""

    name: str
    meaning: str
    columns: tuple[Column, ...]
    key: tuple[str, ...] = ()

    @property
    def column_names(self) -> tuple[str, ...]:
        """The names of the columns, in order."""
        return tuple(column.name for column in self.columns)


def word(name: str, meaning: str, *, always: bool = False) -> Column:
    """A column of words; an empty one is ""."""
    return Column(name, "string", meaning, not always)


def figure(name: str, meaning: str, *, always: bool = False) -> Column:
    """A column of figures."""
    return Column(name, "Float64", meaning, not always)


def whole(name: str, meaning: str, *, always: bool = False) -> Column:
    """A column of whole numbers."""
    return Column(name, "Int64", meaning, not always)


def day(name: str, meaning: str) -> Column:
    """A column of days."""
    return Column(name, "datetime64[s]", meaning)


def flag(name: str, meaning: str, *, always: bool = True) -> Column:
    """A column of true and false; empty, where it may be, means not known."""
    return Column(name, "boolean", meaning, not always)
