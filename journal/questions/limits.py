"""How often, when first or last a temperature went past a figure, in the open or under glass."""

import operator
from dataclasses import replace
from typing import Any

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.model import Answer, nothing
from journal.questions.periods import stretch_words
from journal.questions.readings import (
    asked_period,
    days_read,
    gaps,
    glass_days,
    glass_evidence,
    glass_read,
    said_of,
    silent,
    small_words,
)
from journal.questions.reckoned import Limit, limit_of
from journal.questions.saying import capital, counted, figure, listed
from journal.questions.topic import take_topic

_MOST_SAID = 6


def answer_limit(asked: Asked) -> Answer:
    """`when did the Waiting room go over 40 degrees`, `how many nights fell below -5 degrees`."""
    part = asked.need("limit")
    head = asked.take("head", "when", "how_many", "how_often", "which", "on_how_many_days", "what")
    if head is None and asked.parts[0].kind not in ("aux", "order"):
        raise NotThisKindError
    order = asked.take("order", "first", "last")
    asked.take_all("noun", "days", "nights", "times")
    asked.take("kind", "temperature")
    asked.take("act", "go")
    small_words(asked)
    asked.take_all("preposition", "in", "on", "at")
    glass = asked.take("state", "under_cover")
    topic = take_topic(asked, batches=False)
    if glass is not None:
        topic = replace(topic, places=(*topic.places, glass_read(asked)))
    if topic.things or len(topic.places) > 1:
        raise NotThisKindError
    period = asked_period(asked)
    asked.done()
    limit = limit_of(asked.words(part))
    if not limit.side:
        raise RefusedError(f"say whether over or under `{asked.words(part)}`")
    variable = "t_min" if limit.side == "under" else "t_max"
    places = topic.places[0].names if topic.places else ()
    every = glass_days(asked, variable, period, places)
    if every.empty:
        return silent(asked, "temperature", period)
    days = every[_past(limit)(every, limit.value)]
    where = f" in {topic.places[0].said}" if topic.places else ""
    said = f"{limit.side} {figure(limit.value)} C{where}{said_of(period)}"
    if days.empty:
        none = nothing(f"Nothing that was read was {said}.", gaps(asked, variable, period, places))
        return replace(none, value=False if head is None else 0)
    return _answer(
        asked,
        days,
        said,
        head.name if head else "",
        order.name if order else "",
        gaps(asked, variable, period, places),
        variable,
        places,
    )


def _past(limit: Limit) -> Any:
    if limit.side == "under":
        return operator.le if limit.counts_itself else operator.lt
    return operator.ge if limit.counts_itself else operator.gt


def _answer(
    asked: Asked,
    days: Any,
    said: str,
    head: str,
    order: str,
    caveats: tuple[str, ...],
    variable: str,
    places: tuple[str, ...],
) -> Answer:
    stamp = days.index[0] if order == "first" else days.index[-1]
    read = {
        one: days_read(asked, one, float(value), variable, places) for one, value in days.items()
    }
    several = sum(first != last for first, last in read.values())
    if several:
        stood = "stands" if several == 1 else "stand"
        caveats = (
            *caveats,
            f"{counted(several, 'reading')} of several days {stood} for one day of them",
        )
    count = counted(len(days), "day")
    if order:
        told = (
            f"it was {order} {said} on {stretch_words(*read[stamp])}: "
            f"{figure(float(days[stamp]))} C"
        )
    else:
        each = [
            f"{stretch_words(*read[one])} ({figure(float(value))} C)" for one, value in days.items()
        ]
        told = f"it was {said} on {count}: {listed(each, most=_MOST_SAID)}"
        if not head:
            told = f"yes, {told}"
    one = bool(order) or len(days) == 1
    return Answer(
        True,
        capital(f"{told}."),
        value=len(days)
        if head in ("how_many", "how_often", "on_how_many_days")
        else True
        if not head and not order
        else None,
        unit="days" if head in ("how_many", "how_often", "on_how_many_days") else None,
        date=read[stamp][0] if one else None,
        date_end=read[stamp][1] if one else None,
        rows=tuple({"date": each, variable: value} for each, value in days.items()),
        evidence=glass_evidence(asked, list(days.index), variable, places),
        caveats=caveats,
    )
