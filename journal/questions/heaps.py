"""What is in a compost bay or a water tank, and how hot a heap is."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import (
    day,
    evidence_of,
    numbered_evidence,
    record_words,
    table_rows,
)
from journal.questions.ground import Place
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import day_words
from journal.questions.saying import capital, counted, figure, litres
from journal.questions.spans import span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.cautions import cautions_of
from journal.studies.heaps import heaps, heaps_log
from journal.studies.rain_store_now import rain_store_now

_STUFF = ("compost", "manure", "leaf mould", "leaves")


def _kind(asked: Asked, place: Place) -> str:
    declared = asked.diary.sheet.place_on(place.said, asked.clock.today)
    return declared.kind if declared else ""


def _one_place(asked: Asked, topic: Topic, kind: str) -> Place:
    if len(topic.places) != 1 or _kind(asked, topic.places[0]) != kind:
        raise NotThisKindError
    return topic.places[0]


def answer_bay(asked: Asked) -> Answer:
    """`how much compost is in Bay A`, `what is in Bay A`, `how full is Bay A`."""
    much = asked.take("head", "how_much", "how_full")
    if much is None:
        asked.need("head", "what")
    asked.need("aux", "is", "have")
    asked.pass_over("get")
    asked.take_all("state", "left", "still")
    asked.take_all("unit", "litre")
    topic = take_topic(asked, batches=False)
    place = _one_place(asked, topic, "bay")
    if any(thing.kind != "material" for thing in topic.things):
        raise NotThisKindError
    asked.take("period", "")
    asked.done()
    frame = heaps(asked.diary)
    row = next(
        iter(frame[frame["place"].isin([place.said, *place.names])].to_dict("records")), None
    )
    if row is None:
        return nothing(
            f"Nothing is written of what {place.said} holds; {record_words(asked.diary)}."
        )
    return _bay(asked, place, row, much is not None)


def _bay(asked: Asked, place: Place, row: dict[Any, Any], much: bool) -> Answer:
    low, high = row["held_l_low"], row["held_l_high"]
    exact = not pd.isna(high) and low == high
    if exact:
        amount = f"about {litres(float(low))}"
    elif pd.isna(high):
        amount = f"at least {litres(float(low))}"
    else:
        amount = f"between {litres(float(low))} and {litres(float(high))}"
    least = "" if exact else "at least "
    full = (
        ""
        if pd.isna(row["full_pct"]) or not (exact or row["full_pct"])
        else f", {least}{figure(float(row['full_pct']), 0)} % of what it can"
    )
    stuff = f"; what went in since: {row['materials']}" if row["materials"] else ""
    measured = row["measured"]
    since = "" if pd.isna(measured) else f"; measured last on {day_words(day(measured))}"
    return Answer(
        True,
        f"By its book {place.said} holds {amount}{full}{since}{'' if much else stuff}.",
        value=float(low) if exact else None,
        unit="l" if exact else None,
        rows=table_rows(pd.DataFrame([row]).drop(columns=["events"])),
        evidence=_book_lines(asked.diary, str(row["place"])),
        caveats=tuple(filter(None, [row["why"], "a heap settles unseen; this is a book figure"])),
    )


def _book_lines(diary: Diary, bay: str) -> tuple[Evidence, ...]:
    """What the book figure is the sum of: the last measure or emptying, and what changed since."""
    log = heaps_log(diary)
    log = log[(log["place"] == bay) & ~log["what"].isin(("probed", "turned"))]
    starts = log.index[log["what"].isin(("measured", "emptied"))]
    since = log.loc[starts[-1] :] if len(starts) else log
    return numbered_evidence(diary, [str(event) for event in since["event"]])


def answer_bay_ready(asked: Asked) -> Answer:
    """`when will the compost in Bay A be ready`: by the days that the heaps before it took."""
    asked.need("head", "when", "how_long")
    asked.pass_over("will", "is", "can", "do", "have", "get")
    asked.need("state", "ready")
    asked.take("preposition", "to", "for")
    asked.take("act", "use", "spread")
    topic = take_topic(asked, batches=False)
    place = _one_place(asked, topic, "bay")
    if any(thing.kind != "material" for thing in topic.things):
        raise NotThisKindError
    asked.done()
    frame = heaps(asked.diary)
    frame = frame[frame["place"].isin([place.said, *place.names]) & frame["ready"].notna()]
    if frame.empty:
        return nothing(
            f"Nothing tells when {place.said} will be ready: no heap of the diary went through "
            f"to its end, or this one's start is not known; {record_words(asked.diary)}."
        )
    row = frame.iloc[0]
    low, middle, high = (day(row[name]) for name in ("ready_low", "ready", "ready_high"))
    before = counted(int(row["heaps_before"]), "heap")
    return Answer(
        True,
        f"By the {before} before it {place.said} should be ready between {day_words(low)} and "
        f"{day_words(high)}, in the middle on {day_words(middle)}.",
        date=low,
        date_end=high,
        rows=table_rows(frame.drop(columns=["events"])),
        evidence=numbered_evidence(asked.diary, [str(row["events"])]),
        caveats=("by how long such heaps took before, not a promise",),
    )


def answer_tank_lasts(asked: Asked) -> Answer:
    """`how long will the butt last`: what it holds at the use of the last summer, in days."""
    if not asked.take("head", "how_long"):
        asked.need("head", "how_many")
        asked.need("noun", "days")
    asked.need("order", "last")
    asked.pass_over("will", "do", "can", "is", "have")
    asked.take("act", "water")
    summer = asked.take("period")
    used = summer is not None and asked.take("act", "use", "water")
    topic = take_topic(asked, batches=False)
    place = _one_place(asked, topic, "tank")
    asked.done()
    frame = rain_store_now(asked.diary)
    frame = frame[frame["tank"] == place.said]
    row = next(iter(frame.to_dict("records")), None)
    if topic.things or (summer is not None and not used):
        raise NotThisKindError
    if row is None or (pd.isna(row["days_low"]) and pd.isna(row["days_high"])):
        return nothing(f"Nothing tells how fast {place.said} is used; {record_words(asked.diary)}.")
    asked_year = summer.period.year if summer and summer.period else None
    words = asked.words(summer).lower() if summer else ""
    if summer is not None and ("summer" not in words or asked_year not in (None, row["summer"])):
        raise RefusedError("how long a tank lasts is told by the use of the last summer")
    return _lasting(asked, place, row, frame)


def _lasting(asked: Asked, place: Place, row: dict[Any, Any], frame: pd.DataFrame) -> Answer:
    low, high = row["days_low"], row["days_high"]
    if pd.isna(high):
        days = f"at least {counted(int(low), 'day')}"
    elif pd.isna(low):
        days = f"at most {counted(int(high), 'day')}"
    else:
        few, many = int(low), int(high)
        days = counted(few, "day") if few == many else f"{few} to {counted(many, 'day')}"
    exact = not pd.isna(low) and not pd.isna(high) and int(low) == int(high)
    events = asked.diary.events
    levels = events[(events["verb"] == "level") & (events["place"] == place.said)]
    levels = levels[levels["date_end"] <= pd.Timestamp(asked.clock.today)]
    return Answer(
        True,
        f"At the use of summer {row['summer']} and without more rain what {place.said} holds "
        f"lasts {days}.",
        value=int(low) if exact else None,
        unit="days" if exact else None,
        rows=table_rows(frame),
        evidence=evidence_of(asked.diary, levels.sort_values("date").tail(1)),
        caveats=(
            "waterings that name no source may or may not have come from it",
            *(caution.text for caution in cautions_of("rain_store")),
        ),
    )


def answer_heat(asked: Asked) -> Answer:
    """`how hot is Bay A`, `how hot did Bay A get in 2025`: the probe's readings."""
    if not asked.take("head", "how_warm", "how_cold"):
        asked.need("head", "what", "when")
        if not asked.take("superlative", "warmest"):
            asked.take("superlative", "most")
            asked.need("kind", "temperature")
    now = asked.take("aux", "is") is not None
    asked.pass_over("did", "was", "get", "have", "run")
    asked.take_all("self", "it")
    topic = take_topic(asked, batches=False)
    place = _one_place(asked, topic, "bay")
    period = take_period(asked)
    asked.done()
    events = asked.diary.events
    rows = place.rows(events[events["temperature_c"].notna() & events["date"].notna()])
    span = span_of(rows, period)
    if span.rows.empty:
        return nothing(
            f"No heat of {place.said} is written{span.said}; {record_words(asked.diary)}."
        )
    order = span.rows.sort_values("date")
    hottest = order.sort_values("temperature_c", kind="stable").iloc[-1]
    best = order.iloc[-1] if now and period is None else hottest
    value = float(best["temperature_c"])
    what = "last read" if now and period is None else "hottest read"
    return Answer(
        True,
        f"{place.said}{span.said} was {what} at {figure(value)} C, on "
        f"{day_words(day(best['date']))}.",
        value=value,
        unit="C",
        date=day(best["date"]),
        date_end=day(best["date_end"]),
        rows=table_rows(order[["date", "temperature_c"]]),
        evidence=evidence_of(asked.diary, order[order["event"] == best["event"]]),
    )


