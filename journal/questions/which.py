"""Which did best or worst, gave most, took longest: rankings by weight, ground, time or times."""

import re
from dataclasses import dataclass, replace
from typing import Any

import pandas as pd

from journal.questions.acting import act_events, done_events, settled_act
from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import dated, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period
from journal.questions.saying import capital, counted, crop_said, duration, figure, kilograms, times
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.rankings import (
    amount_ranking,
    bed_yield_ranking,
    occasion_ranking,
    with_days,
    yield_ranking,
)

_BY = {
    "people": "party",
    "beds": "place",
    "places": "place",
    "years": "year",
    "months": "month",
    "days": "day",
    "crops": "crop",
    "varieties": "cultivar",
    "jobs": "work",
}
_RATES = {
    "square_metre": "kg_per_m2",
    "plants": "kg_per_plant",
    "metre": "kg_per_m",
}
_RATE_WORDS = {
    "kg_per_m2": "kg per square metre",
    "kg_per_plant": "kg per plant",
    "kg_per_m": "kg per metre of row",
}
_LEAST = ("worst", "least", "shortest")
_MOST = ("best", "most", "longest", *_LEAST)


@dataclass(frozen=True, slots=True)
class Sought:
    """A ranking: by what, of which topic and act, in which measure, and which end of it."""

    by: str
    topic: Topic
    act: Act | None
    measure: str
    least: bool
    period: Period | None
    beds: bool = False


def answer_which(asked: Asked) -> Answer:
    """`which potato did best`, `which bed took the most time`, `worst year for onions`."""
    end = asked.need("superlative", *_MOST)
    head = asked.take("head", "which", "what", "where", "who", "when")
    nouns = asked.take_all("noun", *_BY)
    timed = bool(asked.take("noun", "times")) or bool(asked.take("unit", "hour", "minute"))
    took = asked.take("aux", "take", "spend") is not None
    per = asked.take("per", *_RATES)
    weight = asked.take("kind", "weight")
    asked.take_all("preposition", "in", "from", "on", "for", "to")
    asked.take("noun", "jobs" if timed else "crops")
    # `which crop gave most` is its yield, `which crop did I give most` is not
    of_itself = not asked.has("self") and not asked.has("person")
    gave = asked.take("aux", "come") or (of_itself and asked.take("act", "give"))
    asked.pass_over("did", "was", "have", "is", "get", "do")
    # `the heaviest picking` is that of a day
    single = any(p.kind == "act" and asked.words(p).lower() == "picking" for p in asked.left)
    had = re.search(r"\b(?:got?|gets?|had)\b", asked.text, re.IGNORECASE)
    act = ACTS["harvest"] if gave else _act(asked)
    if act is not None and act.name in ("water", "feed") and had:
        raise RefusedError(f"it is ranked by how often; ask which was {act.past} most often")
    if timed and act is not None and act.name == "use":
        # `which bed has eaten most of my time`
        act = None
    topic = take_topic(asked, act.name if act else "")
    period = take_period(asked)
    asked.done()
    beds = any(noun.name == "beds" for noun in nouns)
    by = _by_what(head.name if head else "", [noun.name for noun in nouns], topic, single=single)
    timed = timed or (len(nouns) > 1 and any(noun.name == "jobs" for noun in nouns))
    measure = _measure(end.name, timed or took, per.name if per else "", act, by)
    if weight and measure != "kg":
        raise NotThisKindError
    if re.search("often|frequently", asked.words(end), re.IGNORECASE):
        if act is None or measure not in ("kg", "times"):
            raise NotThisKindError
        measure = "times"
    return _rank(asked, Sought(by, topic, act, measure, end.name in _LEAST, period, beds))


def _act(asked: Asked) -> Act | None:
    part = asked.take("act")
    if part is None:
        return None
    if asked.has("act"):
        raise NotThisKindError
    return ACTS[SAME_ACT.get(part.name, part.name)]


def _by_what(head: str, nouns: list[str], topic: Topic, *, single: bool) -> str:
    """What is ranked; of a crop its cultivars, where nothing else is said."""
    kinds = list(dict.fromkeys(_BY[noun] for noun in nouns))
    if head == "where":
        kinds.append("place")
    if head == "when":
        kinds.append("day")
    if not kinds and single:
        kinds.append("day")
    if head == "who":
        kinds = ["party"]
    if "work" in kinds and len(kinds) == 2:
        # `which bed was the most work` is asked of the bed
        kinds.remove("work")
    if "crop" in kinds and len(kinds) == 2:
        # `which bed gave the best crop`
        kinds.remove("crop")
    if len(kinds) > 1:
        raise RefusedError("it asks for two rankings at once; ask for one")
    if kinds == ["crop"] and len(topic.crops) == 1:
        # `which tomato was the best cropper`
        return "cultivar"
    if kinds:
        return kinds[0]
    if topic.crops:
        return "cultivar"
    if head == "what":
        return "crop"
    raise NotThisKindError


