"""How long something has been in or up, how old it is, and how long the one before it lasted."""

from datetime import date
from typing import Any

import pandas as pd

from journal.questions.acting import done_events
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import dated, day, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words, stretch_words
from journal.questions.saying import capital, counted, figure, is_one, listed, span, whole_span
from journal.questions.topic import Topic, take_topic
from journal.studies.stays import stays
from journal.studies.structures import structures

_PUT_UP = {"net": ("net",), "cover": ("cover",), "fleece": ("cover",)}
_TAKEN_OFF = ("uncover", "take down")


def answer_age(asked: Asked) -> Answer:
    """`how long have the boards on North 1 been in`, `how old is the liner`."""
    old = asked.take("head", "how_old") is not None
    if not old:
        asked.need("head", "how_long")
    asked.pass_over("have", "was", "is")
    asked.take("state", "new")
    asked.take_all("preposition", "in", "on")
    asked.take("particle", "up")
    asked.take_all("state", "in_ground")
    topic = take_topic(asked, "fit", batches=False)
    asked.done()
    kinds = {thing.kind for thing in topic.things}
    if not topic.things or len(topic.things) > 1:
        raise NotThisKindError
    if kinds == {"crop"}:
        return _crop_age(asked, topic)
    found = structures_of(asked, topic)
    current = found[found["ended"].isna()]
    if not current.empty:
        return _standing_for(asked, topic, current)
    if not found.empty:
        return _gone(asked, topic, found)
    return _put_up(asked, topic)


def structures_of(asked: Asked, topic: Topic) -> pd.DataFrame:
    """The things fitted that the topic names, at its places."""
    frame = structures(asked.diary)
    names = {name.lower() for thing in topic.things for name in thing.names}
    rows = frame[frame["thing"].str.lower().isin(names)]
    if topic.places:
        wanted = {name for place in topic.places for name in (*place.names, place.said)}
        rows = rows[rows["place"].isin(wanted)]
    return rows


def events_of(asked: Asked, rows: pd.DataFrame, *, first: bool = True) -> pd.DataFrame:
    """The events that began (or all that touched) these things."""
    wanted = [
        int(number)
        for cell in rows["events"]
        for number in (str(cell).split(", ")[:1] if first else str(cell).split(", "))
    ]
    events = asked.diary.events
    return events[events["event"].isin(wanted)]


def _standing_for(asked: Asked, topic: Topic, rows: pd.DataFrame) -> Answer:
    today = asked.clock.today
    order = rows.sort_values("fitted")
    said = [_age_words(row, topic, today, len(order) > 1) for row in order.to_dict("records")]
    first, last = day(order["fitted"].iloc[0]), day(order["fitted_end"].iloc[0])
    one = len(order) == 1
    age, unit = _age(order.iloc[0], today)
    verb = "has" if topic.singular else "have"
    there = f" {topic.there}" if topic.there else ""
    return Answer(
        True,
        capital(f"the {topic.said}{there} {verb} been in {listed(said)}."),
        value=age if one else None,
        unit=unit if one else None,
        date=first if one else None,
        date_end=last if one else None,
        rows=table_rows(order.drop(columns=["events", "why"])),
        evidence=evidence_of(asked.diary, events_of(asked, order)),
    )


def _years(row: "pd.Series[Any]") -> float | None:
    """The age in years where it is certain."""
    low, high = float(row["years_low"]), float(row["years_high"])
    return round(low, 2) if low == high else None


def _age(row: "pd.Series[Any]", today: date) -> tuple[float | None, str | None]:
    """The age where it is certain, below a year in days; a range is no one figure."""
    if row["fitted"] == row["fitted_end"] and float(row["years_high"]) < 1:
        return (today - day(row["fitted"])).days, "days"
    years = _years(row)
    return years, "years" if years is not None else None


def _age_words(row: dict[Any, Any], topic: Topic, today: date, several: bool) -> str:
    """`6 years and 11 months, since 4 March 2019`, or `between 6 and 7 years, since ...`."""
    first, last = day(row["fitted"]), day(row["fitted_end"])
    where = f" in {row['place']}" if several and row["place"] else ""
    short, long = whole_span(last, today), whole_span(first, today)
    if first == last:
        return f"{long}{where}, since {day_words(first)}"
    if short == long:
        return f"about {long}{where}, since some day from {stretch_words(first, last)}"
    return f"between {short} and {long}{where}, since some day from {stretch_words(first, last)}"


def _gone(asked: Asked, topic: Topic, rows: pd.DataFrame) -> Answer:
    row = rows.sort_values("ended").iloc[-1]
    ended = stretch_words(day(row["ended"]), day(row["ended_end"]))
    life = span(day(row["fitted"]), day(row["ended"]))
    return nothing(
        f"No {topic.said}{f' {topic.there}' if topic.there else ''} is in now: it was "
        f"{row['how_ended'] or 'ended'} on {ended}, after {life}."
    )


