"""Days from one stage of a batch to another: sowing to picking, planting to clearing."""

import pandas as pd

from journal.diary import Diary
from journal.studies.plants import batches

# the days of a batch that a stage is known by; what was planted at once began by planting
_DAYS = {
    "sow": "sown_on",
    "up": "up_on",
    "plant": "put_out_on",
    "harvest": "first_picking",
    "last harvest": "last_picking",
    "end": "ended_on",
}


def intervals(diary: Diary, start: str, end: str) -> pd.DataFrame:
    """One row a batch of which both days are certain: `days` = end - start, oldest first.

    `start` and `end` are of `sow`, `up`, `plant`, `harvest`, `last harvest`, `end`; a batch's
    `end` is only its clearing. Columns: batch crop cultivar label from_day to_day days event.
    Plain differences of days, no published source.
    """
    frame = batches(diary)
    sown = frame["how_started"] == "sow"
    frame = frame.assign(
        sown_on=frame["started"].where(sown),
        put_out_on=frame["planted_on"].fillna(frame["started"].where(~sown)),
        ended_on=frame["ended_on"].where(frame["ended"] == "cleared"),
    )
    frame = frame.assign(from_day=frame[_DAYS[start]], to_day=frame[_DAYS[end]])
    found = frame[frame["from_day"].notna() & frame["to_day"].notna()]
    found = found[found["to_day"] >= found["from_day"]]
    found = found.assign(days=(found["to_day"] - found["from_day"]).dt.days)
    names = ["batch", "crop", "cultivar", "label", "from_day", "to_day", "days", "event"]
    return found.sort_values("from_day", ignore_index=True)[names]


def spread(days: "pd.Series[int]") -> tuple[float, float, float]:
    """The least, the median and the most of some days."""
    return float(days.min()), float(days.median()), float(days.max())


def longest_gap(events: pd.DataFrame) -> tuple[int, pd.Timestamp, pd.Timestamp] | None:
    """The most days between one event and the next, and the two days; None with fewer than two.

    Only events of a certain day count; one that went on over days ends the gap at its first.
    """
    sure = events[(events["date"] == events["date_end"]) | events["spread"].astype(bool)]
    firsts = sure["date"].drop_duplicates().sort_values()
    if len(firsts) < 2:
        return None
    lasts = sure.groupby("date")["date_end"].max().sort_index()
    gaps = firsts.to_numpy()[1:] - lasts.to_numpy()[:-1]
    at = int(gaps.argmax())
    first, last = pd.Timestamp(lasts.iloc[at]), pd.Timestamp(firsts.iloc[at + 1])
    return (last - first).days, first, last
