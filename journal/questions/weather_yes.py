"""Whether it rained, froze or snowed: `did it rain yesterday`, `was there a frost last week`."""

from dataclasses import replace

from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import day
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.readings import (
    air_evidence,
    asked_period,
    gap_beside,
    said_of,
    silent,
    small_words,
)
from journal.questions.saying import counted, figure
from journal.questions.weather import words_only
from journal.studies import weather_spans as spans

_VARIABLES = {"rain": "rain", "frost": "t_min", "snow": "snow"}


def answer_weather_yes(asked: Asked) -> Answer:
    """Yes or no with the days that it was; of days that were not read neither."""
    first = asked.parts[0]
    if first.kind != "aux" or first.name not in ("did", "was", "have", "is", "do"):
        raise NotThisKindError
    if asked.has("self", "it") and asked.take("act", "freeze"):
        kind = "frost"
    else:
        kind = asked.need("kind", *_VARIABLES).name
    if asked.has("compare") or asked.has("head") or asked.has("thing") or asked.has("act"):
        raise NotThisKindError
    small_words(asked)
    asked.take("state", "yet")
    asked.take("noun", "days", "nights")
    period = asked_period(asked)
    asked.done()
    variable = _VARIABLES[kind]
    every = spans.readings(asked.diary, variable, period.first, period.last).dropna()
    if every.empty and kind != "snow":
        return silent(asked, "minimum" if kind == "frost" else "rain", period)
    days = every[every < 0] if kind == "frost" else every[every > 0]
    notes = (*gap_beside(asked, variable, period), *words_only(asked, kind, period))
    if days.empty:
        if notes:
            return nothing(f"No {kind} was read{said_of(period)}.", notes)
        none = nothing(f"No, no {kind} was read{said_of(period)}.")
        return replace(none, value=False, found=True)
    last = days.index[-1]
    value = float(days[last])
    one_day = period.first is not None and period.first == period.last
    most = float(days.min() if kind == "frost" else days.max())
    unit = "C" if kind == "frost" else "cm" if kind == "snow" else "mm"
    told = f"{kind} was read on {counted(len(days), 'day')}{said_of(period)}"
    end = f"the {'coldest' if kind == 'frost' else 'most'} {figure(most)} {unit}"
    detail = f", {end}, last on {day_words(day(last), weekday=True)}" if len(days) > 1 else ""
    if one_day:
        told, detail = f"{figure(value)} {unit} of {kind} was read{said_of(period)}", ""
        if kind == "frost":
            told = f"it went down to {figure(value)} C{said_of(period)}"
    elif len(days) == 1:
        detail = f": {day_words(day(last), weekday=True)}, {figure(value)} {unit}"
    return Answer(
        True,
        f"Yes, {told}{detail}.",
        value=True,
        date=day(last) if len(days) == 1 else None,
        date_end=day(last) if len(days) == 1 else None,
        rows=tuple({"date": each, variable: cell} for each, cell in days.items()),
        evidence=air_evidence(asked, list(days.index), (variable,)),
        caveats=notes,
    )
