"""The coldest, warmest, wettest and driest day, month or year, and how warm a day was."""

from dataclasses import dataclass, replace
from typing import Any

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, record_words
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import Period, day_words, one_day, stretch_words
from journal.questions.readings import (
    air_evidence,
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
from journal.questions.saying import capital, counted, figure
from journal.questions.topic import take_topic
from journal.studies import weather_spans as spans


@dataclass(frozen=True, slots=True)
class _End:
    """What a superlative looks for: the variable, the highest or the lowest, its words."""

    variable: str
    high: bool
    words: str
    unit: str


_ENDS = {
    "wettest": _End("rain", True, "wettest", "mm"),
    "driest": _End("rain", False, "driest", "mm"),
    "warmest": _End("t_max", True, "warmest", "C"),
    "coldest": _End("t_min", False, "coldest", "C"),
}


def answer_extreme(asked: Asked) -> Answer:
    """`wettest day in 2024`, `coldest night last winter`, `which month was wettest`."""
    end = asked.take("superlative", *_ENDS)
    found = _most_of_kind(asked) if end is None else _ENDS[end.name]
    asked.take("head", "which", "what", "when", "how_cold", "how_warm", "how_much", "where")
    noun = asked.take("noun", "days", "nights", "months", "years")
    small_words(asked)
    asked.take("state", "still")
    asked.take("preposition", "with")
    if end is not None and end.name in ("warmest", "coldest"):
        asked.take("kind", "temperature")
    glass = asked.take("state", "under_cover")
    topic = take_topic(asked, batches=False)
    if glass is not None:
        topic = replace(topic, places=(*topic.places, glass_read(asked)))
    if topic.things or (topic.places and noun is not None and noun.name not in ("days", "nights")):
        raise NotThisKindError
    period = asked_period(asked)
    asked.done()
    if noun is not None and noun.name in ("months", "years"):
        return _extreme_span(asked, found, noun.name.removesuffix("s"), period)
    if found.variable == "rain" and topic.places:
        raise RefusedError(f"no rain is read in {topic.places[0].said}; ask without it")
    if found.words == "driest":
        raise RefusedError(
            "many days have no rain; ask for the driest month or the longest dry spell"
        )
    return _extreme_day(asked, found, period, topic.places[0].names if topic.places else ())


def _most_of_kind(asked: Asked) -> _End:
    """`the most rain in a day`, `the highest temperature`, `the lowest temperature`."""
    high = asked.take("superlative", "most", "best")
    low = None if high else asked.need("superlative", "least")
    kind = asked.need("kind", "rain", "temperature").name
    if kind == "rain":
        asked.take("preposition", "in")
        return _ENDS["driest" if low else "wettest"]
    return _ENDS["warmest"] if high else _ENDS["coldest"]


def _extreme_day(asked: Asked, end: _End, period: Period, places: tuple[str, ...]) -> Answer:
    days = glass_days(asked, end.variable, period, places)
    if days.empty and period.before:
        period = period.before
        days = glass_days(asked, end.variable, period, places)
    if days.empty:
        return silent(asked, "rain" if end.variable == "rain" else "temperature", period)
    value = float(days.max() if end.high else days.min())
    ties = [stamp for stamp, each in days.items() if each == value]
    read = [days_read(asked, stamp, value, end.variable, places) for stamp in ties]  # type: ignore[arg-type]
    spelled = " and ".join(
        day_words(first, weekday=True) if first == last else f"one of {stretch_words(first, last)}"
        for first, last in read
    )
    noun = "night" if end.words == "coldest" else "day"
    were = "was" if len(ties) == 1 else "were"
    noun = noun if len(ties) == 1 else f"{noun}s"
    where = f" in {places[0]}" if places else ""
    rows = glass_evidence(asked, ties, end.variable, places)
    return Answer(
        True,
        f"The {end.words} {noun}{where}{said_of(period)} {were} {spelled}: "
        f"{figure(value)} {end.unit}.",
        value=value,
        unit=end.unit,
        date=read[0][0] if len(ties) == 1 else None,
        date_end=read[0][1] if len(ties) == 1 else None,
        rows=tuple({"date": stamp, end.variable: value} for stamp in ties),
        evidence=rows,
        caveats=gaps(asked, end.variable, period, places),
    )


# a year of which a few days were not read can still be ranked
_MAY_LACK = {"month": 0, "year": 18}


def _extreme_span(asked: Asked, end: _End, span: str, period: Period) -> Answer:
    """The wettest or driest month or year: of those that were read whole."""
    if end.variable != "rain":
        raise RefusedError(f"ask for the {end.words} day; a {span}'s mean is not worked out here")
    days = spans.readings(asked.diary, "rain", period.first, period.last)
    if not days.notna().any():
        return silent(asked, "rain", period)
    table = spans.by_span(days, span)
    whole = table[table["unread"] <= _MAY_LACK[span]]
    if whole.empty:
        return nothing(
            f"No {span} was read whole{said_of(period)}, so none can be the {end.words}."
        )
    order = whole.sort_values("value", ascending=not end.high, kind="stable")
    best = order.iloc[0]
    name = f"{best[span].start_time:%B %Y}" if span == "month" else str(best[span].year)
    left = len(table) - len(whole)
    note: tuple[str, ...] = ()
    if left:
        note = (f"{counted(left, span)} not read whole {'is' if left == 1 else 'are'} left out",)
    lacking = int(best["unread"])
    if lacking:
        note = (*note, f"{counted(lacking, 'day')} of {name} were not read")
    return Answer(
        True,
        f"The {end.words} {span}{said_of(period)} was {name}: {figure(float(best['value']))} mm.",
        value=round(float(best["value"]), 6),
        unit="mm",
        date=day(best[span].start_time),
        date_end=day(best[span].end_time),
        rows=tuple({span: str(row[span]), "mm": row["value"]} for row in order.to_dict("records")),
        evidence=_span_evidence(asked, days, best[span]),
        caveats=note,
    )


# a month has as many lines as days; the heaviest of them tell it
_MOST_LINES = 10


def _span_evidence(asked: Asked, days: "pd.Series[Any]", span: pd.Period) -> tuple[Evidence, ...]:
    """The lines of the most rain in a month or year; where none fell, the first that say so."""
    own = days[(days.index >= span.start_time) & (days.index <= span.end_time)].dropna()
    most = own.sort_values(ascending=False, kind="stable").index[:_MOST_LINES]
    return air_evidence(asked, most.sort_values(), ("rain",))[:_MOST_LINES]


def answer_temperature(asked: Asked) -> Answer:
    """`how cold did the tunnel get last week`, `how warm was 20 June`: lowest and highest."""
    head = asked.take("head", "how_cold", "how_warm")
    if head is None:
        asked.need("head", "what", "how_much")
        asked.need("kind", "temperature")
    asked.take("kind", "temperature")
    now = asked.has("aux", "is")
    small_words(asked)
    glass = asked.take("state", "under_cover")
    topic = take_topic(asked, batches=False)
    if glass is not None:
        topic = replace(topic, places=(*topic.places, glass_read(asked)))
    if topic.things or len(topic.places) > 1:
        raise NotThisKindError
    # `how warm is it` asks of today
    of_today = now and not asked.has("period")
    period = one_day(asked.clock.today) if of_today else asked_period(asked)
    asked.done()
    places = topic.places[0].names if topic.places else ()
    low, high = (_ends(asked, name, period, places) for name in ("t_min", "t_max"))
    if low is None and high is None:
        where = f" {topic.there}" if topic.there else ""
        return nothing(
            f"No temperature is written{where}{said_of(period)}; {record_words(asked.diary)}."
        )
    single = period.first is not None and period.first == period.last
    chosen = high if head and head.name == "how_warm" else low if head else None
    return _temperature_answer(asked, topic.there, period, low, high, chosen, single, places)


def _ends(
    asked: Asked, variable: str, period: Period, places: tuple[str, ...]
) -> tuple[float, pd.Timestamp] | None:
    days = glass_days(asked, variable, period, places)
    if days.empty:
        return None
    stamp: Any = days.idxmin() if variable == "t_min" else days.idxmax()
    return float(days[stamp]), stamp


def _temperature_answer(
    asked: Asked,
    there: str,
    period: Period,
    low: tuple[float, pd.Timestamp] | None,
    high: tuple[float, pd.Timestamp] | None,
    chosen: tuple[float, pd.Timestamp] | None,
    single: bool,
    places: tuple[str, ...],
) -> Answer:
    parts = []
    for end, word in ((low, "lowest"), (high, "highest")):
        if end is not None:
            variable = "t_min" if word == "lowest" else "t_max"
            days = stretch_words(*days_read(asked, end[1], end[0], variable, places))
            on = "" if single else f" (on {days})"
            parts.append(f"the {word} was {figure(end[0])} C{on}")
    where = f" {there}" if there else ""
    stamps = [end[1] for end in (low, high) if end is not None]
    variable = "t_min" if chosen is low else "t_max"
    of_chosen = days_read(asked, chosen[1], chosen[0], variable, places) if chosen else None
    return Answer(
        True,
        capital(f"{' and '.join(parts)}{where}{said_of(period)}."),
        value=chosen[0] if chosen else None,
        unit="C",
        date=of_chosen[0] if of_chosen else None,
        date_end=of_chosen[1] if of_chosen else None,
        rows=tuple(
            {"date": end[1], "measure": word, "value": end[0]}
            for end, word in ((low, "lowest"), (high, "highest"))
            if end is not None
        ),
        evidence=tuple(
            dict.fromkeys(
                line
                for variable in ("t_min", "t_max")
                for line in glass_evidence(asked, stamps, variable, places)
            )
        ),
        caveats=() if single else gaps(asked, "t_min", period, places),
    )
