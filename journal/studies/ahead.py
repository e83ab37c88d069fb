"""When each crop is usually sown, planted and first picked here, and what falls due next."""

from collections.abc import Iterator
from datetime import timedelta
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.happened import (
    HALF_A_YEAR,
    WHATS,
    Happened,
    Key,
    day_of_year,
    firsts,
    over_new_year,
)
from journal.studies.ledger.batches import Batch
from journal.studies.notes import Note, crop_words
from journal.studies.once import once_a_diary
from journal.studies.perennials import on_day
from journal.studies.plants import books_of, certain, reached
from journal.studies.usual import batch_season, is_south, published_time
from journal.studies.warmth import Warmth
from journal.tables.schema import TABLES, make_frame

ENOUGH_YEARS = 2


@once_a_diary
def ahead(diary: Diary) -> pd.DataFrame:
    """The usual day of each sowing, planting and first picking, from the diary's own years.

    One row a crop, cultivar (blank: all of them), season of its beginning (`spring`, or `autumn`
    for what is begun from August on and stands over the winter; blank for the pickings of a
    perennial) and `what`.

    - `earliest`, `usual`, `latest`: of the first such day in each of the `years` before this one,
      as days of the year (29 February counts with 1 March); `usual` is their median. With fewer
      than two years `usual` is blank. Days of a winter go on past 365 into the next year, and a
      first picking then is of the year before.
    - `error_days`: how far the median of the other years was from each year's own day, the mean
      over the years (leave one year out); `error_most` the farthest.
    - `degree_days`: the median sum above `base_c` from the beginning to the first picking, over
      years of which every day was read; `degree_error_days` the mean error in days of predicting
      each year's day by the median sum of the others. Blank without temperatures.
    - `this_year`: its day in the year of today, if it has come. `due_low`, `due`, `due_high`: the
      earliest, usual and latest day of the year that it falls in next, blank when it happened
      this year. Where the diary has fewer than two years of a first picking and the crop stands,
      the published days to harvest from its beginning serve, and `source` says whose they are.

    A median and a range, no published source; base temperatures as `degree_days` names them.
    """
    rows = [_row(diary, *group) for group in firsts(diary)]
    return make_frame("ahead", pd.DataFrame(rows))


@once_a_diary
def ahead_years(diary: Diary) -> pd.DataFrame:
    """Each year's day beside those of the years before it, one row a row of `ahead` and year.

    `day` is the day of the year (blank for today's year where it has not come), `date` the day
    itself; `earliest_before`, `usual_before` and `latest_before` are of the `years_before` it,
    `usual_before` their median. What the chart of usual days draws.
    """
    rows = [
        {"crop": key[0], "cultivar": key[1], "season": key[2], "what": key[3]} | row
        for key, by_year in firsts(diary)
        for row in _year_rows(by_year, diary.today.year)
    ]
    return make_frame("ahead years", pd.DataFrame(rows))


_BEFORE = ("earliest_before", "usual_before", "latest_before")


def _year_rows(by_year: dict[int, Happened], now: int) -> Iterator[dict[str, Any]]:
    for year in sorted({*by_year, now}):
        before = over_new_year([day_of_year(by_year[one].day) for one in by_year if one < year])
        first = by_year.get(year)
        day = None if first is None else day_of_year(first.day)
        if day is not None and before and median(before) - day > HALF_A_YEAR:
            day += 365
        if first is not None or before:
            yield {
                "year": year,
                "day": day,
                "date": None if first is None else first.day,
                "earliest_before": min(before, default=None),
                "usual_before": median(before) if before else None,
                "latest_before": max(before, default=None),
                "years_before": len(before),
            }


