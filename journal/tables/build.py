"""What a reading holds as frames: events, weather, declarations, prose and problems.

Each row is one value of the reading, in the reading's order; nothing is summed, filled in or
repaired here.
"""

from collections.abc import Callable, Iterable, Sequence
from pathlib import PurePath
from typing import Any, Protocol

import pandas as pd

from journal.events.reading import Reading
from journal.events.rows import Coded, Rows
from journal.problems.render import problem_record
from journal.source import Source, Span
from journal.tables.schema import DIARY_TABLES, TABLES, make_frame

_POSITION = frozenset({"file", "line", "column"})


class _Located(Protocol):
    @property
    def source(self) -> Source: ...
    @property
    def span(self) -> Span: ...


def build_table(reading: Reading, name: str) -> pd.DataFrame:
    """The table `name` of a reading; KeyError where the diary itself has no such table."""
    return _BUILDERS[name](reading)


def build_tables(reading: Reading) -> dict[str, pd.DataFrame]:
    """All tables of a reading by their names, in the schema's order."""
    return {name: build_table(reading, name) for name in DIARY_TABLES}


def _frame(name: str, rows: Sequence[_Located], **computed: Any) -> pd.DataFrame:
    """Columns are `computed`, a place in a file, or the rows' attribute of the column's name."""
    names = [column for column in TABLES[name].column_names if column not in computed]
    if isinstance(rows, Rows):
        return make_frame(name, {**{column: rows.column(column) for column in names}, **computed})
    own = {column: _attribute(rows, column) for column in names if column not in _POSITION}
    places = [(row.source.path, *row.source.line_column(row.span.start)) for row in rows]
    positions = {
        column: [place[at] for place in places]
        for at, column in enumerate(("file", "line", "column"))
        if column in names
    }
    return make_frame(name, own | positions | computed)


def _attribute(rows: Iterable[_Located], name: str) -> list[Any]:
    return [_joined(getattr(row, name)) for row in rows]


def _joined(value: Any) -> Any:
    # a name on the sheet never holds a comma, so that the names can be told apart again
    return ", ".join(value) if isinstance(value, tuple) else value


def _events(reading: Reading) -> pd.DataFrame:
    return _frame("events", reading.events)


def _weather(reading: Reading) -> pd.DataFrame:
    met_files = frozenset(reading.sheet.met_files)
    rows = reading.weather
    if isinstance(rows, Rows):
        file = rows.column("file")
        origins = tuple(_origin(path, met_files) for path in file.values)
        return _frame("weather", rows, source=Coded(file.rows, origins, file.codes))
    return _frame("weather", rows, source=[_origin(row.source.path, met_files) for row in rows])


def _origin(path: str, met_files: frozenset[str]) -> str:
    """The met file that a path is, as the sheet names it, or `diary`."""
    names = (path, PurePath(path).name)
    return next((name for name in names if name in met_files), "diary")


def _places(reading: Reading) -> pd.DataFrame:
    return _frame("places", reading.sheet.places)


def _crops(reading: Reading) -> pd.DataFrame:
    return _frame("crops", reading.sheet.crops)


def _materials(reading: Reading) -> pd.DataFrame:
    return _frame("materials", reading.sheet.materials)


def _prices(reading: Reading) -> pd.DataFrame:
    return _frame("prices", reading.sheet.prices)


def _prose(reading: Reading) -> pd.DataFrame:
    return _frame("prose", reading.prose)


def _problems(reading: Reading) -> pd.DataFrame:
    records = [problem_record(problem) for problem in reading.problems]
    names = TABLES["problems"].column_names
    return make_frame("problems", {name: [row[name] for row in records] for name in names})


_BUILDERS: dict[str, Callable[[Reading], pd.DataFrame]] = {
    "events": _events,
    "weather": _weather,
    "places": _places,
    "crops": _crops,
    "materials": _materials,
    "prices": _prices,
    "prose": _prose,
    "problems": _problems,
}
