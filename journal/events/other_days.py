"""Dates inside an entry to days: `on 5 Nov`, `yesterday`, `by Saturday`, seen from its own day."""

import re
from collections.abc import Callable, Iterable
from datetime import date

from journal.events.dates import (
    ABOUT_DAYS,
    WEEKDAY_NAMES,
    Calendar,
    Days,
    NoSuchDayError,
    shifted,
    weekday_agrees,
)
from journal.syntax.days import parse_date
from journal.syntax.nodes import Date

_SMALL = re.compile(
    r"^(?:(?:on|by|before|in|during|until|till|up\s+to|to)\s+)?(?:last\s+)?(?:the\s+(?!\d))?(?:end\s+of\s+)?"
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
_DAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
_WEEKDAY = re.compile(r"(mon|tue|wed|thu|fri|sat|sun)[a-z]*$", re.IGNORECASE)


def day_before(text: str, entry: Days, calendar: Calendar) -> Days:
    """`on 5 Nov`: without a year, the latest such day not after the entry's own day.

    Raises NoSuchDayError.
    """
    if text.lower() == "yesterday":
        return Days(shifted(entry.first, -1), shifted(entry.last, -1))
    ago = _AGO.match(text)
    if ago:
        return _ago(ago, entry)
    small = _SMALL.match(text)
    words = text[small.end() :] if small else text
    about = bool(small and small["about"])
    days = _plain_day(words, entry, calendar)
    if about:
        return Days(shifted(days.first, -ABOUT_DAYS), shifted(days.last, ABOUT_DAYS))
    return days


def _ago(ago: "re.Match[str]", entry: Days) -> Days:
    """`two weeks ago`: that many days before; months and years are only told roughly."""
    written = ago["count"].lower()
    count = int(written) if written.isdigit() else _COUNTS.get(written, 1)
    days = min(count * _AGO_DAYS.get(ago["unit"].lower(), 1), 40_000)
    slack = {"month": 15, "year": 182}.get(ago["unit"].lower(), 0)
    slack = max(slack, ABOUT_DAYS) if ago["about"] else slack
    return Days(shifted(entry.first, -days - slack), shifted(entry.last, -days + slack))


def _plain_day(words: str, entry: Days, calendar: Calendar) -> Days:
    own = entry.last
    ordinal, weekday = _ORDINAL.match(words), _WEEKDAY.match(words)
    if ordinal:
        return _back_to_ordinal(own, int(ordinal[1]))
    if weekday:
        day = shifted(own, -((own.weekday() - _DAYS.index(weekday[1].lower())) % 7))
        return Days(day, day)
    written = _date(words)
    years = range(own.year, own.year - 9, -1)
    found = _in_a_year(written, calendar, years, lambda days: days.first <= own)
    return found or _checked(calendar, written, own.year)


def _date(words: str) -> Date:
    written = parse_date(words)
    if written is None:
        raise NoSuchDayError("it is no day")
    return written


def _in_a_year(
    written: Date, calendar: Calendar, years: Iterable[int], fits: Callable[[Days], bool]
) -> Days | None:
    """The days of a date in its own year, else in the first of `years` in which they fit."""
    if written.year is not None or written.year2 is not None:
        return _checked(calendar, written, None)
    for year in years:
        try:
            days = _checked(calendar, written, year)
        except NoSuchDayError:
            if written.month != 2 or written.day != 29:
                raise
            continue
        if fits(days):
            return days
    return None


def _checked(calendar: Calendar, written: Date, year: int | None) -> Days:
    days = calendar.settle(written, year)
    if not weekday_agrees(written, days):
        raise NoSuchDayError(f"that day is a {WEEKDAY_NAMES[days.first.weekday()]}")
    return days


def _back_to_ordinal(own: date, day: int) -> Days:
    if not 1 <= day <= 31:
        raise NoSuchDayError("no month has so many days")
    at = own
    for _ in range(70):
        if at.day == day:
            return Days(at, at)
        at = shifted(at, -1)
    raise NoSuchDayError("no such day is near")


def day_after(words: str, entry: Days, calendar: Calendar) -> Days:
    """`by 28 March`: without a year, the next such day not before the entry's own day.

    Raises NoSuchDayError.
    """
    small = _SMALL.match(words)
    text = words[small.end() :] if small else words
    weekday = _WEEKDAY.match(text)
    if weekday:
        ahead = (_DAYS.index(weekday[1].lower()) - entry.first.weekday()) % 7 or 7
        return Days(shifted(entry.first, ahead), shifted(entry.last, ahead))
    years = range(entry.first.year, min(entry.first.year + 9, 9999))
    found = _in_a_year(_date(text), calendar, years, lambda days: days.last >= entry.first)
    if found is not None:
        return found
    raise NoSuchDayError("no such day is near")
