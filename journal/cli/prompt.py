"""The prompt of a bare `haulm ask`: lines with history, and Tab for openings and names."""

from collections.abc import Iterator
from contextlib import suppress

import click

from journal.cli.output import console
from journal.diary import Diary
from journal.questions.answer import names_of

PROMPT = "ask> "
OPENINGS = (
    "When did ",
    "When did I last ",
    "How much ",
    "How many ",
    "How long did ",
    "How often did ",
    "Which ",
    "What was in ",
    "What did I ",
    "Where did I ",
    "Where were the ",
    "What did I write about ",
    "What is still in the ground?",
    "What is due this week?",
)


def prompt_lines(diary: Diary) -> Iterator[str]:
    """The questions that are typed, one a line, until Ctrl-D; Ctrl-C clears a line."""
    _prepare(diary)
    console().print("Ask of your diary; Tab completes, Ctrl-D leaves.")
    while True:
        try:
            line = input(PROMPT).strip()
        except EOFError:
            click.echo()
            return
        except KeyboardInterrupt:
            click.echo()
            continue
        if line:
            yield line


def _prepare(diary: Diary) -> None:
    """History and completion where the system has readline; else plain lines."""
    with suppress(ImportError):
        import readline

        words = [" ".join(name) for name in names_of(diary).senses]
        readline.set_completer_delims("")
        readline.set_completer(lambda line, at: _nth(completions(line, words), at))
        readline.parse_and_bind("tab: complete")


def _nth(found: list[str], at: int) -> str | None:
    return found[at] if at < len(found) else None


def completions(line: str, names: list[str]) -> list[str]:
    """What a line may go on as: an opening, or a name of the diary for its last words."""
    opening = [each for each in OPENINGS if each.lower().startswith(line.lower())]
    if opening:
        return opening
    words = line.split(" ")
    for count in (3, 2, 1):
        tail = " ".join(words[-count:])
        if len(words) >= count and tail.strip():
            found = [name for name in sorted(names) if name.startswith(tail.lower())]
            if found:
                return [line[: len(line) - len(tail)] + name for name in found]
    return []
