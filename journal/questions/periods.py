"""Said stretches of days to first and last day: `last year`, `in June`, `since May 2024`.

A month or season without a year is the latest that has begun; the one before it stands by as
`before`, for an open one of which nothing is written yet.
"""

import calendar
import re
from dataclasses import dataclass, replace
from datetime import date, timedelta

MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_SEASON_STARTS = {"spring": 3, "summer": 6, "autumn": 9, "fall": 9, "winter": 12}
_NUMBERS = {
    "a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10, "twelve": 12, "couple of": 2,
}  # fmt: skip
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_THIRDS = {"early": (1, 10), "mid": (11, 20), "late": (21, 31)}
ONE_DAY = timedelta(days=1)
# `this time last year`: the day itself and a week on either side
ROUND_ABOUT = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Period:
    """The days from `first` to `last`, both counted; an open end is None.

    `said` names it after its preposition: `in 2025`, `on 14 July 2025`, `since 1 May 2025`.
    `ahead` marks one that is still to come.
    """

    first: date | None
    last: date | None
    said: str
    before: "Period | None" = None
    ahead: bool = False

    @property
    def year(self) -> int | None:
        """The calendar year that it is, whole; else None."""
        if self.first is None or self.last is None:
            return None
        whole = (self.first.month, self.first.day, self.last.month, self.last.day) == (1, 1, 12, 31)
        return self.first.year if whole and self.first.year == self.last.year else None

    def holds(self, day: date) -> bool:
        """Whether a day lies in it."""
        after = self.first is None or day >= self.first
        return after and (self.last is None or day <= self.last)


class NoPeriodError(ValueError):
    """The words name no stretch of days, or one that is still to come."""


def day_words(day: date, *, weekday: bool = False, year: bool = True) -> str:
    """`Saturday 29 March 2025`."""
    words = f"{day.day} {day:%B}"
    if weekday:
        words = f"{day:%A} {words}"
    return f"{words} {day.year}" if year else words


def stretch_words(first: date, last: date) -> str:
    """`13 to 27 May 2025`, `28 February to 2 March 2025`, or the one day."""
    if first == last:
        return day_words(first)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {day_words(last)}"
    return f"{day_words(first, year=first.year != last.year)} to {day_words(last)}"


def year_period(year: int, today: date) -> Period:
    """A calendar year; the running one is `so far`."""
    said = f"so far in {year}" if year == today.year else f"in {year}"
    return Period(date(year, 1, 1), date(year, 12, 31), said)


def month_period(month: int, year: int, part: str = "") -> Period:
    """A month, or its `early`, `mid` or `late` third as the diary's day lines have them."""
    last = calendar.monthrange(year, month)[1]
    first, end = _THIRDS.get(part, (1, last))
    words = f"{part} {MONTHS[month - 1].title()} {year}".strip()
    return Period(date(year, month, first), date(year, month, min(end, last)), f"in {words}")


def season_period(season: str, year: int, south: bool) -> Period:
    """A meteorological season; winter is named by its January."""
    start = _SEASON_STARTS[season]
    if south:
        start = (start + 5) % 12 + 1
    begins = year - 1 if start > 10 else year
    first = date(begins, start, 1)
    end_month, end_year = (start + 1) % 12 + 1, begins + (start + 2 > 12)
    last = date(end_year, end_month, calendar.monthrange(end_year, end_month)[1])
    name = "autumn" if season == "fall" else season
    years = f"{first.year}/{last.year % 100:02d}" if first.year != last.year else str(last.year)
    return Period(first, last, f"in {name} {years}")


def season_name(words: str) -> str:
    """`spring` of `springtime`; the back end of the year is its autumn."""
    name = words.lower().removesuffix("time")
    return "autumn" if name.startswith("back") else name


