"""Ranges and days with their year, as the tables of ground and stores say them."""

from collections.abc import Callable
from typing import Any

import pandas as pd

from journal.report.page_tables import whole


def long_day(day: pd.Timestamp) -> str:
    """A day with its year: `3 Jul 2025`."""
    return f"{day.day} {day:%b %Y}"


def day_spans(frame: pd.DataFrame, first: str, last: str) -> list[str]:
    """Days that may not be certain, row by row: `3 Jul 2025`, `1 to 10 Nov 2023`."""
    ends = zip(frame[first], frame[last], strict=True)
    return ["" if pd.isna(low) else _day_span(low, high) for low, high in ends]


def _day_span(low: pd.Timestamp, high: pd.Timestamp) -> str:
    if low == high:
        return long_day(low)
    begins = [f"{low.day}", f"{low:%b}", f"{low:%Y}"]
    shared = 1 if low.year == high.year and low.month == high.month else 2
    if low.year != high.year:
        shared = 3
    return f"{' '.join(begins[:shared])} to {long_day(high)}"


def span(low: Any, high: Any, say: Callable[[float], str] = whole) -> str:
    """A range as a person reads it: `104 to 134`, `≥ 3`, one figure where both are the same."""
    if pd.isna(low):
        return ""
    if pd.isna(high):
        return f"≥ {say(low)}"
    return say(low) if say(low) == say(high) else f"{say(low)} to {say(high)}"


def spans(
    frame: pd.DataFrame, low: str, high: str, say: Callable[[float], str] = whole
) -> list[str]:
    """`span` of two columns, row by row."""
    return [span(*ends, say=say) for ends in zip(frame[low], frame[high], strict=True)]
