"""The weather: rain and sun of a period, frosts, rain days and dry spells."""

from dataclasses import replace
from datetime import date
from typing import Any

import pandas as pd

from journal.questions.asked import Asked, LeftoverError, NotThisKindError, RefusedError
from journal.questions.dry_spells import beside_dry_stretch
from journal.questions.evidence import day, record_words
from journal.questions.extremes import answer_extreme, answer_temperature
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period, day_words, stretch_words, year_period
from journal.questions.readings import (
    air_evidence,
    asked_period,
    gap_beside,
    rain_together,
    said_of,
    silent,
    small_words,
    unread,
)
from journal.questions.saying import ago, counted, figure, listed
from journal.questions.spans import take_period
from journal.studies import weather_spans as spans

_NOUN = {"rain": "rain", "sun": "sunshine", "snow": "snow"}


_UNIT = {"rain": "mm", "sun": "h", "snow": "mm"}


def answer_weather(asked: Asked) -> Answer:
    """One of the questions about the weather; NotThisKindError where it is about none of it."""
    if asked.has("compare") or (asked.has("act") and not asked.has("act", "go")):
        raise NotThisKindError
    over: LeftoverError | None = None
    for answer in (_spell, answer_extreme, _count, _when, _amount, answer_temperature):
        attempt = replace(asked, used=set())
        try:
            return answer(attempt)
        except NotThisKindError:
            continue
        except LeftoverError as left:
            over = left if over is None or len(left.parts) < len(over.parts) else over
    raise over or NotThisKindError


# ---------------------------------------------------------------- how much


def _amount(asked: Asked) -> Answer:
    """`how much rain in June`, `how wet was June`, `hours of sunshine in 2025`."""
    asked.take("unit", "mm", "hour")
    if asked.take("head", "how_wet"):
        variable = "rain"
    elif asked.take("head", "how_sunny"):
        variable = "sun"
    else:
        if not asked.take("head", "how_much", "what"):
            asked.take("kind", "weight")
            asked.take("head", "how_many")
        variable = asked.need("kind", *_NOUN).name
    small_words(asked)
    period = asked_period(asked)
    asked.done()
    found = spans.total(asked.diary, variable, period.first, period.last)
    if found.value is None and period.before is not None:
        period = period.before
        found = spans.total(asked.diary, variable, period.first, period.last)
    if found.value is None:
        return silent(asked, _NOUN[variable], period)
    days = spans.readings(asked.diary, variable, period.first, period.last)
    wet = days[days > 0]
    value = found.value * 10 if variable == "snow" else found.value
    amount = {"sun": f"{figure(value)} hours", "snow": f"{figure(value / 10)} cm"}.get(
        variable, f"{figure(value)} mm"
    )
    told, lines = rain_together(asked, period) if variable == "rain" else ((), ())
    gap = () if variable == "snow" else unread(found.read, found.unread, _NOUN[variable])
    return Answer(
        True,
        f"{amount} of {_NOUN[variable]} {'were' if value != 1 else 'was'} read{said_of(period)}, "
        f"on {counted(len(wet), 'day')}.",
        value=round(value, 6),
        unit=_UNIT[variable],
        rows=_day_rows(wet, variable),
        evidence=(*air_evidence(asked, wet.index, (variable,)), *lines),
        caveats=(*told, *gap),
    )


def _day_rows(days: "pd.Series[Any]", variable: str) -> tuple[dict[str, Any], ...]:
    return tuple({"date": stamp, variable: value} for stamp, value in days.items())


# ---------------------------------------------------------------- how many


