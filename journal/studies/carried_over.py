"""Pickings that go on from a crop of the year before: a winter's kale past New Year.

They count by weight in the year that they were picked in, but are no first picking of it.
"""

from datetime import timedelta

import pandas as pd

from journal.diary import Diary
from journal.studies.ledger.habits import is_annual
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.plants import books_of
from journal.studies.seasons import HALF_A_YEAR, certain_season
from journal.studies.usual import is_south


@once_a_diary
def carried_over(diary: Diary) -> frozenset[int]:
    """The harvest events whose every batch was first picked in an earlier calendar year.

    Batches are those of the plant ledger, and only of crops that the tables know as no perennials:
    a rhubarb is first picked in every year. A picking that no batch could take in is not among
    them, since nobody can tell whether its plants are the old ones.
    """
    return _carried_over(diary, south=False)


@once_a_diary
def carried_over_season(diary: Diary) -> frozenset[int]:
    """The same by growing seasons, which run from July to June south of the equator."""
    return _carried_over(diary, south=is_south(diary))


def _carried_over(diary: Diary, *, south: bool) -> frozenset[int]:
    books = books_of(diary)
    shift = HALF_A_YEAR if south else timedelta()
    first = {
        batch.number: (batch.first_harvest.last + shift).year
        for batch in books.batches
        if batch.first_harvest is not None and is_annual(batch.crop)
    }
    began: dict[int, list[int | None]] = {}
    for joined in books.joined:
        if joined.what == "harvested":
            began.setdefault(joined.event, []).append(first.get(joined.batch))
    picked = pickings(diary.events)
    years = picked.assign(year=certain_season(picked, south)).set_index("event")["year"].dropna()
    return frozenset(
        event
        for event, since in began.items()
        if event in years.index
        and all(year is not None and year < years.loc[event] for year in since)
    )


def first_pickings(picked: pd.DataFrame, keys: list[str], diary: Diary) -> pd.DataFrame:
    """`keys` and `first`, the day of the first picking that goes on from no year before.

    A group that has none, or whose day the diary leaves open, is not in it.
    """
    fresh = picked[~picked["event"].isin(carried_over(diary))]
    return sum_pickings(fresh, keys).dropna(subset="first")[[*keys, "first"]]
