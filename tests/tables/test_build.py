"""Every value of a reading is one row, in the reading's order, under the column of its name."""

from datetime import date
from typing import Any

import pytest
from support.full_diary import MET, PAGE, full_reading, plain_rows

from journal.events.model import Sheet
from journal.problems.model import Problem
from journal.reading import Reading
from journal.source import Source, Span
from journal.tables.build import build_table, build_tables
from journal.tables.schema import DIARY_TABLES, check_frame

EMPTY = Reading((), Sheet(), (), (), (), ())


def fault(start: int, end: int, source: Source = PAGE, mend: str | None = None) -> Problem:
    return Problem("J301", source, Span(start, end), "`x` is a fault", mend)


@pytest.mark.parametrize("reading", [EMPTY, full_reading(fault(14, 20))], ids=["empty", "full"])
def test_every_table_keeps_to_the_schema(reading: Reading) -> None:
    tables = build_tables(reading)
    assert tuple(tables) == DIARY_TABLES
    for name, frame in tables.items():
        check_frame(frame, name)
        assert frame.empty == (reading is EMPTY), name


def test_an_event_has_its_own_values_under_the_columns_of_their_names() -> None:
    reading = full_reading()
    rows = plain_rows(build_table(reading, "events"))
    assert len(rows) == len(reading.events)
    for row, event in zip(rows, reading.events, strict=True):
        own = {name: value for name, value in row.items() if name not in {"file", "line", "column"}}
        assert own == {name: getattr(event, name) for name in own}


def test_an_event_stands_where_its_span_begins() -> None:
    rows = plain_rows(build_table(full_reading(), "events"))
    assert [rows[at][name] for at in (0, 1) for name in ("file", "line", "column")] == [
        "2026/march.txt",
        2,
        1,
        "2026/march.txt",
        3,
        3,
    ]


def test_a_figure_of_nought_is_not_a_missing_one() -> None:
    events = build_table(full_reading(), "events")
    assert plain_rows(events)[1]["cost"] == 0.0
    assert plain_rows(events)[0]["cost"] is None


def test_weather_names_the_diary_or_the_met_file_as_its_source() -> None:
    weather = build_table(full_reading(), "weather")
    assert weather[["variable", "source", "file", "line"]].to_numpy().tolist() == [
        ["rain", "met.csv", MET.path, 2],
        ["fog", "diary", PAGE.path, 4],
    ]


def test_other_names_stand_in_one_cell_with_commas_between() -> None:
    reading = full_reading()
    assert build_table(reading, "places").loc[0, "also"] == "L1, One"
    assert build_table(reading, "crops").loc[0, "group"] == "roots"


def test_ground_that_was_split_ends_and_names_what_it_became() -> None:
    row = plain_rows(build_table(full_reading(), "places"))[2]
    told = {name: row[name] for name in ("date", "kind", "name", "ended", "became", "width_m")}
    assert told == {
        "date": date(2026, 3, 1),
        "kind": "bed",
        "name": "Long 1",
        "ended": True,
        "became": "Long 1a, Long 1b",
        "width_m": None,
    }


@pytest.mark.parametrize(
    ("start", "end", "column", "column_end"),
    [(16, 20, 3, 7), (45, 45, 32, 32), (42, 60, 29, 32)],
    ids=["a word", "nothing at the end of a line", "over the end of a line"],
)
def test_a_problem_ends_on_the_line_it_begins_on(
    start: int, end: int, column: int, column_end: int
) -> None:
    row = plain_rows(build_table(full_reading(fault(start, end)), "problems"))[0]
    assert (row["line"], row["column"], row["column_end"]) == (2, column, column_end)


def test_a_problem_ends_before_a_windows_line_end() -> None:
    source = Source("a.txt", "- pick\r\n- sow\r\n")
    row = plain_rows(build_table(full_reading(fault(2, 8, source)), "problems"))[0]
    assert (row["column"], row["column_end"]) == (3, 7)


def test_a_problem_is_a_row_with_its_severity_in_lower_case() -> None:
    rows = plain_rows(build_table(full_reading(fault(16, 20, mend="write `pick`")), "problems"))
    expected: dict[str, Any] = {
        "code": "J301",
        "severity": "warning",
        "file": "2026/march.txt",
        "line": 2,
        "column": 3,
        "column_end": 7,
        "message": "`x` is a fault",
        "mend": "write `pick`",
    }
    assert rows == [expected]
    assert plain_rows(build_table(full_reading(fault(16, 20)), "problems"))[0]["mend"] == ""


def test_a_name_that_is_no_table_of_the_diary_is_refused() -> None:
    with pytest.raises(KeyError):
        build_table(EMPTY, "harvest")
