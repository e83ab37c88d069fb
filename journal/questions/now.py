"""What can be picked now, which beds are empty, and when what was fitted is due again."""

from typing import Any

import pandas as pd

from journal.questions.ages import events_of, structures_of
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, evidence_of, place_evidence, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import stretch_words
from journal.questions.saying import capital, counted, crop_said, listed
from journal.questions.topic import take_topic
from journal.studies.intentions import intentions
from journal.studies.standing import empty_beds, outlook

_READY = ["crop", "cultivar", "place", "stage", "state", "next", "due_low", "due_high", "source"]


def _take_today(asked: Asked) -> None:
    part = asked.take("period")
    today = asked.clock.today
    if part is not None and (part.period is None or part.period.first != today):
        raise RefusedError("it is told of today only")


def answer_ready_now(asked: Asked) -> Answer:
    """`what's ready to pick now`, `what can I pick`: what is cropping, or due by now."""
    asked.need("head", "what", "which")
    asked.take("noun", "crops", "entries")
    ready = asked.take("state", "ready")
    can = asked.take("aux", "can")
    asked.pass_over("is", "do", "have")
    asked.take_all("preposition", "to", "for")
    picked = asked.take("act", "harvest")
    if not ready and not (can and picked):
        raise NotThisKindError
    topic = take_topic(asked, batches=False)
    _take_today(asked)
    asked.done()
    frame = outlook(asked.diary)
    rows = frame[frame["state"].isin(["ready", "past its time"]) & ~frame["may_be_left"]]
    rows = rows[rows["next"].isin(["picking", "last picking"])]
    rows = topic.rows(rows.assign(kind="", place_from=""))
    if rows.empty:
        return nothing("By the diary nothing that stands is ready today.")
    words = [
        f"{crop_said(crop)} in {listed(sorted(set(rows.loc[rows['crop'] == crop, 'place'])))}"
        for crop in dict.fromkeys(rows["crop"])
    ]
    events = asked.diary.events
    late = rows.loc[rows["state"] == "past its time", "crop"]
    past = f"{listed([crop_said(c) for c in dict.fromkeys(late)])}: past the usual last picking"
    return Answer(
        True,
        f"By the diary these are ready to pick: {listed(words)}.",
        rows=table_rows(rows[_READY]),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(rows["event"]))]),
        caveats=(past,) if len(late) else (),
    )


def answer_empty(asked: Asked) -> Answer:
    """`which beds are empty`, `how many beds are free`: where by the diary nothing stands today."""
    asked.need("head", "which", "what", "how_many")
    asked.need("noun", "beds", "places")
    asked.pass_over("is", "have")
    if not asked.take("state", "empty"):
        asked.need("act", "empty")
    _take_today(asked)
    asked.done()
    empty = [str(name) for name in empty_beds(asked.diary)["place"]]
    if not empty:
        return nothing("By the diary something stands in every bed today.")
    return Answer(
        True,
        f"By the diary nothing stands in {listed(empty)} today.",
        value=len(empty),
        rows=tuple({"place": name} for name in empty),
        evidence=place_evidence(asked.diary, empty),
        caveats=("a crop whose end is not written still stands by the diary",),
    )


def answer_worn(asked: Asked) -> Answer:
    """`when are the boards on Platform 4 due`: open plans, and how long such things lasted."""
    asked.need("head", "when")
    asked.pass_over("is", "will", "do", "have", "need", "can")
    state = asked.take_all("state", "due")
    act = asked.take("act", "replace", "fit", "go_in")
    asked.take_all("preposition", "by", "to", "for")
    if not state and not act:
        raise NotThisKindError
    topic = take_topic(asked, "fit", batches=False)
    asked.done()
    if not topic.things or any(thing.kind != "material" for thing in topic.things):
        raise NotThisKindError
    frame = structures_of(asked, topic)
    rows = frame[frame["ended"].isna()]
    plans = intentions(asked.diary)
    names = {name for thing in topic.things for name in thing.names}
    plans = plans[plans["state"].isin(["open", "overdue"]) & plans["material"].isin(names)]
    plans = topic.rows(plans.assign(place_from="", kind="")) if topic.places else plans
    told = rows[rows["due_low"].notna()]
    if plans.empty and told.empty:
        there = f" {topic.there}" if topic.there else ""
        return nothing(
            f"Nothing tells when the {topic.said}{there} will be due: none of the kind was "
            f"replaced yet; {record_words(asked.diary)}."
        )
    words = [_plan_words(row) for row in plans.to_dict("records")]
    words += [_due_words(row, pd.Timestamp(asked.clock.today)) for row in told.to_dict("records")]
    events = asked.diary.events
    wanted = events[events["event"].isin(list(plans["event"]))] if "event" in plans else None
    lines = evidence_of(asked.diary, events_of(asked, told)) if len(told) else ()
    planned = evidence_of(asked.diary, wanted) if wanted is not None else ()
    return Answer(
        True,
        capital(f"{listed(words)}."),
        rows=(
            *table_rows(plans[["verb", "material", "place", "due", "due_end", "state"]]),
            *table_rows(told[["thing", "place", "fitted", "due_low", "due", "due_high"]]),
        ),
        evidence=(*planned, *lines),
        caveats=("by how long such things lasted here before, not a promise",) if len(told) else (),
    )


def _plan_words(row: dict[Any, Any]) -> str:
    days = stretch_words(day(row["due"]), day(row["due_end"]))
    where = f" in {row['place']}" if row["place"] else ""
    return f"{row['verb']} {row['material']}{where} is planned by {days}"


def _due_words(row: dict[Any, Any], today: pd.Timestamp) -> str:
    first, last = pd.Timestamp(row["due_low"]), pd.Timestamp(row["due_high"])
    where = f" in {row['place']}" if row["place"] else ""
    span = f"between {first:%B %Y} and {last:%B %Y}" if first != last else f"about {first:%B %Y}"
    if last < today:
        return f"by {_lives(row)} of the kind here the {row['thing']}{where} would be due already"
    return f"the {row['thing']}{where} may be due {span}, by {_lives(row)} of the kind here"


def _lives(row: dict[Any, Any]) -> str:
    return counted(int(row["lives"]), "life", "lives")
