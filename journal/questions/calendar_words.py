"""Said days of the calendar to periods: weekdays, weekends, feasts, weeks and halves of a month.

A day without a year is the latest that is past or today; a feast that moves is reckoned.
"""

import calendar
import re
from collections.abc import Callable
from datetime import date, timedelta

import pandas as pd

from journal.questions.periods import (
    MONTHS,
    ONE_DAY,
    Clock,
    NoPeriodError,
    Period,
    between,
    one_day,
)

_NUMBERS = {
    "a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10,
}  # fmt: skip
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_PLACES = {"first": 0, "1st": 0, "second": 1, "2nd": 1, "third": 2, "3rd": 2, "fourth": 3, "4th": 3}
_LENGTHS = {"week": 7, "fortnight": 14, "ten days": 10}
_FIXED = {
    "christmas eve": (12, 24), "christmas": (12, 25), "boxing day": (12, 26),
    "new year's eve": (12, 31), "new years eve": (12, 31), "hogmanay": (12, 31),
    "new year's day": (1, 1), "new years day": (1, 1), "valentine": (2, 14),
    "st patrick": (3, 17), "may day": (5, 1), "midsummer": (6, 24), "hallowe": (10, 31),
    "bonfire night": (11, 5), "guy fawkes": (11, 5), "michaelmas": (9, 29),
}  # fmt: skip
# days from Easter Sunday
_MOVING = {
    "good friday": -2, "easter monday": 1, "easter sunday": 0, "shrove tuesday": -47,
    "pancake day": -47,
}  # fmt: skip


def said_year(clock: Clock, words: str) -> int | None:
    """The year at the end of the words, as a figure or `last year`."""
    found = re.search(r"((?:19|20)\d\d|last year|this year)$", words)
    return clock.said_year(found[1]) if found else None


def _on_day(clock: Clock, words: str) -> Period:
    """`on this day in 2023`, `two years ago today`: the one day."""
    found = re.search(r"(?:19|20)\d\d", words)
    if found:
        year = int(found[0])
    else:
        back = re.search(r"(\w+) years?", words)
        year = clock.today.year - (1 if "last year" in words else _count(back[1] if back else "a"))
    try:
        return one_day(clock.today.replace(year=year))
    except ValueError:
        raise NoPeriodError(f"there is no 29 February {year}") from None


def _count(word: str) -> int:
    return _NUMBERS.get(word) or int(word)


def _part_of(clock: Clock, words: str) -> Period:
    """`the first week of June 2024`: its days 1 to 7; the last week is its last seven days."""
    month = next(at for at, name in enumerate(MONTHS, 1) if re.search(rf"\b{name[:3]}", words))
    which = re.search(r"(first|second|third|fourth|last|final|1st|2nd|3rd|4th) ([a-z ]+?) ", words)
    assert which is not None
    place, unit = which[1], which[2]
    if "few days" in unit:
        raise NoPeriodError("`a few` is no number; say how many")
    year = said_year(clock, words) or _latest_year(clock, month)
    end = calendar.monthrange(year, month)[1]
    first, last = _days_of(place, unit, end)
    if last > end:
        raise NoPeriodError(f"`{words}` is no stretch of that month")
    found = between(date(year, month, first), date(year, month, last), "from {}")
    return found


def _days_of(place: str, unit: str, end: int) -> tuple[int, int]:
    """The first and last day, of a month of `end` days."""
    late = place in ("last", "final")
    if unit.startswith("half"):
        late = late or place in ("second", "2nd")
        return (16, end) if late else (1, 15)
    length = next(days for name, days in _LENGTHS.items() if unit.startswith(name))
    if late:
        return end - length + 1, end
    begins = _PLACES[place] * length + 1
    return begins, begins + length - 1


def _latest_year(clock: Clock, month: int) -> int:
    return clock.today.year if month <= clock.today.month else clock.today.year - 1


def _half_year(clock: Clock, words: str) -> Period:
    year = said_year(clock, words) or clock.today.year
    if "first" in words:
        return between(date(year, 1, 1), date(year, 6, 30), "from {}")
    return between(date(year, 7, 1), date(year, 12, 31), "from {}")


def _weekday(clock: Clock, words: str) -> Period:
    """`on Saturday`: the latest before today; `at the weekend`: the latest that has begun."""
    today = clock.today
    if "weekend" not in words:
        name = words.split()[-1]
        return one_day(today - timedelta(days=(today.weekday() - _WEEKDAYS.index(name)) % 7 or 7))
    begun = today - timedelta(days=(today.weekday() - 5) % 7)
    if "last" in words and today.weekday() >= 5:
        begun -= timedelta(days=7)
    if "this" in words and today.weekday() < 5:
        raise NoPeriodError("`this weekend` is still to come")
    return between(begun, begun + ONE_DAY, "at the weekend ({})")


def _week_of(clock: Clock, words: str) -> Period:
    """`the week of 14 July`: Monday to Sunday round it; from or to the day where that is said."""
    number = re.search(r"(\d{1,2})(?:st|nd|rd|th)? ", words)
    assert number is not None
    month = next(name for name in MONTHS if name in words)
    year = re.search(r"(?:19|20)\d\d$", words)
    day = clock.day(number[1], month, int(year[0]) if year else None).first
    assert day is not None
    if re.search("beginning|commencing|starting", words):
        first = day
    elif "ending" in words:
        first = day - timedelta(days=6)
    else:
        first = day - timedelta(days=day.weekday())
    return between(first, first + timedelta(days=6), "in the week of {}")


def _holiday(clock: Clock, words: str) -> Period:
    """`Boxing Day 2023`; without a year the latest that is past or today."""
    year = said_year(clock, words)
    if re.search(r"easter(?! (?:sunday|monday))", words):
        return _easter(clock, year)
    years = [year] if year else [clock.today.year, clock.today.year - 1]
    if re.match(r"(?:over|at) christmas(?! (?:day|eve))", words):
        eve = next(
            (date(each, 12, 24) for each in years if date(each, 12, 24) <= clock.today), None
        )
        first = eve or date(years[-1], 12, 24)
        return between(first, first + 2 * ONE_DAY, "at Christmas ({})")
    days = [_feast(words, each) for each in years]
    return one_day(next((day for day in days if day <= clock.today), days[-1]))


def _easter(clock: Clock, year: int | None) -> Period:
    """From Good Friday to Easter Monday."""
    years = [year] if year else [clock.today.year, clock.today.year - 1]
    sundays = [_feast("easter sunday", each) for each in years]
    sunday = next((day for day in sundays if day <= clock.today), sundays[-1])
    return between(sunday - 2 * ONE_DAY, sunday + ONE_DAY, "over Easter ({})")


def _feast(words: str, year: int) -> date:
    for name, after in _MOVING.items():
        if name in words:
            sunday = pd.Timestamp(year, 1, 1) + pd.offsets.Easter()
            return date(year, sunday.month, sunday.day) + timedelta(days=after)
    month, day = next(at for name, at in _FIXED.items() if name in words)
    return date(year, month, day)


# by the second word of their SPAN terminal
CALENDAR: dict[str, Callable[[Clock, str], Period]] = {
    "this_day": _on_day,
    "part_of": _part_of,
    "half_year": _half_year,
    "weekday": _weekday,
    "week_of": _week_of,
    "holiday": _holiday,
}
