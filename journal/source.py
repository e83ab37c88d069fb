"""A diary file as text with its places: offsets, lines and columns.

The one module that finds a diary's files and decides on byte order marks, line ends and bytes that
are not UTF-8. Offsets are code points of the decoded text, half-open.
"""

import codecs
import errno
import os
import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path, PureWindowsPath


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A stretch of a source's text: `start` to `end`, half-open, in code points."""

    start: int
    end: int

    def __post_init__(self) -> None:
        """Raises ValueError for a span that runs backwards."""
        if not 0 <= self.start <= self.end:
            raise ValueError(f"a span runs forward from 0 or later, not {self.start} to {self.end}")

    def shifted(self, by: int) -> "Span":
        """The same stretch, `by` code points further on."""
        return Span(self.start + by, self.end + by)

    def encloses(self, other: "Span") -> bool:
        """Whether `other` lies within this span."""
        return self.start <= other.start and other.end <= self.end


_LINE_END = re.compile(r"\r\n?|\n")


def _line_starts(text: str) -> tuple[int, ...]:
    starts = [0]
    if text.count("\r") != text.count("\r\n"):
        return (0, *(match.end() for match in _LINE_END.finditer(text)))
    find = text.find
    at = find("\n")
    while at >= 0:
        starts.append(at + 1)
        at = find("\n", at + 1)
    return tuple(starts)


@dataclass(frozen=True, slots=True)
class Source:
    """One text with the path that people know it by.

    `\\n`, `\\r\\n` and `\\r` end a line: other separators of Unicode stay part of their line, as
    text editors count them. A damaged text holds U+FFFD for bytes that were no text.
    """

    path: str
    text: str
    damaged: bool = field(default=False, compare=False, repr=False)
    starts: tuple[int, ...] = field(default=(), compare=False, repr=False)

    def __post_init__(self) -> None:
        """Finds where the lines begin."""
        if not self.starts:
            object.__setattr__(self, "starts", _line_starts(self.text))

    @property
    def line_count(self) -> int:
        """How many lines an editor would show."""
        return len(self.starts)

    def line_number(self, offset: int) -> int:
        """The line that holds `offset`, counted from 1."""
        return bisect_right(self.starts, offset)

    def line_column(self, offset: int) -> tuple[int, int]:
        """Line and column of `offset`, both counted from 1."""
        line = self.line_number(offset)
        return line, offset - self.starts[line - 1] + 1

    def line_span(self, line: int) -> Span:
        """The span of a line (counted from 1) without its line end."""
        start = self.starts[line - 1]
        if line == len(self.starts):
            return Span(start, len(self.text))
        end = self.starts[line] - 1
        if end > start and self.text.startswith("\r\n", end - 1):
            end -= 1
        return Span(start, end)

    def line_text(self, line: int) -> str:
        """A line (counted from 1) without its line end."""
        return self.slice(self.line_span(line))

    def slice(self, span: Span) -> str:
        """The text of a span."""
        return self.text[span.start : span.end]


@dataclass(frozen=True, slots=True)
class Damage:
    """Bytes of a file that are not UTF-8: where their stand-ins are, and what they were."""

    spans: tuple[Span, ...]
    first_byte: int
    encoding: str | None = None


