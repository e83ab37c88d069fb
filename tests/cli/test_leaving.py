"""How a command leaves when it is stopped, when nobody reads, and where nothing can be printed."""

import os
import re
import shutil
import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

posix = pytest.mark.skipif(os.name == "nt", reason="Windows has no such signals or descriptors")
PAGE = "14 March 2025\n- pick 2 kg kale from Top bed\n- plan sow leek by 3 April 2026\n"
TODAY = "2026-03-01"
# stops itself in the middle of a write, when the half is on the disk: no sleeping, no guessing
STOPPED = """
    import os, signal, sys
    from pathlib import Path
    whole, number = Path.write_bytes, int(sys.argv.pop())
    # the tests may themselves run under `nohup`, which what they start would take over
    signal.signal(signal.SIGHUP, signal.SIG_DFL)
    def half(self, content):
        done = whole(self, content[: len(content) // 2])
        if "OUT" in str(self):
            os.kill(os.getpid(), number)
        return done
    Path.write_bytes = half
    from journal.cli import start
    start.main()
"""


@pytest.fixture
def home(tmp_path: Path) -> Path:
    (tmp_path / "garden").mkdir()
    (tmp_path / "garden" / "page.txt").write_text(PAGE, encoding="utf-8")
    (tmp_path / "out").mkdir()
    return tmp_path


def run(code: str, *words: str, **more: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", textwrap.dedent(code), *words],
        capture_output=True,
        encoding="utf-8",
        **more,  # type: ignore[call-overload]
    )


def haulm(home: Path, shell: str) -> subprocess.CompletedProcess[str]:
    """A command in a shell, which closes and fills streams; `haulm` is this very program."""
    python = f"{sys.executable} -m journal"
    return subprocess.run(
        ["sh", "-c", shell.replace("haulm", python, 1)],
        capture_output=True,
        encoding="utf-8",
        cwd=home,
        env={**os.environ, "HAULM_DIARY": "garden"},
    )


NOW = ["now", "--ics", "out/OUT.ics"]
SEASON = ["season", "2025", "--out", "out/OUT.html"]
TABLE = ["table", "events", "--out", "out/OUT.csv"]


@posix
@pytest.mark.parametrize(
    ("words", "name"),
    [(NOW, "SIGTERM"), (NOW, "SIGHUP"), (NOW, "SIGINT"), (SEASON, "SIGTERM"), (TABLE, "SIGHUP")],
)
def test_a_signal_amid_a_write_leaves_the_old_file_and_nothing_beside_it(
    words: list[str], name: str, home: Path
):
    number = getattr(signal, name)
    old = home / words[-1]
    old.write_bytes(b"as it was")
    done = run(STOPPED, *words, "-d", "garden", "--today", TODAY, str(int(number)), cwd=home)
    # Ctrl-C has a status of its own; whoever sends another signal sees that it was heeded
    assert done.returncode == (130 if name == "SIGINT" else -number)
    assert "Traceback" not in done.stderr and not done.stderr.strip()
    assert [each.name for each in (home / "out").iterdir()] == [old.name]
    assert old.read_bytes() == b"as it was"


@posix
@pytest.mark.parametrize("name", ["SIGTERM", "SIGKILL"])
def test_a_run_after_one_that_was_stopped_writes_every_table(name: str, home: Path):
    words = ["table", "--all", "out/OUT", "-d", "garden", "--today", TODAY]
    few = "import journal.cli.table as t\nt.NAMES = ('events', 'weather')\n"
    (home / "out" / "OUT").mkdir()
    number = int(getattr(signal, name))
    done = run(few + textwrap.dedent(STOPPED), *words, str(number), cwd=home)
    assert done.returncode == -number
    left = [each.name for each in (home / "out" / "OUT").iterdir()]
    assert len(left) == (name == "SIGKILL")
    done = run(few + "from journal.cli.start import main\nmain()", *words, cwd=home)
    assert (done.returncode, done.stdout) == (0, f"2 tables in {Path('out/OUT')}\n")
    assert {"events.csv", "weather.csv", "datapackage.json"} <= {
        each.name for each in (home / "out" / "OUT").iterdir()
    }


@posix
def test_a_hangup_that_a_parent_ignores_stays_ignored(home: Path):
    code = """
        import signal
        signal.signal(signal.SIGHUP, signal.SIG_IGN)
        from journal.cli import start
        start._heed_signals()
        print(signal.getsignal(signal.SIGHUP) is signal.SIG_IGN)
        print(signal.getsignal(signal.SIGTERM) is start._stop)
    """
    assert run(code).stdout.split() == ["True", "True"]


def test_ctrl_c_while_the_program_is_loaded_is_quiet():
    code = """
        import sys
        class Interrupt:
            def find_spec(self, name, path=None, target=None):
                if name == "click":
                    raise KeyboardInterrupt
        sys.meta_path.insert(0, Interrupt())
        from journal.cli.start import main
        main()
    """
    done = run(code)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "")


