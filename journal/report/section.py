"""What a section of the season page is: words, pictures and tables, or nothing at all."""

from collections.abc import Callable
from dataclasses import dataclass

import pandas as pd

from journal.charts.theme import AnyChart
from journal.diary import Diary
from journal.report.page_tables import PageTable
from journal.studies.cautions import cautions_for
from journal.studies.seasons import certain_year


@dataclass(frozen=True, slots=True)
class Plot:
    """The plan of the plot, lengths in m: its size, and the shapes in it with what stood in them.

    `day` is the day of the year that is shown first, `last` the last that can be chosen.
    """

    across: float
    down: float
    shapes: tuple["Shape", ...]
    day: int
    last: int

    @property
    def rule(self) -> int:
        """The length of the scale drawn below it, in whole m: about a quarter of the plan."""
        return next((step for step in (20, 10, 5, 2) if step <= self.across / 3), 1)

    @property
    def letter(self) -> int:
        """The height of its letters in cm of the plot, so that they are of one size on any page."""
        return round(100 * max(self.across, self.down) / 26)

    @property
    def stays(self) -> dict[int, tuple[tuple[str, int, int], ...]]:
        """What stood in each shape, by its number."""
        return {shape.number: shape.stays for shape in self.shapes}


@dataclass(frozen=True, slots=True)
class Shape:
    """One place of the plan; `stays` are names with their first and last day of the year."""

    number: int
    place: str
    x: float
    y: float
    across: float
    down: float
    stays: tuple[tuple[str, int, int], ...]

    def standing(self, day: int) -> tuple[str, ...]:
        """What stood there on a day of the year, each name once."""
        return tuple(
            dict.fromkeys(name for name, first, last in self.stays if first <= day <= last)
        )


@dataclass(frozen=True, slots=True)
class Section:
    """One part of the page; `caution` is the one line that stands where work can hurt.

    `items` are sentences that stand as a list below the words, `plot` the plan of the plot;
    `pinned` says that the chart is printed on the sheets for the wall. `chapter` is the part of
    the page that it stands in.
    """

    name: str
    title: str
    words: str
    chart: AnyChart | None = None
    tables: tuple[PageTable, ...] = ()
    caution: str = ""
    items: tuple[str, ...] = ()
    plot: Plot | None = None
    pinned: bool = False
    chapter: str = ""

    @property
    def on_the_wall(self) -> bool:
        """Whether any of it is printed on the sheets for the wall."""
        return self.pinned or any(table.pinned for table in self.tables)


Make = Callable[[Diary, int], Section | None]


def cautions_of_year(diary: Diary, year: int, *kinds: str) -> str:
    """The cautions that belong beside the year's events of these kinds, in one paragraph."""
    events = diary.events
    mine = events["kind"].isin(kinds) & (certain_year(events) == year).fillna(False)
    return " ".join(caution.text for caution in cautions_for(events[mine]))


def of_year(frame: pd.DataFrame, year: int) -> pd.DataFrame:
    """The rows of a study that belong to one year."""
    return frame[frame["year"] == year]
