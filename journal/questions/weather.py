"""The weather: rain and sun of a period, frosts, the coldest, warmest and wettest, dry spells."""

from dataclasses import dataclass, replace
from typing import Any

import pandas as pd

from journal.questions.asked import Asked, LeftoverError, NotThisKindError, RefusedError
from journal.questions.evidence import day, record_words
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import Period, day_words, stretch_words, year_period
from journal.questions.saying import ago, capital, counted, figure
from journal.questions.spans import take_period
from journal.questions.topic import take_topic
from journal.studies import weather_spans as spans

_WHOLE = Period(None, None, "")
_NOUN = {"rain": "rain", "sun": "sunshine", "snow": "snow"}
_UNIT = {"rain": "mm", "sun": "h", "snow": "mm"}
_PAST_AUX = ("did", "was", "have", "get", "come", "is", "do", "take")


def answer_weather(asked: Asked) -> Answer:
    """One of the questions about the weather; NotThisKindError where it is about none of it."""
    if asked.has("compare") or (asked.has("act") and not asked.has("act", "go")):
        raise NotThisKindError
    over: LeftoverError | None = None
    for answer in (_spell, _extreme, _count, _when, _amount, _temperature):
        attempt = replace(asked, used=set())
        try:
            return answer(attempt)
        except NotThisKindError:
            continue
        except LeftoverError as left:
            over = left if over is None or len(left.parts) < len(over.parts) else over
    raise over or NotThisKindError


def _small_words(asked: Asked) -> None:
    asked.pass_over(*_PAST_AUX)
    asked.take_all("self", "it")
    asked.take("state", "together")


def _period(asked: Asked) -> Period:
    return take_period(asked) or _WHOLE


def _unread(read: int, unread: int, what: str) -> tuple[str, ...]:
    if not unread:
        return ()
    return (f"{what} was not read on {counted(unread, 'day')} of {read + unread}",)


def _said(period: Period) -> str:
    return f" {period.said}" if period.said else ""


def _silent(asked: Asked, what: str, period: Period) -> Answer:
    return nothing(f"No {what} is written{_said(period)}; {record_words(asked.diary)}.")


def _evidence(asked: Asked, days: Any, variables: tuple[str, ...]) -> tuple[Evidence, ...]:
    """The lines with the readings of these days; a met file's are named by file and line."""
    weather = asked.diary.weather
    mine = weather["date"].isin(list(days)) & weather["variable"].isin(variables)
    rows = weather[mine & (weather["place"] == "")].sort_values(["date", "file", "line"])
    return _lines(asked, rows)


def _lines(asked: Asked, rows: pd.DataFrame) -> tuple[Evidence, ...]:
    found: dict[tuple[str, int], Evidence] = {}
    for row in rows.to_dict("records"):
        file, line = str(row["file"]), int(row["line"])
        if (file, line) not in found:
            found[file, line] = Evidence(file, line, _text(asked, row))
    return tuple(found.values())


def _text(asked: Asked, row: dict[Any, Any]) -> str:
    """The line as written; of a met file, which is not the diary's text, what it says."""
    if row["source"] == "diary":
        return asked.diary.line(str(row["file"]), int(row["line"]))
    return f"{day_words(day(row['date']))}: {row['variable']} {row['value']:g} {row['unit']}"


# ---------------------------------------------------------------- how much


def _amount(asked: Asked) -> Answer:
    """`how much rain in June`, `how wet was June`, `hours of sunshine in 2025`."""
    asked.take("unit", "mm", "hour")
    if asked.take("head", "how_wet"):
        variable = "rain"
    else:
        if not asked.take("head", "how_much", "what"):
            asked.take("kind", "weight")
            asked.take("head", "how_many")
        variable = asked.need("kind", *_NOUN).name
    _small_words(asked)
    period = _period(asked)
    asked.done()
    found = spans.total(asked.diary, variable, period.first, period.last)
    if found.value is None and period.before is not None:
        period = period.before
        found = spans.total(asked.diary, variable, period.first, period.last)
    if found.value is None:
        return _silent(asked, _NOUN[variable], period)
    days = spans.readings(asked.diary, variable, period.first, period.last)
    wet = days[days > 0]
    value = found.value * 10 if variable == "snow" else found.value
    amount = {"sun": f"{figure(value)} hours", "snow": f"{figure(value / 10)} cm"}.get(
        variable, f"{figure(value)} mm"
    )
    return Answer(
        True,
        f"{amount} of {_NOUN[variable]} {'were' if value != 1 else 'was'} read{_said(period)}, "
        f"on {counted(len(wet), 'day')}.",
        value=round(value, 6),
        unit=_UNIT[variable],
        rows=_day_rows(wet, variable),
        evidence=_evidence(asked, wet.index, (variable,)),
        caveats=() if variable == "snow" else _unread(found.read, found.unread, _NOUN[variable]),
    )


