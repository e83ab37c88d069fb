"""When something was done: the first or last time, or how long ago."""

from datetime import date

import pandas as pd

from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, NotThisKind, one_period
from journal.questions.evidence import (
    dated,
    event_rows,
    evidence_of,
    first_days,
    last_days,
    record_words,
    surely_in,
)
from journal.questions.going_in import going_in
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period
from journal.questions.saying import capital, listed, when
from journal.questions.topic import Topic, take_topic

_GLASS = ("frame", "house")
_PUT_THERE = ("fit", "replace", "spread", "mulch", "dig in", "lime", "fill")


def take_act(asked: Asked) -> Act:
    """The one act of the question, its particle with it; NotThisKind without, Refused for two."""
    part = asked.take("act")
    if part is None and asked.take("aux", "get"):
        # `when did we get the first beans`
        return ACTS["harvest"]
    if part is None:
        raise NotThisKind
    if part.name in ("put", "go"):
        asked.take("preposition", "in")
    if asked.has("act"):
        raise NotThisKind
    return ACTS[SAME_ACT.get(part.name, part.name)]


def act_events(asked: Asked, act: Act, topic: Topic) -> pd.DataFrame:
    """The events of an act on its topic, whenever they were."""
    events = asked.diary.events
    if act.name != "go_in":
        return topic.rows(act.rows(events))
    if any(thing.kind == "material" for thing in topic.things):
        return topic.rows(events[events["verb"].isin(_PUT_THERE)])
    glass = {place.name for place in asked.diary.sheet.places if place.kind in _GLASS}
    return topic.rows(going_in(events, asked.names.reference, glass))


def answer_when(asked: Asked) -> Answer:
    """`when did potatoes go in last year`, `when did I last feed the leeks`."""
    since = _take_head(asked)
    asked.pass_over("did", "was", "have")
    order = asked.take("order", "first", "last")
    act = take_act(asked)
    topic = take_topic(asked, act.name)
    period = one_period(asked)
    asked.done()
    events = act_events(asked, act, topic)
    rows, period = _in_period(dated(events), period)
    if rows.empty:
        return _nothing(asked, act, topic, events, period)
    return _answer(asked, act, topic, rows, period, order.name if order else "", since)


def _take_head(asked: Asked) -> bool:
    """Whether it is asked how long ago; `first picking of beans` needs no head at all."""
    if asked.take("head", "how_long_ago"):
        return True
    if asked.take("head", "when"):
        asked.take("noun", "times")
        return False
    if asked.has("head") or not asked.has("order", "first", "last"):
        raise NotThisKind
    return False


def _in_period(events: pd.DataFrame, period: Period | None) -> tuple[pd.DataFrame, Period | None]:
    """The events of a period; of the one before where an open, yearless one has none yet."""
    rows = surely_in(events, period)
    if rows.empty and period is not None and period.before is not None:
        earlier = surely_in(events, period.before)
        if not earlier.empty:
            return earlier, period.before
    return rows, period


def _answer(
    asked: Asked,
    act: Act,
    topic: Topic,
    rows: pd.DataFrame,
    period: Period | None,
    order: str,
    since: bool,
) -> Answer:
    chosen = rows
    if period is None and not order and not since:
        chosen = rows[rows["date"].dt.year == rows["date"].dt.year.max()]
    latest = order == "last" or (since and order != "first")
    first, last = last_days(chosen) if latest else first_days(chosen)
    hit = _on(chosen, first, last)
    caveats = _caveats(asked, topic, rows, period)
    sentence = _sentence(
        act, topic, hit, (first, last), asked.clock.today, latest, len(chosen) > len(hit)
    )
    value: float | None = None
    unit = None
    if since and first == last:
        value, unit = (asked.clock.today - first).days, "days"
    return Answer(
        True,
        sentence,
        value=value,
        unit=unit,
        date=first,
        date_end=last,
        rows=event_rows(chosen.sort_values(["date", "event"])),
        evidence=evidence_of(asked.diary, hit),
        caveats=caveats,
    )


def _on(events: pd.DataFrame, first: date, last: date) -> pd.DataFrame:
    """The events that may be the one meant."""
    near = (events["date"] <= pd.Timestamp(last)) & (events["date_end"] >= pd.Timestamp(first))
    kept: pd.DataFrame = events[near]
    return kept


def _sentence(
    act: Act,
    topic: Topic,
    hit: pd.DataFrame,
    days: tuple[date, date],
    today: date,
    latest: bool,
    others: bool,
) -> str:
    subject = topic.said or topic.there.partition(" ")[2] or "the crops"
    place = f" {topic.there}" if topic.said and topic.there else ""
    singular = topic.singular or not topic.said
    was = "was" if singular else "were"
    word = "last" if latest else "first" if others else ""
    details = _details(act, topic, hit)
    said = " ".join(filter(None, [was, word, past(act, hit)]))
    return capital(f"{subject}{place} {said} {when(*days, today)}{details}.")


def past(act: Act, hit: pd.DataFrame) -> str:
    """How the act is said of these events: what went in was sown or planted."""
    if act.name not in ("go_in", "harvest"):
        return act.past
    verbs = list(dict.fromkeys(hit["verb"]))
    return listed([_PAST.get(verb, verb) for verb in verbs])


_PAST = {
    "sow": "sown", "plant": "planted", "plant out": "planted out", "heel in": "heeled in",
    "pick": "picked", "cut": "cut", "lift": "lifted", "pull": "pulled", "dig up": "dug up",
    "harvest": "harvested", "gather": "gathered", "fit": "fitted", "replace": "replaced",
    "spread": "spread", "mulch": "mulched", "dig in": "dug in", "lime": "limed", "fill": "filled",
}  # fmt: skip


def _details(act: Act, topic: Topic, hit: pd.DataFrame) -> str:
    """What the question left open: cultivars and places of the events that answer it."""
    words = []
    if not any(thing.cultivar for thing in topic.things):
        names = list(dict.fromkeys(name for name in hit["cultivar"] if name))
        words.append(listed([f"'{name}'" for name in names], most=5))
    if not topic.places:
        spots = list(dict.fromkeys(name for name in hit["place"] if name))
        word = "from" if act.name == "harvest" else "in"
        words.append(f"{word} {listed(spots, most=4)}" if spots else "")
    said = ", ".join(filter(None, words))
    return f": {said}" if said else ""


def _caveats(
    asked: Asked, topic: Topic, rows: pd.DataFrame, period: Period | None
) -> tuple[str, ...]:
    return ()


def _nothing(
    asked: Asked, act: Act, topic: Topic, events: pd.DataFrame, period: Period | None
) -> Answer:
    what = " ".join(filter(None, [topic.said or "anything", topic.there]))
    said = f" {period.said}" if period else ""
    return nothing(
        f"Nothing is written of {what} being {act.past}{said}; {record_words(asked.diary)}."
    )
