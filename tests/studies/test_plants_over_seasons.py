"""Made-up seasons whose truth is known: the ledger finds it again, or bounds it.

Thirty seasons are run here; HAULM_SEASONS=600 runs as many as it says.
"""

import os
from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

import pytest
from support.simulator import FATES, REACHED, SHEET, Season
from support.written import written

from journal.diary import Diary
from journal.studies.ledger.batches import Batch, Number
from journal.studies.plants import books_of, books_on, unplaced

SEASONS = range(int(os.environ.get("HAULM_SEASONS", "30")))
LEAVES_GAPS = ("blurred", "holed")


@pytest.fixture(params=SEASONS, scope="module")
def season(request: pytest.FixtureRequest) -> Season:
    return Season(request.param)


def reading(season: Season, page: str) -> Diary:
    return written(page, season.lines[-1].day, SHEET)


def in_order(season: Season) -> list[int]:
    """The truths in the order in which their batches begin."""
    first: dict[int, int] = {}
    for at, line in enumerate(season.lines):
        first.setdefault(line.batch, at)
    return sorted(first, key=lambda batch: first[batch])


def some_days(season: Season) -> Iterator[date]:
    first, last = season.lines[0].day, season.lines[-1].day
    chance = Random(len(season.lines))
    yield last
    for _ in range(2):
        yield first + timedelta(days=chance.randint(0, (last - first).days))


def by_place(batch: Batch) -> dict[str, float | None]:
    found: dict[str, Number] = {}
    for part in batch.parts:
        found[part.place] = found.get(part.place, Number(0, 0)).more(part.alive)
    return {place: alive.exact for place, alive in found.items() if not alive.none_left}


def test_a_whole_diary_is_recovered_exactly(season: Season):
    diary = reading(season, season.whole())
    assert unplaced(diary).empty
    found = books_of(diary).batches
    assert len(found) == len(season.truths)
    for batch, truth in zip(found, map(season.truths.__getitem__, in_order(season)), strict=True):
        reached = {name: getattr(batch.totals, name) or 0 for name in REACHED}
        fates = {name: getattr(batch.totals, name) or 0 for name in FATES}
        assert reached == {name: truth.reached.get(name, 0) for name in REACHED}, truth.words
        assert fates == truth.fates, truth.words
        assert (batch.alive.exact, batch.unknown) == (truth.alive, 0), truth.words


def test_on_any_day_a_whole_diary_tells_how_many_stand_in_each_place(season: Season):
    diary = reading(season, season.whole())
    for day in some_days(season):
        for batch, truth in zip(books_on(diary, day).batches, in_order(season), strict=False):
            assert by_place(batch) == season.standing_on(truth, day), (day, batch.crop)


@pytest.mark.parametrize("gaps", LEAVES_GAPS)
def test_there_are_never_more_alive_than_a_diary_with_gaps_says(season: Season, gaps: str):
    diary = reading(season, getattr(season, gaps)())
    for day in some_days(season):
        for batch, truth in zip(books_on(diary, day).batches, in_order(season), strict=False):
            alive = sum((season.standing_on(truth, day) or {}).values())
            assert batch.alive.holds(Number(alive, alive)), (day, batch.crop)


def test_there_are_never_fewer_alive_where_all_that_took_plants_was_written(season: Season):
    diary = reading(season, season.blurred())
    for day in some_days(season):
        books = books_on(diary, day)
        # what could not be placed is told to the keeper, and promises nothing
        told = {(left.crop, left.label) for left in books.unplaced}
        for batch, truth in zip(books.batches, in_order(season), strict=False):
            alive = sum((season.standing_on(truth, day) or {}).values())
            assert batch.alive.low <= alive or (batch.crop, batch.label) in told, (day, batch.crop)


@pytest.mark.parametrize("page", ["whole", *LEAVES_GAPS])
def test_every_plant_that_began_is_alive_gone_or_unaccounted_for(season: Season, page: str):
    diary = reading(season, getattr(season, page)())
    for batch in books_of(diary).batches:
        alive = sum(part.alive.low for part in batch.parts)
        unknown = batch.unknown
        assert unknown is not None and unknown >= 0
        assert batch.totals.entered == pytest.approx(alive + batch.totals.gone + unknown)


def test_gaps_widen_what_is_known_but_never_beyond_what_was_sown(season: Season):
    whole = books_of(reading(season, season.whole())).batches
    blurred = books_of(reading(season, season.blurred())).batches
    assert season.blurred() != season.whole()
    for exact, batch in zip(whole, blurred, strict=False):
        assert batch.alive.high is not None and exact.totals.entered is not None
        assert batch.alive.high <= exact.totals.entered
