"""What was lost: the entries of losses, and what a stock check found missing."""

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.plants import batches, losses, plant_events


@once_a_diary
def lost(diary: Diary) -> pd.DataFrame:
    """The events that lost plants, as rows of the events table with `count` what was lost.

    Every event of the kind loss as it stands, and of a stock check the shortfall: what the ledger
    counts as lost of its batch beyond what `lose` says, on the day of the batch's last check.
    Plain differences, no published source.
    """
    events = diary.events
    written = events[events["kind"] == "loss"]
    short = _shortfalls(diary)
    checks = events[events["event"].isin(short.index)].copy()
    checks["count"] = checks["event"].map(short).astype("Float64")
    return pd.concat([written, checks]).sort_values("event")


def _shortfalls(diary: Diary) -> "pd.Series[float]":
    """What is missing at each stock check, by its event."""
    told = losses(diary).groupby("batch")["count"].sum()
    frame = batches(diary).set_index("batch")
    missing = frame["lost"].fillna(0) - told.reindex(frame.index).fillna(0)
    checks = plant_events(diary)
    checks = checks[checks["what"] == "counted"].merge(
        diary.events.loc[diary.events["kind"] == "stock check", ["event"]], on="event"
    )
    last = checks.sort_values(["date", "event"]).drop_duplicates("batch", keep="last")
    short = last.set_index("event")["batch"].map(missing)
    return short[short > 0]
