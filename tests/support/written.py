"""Diaries made from text in memory."""

from datetime import date

from journal.diary import Diary
from journal.reading import read_sources
from journal.source import Source

SHEET = """\
- plot Home, latitude 54
- bed Long 1, 1.2 x 4.8 m
- bed Long 2, 1.2 x 4.8 m
- bed Long 3, 1.2 x 4.8 m
- house Tunnel, 3 x 6 m
- frame Frame, 0.9 x 1.8 m
"""


def written(page: str, today: date, sheet: str = SHEET) -> Diary:
    """The diary of one page and a plot sheet, read as of a day."""
    sources = [Source("plot.txt", sheet), Source("page.txt", page)]
    return Diary(read_sources(sources, today), today)
