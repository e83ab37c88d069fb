"""Where a command may write: never over what the diary reads, and a refusal is one sentence."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from journal.source import named_file
from journal.tables.whole import place_of_file

if TYPE_CHECKING:
    from journal.diary import Diary

_WINDOWS = os.name == "nt"
_PAGE_SUFFIXES = frozenset({".txt", ".md"})
# what Windows keeps for devices, whatever ending follows, and what it takes in no name
# (learn.microsoft.com, "Naming Files, Paths, and Namespaces")
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul", "conin$", "conout$"]
    + [f"{port}{digit}" for port in ("com", "lpt") for digit in "0123456789\u00b9\u00b2\u00b3"]
)
_NEVER_IN_NAMES = '<>:"|?*'
# "the file is in use", as Windows numbers it
_IN_USE = frozenset({5, 32})


class Unwritten(click.ClickException):
    """A file could not be written; what was there before is untouched."""


def refuse_target(
    target: Path, diary_path: Path, refuse: Callable[[Path], object] = place_of_file
) -> None:
    """UsageError, before the diary is read, for a place that no file may be written to.

    A page of the diary is never written over, nor a file put among its pages as one. `refuse`
    raises OSError for what else may not be there.
    """
    reason = unusable_on_windows(target.name) if _WINDOWS else ""
    if reason:
        raise click.UsageError(f"`{target.name}` cannot be a file's name: {reason}")
    place, home = _resolved(target), _resolved(diary_path)
    inside = any(_same(each, home) for each in (place, *place.parents))
    if inside and (place.suffix.lower() in _PAGE_SUFFIXES or home.is_file()):
        raise click.UsageError(f"`{target}` would be a page of the diary; choose another name")
    with written_or_told(target):
        if not place.parent.is_dir():
            raise FileNotFoundError(place.parent)
        refuse(target)


def refuse_met_file(target: Path, diary: "Diary", diary_path: Path) -> None:
    """UsageError for a place where a file lies that the plot sheet names."""
    folder, place = diary_path if diary_path.is_dir() else diary_path.parent, _resolved(target)
    if any(_same(place, _resolved(named_file(folder, met))) for met in diary.sheet.met_files):
        raise click.UsageError(f"`{target}` is a met file of the diary; choose another name")


def unusable_on_windows(name: str) -> str:
    """Why Windows has no file of this name, or would take another for it; "" where it has."""
    stem = name.partition(".")[0].rstrip(" ").lower()
    if stem in _DEVICES:
        return f"`{stem.upper()}` is a device"
    if name != name.rstrip(". "):
        return "it ends in a point or a blank"
    found = [sign for sign in name if sign in _NEVER_IN_NAMES or sign < " "]
    return f"`{found[0]}` is in no name" if found else ""


def _resolved(path: Path) -> Path:
    """A path with its links followed, or as it stands where they lead nowhere."""
    try:
        return path.resolve()
    except (OSError, RuntimeError):
        return path.absolute()


def _same(one: Path, two: Path) -> bool:
    """Whether two paths are of one file or folder, also where capitals make no other name."""
    try:
        return one == two or one.samefile(two)
    except OSError:
        return False


@contextmanager
def written_or_told(target: Path) -> Iterator[None]:
    """Turns what the system says when `target` cannot be written into one sentence."""
    try:
        yield
    except FileNotFoundError as missing:
        raise Unwritten(_no_folder(target)) from missing
    except OSError as refused:
        if refused.strerror is None:
            raise Unwritten(str(refused)) from refused
        reason = refused.strerror.lower().rstrip(".")
        if getattr(refused, "winerror", None) in _IN_USE:
            reason += "; close it where it is open"
        raise Unwritten(f"`{target}` cannot be written: {reason}") from refused


def _no_folder(target: Path) -> str:
    return f"there is no folder `{target.parent}` to write `{target.name}` in"
