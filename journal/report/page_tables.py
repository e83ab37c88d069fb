"""Frames of the studies to tables that people read: words in cells, figures to the right.

Choosing and wording only: every figure is the study's.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import pandas as pd

from journal.charts.words import day_of_year, duration, kilograms, number

LONG = 28  # letters of a cell that wants room
MANY = 6  # columns, as many as a phone is wide


@dataclass(frozen=True, slots=True)
class PageTable:
    """A table as printed: its caption, the heads, which columns are figures, and the cells.

    `against` is the earlier year that it sets the year beside, if it does; `pinned` says that it
    is printed on the sheets for the wall.
    """

    caption: str
    heads: tuple[str, ...]
    figures: tuple[bool, ...]
    rows: tuple[tuple[str, ...], ...]
    against: int | None = None
    pinned: bool = False

    @property
    def long(self) -> tuple[bool, ...]:
        """Which columns hold words that want room."""
        return tuple(
            not figure and any(len(row[at]) > LONG for row in self.rows)
            for at, figure in enumerate(self.figures)
        )

    @property
    def wordy(self) -> bool:
        """Whether it says too much for a phone's width, where each row then stands as a list."""
        return len(self.heads) > MANY or (len(self.heads) > 3 and any(self.long))


@dataclass(frozen=True, slots=True)
class Shown:
    """One column to show: the frame's column, its head, and how a figure is said."""

    column: str
    head: str
    say: Callable[[Any], str] = str
    figure: bool = True


def word(column: str, head: str = "") -> Shown:
    """A column of words, shown as they are."""
    return Shown(column, head or column, str, figure=False)


def amount(column: str, head: str) -> Shown:
    """A column of figures that are said already, such as ranges and prices."""
    return Shown(column, head)


def page_table(
    frame: pd.DataFrame, caption: str, shown: Sequence[Shown], *, pinned: bool = False
) -> PageTable:
    """A frame as a table; a missing figure is an empty cell, a column without words left out."""
    said = [
        (column, cells)
        for column in shown
        if any(cells := [_cell(value, column) for value in frame[column.column]])
    ]
    return PageTable(
        caption,
        tuple(column.head for column, _ in said),
        tuple(column.figure for column, _ in said),
        tuple(zip(*(cells for _, cells in said), strict=True)),
        pinned=pinned,
    )


def _cell(value: Any, column: Shown) -> str:
    return "" if pd.isna(value) else column.say(value)


def two_places(value: float) -> str:
    """A rate: `1.25`."""
    return f"{value:,.2f}"


def whole(value: float) -> str:
    """A count: `1,204`."""
    return number(value, 0)


def short_day(day: pd.Timestamp) -> str:
    """A day of the year in hand: `3 Jul`."""
    return f"{day.day} {day:%b}"


def shift(days: float) -> str:
    """A shift in days: `4 later`."""
    if days == 0:
        return "the same"
    return f"{abs(round(days))} {'later' if days > 0 else 'earlier'}"


def signed(value: float) -> str:
    """A change with its sign: `+12 %`."""
    whole_number = round(value)
    sign = "+" if whole_number > 0 else "−" if whole_number < 0 else "±"
    return f"{sign}{abs(whole_number):,} %"


HARVEST = (
    word("crop"),
    word("cultivar"),
    word("place"),
    Shown("kg", "weight", kilograms),
    Shown("count", "counted", whole),
    Shown("pickings", "pickings", whole),
    Shown("unweighed", "not weighed", lambda count: whole(count) if count else ""),
    Shown("first", "first", short_day),
    Shown("last", "last", short_day),
    Shown("area_m2", "m²", two_places),
    Shown("kg_per_m2", "kg/m²", two_places),
    Shown("kg_per_plant", "kg/plant", two_places),
    Shown("kg_per_m", "kg/m row", two_places),
)
WORTH = (
    word("place"),
    word("crop"),
    Shown("hours", "time", lambda hours: duration(60 * hours)),
    Shown("kg", "weight", kilograms),
    Shown("hours_per_kg", "h/kg", two_places),
    Shown("hours_per_m2", "h/m²", two_places),
)
VERDICTS = (
    word("crop"),
    word("cultivar"),
    Shown("kg", "weight", kilograms),
    Shown("kg_per_m2", "kg/m²", two_places),
    word("keep", "for keeping"),
    word("drop", "for dropping"),
)
BEDS = (
    word("place"),
    Shown("kg", "weight", kilograms),
    Shown("unweighed", "not weighed", lambda count: whole(count) if count else ""),
    Shown("hours", "time", lambda hours: duration(60 * hours)),
    Shown("area_m2", "m²", two_places),
    Shown("kg_per_m2", "kg/m²", two_places),
    Shown("hours_per_kg", "h/kg", two_places),
    Shown("hours_per_m2", "h/m²", two_places),
)
CALENDAR = (
    word("place"),
    word("crop"),
    word("cultivar"),
    Shown("begins", "from", short_day),
    Shown("ends", "to", short_day),
)
WEIGHTS = (
    word("crop"),
    Shown("value", "this year", kilograms),
    Shown("before", "the other", kilograms),
    Shown("change_pct", "change", signed),
    Shown("mean_before", "mean before", kilograms),
    Shown("low_before", "lowest", kilograms),
    Shown("high_before", "highest", kilograms),
    Shown("years_before", "years", whole),
)
FIRSTS = (
    word("crop"),
    Shown("value", "this year", day_of_year),
    Shown("before", "the other", day_of_year),
    Shown("change", "days", shift),
    Shown("low_before", "earliest", day_of_year),
    Shown("high_before", "latest", day_of_year),
    Shown("years_before", "years", whole),
)
