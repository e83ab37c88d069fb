"""`haulm ask`: a question in plain words, answered with the diary lines that it rests on."""

import sys
from contextlib import suppress
from datetime import date
from pathlib import Path

import click
from rich.text import Text

from journal.cli.output import console, diary_options, load_diary
from journal.questions.answer import Answer, names_of
from journal.questions.answer import ask as answer_to

NOTHING, NOT_UNDERSTOOD = 1, 3
LINES_SHOWN = 6
ROWS_SHOWN = 12
# rows of single events only repeat the lines below them
_OF_EVENTS = "amount_text"


@click.command(
    short_help="Answer a question, with the diary lines it rests on.",
    epilog="""\b
Examples:
  haulm ask "When did potatoes go in last year?"
      the day, how long ago, and the line that says so
  haulm ask "How many hours of weeding in 2025?" --format json
      the same for a program""",
)
@diary_options
@click.argument("question", nargs=-1)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="How the answer is printed.",
)
@click.pass_context
def ask(
    ctx: click.Context, diary_path: Path, today: date, question: tuple[str, ...], form: str
) -> None:
    """Answer a question, with the diary lines it rests on.

    Without a QUESTION, on a terminal, it asks for one after another until Ctrl-D. Exit status: 0
    answered, 1 nothing is recorded, 3 not understood.
    """
    text = " ".join(question).strip()
    if not text and not sys.stdin.isatty():
        raise click.UsageError('ask something, for example: haulm ask "When did potatoes go in?"')
    diary = load_diary(diary_path, today)
    if not text:
        from journal.cli.prompt import prompt_lines

        for line in prompt_lines(names_of(diary)):
            # Ctrl-C stops an answer that takes long, and the prompt goes on
            with suppress(KeyboardInterrupt):
                show_answer(answer_to(diary, line), form)
        return
    answer = answer_to(diary, text)
    show_answer(answer, form)
    ctx.exit(status_of(answer))


def status_of(answer: Answer) -> int:
    """0 answered, 1 nothing is recorded, 3 not understood."""
    if not answer.understood:
        return NOT_UNDERSTOOD
    return 0 if answer.found else NOTHING


def show_answer(answer: Answer, form: str) -> None:
    """An answer as JSON, or for people: the sentence, what is uncertain, the lines behind it."""
    if form == "json":
        click.echo(answer.to_json())
        return
    to = console()
    to.print(Text(answer.answer, "bold"))
    for caveat in answer.caveats:
        to.print(Text(f"  {caveat}", "yellow"))
    if len(answer.rows) > 1 and _OF_EVENTS not in answer.rows[0]:
        # most answers have no table
        from journal.cli.answer_table import table_of

        table, left_out = table_of(answer.rows[:ROWS_SHOWN], to.width)
        to.print(table)
        _say_rest(("row", len(answer.rows) - ROWS_SHOWN), ("column", left_out))
    for line in answer.evidence[:LINES_SHOWN]:
        to.print(Text.assemble((f"  {line.file}:{line.line}  ", "dim"), line.text))
    _say_rest(("line", len(answer.evidence) - LINES_SHOWN))


def _say_rest(*rests: tuple[str, int]) -> None:
    """`and 3 more rows and 2 more columns; ...`, of what was not shown."""
    words = [f"{rest} more {noun}{'s' if rest > 1 else ''}" for noun, rest in rests if rest > 0]
    if words:
        said = f"  and {' and '.join(words)}; `--format json` has them all"
        console().print(Text(said, "dim"))
