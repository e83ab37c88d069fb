"""Who helped with what: the work that names a person beside the keeper."""

from journal.questions.acting import act_events, done_events, take_act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.days import tell
from journal.questions.evidence import (
    dated,
    day,
    event_rows,
    evidence_of,
    record_words,
)
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.saying import ago, capital, listed, times
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic

# what is done to or from a person, not with one
_DEALINGS = ("give", "sell", "swap", "buy", "pay")


def answer_helped(asked: Asked) -> Answer:
    """`what did Tam help me with in 2025`, `when did Tam last help`, `who helped with it`."""
    asked.need("act", "help")
    head = asked.take("head", "what", "when", "how_often", "who")
    if head is None:
        raise NotThisKindError
    most = asked.take("superlative", "most", "least") if head.name == "who" else None
    order = asked.take("order", "first", "last")
    asked.pass_over("did", "was", "have", "do", "been", "is")
    asked.take("noun", "times")
    asked.take_all("self", "me")
    asked.take("aux", "was")
    asked.take_all("preposition", "with", "on", "to", "in")
    asked.take("noun", "jobs")
    topic = take_topic(asked, people=True)
    period = take_period(asked)
    asked.done()
    if head.name != "who" and not topic.parties:
        raise RefusedError("say who helped")
    events = dated(done_events(asked.diary))
    events = events[(events["party"] != "") & ~events["verb"].isin(_DEALINGS)]
    span = span_of(topic.rows(events), period)
    rows = span.rows.sort_values(["date", "event"])
    who = listed(topic.parties) or "anyone"
    if rows.empty:
        of = f" with {topic.what}" if topic.what else ""
        return nothing(
            f"Nothing is written of {who} helping{of}{span.said}; {record_words(asked.diary)}."
        )
    if most is not None:
        return _most(asked, topic, span, least=most.name == "least")
    if head.name == "when":
        rows = rows.iloc[:1] if order is not None and order.name == "first" else rows.iloc[-1:]
    count = int(rows[["file", "line"]].drop_duplicates().shape[0])
    done = "; ".join(tell(rows))
    stamp = day(rows["date"].iloc[0])
    sentence = {
        "when": f"{who} {'first' if order and order.name == 'first' else 'last'} helped on "
        f"{day_words(stamp, weekday=True)}, {ago(stamp, asked.clock.today)}: {done}",
        "how_often": f"{who} helped {times(count)}{span.said}: {done}",
        "who": f"{listed(sorted(set(rows['party'])))} helped{span.said}: {done}",
    }.get(head.name, f"{who} helped{span.said} when you {done}")
    exact = head.name == "when" and rows["date"].iloc[0] == rows["date_end"].iloc[0]
    return Answer(
        True,
        capital(f"{sentence}."),
        value=count if head.name == "how_often" else None,
        date=stamp if exact else None,
        date_end=stamp if exact else None,
        rows=event_rows(rows, (*_COLUMNS, "party")),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )


def _most(asked: Asked, topic: Topic, span: Span, *, least: bool) -> Answer:
    """Who is written beside the work most often, and for how many minutes of it."""
    lines = span.rows[["party", "file", "line"]].drop_duplicates()
    often = lines["party"].value_counts(ascending=least, sort=True)
    ties = [str(name) for name in often.index[often == often.iloc[0]]]
    others = [f"{name}, {times(count)}" for name, count in often.items() if name not in ties]
    after = f"; next {others[0]}" if others else ""
    what = f" with {topic.what}" if topic.what else ""
    return Answer(
        True,
        f"{listed(ties)} helped {'least' if least else 'most'} often{what}{span.said}: "
        f"{times(int(often.iloc[0]))}{after}.",
        value=int(often.iloc[0]),
        rows=tuple({"party": str(name), "times": int(count)} for name, count in often.items()),
        evidence=evidence_of(asked.diary, span.rows[span.rows["party"].isin(ties)]),
        caveats=(*topic.notes, *span.doubts),
    )


def answer_given_to(asked: Asked) -> Answer:
    """`who did I give courgettes to`, `to whom did I sell leeks`: the people of such entries."""
    asked.need("head", "who")
    asked.pass_over("did", "was", "have")
    asked.take_all("preposition", "to", "from", "with")
    act = take_act(asked)
    if act.name not in ("give", "sell", "swap", "buy"):
        raise NotThisKindError
    topic = take_topic(asked, act.name)
    period = take_period(asked)
    asked.done()
    span = span_of(dated(act_events(asked, act, topic)), period)
    rows = span.rows[span.rows["party"] != ""]
    if rows.empty:
        return nothing(
            f"Nobody is written with {topic.being(act.name, act.past, act.noun)}{span.said}; "
            f"{record_words(asked.diary)}."
        )
    to = {"buy": "from", "swap": "with"}.get(act.name, "to")
    people = listed(list(dict.fromkeys(rows["party"])))
    one = topic.singular or not topic.said
    return Answer(
        True,
        capital(
            f"{topic.what or 'something'} {'was' if one else 'were'} {act.past} {to} "
            f"{people}{span.said}."
        ),
        value=None,
        rows=event_rows(rows, (*_COLUMNS, "party")),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )


_COLUMNS = ("date", "date_end", "verb", "crop", "cultivar", "task", "material", "place")