def _measure(end: str, timed: bool, per: str, act: Act | None, by: str) -> str:
    if per:
        if timed or (act and act.name != "harvest"):
            raise NotThisKindError
        return _RATES[per]
    if timed or end in ("longest", "shortest") or by == "work":
        return "minutes"
    if by == "party" and (act is None or act.name not in ("give", "sell", "swap", "buy")):
        raise NotThisKindError
    if act is None or act.name == "harvest":
        return "kg"
    if end in ("best", "worst"):
        raise NotThisKindError
    return "times"


def _rank(asked: Asked, sought: Sought) -> Answer:
    span = span_of(dated(_events(asked, sought)), sought.period)
    if sought.beds:
        beds = {place.name for place in asked.diary.sheet.places if place.kind == "bed"}
        span = replace(span, rows=span.rows[span.rows["place"].isin(beds)])
    if span.rows.empty and sought.topic.label:
        raise RefusedError(f"I cannot tell what `{sought.topic.label}` does in that question")
    table = _table(asked, sought, span.rows)
    dropped = ""
    if sought.least and sought.by == "year":
        # a year that is still open has not had its chance
        open_year = table["year"] == asked.clock.today.year
        dropped = f"{asked.clock.today.year} is not over and is left out" if any(open_year) else ""
        table = table[~open_year]
    known = table.dropna(subset=sought.measure)
    if known.empty:
        return _unknown(asked, sought, span, table)
    order = known.sort_values(sought.measure, ascending=sought.least, kind="stable")
    return _answer(asked, sought, span, order, table, dropped)


def _events(asked: Asked, sought: Sought) -> pd.DataFrame:
    done = done_events(asked.diary)
    if sought.measure == "minutes":
        events = sought.topic.rows(sought.act.rows(done) if sought.act else done)
        return events[events["minutes"].notna()]
    act = settled_act(sought.act or ACTS["harvest"], sought.topic)
    return act_events(asked, act, sought.topic)


def _table(asked: Asked, sought: Sought, rows: pd.DataFrame) -> pd.DataFrame:
    by = ["crop", "cultivar"] if sought.by == "cultivar" else [sought.by]
    if sought.measure == "minutes":
        return amount_ranking(rows, "minutes", by)
    if sought.measure == "times":
        return occasion_ranking(rows, by)
    if by == ["place"] and not sought.topic.crops:
        return bed_yield_ranking(asked.diary, rows)
    return yield_ranking(asked.diary, rows, by)


def _unknown(asked: Asked, sought: Sought, span: Span, table: pd.DataFrame) -> Answer:
    what = sought.topic.what or "it"
    if table.empty or sought.measure not in _RATE_WORDS:
        lack = f"Nothing is written that would rank {what}{span.said}"
        return nothing(f"{lack}; {record_words(asked.diary)}.", span.doubts)
    words = _RATE_WORDS[sought.measure]
    return nothing(f"The diary does not tell the ground of {what}{span.said}, so no {words}.")


def _answer(
    asked: Asked,
    sought: Sought,
    span: Span,
    order: pd.DataFrame,
    table: pd.DataFrame,
    dropped: str,
) -> Answer:
    best = order.iloc[0]
    value = float(best[sought.measure])
    ties = order[order[sought.measure] == best[sought.measure]]
    winner = " and ".join(_named(sought, row) for row in ties.to_dict("records"))
    rows = _rows_of(sought, span.rows, ties)
    return Answer(
        True,
        capital(f"{_sentence(sought, winner, value, span)}{_next(sought, order, len(ties))}."),
        value=round(value, 6),
        unit={"kg": "kg", "minutes": "min"}.get(sought.measure),
        rows=table_rows(order),
        evidence=evidence_of(asked.diary, rows),
        caveats=(
            *filter(None, [dropped, _unranked(sought, table, order)]),
            *_by_ground(sought, table),
            *_unweighed(sought, table),
            *sought.topic.notes,
            *span.doubts,
        ),
    )


def _named(sought: Sought, row: dict[Any, Any]) -> str:
    if sought.by == "cultivar":
        several = len(sought.topic.crops) != 1
        return f"'{row['cultivar']}'" + (f" {crop_said(row['crop'])}" if several else "")
    if sought.by == "crop":
        return crop_said(row["crop"])
    if sought.by == "day":
        return f"{row['day'].day} {row['day']:%B %Y}"
    if sought.by == "work":
        return _NOUN_OF_VERB.get(str(row["work"]), str(row["work"]))
    return str(int(row["year"])) if sought.by == "year" else str(row[sought.by])


