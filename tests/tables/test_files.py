"""Files of tables: what is read back is what went in, and a failure leaves nothing half-written.

Each form is read by a reader that is not ours: the standard library's csv, json and sqlite3, and
pyarrow's Parquet.
"""

import csv
import json
import os
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pandas as pd
import pyarrow.parquet
import pytest
from support.full_diary import HARD_WORDS, SUM_OF_TENTHS, full_diary, full_reading, plain_rows

from journal.tables.build import build_tables
from journal.tables.files import (
    FORMS,
    Form,
    to_csv,
    to_json_lines,
    to_parquet,
    write_sqlite,
    write_table,
)
from journal.tables.schema import DIARY_TABLES, TABLES, make_frame

TABLES_OF_DIARY = build_tables(full_reading())
APOSTROPHE = re.compile(r"'(?='*[=+\-@\t\r])")


def read_csv(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(content.decode("utf-8"), newline=""), strict=True))


def as_written_in_json(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else value


def cell_of(value: Any, dtype: str) -> Any:
    """A CSV cell's value by the rules of the guide, apart from any rounding."""
    if dtype == "string":
        return APOSTROPHE.sub("", value, count=1)
    if value == "":
        return None
    readers: dict[str, Callable[[str], Any]] = {
        "Float64": float,
        "Int64": int,
        "boolean": lambda cell: {"true": True, "false": False}[cell],
        "datetime64[s]": date.fromisoformat,
    }
    return readers[dtype](value)


@pytest.mark.parametrize("name", DIARY_TABLES)
def test_csv_keeps_every_value_to_six_decimals(name: str) -> None:
    frame = TABLES_OF_DIARY[name]
    dtypes = {column.name: column.dtype for column in TABLES[name].columns}
    back = [
        {column: cell_of(cell, dtypes[column]) for column, cell in row.items()}
        for row in read_csv(to_csv(frame, name))
    ]
    rounded = [
        {key: round(value, 6) if isinstance(value, float) else value for key, value in row.items()}
        for row in plain_rows(frame)
    ]
    assert back == rounded


@pytest.mark.parametrize("name", DIARY_TABLES)
def test_json_lines_keep_every_value_exactly(name: str) -> None:
    content = to_json_lines(TABLES_OF_DIARY[name], name).decode("utf-8")
    back = [json.loads(line) for line in content.split("\n")[:-1]]
    assert back == [
        {key: as_written_in_json(value) for key, value in row.items()}
        for row in plain_rows(TABLES_OF_DIARY[name])
    ]


@pytest.mark.parametrize("name", DIARY_TABLES)
def test_parquet_keeps_every_value_exactly_and_days_as_days(name: str) -> None:
    back = pyarrow.parquet.read_table(BytesIO(to_parquet(TABLES_OF_DIARY[name], name)))
    assert back.to_pylist() == plain_rows(TABLES_OF_DIARY[name])
    for column in TABLES[name].columns:
        described = back.schema.field(column.name).metadata[b"description"]
        assert described.decode() == column.meaning


def test_sqlite_keeps_every_value_of_every_table_exactly(tmp_path: Path) -> None:
    path = tmp_path / "garden.db"
    write_sqlite(TABLES_OF_DIARY, path)
    with closing(sqlite3.connect(path)) as database:
        database.row_factory = sqlite3.Row
        for name, frame in TABLES_OF_DIARY.items():
            back = [dict(row) for row in database.execute(f"SELECT * FROM {name}")]
            assert back == [
                {key: as_written_in_json(value) for key, value in row.items()}
                for row in plain_rows(frame)
            ]
        assert database.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


def test_sqlite_knows_types_meanings_and_the_key(tmp_path: Path) -> None:
    path = tmp_path / "garden.db"
    frames = {"events": TABLES_OF_DIARY["events"], "labour worth": make_frame("labour worth", {})}
    write_sqlite(frames, path)
    with closing(sqlite3.connect(path)) as database:
        columns = database.execute("PRAGMA table_info(events)").fetchall()
        told = {name: (kind, key) for _, name, kind, _, _, key in columns}
        assert told["event"] == ("INTEGER", 1)
        assert told["mass_kg"] == ("REAL", 0)
        assert told["due"] == ("TEXT", 0)
        statement = database.execute("SELECT sql FROM sqlite_schema WHERE name = 'events'")
        assert "-- mass in kg" in statement.fetchone()[0]
        assert database.execute("SELECT count(*) FROM labour_worth").fetchone() == (0,)


@pytest.mark.parametrize("form", FORMS)
def test_the_same_table_gives_the_same_bytes(form: Form) -> None:
    again = build_tables(full_reading())["events"]
    assert FORMS[form](again, "events") == FORMS[form](TABLES_OF_DIARY["events"], "events")


def one_price(price: float) -> str:
    values = {column.name: ["x"] for column in TABLES["prices"].columns}
    figures: dict[str, Any] = {"date": [None], "price": [price], "per_kg": [None], "line": [1]}
    return read_csv(to_csv(make_frame("prices", values | figures), "prices"))[0]["price"]


@pytest.mark.parametrize(
    ("figure", "cell"),
    [
        (SUM_OF_TENTHS, "0.3"),
        (24.0, "24"),
        (0.0, "0"),
        (-0.0, "0"),
        (-0.5, "-0.5"),
        (1 / 3, "0.333333"),
        (2 / 3, "0.666667"),
        (100.0, "100"),
        (1e6, "1000000"),
        (1.5e-5, "0.000015"),
        (123456789.125, "123456789.125"),
    ],
)
def test_a_figure_is_written_without_noise(figure: float, cell: str) -> None:
    assert one_price(figure) == cell


def test_csv_is_utf8_with_line_feeds_and_empty_cells_for_what_is_missing() -> None:
    content = to_csv(TABLES_OF_DIARY["prices"], "prices").decode("utf-8")
    assert content == (
        "date,crop,cultivar,price,currency,per,per_kg,file,line\n,kale,,1.1,GBP,kg,1.1,plot.txt,2\n"
    )


def test_csv_words_that_begin_a_formula_are_made_safe_and_no_others() -> None:
    remarks = [row["remark"] for row in read_csv(to_csv(TABLES_OF_DIARY["events"], "events"))][2:]
    assert not [cell for cell in remarks if cell[:1] in set("=+-@\t\r") and cell]
    changed = [words for words, cell in zip(HARD_WORDS, remarks, strict=True) if words != cell]
    assert changed == list(HARD_WORDS[:8])


def test_csv_leaves_a_figure_below_nought_a_figure() -> None:
    row = read_csv(to_csv(TABLES_OF_DIARY["events"], "events"))[1]
    assert row["temperature_c"] == "-2.5"


def test_only_csv_puts_an_apostrophe_before_a_formula() -> None:
    first = json.loads(to_json_lines(TABLES_OF_DIARY["events"], "events").split(b"\n")[2])
    assert first["remark"] == "=1+1"


@pytest.mark.parametrize("form", FORMS)
def test_a_frame_that_drifted_is_not_written(form: Form, tmp_path: Path) -> None:
    drifted = TABLES_OF_DIARY["prices"].drop(columns="per")
    with pytest.raises(ValueError, match="has the columns"):
        write_table(drifted, "prices", tmp_path / "prices", form)
    assert list(tmp_path.iterdir()) == []


def write_events(path: Path) -> None:
    write_table(TABLES_OF_DIARY["events"], "events", path, "csv")


def write_database(path: Path) -> None:
    write_sqlite(TABLES_OF_DIARY, path)


WRITERS = pytest.mark.parametrize("write", [write_events, write_database])


@WRITERS
def test_an_earlier_file_is_replaced_and_keeps_its_permissions(
    write: Callable[[Path], None], tmp_path: Path
) -> None:
    path = tmp_path / "out"
    path.touch(mode=0o640)
    path.chmod(0o640)
    write(path)
    assert path.stat().st_size > 0
    assert path.stat().st_mode & 0o777 == 0o640
    write(path)
    assert list(tmp_path.iterdir()) == [path]


def test_a_link_stays_a_link_to_the_file_that_is_written(tmp_path: Path) -> None:
    target, link = tmp_path / "events.csv", tmp_path / "latest.csv"
    link.symlink_to(target)
    write_events(link)
    assert link.is_symlink()
    assert target.read_bytes() == to_csv(TABLES_OF_DIARY["events"], "events")


@WRITERS
def test_a_link_to_itself_is_told_and_stays(write: Callable[[Path], None], tmp_path: Path) -> None:
    (tmp_path / "out").symlink_to("out")
    with pytest.raises(OSError, match="link to itself"):
        write(tmp_path / "out")
    assert [path.is_symlink() for path in tmp_path.iterdir()] == [True]


@WRITERS
def test_when_the_last_step_fails_the_earlier_file_is_untouched(
    write: Callable[[Path], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "out"
    write(path)
    earlier = path.read_bytes()

    def refuse(self: Path, target: Path) -> None:
        raise PermissionError(13, "Permission denied", str(target))

    monkeypatch.setattr(Path, "replace", refuse)
    with pytest.raises(PermissionError):
        write(path)
    assert path.read_bytes() == earlier
    assert list(tmp_path.iterdir()) == [path]


def test_when_the_disk_is_full_half_way_nothing_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fill_up(self: Path, content: bytes) -> int:
        with self.open("wb") as file:
            file.write(content[: len(content) // 2])
        raise OSError(28, "No space left on device", str(self))

    monkeypatch.setattr(Path, "write_bytes", fill_up)
    with pytest.raises(OSError, match="No space left"):
        write_events(tmp_path / "events.csv")
    assert list(tmp_path.iterdir()) == []


def test_when_the_disk_is_full_half_way_there_is_no_database(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    connect = sqlite3.connect

    def three_pages(path: Path) -> sqlite3.Connection:
        database = connect(path)
        database.execute("PRAGMA max_page_count = 3")
        return database

    monkeypatch.setattr(sqlite3, "connect", three_pages)
    with pytest.raises(OSError, match="full"):
        write_database(tmp_path / "garden.db")
    assert list(tmp_path.iterdir()) == []


def test_when_one_table_of_a_database_fails_there_is_no_database(tmp_path: Path) -> None:
    drifted = TABLES_OF_DIARY["prices"].drop(columns="per")
    with pytest.raises(ValueError, match="has the columns"):
        write_sqlite({"events": TABLES_OF_DIARY["events"], "prices": drifted}, tmp_path / "g.db")
    assert list(tmp_path.iterdir()) == []


@WRITERS
def test_a_folder_that_is_not_there_is_told_and_not_made(
    write: Callable[[Path], None], tmp_path: Path
) -> None:
    with pytest.raises(FileNotFoundError):
        write(tmp_path / "missing" / "out")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write everywhere"
)
@WRITERS
def test_a_folder_that_may_only_be_read_is_left_as_it_was(
    write: Callable[[Path], None], tmp_path: Path
) -> None:
    shut = tmp_path / "shut"
    shut.mkdir()
    shut.chmod(0o555)
    with pytest.raises(PermissionError):
        write(shut / "out")
    shut.chmod(0o755)
    assert list(shut.iterdir()) == []


@WRITERS
def test_a_folder_or_a_device_is_not_written_over(
    write: Callable[[Path], None], tmp_path: Path
) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    for place in (folder, Path(os.devnull)):
        with pytest.raises(OSError, match="not a file"):
            write(place)
    assert folder.is_dir() and not Path(os.devnull).is_file()


def test_somebody_elses_database_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "household.db"
    with closing(sqlite3.connect(path)) as database:
        database.execute("CREATE TABLE bills (amount REAL)")
    before = path.read_bytes()
    with pytest.raises(FileExistsError, match="haulm did not write it"):
        write_database(path)
    assert path.read_bytes() == before


def test_a_frame_is_not_changed_by_writing_it(tmp_path: Path) -> None:
    diary = full_diary()
    before = diary.events.copy()
    for form in FORMS:
        write_table(diary.events, "events", tmp_path / form, form)
    pd.testing.assert_frame_equal(diary.events, before)
