"""`haulm check`: what could not be read, and the mend; loads no frames."""

from datetime import date
from difflib import get_close_matches
from pathlib import Path
from textwrap import fill

import click

from journal.cli.output import (
    check_command,
    console,
    count_words,
    counted,
    diary_options,
    print_problem,
    read_or_leave,
)
from journal.events.reading import Reading
from journal.problems.codes import CODES, Code, Severity
from journal.problems.model import Problem
from journal.problems.render import render_json, render_short


def _explain(ctx: click.Context, param: click.Parameter, value: str | None) -> None:
    if value is None or ctx.resilient_parsing:
        return
    known = {**CODES, **{row.name: row for row in CODES.values()}}
    row = known.get(value.upper()) or known.get(value.lower())
    if row is None:
        near = get_close_matches(value, known, n=2)
        hint = f"did you mean {' or '.join(near)}?" if near else "`haulm guide problems` lists them"
        raise click.UsageError(f"there is no code `{value}`; {hint}", ctx)
    click.echo(explanation(row))
    ctx.exit()


def explanation(row: Code) -> str:
    """A code's page: what it means, and where text can show it, an example and its cure."""
    parts = [
        f"{row.severity.value}[{row.code}] {row.name}",
        row.title,
        "",
        fill(row.explanation, 80),
    ]
    for heading, example in (("For example:", row.failing), ("Mended:", row.cure)):
        if example:
            parts += ["", heading, "", _indented(example)]
    return "\n".join(parts)


def _indented(text: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in text.strip("\n").split("\n"))


@click.command(
    short_help="Show what could not be read, and the mend.",
    epilog="""\b
Examples:
  haulm check
      reads the diary in this folder and shows errors and warnings
  haulm check -d ~/garden --format json
      every problem of that diary as data, hints too""",
)
@diary_options
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "short", "json"]),
    default="text",
    help="With its line and a caret (text), a line each (short), or a list of all (json).",
)
@click.option("--hints", is_flag=True, help="Show the hints too, not only how many there are.")
@click.option(
    "--explain",
    metavar="CODE",
    callback=_explain,
    expose_value=False,
    is_eager=True,
    help="Explain a code, with an example and its cure, and read no diary.",
)
@click.pass_context
def check(ctx: click.Context, diary_path: Path, today: date, form: str, hints: bool) -> None:
    """Show what could not be read, and the mend.

    Problems go to standard output. The exit status is 1 when there is an error: an entry, or a
    part of one, that is not in the tables.
    """
    reading = read_or_leave(diary_path, today)
    if form == "json":
        click.echo(render_json(reading.problems))
    else:
        _print_for_people(reading, diary_path, form == "short", hints)
    ctx.exit(1 if reading.has_errors else 0)


def _print_for_people(reading: Reading, diary_path: Path, short: bool, hints: bool) -> None:
    to = console()
    shown = [p for p in reading.problems if hints or p.severity is not Severity.HINT]
    for problem in shown:
        if short:
            click.echo(render_short(problem))
        else:
            print_problem(problem, to)
    to.print(_closing_line(reading, shown))
    hidden = len(reading.problems) - len(shown)
    if hidden:
        to.print(f"{counted(hidden, 'hint')}: `{check_command(diary_path)} --hints`")


def _closing_line(reading: Reading, shown: list[Problem]) -> str:
    found = count_words(
        *((sum(p.severity is severity for p in shown), severity.value) for severity in Severity)
    )
    entries = {event.entry for event in reading.events if event.kind != "sheet"}
    days = {event.date for event in reading.events if event.date}
    days |= {paragraph.date for paragraph in reading.prose if paragraph.date}
    read = f"{counted(len(entries), 'entry')} on {counted(len(days), 'day')}"
    return f"{found or 'fine'}: {read} in {counted(len(reading.sources), 'file')}"
