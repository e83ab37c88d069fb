"""The plants' books that were kept are the books, to the last value, or they are not taken."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from conftest import CHECKOUT, SAMPLE_TODAY
from hypothesis import HealthCheck, given, settings
from pandas.testing import assert_frame_equal
from support.strategies import pages

from journal.cache.kept import read_kept
from journal.cache.shelf import Shelf
from journal.diary import Diary
from journal.studies import plants as plants_module
from journal.studies.in_soil import in_soil
from journal.studies.ledger.books import Books
from journal.studies.ledger.grounds import Grounds
from journal.studies.ledger.kept import from_json, to_json
from journal.studies.part_of_year import Part, part_of_year
from journal.studies.plants import batches, books_of, plant_events, plants, unplaced
from journal.studies.standing import empty_beds, outlook
from journal.studies.stays import stays

TODAY = date(2026, 11, 25)
STUDIES = (plants, batches, plant_events, unplaced, stays, outlook, empty_beds)
SHEET = "- bed Long 1, 1.2 x 4.8 m\n- bed Long 2, 1.2 x 4.8 m\n"
PAGE = (
    "2 May 2026\n- sow 40 leek 'Bandit' in modules in Long 2\n- up 31 leek\n"
    "9 June 2026\n- plant out 20 leek to Long 1\n- lose 3 leek in Long 1 to slugs\n"
    "10 June 2026\n- pick 2 kg carrot from Long 2\n"
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    home = tmp_path / "diary"
    home.mkdir()
    (home / "plot.txt").write_text(SHEET, encoding="utf-8")
    (home / "2026.txt").write_text(PAGE, encoding="utf-8")
    return home


@pytest.fixture
def times_kept(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[date]]:
    """The days of all books that were kept from the events themselves."""
    days: list[date] = []
    real = plants_module.books_on

    def counted(diary: Diary, day: date) -> Books:
        days.append(day)
        return real(diary, day)

    monkeypatch.setattr(plants_module, "books_on", counted)
    yield days


def opened(folder: Path, shelf: Shelf | None, today: date = TODAY) -> Diary:
    return Diary(read_kept(folder, today, shelf), today)


def assert_books_are_kept(folder: Path, shelf: Shelf, today: date) -> None:
    alone, first, warm = (opened(folder, each, today) for each in (None, shelf, shelf))
    for study in STUDIES:
        expected = study(alone)
        assert_frame_equal(study(first), expected)
        assert_frame_equal(study(warm), expected)
    assert in_soil(warm) == in_soil(alone)


def test_all_that_rests_on_the_sample_books_is_the_same_from_kept_ones(
    shelf: Shelf, times_kept: list[date]
):
    assert_books_are_kept(CHECKOUT / "sample_journal", shelf, SAMPLE_TODAY)
    assert times_kept == [SAMPLE_TODAY] * 2


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(page=pages())
def test_all_that_rests_on_any_books_is_the_same_from_kept_ones(page, folder: Path, shelf: Shelf):
    (folder / "2026.txt").write_text(page.text, encoding="utf-8")
    assert_books_are_kept(folder, shelf, TODAY)


def test_parts_taken_from_the_shelf_know_their_batch_and_their_stay(folder: Path):
    books = books_of(opened(folder, None))
    again = from_json(to_json(books), Grounds(opened(folder, None).sheet))
    assert to_json(again) == to_json(books)
    for batch in again.batches:
        for part in batch.parts:
            assert part.batch is batch
            assert any(part.stay is stay for stay in batch.stays)
    assert again.all_living(TODAY) == [batch for batch in again.batches if not batch.ended]


def test_another_day_keeps_books_of_its_own(folder: Path, shelf: Shelf, times_kept: list[date]):
    june = date(2026, 6, 9)
    for today in (TODAY, TODAY, june, june):
        books_of(opened(folder, shelf, today))
    assert times_kept == [TODAY, june]


def test_a_changed_page_is_booked_anew(folder: Path, shelf: Shelf):
    assert len(batches(opened(folder, shelf))) == 1
    (folder / "2026.txt").write_text(f"{PAGE}- sow 9 kale in Long 2\n", encoding="utf-8")
    assert len(batches(opened(folder, shelf))) == 2


def test_kept_books_that_were_tampered_with_are_kept_anew(
    folder: Path, shelf: Shelf, times_kept: list[date]
):
    books_of(opened(folder, shelf))
    for file in shelf.folder.iterdir():
        file.write_bytes(file.read_bytes().replace(b"31.0", b"99.0"))
    assert batches(opened(folder, shelf))["up"].tolist() == [31]
    assert times_kept == [TODAY] * 2


@pytest.mark.parametrize("text", ["", "{}", "[1]", '{"batches": 3}'])
def test_what_are_no_books_is_kept_anew(text: str, folder: Path, shelf: Shelf):
    aside = opened(folder, shelf).reading.aside
    assert aside is not None
    aside.put("books", text)
    assert batches(opened(folder, shelf))["up"].tolist() == [31]


def test_a_part_of_the_year_is_another_diary_and_takes_no_books(folder: Path, shelf: Shelf):
    books_of(opened(folder, shelf))
    spring = part_of_year(opened(folder, shelf), Part((3, 1), (5, 31)))
    assert spring.reading.aside is None
