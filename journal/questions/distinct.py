"""How many different crops, varieties, beds or people there were, and how big a place is."""

from typing import Any

import pandas as pd

from journal.questions.acting import act_events, settled_act, take_act
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import dated, evidence_of, record_words
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.saying import capital, counted, crop_said, figure, listed
from journal.questions.spans import span_of, take_period
from journal.questions.topic import take_topic
from journal.studies.bed_size import bed_size
from journal.studies.standing import beds_today

_BY = {"crops": "crop", "varieties": "cultivar", "beds": "place", "places": "place",
       "people": "party"}  # fmt: skip
_ONE = {"crop": "crop", "cultivar": "variety", "place": "place", "party": "person"}
_MANY = {"crop": "crops", "cultivar": "varieties", "place": "places", "party": "people"}
_MOST_SAID = 12


def answer_how_many_kinds(asked: Asked) -> Answer:
    """`how many varieties of potato have I grown`, `how many crops did I pick in 2024`."""
    asked.need("head", "how_many")
    noun = asked.need("noun", *_BY)
    asked.pass_over("did", "was", "have", "do", *(() if asked.has("act") else ("is",)))
    have = asked.take("aux", "get")
    act = take_act(asked) if asked.has("act") or asked.has("aux", "grow") else None
    asked.take_all("preposition", "to", "from", "in")
    topic = take_topic(asked, act.name if act else "")
    period = take_period(asked)
    asked.done()
    by = _BY[noun.name]
    if act is None and by == "place" and topic.is_empty and period is None:
        return _beds(asked)
    if act is None or (have and by == "place"):
        raise NotThisKindError
    act = settled_act(ACTS[act.name], topic)
    span = span_of(dated(act_events(asked, act, topic)), period)
    rows = span.rows[span.rows[by] != ""]
    if rows.empty:
        return nothing(
            f"Nothing is written of {topic.being(act.name, act.past, act.noun)}{span.said}; "
            f"{record_words(asked.diary)}."
        )
    keys = ["crop", "cultivar"] if by == "cultivar" else [by]
    names = rows[keys].drop_duplicates().to_dict("records")
    said = [
        f"'{row['cultivar']}'"
        if by == "cultivar"
        else crop_said(row["crop"])
        if by == "crop"
        else str(row[by])
        for row in names
    ]
    if by == "party":
        to = {"buy": "from", "swap": "with"}.get(act.name, "to")
        told = f"you {act.did.removesuffix(' away')} {topic.said or 'something'} {to} "
        told += f"{counted(len(names), 'person', 'people')}{span.said}: {listed(said)}"
        return _kinds(asked, told, names, rows, (*topic.notes, *span.doubts))
    of = f" of {topic.said}" if topic.said else ""
    there = f" {topic.there}" if topic.there else ""
    be = "was" if len(names) == 1 else "were"
    told = (
        f"{counted(len(names), _ONE[by], _MANY[by])}{of} {be} {act.past}{there}{span.said}: "
        f"{listed(said, most=_MOST_SAID)}"
    )
    return _kinds(asked, told, names, rows, (*topic.notes, *span.doubts))


def _kinds(
    asked: Asked,
    told: str,
    names: list[dict[Any, Any]],
    rows: pd.DataFrame,
    caveats: tuple[str, ...],
) -> Answer:
    return Answer(
        True,
        capital(f"{told}."),
        value=len(names),
        rows=tuple({str(key): cell for key, cell in row.items()} for row in names),
        evidence=evidence_of(asked.diary, rows),
        caveats=caveats,
    )


def _beds(asked: Asked) -> Answer:
    today = asked.clock.today
    beds = beds_today(asked.diary)
    if not beds:
        return nothing("The sheet names no beds.")
    return Answer(
        True,
        f"The sheet has {counted(len(beds), 'bed')} on {day_words(today)}: {listed(beds)}.",
        value=len(beds),
        rows=tuple({"place": name} for name in beds),
    )


def answer_size(asked: Asked) -> Answer:
    """`how big is Platform 1`: its ground by the sheet, in square metres."""
    if not asked.take("head", "how_big"):
        raise NotThisKindError
    asked.need("aux", "is", "was")
    topic = take_topic(asked)
    asked.done()
    if topic.things or len(topic.places) != 1:
        raise NotThisKindError
    name = topic.places[0].said
    today = pd.Series([pd.Timestamp(asked.clock.today)])
    area = bed_size(pd.Series([name]), today, asked.diary.sheet).iloc[0]
    if pd.isna(area):
        raise RefusedError(f"the sheet does not say how big {name} is")
    return Answer(
        True,
        f"{name} has {figure(float(area))} m2 by the sheet.",
        value=round(float(area), 6),
        unit="m2",
        rows=({"place": name, "area_m2": area},),
    )
