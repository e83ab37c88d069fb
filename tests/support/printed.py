"""The parts of the documents that the program can print: codes, columns, a first session.

Run as a script it writes them into README.md and the guide; `tests/test_printed.py` holds the
documents to them.
"""

import re
import shlex
from collections.abc import Callable, Iterable
from contextlib import chdir
from pathlib import Path
from tempfile import TemporaryDirectory

from click.testing import CliRunner

from journal.cli.main import cli
from journal.problems.codes import CODES
from journal.tables.schema import TABLES

CHECKOUT = Path(__file__).parent.parent.parent
README = CHECKOUT / "README.md"
GUIDE = CHECKOUT / "journal" / "guide"
_SESSION = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)


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
    (README, "### Every code", codes_in_short),
    (README, "### Every table", columns_in_short),
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


def session() -> list[tuple[str, str]]:
    """Each command of the README's first session, and what it prints of the diary shown there."""
    text = README.read_text(encoding="utf-8")
    diary = re.findall(r"^```diary\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)[0]
    commands = re.findall(r"^\$ haulm (.*)$", _SESSION.findall(text)[0], re.MULTILINE)
    with TemporaryDirectory() as folder, chdir(folder):
        Path("garden.txt").write_text(diary, encoding="utf-8")
        return [(command, _printed_by(command)) for command in commands]


def _printed_by(command: str) -> str:
    words = [*shlex.split(command), "--today", "2026-11-25"]
    ran = CliRunner(env={"HAULM_DIARY": ""}).invoke(cli, words)
    if ran.exit_code:
        raise ValueError(f"`haulm {command}` left with {ran.exit_code}")
    return ran.stdout


def with_session(text: str, steps: list[tuple[str, str]]) -> str:
    """The README with the first session as it runs."""
    shown = "".join(f"$ haulm {command}\n{printed}" for command, printed in steps)
    return _SESSION.sub(lambda _: f"```console\n{shown}```", text, count=1)


def main() -> None:
    """Writes every printed section anew."""
    README.write_text(with_session(README.read_text(encoding="utf-8"), session()), encoding="utf-8")
    for file, heading, body in PRINTED:
        text = file.read_text(encoding="utf-8")
        file.write_text(with_printed(text, heading, body()), encoding="utf-8")


if __name__ == "__main__":
    main()
