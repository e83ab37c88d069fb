"""A diary read, or taken from what was kept when it was read before: the same `Reading` both ways.

A kept reading counts only while every byte of the pages and met files, the program and its tables
are what they were, on a day for which it is the same.
"""

import json
from dataclasses import dataclass, replace
from datetime import date
from hashlib import blake2b
from pathlib import Path

from journal.cache.plain import from_json, to_json
from journal.cache.program import program_digest
from journal.cache.shelf import Shelf
from journal.events.model import MetFileDeclared
from journal.events.reading import Reading, Watch
from journal.pages import Pages, open_pages
from journal.source import Source


def read_kept(path: Path, today: date, shelf: Shelf | None, watch: Watch | None = None) -> Reading:
    """As `read_folder` reads; without a shelf nothing is kept.

    Raises FileNotFoundError when there is no such path.
    """
    pages = open_pages(path)
    if shelf is None:
        return _read(pages, today, watch)
    name, key = str(path.resolve()), blake2b(pages.digest + program_digest()).digest()
    reading = _take(shelf, name, key, pages)
    if reading is None or not reading.same_from <= today < reading.same_until:
        reading = _read(pages, today, watch)
        _put(shelf, name, key, reading, pages.root)
    return replace(reading, aside=KeptAside(shelf, name, key, reading.met_sources, today))


@dataclass(frozen=True, slots=True)
class KeptAside:
    """What was reckoned from a reading on a day, on the same shelf; the met files count too."""

    shelf: Shelf
    name: str
    key: bytes
    met_sources: tuple[Source, ...]
    today: date

    def take(self, what: str) -> str | None:
        """What was put there for the same pages, met files, program and day, else None."""
        return self.shelf.take(f"{self.name}\0{what}", self._key)

    def put(self, what: str, text: str) -> None:
        """Keeps a text in place of the one before."""
        self.shelf.put(f"{self.name}\0{what}", self._key, text)

    @property
    def _key(self) -> bytes:
        # only who asks pays for it: most commands take nothing from here
        parts = (*map(_stamp, self.met_sources), self.today.isoformat())
        return blake2b(self.key + "".join(parts).encode()).digest()


def _read(pages: Pages, today: date, watch: Watch | None) -> Reading:
    # The grammar and all that goes with it take longer to import than a kept reading to load.
    from journal.reading import read_pages

    return read_pages(pages, today, watch)


def _take(shelf: Shelf, name: str, key: bytes, pages: Pages) -> Reading | None:
    text = shelf.take(name, key)
    if text is None:
        return None
    stamps, _, body = text.partition("\n")
    try:
        met_sources = _met_sources(json.loads(stamps), pages.root)
        return None if met_sources is None else from_json(body, pages.sources, met_sources)
    except (AttributeError, IndexError, KeyError, TypeError, ValueError):
        return None


def _put(shelf: Shelf, name: str, key: bytes, reading: Reading, root: Path) -> None:
    try:
        stamps = json.dumps(_stamps_of(reading, root))
        body = to_json(reading, (*reading.sources, *reading.met_sources))
        shelf.put(name, key, f"{stamps}\n{body}")
    except (KeyError, TypeError, ValueError):
        return


def _met_sources(stamps: list[list[str]], root: Path) -> list[Source] | None:
    """The met files' texts, None where one of them is not what its stamp says."""
    found: list[Source] = []
    for name, stamp in stamps:
        source, now = _stamped(name, root)
        if now != stamp:
            return None
        if source is not None:
            found.append(source)
    return found


def _stamps_of(reading: Reading, root: Path) -> list[list[str]]:
    """Each met file's name and what was read of it, which may already be changed on the disk."""
    read = {source.path: source for source in reading.met_sources}
    names = reading.sheet.met_files
    return [
        [name, _stamp(read[name]) if name in read else _stamped(name, root)[1]] for name in names
    ]


def _stamped(name: str, root: Path) -> tuple[Source | None, str]:
    """A met file with its stamp; without a text the stamp is the reason why there is none."""
    # only a diary with met files needs the room that reads them
    from journal.met.files import open_met_file

    source, problem = open_met_file(MetFileDeclared(name), root)
    return source, _stamp(source) if source else f"{problem.code} {problem.message}"  # type: ignore[union-attr]


def _stamp(source: Source) -> str:
    return blake2b(source.text.encode("utf-8", "surrogatepass"), digest_size=32).hexdigest()
