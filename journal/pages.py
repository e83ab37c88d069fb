"""A diary's folder opened: its pages as texts, and what was wrong with their bytes.

Nothing is read yet; `digest` tells whether anything has changed since another time.
"""

from dataclasses import dataclass
from hashlib import blake2b
from pathlib import Path

from journal.problems.model import Problem, make
from journal.source import Damage, Source, Span, decode, diary_files, reason_of, shown_name

_LONGEST_NAME = 200


@dataclass(frozen=True, slots=True)
class Pages:
    """The pages of one folder in path order; `digest` is of their names and every byte."""

    root: Path
    sources: tuple[Source, ...]
    problems: tuple[Problem, ...]
    digest: bytes


def open_pages(path: Path) -> Pages:
    """A diary file, or every `.txt` and `.md` below a folder.

    Raises FileNotFoundError when there is no such path; a page that cannot be opened is a problem.
    """
    sources: list[Source] = []
    problems: list[Problem] = []
    seal = blake2b()
    root = path if path.is_dir() else path.parent
    found = diary_files(path)
    refused = [(_name(file, root), reason) for file, reason in found.refused]
    for file in found.files:
        name = _name(file, root)
        try:
            content = file.read_bytes()
        except OSError as error:
            refused.append((name, reason_of(error)))
            continue
        seal.update(f"{name!r} {len(content)}\n".encode())
        seal.update(content)
        source, damage = decode(name, content)
        sources.append(source)
        if damage is not None:
            problems.append(_damage(source, damage))
    for name, reason in refused:
        empty = Source(name, "")
        problems.append(make("J003", empty, Span(0, 0), word=name, reason=reason))
        sources.append(empty)
        seal.update(f"{name!r} refused {reason!r}\n".encode())
    return Pages(root, tuple(sources), tuple(problems), seal.digest())


def _name(file: Path, root: Path) -> str:
    """The path that people know a page by; the middle of one beyond all measure is left out."""
    name = shown_name(file.relative_to(root).as_posix())
    return name if len(name) <= _LONGEST_NAME else f"{name[:40]}…{name[-40:]}"


def _damage(source: Source, damage: Damage) -> Problem:
    if damage.encoding is not None:
        return make("J002", source, Span(0, 0), word=source.path, encoding=damage.encoding)
    count = len(damage.spans)
    more = f", the first of {count}" if count > 1 else ""
    return make("J001", source, damage.spans[0], byte=f"0x{damage.first_byte:02X}", more=more)
