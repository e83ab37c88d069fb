"""What a reading depends on beside the diary: this program, its tables and its libraries."""

import sys
from functools import cache
from hashlib import blake2b
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from journal import __version__
from journal.resources import grammar_folder, shared_folder

_PACKAGE = Path(__file__).parent.parent
# what lies on the way from a page to a reading, and from there to the plants' books
_ROOMS = ("cache", "events", "met", "problems", "reference", "syntax", "studies/ledger")
_LIBRARIES = ("lark", "rapidfuzz")


@cache
def program_digest() -> bytes:
    """Changes with the version, and with every file of the program that a reading passes through.

    The files' sizes and times are looked at, not their text: an installed program is trusted, and
    a checkout that is being worked on is told from what it was a minute ago.
    """
    seal = blake2b(f"{__version__} {sys.version_info[:3]}".encode())
    for library in _LIBRARIES:
        seal.update(f" {library} {_version(library)}".encode())
    for folder in (grammar_folder(), shared_folder(), *(_PACKAGE / room for room in _ROOMS)):
        _add(seal, sorted(folder.iterdir()))
    _add(seal, sorted(_PACKAGE.glob("*.py")))
    return seal.digest()


def _add(seal: blake2b, files: list[Path]) -> None:
    for file in files:
        if file.suffix in {".py", ".lark", ".csv", ".json"}:
            found = file.stat()
            seal.update(f"{file.name} {found.st_size} {found.st_mtime_ns}\n".encode())


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return ""
