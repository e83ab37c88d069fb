"""Folders and files that nobody would wish for: each is told clearly, none stops the reading."""

import os
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.invariants import reading_faults

from journal.cli.main import cli
from journal.diary import Diary
from journal.reading import Reading, read_folder, read_sources
from journal.source import Source
from journal.tables.files import to_csv

TODAY = date(2026, 11, 25)
PAGE = "# 2026\n\n14 March\n- pick 1 kg kale\n- weed Top bed 30 min\n"
SHEET = "- bed Top bed, 14 m2\n"


def read_bytes(folder: Path, content: bytes) -> Reading:
    (folder / "plot.txt").write_text(SHEET, encoding="utf-8")
    (folder / "page.txt").write_bytes(content)
    return read_folder(folder, TODAY)


def rows(reading: Reading) -> list[tuple[str, str]]:
    """The events of the page as day and kind."""
    return [(str(e.date), e.kind) for e in reading.events if e.source.path == "page.txt"]


def codes(reading: Reading) -> list[str]:
    return [problem.code for problem in reading.problems]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_end_as_on_any_system(tmp_path: Path, end: str):
    reading = read_bytes(tmp_path, PAGE.replace("\n", end).encode())
    assert [day for day, _ in rows(reading)] == ["2026-03-14", "2026-03-14"]
    assert codes(reading) == []
    assert list(reading_faults(reading)) == []
    last = [e for e in reading.events if e.source.path == "page.txt"][-1]
    assert last.source.line_number(last.span.start) == 5


def test_line_ends_may_be_mixed():
    source = Source("page.txt", "a\rb\r\nc\nd\r\re\r")
    assert [source.line_text(n) for n in range(1, source.line_count + 1)] == [*"abcd", "", "e", ""]


@pytest.mark.parametrize(
    ("encoding", "code", "named"),
    [
        ("utf-8-sig", None, ""),
        ("utf-16", "J002", "UTF-16"),
        ("utf-16-le", "J002", "UTF-16"),
        ("utf-16-be", "J002", "UTF-16"),
        ("utf-32", "J002", "UTF-32"),
    ],
)
def test_another_encoding_is_read_and_told(tmp_path: Path, encoding: str, code: str, named: str):
    reading = read_bytes(tmp_path, PAGE.encode(encoding))
    assert len(rows(reading)) == 2
    assert codes(reading) == ([code] if code else [])
    assert all(f"`page.txt` is {named}, not UTF-8" == p.message for p in reading.problems)
    assert all(p.mend == "save the file as UTF-8 in your editor" for p in reading.problems)


def test_a_single_byte_encoding_is_told_at_its_first_byte(tmp_path: Path):
    content = "14 March 2026\n- buy leek plants £3 (naïve, 20 °C)\n".encode("latin-1")
    (problem, *_) = [p for p in read_bytes(tmp_path, content).problems if p.code == "J001"]
    assert "0xA3" in problem.message and "the first of 3" in problem.message
    assert problem.source.line_column(problem.span.start) == (2, 19)


def test_bytes_that_are_no_text_cost_no_more_than_their_number(tmp_path: Path):
    reading = read_bytes(tmp_path, b"14 March 2026\n" + bytes([0xFF, 0x41]) * 200_000)
    assert codes(reading).count("J001") == 1


NUMBERS = [
    "1e999",
    "9" * 400,
    "0." + "0" * 400 + "1",
    "1e-999",
    "9" * 5000,
    "٣",
    "９９",
    "²",
    "1/0",
]
ENTRIES = (
    "pick {} kg kale", "buy {} leek plants £{}", "weed Top bed {} min", "water Top bed {} l",
    "weather {} C, rain {} mm", "lose {} of {} leek", "feed leek with tomato feed 1:{}",
    "sow leek, {} rows of {} m, {} cm apart", "spread {} barrows manure on Top bed",
    "sow leek in {} weeks", "plan sow leek by {} March", "weed Top bed every {} weeks",
    "on {} Nov pick kale", "store {} kg potato at {} C",
)  # fmt: skip


