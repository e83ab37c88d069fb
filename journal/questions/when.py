"""When something was done: the first or last time, or how long ago."""

import re
from dataclasses import dataclass
from datetime import date

import pandas as pd

from journal.questions.acting import act_events, done_events, past, settled_act, take_act
from journal.questions.acts import ACTS, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import (
    dated,
    day,
    event_rows,
    evidence_of,
    first_days,
    last_days,
    record_words,
)
from journal.questions.model import Answer, nothing
from journal.questions.parts import Part
from journal.questions.periods import Period, day_words, stretch_words
from journal.questions.raised import raised_then
from journal.questions.saying import capital, counted, crop_said, listed, when
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.seasons import season_day

_NOUNS = ("days", "weeks", "months", "years")
# work that is often written for a whole place where a crop stands
_OF_THE_PLACE = ("water", "feed", "weed", "hoe", "cover", "net", "shade")


@dataclass(frozen=True, slots=True)
class Sought:
    """What a `when` asks: which act on what, in which days, the first or the last, how long ago."""

    act: Act
    topic: Topic
    period: Period | None
    order: str
    since: bool

    @property
    def latest(self) -> bool:
        """Whether the last time is meant."""
        return self.order == "last" or (self.since and self.order != "first")


def answer_when(asked: Asked) -> Answer:
    """`when did potatoes go in last year`, `when did I last feed the leeks`."""
    every = _asks_all(asked)
    since = _take_head(asked)
    asked.pass_over("did", "was", "have", "is")
    edge = asked.take("superlative", "earliest", "latest")
    order = asked.take("order", "first", "last")
    if order is None and edge is not None:
        order = Part("order", "first" if edge.name == "earliest" else "last", 0, 0)
    asked.take("state", "ever")
    asked.take("noun", "times", "entries")
    if order is not None:
        asked.take("state", "ready")
    act = _act(asked, ordered=order is not None)
    if asked.take("state", "new"):
        # the boards that are in now are the last that went in
        order = Part("order", "last", 0, 0)
    if act.name == "buy":
        asked.take("noun", "seeds")
    topic = take_topic(asked, act.name)
    period = take_period(asked)
    asked.done()
    act = settled_act(act, topic)
    if act.name in _OF_THE_WEATHER and topic.is_empty and not _by_me(asked):
        raise RefusedError(f"say what was {act.past}, or ask about the weather")
    sought = Sought(act, topic, period, order.name if order else "", since)
    if every and order is None and edge is None:
        return _every_day(asked, sought)
    if edge is not None and (period is None or period.year is None):
        return _of_any_year(asked, sought)
    if len(topic.things) > 1 and len({thing.kind for thing in topic.things}) == 1:
        return _each(asked, sought)
    return _one(asked, sought)


# `which days were dry`, `when did it freeze`: hardly the kitchen or the beds
_OF_THE_WEATHER = ("dry", "freeze", "clear", "open", "shut")


def _by_me(asked: Asked) -> bool:
    return any(part.kind == "self" and part.name == "i" for part in asked.parts)


def _asks_all(asked: Asked) -> bool:
    """`dates I limed`, `which days did we sow lettuce`: all of them are wanted."""
    named = [part for part in asked.parts if part.kind == "noun" or part.name == "when"]
    return any(_DAYS.search(asked.words(part)) for part in named)


_DAYS = re.compile(r"\bda(?:te|y)s\b", re.IGNORECASE)
_MOST_DAYS = 12


def _every_day(asked: Asked, sought: Sought) -> Answer:
    """Every day that it was done on, or the stretch in which it was."""
    span = span_of(dated(act_events(asked, sought.act, sought.topic, whole=True)), sought.period)
    if span.rows.empty:
        return _nothing(asked, sought, span)
    rows = span.rows.sort_values(["date", "event"])
    pairs = rows[["date", "date_end"]].drop_duplicates().itertuples(index=False)
    days = [stretch_words(day(first), day(last)) for first, last in pairs]
    topic = sought.topic
    subject = topic.what if topic.said else listed([place.said for place in topic.places])
    one = topic.singular or not topic.said
    done = f"{'was' if one else 'were'} {past(sought.act, rows)}" if subject else "was done"
    times = counted(len(days), "day")
    told = listed(days, most=_MOST_DAYS)
    return Answer(
        True,
        f"{capital(subject or sought.act.noun)} {done} on {times}{span.said}: {told}.",
        value=len(days),
        unit="days",
        rows=event_rows(rows),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )


def _act(asked: Asked, *, ordered: bool) -> Act:
    """The act; of `when did we get the first beans` picking, of `first swallow` seeing it."""
    if is_ailing(asked):
        asked.take("aux", "get")
        asked.take("act", "patrol")
        return ACTS["ail"]
    if asked.has("act"):
        return take_act(asked)
    if asked.take("aux", "get"):
        in_ground = asked.take("state", "in_ground") or asked.take("preposition", "in")
        # nobody says `in last year`: the tatties were got in
        in_last = _of_in_last(asked)
        if not in_ground and _only_named(asked, "subject"):
            return ACTS["see"]
        if not in_ground and _only_named(asked, "material"):
            raise RefusedError("say whether it was fetched, bought or spread")
        return ACTS["go_in" if in_ground or in_last else "harvest"]
    if asked.take("aux", "come") or ordered:
        senses = [s.kind for part in asked.left if part.kind == "thing" for s in part.senses]
        if any(kind in ("crop", "cultivar", "group") for kind in senses):
            asked.take("preposition", "in")
            return ACTS["harvest"]
        if "subject" in senses:
            return ACTS["see"]
    return take_act(asked)


