"""The corpus: Markdown files where a heading is a case and the fenced blocks are the test.

A heading of level two or more with blocks below it is a case. It has a `diary` block (what is read)
and any of `parts`, `events`, `weather`, `prose` and `problems` (what must come of it). Only blocks
that are there are compared, except `problems`: a case without that block must have none, hints
included. A `plot` block is the case's plot sheet; one under the file's title, before the first
case, serves every case that has none. `diary today=2026-03-01 file=2025.txt` sets the day of
reading and the page's name.

A table under a heading with the columns written, first and last gives day lines: what is written,
read under the year line 2026, and the first and last day it means; `error` for one that cannot be
read, `prose` for one that is no day line.

A file that breaks these rules is an error of the run, not a skipped case.
"""

import re
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import NoReturn

from support.texts import event_text, paragraph_text, parts_text, weather_text

from journal.problems.render import render_full, render_short
from journal.reading import Reading, read_sources
from journal.source import Source

TODAY = date(2026, 11, 25)
PAGE = "case.txt"
SHEET = "plot.txt"
COMPARED = ("parts", "events", "weather", "prose", "problems")
_KNOWN = {"diary", "plot", *COMPARED}
_TABLE = ("written", "first", "last")


class CorpusError(ValueError):
    """A corpus file that breaks the rules above; the text names the file and the line."""


@dataclass(frozen=True, slots=True)
class Block:
    """The text between two fences; `start` and `end` are its lines, counted from 0, half-open."""

    text: str
    start: int
    end: int
    options: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class DayRow:
    """One row of a table of day lines."""

    line: int
    written: str
    first: str
    last: str


@dataclass(slots=True)
class Case:
    """One heading of a corpus file with its blocks and day lines; `line` counts from 1."""

    file: Path
    line: int
    title: str
    blocks: dict[str, Block] = field(default_factory=dict)
    days: list[DayRow] = field(default_factory=list)

    @property
    def name(self) -> str:
        """The test's id: file, line and title."""
        return f"{self.file.name}:{self.line} {self.title}"

    @property
    def today(self) -> date:
        """The day the case is read on."""
        given = self.blocks["diary"].options.get("today") if "diary" in self.blocks else None
        return date.fromisoformat(given) if given else TODAY

    @property
    def sheet(self) -> list[Source]:
        """The case's plot sheet, if it has one."""
        return [Source(SHEET, self.blocks["plot"].text)] if "plot" in self.blocks else []

    @property
    def page(self) -> Source:
        """The case's diary."""
        diary = self.blocks["diary"]
        return Source(diary.options.get("file", PAGE), diary.text)

    def read(self) -> Reading:
        """What the diary block reads to."""
        return read_sources([*self.sheet, self.page], self.today)


def read_corpus(file: Path) -> list[Case]:
    """The cases of a corpus file, in order; raises CorpusError for a malformed one."""
    return _Reader(file).cases()


