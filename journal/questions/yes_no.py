"""Whether something was done: `did I feed the leeks last week`, and when."""

from dataclasses import replace

from journal.questions.acting import act_events, past, settled_act, take_act
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import dated, event_rows, evidence_of, last_days, record_words
from journal.questions.model import Answer, nothing
from journal.questions.periods import year_period
from journal.questions.saying import listed, when
from journal.questions.spans import span_of, take_period
from journal.questions.topic import take_topic

_DEALINGS = ("give", "sell", "swap", "buy")


def answer_yes_no(asked: Asked) -> Answer:
    """`did I feed the leeks last week`, `have I sown the carrots yet`."""
    if not asked.parts or asked.parts[0].kind != "aux" or asked.parts[0].name not in _OPEN:
        raise NotThisKindError
    asked.pass_over("did", "was", "have")
    yet = asked.take("state", "yet")
    asked.take("state", "ever")
    act = take_act(asked)
    topic = take_topic(asked, act.name, people=act.name in _DEALINGS)
    period = take_period(asked)
    asked.done()
    if topic.is_empty:
        raise NotThisKindError
    act = settled_act(act, topic)
    if yet and period is None:
        # `yet` asks of the season that is running
        period = year_period(asked.clock.today.year, asked.clock.today)
    span = span_of(dated(act_events(asked, act, topic)), period)
    what = topic.what if topic.said else listed([place.said for place in topic.places])
    party = f" to {listed(topic.parties)}" if topic.parties else ""
    if span.rows.empty:
        answer = nothing(
            f"Nothing is written of {what} being {act.past}{party}{span.said}; "
            f"{record_words(asked.diary)}.",
            (*topic.notes, *span.doubts),
        )
        return replace(answer, value=False)
    first, last = last_days(span.rows)
    hit = span.rows[(span.rows["date_end"] >= span.rows["date"].max())]
    be = "was" if topic.singular or not topic.said else "were"
    order = "last " if len(span.rows) > len(hit) else ""
    return Answer(
        True,
        f"Yes, {what} {be} {order}{past(act, hit)}{party} {when(first, last, asked.clock.today)}.",
        value=True,
        date=first,
        date_end=last,
        rows=event_rows(span.rows),
        evidence=evidence_of(asked.diary, hit),
        caveats=(*topic.notes, *span.doubts),
    )


_OPEN = ("did", "was", "have")
