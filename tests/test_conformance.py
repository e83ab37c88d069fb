"""The agreed list of entries and day lines, each read alone: tests/external/conformance/.

An entry stands under 2026-06-15 with plot.txt as its sheet; the fields that a line names must
come out, "" for an empty one. A day line stands under its running year; `error` is one that cannot
be read, null is prose.
"""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from support.corpus import day_meant

from journal.events.model import Event
from journal.reading import read_sources
from journal.source import Source

FOLDER = Path(__file__).parent / "external" / "conformance"
SHEET = Source("plot.txt", (FOLDER / "plot.txt").read_text(encoding="utf-8"))
TODAY = date(2026, 11, 25)


def rows(name: str) -> list[dict[str, Any]]:
    text = (FOLDER / name).read_text(encoding="utf-8")
    return [json.loads(line) for line in text.splitlines() if line.strip()]


ENTRIES = rows("entries.jsonl")
DAYS = rows("days.jsonl")


def comparable(event: Event, name: str, expected: object) -> object:
    """A field as the list writes it: days as text, nothing as ""."""
    value = getattr(event, name)
    if value is None:
        return ""
    if isinstance(value, date):
        return value.isoformat()
    return pytest.approx(value, rel=1e-6) if isinstance(expected, int | float) else value


@pytest.mark.parametrize("row", ENTRIES, ids=lambda row: row["entry"])
def test_an_entry_gives_the_events_that_are_agreed(row: dict[str, Any]):
    page = Source("2026.txt", f"2026-06-15\n{row['entry']}\n")
    reading = read_sources([SHEET, page], TODAY)
    events = [event for event in reading.events if event.source.path == "2026.txt"]
    found = [
        {name: comparable(event, name, value) for name, value in expected.items()}
        for event, expected in zip(events, row["events"], strict=True)
    ]
    assert row["events"] == found


@pytest.mark.parametrize("row", ENTRIES, ids=lambda row: row["entry"])
def test_an_agreed_entry_is_read_without_an_error(row: dict[str, Any]):
    page = Source("2026.txt", f"2026-06-15\n{row['entry']}\n")
    problems = read_sources([SHEET, page], TODAY).problems
    assert [problem.message for problem in problems if problem.severity == "error"] == []


@pytest.mark.parametrize("row", DAYS, ids=lambda row: row["line"])
def test_a_day_line_means_the_days_that_are_agreed(row: dict[str, Any]):
    first, last = day_meant([SHEET], row["line"], row["year"], TODAY)
    expected = {None: ("prose", ""), "error": ("error", "")}.get(
        row["date"], (row["date"], row["date_end"])
    )
    assert (first, last) == expected


def test_both_lists_are_whole():
    assert (len(ENTRIES), len(DAYS)) == (41, 13)
