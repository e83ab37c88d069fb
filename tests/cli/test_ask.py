"""`haulm ask` on the command line: text, JSON, exit statuses, and the prompt."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from journal.cli.ask import ask
from journal.cli.prompt import completions

DIARY = """\
# 2025

14 March
- sow 24 leek 'Porbella' in modules in Frame
- weed Top bed 1h30
The river came up in the night.

20 June
- plant out 20 leek 'Porbella' from Frame to Top bed, 15 x 30 cm

1 December
- pick 1.2 kg leek from Top bed
- pick leek from Top bed
"""
SHEET = "- bed Top bed, 14 m2\n- frame Frame, 0.9 x 1.8 m\n"
KEYS = ["understood", "answer", "value", "unit", "date", "date_end", "rows", "evidence", "caveats"]


@pytest.fixture
def diary(tmp_path: Path) -> Path:
    (tmp_path / "plot.txt").write_text(SHEET, encoding="utf-8")
    (tmp_path / "2025.md").write_text(DIARY, encoding="utf-8")
    return tmp_path


def run(diary: Path, *words: str) -> Result:
    return CliRunner().invoke(ask, ["-d", str(diary), "--today", "2026-01-10", *words])


def test_an_answer_is_a_sentence_with_the_line_it_rests_on(diary: Path):
    result = run(diary, "When did the leeks go in?")
    assert result.exit_code == 0
    assert result.stdout == (
        "Leeks were planted out on Friday 20 June 2025, 6 months ago: 'Porbella', in Top bed.\n"
        "  2025.md:9  - plant out 20 leek 'Porbella' from Frame to Top bed, 15 x 30 cm\n"
    )


def test_a_question_may_be_typed_without_quotes(diary: Path):
    assert run(diary, "when", "did", "the", "leeks", "go", "in").exit_code == 0


def test_what_is_not_recorded_leaves_with_1_and_says_how_far_the_record_goes(diary: Path):
    result = run(diary, "When did the carrots go in?")
    assert result.exit_code == 1
    assert "the diary runs from 14 March 2025 to 1 December 2025" in result.stdout


def test_what_is_not_understood_leaves_with_3_and_offers_questions(diary: Path):
    result = run(diary, "How tall are the leeks?")
    assert result.exit_code == 3
    assert "`tall`" in result.stdout
    assert "you can ask: " in result.stdout


def test_no_question_off_a_terminal_is_a_misuse(diary: Path):
    assert run(diary).exit_code == 2


def test_json_has_the_keys_of_the_design_in_their_order(diary: Path):
    result = run(diary, "How much did we pick from Top bed in 2025?", "--format", "json")
    told = json.loads(result.stdout)
    assert list(told) == KEYS
    assert (told["understood"], told["value"], told["unit"]) == (True, 1.2, "kg")
    assert told["evidence"] == [
        {"file": "2025.md", "line": 12, "text": "- pick 1.2 kg leek from Top bed"},
        {"file": "2025.md", "line": 13, "text": "- pick leek from Top bed"},
    ]
    assert told["caveats"] == ["1 of 2 pickings has no weight, so it was at least that"]


def test_a_refusal_in_json_is_not_understood_and_holds_nothing(diary: Path):
    result = run(diary, "Why?", "--format", "json")
    told = json.loads(result.stdout)
    assert result.exit_code == 3
    assert told["understood"] is False
    assert [told[key] for key in KEYS[2:8]] == [None, None, None, None, [], []]


def test_days_in_json_are_iso(diary: Path):
    told = json.loads(run(diary, "when did I last weed", "--format", "json").stdout)
    assert (told["date"], told["date_end"]) == ("2025-03-14", "2025-03-14")
    assert told["rows"][0]["date"] == "2025-03-14"


def test_several_figures_stand_in_a_small_table(diary: Path):
    result = run(diary, "How much did we pick each year?")
    assert result.exit_code == 0
    result = run(diary, "Which place took the most time?")
    assert "Top bed took the most time in 2025: 1 hour 30 minutes" in result.stdout.replace(
        "time: ", "time in 2025: "
    )


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("When did I la", "When did I last "),
        ("when did I sow le", "when did I sow leek"),
        ("How much did we pick from to", "How much did we pick from top bed"),
    ],
)
def test_tab_completes_openings_and_names(line: str, offered: str):
    assert offered in completions(line, ["leek", "top bed", "porbella"])


def test_an_uncertain_day_goes_through_as_a_range(tmp_path: Path):
    (tmp_path / "page.txt").write_text(
        "about 20 May 2019\n- fit liner in Butt\n\n1 Jan 2026\n- sow leek in Frame\n",
        encoding="utf-8",
    )
    told = json.loads(run(tmp_path, "How old is the liner?", "--format", "json").stdout)
    assert (told["date"], told["date_end"], told["value"]) == ("2019-05-13", "2019-05-27", None)
    assert "some day from 13 to 27 May 2019" in told["answer"]
