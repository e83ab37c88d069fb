"""Whether something was done: `did I feed the leeks last week`, and when."""

import re
from dataclasses import replace

from journal.questions.acting import act_events, past, settled_act, take_act
from journal.questions.acts import ACTS, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import dated, event_rows, evidence_of, last_days, record_words
from journal.questions.model import Answer, nothing
from journal.questions.periods import year_period
from journal.questions.raised import raised_then
from journal.questions.saying import listed, when
from journal.questions.spans import span_of, take_period
from journal.questions.topic import take_topic
from journal.questions.when import is_ailing

_DEALINGS = ("give", "sell", "swap", "buy")


def answer_yes_no(asked: Asked) -> Answer:
    """`did I feed the leeks last week`, `have I sown the carrots yet`."""
    if not asked.parts or asked.parts[0].kind != "aux" or asked.parts[0].name not in _OPEN:
        raise NotThisKindError
    if re.search(r"\ball\b", asked.text, re.IGNORECASE):
        raise RefusedError("whether it was all of them is not told; ask how many")
    asked.pass_over("did", "was", "have", "is" if asked.has("particle", "up") else "did")
    yet = asked.take("state", "yet") or asked.take("order", "first")
    asked.take("state", "ever")
    ails = is_ailing(asked)
    act = ACTS["ail"] if ails else _act(asked)
    if ails:
        asked.take("aux", "get", "have")
        asked.take("act", "patrol")
    if act.name == "up" and asked.parts[0].name != "did":
        yet = yet or asked.parts[0]
    topic = take_topic(asked, act.name, people=act.name in _DEALINGS)
    period = take_period(asked)
    asked.done()
    if topic.is_empty:
        raise NotThisKindError
    # `have I sown the leeks` asks of this season, `have I ever` of all
    opening = asked.words(asked.parts[0]).lower()
    perfect = opening in ("have", "has") and " ever " not in f" {asked.text.lower()} "
    yet = yet or (asked.parts[0] if perfect and act.name in _OF_A_SEASON else None)
    act = settled_act(act, topic)
    if yet and period is None:
        # `yet` asks of the season that is running
        period = year_period(asked.clock.today.year, asked.clock.today)
    span = span_of(dated(act_events(asked, act, topic)), period)
    what = topic.what if topic.said else listed([place.said for place in topic.places])
    party = f" to {listed(topic.parties)}" if topic.parties else ""
    if span.rows.empty:
        begun = raised_then(asked, act, topic, span.period)
        answer = nothing(
            f"Nothing is written of {topic.being(act.name, act.past, act.noun)}{party}"
            f"{span.said}; {record_words(asked.diary)}.",
            (*begun, *topic.notes, *span.doubts),
        )
        # what was planted in modules is no plain no
        return replace(answer, value=None if begun else False)
    first, last = last_days(span.rows)
    hit = span.rows[(span.rows["date_end"] >= span.rows["date"].max())]
    be = "was" if topic.singular or not topic.said else "were"
    if act.name in ("up", "bolt", "fail"):
        be, done = "", act.did
    elif ails:
        done = act.past
    else:
        done = past(act, hit)
    order = "last " if len(span.rows) > len(hit) else ""
    return Answer(
        True,
        " ".join(
            f"Yes, {what} {be} {order}{done}{party} {when(first, last, asked.clock.today)}.".split()
        ),
        value=True,
        date=first,
        date_end=last,
        rows=event_rows(span.rows),
        evidence=evidence_of(asked.diary, hit),
        caveats=(*topic.notes, *span.doubts),
    )


def _act(asked: Asked) -> Act:
    """The act, or what a question without one is about: coming up, picking or seeing."""
    if asked.has("act") or not asked.has("thing"):
        return take_act(asked)
    if asked.take("particle", "up"):
        # `are the leeks up yet`
        return ACTS["up"]
    if _of_sightings(asked):
        asked.take("aux", "get")
        return ACTS["see"]
    if sum(part.kind == "aux" and part.name == "have" for part in asked.parts) > 1:
        # `have we had any strawberries yet`
        return ACTS["harvest"]
    return take_act(asked)


def _of_sightings(asked: Asked) -> bool:
    """`did we have blight in 2024`: whether all that is named is seen, not grown."""
    things = [part for part in asked.left if part.kind == "thing"]
    return bool(things) and all(
        any(sense.kind == "subject" for sense in part.senses)
        and not any(sense.kind in ("crop", "cultivar", "group") for sense in part.senses)
        for part in things
    )


_OF_A_SEASON = ("sow", "go_in", "plant_out", "harvest", "up", "prick_out", "pot_on", "earth_up")
_OPEN = ("did", "was", "have", "is")
