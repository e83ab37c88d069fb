"""How long a crop stood: from its going in to its clearing or last picking, batch by batch."""

from typing import Any

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import day, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period, day_words
from journal.questions.saying import capital, counted, listed
from journal.questions.spans import take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.stays import stays

_MOST = 6


def answer_stood_for(asked: Asked) -> Answer:
    """`how long were the Sarpo Mira in the ground last year`: of what stood there and is gone."""
    if not asked.take("head", "how_long"):
        asked.need("head", "how_many")
        asked.need("noun", "days", "weeks", "months")
    if asked.has("aux", "have") and not asked.has("period"):
        raise NotThisKindError
    if not asked.take("aux", "was", "did") and not asked.has("aux", "have"):
        raise NotThisKindError
    asked.pass_over("was", "have", "grow", "did")
    inside = asked.take_all("state", "in_ground")
    topic = take_topic(asked, batches=False)
    period = take_period(asked)
    asked.done()
    if not topic.crops or not (inside or topic.places):
        raise NotThisKindError
    frame = topic.anywhere().rows(stays(asked.diary))
    if topic.places:
        names = {name for place in topic.places for name in (*place.names, place.said)}
        frame = frame[frame["place"].isin(names)]
    frame = frame[(frame["place"] != "") & ~frame["raised"].astype(bool)]
    rows = _ended_in(frame, period)
    said = f" {period.said}" if period else ""
    if rows.empty:
        return nothing(
            f"No {topic.what} is known to have gone in and come out{said}; "
            f"{record_words(asked.diary)}."
        )
    return _answer(asked, topic, rows)


def _ended_in(frame: pd.DataFrame, period: Period | None) -> pd.DataFrame:
    """The stays whose end is known and lies in the period; of the latest year without one."""
    rows = frame[frame["until_first"].notna() & frame["until_last"].notna()]
    if period is None:
        if rows.empty:
            return rows
        latest: pd.DataFrame = rows[rows["until_last"].dt.year == rows["until_last"].dt.year.max()]
        return latest
    if period.first is not None:
        rows = rows[rows["until_first"] >= pd.Timestamp(period.first)]
    if period.last is not None:
        rows = rows[rows["until_last"] <= pd.Timestamp(period.last)]
    kept: pd.DataFrame = rows
    return kept


def _answer(asked: Asked, topic: Topic, rows: pd.DataFrame) -> Answer:
    order = rows.sort_values(["since_first", "place"])
    cells = order.to_dict("records")
    named = any(thing.cultivar for thing in topic.things)
    words = [_words(row, named=named) for row in cells]
    exact = [row for row in cells if _days(row)[0] == _days(row)[1]]
    one = cells[0] if len(cells) == 1 and exact else None
    events = asked.diary.events
    wanted = [int(each) for name in ("event", "end_event") for each in order[name].dropna()]
    return Answer(
        True,
        capital(f"{topic.said} stood {listed(words, most=_MOST)}."),
        value=_days(one)[0] if one else None,
        unit="days" if one else None,
        date=day(one["since_first"]) if one else None,
        date_end=day(one["until_last"]) if one else None,
        rows=table_rows(
            order[
                [
                    "crop",
                    "cultivar",
                    "place",
                    "since_first",
                    "since_last",
                    "until_first",
                    "until_last",
                ]
            ]
        ),
        evidence=evidence_of(asked.diary, events[events["event"].isin(wanted)]),
        caveats=("from going in to the clearing or the last picking that the diary tells",),
    )


def _days(row: dict[Any, Any]) -> tuple[int, int]:
    low = (row["until_first"] - row["since_last"]).days
    return max(low, 0), (row["until_last"] - row["since_first"]).days


def _words(row: dict[Any, Any], *, named: bool) -> str:
    low, high = _days(row)
    days = counted(high, "day") if low == high else f"between {low} and {high} days"
    who = f" ('{row['cultivar']}')" if row["cultivar"] and not named else ""
    since, until = day_words(day(row["since_first"])), day_words(day(row["until_last"]))
    return f"{days} in {row['place']}{who}, from {since} to {until}"
