"""The day lines of one file to their days: the running year, weekdays, days out of order."""

import re
from dataclasses import dataclass, field, replace
from datetime import date

from journal.events.dates import WEEKDAY_NAMES, Calendar, Days, NoSuchDayError, weekday_agrees
from journal.problems.model import Problem, make
from journal.reference.crops import nearest
from journal.source import Source
from journal.syntax.days import MONTH_NAMES
from journal.syntax.nodes import Date, DayLine, Document, YearLine

_FIRST_WORD = re.compile(r"[^\W\d_]+\.?")
_NUMERIC = re.compile(r"(\d{1,2})([/.-])(\d{1,2})(?!\d)")
_FILE_YEAR = re.compile(r"(?<!\d)((?:19|20)\d\d)(?!\d)")


@dataclass(slots=True)
class _Running:
    """The running year of one file: the last year line, else the last full date, else its name."""

    from_name: int | None
    from_line: int | None = None
    from_date: int | None = None
    month: int | None = None

    @property
    def year(self) -> int | None:
        if self.from_line is not None:
            return self.from_line
        return self.from_date if self.from_date is not None else self.from_name

    def note(self, year: int, month: int | None) -> None:
        """Remembers a date with its year; one of another year than the page's turns no year."""
        self.from_date = year
        self.month = month if year == self.year else None

    def for_month(self, month: int | None) -> int | None:
        """The year of a date without one; a December followed by a January is in the next."""
        year = self.year
        if year is None or month is None:
            return year
        if self.month == 12 and month == 1:
            if self.from_line is not None:
                self.from_line += 1
            else:
                self.from_date = year + 1
            year += 1
        self.month = month
        return year


@dataclass(slots=True)
class DatedLines:
    """The days of each line of a document, by the line's place in it, and what was wrong."""

    days: list[Days | None] = field(default_factory=list)
    before_any: list[bool] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


def date_lines(document: Document, calendar: Calendar, today: date) -> DatedLines:
    """Each line's days: those of the last day line above it, None where that cannot be read.

    The running year starts afresh in each file.
    """
    source = document.source
    running = _Running(year_of_path(source.path))
    dated = DatedLines()
    now: Days | None = None
    latest: date | None = None
    before = True
    for line in document.lines:
        if isinstance(line, YearLine):
            running.from_line, running.month = line.year, None
        elif isinstance(line, DayLine):
            now = _read_day(line, source, running, calendar, dated.problems)
            before = False
            if now is not None:
                _look_at(now, line, source, latest, today, dated.problems)
                latest = max(latest, now.first) if latest else now.first
        dated.days.append(now)
        dated.before_any.append(before)
    return dated


def year_of_path(path: str) -> int | None:
    """A year in the file's name, else in the nearest folder's; the last one that stands there."""
    for part in reversed(path.replace("\\", "/").split("/")):
        years = _FILE_YEAR.findall(part)
        if years:
            return int(years[-1])
    return None


def _read_day(
    line: DayLine,
    source: Source,
    running: _Running,
    calendar: Calendar,
    problems: list[Problem],
) -> Days | None:
    if line.date is None:
        likely = _nearest_month(line.slip)
        mend = f"write `{likely}`" if likely else "write the month in full or as three letters"
        problems.append(make("J204", source, line.slip_span, mend=mend, word=line.slip))
        return None
    written = line.date
    month = written.month
    if calendar.month_first and written.numeric:
        month = written.day
    year = running.for_month(month) if written.year is None and written.year2 is None else None
    try:
        days = calendar.settle(written, year)
    except NoSuchDayError as reason:
        word = source.slice(line.date_span)
        order = _other_order(written, word, calendar)
        problems.append(make("J201", source, line.date_span, mend=order, word=word, reason=reason))
        return None
    except LookupError:
        problems.append(make("J203", source, line.date_span, word=source.slice(line.date_span)))
        return None
    if written.year is not None and written.shape != "about":
        running.note(days.last.year, days.last.month)
    elif written.year is not None:
        running.note(written.year, written.month)
    if not weekday_agrees(written, days):
        problems.append(_wrong_weekday(line, written, days, source))
        return None
    if calendar.is_bare_winter(written):
        first, last = days.first, days.last
        text = f"{MONTH_NAMES[first.month - 1]} {first.year} to {MONTH_NAMES[last.month - 1]} "
        text += str(last.year)
        mend = f"write `{written.name} {first.year}/{last.year % 100:02d}` to say it plainly"
        problems.append(
            make(
                "J207",
                source,
                line.date_span,
                mend=mend,
                word=source.slice(line.date_span),
                months=text,
            )
        )
    return days


def _other_order(written: Date, word: str, calendar: Calendar) -> str | None:
    """`3/14/2026`: the day that it is with day and month changed about, where there is one."""
    if not written.numeric or written.shape != "day":
        return None
    try:
        replace(calendar, month_first=not calendar.month_first).settle(written, 2024)
    except NoSuchDayError:
        return None
    turned = _NUMERIC.sub(r"\3\2\1", word, count=1)
    return f"write `{turned}`"


def _look_at(
    days: Days,
    line: DayLine,
    source: Source,
    latest: date | None,
    today: date,
    problems: list[Problem],
) -> None:
    word = source.slice(line.date_span)
    if days.first > today:
        problems.append(make("J205", source, line.date_span, word=word))
    elif latest is not None and days.last < latest:
        problems.append(make("J206", source, line.date_span, word=word))


def _nearest_month(word: str) -> str:
    likely = nearest(word, MONTH_NAMES, 1)
    return likely[0] if likely else ""


def _wrong_weekday(line: DayLine, written: Date, days: Days, source: Source) -> Problem:
    """The weekday that a date has; of a stretch, the one of the end that contradicts it."""
    word = source.slice(line.date_span)
    if written.weekday in {None, days.first.weekday()}:
        last, right = days.last, WEEKDAY_NAMES[days.last.weekday()]
        day = f"{last.day} {MONTH_NAMES[last.month - 1]}"
        return make(
            "J202", source, line.date_span, word=day, right=right, right_day=f"{right} {day}"
        )
    right = WEEKDAY_NAMES[days.first.weekday()]
    right_day = _FIRST_WORD.sub(right, word, count=1)
    return make("J202", source, line.date_span, word=word, right=right, right_day=right_day)
