"""`haulm table`: what it prints, what it writes, and what it refuses with a sentence."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pyarrow.parquet
import pytest
from click.testing import CliRunner, Result
from support.full_diary import full_diary

from journal.cli import table as module
from journal.diary import Diary
from journal.tables.files import to_csv
from journal.tables.schema import DIARY_TABLES, make_frame

STUDIES = {
    "harvest": lambda diary: make_frame("harvest", {}),
    "labour worth": lambda diary: make_frame("labour worth", {}),
}


@pytest.fixture(autouse=True)
def diary(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Diary:
    """The command reads a diary made from values, in the folder `garden` of the current one."""
    held = full_diary()
    monkeypatch.setattr(module, "load_diary", lambda path, today: held)
    monkeypatch.setattr(module, "STUDIES", STUDIES)
    monkeypatch.setattr(module, "NAMES", (*DIARY_TABLES, *STUDIES))
    monkeypatch.chdir(tmp_path)
    Path("garden").mkdir()
    return held


def haulm_table(*arguments: str) -> Result:
    return CliRunner().invoke(module.table, [*arguments, "-d", "garden"])


def test_a_table_is_printed_as_csv(diary: Diary) -> None:
    result = haulm_table("events")
    assert result.exit_code == 0
    assert result.stdout_bytes == to_csv(diary.events, "events")


def test_a_table_is_printed_as_json_lines() -> None:
    result = haulm_table("weather", "--format", "jsonl")
    assert [json.loads(line)["variable"] for line in result.stdout.splitlines()] == ["rain", "fog"]


@pytest.mark.parametrize(
    "words", [("labour", "worth"), ("labour worth",), ("labour_worth",), ("Labour", "Worth")]
)
def test_a_study_of_two_words_is_found_however_it_is_typed(words: tuple[str, ...]) -> None:
    result = haulm_table(*words)
    assert result.stdout == "year,place,crop,hours,kg,area_m2,hours_per_kg,hours_per_m2\n"


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("event", "did you mean `events`"),
        ("harvests", "did you mean `harvest`"),
        ("zzz", "there are events, weather"),
    ],
)
def test_an_unknown_name_leaves_with_2_and_the_near_names(name: str, told: str) -> None:
    result = haulm_table(name)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert f"there is no table or study `{name}`" in result.stderr
    assert told in result.stderr


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ((), "name a table or study"),
        (("events", "--format", "parquet"), "--out FILE"),
        (("events", "--all", "out"), "leave the rest out"),
        (("--all", "out", "--sqlite", "g.db"), "leave the rest out"),
        (("events", "--sqlite", "g.db", "--out", "e.csv"), "goes without"),
    ],
)
def test_a_contradiction_leaves_with_2_and_writes_nothing(
    arguments: tuple[str, ...], told: str
) -> None:
    result = haulm_table(*arguments)
    assert result.exit_code == 2
    assert told in result.stderr
    assert [path.name for path in Path().iterdir()] == ["garden"]


def test_a_file_is_written_and_its_rows_told(diary: Diary) -> None:
    result = haulm_table("prices", "--out", "prices.csv")
    assert result.stdout == "1 row in prices.csv\n"
    assert Path("prices.csv").read_bytes() == to_csv(diary.prices, "prices")


def test_the_ending_of_the_file_chooses_the_form_unless_one_is_named() -> None:
    haulm_table("prices", "--out", "prices.parquet")
    haulm_table("prices", "--out", "prices.jsonl")
    haulm_table("prices", "--out", "named.parquet", "--format", "jsonl")
    assert pyarrow.parquet.read_table("prices.parquet").num_rows == 1
    assert json.loads(Path("prices.jsonl").read_text("utf-8"))["crop"] == "kale"
    assert json.loads(Path("named.parquet").read_text("utf-8"))["crop"] == "kale"


@pytest.mark.parametrize("name", ["harvest.xlsx", "harvest", "harvest.csv.gz", "harvest.db"])
def test_an_ending_that_says_no_form_leaves_with_2_and_names_those_that_do(name: str) -> None:
    result = haulm_table("prices", "--out", name)
    assert result.exit_code == 2
    assert f"`{name}` ends in none of .csv, .jsonl, .parquet" in result.stderr
    assert not Path(name).exists()
    assert haulm_table("prices", "--out", name, "--format", "csv").exit_code == 0


def test_what_is_wrong_with_the_command_is_told_before_the_diary_is_read(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def unread(path: Path, today: object) -> Diary:
        raise AssertionError("the diary was read")

    monkeypatch.setattr(module, "load_diary", unread)
    for words in (("events", "--out", "missing/a.csv"), ("events", "--out", "a.xlsx"), ("evnts",)):
        assert haulm_table(*words).exit_code in {1, 2}


def test_sqlite_holds_all_tables_and_studies_or_the_one_named() -> None:
    assert haulm_table("--sqlite", "all.db").stdout == "10 tables in all.db\n"
    assert haulm_table("prices", "--sqlite", "one.db").stdout == "1 table in one.db\n"
    held = {path: _tables_in(path) for path in ("all.db", "one.db")}
    assert held["all.db"] == {*DIARY_TABLES, "harvest", "labour_worth"}
    assert held["one.db"] == {"prices"}


def _tables_in(path: str) -> set[str]:
    with closing(sqlite3.connect(path)) as database:
        return {
            name for (name,) in database.execute("SELECT name FROM sqlite_schema WHERE sql > ''")
        }


def test_all_writes_a_data_package_named_after_the_plot() -> None:
    assert haulm_table("--all", "tables").stdout == "10 tables in tables\n"
    descriptor = json.loads(Path("tables/datapackage.json").read_text("utf-8"))
    assert descriptor["title"] == "Cutler's Rise"
    assert len(list(Path("tables").glob("*.csv"))) == 10


@pytest.mark.parametrize("option", ["--out", "--sqlite"])
@pytest.mark.parametrize("page", ["garden/2026.txt", "garden/notes/new.md", "garden/met.csv"])
def test_what_the_diary_reads_is_never_written_over(option: str, page: str) -> None:
    Path("garden/notes").mkdir()
    Path("garden/2026.txt").write_text("14 March 2026\n", encoding="utf-8")
    result = haulm_table("events", option, page)
    assert result.exit_code == 2
    assert "of the diary; choose another name" in result.stderr
    assert Path("garden/2026.txt").read_text(encoding="utf-8") == "14 March 2026\n"
    assert not Path("garden/met.csv").exists()


def test_a_diary_of_one_file_is_never_written_over() -> None:
    Path("garden.txt").write_text("14 March 2026\n", encoding="utf-8")
    result = CliRunner().invoke(module.table, ["events", "-d", "garden.txt", "--out", "garden.txt"])
    assert result.exit_code == 2
    assert Path("garden.txt").read_text(encoding="utf-8") == "14 March 2026\n"


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            ("events", "--out", "missing/events.csv"),
            "there is no folder `missing` to write `events.csv` in",
        ),
        (("--sqlite", "missing/g.db"), "there is no folder `missing` to write `g.db` in"),
        (("--all", "missing/tables"), "there is no folder `missing` to write `tables` in"),
        (("events", "--out", ".", "--format", "csv"), "`.` is a folder or a device, not a file"),
        (("--all", "."), "`.` holds files that haulm did not write"),
    ],
)
def test_what_cannot_be_written_is_told_in_one_sentence(
    arguments: tuple[str, ...], told: str
) -> None:
    result = haulm_table(*arguments)
    assert result.exit_code == 1
    assert told in result.stderr
    assert len(result.stderr.splitlines()) == 1
    assert [path.name for path in Path().iterdir()] == ["garden"]


def test_a_disk_that_refuses_is_told_by_the_name_that_was_given(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refuse(self: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device", str(self))

    monkeypatch.setattr(Path, "write_bytes", refuse)
    for arguments in (("events", "--out", "new.csv"), ("--all", "new.csv")):
        result = haulm_table(*arguments)
        assert result.exit_code == 1
        assert result.stderr == "Error: `new.csv` cannot be written: no space left on device\n"


def test_the_help_has_two_worked_examples_and_every_name() -> None:
    text = CliRunner().invoke(module.table, ["--help"]).stdout
    assert text.count("  haulm table ") == 2
    assert all(name in text for name in DIARY_TABLES)


def test_a_written_diary_is_printed_and_its_problems_do_not_change_the_status(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.undo()
    page = "14 March 2026\n- pick 1.2 kg kale from Top bed\n- pick 3 kgs kale from\n"
    path = tmp_path / "2026.txt"
    path.write_text(page, encoding="utf-8")
    result = CliRunner().invoke(module.table, ["events", "--today", "2026-03-20", "-d", str(path)])
    assert result.exit_code == 0
    assert result.stdout.startswith("event,entry,date,")
    assert result.stdout.splitlines()[1].startswith("1,1,2026-03-14,2026-03-14,harvest,pick,kale")
    assert "kgs" in result.stderr
