"""What is left in store of each crop: what the last season put in, less what was taken out."""

from dataclasses import dataclass
from typing import Any

import pandas as pd

# stores that are farther apart than this are of two seasons
SEASON_DAYS = 180
_OUT = ("use", "waste", "give", "sell", "swap")


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of one crop: between `low` and `high` in kg, or in number.

    `stored` is what the season put in from `since` on; `rows` are the events that it rests on.
    """

    crop: str
    column: str
    stored: float
    low: float
    high: float
    since: pd.Timestamp
    rows: pd.DataFrame


def left_in_store(events: pd.DataFrame, crop: str, stores: set[str]) -> Left | None:
    """The balance of a crop as of the last event; None where nothing of it was stored.

    The season begins with the first `store` that has no other in the 180 days before it. `use`
    is out of store by its meaning; what was wasted, given, sold or swapped counts as from the
    store where the entry says so, or where nothing of the crop was picked since it was stored;
    else it only lowers `low`. Plain sums of what was measured, no published source.
    """
    own = events[(events["crop"] == crop) & events["date"].notna()].sort_values(["date", "event"])
    put = own[own["verb"] == "store"]
    if put.empty:
        return None
    begins = _season_start(put["date"])
    put = put[put["date"] >= begins]
    column = "mass_kg" if put["mass_kg"].notna().all() else "count"
    if put[column].isna().any():
        return None
    out = own[own["verb"].isin(_OUT) & (own["date_end"] >= begins)]
    taken = [
        (float(row[column]), _sure(row, own, begins, stores)) for row in _measured(out, column)
    ]
    stored = float(put[column].sum())
    surely = sum(amount for amount, sure in taken if sure)
    perhaps = sum(amount for amount, sure in taken if not sure)
    high = stored - surely
    rows = pd.concat([put, out]).sort_values(["date", "event"])
    low = max(0.0, high - perhaps)
    return Left(crop, column, stored, round(low, 6), round(max(0.0, high), 6), begins, rows)


def _season_start(days: "pd.Series[Any]") -> pd.Timestamp:
    gaps = days.diff().dt.days
    return pd.Timestamp(days[gaps.isna() | (gaps > SEASON_DAYS)].iloc[-1])


def _measured(rows: pd.DataFrame, column: str) -> list[dict[Any, Any]]:
    return rows[rows[column].notna()].to_dict("records")


def _sure(row: dict[Any, Any], own: pd.DataFrame, begins: pd.Timestamp, stores: set[str]) -> bool:
    if row["date"] < begins:
        return False
    if row["verb"] == "use" or row["place_from"] in stores:
        return True
    if row["date"] == begins:
        return False
    picked = own[(own["kind"] == "harvest") & (own["date"] > begins)]
    return bool((picked["date"] > row["date_end"]).all())