def _count(asked: Asked) -> Answer:
    """`how many frosts this winter`, `how many days did it rain in 2025`."""
    counted_frosts = asked.parts[0].kind == "kind" and asked.words(asked.parts[0]).endswith("s")
    if not asked.take("head", "how_often") and not (counted_frosts and asked.has("period")):
        asked.need("head", "how_many")
        asked.take("noun", "days", "nights")
    asked.take("preposition", "with")
    kind = asked.need("kind", "frost", "rain").name
    asked.take("noun", "days", "nights")
    small_words(asked)
    period = asked_period(asked)
    asked.done()
    variable = "t_min" if kind == "frost" else "rain"
    find = spans.frosts if kind == "frost" else spans.wet_days
    every = spans.readings(asked.diary, variable, period.first, period.last)
    if not every.notna().any() and period.before:
        period = period.before
        every = spans.readings(asked.diary, variable, period.first, period.last)
    if not every.notna().any():
        return silent(asked, "minimum" if kind == "frost" else "rain", period)
    days = find(asked.diary, period.first, period.last)
    what = "night with frost (below 0 C)" if kind == "frost" else "day with 1 mm of rain or more"
    many = what.replace("night ", "nights ").replace("day ", "days ")
    read = int(every.notna().sum())
    noun = "the minimum" if kind == "frost" else "rain"
    return Answer(
        True,
        f"There {'was' if len(days) == 1 else 'were'} {counted(len(days), what, many)}"
        f"{said_of(period)}.",
        value=len(days),
        unit="days",
        rows=_day_rows(days, variable),
        evidence=air_evidence(asked, days.index, (variable,)),
        caveats=(
            *_any_rain(kind, every),
            *unread(read, len(every) - read, noun),
            *words_only(asked, kind, period),
        ),
    )


def _any_rain(kind: str, every: "pd.Series[Any]") -> tuple[str, ...]:
    """A wet day has 1 mm; a reader may mean any rain at all."""
    if kind != "rain":
        return ()
    return (f"some rain, however little, is written on {counted(int((every > 0).sum()), 'day')}",)


def words_only(asked: Asked, kind: str, period: Period) -> tuple[str, ...]:
    """Frosts that are written with no temperature on a day whose minimum was not below 0 C."""
    if kind != "frost":
        return ()
    weather = asked.diary.weather
    rows = weather[(weather["variable"] == "frost") & (weather["place"] == "")]
    cold = spans.frosts(asked.diary, period.first, period.last).index
    notes = []
    for row in rows[~rows["date"].isin(cold) & rows["date"].notna()].to_dict("records"):
        first, last = day(row["date"]), day(row["date_end"])
        if period.holds(first) or period.holds(last):
            notes.append(stretch_words(first, last))
    said = "a frost is also written without a minimum"
    if len(notes) > _MOST_NOTES:
        return (f"{said} {len(notes)} times, {listed(notes[:1])} among them",)
    return tuple(f"{said}: {note}" for note in notes)


_MOST_NOTES = 3


def words_beside(asked: Asked, stamp: date, *, spring: bool) -> tuple[str, ...]:
    """Frosts with no temperature that may be later than a last, or earlier than a first, one."""
    early = stamp.month <= _HALF
    first = date(stamp.year, 1 if early else _HALF + 1, 1)
    last = date(stamp.year, _HALF, 30) if early else date(stamp.year, 12, 31)
    period = Period(stamp, last, "") if spring else Period(first, stamp, "")
    return words_only(asked, "frost", period)


_HALF = 6


# ---------------------------------------------------------------- when


def _when(asked: Asked) -> Answer:
    """`when was the last frost this spring`, `first autumn frost`, `when did it last rain`."""
    since = asked.take("head", "how_long_ago") is not None
    if not since and asked.take("head", "when"):
        # `what was the last frost date`
        asked.take("head", "what")
    season = asked.take("kind", "last_spring_frost", "first_autumn_frost")
    if season is not None:
        small_words(asked)
        asked.take("order")
        return _season_frost(asked, season.name)
    order = asked.take("order", "first", "last")
    kind = asked.need("kind", "frost", "rain", "snow").name
    if order is None and not since and kind != "snow":
        raise NotThisKindError
    asked.take("noun", "days", "nights")
    small_words(asked)
    period = asked_period(asked)
    asked.done()
    days, variable = _days_of(asked, kind, period)
    if days.empty and period.before:
        period = period.before
        days, variable = _days_of(asked, kind, period)
    if days.empty:
        words = f"{kind} is written{said_of(period)}"
        return nothing(f"No {words}; {record_words(asked.diary)}.", words_only(asked, kind, period))
    stamp = days.index[0] if order and order.name == "first" else days.index[-1]
    end = "first" if order and order.name == "first" else "last"
    value, unit = float(days[stamp]), "C" if kind == "frost" else "mm"
    amount = f"{figure(value)} {'cm' if kind == 'snow' else unit}"
    # snow is written in cm, an answer's unit is mm
    value = value * 10 if kind == "snow" else value
    return Answer(
        True,
        f"The {end} {kind}{said_of(period)} was on {day_words(day(stamp), weekday=True)}, "
        f"{ago(day(stamp), asked.clock.today)}: {amount}.",
        value=(asked.clock.today - day(stamp)).days if since else value,
        unit="days" if since else unit,
        date=day(stamp),
        date_end=day(stamp),
        rows=_day_rows(days, variable),
        evidence=air_evidence(asked, [stamp], (variable,)),
        caveats=(*gap_beside(asked, variable, period), *words_only(asked, kind, period)),
    )