_NOUN_OF_VERB = {
    verb: act.noun for act in ACTS.values() if len(act.verbs) == 1 for verb in act.verbs
}


def _sentence(sought: Sought, winner: str, value: float, span: Span) -> str:
    """`'Charlotte' gave the most of the potatoes in 2025: 24 kg`."""
    amount = _amount(sought, value)
    rank = "least" if sought.least else "most"
    if sought.measure == "minutes":
        what = f" {sought.act.noun}" if sought.act else ""
        of_all = f" {sought.topic.what}" if sought.topic.what else ""
        return f"{winner} took the {rank} time{what}{of_all}{span.said}: {amount}"
    if sought.by == "party":
        return f"most often it was {winner}{span.said}: {amount}"
    if sought.measure == "times":
        done = sought.act.past if sought.act else "done"
        of_all = f" of {sought.topic.what}" if sought.topic.what else ""
        many = " and " in winner or (sought.by == "crop" and winner.endswith("s"))
        was = "were" if many else "was"
        return f"{winner} {was} {done} {rank} often{of_all}{span.said}: {amount}"
    if sought.by in ("year", "month", "day"):
        end = "worst" if sought.least else "best"
        what = f" for {sought.topic.what}" if sought.topic.what else ""
        return f"{winner} was the {end} {sought.by}{what}{span.said}: {amount}"
    of_all = f" of the {sought.topic.said}" if sought.topic.said else ""
    if sought.by == "place":
        of_all = f" {sought.topic.said}" if sought.topic.said else ""
    there = f" {sought.topic.there}" if sought.topic.there else ""
    return f"{winner} gave the {rank}{of_all}{there}{span.said}{_years(span)}: {amount}"


def _years(span: Span) -> str:
    """Without a period, the years that are taken together."""
    if span.period is not None or span.rows.empty:
        return ""
    first, last = int(span.rows["date"].dt.year.min()), int(span.rows["date_end"].dt.year.max())
    return f" from {first} to {last}" if first != last else f" in {first}"


def _amount(sought: Sought, value: float) -> str:
    if sought.measure in _RATE_WORDS:
        return f"{figure(value)} {_RATE_WORDS[sought.measure]}"
    if sought.measure == "minutes":
        return duration(value)
    return kilograms(value) if sought.measure == "kg" else times(round(value))


def _next(sought: Sought, order: pd.DataFrame, ties: int) -> str:
    if len(order) <= ties:
        return ""
    row = order.iloc[ties]
    said = _amount(sought, float(row[sought.measure]))
    return f"; next {_named(sought, {str(k): v for k, v in row.items()})}, {said}"


def _rows_of(sought: Sought, rows: pd.DataFrame, ties: pd.DataFrame) -> pd.DataFrame:
    by = ["crop", "cultivar"] if sought.by == "cultivar" else [sought.by]
    found = with_days(rows).merge(ties[by], on=by)
    return found


def _unranked(sought: Sought, table: pd.DataFrame, order: pd.DataFrame) -> str:
    lost = len(table) - len(order)
    if not lost:
        return ""
    why = "the diary does not tell their ground" if sought.measure in _RATE_WORDS else "not weighed"
    if sought.by == "place" and sought.measure in _RATE_WORDS and not sought.topic.crops:
        why = "nothing was weighed there, or the sheet gives no size"
    return f"{counted(lost, 'other')} could not be ranked: {why}"


def _unweighed(sought: Sought, table: pd.DataFrame) -> tuple[str, ...]:
    if sought.measure in ("minutes", "times") or not table["unweighed"].sum():
        return ()
    count = int(table["unweighed"].sum())
    return (
        f"{counted(count, 'picking')} had no weight, and "
        f"{'counts' if count == 1 else 'count'} for nothing",
    )


def _by_ground(sought: Sought, table: pd.DataFrame) -> tuple[str, ...]:
    """Where it is known of all, who leads per square metre instead."""
    if sought.measure != "kg" or "kg_per_m2" not in table or table["kg_per_m2"].isna().any():
        return ()
    if sought.by not in ("cultivar", "crop") or len(table) < 2:
        return ()
    order = table.sort_values("kg_per_m2", ascending=sought.least, kind="stable")
    best = order.iloc[0]
    return (
        f"per square metre it was {_named(sought, best.to_dict())}, "
        f"{figure(float(best['kg_per_m2']))} kg",
    )
