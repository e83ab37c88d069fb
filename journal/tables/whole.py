"""Writes a file whole or not at all: beside its place first, then in it; knows no tables."""

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def written_whole(path: Path) -> Iterator[Path]:
    """A new file beside `path`: it takes the name of `path` at the end, or goes when that fails.

    A link is followed, and an earlier file's permissions are kept. OSError where `path` cannot be
    written, or is no plain file; what was there is then as it was, as after an interruption.
    """
    target = path.resolve()
    if target.exists() and not target.is_file():
        raise OSError(f"`{path}` is a folder or a device, not a file")
    beside = target.with_name(f".{target.name[:100]}.{secrets.token_hex(4)}")
    try:
        beside.touch(exist_ok=False)
        yield beside
        if target.exists():
            beside.chmod(target.stat().st_mode & 0o777)
        _settle_on_disk(beside)
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def write_whole(path: Path, content: bytes) -> None:
    """Writes a file whole or leaves what was there; raises as `written_whole` does."""
    with written_whole(path) as beside:
        beside.write_bytes(content)


def _settle_on_disk(file: Path) -> None:
    # else a machine that stops now may come back with the new name and an empty file
    handle = os.open(file, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
