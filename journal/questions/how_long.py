"""How long work took: person-minutes on a job, a place or a crop in a period."""

from itertools import pairwise

import pandas as pd

from journal.questions.acting import done_events, settled_act
from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.parts import Part
from journal.questions.saying import capital, counted, duration, figure, listed
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.tallies import tally, tally_by


def answer_how_long(asked: Asked) -> Answer:
    """`how long did weeding take last year`, `how many hours on North 1 in 2025`."""
    unit = _take_head(asked)
    spent = asked.has("aux", "spend")
    asked.pass_over("did", "take", "spend", "have", "was")
    unit = unit or _said_in(asked)
    if asked.has("preposition", "on"):
        # `how much time went on weeding`
        asked.take("act", "go")
    went = _went_in(asked, unit)
    asked.take("state", "together")
    jobs = asked.take("noun", "jobs") or went
    if unit and (asked.take("act", "go_in") or _put_in(asked)):
        # `how many hours have I put in`: the work itself
        jobs = jobs or asked.parts[0]
    act = _take_act(asked)
    stood = asked.parts[0].name == "how_long" and any(p.name == "was" for p in asked.parts)
    if act is None and not (jobs or spent or unit) and stood:
        # `how long was the fleece on` is no work
        raise NotThisKindError
    asked.take("preposition", "on", "to", "for")
    # `how much time did I spend with Tam`; how long Tam was at it is not told
    together = all(part.name == "with" for part in asked.left if part.kind == "person")
    topic = take_topic(asked, act.name if act else "", people=together)
    if act is None and topic.is_empty and not jobs and not (spent and asked.has("period")):
        raise NotThisKindError
    period = take_period(asked)
    asked.done()
    act = settled_act(act, topic) if act else None
    events = done_events(asked.diary)
    events = topic.rows(act.rows(events) if act else events)
    span = span_of(events[events["minutes"].notna()], period)
    if span.rows.empty:
        if act is not None and act.name == "harvest" and topic.crops:
            raise RefusedError("no time is written of picking it; ask when it was first picked")
        what = _what(act, topic)
        return nothing(f"No time is written for {what}{span.said}; {record_words(asked.diary)}.")
    return _answer(asked, act, topic, span, events, unit)


def _take_head(asked: Asked) -> str:
    """The unit that the time is wanted in, or ""; NotThisKindError where no time is asked for."""
    if asked.take("head", "how_long"):
        return ""
    if asked.has("noun", "jobs") and asked.take("head", "how_much"):
        return ""
    if not asked.has("head") and asked.has("noun", "times"):
        asked.take("kind", "weight")
        asked.take("noun", "times")
        return ""
    head = asked.take("head", "how_many", "how_much", "what")
    if head is None and not asked.has("unit", "hour", "minute"):
        raise NotThisKindError
    return asked.need("unit", "hour", "minute").name


def _said_in(asked: Asked) -> str:
    """The unit of `in hours` after all else, or ""."""
    for one, other in pairwise(asked.left):
        if (one.kind, one.name) == ("preposition", "in") and other.kind == "unit":
            if other.name not in ("hour", "minute"):
                return ""
            asked.used |= {asked.parts.index(one), asked.parts.index(other)}
            return other.name
    return ""


def _went_in(asked: Asked, unit: str) -> Part | None:
    """The head of `how much time went into North 1`, where what went in is the time itself."""
    head = asked.parts[0]
    if not unit and "time" not in asked.words(head).lower():
        return None
    if asked.take("act", "go") is None:
        return None
    if asked.has("act"):
        # `how much time went into weeding`
        asked.take("preposition", "in")
    return head


def _put_in(asked: Asked) -> bool:
    return asked.take("act", "put") is not None and asked.take("preposition", "in") is not None


def _take_act(asked: Asked) -> Act | None:
    part = asked.take("act")
    if part is None:
        return None
    if asked.has("act"):
        raise NotThisKindError
    return ACTS[SAME_ACT.get(part.name, part.name)]


def _what(act: Act | None, topic: Topic) -> str:
    if act is None and topic.parties:
        return f"work with {listed(topic.parties)}"
    if act is None:
        return (
            f"work on {topic.said or listed([place.said for place in topic.places])}"
            if topic.what
            else "work"
        )
    party = f"with {listed(topic.parties)}" if topic.parties else ""
    return " ".join(filter(None, [act.noun, topic.said, topic.there, party]))


def _answer(
    asked: Asked, act: Act | None, topic: Topic, span: Span, events: pd.DataFrame, unit: str
) -> Answer:
    total = tally(span.rows, "minutes").total or 0.0
    said = duration(total)
    if unit == "hour" and round(total) % 60:
        said = f"{figure(total / 60, 1)} hours ({said})"
    return Answer(
        True,
        capital(f"{_what(act, topic)} took {said}{span.said}."),
        value=round(total / 60, 6) if unit == "hour" else round(total, 6),
        unit="h" if unit == "hour" else "min",
        rows=table_rows(tally_by(span.rows, "minutes", ["verb", "place", "crop"])),
        evidence=evidence_of(asked.diary, span.rows),
        caveats=(*_together(topic), *_untimed(events, span), *topic.notes, *span.doubts),
    )


def _together(topic: Topic) -> tuple[str, ...]:
    return ("the time of everybody at it is counted together",) if topic.parties else ()


def _untimed(events: pd.DataFrame, span: Span) -> tuple[str, ...]:
    jobs = events[events["kind"].eq("job") & events["minutes"].isna()]
    count = len(span_of(jobs, span.period).rows)
    if not count:
        return ()
    verb = "was" if count == 1 else "were"
    return (f"{counted(count, 'more job')} {verb} not timed, so it was at least that",)