def _row(diary: Diary, key: Key, by_year: dict[int, Happened]) -> dict[str, Any]:
    crop, cultivar, season, what = key
    year = diary.today.year
    earlier = {when: one for when, one in by_year.items() if when < year}
    days = over_new_year([day_of_year(one.day) for one in earlier.values()])
    enough = len(days) >= ENOUGH_YEARS
    now = by_year[year].day if year in by_year else None
    errors = _left_out(days) if enough else []
    row: dict[str, Any] = {
        "crop": crop,
        "cultivar": cultivar,
        "season": season,
        "what": what,
        "years": len(days),
        "earliest": min(days) if days else None,
        "usual": median(days) if enough else None,
        "latest": max(days) if days else None,
        "error_days": sum(errors) / len(errors) if errors else None,
        "error_most": max(errors, default=None),
        "this_year": now,
        "source": f"this diary, {len(days)} years" if enough else "",
    }
    if what == "first picking" and enough:
        spans = [(one.since, one.day) for one in earlier.values() if one.since is not None]
        row |= Warmth(diary).of(crop, spans)
    if now is None:
        row |= _due(diary, days) if enough else _published(diary, key)
    return {name: row.get(name) for name in TABLES["ahead"].column_names}


def _left_out(days: list[int]) -> list[float]:
    """How far each year's day is from the median of the others."""
    return [abs(day - median(days[:at] + days[at + 1 :])) for at, day in enumerate(days)]


def _due(diary: Diary, days: list[int]) -> dict[str, Any]:
    """The days in this year, or in the next where the latest has passed by half a year."""
    year = diary.today.year
    if (diary.today - on_day(max(days), year)).days > HALF_A_YEAR:
        year += 1
    return {
        "due_low": on_day(min(days), year),
        "due": on_day(median(days), year),
        "due_high": on_day(max(days), year),
    }


def _published(diary: Diary, key: Key) -> dict[str, Any]:
    """The published days to harvest of the oldest batch that stands unpicked, if it is spring's."""
    crop, cultivar, season, what = key
    if what != "first picking":
        return {}
    for batch in books_of(diary).batches:
        waiting = batch.crop == crop and not batch.ended and batch.first_harvest is None
        if waiting and cultivar in {"", batch.cultivar} and batch_season(batch, is_south(diary)):
            return _published_of(batch, season)
    return {}


def _published_of(batch: Batch, season: str) -> dict[str, Any]:
    planted = reached(batch, "planted")
    usual = published_time(batch, season, batch.how == "sow" and planted is not None)
    start = None
    if usual is not None:
        start = certain(batch.started if usual.start == "sown" else planted)
    if usual is None or start is None:
        return {}
    high = start + timedelta(days=round(usual.high))
    low = None if usual.low is None else start + timedelta(days=round(usual.low))
    return {"due_low": low, "due_high": high, "source": usual.source}


def ahead_notes(diary: Diary) -> list[Note]:
    """Crops of which the diary has fewer than two years, so that it has no usual day for them."""
    frame = ahead(diary)
    few = frame[(frame["years"] < ENOUGH_YEARS) & (frame["cultivar"] == "")]
    words = {0: "no year before this one", 1: "only one year before this one"}
    return [
        Note(
            "ahead",
            "history",
            f"{row['what']} of {crop_words(row['crop'])}{_begun(row['season'])}",
            f"{words[row['years']]} tells when",
        )
        for row in few.to_dict("records")
    ]


def _begun(season: str) -> str:
    return " begun in autumn" if season == "autumn" else ""


def falling_due(diary: Diary, days: int) -> pd.DataFrame:
    """The rows of `ahead` for whole crops whose usual day is within so many days, or just past.

    What has not happened this year: its usual day is at most `days` ahead and its latest not yet
    gone by. A first picking counts only of what stands.
    """
    frame = ahead(diary)
    stands = frame["crop"].isin(
        [batch.crop for batch in books_of(diary).batches if not batch.ended]
    )
    frame = frame[stands | (frame["what"] != WHATS[2])]
    today = pd.Timestamp(diary.today)
    soon = (frame["due"] <= today + pd.Timedelta(days=days)) & (frame["due_high"] >= today)
    mine = soon.fillna(False) & (frame["cultivar"] == "")
    return frame[mine].sort_values(["due", "crop"]).reset_index(drop=True)
