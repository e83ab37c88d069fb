"""Events to what stands beside an answer: its rows, the lines as written, and doubts about days."""

from collections.abc import Sequence
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.questions.model import Evidence
from journal.questions.periods import Period, day_words

ROW_COLUMNS = ("date", "date_end", "verb", "crop", "cultivar", "label", "place", "amount_text")


def evidence_of(diary: Diary, rows: pd.DataFrame) -> tuple[Evidence, ...]:
    """The lines that rows stand on, each once, in the order of the rows."""
    places = list(dict.fromkeys(zip(rows["file"], rows["line"], strict=True)))
    return tuple(
        Evidence(str(file), int(line), diary.line(file, int(line))) for file, line in places
    )


def numbered_evidence(diary: Diary, numbers: Sequence[str]) -> tuple[Evidence, ...]:
    """The lines of events that a study names by number, `12, 31`, in the order of the diary."""
    wanted = {int(each) for words in numbers for each in words.split(", ") if each}
    events = diary.events
    return evidence_of(diary, events[events["event"].isin(wanted)])


def place_evidence(diary: Diary, names: Sequence[str]) -> tuple[Evidence, ...]:
    """The lines of the sheet that declare places."""
    places = diary.places
    return evidence_of(diary, places[places["name"].isin(list(names))])


def event_rows(
    events: pd.DataFrame, columns: Sequence[str] = ROW_COLUMNS
) -> tuple[dict[str, Any], ...]:
    """Events as rows of an answer."""
    return table_rows(events[list(columns)])


def table_rows(frame: pd.DataFrame) -> tuple[dict[str, Any], ...]:
    """A frame as rows of an answer."""
    return tuple({str(key): cell for key, cell in row.items()} for row in frame.to_dict("records"))


def day(stamp: pd.Timestamp) -> date:
    """A day of a frame as a plain one."""
    return date(stamp.year, stamp.month, stamp.day)


def dated(events: pd.DataFrame) -> pd.DataFrame:
    """The events whose days are known at all."""
    kept: pd.DataFrame = events[events["date"].notna()]
    return kept


def surely_in(events: pd.DataFrame, period: Period | None) -> pd.DataFrame:
    """The events all of whose possible days lie in the period."""
    if period is None:
        return events
    inside = events["date"].notna()
    if period.first is not None:
        inside &= events["date"] >= pd.Timestamp(period.first)
    if period.last is not None:
        inside &= events["date_end"] <= pd.Timestamp(period.last)
    kept: pd.DataFrame = events[inside]
    return kept


def perhaps_in(events: pd.DataFrame, period: Period | None) -> pd.DataFrame:
    """The events that may lie in the period or not, and those whose days are not known."""
    if period is None:
        return events.iloc[0:0]
    touches = events["date"].notna()
    if period.first is not None:
        touches &= events["date_end"] >= pd.Timestamp(period.first)
    if period.last is not None:
        touches &= events["date"] <= pd.Timestamp(period.last)
    touches |= events["date"].isna()
    kept: pd.DataFrame = events[touches & ~events.index.isin(surely_in(events, period).index)]
    return kept


def first_days(events: pd.DataFrame) -> tuple[date, date]:
    """The days between which the first of these events lies."""
    # a stretch it went on over began on its first day, without doubt
    latest = events["date_end"].where(~events["spread"].astype(bool), events["date"])
    return day(events["date"].min()), day(latest.min())


def last_days(events: pd.DataFrame) -> tuple[date, date]:
    """The days between which the last of these events lies."""
    earliest = events["date"].where(~events["spread"].astype(bool), events["date_end"])
    return day(earliest.max()), day(events["date_end"].max())


def record_words(diary: Diary) -> str:
    """Where the record starts and ends: `the diary runs from 14 March 2020 to 1 March 2026`."""
    days = [
        stamp
        for frame in (diary.events, diary.weather, diary.prose)
        for stamp in (frame["date"].min(), frame["date_end"].max())
        if not pd.isna(stamp)
    ]
    if not days:
        return "the diary is empty"
    return f"the diary runs from {day_words(day(min(days)))} to {day_words(day(max(days)))}"