@dataclass(frozen=True, slots=True)
class Clock:
    """What a said period is reckoned from: the day it is, and which way the seasons run."""

    today: date
    south: bool = False
    month_first: bool = False

    def month(self, name: str, year: int | None, part: str = "") -> Period:
        """A month by its name, the latest begun where no year is said."""
        number = [each[:3] for each in MONTHS].index(name[:3].lower()) + 1
        if year is not None:
            return month_period(number, year, part)
        found = month_period(number, self.today.year, part)
        return self._latest(found, month_period(number, self.today.year - 1, part), 1, number, part)

    def _latest(self, now: Period, then: Period, back: int, number: int, part: str) -> Period:
        assert now.first is not None and now.last is not None
        if now.first > self.today:
            return then
        return replace(now, before=then) if now.last >= self.today else now

    def season(self, name: str, year: int | None) -> Period:
        """A season by its name, the latest begun where no year is said."""
        name = season_name(name)
        if year is not None:
            return season_period(name, year, self.south)
        begun = [
            season_period(name, each, self.south)
            for each in (
                self.today.year + 1,
                self.today.year,
                self.today.year - 1,
                self.today.year - 2,
            )
        ]
        begun = [each for each in begun if each.first is not None and each.first <= self.today]
        assert begun[0].last is not None
        return replace(begun[0], before=begun[1]) if begun[0].last >= self.today else begun[0]

    def day(self, number: str, month: str, year: int | None) -> Period:
        """`14 July 2025`; without a year the latest such day that is past or today."""
        figure = int(re.sub(r"\D", "", number))
        at = [each[:3] for each in MONTHS].index(month[:3].lower()) + 1
        years = (
            [year] if year is not None else list(range(self.today.year, self.today.year - 9, -1))
        )
        for each in years:
            try:
                found = date(each, at, figure)
            except ValueError:
                continue
            if year is not None or found <= self.today:
                return one_day(found)
        raise NoPeriodError(f"there is no {figure} {MONTHS[at - 1].title()}")

    def iso_day(self, written: str) -> Period:
        """`2025-07-14`, or `14/7/2025` in the order of the sheet."""
        figures = [int(each) for each in re.split(r"[-/]", written)]
        if "-" in written:
            year, month, day = figures
        elif self.month_first:
            month, day, year = figures
        else:
            day, month, year = figures
        if year < 100:
            year += 2000
        try:
            return one_day(date(year, month, day))
        except ValueError:
            raise NoPeriodError(f"`{written}` is no day") from None

    def said_year(self, words: str) -> int:
        """`2024`, `last year`, `this season`, `the year before last`."""
        words = words.lower()
        if "before last" in words:
            return self.today.year - 2
        if "last" in words or "previous" in words:
            return self.today.year - 1
        found = re.search(r"\d{4}", words)
        return int(found[0]) if found else self.today.year

    def span(self, name: str, words: str) -> Period:
        """The period of a SPAN token by its subtype and words; NoPeriodError where it is none."""
        words = " ".join(words.lower().split())
        method = getattr(self, f"_{name}")
        period = method(words)
        assert isinstance(period, Period)
        return period

    def _today(self, words: str) -> Period:
        return one_day(self.today)

    def _yesterday(self, words: str) -> Period:
        return one_day(self.today - ONE_DAY)

    def _all_time(self, words: str) -> Period:
        return Period(None, None, "in the whole diary")

    def _next_span(self, words: str) -> Period:
        """`next week`: still to come, which only what is due can be asked of."""
        words = words.replace("season", "year")
        today = self.today
        if words == "tomorrow":
            found = one_day(today + ONE_DAY)
        elif "week" in words:
            monday = today + timedelta(days=7 - today.weekday())
            found = between(monday, monday + timedelta(days=6), "next week ({})")
        elif "month" in words:
            found = month_period(today.month % 12 + 1, today.year + (today.month == 12))
        elif "year" in words:
            found = year_period(today.year + 1, today)
        else:
            raise NoPeriodError(f"`{words}` is still to come")
        return replace(found, ahead=True)

    def _next_n(self, words: str) -> Period:
        """`the next two weeks`: from today on; `the next month` is as long as one."""
        *_, count_words, unit = ["one", *words.split()]
        count = _NUMBERS.get(count_words) or (int(count_words) if count_words.isdigit() else 1)
        length = {"d": 1, "w": 7, "m": 30, "y": 365}[unit[0]]
        last = self.today + timedelta(days=count * length)
        return replace(between(self.today, last, "from {}"), ahead=True)

    def _this_time_last_year(self, words: str) -> Period:
        found = re.search(r"this time (\w+) years", words)
        back = (_NUMBERS.get(found[1]) or int(found[1])) if found else 1
        try:
            day = self.today.replace(year=self.today.year - back)
        except ValueError:  # 29 February
            day = self.today.replace(year=self.today.year - back, day=28)
        if words.startswith("a year ago today"):
            return one_day(day)
        return between(day - ROUND_ABOUT, day + ROUND_ABOUT, "from {}")

    def _last_span(self, words: str) -> Period:
        if "week" in words:
            monday = self.today - timedelta(days=self.today.weekday() + 7)
            return between(monday, monday + timedelta(days=6), "last week ({})")
        month = self.today.month - 1 or 12
        return month_period(month, self.today.year - (month == 12))

    def _this_span(self, words: str) -> Period:
        if "week" in words:
            monday = self.today - timedelta(days=self.today.weekday())
            return between(monday, monday + timedelta(days=6), "this week ({})")
        return month_period(self.today.month, self.today.year)

    def _last_named(self, words: str) -> Period:
        """`last July`, `last spring`: the latest that is over; `last Saturday`: before today."""
        name = season_name(words.removeprefix("last "))
        if name in _WEEKDAYS:
            back = (self.today.weekday() - _WEEKDAYS.index(name)) % 7 or 7
            return one_day(self.today - timedelta(days=back))
        found = self.season(name, None) if name in _SEASON_STARTS else self.month(name, None)
        return found.before or found

    def _this_named(self, words: str) -> Period:
        """`this spring`: of the running year, where it has begun."""
        name = season_name(words.removeprefix("this "))
        year = self.today.year
        found = self.season(name, year) if name in _SEASON_STARTS else self.month(name, year)
        assert found.first is not None
        if found.first > self.today:
            raise NoPeriodError(f"`{words}` is still to come")
        return found

    def _last_n(self, words: str) -> Period:
        """`the last three weeks`: to today; years are calendar years before the running one."""
        *_, count_words, unit = words.replace("couple of", "two").split()
        if count_words == "few":
            raise NoPeriodError("`a few` is no number; say how many")
        count = _NUMBERS.get(count_words) or int(count_words)
        if unit in ("years", "seasons"):
            first = date(self.today.year - count, 1, 1)
            last = date(self.today.year - 1, 12, 31)
            return Period(first, last, f"from {first.year} to {last.year}")
        start = _back(self.today, count, unit) + ONE_DAY
        return between(start, self.today, "from {}")

    def _n_ago(self, words: str) -> Period:
        """`three weeks ago`: that day; months and years ago are that month or year."""
        if words.startswith(("a year", "one year")):
            return self._this_time_last_year(words)
        count_words, unit, _ = words.replace("a couple of", "two").split()
        count = _NUMBERS.get(count_words) or int(count_words)
        then = _back(self.today, count, unit)
        if unit.startswith("year"):
            return year_period(then.year, self.today)
        if unit.startswith("month"):
            return month_period(then.month, then.year)
        return one_day(then)


