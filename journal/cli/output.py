"""What all commands share: which diary and which day, where problems go, and colour or not."""

import os
from collections.abc import Callable, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from rich.console import Console
from rich.text import Text

from journal.cli.opening import no_cache_option, open_diary
from journal.events.reading import Reading
from journal.problems.codes import Severity
from journal.problems.model import Problem
from journal.problems.render import full_lines, render_full

if TYPE_CHECKING:
    from journal.diary import Diary

SHOWN_BESIDE_AN_ANSWER = 3
# the years that a year line may name
_FIRST_YEAR, _LAST_YEAR = 1600, 2199

_STYLES = {
    "error": "bold red",
    "warning": "bold yellow",
    "hint": "bold cyan",
    "message": "bold",
    "gutter": "blue",
    "related": "blue",
    "mend": "green",
}


def _day(ctx: click.Context, param: click.Parameter, value: str | None) -> date:
    if value is None:
        return date.today()
    try:
        day = datetime.strptime(value, "%Y-%m-%d").date()
    except ValueError:
        raise click.UsageError(f"`{value}` is no day; write it as 2026-03-01", ctx) from None
    if not _FIRST_YEAR <= day.year <= _LAST_YEAR:
        raise click.UsageError(f"`{value}` is outside {_FIRST_YEAR} to {_LAST_YEAR}", ctx)
    return day


class Unreadable(click.ClickException):
    """There is no diary to read; leaves with 2, as any misuse of the command line does."""

    exit_code = 2


diary_option = click.option(
    "-d",
    "--diary",
    "diary_path",
    type=click.Path(path_type=Path, readable=False),
    envvar="HAULM_DIARY",
    default=".",
    help="The diary: a folder or a file. Else $HAULM_DIARY, else the current folder.",
)
today_option = click.option(
    "--today",
    metavar="YYYY-MM-DD",
    callback=_day,
    help="Read as of this day. Else the real one.",
)


def diary_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Adds `--diary`, `--today` and `--no-cache`; the command takes `diary_path` and `today`."""
    return diary_option(today_option(no_cache_option(command)))


def read_or_leave(diary_path: Path, today: date) -> Reading:
    """The diary as it reads; a path that holds none ends the command with one sentence and 2."""
    try:
        reading = open_diary(diary_path, today)
    except FileNotFoundError as missing:
        raise Unreadable(f"there is no file or folder `{diary_path}`") from missing
    except OSError as refused:
        reason = (refused.strerror or "it cannot be read").lower()
        raise Unreadable(f"`{refused.filename or diary_path}`: {reason}") from refused
    if not reading.sources:
        raise Unreadable(
            f"no page (.txt or .md) is in `{diary_path}`; begin one with `haulm new FOLDER`"
        )
    return reading


def load_reading(diary_path: Path, today: date) -> Reading:
    """The diary without frames, its worst problems told on standard error."""
    reading = read_or_leave(diary_path, today)
    tell_problems(reading.problems, diary_path)
    return reading


def load_diary(diary_path: Path, today: date) -> "Diary":
    """The diary as frames, its worst problems told on standard error."""
    from journal.diary import Diary

    return Diary(load_reading(diary_path, today), today)


def console(*, err: bool = False) -> Console:
    """A console on standard output or error: colour on a terminal only, and none with NO_COLOR."""
    return Console(stderr=err, highlight=False, markup=False, emoji=False, soft_wrap=True)


def print_problem(problem: Problem, to: Console) -> None:
    """A problem in full, coloured where the console has colours, with an empty line after it."""
    if to.color_system is None:
        # a pipe may be given a million of them
        to.file.write(f"{render_full(problem)}\n\n")
        return
    for line in full_lines(problem):
        to.print(Text.assemble(*((piece.text, _STYLES.get(piece.role, "")) for piece in line)))
    to.print()


def tell_problems(problems: Sequence[Problem], diary_path: Path) -> None:
    """The first errors in full and the rest as a count, on standard error; hints stay unsaid."""
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    warnings = sum(problem.severity is Severity.WARNING for problem in problems)
    to = console(err=True)
    for problem in errors[:SHOWN_BESIDE_AN_ANSWER]:
        print_problem(problem, to)
    rest = count_words((len(errors[SHOWN_BESIDE_AN_ANSWER:]), "more error"), (warnings, "warning"))
    if rest:
        to.print(f"{rest}; `{check_command(diary_path)}` shows them all")


def check_command(diary_path: Path) -> str:
    """What to type to see every problem of this diary."""
    if str(diary_path) in {".", os.environ.get("HAULM_DIARY")}:
        return "haulm check"
    named = f'"{diary_path}"' if " " in str(diary_path) else str(diary_path)
    return f"haulm check -d {named}"


def counted(count: int, noun: str) -> str:
    """`1 entry`, `2 entries`, `1,204 days`."""
    if count != 1:
        noun = f"{noun[:-1]}ies" if noun.endswith("ry") else f"{noun}s"
    return f"{count:,} {noun}"


def count_words(*counts: tuple[int, str]) -> str:
    """`2 errors and 1 warning`: the counts that are not zero, or nothing."""
    words = [counted(count, noun) for count, noun in counts if count]
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]
