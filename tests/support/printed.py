"""The parts of the documents that the program can print: its codes and its columns.

Run as a script it writes them into README.md and the guide; `tests/test_printed.py` holds the
documents to them.
"""

import re
from collections.abc import Callable, Iterable
from pathlib import Path

from journal.problems.codes import CODES
from journal.tables.schema import TABLES

CHECKOUT = Path(__file__).parent.parent.parent
GUIDE = CHECKOUT / "journal" / "guide"


def _table(heading: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    lines = [heading, ("---",) * len(heading), *rows]
    return "".join(f"| {' | '.join(cells)} |\n" for cells in lines)


def codes_in_short() -> str:
    """A line a code: its number and name, how bad it is, what it is."""
    return _table(
        ("code", "severity", "what it is"),
        ((f"`{c.code} {c.name}`", c.severity.value, c.title.lower()) for c in CODES.values()),
    )


def codes_in_full() -> str:
    """A line a code with what it means for the diary."""
    return _table(
        ("code", "severity", "what it means"),
        (
            (f"`{c.code} {c.name}`", c.severity.value, f"{c.title}. {c.explanation}")
            for c in CODES.values()
        ),
    )


def columns_in_short() -> str:
    """A line a table with the names of its columns."""
    return _table(
        ("table", "a row is", "columns"),
        (
            (f"`{table.name}`", table.meaning, f"`{' '.join(table.column_names)}`")
            for table in TABLES.values()
        ),
    )


def columns_in_full() -> str:
    """A section a table with the meaning of each column."""
    return "\n".join(
        f"### {table.name}\n\n{table.meaning.capitalize()}.\n\n"
        + _table(("column", "meaning"), ((f"`{c.name}`", c.meaning) for c in table.columns))
        for table in TABLES.values()
    )


# Each document, the heading, and what stands below it: up to the next heading of its rank.
PRINTED: tuple[tuple[Path, str, Callable[[], str]], ...] = (
    (CHECKOUT / "README.md", "### Every code", codes_in_short),
    (CHECKOUT / "README.md", "### Every table", columns_in_short),
    (GUIDE / "problems.md", "## Every code", codes_in_full),
    (GUIDE / "tables.md", "## Every column", columns_in_full),
)


def with_printed(text: str, heading: str, body: str) -> str:
    """The document with `body` as the whole of the section; ValueError where it has none."""
    rank = heading.partition(" ")[0]
    section = re.compile(
        rf"(?<=^{re.escape(heading)}\n).*?(?=^#{{1,{len(rank)}}} |\Z)", re.MULTILINE | re.DOTALL
    )
    found = section.search(text)
    if found is None:
        raise ValueError(f"there is no heading `{heading}`")
    after = "\n" if found.end() < len(text) else ""
    return f"{text[: found.start()]}\n{body}{after}{text[found.end() :]}"


def main() -> None:
    """Writes every printed section anew."""
    for file, heading, body in PRINTED:
        text = file.read_text(encoding="utf-8")
        file.write_text(with_printed(text, heading, body()), encoding="utf-8")


if __name__ == "__main__":
    main()
