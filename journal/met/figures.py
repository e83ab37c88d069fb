"""One cell of a met file to a figure: a missing mark, a trace, a value in the table's unit, or not.

A cell that is none of these is a fault and is told; nothing is filled in.
"""

import re
from dataclasses import dataclass
from datetime import date

from journal.reference.weather_units import Measured, Scale

MISSING = frozenset(
    {"", "-", "--", "---", "na", "n/a", "nan", "null", "none", "m", "x", "missing", "*", "?"}
)
# what loggers write where there was no reading
SENTINELS = frozenset({-9999.0, -999.0, -999.9, -99.9, 9999.0, 9999.9, 999.9})
TRACES = frozenset({"t", "tr", "trace"})
_NUMBER = re.compile(r"[-+−]?\d+(?:\.\d+)?|[-+−]?\.\d+")
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ](.*))?$")
_RUN = re.compile(r"(\d{4})(\d{2})(\d{2})$")
_WRITTEN = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?: (.*))?$")


@dataclass(frozen=True, slots=True)
class Cell:
    """What a cell comes to: a `value` in the table's unit, `missing`, or neither (a fault)."""

    value: float | None = None
    missing: bool = False
    mark: str = ""


NOTHING = Cell(missing=True)
FAULT = Cell()


def read_cell(text: str, measured: Measured, scale: Scale, decimal: str = ".") -> Cell:
    """One cell; a trace counts for rain and snow only, as 0 with its mark."""
    plain = text.strip().lower()
    if plain in TRACES and measured.name in {"rain", "snow"}:
        return Cell(0.0, mark="trace")
    if plain in MISSING:
        return NOTHING
    plain = plain.replace(decimal, ".").replace("−", "-")
    if _NUMBER.fullmatch(plain) is None:
        return FAULT
    written = float(plain)
    if written in SENTINELS:
        return NOTHING
    value = float(f"{written * scale.factor + scale.offset:.10g}")
    return Cell(value) if measured.low <= value <= measured.high else FAULT


def read_day(text: str, month_first: bool) -> tuple[date, str] | None:
    """A day and the time of day written after it, or None where it is no date.

    `2026-03-14`, `20260314`, `2026/3/14 09:00`, `14/3/2026` (the sheet says which comes first).
    """
    plain = text.strip()
    clock = ""
    if found := _ISO.match(plain):
        parts = [int(found[at]) for at in (1, 2, 3)]
        clock = found[4] or ""
    elif found := _RUN.match(plain):
        parts = [int(found[at]) for at in (1, 2, 3)]
    elif found := _WRITTEN.match(plain):
        day, month, year = (int(found[at]) for at in (1, 2, 3))
        if month_first:
            day, month = month, day
        parts = [year if year > 99 else 2000 + year, month, day]
        clock = found[4] or ""
    else:
        return None
    try:
        return date(*parts), clock.strip()
    except ValueError:
        return None
