"""What killed a crop: the reasons that its losses were written with."""

from journal.questions.acting import act_events
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import dated, event_rows, evidence_of, record_words
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, counted, listed
from journal.questions.spans import span_of, take_period
from journal.questions.topic import take_topic

_KILLS = ("patrol", "use", "lose", "fail")


def answer_killer(asked: Asked) -> Answer:
    """`what killed the cabbages`, `what ate the lettuces`: by what the losses were put down to."""
    asked.need("head", "what", "which")
    if asked.has("self") or asked.has("person") or asked.has("aux"):
        raise NotThisKindError
    killed = asked.need("act", *_KILLS)
    if asked.has("act") or any(p.kind == "thing" and p.start < killed.start for p in asked.left):
        raise NotThisKindError
    topic = take_topic(asked)
    period = take_period(asked)
    asked.done()
    if not topic.crops:
        raise NotThisKindError
    span = span_of(dated(act_events(asked, ACTS["lose"], topic)), period)
    rows = span.rows[span.rows["subject"] != ""]
    if rows.empty:
        told = f"{counted(len(span.rows), 'loss', 'losses')} of {topic.what}{span.said} with no "
        if len(span.rows):
            return nothing(f"The diary has {told}reason.", span.doubts)
        return nothing(
            f"Nothing is written of {topic.what} being lost{span.said}; "
            f"{record_words(asked.diary)}.",
            span.doubts,
        )
    reasons = list(dict.fromkeys(rows["subject"]))
    return Answer(
        True,
        capital(f"{topic.what} were lost to {listed(reasons)}{span.said}."),
        rows=event_rows(rows),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )
