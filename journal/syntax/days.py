"""A written date to a `Date` of plain figures: day lines, and `on 5 Nov` inside an entry.

Refuses nothing that has the shape of a date: whether the day exists is settled in events/dates.py.
"""

import re
from functools import cache, lru_cache
from typing import Any

from lark import Lark, Token, Transformer
from lark.exceptions import UnexpectedInput

from journal.source import Span
from journal.syntax.grammar import build_parser
from journal.syntax.nodes import Date, DayLine, YearLine

MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()
MONTH_NAMES = (
    "January February March April May June July August September October November December"
).split()
_WEEKDAYS = "mon tue wed thu fri sat sun".split()
# the marks of a heading: written so that a long run of blanks is looked at once
_THIRDS = {"start": "early", "beginning": "early", "middle": "mid", "end": "late"}
_HEAD = r"\s*+(?:#++\s*+)?"
_YEAR_LINE = re.compile(_HEAD + r"((?:1[6-9]|20|21)\d\d)\s*:?\s*$")
_MARKS = re.compile(_HEAD)
_MAY_BE_DAY = re.compile(
    r"\d|the\s+(?:\d|[sbme])|(?:between|start|beginning|middle|end|about|around|approximately|circa|ca?\.|early|mid|late|spring|summer|autumn|winter"
    r"|mon|tue|wed|thu|fri|sat|sun|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)",
    re.IGNORECASE,
)
_NEARLY_WITH_WEEKDAY = re.compile(
    r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?,?\s+(?:\d{1,2}(?:st|nd|rd|th)?"
    r"\s+(?P<a>[A-Za-z]{3,10})|(?P<b>[A-Za-z]{3,10})\s+\d{1,2}(?:st|nd|rd|th)?)\s*$",
    re.IGNORECASE,
)
_ARTICLE = re.compile(r"the\s+(?=\d|start|beginning|middle|end)", re.IGNORECASE)
_NEARLY = re.compile(
    r"(?:[A-Za-z]{3,9},?\s+)?(?:\d{1,2}(?:st|nd|rd|th)?\s+(?P<a>[A-Za-z]{3,10})|"
    r"(?P<b>[A-Za-z]{3,10})\s+\d{1,2}(?:st|nd|rd|th)?),?\s+\d{4}\s*$"
)
_LONGEST = 80


class _BuildDate(Transformer[Token, Any]):
    def start(self, children: list[Any]) -> Date:
        date: Date = children[-1]
        weekday = next((t for t in children if _is(t, "WEEKDAY")), None)
        if weekday is None:
            return date
        return _with(date, weekday=_WEEKDAYS.index(str(weekday).lower()[:3]))

    def day(self, children: list[Any]) -> Date:
        first = children[0]
        if first.type == "ISO":
            year, month, day = (int(figure) for figure in str(first).split("-"))
            return Date("day", day, month, year)
        if first.type == "NUMERIC":
            return _numeric(str(first))
        return Date("day", _day(children), _month(children), _year(children))

    def about(self, children: list[Any]) -> Date:
        return _with(children[-1], shape="about")

    def month(self, children: list[Any]) -> Date:
        part = next((str(t).lower().strip("- ") for t in children if _is(t, "PART")), "")
        part = _THIRDS.get(part.split(" ")[0], part)
        return Date("month", month=_month(children), year=_year(children), part=part)

    def either(self, children: list[Any]) -> Date:
        """`3 or 4 May`, `between 3 and 10 May`: one of these days."""
        return _with(self.stretch(children), shape="either")

    def season(self, children: list[Any]) -> Date:
        name = str(children[0]).lower()
        years = next((t for t in children if _is(t, "YEARS")), None)
        if years is None:
            return Date("season", year=_year(children), name=name)
        first, second = re.findall(r"\d+", str(years))
        full = int(second) if len(second) == 4 else int(first) // 100 * 100 + int(second)
        return Date("season", year=int(first), year2=full, name=name)

    def stretch(self, children: list[Any]) -> Date:
        if children[0].type in {"ISO", "NUMERIC"}:
            left, right = (self.day([children[0]]), self.day([children[-1]]))
            return _stretch(left, right)
        days = [_figure(t) for t in children if _is(t, "DAY")]
        months = [_month([t]) for t in children if _is(t, "MONTH")]
        years = [int(t) for t in children if _is(t, "YEAR")]
        year = years[-1] if years else None
        first = Date("day", days[0], months[0], years[0] if len(years) > 1 else year)
        weekday = next((t for t in children if _is(t, "WEEKDAY")), None)
        made = _stretch(first, Date("day", days[1], months[-1], year))
        if weekday is None:
            return made
        return _with(made, weekday2=_WEEKDAYS.index(str(weekday).lower()[:3]))


def _is(child: Any, kind: str) -> bool:
    return isinstance(child, Token) and child.type == kind


def _with(date: Date, **changes: Any) -> Date:
    from dataclasses import replace

    return replace(date, **changes)


def _figure(token: Token) -> int:
    return int(re.findall(r"\d+", str(token))[0])


def _day(children: list[Any]) -> int:
    return next(_figure(t) for t in children if _is(t, "DAY"))


def _month(children: list[Any]) -> int:
    word = next(str(t).lower()[:3] for t in children if _is(t, "MONTH"))
    return MONTHS.index(word) + 1


def _year(children: list[Any]) -> int | None:
    short = next((t for t in children if _is(t, "SHORT_YEAR")), None)
    if short is not None:
        return 2000 + _figure(short)
    return next((int(t) for t in children if _is(t, "YEAR")), None)


def _numeric(text: str) -> Date:
    figures = [int(figure) for figure in re.findall(r"\d+", text)]
    year = figures[2] if len(figures) > 2 else None
    if year is not None and year < 100:
        year += 2000
    return Date("day", figures[0], figures[1], year, numeric=True)


def _stretch(first: Date, last: Date) -> Date:
    return Date(
        "stretch",
        first.day,
        first.month,
        first.year,
        last.day,
        last.month,
        last.year,
        numeric=first.numeric,
    )


@cache
def _parser() -> Lark:
    return build_parser("day.lark", "start", frozenset(), _BuildDate())


@lru_cache(maxsize=4096)
def parse_date(text: str) -> Date | None:
    """The date that the whole text is, or None."""
    if len(text) > _LONGEST or not _MAY_BE_DAY.match(text):
        return None
    try:
        made: Any = _parser().parse(text)
    except UnexpectedInput:
        return None
    assert isinstance(made, Date)
    return made


def day_or_year_line(line: str, start: int) -> DayLine | YearLine | None:
    """A day line or year line, or None for any other line; `start` is where the line begins."""
    if len(line) > 20 * _LONGEST and ":" not in line[:_LONGEST]:
        return None
    year = _YEAR_LINE.match(line)
    if year:
        return YearLine(int(year[1]), Span(start, start + len(line)))
    marks = _MARKS.match(line)
    head = marks.end() if marks else 0
    if not _MAY_BE_DAY.match(line, head):
        return None
    return _day_line(line, head, start)


def _day_line(line: str, head: int, start: int) -> DayLine | None:
    whole = Span(start, start + len(line))
    for end in _ends(line):
        written = _ARTICLE.sub("", line[head:end].rstrip().rstrip("."))
        date = parse_date(written)
        if date is not None:
            where = Span(start + head, start + head + len(line[head:end].rstrip()))
            prose = line[end + 1 :].strip() if end < len(line) else ""
            return DayLine(date, prose, span=whole, date_span=where)
    return _misspelt(line, head, start)


def _ends(line: str) -> list[int]:
    """Where the date may end: at the line's end, or before a colon."""
    colon = line.find(":")
    return [len(line)] if colon < 0 else [len(line), colon]


def _misspelt(line: str, head: int, start: int) -> DayLine | None:
    """`Sat 14 Marhc 2026` means a date although it cannot be read."""
    nearly = _NEARLY.match(line, head) or _NEARLY_WITH_WEEKDAY.match(line, head)
    if nearly is None:
        return None
    group = "a" if nearly["a"] else "b"
    slip = Span(start + nearly.start(group), start + nearly.end(group))
    whole = Span(start, start + len(line))
    return DayLine(None, "", nearly[group], slip, whole, Span(start + head, whole.end))
