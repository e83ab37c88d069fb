"""The prompt of a bare `haulm ask`: lines with a history that is kept, Tab for openings and names.

Without readline, or without a folder to keep the history in, the lines are plain.
"""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path

import click

from journal.cli.output import console
from journal.questions.names import Names, Sense

PROMPT = "ask> "
HISTORY_LINES = 500
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


def prompt_lines(names: Names) -> Iterator[str]:
    """The questions that are typed, one a line, until Ctrl-D; Ctrl-C clears a line."""
    history = _prepare(spellings(names))
    console().print("Ask of your diary; Tab completes, Ctrl-D leaves.")
    try:
        yield from _lines()
    finally:
        _keep(history)


def _lines() -> Iterator[str]:
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


def history_file() -> Path | None:
    """Where the lines of earlier runs are kept: this user's state folder; None without a home."""
    # only a prompt needs it
    from platformdirs import user_state_path

    try:
        folder = user_state_path("haulm", appauthor=False)
    except RuntimeError:
        return None
    return None if folder.parts[:1] == ("~",) else folder / "asked"


def _prepare(names: list[str]) -> Path | None:
    """Sets up history and completion; gives the history's file where the system has readline."""
    try:
        import readline
    except ImportError:
        return None
    readline.set_completer_delims("")
    readline.set_completer(lambda line, at: _nth(completions(line, names), at))
    edits = "libedit" in (readline.__doc__ or "")
    readline.parse_and_bind("bind ^I rl_complete" if edits else "tab: complete")
    readline.set_history_length(HISTORY_LINES)
    history = history_file()
    if history is not None:
        with suppress(OSError):
            readline.read_history_file(history)
    return history


def _keep(history: Path | None) -> None:
    """Writes the history, for this user's eyes alone; without a folder to write in it is lost."""
    if history is None:
        return
    import readline

    with suppress(OSError):
        history.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        history.touch(mode=0o600)
        readline.write_history_file(history)


def _nth(found: list[str], at: int) -> str | None:
    return found[at] if at < len(found) else None


def spellings(names: Names) -> list[str]:
    """Every name of the diary, with the capitals that the diary gives it."""
    return sorted(_spelt(" ".join(words), senses) for words, senses in names.senses.items())


def _spelt(words: str, senses: Iterable[Sense]) -> str:
    """As the diary writes it, the plural too: `Musselburghs`."""
    for sense in senses:
        if words.startswith(sense.name.lower()):
            return sense.name + words[len(sense.name) :]
    return words


def completions(line: str, names: list[str]) -> list[str]:
    """What a line may go on as: an opening, or a name of the diary for its last words.

    Of several names all keep the letters that were typed, which readline would else take away.
    """
    opening = [each for each in OPENINGS if each.lower().startswith(line.lower())]
    if opening:
        return opening
    words = line.split(" ")
    for count in (3, 2, 1):
        tail = " ".join(words[-count:])
        if len(words) >= count and tail.strip():
            found = [name for name in names if name.lower().startswith(tail.lower())]
            if len(found) == 1:
                return [line[: len(line) - len(tail)] + found[0]]
            if found:
                return [line + name[len(tail) :] for name in found]
    return []