@pytest.mark.parametrize("number", NUMBERS, ids=lambda number: number[:8])
def test_a_figure_beyond_all_measure_is_never_in_the_tables(number: str):
    entries = "".join(f"- {entry.replace('{}', number)}\n" for entry in ENTRIES)
    sheet = "".join(
        f"- {line.replace('{}', number)}\n"
        for line in ("bed A, {} x {} m", "tank B, {} l", "measure c, {} l", "plot P, latitude {}")
    )
    for today in (TODAY, date(1600, 1, 1)):
        page = f"{number} March 2026\n14 March 2026\n{entries}{number}\n"
        sources = [Source("plot.txt", sheet + SHEET), Source("page.txt", page)]
        reading = read_sources(sources, today)
        assert list(reading_faults(reading)) == []
        diary = Diary(reading, today)
        for name in ("events", "weather", "places", "crops", "prices"):
            cells = to_csv(getattr(diary, name), name).decode()
            assert "inf" not in cells.lower().split(",") and "nan" not in cells.lower().split(",")


@pytest.mark.parametrize(
    "odd",
    [
        "- pick 1 kg \u202ekale\u202c from \u200fTop bed\u200e",
        "- pick 1 kg\0 kale",
        "- pick 🫘 1 kg kale 🥬 \U0010fffd\U000f0000\U000fffff",
        "- \ud800\udfff pick".encode("utf-16", "surrogatepass").decode("utf-16"),
        "\x1b[31m- pick 1 kg kale\x1b[0m",
        "- pick 1 kg kale\u2028- weed",
        "\ufeff- pick 1 kg kale",
        "-" * 5000,
        "- " + "(" * 3000 + ")" * 3000,
    ],
)
def test_odd_signs_lose_nothing_and_leave_the_next_line_alone(tmp_path: Path, odd: str):
    content = f"14 March 2026\n{odd}\n- weed Top bed 30 min\n".encode()
    reading = read_bytes(tmp_path, content)
    assert list(reading_faults(reading)) == []
    assert rows(reading)[-1] == ("2026-03-14", "job")
    result = CliRunner().invoke(cli, ["check", "-d", str(tmp_path), "--today", str(TODAY)])
    assert result.exit_code in {0, 1}
    assert not set(result.output) & {"\0", "\x1b", "\u202e"}


# A folder is not what it seems.


def told(folder: Path) -> list[tuple[str, str]]:
    return [(p.source.path, p.message) for p in read_folder(folder, TODAY).problems]


def write(folder: Path, *names: str) -> None:
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("14 March 2026\n- weed 30 min\n", encoding="utf-8")


def test_a_link_out_of_the_folder_is_told_and_not_read(tmp_path: Path):
    write(tmp_path, "secret/key.txt", "garden/2026.txt")
    (tmp_path / "garden" / "out.txt").symlink_to(tmp_path / "secret" / "key.txt")
    (tmp_path / "garden" / "folder").symlink_to(tmp_path / "secret")
    reading = read_folder(tmp_path / "garden", TODAY)
    assert len(reading.events) == 1
    message = "`out.txt` cannot be opened: it is a link out of the diary"
    assert told(tmp_path / "garden") == [("out.txt", message)]


def test_a_link_inside_the_folder_counts_no_page_twice(tmp_path: Path):
    write(tmp_path, "2026.txt", "older.text")
    (tmp_path / "latest.txt").symlink_to("2026.txt")
    (tmp_path / "older.txt").symlink_to("older.text")
    reading = read_folder(tmp_path, TODAY)
    assert [source.path for source in reading.sources] == ["2026.txt", "older.txt"]


