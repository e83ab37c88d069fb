"""Which crops took up which soil and when, for rotation: the ledger without pots and seedlings."""

from datetime import date, timedelta
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import Event
from journal.studies.ledger.batches import Batch, Stay
from journal.studies.ledger.grounds import Grounds
from journal.studies.ledger.habits import is_annual, is_perennial
from journal.studies.once import once_a_diary
from journal.studies.plants import books_of

# an annual of which nothing is written for so long is taken to be over
SILENT_DAYS = 365
_UNDER_COVER = ("house", "frame")
_NO_GROUND = ("pot", "bay", "tank", "roof", "store")
_WORDS = ("crop", "cultivar", "family", "ground")
_FLAGS = ("perennial", "stands")
_COLUMNS = ("batch", *_WORDS, *_FLAGS, "since", "until", "event")


@once_a_diary
def stood(diary: Diary) -> pd.DataFrame:
    """Each batch's time on each ground, one row a batch and ground, the ledger followed.

    - `ground` is the name of today, a split place standing once for each part. Beds, and places
      that the sheet does not know, carry what stood in them from sowing on; a house or frame only
      what was not planted out of it. Pots, and what was sown or planted in a vessel, stand on no
      ground.
    - `since` is the first possible day, `until` the last possible one, today for what stands
      (`stands`): the widest time that the diary leaves. A batch that the ledger takes to be over
      ends with its last picking; an annual of which nothing was written for 365 days ended then.
    - `event` is the sowing or planting that brought it there; `year` and `year_end` hold the
      calendar years of both days.
    """
    events = {event.event: event for event in diary.reading.events}
    families = _families(diary)
    grounds = Grounds(diary.sheet)
    rows = [
        row | {"family": families.get(batch.crop, "")}
        for batch in books_of(diary).batches
        for row in _of_batch(batch, grounds, events, diary)
    ]
    kinds: dict[str, Any] = dict.fromkeys(_WORDS, "string") | dict.fromkeys(_FLAGS, "boolean")
    kinds |= dict.fromkeys(["since", "until"], "datetime64[s]") | {"batch": "Int64"}
    frame = pd.DataFrame(rows, columns=list(_COLUMNS)).astype(kinds | {"event": "Int64"})
    return frame.assign(
        year=frame["since"].dt.year.astype("Int64"), year_end=frame["until"].dt.year.astype("Int64")
    )


def _families(diary: Diary) -> dict[str, str]:
    events = diary.events[diary.events["family"] != ""].drop_duplicates("crop")
    return dict(zip(events["crop"], events["family"], strict=True))


def _of_batch(
    batch: Batch, grounds: Grounds, events: dict[int, Event], diary: Diary
) -> list[dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for stay in _on_ground(batch, grounds, events):
        until, stands = _until(batch, stay, diary.today)
        if until < stay.since.first:
            continue
        for name in sorted(grounds.of(stay.place, stay.since.first)):
            row = found.setdefault(name, _row(batch, stay, name))
            row["since"] = min(row["since"], stay.since.first)
            row["until"] = max(row.get("until", until), until)
            row["stands"] = row.get("stands", False) or stands
    return list(found.values())


def _row(batch: Batch, stay: Stay, ground: str) -> dict[str, Any]:
    return {
        "batch": batch.number,
        "crop": batch.crop,
        "cultivar": batch.cultivar,
        "ground": ground,
        "perennial": is_perennial(batch.crop),
        "since": stay.since.first,
        "event": stay.event,
    }


def _on_ground(batch: Batch, grounds: Grounds, events: dict[int, Event]) -> list[Stay]:
    """The stays that took up soil."""
    kept = []
    potted: dict[str, bool] = {}
    for stay in sorted(batch.stays, key=lambda stay: stay.since.first):
        vessel = bool(events[stay.event].vessel)
        # seedlings stay in their modules from stage to stage; planting is out of them
        planting = stay.stage == "planted"
        potted[stay.place] = vessel or (not planting and potted.get(stay.place, False))
        declared = grounds.sheet.place_on(stay.place, stay.since.first)
        kind = declared.kind if declared is not None else ""
        raised = kind in _UNDER_COVER and _moves_on(batch, stay)
        grown = stay.stage != "ended" and kind not in _NO_GROUND and not potted[stay.place]
        if stay.place and grown and not raised:
            kept.append(stay)
    return kept


def _moves_on(batch: Batch, stay: Stay) -> bool:
    """Whether what was raised here was planted elsewhere, and nothing of it cropped here."""
    elsewhere = [
        other
        for other in batch.stays
        if other.stage == "planted" and other.place != stay.place
        if stay.stage != "planted" or other.since.first > stay.since.first
    ]
    cropped = any(other.stage == "cropping" and other.place == stay.place for other in batch.stays)
    here = stay.stage in {"planted", "cropping"} and cropped
    return bool(elsewhere) and not here


def _until(batch: Batch, stay: Stay, today: date) -> tuple[date, bool]:
    """The last possible day of a stay, and whether it stands today."""
    last = batch.last_harvest
    if stay.until is not None:
        assumed = batch.ended == "assumed" and batch.ended_on == stay.until
        return (last.last if assumed and last is not None else stay.until.last), False
    if not is_annual(batch.crop):
        return today, True
    told = [each.since.last for each in batch.stays]
    told += [last.last] if last is not None else []
    silent_from = max(told) + timedelta(days=SILENT_DAYS)
    return min(today, silent_from), today <= silent_from
