"""Folders and files that this user may not read or write; root goes without its power over them."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(os.name == "nt", reason="rights are set otherwise on Windows")
PAGE = "14 March 2025\n- pick 2 kg kale from Top bed\n- plan sow leek by 3 April 2026\n"
# root that is held to the rights of files as every other user is (capabilities(7))
POWERLESS = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"]
COMMANDS = """
import json, sys
from click.testing import CliRunner
from journal.cli.main import cli
told = []
for words in json.loads(sys.argv[1]):
    done = CliRunner().invoke(cli, words)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    told.append([done.exit_code, done.stdout, done.stderr])
print(json.dumps(told))
"""


@pytest.fixture(scope="module")
def without_power(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """What goes before a command to run it as a user who may not do all."""
    lead = [] if os.geteuid() else POWERLESS
    shut = tmp_path_factory.mktemp("shut")
    shut.chmod(0o555)
    if lead and not shutil.which(lead[0]):
        pytest.skip("root can be made powerless only where `setpriv` is")
    if not subprocess.run([*lead, "touch", str(shut / "x")], capture_output=True).returncode:
        pytest.skip("this user may write everywhere")
    return lead


@pytest.fixture
def home(tmp_path: Path) -> Iterator[Path]:
    (tmp_path / "garden" / "older").mkdir(parents=True)
    (tmp_path / "garden" / "page.txt").write_text(PAGE, encoding="utf-8")
    (tmp_path / "garden" / "plot.txt").write_text("- bed Top bed, 14 m2\n", encoding="utf-8")
    (tmp_path / "garden" / "older" / "old.txt").write_text(PAGE, encoding="utf-8")
    (tmp_path / "out").mkdir()
    yield tmp_path
    for name in ("garden", "garden/older", "out"):
        (tmp_path / name).chmod(0o755)


class Run:
    """Commands run in one process by a user without rights, in the folder `home`."""

    def __init__(self, home: Path, lead: list[str]):
        self.home, self.lead = home, lead

    def __call__(self, *commands: list[str]) -> list[tuple[int, str, str]]:
        """Each command's exit status, output and errors."""
        asked = [[*words, "--today", "2026-03-01"] for words in commands]
        done = subprocess.run(
            [*self.lead, sys.executable, "-c", COMMANDS, json.dumps(asked)],
            capture_output=True,
            encoding="utf-8",
            cwd=self.home,
            env={**os.environ, "HAULM_CACHE": str(self.home / "cache"), "HAULM_DIARY": "garden"},
        )
        assert done.returncode == 0, done.stderr
        return [(status, out, err) for status, out, err in json.loads(done.stdout)]


@pytest.fixture
def run(home: Path, without_power: list[str]) -> Run:
    return Run(home, without_power)


def test_a_folder_that_may_not_be_written_to_is_told_by_every_command_that_writes(
    home: Path, run: Run
):
    (home / "out" / "old.ics").write_bytes(b"as it was")
    (home / "out").chmod(0o555)
    told = run(
        ["now", "--ics", "out/old.ics"],
        ["table", "events", "--out", "out/events.csv"],
        ["table", "events", "--sqlite", "out/diary.db"],
        ["season", "2025", "--out", "out/season.html"],
        ["chart", "harvest", "--out", "out/harvest.json"],
    )
    names = ["old.ics", "events.csv", "diary.db", "season.html", "harvest.json"]
    for name, (status, out, err) in zip(names, told, strict=True):
        assert (status, out) == (1, "")
        assert err == f"Error: `out/{name}` cannot be written: permission denied\n"
    ((status, _, err),) = run(["new", "out/begun"])
    assert (status, err) == (2, "Error: `out/begun`: permission denied\n")
    assert [each.name for each in (home / "out").iterdir()] == ["old.ics"]
    assert (home / "out" / "old.ics").read_bytes() == b"as it was"


def test_a_cache_that_may_not_be_written_to_is_not_missed(home: Path, run: Run):
    (home / "cache").mkdir(mode=0o555)
    for status, out, err in run(["check"], ["check"]):
        assert (status, err) == (0, "") and out.startswith("fine: ")
    assert list((home / "cache").iterdir()) == []


def test_a_diary_that_may_not_be_listed_is_one_sentence_and_2(home: Path, run: Run):
    (home / "garden").chmod(0o300)
    for status, out, err in run(["check"], ["now"], ["ask", "when was kale picked?"]):
        assert (status, out, err) == (2, "", "Error: `garden`: permission denied\n")
    (home / "garden").chmod(0o000)
    ((status, _, err),) = run(["check", "-d", "garden/older"])
    assert (status, err) == (2, "Error: `garden/older`: permission denied\n")


def test_a_page_a_sheet_or_a_folder_that_may_not_be_read_is_told_and_the_rest_is_read(
    home: Path, run: Run
):
    (home / "garden" / "plot.txt").chmod(0o000)
    (home / "garden" / "shut.txt").touch(mode=0o000)
    (home / "garden" / "older").chmod(0o000)
    ((status, out, _),) = run(["check", "--format", "json"])
    assert status == 1
    told = sorted(row["file"] for row in json.loads(out) if row["code"] == "J003")
    assert told == ["older", "plot.txt", "shut.txt"]
    ((_, out, err),) = run(["table", "events"])
    assert "kale" in out and "`plot.txt` cannot be opened: permission denied" in err


def test_a_place_in_a_folder_that_may_not_be_entered_is_one_sentence(home: Path, run: Run):
    (home / "out").chmod(0o000)
    told = run(["now", "--ics", "out/now.ics"], ["new", "out/begun"])
    assert [status for status, _, _ in told] == [1, 2]
    assert [err.count("\n") for _, _, err in told] == [1, 1]
    assert all("permission denied" in err for _, _, err in told)
