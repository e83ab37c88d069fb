"""What stood where and from when to when: the stays of every batch, on the ground of today."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.dates import Days
from journal.studies.ledger.batches import Batch, Part, Stay
from journal.studies.ledger.grounds import Grounds
from journal.studies.once import once_a_diary
from journal.studies.plants import alive_columns, books_of

GLASS = ("frame", "house")
_COLUMNS = (
    "batch", "crop", "cultivar", "label", "place", "stage", "since_first", "since_last",
    "until_first", "until_last", "ended", "assumed", "may_be_left", "raised", "event", "end_event",
    "alive", "alive_low", "alive_high",
)  # fmt: skip


@once_a_diary
def stays(diary: Diary) -> pd.DataFrame:
    """One row a batch, place and stretch of days that it stood there, from the plant ledger.

    `since_first` to `since_last` are the days that it may have come on, `until_first` to
    `until_last` those that it may have gone on, blank while it stands; `ended` is how the batch
    did. `assumed` marks an end that no line tells, `may_be_left` what no line says is left where
    others of the batch were moved on, `raised` a stay under glass of what was planted elsewhere
    afterwards. `event` and `end_event` began and ended it; `place` is its name of that day;
    `ground` the name that its ground has today. How many are alive is told of what stands today
    only.
    """
    grounds = Grounds(diary.sheet)
    glass = {place.name for place in diary.sheet.places if place.kind in GLASS}
    rows = [row for batch in books_of(diary).batches for row in _of_batch(batch, glass)]
    frame = pd.DataFrame(rows, columns=list(_COLUMNS))
    days = ["since_first", "since_last", "until_first", "until_last"]
    types: dict[str, Any] = dict.fromkeys(days, "datetime64[s]")
    types |= dict.fromkeys(("crop", "cultivar", "label", "place", "stage", "ended"), "string")
    types |= dict.fromkeys(("alive", "alive_low", "alive_high"), "Float64")
    frame = frame.astype(types | {"batch": "Int64", "event": "Int64", "end_event": "Int64"})
    frame["ground"] = pd.array(
        [
            grounds.now(place, day.date()) if place else ""
            for place, day in zip(frame["place"], frame["since_first"], strict=True)
        ],
        dtype="string",
    )
    return frame


def _of_batch(batch: Batch, glass: set[str]) -> list[dict[str, Any]]:
    """The stays in one place joined over their stages; the last stage is kept."""
    stood = [stay for stay in batch.stays if stay.stage != "ended"]
    parts = {id(part.stay): part for part in batch.parts}
    rows = []
    for place in dict.fromkeys(stay.place for stay in stood):
        own = [stay for stay in stood if stay.place == place]
        part = next((parts[id(stay)] for stay in own if id(stay) in parts), None)
        rows.append(_row(batch, own, part, _is_raised(place, own, stood, glass)))
    return rows


def _is_raised(place: str, own: list[Stay], stood: list[Stay], glass: set[str]) -> bool:
    began = min(stay.since.first for stay in own)
    return place in glass and any(
        stay.place != place and stay.since.last >= began and stay.place not in glass
        for stay in stood
    )


def _row(batch: Batch, own: list[Stay], part: Part | None, raised: bool) -> dict[str, Any]:
    first = min(own, key=lambda stay: stay.since.first)
    last = max(own, key=lambda stay: stay.since.first)
    until = None if part is not None else _gone(own)
    return {
        "batch": batch.number,
        "crop": batch.crop,
        "cultivar": batch.cultivar,
        "label": batch.label,
        "place": first.place,
        "stage": (part.stay if part else last).stage,
        "since_first": first.since.first,
        "since_last": first.since.last,
        "until_first": until.first if until else None,
        "until_last": until.last if until else None,
        "ended": batch.ended if until else "",
        "assumed": part is None and batch.ended == "assumed",
        "may_be_left": part is not None and part.remnant and part.alive.low == 0,
        "raised": raised,
        "event": first.event,
        "end_event": batch.end_event or None,
        **(alive_columns(part.alive) if part else dict.fromkeys(_COLUMNS[-3:])),
    }


def _gone(own: list[Stay]) -> Days | None:
    ends = [stay.until for stay in own if stay.until is not None]
    return max(ends, key=lambda days: days.last) if ends else None


def stood(
    frame: pd.DataFrame, first: pd.Timestamp | None, last: pd.Timestamp | None
) -> tuple[pd.DataFrame, pd.DataFrame]:
    """The stays that certainly were there on some of these days, and those that may have been.

    Without days, all of them are certain. An end that is only assumed is not certain, nor what may
    be left where others were moved on.
    """
    if first is None and last is None:
        return frame, frame.iloc[0:0]
    came = frame["since_last"] <= last if last is not None else frame["since_last"].notna()
    may_have_come = (
        frame["since_first"] <= last if last is not None else frame["since_first"].notna()
    )
    still = frame["until_first"].isna()
    stayed = still | (frame["until_first"] >= first) if first is not None else ~still | still
    may_have = still | (frame["until_last"] >= first) if first is not None else ~still | still
    begun_within = frame["since_last"] >= first if first is not None else stayed
    open_ended = frame["assumed"].astype(bool) | frame["may_be_left"].astype(bool)
    sure = came & stayed & (~open_ended | begun_within)
    return frame[sure], frame[may_have_come & may_have & ~sure]
