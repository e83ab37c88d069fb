"""What was done on a day, in a stretch of days, in a place or to a crop: everything written."""

import pandas as pd

from journal.questions.acting import done_events
from journal.questions.acts import DID
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import (
    dated,
    evidence_of,
    perhaps_in,
    record_words,
    surely_in,
    table_rows,
)
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, counted, crop_said, listed
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic

_MOST_VERBS, _MOST_THINGS = 12, 6
_COLUMNS = ("date", "date_end", "verb", "crop", "cultivar", "place", "amount_text")


def answer_days(asked: Asked) -> Answer:
    """`what did I do on 14 July last year`, `what happened in Platform 1 in May`."""
    if not asked.take("head", "what") and asked.parts[0].name != "happen":
        raise NotThisKindError
    main = asked.has("aux", "did", "was") and asked.take("aux", "do")
    if not main and not asked.take("aux", "done"):
        asked.need("act", "happen")
    asked.pass_over("did", "have", "was")
    asked.take("noun", "jobs", "entries")
    asked.take("preposition", "with", "to", "for", "on")
    topic = take_topic(asked)
    period = take_period(asked)
    asked.done()
    if period is None and topic.is_empty:
        raise NotThisKindError
    span = span_of(dated(topic.rows(done_events(asked.diary), whole=True)), period)
    prose = asked.diary.prose if topic.is_empty else asked.diary.prose.iloc[0:0]
    written = surely_in(prose, span.period)
    if span.rows.empty and written.empty:
        what = f" of {topic.what}" if topic.what else ""
        doubts = _doubts(asked, span)
        return nothing(f"Nothing is written{what}{span.said}; {record_words(asked.diary)}.", doubts)
    lines = pd.concat([span.rows, written]).sort_values(["date", "file", "line"], kind="stable")
    return Answer(
        True,
        _sentence(topic, span),
        rows=table_rows(span.rows[list(_COLUMNS)]),
        evidence=evidence_of(asked.diary, lines),
        caveats=(*topic.notes, *_doubts(asked, span)),
    )


def _doubts(asked: Asked, span: Span) -> tuple[str, ...]:
    return span.doubts if len(perhaps_in(span.doubtful, span.period)) else ()


def _sentence(topic: Topic, span: Span) -> str:
    head = capital(" ".join(filter(None, [topic.what, span.said.strip()])))
    if span.rows.empty:
        return f"{head} only words are written."
    rows = span.rows.sort_values(["date", "event"])
    done = tell(rows)
    more = len(done) - _MOST_VERBS
    said = "; ".join(done[:_MOST_VERBS])
    entries = counted(rows[["file", "line"]].drop_duplicates().shape[0], "entry", "entries")
    if more > 0:
        return f"{head} ({entries}): {said}; and {more} kinds of work more."
    return f"{head}: {said}."


def tell(rows: pd.DataFrame) -> list[str]:
    """What events did, verb by verb in their order: `watered tomatoes and courgettes`."""
    found = []
    for verb in dict.fromkeys(rows["verb"]):
        own = rows[rows["verb"] == verb]
        things = list(dict.fromkeys(_thing(row) for row in own.to_dict("records")))
        found.append(_clause(verb, listed(things, most=_MOST_THINGS)))
    return found


def _clause(verb: str, things: str) -> str:
    if verb in ("up", "bolt", "fail"):
        return f"{things} {DID.get(verb, verb)}"
    return f"{DID.get(verb, verb)} {things}".strip()


def _thing(row: "dict[str, str] | dict[object, object]") -> str:
    """What an event was done to, in a few words."""
    cells: dict[str, str] = {str(name): str(cell) for name, cell in row.items()}
    if cells["verb"] == "job":
        return cells["task"]
    if cells["verb"] == "see" and cells["subject"]:
        crop = f" on {crop_said(cells['crop'])}" if cells["crop"] else ""
        return cells["subject"] + crop
    if cells["crop"]:
        return crop_said(cells["crop"])
    named = [cells[name] for name in ("material", "task", "subject", "place") if cells[name]]
    return named[0] if named else "something"
