"""A shelf gives back what was put there, whole, or nothing; and it stays within its bound."""

import os
from pathlib import Path

import pytest

from journal.cache.shelf import VARIABLE, Shelf, shelf_folder

KEY = b"key"


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path / "deep" / "shelf", most_bytes=1000)


def test_a_text_comes_back_under_its_name_and_key(shelf: Shelf):
    shelf.put("diary", KEY, "1½ rows\nof peas")
    assert shelf.take("diary", KEY) == "1½ rows\nof peas"
    assert shelf.take("diary", b"other") is None
    assert shelf.take("other", KEY) is None


def test_the_last_text_of_a_name_counts(shelf: Shelf):
    shelf.put("diary", KEY, "old")
    shelf.put("diary", b"new key", "new")
    assert (shelf.take("diary", KEY), shelf.take("diary", b"new key")) == (None, "new")
    assert len(list(shelf.folder.iterdir())) == 1


def test_what_is_used_longest_ago_makes_room(shelf: Shelf):
    for at, name in enumerate(["first", "second", "third"]):
        shelf.put(name, KEY, "x" * 300)
        for file in shelf.folder.iterdir():
            os.utime(file, (file.stat().st_mtime - 60,) * 2)
        assert at >= 2 or shelf.take("first", KEY)  # using it makes it the latest
    assert [bool(shelf.take(name, KEY)) for name in ("first", "second", "third")] == [
        True,
        False,
        True,
    ]


def test_a_text_beyond_the_bound_is_not_kept(shelf: Shelf):
    shelf.put("diary", KEY, "x" * 1001)
    assert shelf.take("diary", KEY) is None


def test_what_an_interrupted_run_left_is_removed_in_time(shelf: Shelf):
    shelf.put("diary", KEY, "text")
    old, young = (shelf.folder / f"0.kept.{name}" for name in ("old", "young"))
    for file in (old, young):
        file.write_text("half", encoding="utf-8")
    os.utime(old, (0, 0))
    shelf.put("diary", KEY, "text")
    assert not old.exists() and young.exists()


def test_files_of_others_are_left_alone(shelf: Shelf):
    shelf.put("diary", KEY, "text")
    alien = shelf.folder / "notes.txt"
    alien.write_text("x" * 2000, encoding="utf-8")
    os.utime(alien, (0, 0))
    shelf.put("diary", KEY, "text")
    assert alien.exists() and shelf.take("diary", KEY) == "text"


def test_an_interruption_while_writing_leaves_the_old_text(
    shelf: Shelf, monkeypatch: pytest.MonkeyPatch
):
    shelf.put("diary", KEY, "old")

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", interrupted)
    with pytest.raises(KeyboardInterrupt):
        shelf.put("diary", KEY, "new")
    assert shelf.take("diary", KEY) == "old"
    assert len(list(shelf.folder.iterdir())) == 1


def test_the_folder_may_go_at_any_time(shelf: Shelf):
    shelf.put("diary", KEY, "text")
    for file in shelf.folder.iterdir():
        file.unlink()
    shelf.folder.rmdir()
    assert shelf.take("diary", KEY) is None
    shelf.put("diary", KEY, "text")
    assert shelf.take("diary", KEY) == "text"


def test_the_environment_names_another_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    assert shelf_folder() == tmp_path
    monkeypatch.delenv(VARIABLE)
    assert shelf_folder().name.lower() == "haulm" or "haulm" in shelf_folder().parts
