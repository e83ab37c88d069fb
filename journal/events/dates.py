"""Written dates to first and last possible day: the running year, and days that cannot be.

Carries both ends always; refuses to choose a day within a stretch.
"""

import calendar
import re
from dataclasses import dataclass, field
from datetime import date, timedelta

from journal.problems.model import Problem, make
from journal.source import Source
from journal.syntax.days import MONTH_NAMES, parse_date
from journal.syntax.nodes import Date, DayLine, Document, YearLine

ABOUT_DAYS = 7  # `about 20 May` is within so many days either side
_FIRST_WORD = re.compile(r"[^\W\d_]+\.?")
_SEASON_STARTS = {"spring": 3, "summer": 6, "autumn": 9, "winter": 12}
_PARTS = {"early": (1, 10), "mid": (11, 20), "late": (21, 31)}
_WEEKDAY_NAMES = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
_FILE_YEAR = re.compile(r"(?<!\d)((?:19|20)\d\d)(?!\d)")


@dataclass(frozen=True, slots=True)
class Days:
    """First and last possible day; `spread` when it went on over all of them."""

    first: date
    last: date
    spread: bool = False


class NoSuchDayError(ValueError):
    """A written date that no calendar holds; the text says why."""


@dataclass(frozen=True, slots=True)
class Calendar:
    """How this plot writes dates: the sheet's order of day and month, and its hemisphere."""

    month_first: bool = False
    south: bool = False

    def settle(self, written: Date, running: int | None) -> Days:
        """The days of a written date, in the running year where it names none.

        Raises NoSuchDayError for 31 June and its like, LookupError when no year is known.
        """
        if written.shape == "season":
            return self._season(written, running)
        year = written.year if written.year is not None else running
        if year is None:
            raise LookupError("no year")
        if written.shape == "month":
            return _month(year, written)
        day, month = self._order(written.day, written.month, written.numeric)
        first = _day(year, month, day)
        if written.shape == "about":
            return Days(_shifted(first, -ABOUT_DAYS), _shifted(first, ABOUT_DAYS))
        if written.shape == "stretch":
            return self._stretch(written, first, running)
        return Days(first, first)

    def _order(self, day: int | None, month: int | None, numeric: bool) -> tuple[int, int]:
        day, month = day or 0, month or 0
        return (month, day) if numeric and self.month_first else (day, month)

    def _stretch(self, written: Date, first: date, running: int | None) -> Days:
        day, month = self._order(written.day2, written.month2, written.numeric)
        year = written.year2 if written.year2 is not None else first.year
        last = _day(year, month, day)
        if last < first and written.year is None:
            last = _day(year + 1, month, day)
        if last < first and written.month2 is not None and written.year == written.year2:
            # `28 Dec to 2 Jan 2026` names the year of its end.
            first = _day(first.year - 1, first.month, first.day)
        if last < first or (last - first).days > 366:
            raise NoSuchDayError("it ends before it begins")
        return Days(first, last, spread=True)

    def _season(self, written: Date, running: int | None) -> Days:
        year = written.year2 or written.year or running
        if year is None:
            raise LookupError("no year")
        start = _SEASON_STARTS[written.name]
        if self.south:
            start = (start + 5) % 12 + 1
        # A season over New Year is named by its January.
        begin = year - 1 if start == 12 else year
        first = _day(begin, start, 1)
        last_month = (start + 1) % 12 + 1
        last_year = begin + 1 if start + 2 > 12 else begin
        return Days(first, _day(last_year, last_month, _length(last_year, last_month)))

    def is_bare_winter(self, written: Date) -> bool:
        """Whether a season over New Year is written with one year or none."""
        over = "summer" if self.south else "winter"
        return written.shape == "season" and written.name == over and written.year2 is None


def _length(year: int, month: int) -> int:
    return calendar.monthrange(year, month)[1]


def _shifted(day: date, by: int) -> date:
    try:
        return day + timedelta(days=by)
    except OverflowError:
        return day


def _day(year: int, month: int, day: int) -> date:
    if not 1 <= month <= 12:
        raise NoSuchDayError(f"there is no month {month}")
    if not 1 <= year <= 9999:
        raise NoSuchDayError(f"there is no year {year}")
    last = _length(year, month)
    if not 1 <= day <= last:
        name = MONTH_NAMES[month - 1]
        raise NoSuchDayError(f"{name} has {last} days" + (f" in {year}" if month == 2 else ""))
    return date(year, month, day)


def _month(year: int, written: Date) -> Days:
    month = written.month or 0
    first, last = _PARTS.get(written.part, (1, 31))
    return Days(_day(year, month, first), _day(year, month, min(last, _length(year, month))))


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
        problems.append(
            make("J201", source, line.date_span, word=source.slice(line.date_span), reason=reason)
        )
        return None
    except LookupError:
        problems.append(make("J203", source, line.date_span, word=source.slice(line.date_span)))
        return None
    if written.year is not None and written.shape != "about":
        running.note(days.last.year, days.last.month)
    elif written.year is not None:
        running.note(written.year, written.month)
    if written.weekday is not None and not _weekday_agrees(written, days):
        right = days.first.weekday()
        problems.append(
            make(
                "J202",
                source,
                line.date_span,
                word=source.slice(line.date_span),
                right=_WEEKDAY_NAMES[right],
                right_day=_FIRST_WORD.sub(
                    _WEEKDAY_NAMES[right], source.slice(line.date_span), count=1
                ),
            )
        )
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


