"""What Windows does otherwise, as far as another system can show it: names, paths, files in use."""

import os
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from journal.charts.catalog import CHARTS
from journal.cli import targets
from journal.cli.main import cli
from journal.cli.new import starter_pages
from journal.cli.table import NAMES
from journal.cli.targets import unusable_on_windows
from journal.reading import read_folder
from journal.source import diary_files, named_file
from journal.tables.files import file_name

TODAY = date(2026, 3, 1)
PAGE = "14 March 2025\r\n- pick 2 kg kale\r\n- plan sow leek by 3 April 2026\r\n"


@pytest.fixture
def garden(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "garden"
    (folder / "weather").mkdir(parents=True)
    (folder / "page.txt").write_bytes(PAGE.encode())
    (folder / "weather" / "met.csv").write_bytes(b"date,rain\r\n2026-02-01,2.5\r\n")
    return folder


def haulm(*words: str) -> Result:
    return CliRunner().invoke(cli, [*words, "-d", "garden", "--today", str(TODAY)])


# learn.microsoft.com, "Naming Files, Paths, and Namespaces"


@pytest.mark.parametrize(
    "name",
    [
        *("CON", "nul.csv", "aux.txt.ics", "Com1.html", "LPT9", "com².db", "prn .csv", "CONIN$"),
        *(
            "a:b.csv",
            "what?.csv",
            "a*.csv",
            'say "so".csv',
            "a|b.ics",
            "a\tb.csv",
            "ends.",
            "ends ",
        ),
    ],
)
def test_a_name_that_windows_has_no_file_of_is_known(name: str):
    assert unusable_on_windows(name)


@pytest.mark.parametrize(
    "name", ["console.csv", "com.csv", "com10.csv", "nullify", "lpt.db", ".con", "a.con", "é ½.csv"]
)
def test_a_name_that_only_resembles_one_is_a_files(name: str):
    assert unusable_on_windows(name) == ""


def test_no_name_that_haulm_chooses_is_refused_by_windows():
    chosen = [f"{file_name(name)}.csv" for name in NAMES]
    chosen += [f"{name}.svg" for name in CHARTS] + list(starter_pages(TODAY))
    chosen += ["season-2025.html", "season-2025-04-01-to-06-30.html", "datapackage.json"]
    assert [name for name in chosen if unusable_on_windows(name)] == []
    assert len({name.lower() for name in chosen}) == len(set(chosen))


@pytest.mark.parametrize(
    "words",
    [
        ["now", "--ics", "NUL.ics"],
        ["table", "events", "--out", "aux.csv"],
        ["table", "--sqlite", "con.db"],
        ["table", "--all", "COM1"],
        ["season", "2025", "--out", "a:b.html"],
        ["chart", "harvest", "--out", "lpt1.svg"],
    ],
)
def test_an_output_with_such_a_name_is_refused_there_before_anything_is_read(
    words: list[str], garden: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(targets, "_WINDOWS", True)
    result = haulm(*words)
    assert result.exit_code == 2
    assert f"`{words[-1]}` cannot be a file's name: " in result.stderr
    assert [each.name for each in garden.parent.iterdir()] == ["garden"]


def test_a_page_of_a_reserved_name_is_read_where_it_can_be(garden: Path):
    (garden / "aux.txt").write_bytes(PAGE.encode())
    assert len(read_folder(garden, TODAY).sources) == 2


@pytest.mark.parametrize("number", [5, 32])
def test_a_file_that_another_program_holds_open_is_told_and_stays(
    number: int, garden: Path, monkeypatch: pytest.MonkeyPatch
):
    def held(self: Path, target: Path) -> Path:
        refused = PermissionError(13, "Access is denied.")
        refused.winerror = number  # type: ignore[attr-defined]
        raise refused

    Path("now.ics").write_bytes(b"as it was")
    monkeypatch.setattr(Path, "replace", held)
    result = haulm("now", "--ics", "now.ics")
    assert result.exit_code == 1
    told = "Error: `now.ics` cannot be written: access is denied; close it where it is open\n"
    assert result.stderr == told
    assert Path("now.ics").read_bytes() == b"as it was"
    assert sorted(each.name for each in Path().iterdir()) == ["garden", "now.ics"]


# Names that differ in their capitals only are of one file there: a second name for one file stands
# in for them here.


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["table", "events", "--out", "Met.csv"], "is a met file of the diary"),
        (["table", "events", "--out", "again/page.csv", "-d", "Garden"], ""),
        (["now", "--ics", "again/2026.txt"], "would be a page of the diary"),
    ],
)
def test_another_name_for_what_the_diary_reads_is_seen_through(
    words: list[str], told: str, garden: Path
):
    (garden / "plot.txt").write_text("- met file weather/met.csv\n", encoding="utf-8")
    os.link("garden/weather/met.csv", "Met.csv")
    Path("again").symlink_to("garden")
    result = haulm(*words) if "-d" not in words else haulm(*words[:-2])
    assert result.exit_code == (2 if told else 0), result.output
    assert told in result.stderr


# Paths in a page are written as its keeper's system has them.


@pytest.mark.parametrize("name", ["weather\\met.csv", "weather/met.csv", ".\\weather\\met.csv"])
def test_a_met_file_is_found_however_its_folders_are_parted(name: str, garden: Path):
    (garden / "plot.txt").write_text(f"- met file {name}\n", encoding="utf-8")
    reading = read_folder(garden, TODAY)
    assert [problem.code for problem in reading.problems] == []
    assert [row.value for row in reading.weather] == [2.5]


@pytest.mark.parametrize(
    "name", ["C:\\weather\\met.csv", "c:/met.csv", "\\\\server\\share\\met.csv", "..\\met.csv"]
)
def test_a_met_file_of_another_drive_or_folder_is_outside_on_every_system(name: str, garden: Path):
    (garden.parent / "met.csv").write_bytes(b"date,rain\n2026-02-01,9\n")
    (garden / "plot.txt").write_text(f"- met file {name}\n", encoding="utf-8")
    reading = read_folder(garden, TODAY)
    assert [problem.code for problem in reading.problems] == ["J005"]
    assert len(reading.weather) == 0


@pytest.mark.skipif(os.sep != "/", reason="`\\` is no part of a name there")
def test_a_file_whose_name_has_a_backslash_is_itself(tmp_path: Path):
    (tmp_path / "a\\b.csv").write_bytes(b"")
    assert named_file(tmp_path, "a\\b.csv").is_file()


class _Junction:
    """A folder entry as Windows tells of a junction: a folder, and no symbolic link."""

    name = "again"

    def __init__(self, path: Path):
        self.path = str(path)

    def is_dir(self, *, follow_symlinks: bool = True) -> bool:
        return True

    def stat(self, *, follow_symlinks: bool = True) -> object:
        return type("Stat", (), {"st_reparse_tag": 0xA0000003})()


def test_a_junction_that_leads_back_is_not_followed(garden: Path, monkeypatch: pytest.MonkeyPatch):
    real = os.scandir

    def with_junction(folder: Path) -> list[object]:
        return [*real(folder), _Junction(garden)]

    monkeypatch.setattr(os, "scandir", with_junction)
    assert [file.name for file in diary_files(garden).files] == ["page.txt"]
