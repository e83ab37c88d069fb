"""A diary file as text with its places: offsets, lines and columns.

The one module that opens a diary file and decides on byte order marks, line ends and bytes that
are not UTF-8. Offsets are code points of the decoded text, half-open.
"""

import codecs
from bisect import bisect_right
from dataclasses import dataclass, field
from pathlib import Path


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


def _line_starts(text: str) -> tuple[int, ...]:
    starts = [0]
    find = text.find
    at = find("\n")
    while at >= 0:
        starts.append(at + 1)
        at = find("\n", at + 1)
    return tuple(starts)


@dataclass(frozen=True, slots=True)
class Source:
    """One text with the path that people know it by.

    Only `\\n` and `\\r\\n` end a line: other separators of Unicode stay part of their line, as text
    editors count them. A damaged text holds U+FFFD for bytes that were no text.
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
        end = self.starts[line] - 1 if line < len(self.starts) else len(self.text)
        if end > start and self.text[end - 1] == "\r":
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


_UTF16 = ((codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


def decode(path: str, content: bytes) -> tuple[Source, Damage | None]:
    """Bytes to text; each run of bytes that is not UTF-8 becomes U+FFFD and is told in `Damage`.

    A file that opens with a UTF-16 mark is read as UTF-16 and told too.
    """
    for mark, encoding in _UTF16:
        if content.startswith(mark):
            text = content.decode(encoding, errors="replace")
            return Source(path, text), Damage((Span(0, 0),), content[0], "UTF-16")
    content = content.removeprefix(codecs.BOM_UTF8)
    try:
        return Source(path, content.decode("utf-8")), None
    except UnicodeDecodeError:
        return _decode_damaged(path, content)


def _decode_damaged(path: str, content: bytes) -> tuple[Source, Damage]:
    pieces: list[str] = []
    spans: list[Span] = []
    length = 0
    first_byte = -1
    rest = content
    while rest:
        try:
            pieces.append(rest.decode("utf-8"))
            break
        except UnicodeDecodeError as error:
            good = rest[: error.start].decode("utf-8")
            if first_byte < 0:
                first_byte = rest[error.start]
            pieces.extend((good, "�"))
            length += len(good) + 1
            spans.append(Span(length - 1, length))
            rest = rest[error.end :]
    return Source(path, "".join(pieces), damaged=True), Damage(tuple(spans), first_byte)


def diary_files(path: Path) -> list[Path]:
    """The diary's files in path order: the file itself, or each `.txt` and `.md` below a folder.

    Hidden files and folders are passed over, and a link is not followed out of the folder.
    Raises FileNotFoundError when there is no such path.
    """
    if path.is_file():
        return [path]
    if not path.is_dir():
        raise FileNotFoundError(path)
    found = [
        file
        for file in path.rglob("*")
        if file.suffix.lower() in {".txt", ".md"}
        and not any(part.startswith(".") for part in file.relative_to(path).parts)
        and file.is_file()
    ]
    return sorted(found, key=lambda file: file.relative_to(path).as_posix())