def _back(day: date, count: int, unit: str) -> date:
    if unit.startswith(("day", "week")):
        return day - timedelta(days=count * (7 if unit.startswith("week") else 1))
    months = day.year * 12 + day.month - 1 - count * (12 if unit.startswith("year") else 1)
    year, month = divmod(months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def one_day(day: date) -> Period:
    """A single day."""
    return Period(day, day, f"on {day_words(day)}")


def between(first: date, last: date, said: str) -> Period:
    """A stretch whose days are named in `said`."""
    return Period(first, last, said.format(stretch_words(first, last)))


def until(period: Period) -> Period:
    """Everything up to and with a period."""
    assert period.last is not None
    return Period(None, period.last, f"up to {day_words(period.last)}")


def before(period: Period) -> Period:
    """Everything before a period."""
    assert period.first is not None
    return Period(None, period.first - ONE_DAY, f"before {day_words(period.first)}")


def since(period: Period) -> Period:
    """A period's first day and everything after it."""
    assert period.first is not None
    return Period(period.first, None, f"since {day_words(period.first)}")


def after(period: Period) -> Period:
    """Everything after a period."""
    assert period.last is not None
    return Period(period.last + ONE_DAY, None, f"after {day_words(period.last)}")


def from_to(one: Period, other: Period) -> Period:
    """From the first day of one period to the last of the other.

    `March and May 2025`: a first one that was found without a year ends before the second.
    """
    first, last = one.first, other.last
    assert first is not None and last is not None
    if first > last:
        raise NoPeriodError("the first of the two periods comes after the second")
    return Period(first, last, f"from {stretch_words(first, last)}")


def both(one: Period, other: Period) -> Period:
    """The days that two periods share, said as the narrower; NoPeriodError where there are none."""
    firsts = [each.first for each in (one, other) if each.first is not None]
    lasts = [each.last for each in (one, other) if each.last is not None]
    first, last = max(firsts, default=None), min(lasts, default=None)
    if first is not None and last is not None and first > last:
        raise NoPeriodError(f"no day is both {one.said} and {other.said}")
    for each in (one, other):
        if (each.first, each.last) == (first, last):
            return each
    if first is None or last is None:
        raise NoPeriodError("the two periods do not meet")
    return Period(first, last, f"from {stretch_words(first, last)}")


def year_before(period: Period) -> Period:
    """The same year, month or season a year earlier; NoPeriodError for one without ends."""
    if period.first is None or period.last is None:
        raise NoPeriodError("an open stretch of days has none before it")
    first, last = (_a_year_back(day) for day in (period.first, period.last))
    if period.last.month == 2 and period.last.day >= 28:
        last = date(last.year, 2, calendar.monthrange(last.year, 2)[1])
    said = re.sub(r"\d{4}/\d{2}|\d{4}", lambda found: _less_one(found[0]), period.said)
    return Period(first, last, said.replace("so far ", ""))


def _a_year_back(day: date) -> date:
    return date(day.year - 1, day.month, 28 if (day.month, day.day) == (2, 29) else day.day)


def _less_one(words: str) -> str:
    year = int(words[:4]) - 1
    return f"{year}/{(year + 1) % 100:02d}" if "/" in words else str(year)