def answer_tank(asked: Asked) -> Answer:
    """`how much water is in the butt`: by its book, or as it was last read."""
    asked.need("head", "how_much", "how_full", "what")
    asked.take("act", "water")
    asked.need("aux", "is", "have")
    asked.pass_over("get")
    asked.take_all("state", "left", "still")
    asked.take_all("unit", "litre")
    topic = take_topic(asked, batches=False)
    place = _one_place(asked, topic, "tank")
    if topic.things:
        raise NotThisKindError
    asked.take("period", "")
    asked.done()
    frame = rain_store_now(asked.diary)
    row = next(iter(frame[frame["tank"] == place.said].to_dict("records")), None)
    if row is None or pd.isna(row["level_low_l"]):
        return nothing(f"Nothing says what {place.said} holds; {record_words(asked.diary)}.")
    low, high = float(row["level_low_l"]), float(row["level_high_l"])
    exact = round(low) == round(high)
    amount = (
        litres(round(high)) if exact else f"between {litres(round(low))} and {litres(round(high))}"
    )
    events = asked.diary.events
    levels = events[(events["verb"] == "level") & (events["place"] == place.said)]
    levels = levels[levels["date_end"] <= pd.Timestamp(asked.clock.today)]
    last = levels.sort_values("date").tail(1)
    read = f"; last read on {day_words(day(last['date'].iloc[0]))}" if len(last) else ""
    return Answer(
        True,
        capital(
            f"{place.said} holds {amount} of {litres(float(row['volume_l']))} by its book{read}."
        ),
        value=round(high, 1) if exact else None,
        unit="l" if exact else None,
        rows=table_rows(frame[frame["tank"] == place.said]),
        evidence=evidence_of(asked.diary, last),
        caveats=tuple(caution.text for caution in cautions_of("rain_store")),
    )
