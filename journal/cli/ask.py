"""`haulm ask`: a question in plain words, answered with the diary lines that it rests on."""

from datetime import date
from pathlib import Path

import click
from rich.text import Text

from journal.cli.output import console, diary_options, load_diary
from journal.questions.answer import Answer
from journal.questions.answer import ask as answer_to

NOTHING, NOT_UNDERSTOOD = 1, 3
LINES_SHOWN = 6


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

    Exit status: 0 answered, 1 nothing is recorded, 3 not understood.
    """
    text = " ".join(question).strip()
    if not text:
        raise click.UsageError('ask something: haulm ask "When did potatoes go in?"')
    answer = answer_to(load_diary(diary_path, today), text)
    if form == "json":
        click.echo(answer.to_json())
    else:
        show(answer)
    ctx.exit(status_of(answer))


def status_of(answer: Answer) -> int:
    """0 answered, 1 nothing is recorded, 3 not understood."""
    if not answer.understood:
        return NOT_UNDERSTOOD
    return 0 if answer.found else NOTHING


def show(answer: Answer) -> None:
    """An answer for people: the sentence, what is uncertain, and the lines behind it."""
    to = console()
    to.print(Text(answer.answer, "bold"))
    for caveat in answer.caveats:
        to.print(Text(f"  {caveat}", "yellow"))
    for line in answer.evidence[:LINES_SHOWN]:
        to.print(Text.assemble((f"  {line.file}:{line.line}  ", "dim"), line.text))
    rest = len(answer.evidence) - LINES_SHOWN
    if rest > 0:
        to.print(Text(f"  and {rest} more lines", "dim"))
