"""Degree days over any stretch of days and above any base, with the days that were not read."""

from dataclasses import dataclass
from datetime import date

from journal.diary import Diary
from journal.studies import weather_spans
from journal.studies.degree_days import by_mean


@dataclass(frozen=True, slots=True)
class DaySum:
    """`total` in C days over the `read` days that had both extremes; `unread` had not."""

    total: float
    read: int
    unread: int


def degree_days_between(diary: Diary, base: float, first: date | None, last: date | None) -> DaySum:
    """The sum of max((low + high) / 2, base) - base over the days of a stretch, in C days.

    Simple averaging, McMaster and Wilhelm 1997, Agric. For. Meteorol. 87:291-300, method 1. A day
    without one of its extremes adds nothing and is counted as unread.
    """
    low = weather_spans.readings(diary, "t_min", first, last)
    high = weather_spans.readings(diary, "t_max", first, last)
    days = low.index.union(high.index)
    each = by_mean(low.reindex(days), high.reindex(days), base)
    read = int(each.notna().sum())
    return DaySum(float(each.sum()), read, len(days) - read)