def _only_named(asked: Asked, kind: str) -> bool:
    """`when did we get blight`, `get manure`: what is named is nothing that could be picked."""
    things = [part.senses for part in asked.left if part.kind == "thing"]
    return bool(things) and all({s.kind for s in senses} == {kind} for senses in things)


def is_ailing(asked: Asked) -> bool:
    """`did the tatties get blight`, `catch blight`: a crop, then what only ails crops."""
    acts = [part.name for part in asked.parts if part.kind == "act"]
    had = any(part.kind == "aux" and part.name in ("get", "have") for part in asked.parts)
    if acts != ["patrol"] and (acts or not had):
        return False
    kinds = [{sense.kind for sense in part.senses} for part in asked.left if part.kind == "thing"]
    crops = [bool(each & {"crop", "cultivar", "group"}) for each in kinds]
    return not asked.has("self") and crops == [True, False] and kinds[1] == {"subject"}


def _of_in_last(asked: Asked) -> bool:
    words = [asked.words(part).lower() for part in asked.left if part.kind == "period"]
    return any(each.startswith(("in last ", "in this ")) for each in words)


def _take_head(asked: Asked) -> bool:
    """Whether it is asked how long ago; `first picking of beans` needs no head at all."""
    if asked.take("head", "how_long_ago"):
        return True
    if asked.take("head", "when"):
        # `what was the date of`
        asked.take("head", "what")
        return False
    if asked.has("superlative", "earliest", "latest"):
        if not asked.take("head", "what"):
            raise NotThisKindError
        return False
    if asked.has("order", "first", "last") and asked.has("noun", "entries"):
        # `what was the last thing I picked`
        asked.take("head", "what")
    if _names_days(asked) and asked.take("head", "which", "what"):
        asked.take("noun", *_NOUNS)
        asked.take("preposition", "on", "in")
        return False
    if asked.parts[0].kind == "aux" or asked.has("head"):
        raise NotThisKindError
    if not asked.has("order", "first", "last"):
        raise NotThisKindError
    return False


def _names_days(asked: Asked) -> bool:
    """`which day`, not `what did we pick the day after Christmas`."""
    heads = [part for part in asked.left if part.kind == "head" and part.name in ("which", "what")]
    nouns = [part for part in asked.left if part.kind == "noun" and part.name in _NOUNS]
    between = asked.text[heads[0].end : nouns[0].start] if heads and nouns else ""
    return bool(between) and _FEW_WORDS.fullmatch(between) is not None


# `what was the day`, `which of the days`
_FEW_WORDS = re.compile(
    r"(?:\W|was|is|were|are|the|of|exact|actual|other|different|all|our|my|very|single)*",
    re.IGNORECASE,
)


def _of_any_year(asked: Asked, sought: Sought) -> Answer:
    """`the earliest I ever picked strawberries`: by the day of the year, whichever year it was."""
    span = span_of(dated(act_events(asked, sought.act, sought.topic)), sought.period)
    rows = span.rows[(span.rows["date"] == span.rows["date_end"]).fillna(False)]
    if rows.empty:
        return _nothing(asked, sought, span)
    days = season_day(rows["date"])
    hit = rows[days == (days.max() if sought.order == "last" else days.min())]
    stamp = day(hit["date"].iloc[0])
    subject = sought.topic.what or listed([place.said for place in sought.topic.places])
    end = "latest" if sought.order == "last" else "earliest"
    be = "was" if sought.topic.singular else "were"
    return Answer(
        True,
        capital(
            f"{subject or 'that'} {be} {past(sought.act, hit)} {end} in the year on "
            f"{day_words(stamp, weekday=True)}{_details(sought, hit)}."
        ),
        date=stamp,
        date_end=stamp,
        rows=event_rows(rows.sort_values(["date", "event"])),
        evidence=evidence_of(asked.diary, hit),
        caveats=(*sought.topic.notes, *span.doubts),
    )


def _each(asked: Asked, sought: Sought) -> Answer:
    """Several crops are answered one by one: their first days are not each other's."""
    answers = [
        _one(asked, Sought(sought.act, topic, sought.period, sought.order, sought.since))
        for topic in sought.topic.each_thing()
    ]
    return Answer(
        True,
        " ".join(answer.answer for answer in answers),
        rows=tuple(row for answer in answers for row in answer.rows),
        evidence=tuple(line for answer in answers for line in answer.evidence),
        caveats=tuple(dict.fromkeys(note for answer in answers for note in answer.caveats)),
        found=any(answer.found for answer in answers),
    )