def _day_rows(days: "pd.Series[Any]", variable: str) -> tuple[dict[str, Any], ...]:
    return tuple({"date": stamp, variable: value} for stamp, value in days.items())


# ---------------------------------------------------------------- how many


def _count(asked: Asked) -> Answer:
    """`how many frosts this winter`, `how many days did it rain in 2025`."""
    if not asked.take("head", "how_often"):
        asked.need("head", "how_many")
        asked.take("noun", "days", "nights")
    asked.take("preposition", "with")
    kind = asked.need("kind", "frost", "rain").name
    asked.take("noun", "days", "nights")
    _small_words(asked)
    period = _period(asked)
    asked.done()
    variable = "t_min" if kind == "frost" else "rain"
    find = spans.frosts if kind == "frost" else spans.wet_days
    every = spans.readings(asked.diary, variable, period.first, period.last)
    if not every.notna().any() and period.before:
        period = period.before
        every = spans.readings(asked.diary, variable, period.first, period.last)
    if not every.notna().any():
        return _silent(asked, "minimum" if kind == "frost" else "rain", period)
    days = find(asked.diary, period.first, period.last)
    what = "night with frost (below 0 C)" if kind == "frost" else "day with 1 mm of rain or more"
    many = what.replace("night ", "nights ").replace("day ", "days ")
    read = int(every.notna().sum())
    noun = "the minimum" if kind == "frost" else "rain"
    return Answer(
        True,
        f"There {'was' if len(days) == 1 else 'were'} {counted(len(days), what, many)}"
        f"{_said(period)}.",
        value=len(days),
        unit="days",
        rows=_day_rows(days, variable),
        evidence=_evidence(asked, days.index, (variable,)),
        caveats=(
            *_any_rain(kind, every),
            *_unread(read, len(every) - read, noun),
            *_words_only(asked, kind, period),
        ),
    )


def _any_rain(kind: str, every: "pd.Series[Any]") -> tuple[str, ...]:
    """A wet day has 1 mm; a reader may mean any rain at all."""
    if kind != "rain":
        return ()
    return (f"some rain, however little, is written on {counted(int((every > 0).sum()), 'day')}",)


def _words_only(asked: Asked, kind: str, period: Period) -> tuple[str, ...]:
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
            notes.append(f"a frost is also written without a minimum: {stretch_words(first, last)}")
    return tuple(notes)


# ---------------------------------------------------------------- when


def _when(asked: Asked) -> Answer:
    """`when was the last frost this spring`, `first autumn frost`, `when did it last rain`."""
    since = asked.take("head", "how_long_ago") is not None
    if not since:
        asked.take("head", "when")
    season = asked.take("kind", "last_spring_frost", "first_autumn_frost")
    if season is not None:
        _small_words(asked)
        asked.take("order")
        return _season_frost(asked, season.name)
    order = asked.take("order", "first", "last")
    kind = asked.need("kind", "frost", "rain", "snow").name
    if order is None and not since:
        raise NotThisKindError
    asked.take("noun", "days", "nights")
    _small_words(asked)
    period = _period(asked)
    asked.done()
    days, variable = _days_of(asked, kind, period)
    if days.empty and period.before:
        period = period.before
        days, variable = _days_of(asked, kind, period)
    if days.empty:
        words = f"{kind} is written{_said(period)}"
        return nothing(
            f"No {words}; {record_words(asked.diary)}.", _words_only(asked, kind, period)
        )
    stamp = days.index[0] if order and order.name == "first" else days.index[-1]
    end = "first" if order and order.name == "first" else "last"
    unit = "C" if kind == "frost" else "mm"
    return Answer(
        True,
        f"The {end} {kind}{_said(period)} was on {day_words(day(stamp), weekday=True)}, "
        f"{ago(day(stamp), asked.clock.today)}: {figure(float(days[stamp]))} {unit}.",
        value=(asked.clock.today - day(stamp)).days if since else float(days[stamp]),
        unit="days" if since else unit,
        date=day(stamp),
        date_end=day(stamp),
        rows=_day_rows(days, variable),
        evidence=_evidence(asked, [stamp], (variable,)),
        caveats=(*_gap_beside(asked, variable, period), *_words_only(asked, kind, period)),
    )