# UTF-32 first: its little-endian mark begins as that of UTF-16 does
_MARKS = (
    (codecs.BOM_UTF32_LE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF32_BE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF16_LE, "utf-16", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16", "UTF-16"),
)
_LOOKED_AT = 4096
_BAD = re.compile("[\udc80-\udcff]+")


def decode(path: str, content: bytes) -> tuple[Source, Damage | None]:
    """Bytes to text; each run of bytes that is not UTF-8 becomes U+FFFD and is told in `Damage`.

    A file that opens with the mark of UTF-16 or UTF-32, or has the zero bytes of UTF-16 without
    one, is read as that and told too.
    """
    for mark, encoding, name in _MARKS:
        if content.startswith(mark):
            text = content.decode(encoding, errors="replace")
            return Source(path, text), Damage((Span(0, 0),), content[0], name)
    unmarked = _unmarked_utf16(content[:_LOOKED_AT])
    if unmarked:
        text = content.decode(unmarked, errors="replace")
        return Source(path, text), Damage((Span(0, 0),), content[0], "UTF-16")
    content = content.removeprefix(codecs.BOM_UTF8)
    try:
        return Source(path, content.decode("utf-8")), None
    except UnicodeDecodeError as error:
        return _decode_damaged(path, content, error.start)


def _unmarked_utf16(head: bytes) -> str | None:
    """The order of bytes of a text in which nearly every second byte is zero, and no other."""
    half = len(head) // 2
    even, odd = head[::2].count(0), head[1::2].count(0)
    if half < 4 or max(even, odd) < 0.8 * half or min(even, odd) > 0.05 * half:
        return None
    return "utf-16-be" if even > odd else "utf-16-le"


def _decode_damaged(path: str, content: bytes, first_bad: int) -> tuple[Source, Damage]:
    escaped = content.decode("utf-8", errors="surrogateescape")
    pieces: list[str] = []
    spans: list[Span] = []
    at = length = 0
    for run in _BAD.finditer(escaped):
        pieces.extend((escaped[at : run.start()], "\ufffd"))
        length += run.start() - at + 1
        spans.append(Span(length - 1, length))
        at = run.end()
    pieces.append(escaped[at:])
    source = Source(path, "".join(pieces), damaged=True)
    return source, Damage(tuple(spans), content[first_bad])


@dataclass(frozen=True, slots=True)
class Found:
    """The pages of a diary in path order, and what looks like one but is none, with the reason."""

    files: tuple[Path, ...]
    refused: tuple[tuple[Path, str], ...] = ()


_PAGES = frozenset({".txt", ".md"})
_JUNCTION = 0xA0000003  # IO_REPARSE_TAG_MOUNT_POINT, which Python names on Windows only


def diary_files(path: Path) -> Found:
    """The file itself, or each `.txt` and `.md` below a folder.

    Hidden files and folders are passed over, and so are linked folders; a linked file counts when
    it lies in the folder and is not found there by itself. Raises OSError when the path cannot be
    listed, FileNotFoundError when there is none such.
    """
    if path.is_file():
        return Found((path,))
    if not path.is_dir():
        raise FileNotFoundError(path)
    files: list[Path] = []
    refused: list[tuple[Path, str]] = []
    for entry, failed in _entries(path):
        reason = _strangeness(entry, path) if failed is None else reason_of(failed)
        if reason:
            refused.append((entry, reason))
        elif reason is None:
            files.append(entry)
    return Found(tuple(sorted(files, key=Path.as_posix)), tuple(sorted(refused)))


def reason_of(failed: OSError) -> str:
    """What the system says of a file it does not give, in the middle of a sentence."""
    return (failed.strerror or str(failed) or "it cannot be read").lower()


def named_file(folder: Path, name: str) -> Path:
    """The file that a page names, from `folder` on; `\\` parts folders in a page from Windows.

    It may lie anywhere, and need not be there. Raises what the system says of a name that is none.
    """
    place = folder / name
    if "\\" not in name or place.exists():
        return place
    return folder.joinpath(*PureWindowsPath(name).parts)


def shown_name(name: str) -> str:
    """A path as text that can be written anywhere: bytes that are no text become U+FFFD."""
    return name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")


def _entries(root: Path) -> Iterator[tuple[Path, OSError | None]]:
    """Files and links that are called like a page, and the folders that cannot be listed."""
    waiting = [root]
    while waiting:
        folder = waiting.pop()
        try:
            entries = list(os.scandir(folder))
        except OSError as failed:
            if folder == root:
                raise
            yield folder, failed
            continue
        for entry in entries:
            if entry.name.startswith("."):
                continue
            if _is_folder(entry):
                waiting.append(Path(entry.path))
            elif Path(entry.name).suffix.lower() in _PAGES:
                yield Path(entry.path), None


def _is_folder(entry: os.DirEntry[str]) -> bool:
    """Whether an entry is a folder and no link to one, which a junction of Windows is too."""
    if not entry.is_dir(follow_symlinks=False):
        return False
    try:
        found = entry.stat(follow_symlinks=False)
    except OSError:
        return True  # whoever opens it is told why it cannot be
    return getattr(found, "st_reparse_tag", 0) != _JUNCTION


def _strangeness(file: Path, root: Path) -> str | None:
    """Why what is called like a page is none: "" needs no word, and None is a page."""
    try:
        if not file.is_symlink():
            return None if file.is_file() else ""
        target = file.resolve(strict=True)
    except (FileNotFoundError, RuntimeError):
        return "it is a link to nothing"
    except OSError as failed:
        # a ring of links, before Python 3.13 a RuntimeError
        return "it is a link to nothing" if failed.errno == errno.ELOOP else reason_of(failed)
    home = root.resolve()
    if target.is_dir():
        return ""
    if not target.is_relative_to(home):
        return "it is a link out of the diary"
    beside = target.relative_to(home)
    hidden = any(part.startswith(".") for part in beside.parts)
    return "" if target.suffix.lower() in _PAGES and not hidden else None