def test_links_that_lead_round_in_a_ring_or_nowhere_end(tmp_path: Path):
    write(tmp_path, "2026.txt")
    (tmp_path / "again").symlink_to(".")
    (tmp_path / "self.txt").symlink_to("self.txt")
    (tmp_path / "gone.txt").symlink_to("nowhere.txt")
    assert [message for _, message in told(tmp_path)] == [
        "`gone.txt` cannot be opened: it is a link to nothing",
        "`self.txt` cannot be opened: it is a link to nothing",
    ]


def test_a_folder_or_a_pipe_that_is_called_like_a_page_is_none(tmp_path: Path):
    write(tmp_path, "2026.txt", "old.txt/2025.txt")
    os.mkfifo(tmp_path / "pipe.txt")
    reading = read_folder(tmp_path, TODAY)
    assert [source.path for source in reading.sources] == ["2026.txt", "old.txt/2025.txt"]
    assert codes(reading) == []


def test_a_folder_deeper_than_names_can_tell_is_told(tmp_path: Path):
    write(tmp_path, "2026.txt")
    handle = os.open(tmp_path, os.O_RDONLY)
    for _ in range(20):
        os.mkdir("d" * 250, dir_fd=handle)
        deeper = os.open("d" * 250, os.O_RDONLY, dir_fd=handle)
        os.close(handle)
        handle = deeper
    os.close(handle)
    ((_, message),) = told(tmp_path)
    assert "cannot be opened: file name too long" in message and len(message) < 200


@pytest.mark.parametrize("failure", [PermissionError(13, "Permission denied"), OSError(5, "Input")])
def test_a_folder_that_cannot_be_listed_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failure: OSError
):
    write(tmp_path, "2026.txt", "shut/2025.txt")
    _fail(monkeypatch, "scandir", tmp_path / "shut", failure)
    ((_, message),) = told(tmp_path)
    assert message == f"`shut` cannot be opened: {failure.strerror.lower()}"


def test_a_page_that_goes_between_listing_and_reading_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    write(tmp_path, "2025.txt", "2026.txt")
    read = Path.read_bytes

    def vanish(self: Path) -> bytes:
        if self.name == "2026.txt":
            self.unlink()
        return read(self)

    monkeypatch.setattr(Path, "read_bytes", vanish)
    reading = read_folder(tmp_path, TODAY)
    assert len(reading.events) == 1
    assert [p.message for p in reading.problems] == [
        "`2026.txt` cannot be opened: no such file or directory"
    ]
    assert reading.has_errors


def _fail(monkeypatch: pytest.MonkeyPatch, name: str, place: Path, failure: OSError) -> None:
    real: Callable[..., object] = getattr(os, name)

    def fail(path: Path, *rest: object) -> object:
        if Path(path) == place:
            raise failure
        return real(path, *rest)

    monkeypatch.setattr(os, name, fail)


@pytest.mark.skipif(os.name == "nt", reason="names there are text")
def test_names_that_are_no_text_go_through_every_output(tmp_path: Path):
    name = os.fsencode(tmp_path) + b"/bad\xff\x1b[31m.txt"
    Path(os.fsdecode(name)).write_text("14 March 2026\n- pick 3 kgs kale\n", encoding="utf-8")
    for words in (["check"], ["check", "--format", "json"], ["table", "events"], ["now"]):
        result = CliRunner().invoke(cli, [*words, "-d", str(tmp_path), "--today", str(TODAY)])
        assert result.exit_code in {0, 1}, result.output
        assert result.exception is None or isinstance(result.exception, SystemExit)
        result.output.encode("utf-8")
    assert "\x1b" not in CliRunner().invoke(cli, ["check", "-d", str(tmp_path)]).output


def test_a_day_line_of_a_megabyte_is_prose_and_a_million_blank_lines_are_nothing(tmp_path: Path):
    reading = read_bytes(tmp_path, b"14 March 2026 " * 70_000 + b"\n" * 1_000_000)
    assert list(reading_faults(reading)) == []
    assert len(reading.prose) == 1
