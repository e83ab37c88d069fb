"""When an intention is due: `by 28 March`, `in 2 weeks`, `every 2 weeks until August`."""

import calendar as months
import re
from datetime import date, timedelta

from journal.events.dates import Calendar, Days
from journal.events.other_days import day_after
from journal.syntax import nodes as n
from journal.syntax.numbers import number, squeeze

MOST_OCCASIONS = 60
_SPAN = re.compile(
    r"(?:in|within|every)?\s*+(?P<count>\d+|an?|one|two|three|four|five|six|eight|ten|twelve|other"
    r"|a couple of)?\s*(?P<unit>days?|weeks?|fortnights?|months?|years?)$"
)
_EVERY = {"weekly": (1, "week"), "fortnightly": (2, "week"), "monthly": (1, "month")}


def _count(text: str | None) -> int:
    if text == "other":
        return 2
    return int(number(text)) if text else 1


def later(day: date, count: int, unit: str) -> date:
    """A day so many days, weeks, fortnights, months or years on; a month's end stays its end."""
    unit = unit.rstrip("s")
    try:
        if unit in {"month", "year"}:
            ahead = day.month - 1 + count * (12 if unit == "year" else 1)
            year, month = day.year + ahead // 12, ahead % 12 + 1
            return date(year, month, min(day.day, months.monthrange(year, month)[1]))
        return day + timedelta(days=count * {"day": 1, "week": 7, "fortnight": 14}[unit])
    except (OverflowError, ValueError):
        return date.max


def _span(text: str) -> tuple[int, str] | None:
    words = squeeze(text)
    if words in _EVERY:
        return _EVERY[words]
    match = _SPAN.match(words)
    return (_count(match["count"]), match["unit"]) if match else None


def _next(text: str, entry: Days) -> Days | None:
    """`next week` is Monday to Sunday, `tomorrow` the day after."""
    words = squeeze(text)
    if words == "tomorrow":
        return Days(later(entry.first, 1, "day"), later(entry.last, 1, "day"))
    monday = entry.first - timedelta(days=entry.first.weekday())
    weeks = {"this week": 0, "next week": 7, "this weekend": 5, "next weekend": 12}
    if words in weeks:
        first = monday + timedelta(days=weeks[words])
        return Days(first, monday + timedelta(days=6 + (7 if words.startswith("next") else 0)))
    if words in {"next month", "this month"}:
        start = later(entry.first.replace(day=1), int(words.startswith("next")), "month")
        return Days(start, later(start, 1, "month") - timedelta(days=1))
    if words == "next year":
        return Days(date(entry.first.year + 1, 1, 1), date(entry.first.year + 1, 12, 31))
    return None


def due_days(moments: list[n.Moment], entry: Days, calendar: Calendar) -> list[Days]:
    """The days on which an intention is due, one for each occasion; empty when it says none.

    A succession runs from its first due day, or from one step after the entry's own day, to the day
    after `until` (`until August` ends with 1 August), and has at most 60 occasions. Raises
    NoSuchDayError.
    """
    single: Days | None = None
    step: tuple[int, str] | None = None
    until: date | None = None
    for moment in moments:
        if moment.kind == "every":
            step = _span(moment.text)
        elif moment.kind == "until":
            end = day_after(moment.text, entry, calendar)
            until = end.last if _is_end(moment) else end.first
        else:
            single = _due(moment, entry, calendar) or single
    if step is None:
        return [single] if single else []
    return _occasions(single, step, until, entry)


def _due(moment: n.Moment, entry: Days, calendar: Calendar) -> Days | None:
    if moment.kind == "within":
        found = _span(moment.text)
        if found is None:
            return None
        return Days(later(entry.first, *found), later(entry.last, *found))
    if moment.kind == "next":
        return _next(moment.text, entry) or day_after(moment.text[5:], entry, calendar)
    days = day_after(moment.text, entry, calendar)
    if moment.kind == "by":
        last = days.last if _is_end(moment) else days.first
        return Days(last, last)
    return days


def _is_end(moment: n.Moment) -> bool:
    return "end of" in squeeze(moment.text)


def _occasions(
    single: Days | None, step: tuple[int, str], until: date | None, entry: Days
) -> list[Days]:
    first = single or Days(later(entry.first, *step), later(entry.last, *step))
    occasions: list[Days] = []
    for times in range(MOST_OCCASIONS):
        count = step[0] * times
        days = Days(later(first.first, count, step[1]), later(first.last, count, step[1]))
        if until is not None and days.first > until:
            break
        if until is None and times > 0:
            break
        occasions.append(days)
    return occasions
