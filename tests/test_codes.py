"""Every code: its number and name, its failing example, its cure, its case, and its words."""

import re
from datetime import date
from pathlib import Path
from textwrap import wrap

import pytest
from support.corpus import read_corpus

from journal.problems.codes import CODES, Code
from journal.problems.model import Problem
from journal.reading import read_folder, read_sources
from journal.source import Source
from journal.syntax.verbs import SHEET_WORDS

CORPUS = Path(__file__).parent / "corpus"
TODAY = date(2026, 11, 25)
ROWS = list(CODES.values())
# What an entry can be told to do; a mend begins with one of these or asks "did you mean".
IMPERATIVES = {"add", "close", "correct", "declare", "give", "leave", "name", "put", "save", "say"}
IMPERATIVES |= {"split", "take", "write", "move", "remove", "check", "spell", "start", "use"}
BANNED = re.compile(r"\b(invalid|illegal|unexpected|expected one of)\b", re.IGNORECASE)
# Five capitals or underscores in a row, outside backticks, are a terminal's name that leaked.
LEAKED = re.compile(r"\b(?!UTF-)[A-Z_]{4,}\b|__\w+")


# What the examples of the registry stand on. One that opens with an entry stands under this day,
# but for the code that says that there is none.
SHEET = Source("plot.txt", "- bed Weir bed, 14 m2\n- house Glasshouse, 3 x 6 m\n")
DAY = "14 March 2026\n\n"
NO_DAY = "J208"
# Faults of a file's bytes and of met files have no example as text; their tests stand below and in
# tests/met/.
OF_FILES = {f"J{number:03}" for number in range(1, 11)}
WRITTEN = [row for row in ROWS if row.code not in OF_FILES]


def problems_of(row: Code, text: str) -> list[Problem]:
    """What is wrong with an example of a code."""
    opening = re.match(r"- (\w+)", text)
    undated = opening and opening[1] not in SHEET_WORDS and row.code != NO_DAY
    page = Source("case.txt", DAY + text if undated else text)
    return list(read_sources([SHEET, page], TODAY).problems)


CASES = [case for file in sorted(CORPUS.glob("*.md")) for case in read_corpus(file)]


def all_problems() -> list[Problem]:
    """Each problem that an example of the registry or a case of the corpus gives."""
    found = [problem for row in WRITTEN for problem in problems_of(row, row.failing)]
    for case in CASES:
        if "diary" in case.blocks:
            found += case.read().problems
    return list({(row.code, row.message, row.mend): row for row in found}.values())


def wording_faults(message: str, mend: str | None) -> list[str]:
    """The rules of wording that a message and its mend break."""
    faults = []
    bare = re.sub(r"`[^`]*`", "", message)
    if len(message) >= 80:
        faults.append("is 80 characters or longer")
    if bare[:1].isupper() and not message.startswith("`"):
        faults.append("opens with a capital")
    if message.endswith((".", "!", ":")) or "\n" in message:
        faults.append("is not one sentence without a stop")
    if BANNED.search(bare) or (mend and BANNED.search(mend)):
        faults.append("has a word that says nothing")
    if LEAKED.search(bare):
        faults.append("speaks of the parser's own names")
    if mend is not None:
        first = mend.split(" ")[0]
        if first not in IMPERATIVES and not mend.startswith("did you mean"):
            faults.append(f"has a mend that opens with `{first}`")
        if mend.endswith(".") or "\n" in mend:
            faults.append("has a mend with a stop")
    return faults


def test_the_registry_is_there():
    assert len(ROWS) > 20


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.code)
def test_a_code_has_a_number_a_name_and_an_explanation(row: Code):
    assert re.fullmatch(r"J[0-6]\d\d", row.code) and CODES[row.code] is row
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", row.name)
    assert row.title and bool(row.failing.strip()) == bool(row.cure.strip()) == (row in WRITTEN)
    assert 1 <= len(wrap(row.explanation, 60)) <= 6 and row.explanation.rstrip().endswith(".")
    assert not BANNED.search(row.title + row.explanation)


def test_no_two_codes_share_a_name():
    assert len({row.name for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("row", WRITTEN, ids=lambda row: row.code)
def test_the_failing_example_gives_its_code_once_and_nothing_else(row: Code):
    assert [problem.code for problem in problems_of(row, row.failing)] == [row.code]


@pytest.mark.parametrize("row", WRITTEN, ids=lambda row: row.code)
def test_the_cure_gives_nothing(row: Code):
    assert [(problem.code, problem.message) for problem in problems_of(row, row.cure)] == []


@pytest.mark.parametrize("row", WRITTEN, ids=lambda row: row.code)
def test_every_code_has_a_case_in_the_corpus(row: Code):
    told = [case.blocks["problems"].text for case in CASES if "problems" in case.blocks]
    assert any(f"[{row.code}]" in text for text in told)


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"14 March 2026\ncaf\xe9\n", "J001"),
        ("14 March 2026\nfog\n".encode("utf-16"), "J002"),
    ],
)
def test_bytes_that_are_not_utf_8_are_one_problem(tmp_path: Path, content: bytes, code: str):
    (tmp_path / "page.txt").write_bytes(content)
    reading = read_folder(tmp_path, TODAY)
    assert [problem.code for problem in reading.problems] == [code]
    assert [paragraph.date for paragraph in reading.prose] == [date(2026, 3, 14)]
    (tmp_path / "page.txt").write_bytes("14 March 2026\ncafé\n".encode())
    assert read_folder(tmp_path, TODAY).problems == ()


def test_a_file_that_cannot_be_opened_is_one_problem(tmp_path: Path, monkeypatch):
    (tmp_path / "page.txt").write_bytes(b"14 March 2026\n")

    def refuses(self: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "read_bytes", refuses)
        assert [problem.code for problem in read_folder(tmp_path, TODAY).problems] == ["J003"]
    assert read_folder(tmp_path, TODAY).problems == ()


def test_every_message_and_mend_keeps_the_rules_of_wording():
    faults = {
        f"{problem.code}: {problem.message} | {problem.mend}": broken
        for problem in all_problems()
        if (broken := wording_faults(problem.message, problem.mend))
    }
    assert faults == {}


@pytest.mark.parametrize(
    ("message", "mend"),
    [
        ("Unit `kgs` is wrong", None),
        ("`kgs` is not a unit.", None),
        ("`kgs` is an invalid unit", None),
        ("`in` needs NEWLINE after it", None),
        ("`in` stands before __ANON_0", None),
        ("`kgs` is not a unit", "kg"),
        ("`kgs` is not a unit, and this goes on and on until nobody can read it in one line", None),
    ],
)
def test_the_rules_of_wording_find_a_breach(message: str, mend: str | None):
    assert wording_faults(message, mend)
