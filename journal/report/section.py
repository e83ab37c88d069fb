"""What a section of the season page is: words, pictures and tables, or nothing at all."""

from collections.abc import Callable
from dataclasses import dataclass

import pandas as pd

from journal.charts.theme import AnyChart
from journal.diary import Diary
from journal.report.page_tables import PageTable


@dataclass(frozen=True, slots=True)
class Section:
    """One part of the page; `caution` is the one line that stands where work can hurt.

    `items` are sentences that stand as a list below the words.
    """

    name: str
    title: str
    words: str
    chart: AnyChart | None = None
    tables: tuple[PageTable, ...] = ()
    caution: str = ""
    items: tuple[str, ...] = ()


Make = Callable[[Diary, int], Section | None]


def of_year(frame: pd.DataFrame, year: int) -> pd.DataFrame:
    """The rows of a study that belong to one year."""
    return frame[frame["year"] == year]
