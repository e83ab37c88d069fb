"""Written dates to first and last possible day, in a year that is known; days that cannot be.

Carries both ends always; refuses to choose a day within a stretch.
"""

import calendar
from dataclasses import dataclass
from datetime import date, timedelta

from journal.syntax.days import MONTH_NAMES
from journal.syntax.nodes import Date

ABOUT_DAYS = 7  # `about 20 May` is within so many days either side
_SEASON_STARTS = {"spring": 3, "summer": 6, "autumn": 9, "winter": 12}
_PARTS = {"early": (1, 10), "mid": (11, 20), "late": (21, 31)}
WEEKDAY_NAMES = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]


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
        first = day_of(year, month, day)
        if written.shape == "about":
            return Days(shifted(first, -ABOUT_DAYS), shifted(first, ABOUT_DAYS))
        if written.shape in {"stretch", "either"}:
            days = self._stretch(written, first, running)
            return days if written.shape == "stretch" else Days(days.first, days.last)
        return Days(first, first)

    def _order(self, day: int | None, month: int | None, numeric: bool) -> tuple[int, int]:
        day, month = day or 0, month or 0
        return (month, day) if numeric and self.month_first else (day, month)

    def _stretch(self, written: Date, first: date, running: int | None) -> Days:
        day, month = self._order(written.day2, written.month2, written.numeric)
        year = written.year2 if written.year2 is not None else first.year
        last = day_of(year, month, day)
        over = first.month > last.month
        if over and last < first and written.year is None:
            last = day_of(year + 1, month, day)
        if over and last < first and written.year == written.year2:
            # `28 Dec to 2 Jan 2026` names the year of its end.
            first = day_of(first.year - 1, first.month, first.day)
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
        first = day_of(begin, start, 1)
        last_month = (start + 1) % 12 + 1
        last_year = begin + 1 if start + 2 > 12 else begin
        return Days(first, day_of(last_year, last_month, _length(last_year, last_month)))

    def is_bare_winter(self, written: Date) -> bool:
        """Whether a season over New Year is written with one year or none."""
        over = "summer" if self.south else "winter"
        return written.shape == "season" and written.name == over and written.year2 is None


def _length(year: int, month: int) -> int:
    return calendar.monthrange(year, month)[1]


def shifted(day: date, by: int) -> date:
    """So many days later, or the day itself at the ends of the calendar."""
    try:
        return day + timedelta(days=by)
    except OverflowError:
        return day


def day_of(year: int, month: int, day: int) -> date:
    """A day of the calendar; raises NoSuchDayError with what is wrong about it."""
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
    return Days(day_of(year, month, first), day_of(year, month, min(last, _length(year, month))))


def weekday_agrees(written: Date, days: Days) -> bool:
    """Whether the weekday that was written is that of the day."""
    if written.shape not in {"day", "stretch", "either"}:
        return True
    first = written.weekday in {None, days.first.weekday()}
    return first and written.weekday2 in {None, days.last.weekday()}