def _one(asked: Asked, sought: Sought) -> Answer:
    events = act_events(asked, sought.act, sought.topic, whole=True)
    span = span_of(dated(events), sought.period)
    rows = span.rows
    if rows.empty:
        return _nothing(asked, sought, span)
    season = None
    if sought.period is None and not sought.order and not sought.since:
        latest = int(rows["date"].dt.year.max())
        season = latest if latest != int(rows["date"].dt.year.min()) else None
        rows = rows[rows["date"].dt.year == latest]
    first, last = last_days(rows) if sought.latest else first_days(rows)
    hit = _may_be(rows, first, last)
    sure = first == last
    return Answer(
        True,
        _sentence(sought, hit, (first, last), asked.clock.today, len(rows) > len(hit), season),
        value=(asked.clock.today - first).days if sought.since and sure else None,
        unit="days" if sought.since and sure else None,
        date=first,
        date_end=last,
        rows=event_rows(rows.sort_values(["date", "event"])),
        evidence=evidence_of(asked.diary, hit),
        caveats=_caveats(asked, sought, hit, span),
    )


def _may_be(events: pd.DataFrame, first: date, last: date) -> pd.DataFrame:
    """The events that may be the one meant."""
    near = (events["date"] <= pd.Timestamp(last)) & (events["date_end"] >= pd.Timestamp(first))
    kept: pd.DataFrame = events[near]
    return kept


def _sentence(
    sought: Sought,
    hit: pd.DataFrame,
    days: tuple[date, date],
    today: date,
    several: bool,
    season: int | None,
) -> str:
    """`several` times there were; `season` is the latest year, where it was done in others too."""
    order = "last" if sought.latest else "first" if several or sought.order else ""
    said = f"{when(*days, today)}{_details(sought, hit)}."
    topic, done = sought.topic, past(sought.act, hit)
    if topic.is_empty:
        if season is not None:
            order = f"{order} {sought.act.noun} of {season}" if order else f"last {sought.act.noun}"
            return f"The {order} was {said}"
        return f"The {order or 'only'} {sought.act.noun} was {said}"
    subject = topic.what if topic.said else listed([place.said for place in topic.places])
    one = topic.singular if topic.said else len(topic.places) == 1
    if not topic.said and sought.act.name == "harvest":
        done = "picked from"
    words = [subject, "was" if one else "were", order, done, said]
    if sought.act.name in ("up", "bolt", "fail"):
        words = [subject, order, sought.act.did, said]
    return capital(" ".join(filter(None, words)))


def _details(sought: Sought, hit: pd.DataFrame) -> str:
    """What the question left open: crops, cultivars and places of the events that answer it."""
    topic, words = sought.topic, []
    if not topic.crops:
        crops = dict.fromkeys(filter(None, hit["crop"]))
        words.append(listed([crop_said(crop) for crop in crops], most=5))
    if not any(thing.cultivar for thing in topic.things):
        names = [f"'{name}'" for name in dict.fromkeys(hit["cultivar"]) if name]
        words.append(listed(names, most=5))
    if not topic.places:
        spots = [name for name in dict.fromkeys(hit["place"]) if name]
        word = "from" if sought.act.name == "harvest" else "in"
        words.append(f"{word} {listed(spots, most=4)}" if spots else "")
    said = ", ".join(filter(None, words))
    return f": {said}" if said else ""


def _caveats(asked: Asked, sought: Sought, hit: pd.DataFrame, span: Span) -> tuple[str, ...]:
    ground = [
        note for note in sought.topic.notes if not hit["place"].isin(_own_names(sought.topic)).all()
    ]
    apart = [note for note in sought.topic.notes if note.endswith("apart")]
    notes = (*ground, *apart, *_of_the_place(asked, sought, hit), *span.doubts)
    return tuple(dict.fromkeys(notes))


def _own_names(topic: Topic) -> list[str]:
    return [name for place in topic.places for name in place.names]


def _of_the_place(asked: Asked, sought: Sought, hit: pd.DataFrame) -> tuple[str, ...]:
    """The same done later to a place where the crop stands, with no crop named."""
    if not (sought.latest and sought.act.name in _OF_THE_PLACE and sought.topic.crops):
        return ()
    places = set(hit["place"]) - {""}
    rows = sought.act.rows(done_events(asked.diary))
    later = rows["place"].isin(places) & rows["crop"].eq("")
    later &= rows["date"] > hit["date_end"].max()
    if not later.any():
        return ()
    last = rows[later].sort_values("date").iloc[-1]
    done = f"{last['place']} was {sought.act.past} on {day_words(day(last['date']))}"
    return (f"{done}, with no crop named",)


def _nothing(asked: Asked, sought: Sought, span: Span) -> Answer:
    act = sought.act
    said = f"Nothing is written of {sought.topic.being(act.name, act.past, act.noun)}{span.said}"
    begun = raised_then(asked, act, sought.topic, span.period)
    return nothing(f"{said}; {record_words(asked.diary)}.", (*begun, *span.doubts))
