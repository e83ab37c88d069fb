"""A kept reading is the reading, to the last value, or it is not taken."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from conftest import CHECKOUT, SAMPLE_TODAY
from hypothesis import HealthCheck, given, settings
from pandas.testing import assert_frame_equal
from support.strategies import pages

from journal import reading as reading_module
from journal.cache import kept
from journal.cache.kept import read_kept
from journal.cache.shelf import Shelf
from journal.diary import Diary
from journal.events.reading import Reading
from journal.reading import read_folder
from journal.tables.schema import DIARY_TABLES

TODAY = date(2026, 11, 25)
PAGE = "2 May 2026\n- sow carrot 'Eskimo' in Long 1, 3 rows of 4 m\n- pick -0 kg klae\n"
SHEET = "- bed Long 1, 1.2 x 4.8 m\n- bed Long 2, 1.2 x 4.8 m\n- measure trug, 3 kg\n"
MET = "date,rain\n2026-05-01,2.5\n2026-12-01,9.0\n"


@pytest.fixture
def diary(tmp_path: Path) -> Path:
    folder = tmp_path / "diary"
    folder.mkdir()
    (folder / "plot.txt").write_text(SHEET, encoding="utf-8")
    (folder / "2026.txt").write_text(PAGE, encoding="utf-8")
    return folder


@pytest.fixture
def times_read(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[date]]:
    """The days of every reading from the pages themselves."""
    days: list[date] = []
    real = reading_module.read_pages

    def counted(pages: object, today: date, watch: object = None) -> Reading:
        days.append(today)
        return real(pages, today, watch)  # type: ignore[arg-type]

    monkeypatch.setattr(reading_module, "read_pages", counted)
    yield days


def every_value(reading: Reading) -> list[object]:
    """All that a reading holds but its documents, with places and signs that equality passes."""
    rows = [*reading.events, *reading.weather, *reading.prose]
    return [
        [repr(row) for row in rows],
        [(row.span, row.source.path, row.source.text) for row in rows],
        repr(reading.sheet),
        [(row.span, row.source) for row in reading.sheet.places],
        reading.problems,
        reading.sources,
        reading.met_sources,
        (reading.same_from, reading.same_until),
    ]


def assert_kept_whole(folder: Path, today: date, shelf: Shelf) -> None:
    cold = read_folder(folder, today)
    first, warm = read_kept(folder, today, shelf), read_kept(folder, today, shelf)
    assert every_value(cold) == every_value(first) == every_value(warm)
    for name in DIARY_TABLES:
        frames = [getattr(Diary(each, today), name) for each in (cold, first, warm)]
        assert_frame_equal(frames[0], frames[1])
        assert_frame_equal(frames[0], frames[2])


def test_the_sample_is_kept_whole(shelf: Shelf, times_read: list[date]):
    assert_kept_whole(CHECKOUT / "sample_journal", SAMPLE_TODAY, shelf)
    assert times_read == [SAMPLE_TODAY]


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(page=pages())
def test_any_diary_is_kept_whole(page, diary: Path, shelf: Shelf):
    (diary / "2026.txt").write_text(page.text, encoding="utf-8")
    assert_kept_whole(diary, TODAY, shelf)


def test_a_minus_nought_stays_one(diary: Path, shelf: Shelf):
    (diary / "2026.txt").write_text("2 May 2026\n- weather -0 to 0 C\n", encoding="utf-8")
    read_kept(diary, TODAY, shelf)
    warm = read_kept(diary, TODAY, shelf)
    assert [repr(row.value) for row in warm.weather] == [
        repr(row.value) for row in read_folder(diary, TODAY).weather
    ]


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("2026.txt", PAGE.replace("Long 1", "Long 2")),
        ("plot.txt", SHEET.replace("4.8", "9.6")),
        ("2027.txt", "3 May\n- weed Long 1\n"),
    ],
    ids=["a page", "the sheet", "a new page"],
)
def test_a_changed_file_is_read_anew(
    diary: Path, shelf: Shelf, times_read: list[date], file: str, text: str
):
    before = read_kept(diary, TODAY, shelf)
    (diary / file).write_text(text, encoding="utf-8")
    after = read_kept(diary, TODAY, shelf)
    assert every_value(after) == every_value(read_folder(diary, TODAY)) != every_value(before)
    assert len(times_read) == 2


def test_a_renamed_page_is_read_anew(diary: Path, shelf: Shelf, times_read: list[date]):
    read_kept(diary, TODAY, shelf)
    (diary / "2026.txt").rename(diary / "1999.txt")
    assert {event.source.path for event in read_kept(diary, TODAY, shelf).events} == {
        "1999.txt",
        "plot.txt",
    }
    assert len(times_read) == 2


def test_another_program_reads_anew(
    diary: Path, shelf: Shelf, times_read: list[date], monkeypatch: pytest.MonkeyPatch
):
    read_kept(diary, TODAY, shelf)
    monkeypatch.setattr(kept, "program_digest", lambda: b"another")
    read_kept(diary, TODAY, shelf)
    read_kept(diary, TODAY, shelf)
    assert len(times_read) == 2


def test_a_day_that_has_come_is_read_anew_and_no_other(
    diary: Path, shelf: Shelf, times_read: list[date]
):
    for day in (20, 25, 24):  # of April: 2 May is still to come
        reading = read_kept(diary, date(2026, 4, day), shelf)
        assert "J205" in {problem.code for problem in reading.problems}
    assert len(times_read) == 1
    for today in (date(2026, 5, 2), TODAY, date(2030, 1, 1)):
        reading = read_kept(diary, today, shelf)
        assert "J205" not in {problem.code for problem in reading.problems}
    assert len(times_read) == 2


class TestMetFiles:
    @pytest.fixture
    def diary(self, diary: Path) -> Path:
        (diary / "plot.txt").write_text(SHEET + "- met file rain.csv\n", encoding="utf-8")
        (diary / "rain.csv").write_text(MET, encoding="utf-8")
        return diary

    def test_they_are_kept_whole(self, diary: Path, shelf: Shelf, times_read: list[date]):
        assert_kept_whole(diary, TODAY, shelf)
        assert [row.value for row in read_kept(diary, TODAY, shelf).weather] == [2.5]
        assert len(times_read) == 1

    def test_a_forecast_comes_true_on_its_day(self, diary: Path, shelf: Shelf):
        read_kept(diary, TODAY, shelf)
        later = read_kept(diary, date(2026, 12, 1), shelf)
        assert [row.value for row in later.weather] == [2.5, 9.0]

    @pytest.mark.parametrize("change", ["changed", "gone", "outside"])
    def test_another_met_file_is_read_anew(self, diary: Path, shelf: Shelf, change: str):
        read_kept(diary, TODAY, shelf)
        (diary / "rain.csv").unlink()
        if change == "changed":
            (diary / "rain.csv").write_text(MET.replace("2.5", "3.5"), encoding="utf-8")
        elif change == "outside":
            outside = diary.parent / "outside.csv"
            outside.write_text(MET, encoding="utf-8")
            (diary / "rain.csv").symlink_to(outside)
        assert_kept_whole(diary, TODAY, shelf)

    def test_a_met_file_that_appears_is_read(self, diary: Path, shelf: Shelf):
        (diary / "rain.csv").rename(diary / "aside")
        assert "J004" in {problem.code for problem in read_kept(diary, TODAY, shelf).problems}
        (diary / "aside").rename(diary / "rain.csv")
        assert_kept_whole(diary, TODAY, shelf)


def _kept_file(shelf: Shelf) -> Path:
    (file,) = shelf.folder.iterdir()
    return file


@pytest.mark.parametrize(
    "damage",
    [
        lambda content: b"",
        lambda content: content[: len(content) // 2],
        lambda content: content[:-1],
        lambda content: content.replace(b"carrot", b"turnip"),
        lambda content: b"\x80\x04\x95" + content,
        lambda content: b"haulm kept reading 1 " + b"0" * 64 + b"\n{}",
        lambda content: content + b"\n",
        lambda content: b"\0" * len(content),
    ],
    ids=["empty", "half", "a byte short", "altered", "alien", "no reading", "longer", "nulls"],
)
def test_a_damaged_kept_reading_is_passed_over_and_mended(
    diary: Path, shelf: Shelf, times_read: list[date], damage
):
    whole = every_value(read_kept(diary, TODAY, shelf))
    file = _kept_file(shelf)
    good = file.read_bytes()
    file.write_bytes(damage(good))
    assert every_value(read_kept(diary, TODAY, shelf)) == whole
    assert len(times_read) == 2
    assert file.read_bytes() == good


@pytest.mark.parametrize(
    "body",
    ["[]", "null", "{}", '{"sheet":null}', '{"Span":[3,1]}', '{"events":{"rows":1,"columns":{}}}'],
)
def test_a_text_that_is_no_reading_is_passed_over(diary: Path, shelf: Shelf, body: str):
    sealed: list[bytes] = []
    whole = every_value(read_kept(diary, TODAY, shelf))

    class Changed(Shelf):
        def take(self, name: str, key: bytes) -> str | None:
            sealed.append(key)
            return "[]\n" + body

    assert every_value(read_kept(diary, TODAY, Changed(shelf.folder))) == whole
    assert sealed


def test_what_is_kept_is_json(diary: Path, shelf: Shelf):
    read_kept(diary, TODAY, shelf)
    head, stamps, body = _kept_file(shelf).read_text(encoding="utf-8").split("\n")
    assert head.startswith("haulm kept reading ") and json.loads(stamps) == []
    assert set(json.loads(body)) >= {"events", "weather", "prose", "sheet", "problems"}


def test_without_a_shelf_nothing_is_kept(diary: Path, times_read: list[date]):
    assert every_value(read_kept(diary, TODAY, None)) == every_value(read_folder(diary, TODAY))
    read_kept(diary, TODAY, None)
    assert len(times_read) == 2


def test_two_diaries_are_kept_apart(diary: Path, shelf: Shelf, times_read: list[date]):
    other = diary.with_name("other")
    other.mkdir()
    (other / "a.txt").write_text("3 May 2026\n- weed Long 1\n", encoding="utf-8")
    for _ in range(2):
        read_kept(diary, TODAY, shelf), read_kept(other, TODAY, shelf)
    assert len(times_read) == 2


def test_a_page_of_the_same_bytes_in_another_folder_has_its_own_sources(diary: Path, shelf: Shelf):
    read_kept(diary, TODAY, shelf)
    moved = diary.rename(diary.with_name("moved"))
    assert_kept_whole(moved, TODAY, shelf)


def test_two_runs_at_once_share_a_shelf(diary: Path, shelf: Shelf):
    code = (
        "import sys; from datetime import date; from pathlib import Path\n"
        "from journal.cache.kept import read_kept; from journal.cache.shelf import Shelf\n"
        "shelf = Shelf(Path(sys.argv[2]))\n"
        "for n in range(12):\n"
        "    Path(sys.argv[1], 'mine.txt').touch()\n"
        "    reading = read_kept(Path(sys.argv[1]), date(2026, 11, 25 - n % 3), shelf)\n"
        "    assert len(reading.events) == int(sys.argv[3]), len(reading.events)\n"
        "    if n % 4 == 3:\n"
        "        [file.unlink(missing_ok=True) for file in shelf.folder.iterdir()]\n"
    )
    count = str(len(read_folder(diary, TODAY).events))
    (diary / "mine.txt").touch()
    runs = [
        subprocess.Popen([sys.executable, "-c", code, diary, shelf.folder, count]) for _ in "ab"
    ]
    assert [run.wait() for run in runs] == [0, 0]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root writes anywhere")
def test_a_folder_that_may_not_be_written_is_gone_without(diary: Path, shelf: Shelf):
    shelf.folder.mkdir(mode=0o500)
    assert every_value(read_kept(diary, TODAY, shelf)) == every_value(read_folder(diary, TODAY))


def test_a_file_where_the_folder_should_be_is_gone_without(diary: Path, shelf: Shelf):
    shelf.folder.write_text("in the way", encoding="utf-8")
    assert every_value(read_kept(diary, TODAY, shelf)) == every_value(read_folder(diary, TODAY))
    assert shelf.folder.read_text(encoding="utf-8") == "in the way"


def test_a_reading_may_be_changed_like_any_other(diary: Path, shelf: Shelf):
    read_kept(diary, TODAY, shelf)
    warm = read_kept(diary, TODAY, shelf)
    assert replace(warm, events=warm.events[:1]).events == warm.events[:1]
