"""The documents against the program: examples read, and everything a person can type is named.

A `diary` block of a document reads without a problem, or the `problems` block after it shows the
problems it has. The `plot` blocks above it in the same document are its sheet.
"""

import re
from datetime import date
from itertools import zip_longest
from pathlib import Path

import click
import pytest

from journal.cli.main import COMMANDS, cli
from journal.problems.codes import CODES
from journal.problems.render import render_full
from journal.reading import read_sources
from journal.source import Source
from journal.tables.schema import TABLES

CHECKOUT = Path(__file__).parent.parent
GUIDE = sorted((CHECKOUT / "journal" / "guide").glob("*.md"))
NAMED = [CHECKOUT / "README.md", CHECKOUT / "DEVELOPERS.md", CHECKOUT / "CHANGELOG.md"]
DOCUMENTS = [file for file in (*NAMED, *GUIDE) if file.exists()]
FOR_USERS = "\n".join(file.read_text(encoding="utf-8") for file in (CHECKOUT / "README.md", *GUIDE))
TODAY = date(2026, 11, 25)

Example = tuple[str, str, str, str]


def examples(file: Path) -> list[Example]:
    """Each `diary` block of a document: its place, sheet, text, and the problems shown after it."""
    text = file.read_text(encoding="utf-8")
    blocks = list(re.finditer(r"^```(\w+)[^\n]*\n(.*?)^```$", text, re.MULTILINE | re.DOTALL))
    found, sheet = [], ""
    for block, after in zip_longest(blocks, blocks[1:]):
        if block[1] == "plot":
            sheet += block[2]
        if block[1] == "diary":
            told = after[2] if after and after[1] == "problems" else ""
            line = text.count("\n", 0, block.start()) + 1
            found.append((f"{file.name}:{line}", sheet, block[2], told))
    return found


EXAMPLES = [example for file in DOCUMENTS for example in examples(file)]


@pytest.mark.parametrize("example", EXAMPLES, ids=[example[0] for example in EXAMPLES])
def test_an_example_reads_as_its_document_says(example: Example):
    _, sheet, text, told = example
    sources = [Source("plot.txt", sheet), Source("2026.txt", text)]
    found = [render_full(problem) for problem in read_sources(sources, TODAY).problems]
    assert "\n\n".join(found) == told.strip("\n")


def test_the_documents_are_there_and_have_examples():
    assert set(NAMED) <= set(DOCUMENTS) and GUIDE
    assert len(EXAMPLES) >= 5


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_and_its_options_are_named(name: str):
    assert f"haulm {name}" in FOR_USERS
    command = cli.get_command(click.Context(cli), name)
    assert command is not None
    for option in command.params:
        for form in option.opts if isinstance(option, click.Option) else []:
            if form.startswith("--"):
                assert re.search(rf"{re.escape(form)}\b", FOR_USERS), f"haulm {name} {form}"


def test_every_code_is_named_with_its_name():
    missing = [row for row in CODES.values() if not _named(row.code) or not _named(row.name)]
    assert [row.code for row in missing] == []


def test_every_table_and_column_is_named():
    missing = [
        f"{table}.{column}"
        for table, schema in TABLES.items()
        for column in (table, *schema.column_names)
        if not _named(column)
    ]
    assert missing == []


def _named(word: str) -> bool:
    return re.search(rf"`[^`\n]*\b{re.escape(word)}\b[^`\n]*`", FOR_USERS) is not None


def test_every_page_that_a_document_points_to_is_there():
    for file in DOCUMENTS:
        text = file.read_text(encoding="utf-8")
        outside_examples = re.sub(r"^```.*?^```$", "", text, flags=re.MULTILINE | re.DOTALL)
        for target in re.findall(r"\]\(([^)#:]+)\)", outside_examples):
            assert (file.parent / target).exists(), f"{file.name}: {target}"
