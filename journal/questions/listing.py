"""What was sown, picked, lost, given: the crops and goods of one act."""

import pandas as pd

from journal.questions.acting import act_events, past, settled_act, take_act
from journal.questions.acts import ACTS, Act
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import (
    dated,
    event_rows,
    evidence_of,
    record_words,
)
from journal.questions.model import Answer, nothing
from journal.questions.raised import raised_then
from journal.questions.saying import (
    capital,
    counted,
    crop_said,
    figure,
    is_one,
    kilograms,
    listed,
    placed,
)
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.tallies import tally

_DEALINGS = ("give", "sell", "swap", "buy")
_OF_TASKS = ("build", "mend", "paint", "burn")
_WITH = ("feed", "mulch", "cover", "treat", "spray", "spread", "net", "dig_in")
_NOUNS = ("crops", "varieties", "plants", "seeds", "entries")
# acts whose things are not crops
_OF_SUBJECTS = ("see", "patrol")


def answer_list(asked: Asked) -> Answer:
    """`what did I sow in March`, `what did I lose to slugs`, `which crops did I pick last week`."""
    asked.need("head", "what", "which")
    asked.take("noun", *_NOUNS)
    asked.pass_over("did", "was", "have")
    asked.take("state", "ever")
    if asked.has("aux", "grow"):
        raise NotThisKindError
    act = take_act(asked)
    with_what = asked.take("preposition", "with") is not None and act.name in _WITH
    topic = take_topic(asked, act.name, people=act.name in _DEALINGS)
    period = take_period(asked)
    asked.done()
    if act.name == "happen":
        raise NotThisKindError
    if act.name == "use" and topic.things and {t.kind for t in topic.things} == {"subject"}:
        # `what did I use on the slugs`
        act, with_what = ACTS["treat"], True
    act = settled_act(act, topic)
    span = span_of(dated(act_events(asked, act, topic, whole=True)), period)
    if span.rows.empty:
        return _nothing(asked, act, topic, span)
    if with_what:
        return _with_what(asked, act, topic, span)
    return _list(asked, act, topic, span)


def _with_what(asked: Asked, act: Act, topic: Topic, span: Span) -> Answer:
    """`what did I feed the tomatoes with`: the goods, or the covers."""
    goods = [*span.rows["material"], *span.rows["cover"]]
    items = list(dict.fromkeys(filter(None, goods)))
    what = topic.what if topic.said else listed([place.said for place in topic.places])
    if not items:
        return nothing(
            f"The diary does not say what {what or 'it'} was {act.past} with{span.said}."
        )
    one = topic.singular if topic.said else len(topic.places) < 2
    done = f"{what} {'was' if one else 'were'} {act.past}" if what else f"you {act.did}"
    return Answer(
        True,
        capital(f"{done} with {listed(items)}{span.said}."),
        rows=event_rows(
            span.rows, ("date", "date_end", "verb", "crop", "place", "material", "cover")
        ),
        evidence=evidence_of(asked.diary, span.rows),
        caveats=(*topic.notes, *span.doubts),
    )


def _nothing(asked: Asked, act: Act, topic: Topic, span: Span) -> Answer:
    party = f" {_party(act)} {listed(topic.parties)}" if topic.parties else ""
    done = f"{topic.being(act.name, act.past, act.noun)}{party}"
    return nothing(
        f"Nothing is written of {done}{span.said}; {record_words(asked.diary)}.",
        (*raised_then(asked, act, topic, span.period), *topic.notes, *span.doubts),
    )


def _party(act: Act) -> str:
    return {"buy": "from", "swap": "with"}.get(act.name, "to")


def _list(asked: Asked, act: Act, topic: Topic, span: Span) -> Answer:
    rows = span.rows
    party = f" {_party(act)} {listed(topic.parties)}" if topic.parties else ""
    subjects = [thing.said for thing in topic.things if thing.kind == "subject"]
    reason = f" to {listed(subjects)}" if subjects and act.name == "lose" else ""
    there = f" {topic.there}" if topic.there else ""
    items = _items(act, rows)
    if act.name in ("up", "bolt", "fail"):
        return Answer(
            True,
            f"{capital(listed(items))} {act.did}{there}{span.said}.",
            rows=event_rows(rows),
            evidence=evidence_of(asked.diary, rows),
            caveats=(*topic.notes, *span.doubts),
        )
    done = past(act, rows)
    # `put in Bunker 1`, but `given away to Odette in 2025`
    done = f"{done}{party}{reason}{there}" if party or reason else placed(done, there.strip())
    were = "was" if len(items) == 1 and _is_one(act, items[0], rows) else "were"
    return Answer(
        True,
        f"{capital(listed(items))} {were} {done}{span.said}.",
        rows=event_rows(rows),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )


def _is_one(act: Act, item: str, rows: pd.DataFrame) -> bool:
    crops = set() if act.name in (*_OF_SUBJECTS, *_OF_TASKS) else set(rows["crop"]) - {""}
    return all(is_one(crop) for crop in crops) if crops else not item.endswith("s")


def _items(act: Act, rows: pd.DataFrame) -> list[str]:
    """Crops with their cultivars, then goods, jobs and sightings, in the order of the diary."""
    found = []
    if act.name in _OF_SUBJECTS:
        found += list(dict.fromkeys(filter(None, rows["subject"])))
        rows = rows[rows["subject"] == ""]
    if act.name in _OF_TASKS:
        found += list(dict.fromkeys(filter(None, rows["task"])))
        rows = rows[rows["task"] == ""]
    for crop in dict.fromkeys(filter(None, rows["crop"])):
        found.append(_crop_item(crop, rows[rows["crop"] == crop]))
    nameless = rows[rows["crop"] == ""]
    for column in ("material", "task"):
        found += list(dict.fromkeys(filter(None, nameless[column])))
        nameless = nameless[nameless[column] == ""]
    found += list(dict.fromkeys(filter(None, nameless["place"])))
    return found or [counted(len(rows), "entry", "entries")]


def _crop_item(crop: str, rows: pd.DataFrame) -> str:
    names = [f"'{name}'" for name in dict.fromkeys(rows["cultivar"]) if name]
    kg, count = tally(rows, "mass_kg"), tally(rows, "count")
    amount = ""
    if kg.total is not None and not kg.missing:
        amount = kilograms(kg.total)
    elif count.total is not None and not count.missing and kg.total is None:
        amount = figure(count.total)
    details = " ".join(filter(None, [amount, listed(names)]))
    return f"{crop_said(crop)} ({details})" if details else crop_said(crop)