def _weekday_agrees(written: Date, days: Days) -> bool:
    return written.shape not in {"day", "stretch"} or days.first.weekday() == written.weekday


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
    from journal.reference.crops import nearest

    likely = nearest(word, MONTH_NAMES, 1)
    return likely[0] if likely else ""


# ---------------------------------------------------------------- dates inside an entry

_SMALL = re.compile(
    r"^(?:(?:on|by|before|in|during|until|till|up\s+to)\s+)?(?:last\s+)?(?:the\s+end\s+of\s+)?"
    r"(?P<about>about\s+)?",
    re.IGNORECASE,
)
_AGO = re.compile(
    r"(?P<about>about\s+)?(?P<count>\d+|[a-z]+|a couple of)\s+(?P<unit>[a-z]+?)s?\s+ago$",
    re.IGNORECASE,
)
_AGO_DAYS = {"day": 1, "week": 7, "fortnight": 14, "month": 30, "year": 365}
_COUNTS = {
    word: count
    for count, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve".split(), start=1
    )
} | {"a couple of": 2}
_ORDINAL = re.compile(r"(?:the\s+)?(\d{1,2})(?:st|nd|rd|th)$", re.IGNORECASE)
_WEEKDAY = re.compile(r"(mon|tue|wed|thu|fri|sat|sun)[a-z]*$", re.IGNORECASE)


def day_before(text: str, entry: Days, calendar: Calendar) -> Days:
    """`on 5 Nov`: without a year, the latest such day not after the entry's own day.

    Raises NoSuchDayError.
    """
    if text.lower() == "yesterday":
        return Days(_shifted(entry.first, -1), _shifted(entry.last, -1))
    ago = _AGO.match(text)
    if ago:
        return _ago(ago, entry)
    small = _SMALL.match(text)
    words = text[small.end() :] if small else text
    about = bool(small and small["about"])
    days = _plain_day(words, entry, calendar)
    if about:
        return Days(_shifted(days.first, -ABOUT_DAYS), _shifted(days.last, ABOUT_DAYS))
    return days


def _ago(ago: "re.Match[str]", entry: Days) -> Days:
    """`two weeks ago`: that many days before; months and years are only told roughly."""
    written = ago["count"].lower()
    count = int(written) if written.isdigit() else _COUNTS.get(written, 1)
    days = min(count * _AGO_DAYS.get(ago["unit"].lower(), 1), 40_000)
    slack = {"month": 15, "year": 182}.get(ago["unit"].lower(), 0)
    slack = max(slack, ABOUT_DAYS) if ago["about"] else slack
    return Days(_shifted(entry.first, -days - slack), _shifted(entry.last, -days + slack))


def _plain_day(words: str, entry: Days, calendar: Calendar) -> Days:
    own = entry.last
    ordinal, weekday = _ORDINAL.match(words), _WEEKDAY.match(words)
    if ordinal:
        return _back_to_ordinal(own, int(ordinal[1]))
    if weekday:
        wanted = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].index(weekday[1].lower())
        day = _shifted(own, -((own.weekday() - wanted) % 7))
        return Days(day, day)
    written = parse_date(words)
    if written is None:
        raise NoSuchDayError("it is no day")
    if written.year is not None or written.year2 is not None:
        return _checked(calendar, written, None)
    for year in (own.year, *range(own.year - 1, own.year - 9, -1)):
        try:
            days = _checked(calendar, written, year)
        except NoSuchDayError:
            if written.month != 2 or written.day != 29:
                raise
            continue
        if days.first <= own:
            return days
    return _checked(calendar, written, own.year)


def _checked(calendar: Calendar, written: Date, year: int | None) -> Days:
    days = calendar.settle(written, year)
    if written.weekday is not None and not _weekday_agrees(written, days):
        raise NoSuchDayError(f"that day is a {_WEEKDAY_NAMES[days.first.weekday()]}")
    return days


def _back_to_ordinal(own: date, day: int) -> Days:
    if not 1 <= day <= 31:
        raise NoSuchDayError("no month has so many days")
    at = own
    for _ in range(70):
        if at.day == day:
            return Days(at, at)
        at = _shifted(at, -1)
    raise NoSuchDayError("no such day is near")


def day_after(words: str, entry: Days, calendar: Calendar) -> Days:
    """`by 28 March`: without a year, the next such day not before the entry's own day.

    Raises NoSuchDayError.
    """
    small = _SMALL.match(words)
    text = words[small.end() :] if small else words
    weekday = _WEEKDAY.match(text)
    if weekday:
        wanted = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].index(weekday[1].lower())
        ahead = (wanted - entry.first.weekday()) % 7 or 7
        return Days(_shifted(entry.first, ahead), _shifted(entry.last, ahead))
    written = parse_date(text)
    if written is None:
        raise NoSuchDayError("it is no day")
    if written.year is not None or written.year2 is not None:
        return _checked(calendar, written, None)
    for year in range(entry.first.year, min(entry.first.year + 9, 9999)):
        try:
            days = _checked(calendar, written, year)
        except NoSuchDayError:
            if written.month != 2 or written.day != 29:
                raise
            continue
        if days.last >= entry.first:
            return days
    raise NoSuchDayError("no such day is near")
