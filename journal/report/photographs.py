"""The photographs of a year: pictures linked in the prose, on their day, where the file is there.

A picture is taken into the page while it fits; a larger one is linked where it lies. Nothing
outside the diary's folder is shown, and nothing that is not a picture by its first bytes.
"""

import base64
import os
import re
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote, unquote

import pandas as pd

from journal.charts.words import listed
from journal.diary import Diary
from journal.source import named_file
from journal.studies.notes import counted
from journal.studies.seasons import certain_year

LINK = re.compile(r"!\[(?P<words>[^\]\n]*)\]\(\s*<?(?P<path>[^)>\n]+?)>?\s*\)")
KINDS = {b"\xff\xd8\xff": "image/jpeg", b"\x89PNG\r\n\x1a\n": "image/png", b"GIF8": "image/gif"}
ONE_KB, ALL_KB = 300, 1200
MOST_NAMED = 5  # of the pictures that are not there


@dataclass(frozen=True, slots=True)
class Photograph:
    """One picture: its address, the keeper's words for it, and its day."""

    address: str
    words: str
    day: str
    moment: pd.Timestamp


@dataclass(frozen=True, slots=True)
class Photographs:
    """The pictures of a year in order of their days, and how many linked ones are missing."""

    shown: tuple[Photograph, ...]
    missing: str


def photographs(diary: Diary, year: int, folder: Path | None, page: Path | None) -> Photographs:
    """Every picture that the prose of the year links to; none without the diary's `folder`.

    `page` is the file that the page will be, from where larger pictures are linked.
    """
    if folder is None:
        return Photographs((), "")
    prose = diary.prose[certain_year(diary.prose) == year].sort_values(["date", "file", "line"])
    shown, lost, room = [], [], ALL_KB * 1024
    for row in prose.to_dict("records"):
        for link in LINK.finditer(row["text"]):
            file = _inside(folder, folder / Path(row["file"]).parent, unquote(link["path"]))
            kind = _kind(file) if file else ""
            if file is None or not kind:
                lost.append(link["path"])
                continue
            size = file.stat().st_size
            taken_in = size <= min(ONE_KB * 1024, room)
            room -= size if taken_in else 0
            address = _data(file, kind) if taken_in else _link(file, page)
            day = f"{row['date'].day} {row['date']:%B}"
            shown.append(Photograph(address, link["words"], day, row["date"]))
    return Photographs(tuple(shown), _missing(lost))


def _missing(paths: list[str]) -> str:
    """How many linked pictures are not there, and which."""
    if not paths:
        return ""
    more = len(paths) - MOST_NAMED
    named = [*paths[:MOST_NAMED], f"{more} more"] if more > 1 else paths
    pictures = counted(len(paths), "picture")
    return f"{pictures} that the diary links to could not be found: {listed(named)}."


def _inside(folder: Path, beside: Path, name: str) -> Path | None:
    """The file that a page names, where it is one within the folder."""
    try:
        real, root = named_file(beside, name).resolve(), folder.resolve()
        return real if real.is_relative_to(root) and real.is_file() else None
    except (OSError, RuntimeError, ValueError):
        return None


def _kind(file: Path) -> str:
    try:
        with file.open("rb") as opened:
            start = opened.read(12)
    except OSError:
        return ""
    if start[:4] == b"RIFF" and start[8:] == b"WEBP":
        return "image/webp"
    return next((kind for mark, kind in KINDS.items() if start.startswith(mark)), "")


def _data(file: Path, kind: str) -> str:
    return f"data:{kind};base64,{base64.b64encode(file.read_bytes()).decode()}"


def _link(file: Path, page: Path | None) -> str:
    try:
        beside = os.path.relpath(file, (page or Path()).resolve().parent)
    except ValueError:  # another drive
        return file.as_uri()
    return quote(Path(beside).as_posix())
