"""A diary hands out its tables, its sheet, its day and its lines as written."""

from dataclasses import FrozenInstanceError
from datetime import date
from pathlib import Path

import pytest
from support.full_diary import TODAY, full_diary

import journal
from journal.diary import read
from journal.tables.build import build_table
from journal.tables.schema import DIARY_TABLES


@pytest.mark.parametrize("name", DIARY_TABLES)
def test_every_table_is_a_property_that_is_built_once(name: str) -> None:
    diary = full_diary()
    frame = getattr(diary, name)
    assert frame.equals(build_table(diary.reading, name))
    assert getattr(diary, name) is frame


def test_it_holds_the_sheet_the_plot_and_the_day() -> None:
    diary = full_diary()
    assert diary.sheet is diary.reading.sheet
    assert diary.plot.name == "Cutler's Rise"
    assert diary.today == TODAY


def test_it_cannot_be_changed() -> None:
    with pytest.raises(FrozenInstanceError):
        full_diary().today = date(2026, 3, 21)  # type: ignore[misc]


def test_the_line_of_an_event_is_the_one_that_was_written() -> None:
    diary = full_diary()
    file, line = diary.events.loc[0, ["file", "line"]]
    assert diary.line(file, line) == "- pick 1.2 kg kale from Top bed"


@pytest.mark.parametrize("line", [0, 6])
def test_a_line_that_the_file_does_not_have_is_refused(line: int) -> None:
    with pytest.raises(IndexError, match="1 to 5"):
        full_diary().line("2026/march.txt", line)


def test_a_file_that_the_diary_does_not_have_is_refused() -> None:
    with pytest.raises(KeyError):
        full_diary().line("april.txt", 1)


PAGE = """\
- bed Top bed, 14 m2

14 March 2026
- pick 1.2 kg kale from Top bed
- pick up my hat from nowhere at all!
Fog till ten.
"""


@pytest.fixture
def page(tmp_path: Path) -> Path:
    path = tmp_path / "2026.txt"
    path.write_text(PAGE, encoding="utf-8")
    return path


def test_a_written_page_is_read_into_tables(page: Path) -> None:
    diary = read(page, date(2026, 3, 20))
    first = diary.events[diary.events["kind"] != "sheet"].iloc[0]
    assert (first["crop"], first["mass_kg"], first["place"]) == ("kale", 1.2, "Top bed")
    assert diary.line(first["file"], first["line"]) == "- pick 1.2 kg kale from Top bed"
    assert diary.places["area_m2"].tolist() == [14.0]
    assert diary.prose["text"].tolist() == ["Fog till ten."]
    assert not diary.problems.empty


def test_a_path_may_be_words_and_the_day_is_the_computers_own(page: Path) -> None:
    before = date.today()
    diary = journal.read(str(page.parent))
    assert before <= diary.today <= date.today()
    assert len(diary.reading.sources) == 1


def test_a_path_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        read(tmp_path / "missing")
