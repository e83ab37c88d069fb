"""Writes a file whole or not at all: beside its place first, then in it; knows no tables."""

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_CUT = 40  # characters of its name, so that the name of the file beside it is not too long


@contextmanager
def written_whole(path: Path) -> Iterator[Path]:
    """A new file beside `path`: it takes the name of `path` at the end, or goes when that fails.

    A link is followed, and an earlier file's permissions are kept. OSError where `path` cannot be
    written, or is no plain file; what was there is then as it was, as after an interruption.
    """
    target = place_of_file(path)
    beside = target.with_name(f"{stem_beside(target)}.{secrets.token_hex(4)}")
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


def stem_beside(target: Path) -> str:
    """What a hidden name begins with under which something is made before it takes its place."""
    return f".{target.name[:_CUT]}"


def place_of_file(path: Path) -> Path:
    """Where a file of this name is or will be, links followed; OSError where it can be none."""
    try:
        target = path.resolve()
        # from Python 3.13 on a ring of links is not told of and stays a link
        in_a_ring = target.is_symlink()
    except RuntimeError:
        in_a_ring = True
    if in_a_ring:
        raise OSError(f"`{path}` is a link to itself")
    if target.exists() and not target.is_file():
        raise OSError(f"`{path}` is a folder or a device, not a file")
    return target


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
