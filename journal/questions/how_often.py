"""How often something was done: how many times, on how many days, and how far apart."""

from journal.questions.acting import act_events, settled_act, take_act
from journal.questions.asked import Asked
from journal.questions.evidence import dated, event_rows, evidence_of, record_words
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, counted, listed, times
from journal.questions.spans import span_of, take_period
from journal.questions.topic import take_topic
from journal.studies.rankings import occasions

_DEALINGS = ("give", "sell", "swap", "buy")


def answer_how_often(asked: Asked) -> Answer:
    """`how many times did I pick beans`, `how often were the tomatoes fed in 2025`."""
    by_days = asked.take("head", "on_how_many_days") is not None
    if not by_days:
        asked.need("head", "how_often")
    asked.pass_over("did", "was", "have", "get")
    asked.take("state", "together", "ever")
    act = take_act(asked)
    topic = take_topic(asked, act.name, people=act.name in _DEALINGS)
    period = take_period(asked)
    asked.done()
    act = settled_act(act, topic)
    span = span_of(dated(act_events(asked, act, topic)), period)
    rows = span.rows
    what = topic.what if topic.said else listed([place.said for place in topic.places])
    if rows.empty:
        return nothing(
            f"Nothing is written of {what or 'anything'} being {act.past}{span.said}; "
            f"{record_words(asked.diary)}.",
            span.doubts,
        )
    count = occasions(rows)
    days = int(rows["date"].nunique())
    party = f" {'from' if act.name == 'buy' else 'to'} {topic.parties[0]}" if topic.parties else ""
    said = f"{what} {'was' if topic.singular or not topic.said else 'were'} {act.past}{party}"
    if topic.is_empty:
        said = f"there was {act.noun}"
    on_days = "" if days == count or by_days else f", on {counted(days, 'day')}"
    return Answer(
        True,
        capital(f"{said} {_often(count, days, by_days)}{span.said}{on_days}."),
        value=days if by_days else count,
        unit="days" if by_days else None,
        rows=event_rows(rows),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )


def _often(count: int, days: int, by_days: bool) -> str:
    return f"on {counted(days, 'day')}" if by_days else times(count)
