"""The line of life of each batch: from when to when it surely was at each stage and place."""

from collections.abc import Iterator
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.ledger.batches import RANK, Batch, Stay
from journal.studies.once import once_a_diary
from journal.studies.plants import books_of
from journal.tables.schema import make_frame


@once_a_diary
def lives(diary: Diary) -> pd.DataFrame:
    """One row a batch, stage and place: the days from `begins` to `ends` that it surely was there.

    `year` is that of the batch's beginning (its last possible day). `begins` is the last possible
    day of reaching the stage and `ends` the first possible day of leaving it, today for what
    stands; where the one is not before the other, the diary leaves both open and there is no row.
    `lane` is 0 for the plants that were moved on last and farthest, and 1 for those left behind
    from the day on which others were moved on. `alive` is how many there were when they left.
    """
    rows = [row for batch in books_of(diary).batches for row in _of_batch(batch, diary.today)]
    return make_frame("plants lives", pd.DataFrame(rows))


def _of_batch(batch: Batch, today: date) -> Iterator[dict[str, Any]]:
    alive = {id(part.stay): part.alive for part in batch.parts}
    stays = [stay for stay in batch.stays if stay.stage != "ended"]
    for stay in sorted(stays, key=lambda stay: (stay.since.last, RANK[stay.stage])):
        ends = today if id(stay) in alive else _left(stay)
        if ends is None or ends < stay.since.last:
            continue
        number = alive.get(id(stay), stay.alive)
        row = {
            "year": batch.started.last.year,
            "batch": batch.number,
            "crop": batch.crop,
            "cultivar": batch.cultivar,
            "label": batch.label,
            "place": stay.place,
            "stage": stay.stage,
            "alive": None if number is None else number.exact,
            "ended": batch.ended,
        }
        overtaken = min((other for other in _overtaking(stay, stays)), default=ends)
        yield row | {"lane": 0, "begins": stay.since.last, "ends": min(overtaken, ends)}
        if overtaken < ends:
            yield row | {"lane": 1, "begins": overtaken, "ends": ends}


def _left(stay: Stay) -> date | None:
    return None if stay.until is None else stay.until.first


def _overtaking(stay: Stay, stays: list[Stay]) -> Iterator[date]:
    """The days on which others of the batch went farther, or as far in another place."""
    for other in stays:
        farther = RANK[other.stage] > RANK[stay.stage]
        elsewhere = other.stage == stay.stage and other.place != stay.place
        later = other.since.last > stay.since.last or (
            other.since.last == stay.since.last and farther
        )
        if later and (farther or elsewhere):
            yield other.since.last
