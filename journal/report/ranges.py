"""Ranges and days with their year, as the tables of ground and stores say them."""

from collections.abc import Callable
from typing import Any

import pandas as pd

from journal.report.page_tables import whole


def long_day(day: pd.Timestamp) -> str:
    """A day with its year: `3 Jul 2025`."""
    return f"{day.day} {day:%b %Y}"


def day_spans(frame: pd.DataFrame, first: str, last: str) -> list[str]:
    """Days that may not be certain, row by row: `3 Jul 2025`, `1 Jun 2026 to 31 Aug 2026`."""
    return [
        "" if pd.isna(low) else " to ".join(dict.fromkeys([long_day(low), long_day(high)]))
        for low, high in zip(frame[first], frame[last], strict=True)
    ]


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