@posix
@pytest.mark.parametrize(
    ("shell", "status"),
    [
        ("haulm check >&-", 0),
        ("haulm check 2>&-", 0),
        ("haulm now >&- 2>&- <&-", 0),
        ("haulm ask <&-", 2),
    ],
)
def test_a_stream_that_is_closed_changes_no_exit_status(shell: str, status: int, home: Path):
    done = haulm(home, shell)
    assert done.returncode == status, done.stderr
    assert "fault of ours" not in done.stderr and "Traceback" not in done.stderr


@posix
def test_a_file_never_gets_the_number_of_a_closed_stream(home: Path):
    done = haulm(home, "haulm now --ics out/now.ics >&- 2>&-")
    assert done.returncode == 0
    assert (home / "out" / "now.ics").read_bytes().endswith(b"END:VCALENDAR\r\n")


@posix
@pytest.mark.parametrize("words", ["check", "now", "guide days", "--help"])
def test_output_that_finds_no_room_is_one_sentence_and_1(words: str, home: Path):
    if not Path("/dev/full").exists():
        pytest.skip("no such device here")
    done = haulm(home, f"haulm {words} >/dev/full")
    assert done.returncode == 1
    told = "Error: what is to be printed cannot be written: no space left on device\n"
    assert done.stderr == told


@posix
def test_a_refusal_that_cannot_be_told_keeps_its_exit_status(home: Path):
    if not Path("/dev/full").exists():
        pytest.skip("no such device here")
    assert haulm(home, "haulm frob 2>/dev/full").returncode == 2


@posix
@pytest.mark.parametrize("words", ["table events", "check --format json", "season --help"])
def test_a_reader_that_takes_one_line_sees_no_complaint(words: str, home: Path):
    done = haulm(home, f"haulm {words} | head -1")
    assert (done.returncode, done.stderr) == (0, "")
    assert len(done.stdout.splitlines()) == 1


@posix
def test_the_calendar_is_written_though_nobody_reads_what_stands(home: Path):
    done = haulm(home, "haulm now --ics out/now.ics --format json | true")
    assert done.stderr == ""
    assert (home / "out" / "now.ics").exists()


def test_a_pipe_without_a_reader_is_quiet_where_no_signal_tells_of_it(
    monkeypatch: pytest.MonkeyPatch,
):
    from journal.cli import streams

    assert streams.refusal_of(BrokenPipeError(32, "Broken pipe")) == ""
    told = "Error: what is to be printed cannot be written: invalid argument\n"
    assert streams.refusal_of(OSError(22, "Invalid argument")) == told
    # as Windows tells of it
    monkeypatch.setattr(streams, "_WINDOWS", True)
    assert streams.refusal_of(OSError(22, "Invalid argument")) == ""


TERMINALS = {
    "cp1252": ["PYTHONIOENCODING=cp1252"],
    "ascii, strict": ["PYTHONIOENCODING=ascii:strict"],
    "dumb": ["TERM=dumb"],
    "no colour": ["NO_COLOR=1", "PYTHONIOENCODING=ascii"],
    "narrow": ["COLUMNS=1", "LINES=1"],
    "nonsense": ["TERM=", "COLUMNS=abc", "LANG=xx_YY", "LC_ALL=tr_TR.UTF-8", "TZ=Nowhere/At_All"],
}


@posix
@pytest.mark.skipif(not shutil.which("script"), reason="no `script` to make a terminal with")
@pytest.mark.parametrize("variables", TERMINALS.values(), ids=TERMINALS)
def test_a_terminal_of_any_kind_is_written_to(variables: list[str], home: Path):
    page = "14 March 2025\n- sow ½ 大根 🫘 from → Top bed ✓\n- pick 2 kgs kale é\n- zork\n"
    (home / "garden" / "page.txt").write_text(page, encoding="utf-8")
    words = f"{sys.executable} -m journal check --hints -d garden --today {TODAY}"
    done = subprocess.run(
        ["script", "-qec", words, os.devnull],
        capture_output=True,
        cwd=home,
        stdin=subprocess.DEVNULL,
        env={**os.environ, "TERM": "xterm", **dict(each.split("=") for each in variables)},
    )
    shown = done.stdout.decode("latin-1")
    assert done.returncode == 1, shown
    assert "zork" in shown.replace("\r\n", "") or "COLUMNS=1" in variables
    assert "Traceback" not in shown and "fault of ours" not in shown
    assert "TERM=dumb" not in variables or "\x1b" not in shown
    assert "NO_COLOR=1" not in variables or not re.search(r"\x1b\[(?:\d;)*[349]\d", shown)


@posix
def test_a_user_whom_the_system_does_not_know_has_no_cache_and_nothing_is_left_about(home: Path):
    code = """
        import pwd
        def unknown(number):
            raise KeyError(number)
        pwd.getpwuid = unknown
        from journal.cli.start import main
        main()
    """
    bare = {k: v for k, v in os.environ.items() if k not in {"HOME", "HAULM_CACHE"}}
    words = ["check", "-d", str(home / "garden"), "--today", TODAY]
    done = run(code, *words, cwd=home / "out", env=bare)
    assert (done.returncode, done.stderr) == (0, "")
    assert list((home / "out").iterdir()) == []
