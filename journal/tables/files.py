"""Tables to CSV, JSON lines, Parquet and SQLite: each file written whole, or not at all.

Missing figures and days are empty in CSV and null elsewhere; a missing word is the empty text in
all of them. Days are ISO 8601. A file keeps the frame's own order.
"""

import json
import re
import sqlite3
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from datetime import date
from io import BytesIO
from pathlib import Path
from typing import Any, Literal

import pandas as pd
import pyarrow as pa
import pyarrow.parquet

from journal.tables.schema import Column, Dtype, Table, checked
from journal.tables.whole import place_of_file, write_whole, written_whole

Form = Literal["csv", "jsonl", "parquet"]

# what spreadsheets may run as a formula (OWASP, "CSV Injection"); apostrophes before it count, so
# that taking one apostrophe away again always gives the words of the diary
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_CSV_BLOCK = 16_384  # rows
_NEEDS_QUOTES = re.compile(r'[",\r\n]')
_SQL_TYPES: dict[Dtype, str] = {
    "string": "TEXT",
    "Float64": "REAL",
    "Int64": "INTEGER",
    "boolean": "INTEGER",
    "datetime64[s]": "TEXT",
}
_ARROW_TYPES: dict[Dtype, pa.DataType] = {
    "string": pa.string(),
    "Float64": pa.float64(),
    "Int64": pa.int64(),
    "boolean": pa.bool_(),
    "datetime64[s]": pa.date32(),
}
# "haul" in the header of a database tells that it is ours to replace
_APPLICATION_ID = int.from_bytes(b"haul", "big")
_APPLICATION_ID_AT = slice(68, 72)


def file_name(name: str) -> str:
    """A table's name as a file or an SQL table has it: `labour worth` is `labour_worth`."""
    return name.replace(" ", "_")


def to_csv(frame: pd.DataFrame, name: str) -> bytes:
    """UTF-8, LF, a header line; figures with 6 decimals at most.

    A word that a spreadsheet would run as a formula has an apostrophe put before it.
    """
    table = checked(frame, name)
    blocks = (frame.iloc[at : at + _CSV_BLOCK] for at in range(0, len(frame), _CSV_BLOCK))
    header = ",".join(map(_quoted, table.column_names)) + "\n"
    return b"".join([header.encode(), *(_csv_block(table, block) for block in blocks)])


def _csv_block(table: Table, frame: pd.DataFrame) -> bytes:
    """Some rows as lines; all of a long table at once would take ten times its room as text."""
    columns = [_csv_cells(_values(frame[column.name], column.dtype)) for column in table.columns]
    return "".join(",".join(row) + "\n" for row in zip(*columns, strict=True)).encode()


def _csv_cells(values: list[Any]) -> Iterator[str]:
    """The cells of a column; a value that stands in many rows is written out once."""
    text = {value: _quoted(_csv_text(value)) for value in set(values)}
    return map(text.__getitem__, values)


def to_json_lines(frame: pd.DataFrame, name: str) -> bytes:
    """One JSON object a row, in UTF-8; figures as exact as they were computed."""
    table = checked(frame, name)
    columns = [
        [_json_value(value) for value in _values(frame[column.name], column.dtype)]
        for column in table.columns
    ]
    objects = (
        dict(zip(table.column_names, row, strict=True)) for row in zip(*columns, strict=True)
    )
    lines = (json.dumps(row, ensure_ascii=False, allow_nan=False) + "\n" for row in objects)
    return "".join(lines).encode()


def to_parquet(frame: pd.DataFrame, name: str) -> bytes:
    """A Parquet file with days as dates; each column's meaning is its `description`."""
    table = checked(frame, name)
    fields = [
        pa.field(column.name, _ARROW_TYPES[column.dtype], metadata={"description": column.meaning})
        for column in table.columns
    ]
    arrays = [
        pa.array(_values(frame[column.name], column.dtype), type=_ARROW_TYPES[column.dtype])
        for column in table.columns
    ]
    out = BytesIO()
    pyarrow.parquet.write_table(pa.Table.from_arrays(arrays, schema=pa.schema(fields)), out)
    return out.getvalue()


