"""What a diary says goes into pages, tables and calendars as words, never as their commands."""

import csv
import io
import re
import sqlite3
from contextlib import closing
from html.parser import HTMLParser
from pathlib import Path

import pytest
import vobject
from click.testing import CliRunner

from journal.cli.main import cli

TODAY = "2026-03-01"
BREAKS = '<script>alert(1)</script>"><img src=x onerror=alert(2)>&amp;</title>'
PAGE = f"""\
- plot {BREAKS}, latitude 53.8
- bed <b>Bed</b>, 14 m2
- person Edie"; DROP TABLE events; --
# 2025

14 March
{BREAKS} `{BREAKS}` [x](javascript:alert(3)) ![x](http://example.org/x.png)

- sow leek '{BREAKS.replace("'", "")}' in <b>Bed</b> ({BREAKS})
- pick 2 kg kale from <b>Bed</b> (=HYPERLINK("http://example.org","kale"))
- buy leek plants £3 (-2+3+cmd|' /C calc'!A0)
- lose 2 leek to <img src=x onerror=alert(4)>
- plan {BREAKS} by 3 April 2026 (END:VEVENT\\nBEGIN:VEVENT)
- plan sow leek in <b>Bed</b> by 3 April 2026 ({BREAKS})
"""


@pytest.fixture
def garden(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "garden"
    folder.mkdir()
    (folder / "page.txt").write_text(PAGE, encoding="utf-8")
    return folder


def haulm(*words: str) -> str:
    result = CliRunner().invoke(cli, [*words, "-d", "garden", "--today", TODAY])
    assert result.exit_code == 0, result.output
    return result.stdout


class Elements(HTMLParser):
    """Names and attributes of the elements of a page, with the text of its scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.made: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.made.append((tag, dict(attrs)))


def test_the_season_page_holds_no_element_and_no_address_of_the_diarys_own(garden: Path):
    haulm("season", "2025", "--out", "season.html")
    text = Path("season.html").read_text(encoding="utf-8")
    elements = Elements()
    elements.feed(text)
    assert elements.made
    for tag, attributes in elements.made:
        assert not any(name.startswith("on") for name in attributes), (tag, attributes)
        source = attributes.get("src") or attributes.get("href") or ""
        assert not re.match(r"\s*(javascript:|https?:|//|x$)", source), (tag, source)
    assert "<script>alert" not in text


@pytest.mark.parametrize("suffix", [".svg", ".html"])
def test_a_chart_holds_no_script_of_the_diarys_own(garden: Path, suffix: str):
    haulm("chart", "harvest", "--out", f"harvest{suffix}")
    text = Path(f"harvest{suffix}").read_text(encoding="utf-8")
    assert "<script>alert" not in text and "<img src=x" not in text


def test_every_cell_of_every_csv_is_safe_in_a_spreadsheet_and_keeps_its_words(garden: Path):
    haulm("table", "--all", "tables")
    files = sorted(Path("tables").glob("*.csv"))
    assert files
    number = re.compile(r"-?\d+(\.\d+)?")
    guarded = 0
    for file in files:
        for row in csv.reader(io.StringIO(file.read_bytes().decode(), newline="")):
            for cell in row:
                assert not re.match(r"[=+\-@\t\r]", cell) or number.fullmatch(cell), cell
                guarded += cell.startswith(("'=", "'-", "'+", "'@"))
    assert guarded


def test_sqlite_keeps_the_words_and_its_tables(garden: Path):
    haulm("table", "--sqlite", "garden.db")
    with closing(sqlite3.connect("garden.db")) as database:
        remarks = [row[0] for row in database.execute("SELECT remark FROM events")]
    assert BREAKS in remarks and any(remark.startswith("=HYPERLINK") for remark in remarks)


def test_a_calendar_holds_the_plans_and_no_event_that_a_remark_opened(garden: Path):
    haulm("now", "--ics", "plot.ics")
    content = Path("plot.ics").read_bytes()
    calendar = vobject.readOne(content.decode())
    events = calendar.vevent_list
    assert len(events) == content.count(b"\r\nBEGIN:VEVENT\r\n") == 2
    assert all(str(event.dtstart.value)[:10] <= "2026-04-03" for event in events)