class _Reader:
    """Walks a corpus file once; a heading without blocks or rows is a section, not a case."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.lines = file.read_text(encoding="utf-8").split("\n")
        self.sheet: Block | None = None
        self.found: list[Case] = []

    def cases(self) -> list[Case]:
        at = 0
        while at < len(self.lines):
            line = self.lines[at]
            if heading := re.fullmatch(r"#{2,6} +(.+?) *", line):
                self.found.append(Case(self.file, at + 1, heading[1]))
            elif fence := re.fullmatch(r"(`{3,})(.*)", line):
                at = self._block(at, fence[1], fence[2].split())
            elif self._is_table_head(at):
                at = self._table(at)
            elif line.lstrip().startswith("```"):
                self._refuse(at, "a fence stands at the start of its line")
            at += 1
        cases = [case for case in self.found if case.blocks or case.days]
        for case in cases:
            self._check(case)
        if not cases:
            self._refuse(0, "no case stands here")
        return cases

    def _block(self, at: int, fence: str, info: list[str]) -> int:
        """Takes the block that opens at line `at`; the line of its closing fence."""
        name = info[0] if info else ""
        if name not in _KNOWN or not all("=" in option for option in info[1:]):
            self._refuse(at, f"`{' '.join(info)}` is no kind of block")
        end = next((i for i in range(at + 1, len(self.lines)) if self.lines[i] == fence), None)
        if end is None:
            self._refuse(at, "the block is never closed")
        text = "".join(line + "\n" for line in self.lines[at + 1 : end])
        block = Block(text, at + 1, end, dict(option.split("=", 1) for option in info[1:]))
        if not self.found:
            if name != "plot" or self.sheet is not None:
                self._refuse(at, "before the first case only one `plot` block may stand")
            self.sheet = block
        elif name in self.found[-1].blocks:
            self._refuse(at, f"a second `{name}` block in one case")
        else:
            self.found[-1].blocks[name] = block
        return end

    def _is_table_head(self, at: int) -> bool:
        return _cells(self.lines[at])[:3] == list(_TABLE)

    def _table(self, at: int) -> int:
        """Takes the table whose head is line `at`; its last line."""
        if not self.found:
            self._refuse(at, "a table stands before the first heading")
        row = at + 2
        while row < len(self.lines) and self.lines[row].startswith("|"):
            cells = _cells(self.lines[row])
            if len(cells) < 3:
                self._refuse(row, "a row has written, first and last")
            self.found[-1].days.append(DayRow(row + 1, *cells[:3]))
            row += 1
        if row == at + 2:
            self._refuse(at, "the table has no row")
        return row - 1

    def _check(self, case: Case) -> None:
        if self.sheet is not None:
            case.blocks.setdefault("plot", self.sheet)
        if "diary" not in case.blocks and not case.days:
            self._refuse(case.line - 1, f"`{case.title}` has no `diary` block")
        if case.days and "diary" in case.blocks:
            self._refuse(case.line - 1, f"`{case.title}` has both a diary and a table")

    def _refuse(self, at: int, why: str) -> NoReturn:
        raise CorpusError(f"{self.file.name}:{at + 1}: {why}")


def _cells(line: str) -> list[str]:
    if not line.startswith("|"):
        return []
    return [cell.strip().strip("`") for cell in line.strip().strip("|").split("|")]


def outcome(case: Case, name: str, reading: Reading) -> str:
    """What the block `name` must hold for this reading; problems in the form the case shows."""
    if name == "parts":
        page = case.page.path
        return parts_text(next(d for d in reading.documents if d.source.path == page))
    if name == "problems":
        in_full = " --> " in case.blocks[name].text if name in case.blocks else False
        if in_full:
            return "\n\n".join(render_full(problem) for problem in reading.problems)
        return "\n".join(render_short(problem) for problem in reading.problems)
    rows, text = {
        # The sheet's own rows are those of another file: they would stand in every case.
        "events": ([e for e in reading.events if e.source.path != SHEET], event_text),
        "weather": (reading.weather, weather_text),
        "prose": (reading.prose, paragraph_text),
    }[name]
    return "\n".join(text(row) for row in rows)


def differences(case: Case) -> dict[str, str]:
    """The blocks that do not hold what comes out, with what does."""
    reading = case.read()
    wrong = {}
    for name in COMPARED:
        if name in case.blocks or name == "problems":
            expected = case.blocks[name].text if name in case.blocks else ""
            found = outcome(case, name, reading)
            if found.strip("\n") != expected.strip("\n"):
                wrong[name] = found
    return wrong


def rewrite(file: Path, changes: list[tuple[Case, str, str]]) -> None:
    """Writes what came out into the blocks of a file; a missing `problems` block is added."""
    lines = file.read_text(encoding="utf-8").split("\n")

    def place(change: tuple[Case, str, str]) -> int:
        case, name, _ = change
        return (case.blocks[name] if name in case.blocks else case.blocks["diary"]).end

    for case, name, text in sorted(changes, key=place, reverse=True):
        body = text.strip("\n").split("\n") if text.strip("\n") else []
        if name in case.blocks:
            lines[case.blocks[name].start : case.blocks[name].end] = body
        else:
            last = max(block.end for block in case.blocks.values()) + 1
            lines[last:last] = [f"```{name}", *body, "```"]
    file.write_text("\n".join(lines), encoding="utf-8")


def day_meant(sources: list[Source], written: str, year: int, today: date) -> tuple[str, str]:
    """First and last day of a day line under a running year; `error` or `prose` when it has none.

    `sources` are the plot sheet, if there is one.
    """
    page = f"# {year}\n\n1 January {year}\n\n{written}\n- see rain\n"
    reading = read_sources([*sources, Source(PAGE, page)], today)
    if any(found.severity == "error" for found in reading.problems):
        return "error", ""
    if any(row.text.strip() == written for row in reading.prose):
        return "prose", ""
    (event,) = [event for event in reading.events if event.kind != "sheet"]
    return str(event.date), str(event.date_end)
