"""A diary as pandas frames: what `journal.read` returns and every study takes.

The frames are built when first asked for and kept; take a copy before changing one.
"""

from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path

import pandas as pd

from journal.cache.kept import read_kept
from journal.events.model import Plot, Sheet
from journal.events.reading import Reading
from journal.source import Source
from journal.tables.build import build_table


@dataclass(frozen=True, eq=False)
class Diary:
    """One reading of a diary on one day; two diaries are the same only if they are one object."""

    reading: Reading
    today: date

    @property
    def sheet(self) -> Sheet:
        """What the diary declares."""
        return self.reading.sheet

    @property
    def plot(self) -> Plot:
        """What the sheet says of the whole plot."""
        return self.reading.sheet.plot

    @cached_property
    def events(self) -> pd.DataFrame:
        """One row an event."""
        return build_table(self.reading, "events")

    @cached_property
    def weather(self) -> pd.DataFrame:
        """One row a reading of the weather."""
        return build_table(self.reading, "weather")

    @cached_property
    def places(self) -> pd.DataFrame:
        """One row a declaration of a place."""
        return build_table(self.reading, "places")

    @cached_property
    def crops(self) -> pd.DataFrame:
        """One row a declaration of a crop."""
        return build_table(self.reading, "crops")

    @cached_property
    def materials(self) -> pd.DataFrame:
        """One row a declaration of a feed or material."""
        return build_table(self.reading, "materials")

    @cached_property
    def prices(self) -> pd.DataFrame:
        """One row a declaration of what a crop is worth."""
        return build_table(self.reading, "prices")

    @cached_property
    def prose(self) -> pd.DataFrame:
        """One row a paragraph."""
        return build_table(self.reading, "prose")

    @cached_property
    def problems(self) -> pd.DataFrame:
        """One row a problem."""
        return build_table(self.reading, "problems")

    @cached_property
    def _sources(self) -> dict[str, Source]:
        both = (*self.reading.met_sources, *self.reading.sources)
        return {source.path: source for source in both}

    def line(self, file: str, line: int) -> str:
        """A line as it is written, without its line end; `line` counts from 1.

        KeyError where the diary has no such file, IndexError where the file has no such line.
        """
        source = self._sources[file]
        if not 1 <= line <= source.line_count:
            raise IndexError(f"{file} has the lines 1 to {source.line_count}, not {line}")
        return source.line_text(line)


def read(path: str | Path, today: date | None = None) -> Diary:
    """Reads a diary, a file or a folder; `today` is the computer's own day unless given.

    Raises FileNotFoundError when there is no such path. What is wrong with the text is never
    raised: it stands in `Diary.problems`.
    """
    day = date.today() if today is None else today
    return Diary(read_kept(Path(path), day, None), day)
