"""Opens the diary of a command: as it was kept, or read anew, with a bar where that takes long."""

import gc
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import nullcontext
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

import click

from journal.cache.kept import read_kept
from journal.cache.shelf import Shelf, shelf_folder
from journal.events.reading import Reading

QUIET_FOR = 1.0  # seconds before a bar is drawn
_LINES_A_LOOK = 200
_UNKEPT = "journal.unkept"
_Line = TypeVar("_Line")


def _note(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    ctx.meta[_UNKEPT] = value


no_cache_option = click.option(
    "--no-cache",
    is_flag=True,
    expose_value=False,
    callback=_note,
    help="Read every page anew, and keep nothing of it for the next time.",
)


def open_diary(path: Path, today: date) -> Reading:
    """The reading of a diary; `--no-cache` of the command at hand is heeded.

    Raises what `open_pages` raises.
    """
    context = click.get_current_context(silent=True)
    unkept = context is not None and context.meta.get(_UNKEPT, False)
    shelf = None if unkept else _own_shelf()
    with Bar() if sys.stderr.isatty() else nullcontext() as bar:
        reading = read_kept(path, today, shelf, bar)
    # what was read lives as long as the command: the garbage collector need not look there again
    gc.freeze()
    return reading


def _own_shelf() -> Shelf | None:
    """Where this user's readings are kept; None for a user without a home, as in a container."""
    try:
        folder = shelf_folder()
    except RuntimeError:
        return None
    # what earlier versions of platformdirs make of a home that nobody knows
    return None if folder.parts[:1] == ("~",) else Shelf(folder)


class Bar:
    """A bar on standard error, drawn once a reading has gone on for a second."""

    def __init__(self, clock: Callable[[], float] = time.monotonic):
        """The second is counted from now."""
        self._clock = clock
        self._since = clock()
        self._lines = self._done = 0
        self._drawn: Any = None

    def __enter__(self) -> "Bar":
        """Draws nothing yet."""
        return self

    def __exit__(self, *_: object) -> None:
        """Takes the bar away, also when the reading was broken off."""
        if self._drawn is not None:
            self._drawn.stop()
            self._drawn = None

    @property
    def drawn(self) -> bool:
        """Whether the bar is to be seen."""
        return self._drawn is not None

    def expect(self, lines: int) -> None:
        """How many lines will be passed in all."""
        self._lines = lines

    def passed(self, lines: Iterable[_Line]) -> Iterator[_Line]:
        """The lines as they are, each counted."""
        for line in lines:
            yield line
            self._done += 1
            if self._done % _LINES_A_LOOK == 0:
                self._look()

    def _look(self) -> None:
        if self._drawn is None and self._clock() - self._since > QUIET_FOR:
            # rich's bars are asked for by the few readings that are slow
            from rich.console import Console
            from rich.progress import Progress

            self._drawn = Progress(console=Console(stderr=True), transient=True)
            self._drawn.add_task("Reading the diary", total=self._lines)
            self._drawn.start()
        if self._drawn is not None:
            self._drawn.update(self._drawn.task_ids[0], completed=self._done)
