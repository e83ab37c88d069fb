"""A met file is read only inside the diary's folder; one that cannot be read is a problem."""

from datetime import date
from pathlib import Path

import pytest

from journal import read as read_diary
from journal.cache.kept import read_kept
from journal.cache.shelf import Shelf
from journal.reading import read_folder

TODAY = date(2026, 3, 1)
GOOD = "date,rain\n2026-01-05,1.5\n"


def diary_with(folder: Path, sheet: str) -> Path:
    home = folder / "diary"
    home.mkdir()
    (home / "plot.txt").write_text(sheet + "\n", encoding="utf-8")
    return home


def test_a_missing_file_is_told_at_its_name_on_the_sheet(tmp_path: Path):
    reading = read_folder(diary_with(tmp_path, "- met file met.csv"), TODAY)
    (problem,) = reading.problems
    assert problem.code == "J004"
    assert problem.source.slice(problem.span) == "met.csv"
    assert reading.weather == ()


@pytest.mark.parametrize("name", ["../met.csv", "inside/../../met.csv", "{folder}/met.csv"])
def test_a_path_out_of_the_folder_is_refused(tmp_path: Path, name: str):
    (tmp_path / "met.csv").write_text(GOOD, encoding="utf-8")
    home = diary_with(tmp_path, f"- met file {name.format(folder=tmp_path)}")
    reading = read_folder(home, TODAY)
    assert [problem.code for problem in reading.problems] == ["J005"]
    assert reading.weather == ()


def test_a_link_out_of_the_folder_is_refused_and_one_inside_is_followed(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.csv\n- met file own.csv")
    (tmp_path / "met.csv").write_text(GOOD, encoding="utf-8")
    (home / "met.csv").symlink_to(tmp_path / "met.csv")
    (home / "store.csv").write_text(GOOD, encoding="utf-8")
    (home / "own.csv").symlink_to(home / "store.csv")
    reading = read_folder(home, TODAY)
    assert [problem.code for problem in reading.problems] == ["J005"]
    assert [row.source.path for row in reading.weather] == ["own.csv"]


def test_a_folder_linked_from_outside_is_out_too(tmp_path: Path):
    home = diary_with(tmp_path, "- met file there/met.csv")
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "met.csv").write_text(GOOD, encoding="utf-8")
    (home / "there").symlink_to(tmp_path / "there")
    assert [problem.code for problem in read_folder(home, TODAY).problems] == ["J005"]


def test_a_link_to_itself_is_no_met_file(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.csv")
    (home / "met.csv").symlink_to("met.csv")
    assert [problem.code for problem in read_folder(home, TODAY).problems] == ["J004"]


def test_a_met_file_may_lie_in_a_folder_below(tmp_path: Path):
    home = diary_with(tmp_path, "- met file weather/met.csv")
    (home / "weather").mkdir()
    (home / "weather" / "met.csv").write_text(GOOD, encoding="utf-8")
    diary = read_diary(home, TODAY)
    assert diary.weather[["source", "file", "line"]].to_numpy().tolist() == [
        ["weather/met.csv", "weather/met.csv", 2]
    ]
    assert diary.line("weather/met.csv", 2) == "2026-01-05,1.5"


def test_a_page_of_the_diary_is_no_met_file(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.txt")
    (home / "met.txt").write_text("2026-01-05\nFog.\n", encoding="utf-8")
    assert [problem.code for problem in read_folder(home, TODAY).problems] == ["J006"]


def test_a_folder_by_that_name_is_no_file(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.csv")
    (home / "met.csv").mkdir()
    assert [problem.code for problem in read_folder(home, TODAY).problems] == ["J004"]


def test_a_file_that_is_no_text_is_refused(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.csv")
    (home / "met.csv").write_bytes(b"\xd0\xcf\x11\xe0\x00\x00\xff")
    assert [problem.code for problem in read_folder(home, TODAY).problems] == ["J006"]


def test_a_file_that_cannot_be_opened_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    home = diary_with(tmp_path, "- met file met.csv")
    (home / "met.csv").write_text(GOOD, encoding="utf-8")
    real = Path.read_bytes

    def refuses(self: Path) -> bytes:
        if self.name == "met.csv":
            raise PermissionError(13, "Permission denied")
        return real(self)

    monkeypatch.setattr(Path, "read_bytes", refuses)
    assert [problem.code for problem in read_folder(home, TODAY).problems] == ["J003"]


def test_a_file_named_twice_is_read_once(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.csv\n- met file met.csv")
    (home / "met.csv").write_text(GOOD, encoding="utf-8")
    assert len(read_folder(home, TODAY).weather) == 1


def test_the_diary_and_its_met_file_stand_side_by_side_in_the_weather_table(tmp_path: Path):
    home = diary_with(tmp_path, "- met file met.csv")
    (home / "met.csv").write_text(GOOD, encoding="utf-8")
    (home / "page.txt").write_text("5 January 2026\n- rain 2 mm\n", encoding="utf-8")
    weather = read_diary(home, TODAY).weather
    assert weather[["source", "value"]].to_numpy().tolist() == [["diary", 2.0], ["met.csv", 1.5]]


def test_several_files_keep_the_sheets_order_and_their_own_names_when_read_again(tmp_path: Path):
    home = diary_with(tmp_path, "- met file b.csv\n- met file gone.csv\n- met file a.csv")
    (home / "b.csv").write_text(GOOD, encoding="utf-8")
    (home / "a.csv").write_text(GOOD + "2026-01-06,9.5\n", encoding="utf-8")
    shelf = Shelf(tmp_path / "shelf")
    for reading in (read_kept(home, TODAY, shelf), read_kept(home, TODAY, shelf)):
        assert [source.path for source in reading.met_sources] == ["b.csv", "a.csv"]
        found = [(row.source.path, row.value) for row in reading.weather]
        assert found == [("b.csv", 1.5), ("a.csv", 1.5), ("a.csv", 9.5)]