def _put_up(asked: Asked, topic: Topic) -> Answer:
    """A net or cover over a crop or bed: since it was last put on, if it was not taken off."""
    thing = topic.things[0]
    verbs = _PUT_UP.get(thing.names[0] if thing.names else "", ())
    events = dated(done_events(asked.diary))
    on = events[events["verb"].isin(verbs)]
    off = events[events["verb"].isin(_TAKEN_OFF)]
    for place in topic.places:
        on, off = place.rows(on), place.rows(off)
    where = f" {topic.there}" if topic.there else ""
    if on.empty:
        return nothing(
            f"Nothing says since when the {thing.said}{where} is there; "
            f"{record_words(asked.diary)}."
        )
    last = on[on["date_end"] == on["date_end"].max()].iloc[0]
    first_day, last_day = day(last["date"]), day(last["date_end"])
    taken = off[(off["date"] >= last["date_end"]) & (off["place"] == last["place"])]
    spot = last["place"] or last["crop"]
    if len(taken):
        gone = day(taken["date"].min())
        return nothing(
            f"The {thing.said} over {spot} was put on on {stretch_words(first_day, last_day)} and "
            f"taken off on {day_words(gone)}."
        )
    today = asked.clock.today
    short, long = whole_span(last_day, today), whole_span(first_day, today)
    said = long if short == long else f"between {short} and {long}"
    return Answer(
        True,
        f"The {thing.said} over {spot} has been on {said}, since "
        f"{stretch_words(first_day, last_day)}, by the diary.",
        value=(today - first_day).days if first_day == last_day else None,
        unit="days" if first_day == last_day else None,
        date=first_day,
        date_end=last_day,
        evidence=evidence_of(asked.diary, on[on["event"] == last["event"]]),
        caveats=("nothing is written of its being taken off",),
    )


def _crop_age(asked: Asked, topic: Topic) -> Answer:
    """How long what stands today has been in its place."""
    frame = topic.anywhere().rows(stays(asked.diary))
    if topic.places:
        wanted = {name for place in topic.places for name in (*place.names, place.said)}
        frame = frame[frame["place"].isin(wanted) | frame["ground"].isin(wanted)]
    alive = frame["alive_high"].isna() | (frame["alive_high"] > 0)
    rows = frame[frame["until_first"].isna() & alive].sort_values("since_first")
    if rows.empty:
        return nothing(f"By the diary no {topic.what} stands today; {record_words(asked.diary)}.")
    today = asked.clock.today
    items = [
        _stay_words(row, today, topic, several=len(rows) > 1) for row in rows.to_dict("records")
    ]
    one = len(rows) == 1 and rows["since_first"].iloc[0] == rows["since_last"].iloc[0]
    first, last = day(rows["since_first"].iloc[0]), day(rows["since_last"].iloc[0])
    events = asked.diary.events
    verb = "has" if len(set(rows["crop"])) == 1 and is_one(rows["crop"].iloc[0]) else "have"
    return Answer(
        True,
        capital(f"{topic.said} {verb} been {listed(items)}."),
        value=(today - first).days if one else None,
        unit="days" if one else None,
        date=first if len(rows) == 1 else None,
        date_end=last if len(rows) == 1 else None,
        rows=table_rows(rows[["crop", "cultivar", "place", "stage", "since_first", "since_last"]]),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(rows["event"]))]),
    )


def _stay_words(row: dict[Any, Any], today: date, topic: Topic, *, several: bool) -> str:
    first, last = day(row["since_first"]), day(row["since_last"])
    who = f" ('{row['cultivar']}')" if several and row["cultivar"] else ""
    short, long = whole_span(last, today), whole_span(first, today)
    said = long if short == long else f"between {short} and {long}"
    return f"in {row['ground']}{who} {said}, since {stretch_words(first, last)}"


def answer_life(asked: Asked) -> Answer:
    """`how long did the boards on North 1 last`: the life of what was replaced or taken down."""
    asked.need("head", "how_long")
    asked.need("aux", "did")
    asked.need("order", "last")
    # only what was replaced or taken down has a life that is known
    asked.take_all("state", "old", "until_replaced")
    topic = take_topic(asked, "fit", batches=False)
    asked.done()
    if not topic.things or {thing.kind for thing in topic.things} == {"crop"}:
        raise NotThisKindError
    rows = structures_of(asked, topic)
    rows = rows[rows["ended"].notna()].sort_values("ended")
    where = f" {topic.there}" if topic.there else ""
    if rows.empty:
        return nothing(
            f"No {topic.said}{where} was replaced or taken down; {record_words(asked.diary)}."
        )
    words = [_life_words(row, len(rows) > 1) for row in rows.to_dict("records")]
    row = rows.iloc[0]
    return Answer(
        True,
        capital(f"the {topic.said}{where} lasted {listed(words)}."),
        value=_years(row) if len(rows) == 1 else None,
        unit="years" if len(rows) == 1 else None,
        rows=table_rows(rows.drop(columns=["events", "why"])),
        evidence=evidence_of(asked.diary, events_of(asked, rows, first=False)),
    )


def _life_words(row: dict[Any, Any], several: bool) -> str:
    low, high = float(row["years_low"]), float(row["years_high"])
    where = f" in {row['place']}" if several and row["place"] else ""
    years = figure(low, 1) if round(low, 1) == round(high, 1) else f"{low:.1f} to {high:.1f}"
    seasons = counted(float(row["seasons_low"]), "growing season")
    return f"{years} years{where} ({seasons})"
