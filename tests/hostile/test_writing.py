"""Every command that writes: the file is whole or what was there before, whatever stops it."""

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from journal.cli.main import INTERRUPTED, cli, main

PAGE = "# 2025\n\n14 March\n- pick 2 kg kale from Top bed\n- plan sow leek by 3 April 2026\n"
TODAY = "2026-03-01"
WRITERS = {
    "table csv": ["table", "events", "--out", "OUT.csv"],
    "table jsonl": ["table", "events", "--out", "OUT.jsonl"],
    "table parquet": ["table", "events", "--out", "OUT.parquet"],
    "table sqlite": ["table", "--sqlite", "OUT.db", "events"],
    "chart json": ["chart", "harvest", "--out", "OUT.json"],
    "season": ["season", "2025", "--out", "OUT.html"],
    "now": ["now", "--ics", "OUT.ics"],
}
EVERY = pytest.mark.parametrize("words", WRITERS.values(), ids=WRITERS)


@pytest.fixture(autouse=True)
def kept_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    garden = tmp_path / "garden"
    garden.mkdir()
    (garden / "page.txt").write_text(PAGE, encoding="utf-8")
    (garden / "plot.txt").write_text("- bed Top bed, 14 m2\n- person Edie\n", encoding="utf-8")
    (tmp_path / "out").mkdir()


def run(words: list[str], home: Path, out: Path) -> Result:
    named = [str(out / word) if word.startswith("OUT") else word for word in words]
    return CliRunner().invoke(cli, [*named, "-d", str(home / "garden"), "--today", TODAY])


def refuse_after(monkeypatch: pytest.MonkeyPatch, name: str, stop: BaseException) -> None:
    """The step `name` of a path stops with `stop` where it touches what is being written."""
    real = getattr(Path, name)

    def step(self: Path, *rest: object, **more: object) -> object:
        if self.name.startswith(".OUT"):
            if name == "write_bytes":
                real(self, b"half")
            raise stop
        return real(self, *rest, **more)

    monkeypatch.setattr(Path, name, step)


@EVERY
def test_what_is_written_is_there_and_nothing_beside_it(words: list[str], tmp_path: Path):
    out = tmp_path / "out"
    assert run(words, tmp_path, out).exit_code == 0
    assert [file.name.partition(".")[0] for file in out.iterdir()] == ["OUT"]
    before = next(out.iterdir()).read_bytes()
    assert run(words, tmp_path, out).exit_code == 0
    assert len(list(out.iterdir())) == 1 and next(out.iterdir()).read_bytes()[:40] == before[:40]


@EVERY
@pytest.mark.parametrize("step", ["touch", "replace"])
def test_a_disk_that_refuses_leaves_the_old_file(
    words: list[str], step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    out = tmp_path / "out"
    name = next(word for word in words if word.startswith("OUT"))
    assert run(words, tmp_path, out).exit_code == 0
    before = (out / name).read_bytes()
    refuse_after(monkeypatch, step, OSError(errno.ENOSPC, "No space left on device"))
    result = run(words, tmp_path, out)
    assert result.exit_code == 1
    assert "cannot be written: no space left on device" in result.stderr
    assert [file.name for file in out.iterdir()] == [name]
    assert (out / name).read_bytes() == before


@EVERY
def test_an_interruption_half_way_leaves_the_old_file_and_is_quiet(
    words: list[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capfd: pytest.CaptureFixture[str],
):
    out = tmp_path / "out"
    name = next(word for word in words if word.startswith("OUT"))
    (out / name).write_bytes(b"")
    refuse_after(monkeypatch, "replace", KeyboardInterrupt())
    named = [str(out / word) if word.startswith("OUT") else word for word in words]
    typed = ["haulm", *named, "-d", str(tmp_path / "garden"), "--today", TODAY]
    monkeypatch.setattr(sys, "argv", typed)
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == INTERRUPTED
    assert "Traceback" not in capfd.readouterr().err
    assert [file.name for file in out.iterdir()] == [name]
    assert (out / name).read_bytes() == b""


def test_a_new_diary_is_whole_or_not_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    real = Path.rename

    def full(self: Path, target: Path) -> Path:
        if target.name == "2026-03.txt":
            raise OSError(errno.ENOSPC, "No space left on device")
        return real(self, target)

    monkeypatch.setattr(Path, "rename", full)
    result = CliRunner().invoke(cli, ["new", str(tmp_path / "begun"), "--today", TODAY])
    assert result.exit_code == 2 and "no space left on device" in result.stderr
    assert not (tmp_path / "begun").exists()
    (tmp_path / "empty").mkdir()
    CliRunner().invoke(cli, ["new", str(tmp_path / "empty"), "--today", TODAY])
    assert list((tmp_path / "empty").iterdir()) == []


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 64 kB that is nearly full, where one may be mounted."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = shutil.which("mount")
    made = mount and os.name == "posix" and os.geteuid() == 0
    words = [str(mount), "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)]
    if not made or subprocess.run(words, capture_output=True).returncode:
        pytest.skip("no file system may be mounted here")
    (disk / "filler").write_bytes(b"x" * 60_000)
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


@pytest.mark.parametrize(
    "words", [WRITERS["season"], WRITERS["table sqlite"], WRITERS["chart json"]]
)
def test_a_disk_that_is_truly_full_leaves_nothing_and_one_sentence(
    words: list[str], tmp_path: Path, small_disk: Path
):
    result = run(words, tmp_path, small_disk)
    assert result.exit_code == 1
    assert "cannot be written" in result.stderr
    assert [file.name for file in small_disk.iterdir()] == ["filler"]


@pytest.mark.parametrize("place", ["/dev/null", "/dev/full"])
def test_a_device_is_never_replaced(place: str, tmp_path: Path):
    if not Path(place).exists():
        pytest.skip("no such device here")
    result = run(["now", "--ics", place], tmp_path, tmp_path)
    assert result.exit_code == 1 and "not a file" in result.stderr
    assert Path(place).is_char_device()


@pytest.mark.parametrize(
    "words", [["now", "--ics", "garden/2026.txt"], ["now", "--ics", "met.csv"]]
)
def test_a_calendar_is_never_written_over_what_the_diary_reads(
    words: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "garden" / "plot.txt").write_text("- met file met.csv\n", encoding="utf-8")
    (tmp_path / "garden" / "met.csv").write_text("date,rain\n", encoding="utf-8")
    words = [word.replace("met.csv", "garden/met.csv") for word in words]
    assert run(words, tmp_path, tmp_path).exit_code == 2
    assert (tmp_path / "garden" / "met.csv").read_text() == "date,rain\n"
    assert not (tmp_path / "garden" / "2026.txt").exists()
