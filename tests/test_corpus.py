"""Every case of tests/corpus/*.md, and the reader of those files itself."""

from collections import defaultdict
from pathlib import Path
from textwrap import dedent

import pytest
from support.corpus import (
    COMPARED,
    Case,
    CorpusError,
    DayRow,
    day_meant,
    differences,
    read_corpus,
    rewrite,
)
from support.invariants import broken_promises

FOLDER = Path(__file__).parent / "corpus"
CASES = [case for file in sorted(FOLDER.glob("*.md")) for case in read_corpus(file)]
PAGES = [case for case in CASES if "diary" in case.blocks]
DAYS = [(case, row) for case in CASES for row in case.days]


@pytest.fixture(scope="session")
def rewritten():
    """What --update-corpus has to write, by file; written when the last case has run."""
    changes: dict[Path, list[tuple[Case, str, str]]] = defaultdict(list)
    yield changes
    for file, rows in changes.items():
        rewrite(file, rows)


@pytest.mark.parametrize("case", PAGES, ids=lambda case: case.name)
def test_a_page_reads_as_its_case_says(case: Case, request: pytest.FixtureRequest, rewritten):
    wrong = differences(case)
    if wrong and request.config.getoption("--update-corpus"):
        rewritten[case.file] += [(case, name, text) for name, text in wrong.items()]
        pytest.fail(f"rewritten: {', '.join(wrong)}; read the difference before it counts")
    for name, found in wrong.items():
        expected = case.blocks[name].text.strip("\n") if name in case.blocks else ""
        assert found.strip("\n") == expected, f"{case.name}: {name}"


@pytest.mark.parametrize("case", PAGES, ids=lambda case: case.name)
def test_a_page_keeps_what_every_reading_promises(case: Case):
    assert not broken_promises([*case.sheet, case.page], case.today)


@pytest.mark.parametrize(
    ("case", "row"), DAYS, ids=[f"{case.file.name}:{row.line} {row.written}" for case, row in DAYS]
)
def test_a_day_line_means_the_days_of_its_row(case: Case, row: DayRow):
    assert day_meant(case.sheet, row.written, 2026, case.today) == (row.first, row.last)


def test_the_corpus_is_there():
    assert len(PAGES) > 50 and len(DAYS) > 20


def corpus_file(folder: Path, text: str) -> Path:
    file = folder / "case.md"
    file.write_text(dedent(text), encoding="utf-8")
    return file


def test_a_heading_with_blocks_is_a_case_and_one_without_a_section(tmp_path: Path):
    file = corpus_file(
        tmp_path,
        """\
        # Verbs of the harvest
        ```plot
        - bed Long 1, 14 m2
        ```
        ## Section
        ### A case
        Why it is so.
        ```diary today=2026-03-01 file=2025.txt
        - pick kale
        ```
        ```events
        ```
        ### Another
        ```diary
        - pick leek
        ```
        ```plot
        ```
        """,
    )
    first, second = read_corpus(file)
    assert (first.line, first.title) == (6, "A case")
    assert first.page.path == "2025.txt" and first.page.text == "- pick kale\n"
    assert str(first.today) == "2026-03-01"
    assert first.sheet[0].text == "- bed Long 1, 14 m2\n"
    assert second.sheet[0].text == ""


def test_a_table_gives_day_lines(tmp_path: Path):
    file = corpus_file(
        tmp_path,
        """\
        ## Days
        | written | first | last |
        | --- | --- | --- |
        | `14 March` | 2026-03-14 | 2026-03-14 |
        | `31 June` | error | |
        """,
    )
    (case,) = read_corpus(file)
    assert case.days == [
        DayRow(4, "14 March", "2026-03-14", "2026-03-14"),
        DayRow(5, "31 June", "error", ""),
    ]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("## A\n```diray\n```\n", "case.md:2: `diray` is no kind of block"),
        ("## A\n```diary\n- weed\n", "case.md:2: the block is never closed"),
        ("```diary\n```\n", "case.md:1: before the first case only one `plot`"),
        ("## A\n```diary\n```\n```diary\n```\n", "case.md:4: a second `diary` block"),
        ("## A\n```events\n```\n", "case.md:1: `A` has no `diary` block"),
        ("## A\n  ```diary\n  ```\n", "case.md:2: a fence stands at the start"),
        ("## A\n| written | first | last |\n| - | - | - |\n", "case.md:2: the table has no row"),
        ("# Nothing\n", "case.md:1: no case stands here"),
    ],
)
def test_a_malformed_file_is_refused_with_its_line(tmp_path: Path, text: str, why: str):
    with pytest.raises(CorpusError) as refusal:
        read_corpus(corpus_file(tmp_path, text))
    assert str(refusal.value).startswith(why)


def test_rewriting_fills_the_blocks_and_adds_missing_problems(tmp_path: Path):
    file = corpus_file(
        tmp_path,
        """\
        ## A
        ```diary
        - pick kale
        ```
        ```events
        old
        ```
        Words stay.
        ## B
        ```diary
        x
        ```
        """,
    )
    first, second = read_corpus(file)
    rewrite(file, [(second, "problems", "two"), (first, "events", "new\nnewer")])
    assert file.read_text(encoding="utf-8") == dedent(
        """\
        ## A
        ```diary
        - pick kale
        ```
        ```events
        new
        newer
        ```
        Words stay.
        ## B
        ```diary
        x
        ```
        ```problems
        two
        ```
        """
    )


def test_every_kind_of_block_is_used_somewhere():
    used = {name for case in CASES for name in case.blocks}
    assert used >= set(COMPARED)