def _days_of(asked: Asked, kind: str, period: Period) -> tuple["pd.Series[Any]", str]:
    if kind == "frost":
        return spans.frosts(asked.diary, period.first, period.last), "t_min"
    found = spans.readings(asked.diary, kind, period.first, period.last)
    return found[found > 0], kind


def _season_frost(asked: Asked, measure: str) -> Answer:
    """The last frost before midsummer or the first after it, of a year."""
    period = take_period(asked)
    asked.done()
    year = period.year if period else asked.clock.today.year
    if year is None:
        raise RefusedError("ask for the spring or autumn frost of a year")
    spring = measure == "last_spring_frost"
    south = asked.clock.south
    found = spans.season_frost(asked.diary, year, spring=spring, south=south)
    if found is None and period is None:
        year -= 1
        found = spans.season_frost(asked.diary, year, spring=spring, south=south)
    name = "last spring frost" if spring else "first autumn frost"
    said = year_period(year, asked.clock.today).said
    if found is None:
        return nothing(f"No {name} is written {said}; {record_words(asked.diary)}.")
    stamp, value = found
    return Answer(
        True,
        f"The {name} of {year} was on {day_words(day(stamp), weekday=True)}, "
        f"{ago(day(stamp), asked.clock.today)}: {figure(value)} C.",
        value=value,
        unit="C",
        date=day(stamp),
        date_end=day(stamp),
        evidence=air_evidence(asked, [stamp], ("t_min",)),
        caveats=words_beside(asked, day(stamp), spring=spring),
    )


# ---------------------------------------------------------------- dry spells


def _spell(asked: Asked) -> Answer:
    """`longest dry spell in 2025`, `how long did we go without rain`."""
    spell = asked.take("kind", "dry_spell")
    if spell is not None:
        if asked.has("period"):
            # `how long did the drought last in 2025`
            asked.take("order", "last")
        asked.take("superlative", "longest")
        asked.take("head", "when", "how_long", "what", "which")
    else:
        longest = asked.take("superlative", "longest")
        if not asked.take("head", "how_long") and not longest:
            raise NotThisKindError
        asked.take("head", "what")
        asked.take("noun", "times", "days")
        asked.take("act", "go")
        asked.take("aux", "run")
        asked.need("state", "without")
        asked.need("kind", "rain")
    small_words(asked)
    period = asked_period(asked)
    asked.done()
    count, first, last = spans.dry_run(asked.diary, period.first, period.last)
    if not count:
        return silent(asked, "rain", period)
    drought = spell is not None and "drought" in asked.words(spell).lower()
    told = beside_dry_stretch(asked, period, (first, last), drought)
    return Answer(
        True,
        f"The longest stretch under 1 mm of rain{said_of(period)} was {counted(count, 'day')}, "
        f"from {day_words(day(first))} to {day_words(day(last))}.",
        value=count,
        unit="days",
        date=day(first),
        date_end=day(last),
        evidence=air_evidence(asked, pd.date_range(first, last), ("rain",)),
        caveats=(*told, *gap_beside(asked, "rain", period)),
    )


# ---------------------------------------------------------------- how warm
