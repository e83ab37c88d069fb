"""One column of some events added up, with what is doubtful and what is missing said beside it.

The sums that answers quote where no study's frame has the days or the grouping that was asked.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import pandas as pd

# columns that `low` and `high` of an event may stand for, in the order they are written
AMOUNTS = ("mass_kg", "volume_l", "length_m", "area_m2", "count")


@dataclass(frozen=True, slots=True)
class Tally:
    """A sum: its unit is the column's; None where no event gives a figure.

    `low` and `high` are the sum with every range at its end, `given` how many events have a
    figure and `missing` how many do not.
    """

    total: float | None
    low: float | None
    high: float | None
    given: int
    missing: int

    @property
    def certain(self) -> bool:
        """Whether the diary leaves no range."""
        return self.low == self.high


def tally(events: pd.DataFrame, column: str) -> Tally:
    """The sum of `column` over events. No published source: a plain sum."""
    values = events[column]
    given = int(values.notna().sum())
    if not given:
        return Tally(None, None, None, 0, len(events))
    low, high = _ends(events, column) if column in AMOUNTS and "low" in events else (values, values)
    return Tally(
        float(values.sum()), float(low.sum()), float(high.sum()), given, len(events) - given
    )


def _ends(events: pd.DataFrame, column: str) -> "tuple[pd.Series[float], pd.Series[float]]":
    """The column at the low and at the high end of each range; a range is of the first amount."""
    values = events[column]
    ranged = events["approximate"].astype(bool) & events["low"].notna() & values.notna()
    for name in AMOUNTS[: AMOUNTS.index(column)]:
        ranged &= events[name].isna()
    return values.mask(ranged, events["low"]), values.mask(ranged, events["high"])


def tally_by(events: pd.DataFrame, column: str, keys: Sequence[str]) -> pd.DataFrame:
    """The sum of `column` by `keys`, largest first: the keys, the column, `given`, `missing`."""
    groups = events.groupby(list(keys), dropna=False, sort=True)
    totals = groups[column].agg(["sum", "count"])
    sums = totals["sum"].where(totals["count"] > 0)
    found = pd.DataFrame({column: sums, "given": totals["count"], "missing": groups.size()})
    found["missing"] -= found["given"]
    return found.reset_index().sort_values(
        column, ascending=False, kind="stable", ignore_index=True
    )
