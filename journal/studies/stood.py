"""What stood on any day of the diary: how many of which batch, where, at which stage."""

from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import Event
from journal.studies.ledger.batches import Number
from journal.studies.ledger.books import Books
from journal.studies.ledger.grounds import Grounds
from journal.studies.ledger.keep import keep
from journal.studies.plants import alive_columns, events_located, typed

_WORDS = ("crop", "cultivar", "label", "place", "stage")
_COLUMNS = [*_WORDS, "alive", "alive_low", "alive_high", "event"]
_Key = tuple[int, str, str]


def stood_on(diary: Diary, day: date) -> pd.DataFrame:
    """One row a batch, stage and place that stood on a day: its plants, and where it was written.

    What may or may not have happened by then, since its days are not certain, leaves a range:
    from the fewest to the most over both. `event`, `file` and `line` are those of the batch's
    beginning. A day after the diary's today is its today.
    """
    day = min(day, diary.today)
    events = diary.reading.events
    grounds = Grounds(diary.sheet)
    surely = keep([event for event in events if _over_by(event, day)], grounds, day)
    perhaps = keep([event for event in events if _begun_by(event, day)], grounds, day)
    fewest, most = _standing(surely), _standing(perhaps)
    rows = [_row(key, fewest.get(key), most.get(key)) for key in sorted({*fewest, *most})]
    frame = typed(pd.DataFrame(rows, columns=_COLUMNS), _WORDS)
    located = events_located(diary)[["event", "file", "line"]]
    return frame.merge(located, on="event", how="left")


def _over_by(event: Event, day: date) -> bool:
    return event.date_end is not None and event.date_end <= day


def _begun_by(event: Event, day: date) -> bool:
    return event.date is not None and event.date <= day


_Standing = dict[_Key, tuple[dict[str, str], Number]]


def _standing(books: Books) -> _Standing:
    found: _Standing = {}
    for batch in books.batches:
        for part in batch.parts:
            place = ", ".join(sorted(part.ground)) or part.place
            key = (batch.event, part.stage, place)
            names = {"crop": batch.crop, "cultivar": batch.cultivar, "label": batch.label}
            alive = part.alive
            if key in found:
                alive = found[key][1].more(alive)
            found[key] = (names, alive)
    return found


def _row(
    key: _Key,
    one: tuple[dict[str, str], Number] | None,
    other: tuple[dict[str, str], Number] | None,
) -> dict[str, Any]:
    either = one or other
    assert either is not None
    none = Number(0.0, 0.0)
    alive = _hull(one[1] if one else none, other[1] if other else none)
    event, stage, place = key
    return {**either[0], "place": place, "stage": stage, **alive_columns(alive), "event": event}


def _hull(one: Number, other: Number) -> Number:
    high = None if one.high is None or other.high is None else max(one.high, other.high)
    return Number(min(one.low, other.low), high)