def _days_of(asked: Asked, kind: str, period: Period) -> tuple["pd.Series[Any]", str]:
    if kind == "frost":
        return spans.frosts(asked.diary, period.first, period.last), "t_min"
    found = spans.readings(asked.diary, kind, period.first, period.last)
    return found[found > 0], kind


def _gap_beside(asked: Asked, variable: str, period: Period) -> tuple[str, ...]:
    every = spans.readings(asked.diary, variable, period.first, period.last)
    read = int(every.notna().sum())
    noun = {"t_min": "the minimum", "rain": "rain"}.get(variable, variable)
    return _unread(read, len(every) - read, noun)


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
        evidence=_evidence(asked, [stamp], ("t_min",)),
    )


# ---------------------------------------------------------------- the most


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


def _extreme(asked: Asked) -> Answer:
    """`wettest day in 2024`, `coldest night last winter`, `which month was wettest`."""
    end = asked.take("superlative", *_ENDS)
    found = _most_of_kind(asked) if end is None else _ENDS[end.name]
    asked.take("head", "which", "what", "when", "how_cold", "how_warm", "how_much", "where")
    noun = asked.take("noun", "days", "nights", "months", "years")
    _small_words(asked)
    asked.take("preposition", "with")
    glass = asked.take("state", "under_cover")
    topic = take_topic(asked)
    if glass is not None:
        raise RefusedError("say which house or frame: the diary reads each apart")
    if topic.things or (topic.places and noun is not None and noun.name not in ("days", "nights")):
        raise NotThisKindError
    period = _period(asked)
    asked.done()
    if noun is not None and noun.name in ("months", "years"):
        return _extreme_span(asked, found, noun.name.removesuffix("s"), period)
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
        if low:
            raise NotThisKindError
        asked.take("preposition", "in")
        return _ENDS["wettest"]
    return _ENDS["warmest"] if high else _ENDS["coldest"]


def _extreme_day(asked: Asked, end: _End, period: Period, places: tuple[str, ...]) -> Answer:
    days = spans.readings(asked.diary, end.variable, period.first, period.last, places).dropna()
    if days.empty and period.before:
        period = period.before
        days = spans.readings(asked.diary, end.variable, period.first, period.last, places).dropna()
    if days.empty:
        return _silent(asked, "rain" if end.variable == "rain" else "temperature", period)
    value = float(days.max() if end.high else days.min())
    ties = [stamp for stamp, each in days.items() if each == value]
    spelled = " and ".join(day_words(day(stamp), weekday=True) for stamp in ties)  # type: ignore[arg-type]
    noun = "night" if end.words == "coldest" else "day"
    were = "was" if len(ties) == 1 else "were"
    noun = noun if len(ties) == 1 else f"{noun}s"
    where = f" in {places[0]}" if places else ""
    rows = _glass_evidence(asked, ties, end.variable, places)
    return Answer(
        True,
        f"The {end.words} {noun}{where}{_said(period)} {were} {spelled}: "
        f"{figure(value)} {end.unit}.",
        value=value,
        unit=end.unit,
        date=day(ties[0]) if len(ties) == 1 else None,  # type: ignore[arg-type]
        date_end=day(ties[0]) if len(ties) == 1 else None,  # type: ignore[arg-type]
        rows=tuple({"date": stamp, end.variable: value} for stamp in ties),
        evidence=rows,
        caveats=_gaps(asked, end.variable, period, places),
    )


def _glass_evidence(
    asked: Asked, days: Any, variable: str, places: tuple[str, ...]
) -> tuple[Evidence, ...]:
    if not places:
        return _evidence(asked, days, (variable,))
    weather = asked.diary.weather
    mine = weather["date"].isin(list(days)) & weather["place"].isin(places)
    return _lines(asked, weather[mine & (weather["variable"] == variable)])


def _gaps(asked: Asked, variable: str, period: Period, places: tuple[str, ...]) -> tuple[str, ...]:
    every = spans.readings(asked.diary, variable, period.first, period.last, places)
    read = int(every.notna().sum())
    noun = {"rain": "rain", "t_min": "the minimum", "t_max": "the maximum"}[variable]
    if places:
        return (f"it is written on {counted(read, 'day')} there",)
    return _unread(read, len(every) - read, noun)


