"""How early or late one stretch of days was against the same stretch of another year."""

from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.seasons import season_day

_KINDS = ("sowing", "planting", "harvest", "raising")
_KEYS = ["verb", "crop", "subject"]


def spring_shift(diary: Diary, one: tuple[date, date], other: tuple[date, date]) -> pd.DataFrame:
    """What came first in its year in both stretches: `verb crop subject one other shift`.

    Of every verb of sowing, planting, raising and harvest with its crop, and of every sighting,
    the first certain day of the year counts, where it lies in the stretch: a picking that had
    begun before is no sign of that spring. `shift` = days that `one` was later than `other`,
    29 February counted with 1 March. No rows where nothing came in both. No published source.
    """
    firsts = _firsts(diary)
    pair = [_within(firsts, stretch) for stretch in (one, other)]
    both = pair[0].merge(pair[1], on=_KEYS, suffixes=("_one", "_other"))
    both["shift"] = season_day(both["date_one"]) - season_day(both["date_other"])
    names = {"date_one": "one", "date_other": "other"}
    return both.rename(columns=names).sort_values("shift", ignore_index=True)


def _firsts(diary: Diary) -> pd.DataFrame:
    events = diary.events
    sure = events[(events["date"] == events["date_end"]).fillna(False)]
    done = sure["kind"].isin(_KINDS) & sure["crop"].ne("")
    seen = sure["kind"].eq("sighting") & sure["subject"].ne("")
    mine = sure[done | seen].copy()
    mine["subject"] = mine["subject"].where(mine["kind"] == "sighting", "")
    mine["year"] = mine["date"].dt.year
    first = mine.sort_values(["date", "event"]).drop_duplicates([*_KEYS, "year"])
    kept: pd.DataFrame = first[[*_KEYS, "date", "event"]]
    return kept


def _within(firsts: pd.DataFrame, stretch: tuple[date, date]) -> pd.DataFrame:
    first, last = (pd.Timestamp(day) for day in stretch)
    kept: pd.DataFrame = firsts[firsts["date"].between(first, last)]
    return kept


def median_shift(frame: pd.DataFrame) -> float | None:
    """The median of `shift` in days; None of no rows."""
    middle: Any = frame["shift"].median() if len(frame) else None
    return None if middle is None else float(middle)
