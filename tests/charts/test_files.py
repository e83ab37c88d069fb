"""A chart's file is written whole or not at all, in the format of its name."""

import json
from pathlib import Path

import pytest
from support.garden import garden

from journal.charts import files
from journal.charts.files import WRITERS, write_chart
from journal.charts.harvest import harvest_chart
from journal.studies.harvest import harvest

OPENINGS = {
    ".svg": b"<svg",
    ".png": b"\x89PNG\r\n",
    ".pdf": b"%PDF-",
    ".html": b"<!DOCTYPE html>",
    ".json": b"{",
}


@pytest.mark.parametrize("suffix", WRITERS)
def test_each_suffix_is_written_in_its_format(suffix: str, tmp_path: Path) -> None:
    path = tmp_path / f"harvest{suffix}"
    write_chart(harvest_chart(harvest(garden(2))), path)
    assert path.read_bytes().lstrip().startswith(OPENINGS[suffix])


def test_the_document_is_the_same_twice(tmp_path: Path) -> None:
    for name in ("one.json", "two.json"):
        write_chart(harvest_chart(harvest(garden(2))), tmp_path / name)
    assert (tmp_path / "one.json").read_text() == (tmp_path / "two.json").read_text()
    assert "vega-lite" in json.loads((tmp_path / "one.json").read_text())["$schema"]


def test_the_page_of_a_chart_asks_nothing_of_the_network(tmp_path: Path) -> None:
    write_chart(harvest_chart(harvest(garden(2))), tmp_path / "chart.html")
    text = (tmp_path / "chart.html").read_text()
    assert "<script src" not in text
    assert "cdn." not in text.split("vegaEmbed", 1)[0][:2000]


def test_an_unknown_suffix_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(KeyError):
        write_chart(harvest_chart(harvest(garden(1))), tmp_path / "chart.gif")
    assert list(tmp_path.iterdir()) == []


def test_a_write_that_fails_leaves_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "page.html"
    path.write_text("before")

    def refuse(self: Path, target: Path) -> None:
        raise OSError(28, "no room")

    monkeypatch.setattr(files.Path, "replace", refuse)
    with pytest.raises(OSError, match="no room"):
        files.write_whole(path, b"after")
    assert path.read_text() == "before"
    assert [each.name for each in tmp_path.iterdir()] == ["page.html"]


def test_a_written_file_may_be_read_by_others(tmp_path: Path) -> None:
    files.write_whole(tmp_path / "page.html", b"after")
    plain = tmp_path / "plain"
    plain.write_bytes(b"")
    assert (tmp_path / "page.html").stat().st_mode == plain.stat().st_mode
