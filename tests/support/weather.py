"""Diaries of a few lines of weather, with a met file beside them where a test needs one."""

from datetime import date
from pathlib import Path

from journal.diary import Diary, read
from journal.reading import read_sources
from journal.source import Source

TODAY = date(2026, 3, 1)


def weather_diary(page: str, sheet: str = "- plot Home", today: date = TODAY) -> Diary:
    """A diary of one page."""
    sources = [Source("plot.txt", sheet + "\n"), Source("page.txt", page)]
    return Diary(read_sources(sources, today), today)


def beside_met_file(
    folder: Path, page: str, met: str, sheet: str = "- plot Home", today: date = TODAY
) -> Diary:
    """A diary of one page in a folder with the met file `met.csv`."""
    (folder / "plot.txt").write_text(f"{sheet}\n- met file met.csv\n", encoding="utf-8")
    (folder / "page.txt").write_text(page, encoding="utf-8")
    (folder / "met.csv").write_text(met, encoding="utf-8")
    return read(folder, today)
