"""What was typed wrongly is told in this house's words: what it was, and what to type."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from journal.cli.main import COMMANDS, cli

SLIPS = {
    "season abc": "`abc` is no year; write it as 2025",
    "season --against x": "`--against x` is no year; write it as 2025",
    "chart harvest": "`--out FILE` is missing",
    "chart harvest --out a.svg --year 1e9": "`--year 1e9` is no year; write it as 2025",
    "table events --format xml": "`--format xml` is not one of csv, jsonl and parquet",
    "table events --frmat csv": "there is no option `--frmat`; did you mean `--format`?",
    "table --zzz": "there is no option `--zzz`; `haulm table --help` lists them",
    "table events --out": "`--out` is missing what it names",
    "new a b": "`b` is one word too many; put names of several words in quotes",
    "new": "`FOLDER` is missing",
    "check --hints=3": "`--hints` takes no value",
    "check --today 31-12-2026": "`31-12-2026` is no day; write it as 2026-03-01",
    "now --today 9999-12-31": "`9999-12-31` is outside 1600 to 2199",
    "--loud": "there is no option `--loud`; `haulm --help` lists them",
}
BANNED = re.compile(r"\b(invalid|illegal|unexpected|expected)\b|not a valid", re.I)


@pytest.mark.parametrize("typed", SLIPS)
def test_a_slip_on_the_command_line_is_one_sentence_and_2(typed: str) -> None:
    result = CliRunner().invoke(cli, typed.split(), prog_name="haulm")
    assert result.exit_code == 2
    assert result.stderr.splitlines()[-1] == f"Error: {SLIPS[typed]}"


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("slip", [["--nonsense"], ["--today"], ["--today", "x"], ["a\x1bb", "c"]])
def test_no_command_answers_a_slip_in_words_of_another_house(
    name: str, slip: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(cli, [name, *slip], prog_name="haulm")
    assert result.exit_code in {1, 2, 3}
    said = result.stderr.partition("Error:")[2]
    assert not BANNED.search(said), said
