"""What slugs, mice, blight or frost took: what was lost to whatever the question blames."""

import pandas as pd

from journal.questions.acting import act_events, done_events
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import dated, event_rows, evidence_of, record_words
from journal.questions.model import Answer, nothing
from journal.questions.parts import Part
from journal.questions.periods import Period
from journal.questions.saying import capital, crop_said, figure, listed
from journal.questions.spans import span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.tallies import tally

_TAKES = ("use", "lose", "patrol", "waste", "harvest", "up")


def answer_blame(asked: Asked) -> Answer:
    """`what did the mice take`, `how many onions have the slugs had`, `what blight killed`."""
    head = asked.need("head", "what", "which", "how_many", "how_much")
    asked.take("noun", "plants", "crops")
    if asked.has("self") or asked.has("person") or not _subject_named(asked):
        raise NotThisKindError
    first = next(part for part in asked.left if part.kind == "thing")
    counted = not asked.text[head.end : first.start].strip(" ?") and _is_subject(first)
    if asked.has("aux", "was") or counted:
        # `how many slugs were caught`: they are what is counted, not what took something
        raise NotThisKindError
    took = [asked.take("aux", "take", "have", "get", "come"), asked.take("act", *_TAKES)]
    asked.pass_over("did", "have", "take", "get", "was", "do")
    if not any(took) or asked.has("act"):
        raise NotThisKindError
    topic = take_topic(asked, "lose")
    period = take_period(asked)
    asked.done()
    span = span_of(dated(act_events(asked, ACTS["lose"], topic)), period)
    if span.rows.empty:
        return nothing(
            f"Nothing is written of {topic.lost_to()}{span.said}; {record_words(asked.diary)}.",
            (*topic.notes, *span.doubts),
        )
    rows = span.rows
    crops = [
        _lost(crop, tally(rows[rows["crop"] == crop], "count").total)
        for crop in dict.fromkeys(filter(None, rows["crop"]))
    ]
    total = tally(rows, "count").total if head.name in ("how_many", "how_much") else None
    reasons = listed([thing.said for thing in topic.things if thing.kind != "crop"], "or")
    return Answer(
        True,
        capital(
            f"{listed(crops)} {'was' if _one(crops) else 'were'} lost to {reasons}{span.said}."
        ),
        value=total,
        rows=event_rows(rows),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*_seen_on(asked, topic, period, rows), *topic.notes, *span.doubts),
    )


def _seen_on(
    asked: Asked, topic: Topic, period: Period | None, lost: pd.DataFrame
) -> tuple[str, ...]:
    """Other crops that it was seen on, of which no loss to it is written."""
    seen = topic.rows(ACTS["see"].rows(done_events(asked.diary)))
    crops = set(span_of(dated(seen), period).rows["crop"]) - {"", *lost["crop"]}
    return (f"seen on {listed([crop_said(crop) for crop in sorted(crops)])} too",) if crops else ()


def _subject_named(asked: Asked) -> bool:
    return any(_is_subject(part) for part in asked.left if part.kind == "thing")


def _is_subject(part: Part) -> bool:
    return any(sense.kind == "subject" for sense in part.senses)


def _lost(crop: str, count: float | None) -> str:
    return f"{figure(count)} {crop_said(crop)}" if count else crop_said(crop)


def _one(crops: list[str]) -> bool:
    return len(crops) == 1 and crops[0].startswith("1 ")
