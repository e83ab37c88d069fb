"""`haulm new`: a starter diary that reads without a problem and never writes over anything."""

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.cli.main import cli
from journal.cli.new import starter_pages, write_pages
from journal.reading import read_folder, read_sources
from journal.source import Source


def new(folder: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, ["new", str(folder), "--today", "2026-11-25", *words])


def test_a_new_diary_has_a_sheet_and_a_page_and_no_problem_at_all(tmp_path: Path):
    made = new(tmp_path / "my garden")
    assert made.exit_code == 0
    assert sorted(file.name for file in (tmp_path / "my garden").iterdir()) == [
        "2026-11.txt",
        "plot.txt",
    ]
    reading = read_folder(tmp_path / "my garden", date(2026, 11, 25))
    assert [problem.message for problem in reading.problems] == []
    assert {event.verb for event in reading.events} >= {"weed", "pick", "sow"}
    assert {str(event.date) for event in reading.events if event.date} == {"2026-11-25"}
    assert reading.weather and reading.prose


@settings(max_examples=30, deadline=None)
@given(st.dates(date(2020, 1, 1), date(2040, 12, 31)))
def test_a_new_diary_reads_well_on_any_day(today: date):
    sources = [Source(name, text) for name, text in starter_pages(today).items()]
    assert [problem.message for problem in read_sources(sources, today).problems] == []


def test_the_starter_explains_itself_in_prose():
    for text in starter_pages(date(2026, 11, 25)).values():
        lines = [line for line in text.splitlines() if line]
        prose = [line for line in lines if not line.startswith(("-", "#"))]
        assert len(prose) >= 5 and max(map(len, lines)) <= 100


def test_an_empty_folder_is_filled(tmp_path: Path):
    assert new(tmp_path).exit_code == 0
    assert (tmp_path / "plot.txt").is_file()


def test_a_folder_that_holds_anything_is_left_as_it_is(tmp_path: Path):
    (tmp_path / "old.txt").write_text("mine", encoding="utf-8")
    refused = new(tmp_path)
    assert refused.exit_code == 1 and "is not empty" in refused.stderr
    assert [file.name for file in tmp_path.iterdir()] == ["old.txt"]


def test_a_file_in_place_of_the_folder_is_a_usage_error(tmp_path: Path):
    file = tmp_path / "garden"
    file.write_text("mine", encoding="utf-8")
    refused = new(file)
    assert refused.exit_code == 2 and "is a file" in refused.stderr
    assert file.read_text(encoding="utf-8") == "mine"


def test_a_page_that_appears_meanwhile_is_not_written_over(tmp_path: Path):
    (tmp_path / "plot.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FileExistsError):
        write_pages(tmp_path, {"plot.txt": "ours"})
    assert (tmp_path / "plot.txt").read_text(encoding="utf-8") == "mine"
    assert [file.name for file in tmp_path.iterdir()] == ["plot.txt"]


def test_lines_end_alike_on_every_system(tmp_path: Path):
    new(tmp_path / "garden")
    for file in (tmp_path / "garden").iterdir():
        assert b"\r" not in file.read_bytes()
