"""Photographs of the prose: shown on their day when the file is there, and nothing else."""

from datetime import date
from pathlib import Path

import journal
from journal.report.photographs import ONE_KB, photographs

PNG = b"\x89PNG\r\n\x1a\n" + b"0" * 40


def taken(folder: Path, prose: str) -> tuple[list[tuple[str, str, str]], str]:
    (folder / "pages.txt").write_text(f"3 May 2025\n{prose}\n", encoding="utf-8")
    one = journal.read(folder, date(2026, 3, 1))
    found = photographs(one, 2025, folder, folder / "season.html")
    return [(each.address[:22], each.words, each.day) for each in found.shown], found.missing


def test_a_small_picture_is_taken_into_the_page(tmp_path: Path) -> None:
    (tmp_path / "beds.png").write_bytes(PNG)
    shown, missing = taken(tmp_path, "The beds at noon ![four beds](beds.png) and so on.")
    assert shown == [("data:image/png;base64,", "four beds", "3 May")]
    assert missing == ""


def test_a_large_picture_is_linked_from_where_the_page_lies(tmp_path: Path) -> None:
    (tmp_path / "big one.jpg").write_bytes(b"\xff\xd8\xff" + b"0" * (ONE_KB * 1024))
    shown, _ = taken(tmp_path, "![big](big%20one.jpg)")
    assert shown == [("big%20one.jpg", "big", "3 May")]


def test_a_picture_that_is_not_there_is_counted(tmp_path: Path) -> None:
    shown, missing = taken(tmp_path, "![gone](gone.jpg)")
    assert shown == []
    assert missing == "1 picture that the diary links to could not be found: gone.jpg."


def test_nothing_outside_the_diary_and_nothing_but_pictures_is_shown(tmp_path: Path) -> None:
    inner = tmp_path / "diary"
    inner.mkdir()
    (tmp_path / "outside.png").write_bytes(PNG)
    (inner / "words.png").write_text("no picture")
    (inner / "drawing.svg").write_text("<svg/>")
    shown, missing = taken(inner, "![a](../outside.png) ![b](words.png) ![c](drawing.svg)")
    assert shown == []
    assert missing.startswith("3 pictures")


def test_a_picture_of_another_year_is_not_shown(tmp_path: Path) -> None:
    (tmp_path / "beds.png").write_bytes(PNG)
    (tmp_path / "pages.txt").write_text("3 May 2024\n![a](beds.png)\n")
    one = journal.read(tmp_path, date(2026, 3, 1))
    assert photographs(one, 2025, tmp_path, None).shown == ()
