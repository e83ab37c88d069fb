"""The rows behind an answer to a table that fits the terminal: words fold, and none is cut."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rich.table import Table

from journal.questions.model import plain

_GAP = 2
# a cell longer than this is a sentence, which stands in the JSON and not between figures
_LONG = 40


@dataclass(frozen=True, slots=True)
class Column:
    """A column as it is printed: its heading and its cells, figures to the right."""

    heading: str
    cells: tuple[str, ...]
    figures: bool

    @property
    def least(self) -> int:
        """The width below which a word would be cut: that of its longest word."""
        words = [word for text in (self.heading, *self.cells) for word in text.split()]
        return max((len(word) for word in words), default=0)


def table_of(rows: Sequence[dict[str, Any]], width: int) -> tuple[Table, int]:
    """The columns that fit side by side, in their order, and how many were left out.

    Columns that are empty throughout, or that repeat one before them, tell nothing and are not
    counted.
    """
    columns = _columns(rows)
    kept: list[Column] = []
    for column in columns:
        wanted = [*kept, column]
        short = max(map(len, column.cells)) <= _LONG
        if short and sum(each.least + _GAP for each in wanted) - _GAP <= width:
            kept.append(column)
    table = Table(box=None, pad_edge=False, padding=(0, _GAP, 0, 0), header_style="dim")
    for column in kept:
        side = "right" if column.figures else "left"
        table.add_column(
            column.heading, justify=side, overflow="fold", min_width=column.least  # type: ignore[arg-type]
        )  # fmt: skip
    for cells in zip(*(column.cells for column in kept), strict=True):
        table.add_row(*cells)
    return table, len(columns) - len(kept)


def _columns(rows: Sequence[dict[str, Any]]) -> list[Column]:
    found: list[Column] = []
    for name in rows[0]:
        values = [row.get(name) for row in rows]
        cells = tuple(map(_cell, values))
        if any(cells) and cells not in [column.cells for column in found]:
            figures = any(isinstance(value, (int, float)) for value in map(plain, values))
            found.append(Column(name.replace("_", " "), cells, figures))
    return found


def _cell(value: Any) -> str:
    told = plain(value)
    if told is None:
        return ""
    if isinstance(told, bool):
        return "yes" if told else "no"
    return f"{told:.4g}" if isinstance(told, float) and abs(told) < 10000 else str(told)
