"""What stood in which bed from when to when, and how many days of a year each bed was in use."""

from collections.abc import Iterator
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.dates import Days
from journal.studies.ledger.batches import Batch, Stay
from journal.studies.ledger.grounds import Grounds
from journal.studies.once import once_a_diary
from journal.studies.plants import books_of
from journal.tables.schema import TABLES, make_frame


@once_a_diary
def occupancy(diary: Diary) -> pd.DataFrame:
    """The plant ledger's batches by the ground they stood on, one row a year, batch and place.

    `since` to `since_end` are the days on which the first of the batch can have come there,
    `until` to `until_end` those on which the last of it can have gone; both blank while any of it
    stands. `begins` and `ends` are the widest that this allows within the year, no later than
    today. `ended` as in the study `plants`. `place` is what the ground is called today. Joins the
    ledger's stays; no published source.
    """
    grounds = Grounds(diary.sheet)
    rows = [
        row | in_year
        for batch in books_of(diary).batches
        for row in _rows(batch, grounds)
        for in_year in _years(row, diary.today)
    ]
    names = TABLES["occupancy"].column_names
    frame = make_frame("occupancy", {name: [row[name] for row in rows] for name in names})
    return frame.sort_values(["year", "place", "begins", "batch"], ignore_index=True)


def _years(row: dict[str, Any], today: date) -> Iterator[dict[str, Any]]:
    last = min(row["until_end"] or today, today)
    for year in range(row["since"].year, last.year + 1):
        begins, ends = max(row["since"], date(year, 1, 1)), min(last, date(year, 12, 31))
        yield {"year": year, "begins": begins, "ends": ends}


def _rows(batch: Batch, grounds: Grounds) -> Iterator[dict[str, Any]]:
    by_place: dict[str, list[Stay]] = {}
    for stay in batch.stays:
        if stay.stage != "ended" and stay.place:
            by_place.setdefault(grounds.now(stay.place, stay.since.first), []).append(stay)
    for place, stays in by_place.items():
        since = min((stay.since for stay in stays), key=lambda days: days.first)
        until = _gone(stays)
        yield {
            "place": place,
            "crop": batch.crop,
            "cultivar": batch.cultivar,
            "label": batch.label,
            "batch": batch.number,
            "since": since.first,
            "since_end": since.last,
            "until": until.first if until else None,
            "until_end": until.last if until else None,
            "ended": batch.ended if until else "",
        }


def _gone(stays: list[Stay]) -> Days | None:
    """When the last of the stays was over; None while one is not."""
    ends = [stay.until for stay in stays if stay.until is not None]
    return max(ends, key=lambda days: days.last) if len(ends) == len(stays) else None


def days_in_use(rows: pd.DataFrame) -> "pd.Series[Any]":
    """How many days something stood in each place, of the rows of one year.

    The first and the last day count, and days on which several crops stood count once.
    """
    return rows.groupby("place")[["begins", "ends"]].apply(_covered).astype("Int64")


def _covered(spans: pd.DataFrame) -> int:
    total, reached = 0, pd.Timestamp.min
    for begins, ends in spans.sort_values("begins").itertuples(index=False):
        start = (
            max(begins, reached + pd.Timedelta(days=1)) if reached > pd.Timestamp.min else begins
        )
        total += max(0, (ends - start).days + 1)
        reached = max(reached, ends)
    return total