FORMS: dict[Form, Callable[[pd.DataFrame, str], bytes]] = {
    "csv": to_csv,
    "jsonl": to_json_lines,
    "parquet": to_parquet,
}


def write_table(frame: pd.DataFrame, name: str, path: Path, form: Form) -> None:
    """Writes one table to a file, in place of an earlier one; OSError leaves that untouched."""
    write_whole(path, FORMS[form](frame, name))


def write_sqlite(frames: Mapping[str, pd.DataFrame], path: Path) -> None:
    """Writes tables to one SQLite database, in place of an earlier one that haulm wrote.

    Raises as `refuse_foreign_database` does: somebody's other tables may be in it.
    """
    refuse_foreign_database(path)
    with written_whole(path) as beside:
        try:
            _write_database(frames, beside)
        except sqlite3.OperationalError as failed:
            raise OSError(f"`{path}` cannot be written: {failed}") from failed


def refuse_foreign_database(path: Path) -> None:
    """FileExistsError where a file is that haulm did not write; OSError where none can be."""
    place = place_of_file(path)
    if place.is_file() and not _is_ours(place):
        raise FileExistsError(f"`{path}` is there already and haulm did not write it")


def _write_database(frames: Mapping[str, pd.DataFrame], path: Path) -> None:
    with closing(sqlite3.connect(path)) as database:
        # without a journal no second file stands beside the first one when this fails
        database.execute("PRAGMA journal_mode = OFF")
        database.execute(f"PRAGMA application_id = {_APPLICATION_ID}")
        for name, frame in frames.items():
            _fill(database, checked(frame, name), frame)
        database.commit()


def _rows(
    table: Table, frame: pd.DataFrame, render: Callable[[Any], Any]
) -> Iterator[tuple[Any, ...]]:
    columns = (map(render, _values(frame[column.name], column.dtype)) for column in table.columns)
    return zip(*columns, strict=True)


def _values(values: "pd.Series[Any]", dtype: Dtype) -> list[Any]:
    """Cells as plain values: str, float, int, bool or date, with None for a missing one."""
    if dtype == "datetime64[s]":
        return list(values.to_numpy("datetime64[D]").astype(object))
    cells: Any = values.array
    return list(cells.to_numpy(object, na_value=None))


def _csv_text(value: Any) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case float():
            text = f"{value:.6f}".rstrip("0").rstrip(".")
            return "0" if text == "-0" else text
        case str():
            return f"'{value}" if _FORMULA.match(value) else value
        case _:
            return str(value)


def _quoted(cell: str) -> str:
    # before Python 3.13 the csv module leaves a cell with a bare CR unquoted
    return '"' + cell.replace('"', '""') + '"' if _NEEDS_QUOTES.search(cell) else cell


def _json_value(value: Any) -> Any:
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value.isoformat() if isinstance(value, date) else value


def _fill(database: sqlite3.Connection, table: Table, frame: pd.DataFrame) -> None:
    database.execute(_create(table))
    marks = ", ".join("?" * len(table.columns))
    rows = _rows(table, frame, _sql_value)
    database.executemany(f"INSERT INTO {_sql_name(table.name)} VALUES ({marks})", rows)


def _create(table: Table) -> str:
    """The statement that creates a table; SQLite keeps the meanings in it as comments."""
    lines = [_sql_column(column) for column in table.columns]
    if table.key:
        lines.append(f"  PRIMARY KEY ({', '.join(map(_sql_name, table.key))})")
    body = ",\n".join(lines)
    return f"CREATE TABLE {_sql_name(table.name)} (\n{body}\n)"


def _sql_column(column: Column) -> str:
    filled = column.dtype == "string" or not column.may_be_empty
    meaning = f"  -- {column.meaning}\n" if column.meaning else ""
    kind = _SQL_TYPES[column.dtype] + (" NOT NULL" if filled else "")
    return f"{meaning}  {_sql_name(column.name)} {kind}"


def _sql_name(name: str) -> str:
    return '"' + file_name(name).replace('"', '""') + '"'


def _sql_value(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else value


def _is_ours(path: Path) -> bool:
    with path.open("rb") as file:
        header = file.read(_APPLICATION_ID_AT.stop)
    return not header or header[_APPLICATION_ID_AT] == _APPLICATION_ID.to_bytes(4, "big")