def _extreme_span(asked: Asked, end: _End, span: str, period: Period) -> Answer:
    """The wettest or driest month or year: of those that were read whole."""
    if end.variable != "rain":
        raise RefusedError(f"ask for the {end.words} day; a {span}'s mean is not worked out here")
    days = spans.readings(asked.diary, "rain", period.first, period.last)
    if not days.notna().any():
        return _silent(asked, "rain", period)
    table = spans.by_span(days, span)
    whole = table[table["unread"] == 0]
    if whole.empty:
        return nothing(f"No {span} was read whole{_said(period)}, so none can be the {end.words}.")
    order = whole.sort_values("value", ascending=not end.high, kind="stable")
    best = order.iloc[0]
    name = f"{best[span].start_time:%B %Y}" if span == "month" else str(best[span].year)
    left = len(table) - len(whole)
    note = (f"{counted(left, span)} not read whole {'is' if left == 1 else 'are'} left out",)
    return Answer(
        True,
        f"The {end.words} {span}{_said(period)} was {name}: {figure(float(best['value']))} mm.",
        value=round(float(best["value"]), 6),
        unit="mm",
        date=day(best[span].start_time),
        date_end=day(best[span].end_time),
        rows=tuple({span: str(row[span]), "mm": row["value"]} for row in order.to_dict("records")),
        caveats=note if left else (),
    )


# ---------------------------------------------------------------- dry spells


def _spell(asked: Asked) -> Answer:
    """`longest dry spell in 2025`, `how long did we go without rain`."""
    if asked.take("kind", "dry_spell"):
        asked.take("superlative", "longest")
        asked.take("head", "when", "how_long", "what", "which")
    else:
        asked.need("head", "how_long")
        asked.take("act", "go")
        asked.need("state", "without")
        asked.need("kind", "rain")
    _small_words(asked)
    period = _period(asked)
    asked.done()
    count, first, last = spans.dry_run(asked.diary, period.first, period.last)
    if not count:
        return _silent(asked, "rain", period)
    return Answer(
        True,
        f"The longest stretch under 1 mm of rain{_said(period)} was {counted(count, 'day')}, "
        f"from {day_words(day(first))} to {day_words(day(last))}.",
        value=count,
        unit="days",
        date=day(first),
        date_end=day(last),
        evidence=_evidence(asked, pd.date_range(first, last), ("rain",)),
        caveats=_gap_beside(asked, "rain", period),
    )


# ---------------------------------------------------------------- how warm


def _temperature(asked: Asked) -> Answer:
    """`how cold did the tunnel get last week`, `how warm was 20 June`: lowest and highest."""
    head = asked.take("head", "how_cold", "how_warm")
    if head is None:
        asked.need("head", "what", "how_much")
        asked.need("kind", "temperature")
    asked.take("kind", "temperature")
    _small_words(asked)
    topic = take_topic(asked)
    if topic.things or len(topic.places) > 1:
        raise NotThisKindError
    period = _period(asked)
    asked.done()
    places = topic.places[0].names if topic.places else ()
    low, high = (_ends(asked, name, period, places) for name in ("t_min", "t_max"))
    if low is None and high is None:
        where = f" {topic.there}" if topic.there else ""
        return nothing(
            f"No temperature is written{where}{_said(period)}; {record_words(asked.diary)}."
        )
    one_day = period.first is not None and period.first == period.last
    chosen = high if head and head.name == "how_warm" else low if head else None
    return _temperature_answer(asked, topic.there, period, low, high, chosen, one_day, places)


def _ends(
    asked: Asked, variable: str, period: Period, places: tuple[str, ...]
) -> tuple[float, pd.Timestamp] | None:
    days = spans.readings(asked.diary, variable, period.first, period.last, places).dropna()
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
    one_day: bool,
    places: tuple[str, ...],
) -> Answer:
    parts = []
    for end, word in ((low, "lowest"), (high, "highest")):
        if end is not None:
            on = "" if one_day else f" (on {day_words(day(end[1]))})"
            parts.append(f"the {word} was {figure(end[0])} C{on}")
    where = f" {there}" if there else ""
    stamps = [end[1] for end in (low, high) if end is not None]
    return Answer(
        True,
        capital(f"{' and '.join(parts)}{where}{_said(period)}."),
        value=chosen[0] if chosen else None,
        unit="C",
        date=day(chosen[1]) if chosen else None,
        date_end=day(chosen[1]) if chosen else None,
        rows=tuple(
            {"date": end[1], "measure": word, "value": end[0]}
            for end, word in ((low, "lowest"), (high, "highest"))
            if end is not None
        ),
        evidence=tuple(
            dict.fromkeys(
                line
                for variable in ("t_min", "t_max")
                for line in _glass_evidence(asked, stamps, variable, places)
            )
        ),
        caveats=() if one_day else _gaps(asked, "t_min", period, places),
    )
