"""`haulm ask` on the command line: text, JSON, exit statuses, and the prompt."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.typed import Typed, needs_a_terminal

from journal.cli.ask import ask
from journal.cli.prompt import completions, spellings
from journal.diary import read
from journal.questions.answer import names_of

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
        ("How much did we pick from to", "How much did we pick from Top bed"),
        ("How much did we pick from top b", "How much did we pick from Top bed"),
    ],
)
def test_tab_completes_openings_and_names(line: str, offered: str):
    assert offered in completions(line, ["leek", "Top bed", "Porbella"])


def test_tab_takes_away_no_letter_that_was_typed_where_names_differ_in_capitals():
    found = completions("When did the pl", ["Platform 1", "plum", "Plot"])
    assert found == ["When did the platform 1", "When did the plum", "When did the plot"]


def test_names_are_completed_as_the_diary_writes_them(diary: Path):
    names = spellings(names_of(read(diary)))
    assert {"Top bed", "Porbella", "Porbellas", "leek", "leeks"} <= set(names)
    assert "porbella" not in names


# ---------------------------------------------------------------- on a terminal


@pytest.fixture
def terminal(diary: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[], Typed]:
    """Opens the prompt on a terminal of its own; what it says is waited for, never slept for."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("TERM", "dumb")
    return lambda: Typed("ask", "-d", str(diary), "--today", "2026-01-10")


@needs_a_terminal
def test_the_prompt_answers_completes_clears_a_line_and_leaves_quietly(terminal):
    with terminal() as screen:
        screen.wait_for("ask> ")
        screen.type("When did I la\tsow porb\t")
        screen.wait_for("ella")
        screen.type("\n")
        screen.wait_for("14 March 2025")
        screen.wait_for("ask> ")
        screen.type("half a line")
        screen.wait_for("half a line")
        screen.interrupt_until("ask> ")
        # the line was cleared: what is typed now is a question of its own
        screen.type("how tall are they\n")
        screen.wait_for("`they`")
        screen.wait_for("ask> ")
        screen.type("\x04")
        assert screen.status() == 0
    assert "Traceback" not in screen.said


@needs_a_terminal
def test_a_question_of_an_earlier_run_comes_back_with_the_arrow(terminal, tmp_path: Path):
    with terminal() as screen:
        screen.wait_for("ask> ")
        screen.type("when did the leeks go in\n")
        screen.wait_for("20 June 2025")
        screen.wait_for("ask> ")
        screen.type("\x04")
        assert screen.status() == 0
    assert (tmp_path / "state" / "haulm" / "asked").read_text().splitlines() == [
        "when did the leeks go in"
    ]
    with terminal() as screen:
        screen.wait_for("ask> ")
        # Ctrl-P is the arrow up of a terminal of any kind
        screen.type("\x10")
        screen.wait_for("when did the leeks go in")
        screen.type("\n")
        screen.wait_for("20 June 2025")
        screen.wait_for("ask> ")
        screen.type("\x04")
        assert screen.status() == 0


def test_an_uncertain_day_goes_through_as_a_range(tmp_path: Path):
    (tmp_path / "page.txt").write_text(
        "about 20 May 2019\n- fit liner in Butt\n\n1 Jan 2026\n- sow leek in Frame\n",
        encoding="utf-8",
    )
    told = json.loads(run(tmp_path, "How old is the liner?", "--format", "json").stdout)
    assert (told["date"], told["date_end"], told["value"]) == ("2019-05-13", "2019-05-27", None)
    assert "some day from 13 to 27 May 2019" in told["answer"]
