"""The folder of kept readings: a text under a name, whole or not at all, and not too many.

Two runs may share it, and anybody may delete it. What cannot be read or written is passed over:
the diary's own files are always there.
"""

import os
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from hashlib import blake2b
from pathlib import Path
from secrets import token_hex

from platformdirs import user_cache_path

VARIABLE = "HAULM_CACHE"
_MOST_BYTES = 200_000_000
_LEFT_OVER_AFTER = 3600.0  # seconds; a file half written for so long belongs to no run
_HEAD = b"haulm kept reading 1 "
_SEAL = 32


def shelf_folder() -> Path:
    """`$HAULM_CACHE`, else the folder where this system's programs keep what they can lose."""
    own = os.environ.get(VARIABLE)
    return Path(own) if own else user_cache_path("haulm", appauthor=False)


@dataclass(frozen=True, slots=True)
class Shelf:
    """One folder of kept texts; it is made when the first one is put there."""

    folder: Path
    most_bytes: int = _MOST_BYTES

    def take(self, name: str, key: bytes) -> str | None:
        """The text that was put under this name with this key, else None."""
        place = self._place(name)
        try:
            content = place.read_bytes()
        except OSError:
            return None
        head, _, body = content.partition(b"\n")
        if head != _HEAD + _seal(key, body):
            return None
        with suppress(OSError):
            os.utime(place)  # so that what is used longest ago goes first
        return body.decode()

    def put(self, name: str, key: bytes, text: str) -> None:
        """Keeps a text, in place of what the name had; does nothing where that is refused."""
        body = text.encode()
        if len(body) > self.most_bytes:
            return
        with suppress(OSError):
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            beside = self.folder / f"{self._place(name).name}.{token_hex(4)}"
            try:
                beside.write_bytes(_HEAD + _seal(key, body) + b"\n" + body)
                beside.replace(self._place(name))
            finally:
                beside.unlink(missing_ok=True)
            self._make_room()

    def _place(self, name: str) -> Path:
        return self.folder / f"{blake2b(name.encode(), digest_size=16).hexdigest()}.kept"

    def _make_room(self) -> None:
        """Removes what is left over, and of the rest what was used longest ago."""
        total = 0
        for _, size, file in sorted(self._files(), reverse=True):
            total += size
            if total > self.most_bytes:
                file.unlink(missing_ok=True)

    def _files(self) -> Iterator[tuple[float, int, Path]]:
        """When each kept file was last used, how large it is, and where."""
        now = time.time()
        for file in self.folder.glob("*.kept*"):
            with suppress(FileNotFoundError):
                found = file.stat()
                if file.suffix == ".kept":
                    yield found.st_mtime, found.st_size, file
                elif now - found.st_mtime > _LEFT_OVER_AFTER:
                    file.unlink(missing_ok=True)


def _seal(key: bytes, body: bytes) -> bytes:
    return blake2b(body, key=key, digest_size=_SEAL).hexdigest().encode()
