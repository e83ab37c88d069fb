"""`haulm check`: what it prints, in which form, and with which exit status it leaves."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from journal.cli.main import cli
from journal.problems.codes import CODES

SHEET = "- bed Long 1, 1.2 x 4.8 m\n- bed Top bed, 14 m2\n"
FINE = (
    "# 2026\n\nSat 14 March\nMist till ten.\n\n- pick 1.2 kg kale from Long 1\n- weed Long 1 1h\n"
)
WRONG = "14 March 2026\n- pick 1.2 kgs kale from Top bed\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "plot.txt").write_text(SHEET, encoding="utf-8")
    return tmp_path


def check(folder: Path, page: str, *words: str) -> Result:
    (folder / "2026.txt").write_text(page, encoding="utf-8")
    return run("-d", str(folder), "--today", "2026-11-25", *words)


def run(*words: str) -> Result:
    return CliRunner().invoke(cli, ["check", *words])


def test_a_fine_diary_looks_fine(folder: Path):
    shown = check(folder, FINE)
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert shown.stdout == "fine: 2 entries on 1 day in 2 files\n"


def test_an_error_is_shown_with_its_place_and_leaves_with_1(folder: Path):
    shown = check(folder, WRONG)
    assert shown.exit_code == 1
    assert shown.stdout.startswith("error[J4")
    assert " --> 2026.txt:2:12\n" in shown.stdout
    assert "\n2 | - pick 1.2 kgs kale from Top bed\n  |            ^^^\n" in shown.stdout
    assert shown.stdout.endswith("\n1 error: 1 entry on 1 day in 2 files\n")


def test_a_warning_leaves_with_0(folder: Path):
    shown = check(folder, "14 March 2027\n- weed Long 1\n")
    assert shown.exit_code == 0
    assert shown.stdout.startswith("warning[J2")


def test_hints_are_counted_and_shown_when_asked_for(folder: Path):
    page = "14 March 2026\n- pick 1 kg kale from Orchard end\n"
    counted = check(folder, page)
    assert counted.exit_code == 0 and "hint[" not in counted.stdout
    assert f"1 hint: `haulm check -d {folder} --hints`" in counted.stdout
    shown = check(folder, page, "--hints")
    assert "hint[J3" in shown.stdout and "--hints" not in shown.stdout
    assert shown.exit_code == 0


def test_the_short_form_is_a_line_a_problem(folder: Path):
    first, closing = check(folder, WRONG, "--format", "short").stdout.splitlines()
    assert first.startswith("2026.txt:2:12: error[J4")
    assert closing.startswith("1 error")


def test_json_is_the_problems_table_with_hints(folder: Path):
    page = WRONG + "- pick 1 kg kale from Orchard end\n"
    shown = check(folder, page, "--format", "json")
    rows = json.loads(shown.stdout)
    assert shown.exit_code == 1 and shown.stderr == ""
    assert [row["severity"] for row in rows] == ["error", "hint"]
    asked = ["table", "problems", "-d", str(folder), "--today", "2026-11-25", "--format", "jsonl"]
    table = CliRunner().invoke(cli, asked).stdout
    assert rows == [json.loads(line) for line in table.splitlines()]


def test_a_fine_diary_is_an_empty_list_as_json(folder: Path):
    shown = check(folder, FINE, "--format", "json")
    assert (shown.exit_code, json.loads(shown.stdout)) == (0, [])


def test_a_single_file_is_a_diary_too(tmp_path: Path):
    page = tmp_path / "garden.md"
    page.write_text("- bed Long 1, 14 m2\n\n14 March 2026\n- weed Long 1 1h\n", encoding="utf-8")
    assert run("-d", str(page)).stdout == "fine: 1 entry on 1 day in 1 file\n"


def test_a_missing_path_is_one_sentence_and_2(tmp_path: Path):
    shown = run("-d", str(tmp_path / "nowhere"))
    assert (shown.exit_code, shown.stdout) == (2, "")
    assert shown.stderr == f"Error: there is no file or folder `{tmp_path / 'nowhere'}`\n"


def test_a_folder_without_a_page_is_one_sentence_and_2(tmp_path: Path):
    shown = run("-d", str(tmp_path))
    assert (shown.exit_code, shown.stdout) == (2, "")
    assert shown.stderr.count("\n") == 1 and "begin one with `haulm new FOLDER`" in shown.stderr


def test_bytes_that_are_no_text_are_an_error_and_the_rest_is_read(folder: Path):
    (folder / "2025.txt").write_bytes(b"14 March 2025\ncaf\xe9 au lait\n- weed Long 1 1h\n")
    shown = check(folder, FINE)
    assert shown.exit_code == 1
    assert shown.stdout.startswith("error[J0") and "3 entries on 2 days" in shown.stdout


def test_the_diary_comes_from_the_environment_or_the_current_folder(folder: Path, monkeypatch):
    check(folder, FINE)
    monkeypatch.setenv("HAULM_DIARY", str(folder))
    assert run().stdout.startswith("fine: 2 entries")
    monkeypatch.delenv("HAULM_DIARY")
    monkeypatch.chdir(folder)
    assert run().stdout.startswith("fine: 2 entries")


def test_a_day_that_is_none_shows_the_form(folder: Path):
    shown = run("-d", str(folder), "--today", "1 March")
    assert shown.exit_code == 2 and "`1 March` is no day; write it as 2026-03-01" in shown.stderr


@pytest.mark.parametrize("code", CODES)
def test_a_code_is_explained_with_an_example_and_its_cure(code: str):
    shown = run("--explain", code.lower())
    assert shown.exit_code == 0
    row = CODES[code]
    assert shown.stdout.startswith(f"{row.severity.value}[{code}] {row.name}\n{row.title}\n")
    for text in (row.failing, row.cure):
        for line in text.strip("\n").split("\n"):
            assert f"    {line}".rstrip() in shown.stdout
    assert run("--explain", row.name).stdout == shown.stdout


def test_a_code_that_is_none_is_answered_with_the_nearest():
    shown = run("--explain", "J1O1")
    assert shown.exit_code == 2 and "there is no code `J1O1`; did you mean J" in shown.stderr


def test_no_colour_goes_into_a_pipe_and_none_with_no_color(folder: Path, monkeypatch):
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert "\x1b[" in check(folder, WRONG).stdout
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b[3" not in check(folder, WRONG).stdout
    monkeypatch.delenv("FORCE_COLOR")
    monkeypatch.delenv("NO_COLOR")
    assert "\x1b" not in check(folder, WRONG).stdout


def test_other_commands_tell_the_worst_on_standard_error_and_still_answer(folder: Path):
    page = "14 March 2026\n" + "- pick 1.2 kgs kale from Top bed\n" * 5
    (folder / "2026.txt").write_text(page, encoding="utf-8")
    words = ["table", "events", "-d", str(folder), "--today", "2026-11-25"]
    shown = CliRunner().invoke(cli, words)
    assert shown.exit_code == 0 and shown.stdout.startswith("event,entry,date")
    assert shown.stderr.count("error[") == 3
    assert shown.stderr.endswith(f"2 more errors; `haulm check -d {folder}` shows them all\n")
