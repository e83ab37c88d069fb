"""How much and how many: what was picked, sown, given, used, lost or spread, added up."""

import re
from dataclasses import dataclass, replace
from typing import Any

import pandas as pd

from journal.questions.acting import act_events, all_pickings, past, settled_act, take_act
from journal.questions.acts import ACTS, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import evidence_of, record_words, table_rows
from journal.questions.measures import Measure, measure_of, unit_measure
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period
from journal.questions.raised import raised_then
from journal.questions.saying import capital, counted, figure, listed, placed
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.seasons import certain_month, certain_year
from journal.studies.tallies import Tally, tally, tally_by

# what an act is counted in, the likeliest first
_COLUMNS = {
    "sow": ("count", "length_m", "mass_kg", "area_m2"),
    "go_in": ("count", "length_m", "mass_kg", "area_m2"),
    "harvest": ("mass_kg", "count"),
    "water": ("volume_l",),
    "feed": ("volume_l", "mass_kg", "dose_l"),
    "spread": ("volume_l", "mass_kg"),
    "mulch": ("volume_l", "mass_kg"),
    "dig_in": ("volume_l", "mass_kg"),
    "lime": ("mass_kg", "volume_l"),
    "fill": ("volume_l", "mass_kg", "count"),
    "empty": ("volume_l", "mass_kg"),
    "fetch": ("volume_l", "mass_kg", "count"),
    "move": ("volume_l", "count", "mass_kg"),
    "spray": ("volume_l",),
    "treat": ("volume_l", "mass_kg", "count"),
    "lose": ("count",),
    "buy": ("count", "mass_kg", "volume_l", "packets"),
}
_KITCHEN = ("store", "use", "freeze", "dry", "bottle", "give", "sell", "swap", "waste", "save")
_KITCHEN_COLUMNS = ("mass_kg", "count", "volume_l")
_PLANTS = ("plant_out", "pot_on", "pot_up", "prick_out", "thin", "heel_in", "patrol", "clear")
_DEALINGS = ("give", "sell", "swap", "buy")
_EACH = {
    "years": "year",
    "months": "month",
    "crops": "crop",
    "varieties": "cultivar",
    "beds": "place",
}


@dataclass(frozen=True, slots=True)
class Sought:
    """What is to be added up: an act on a topic, in which measure, by what it is parted."""

    act: Act
    topic: Topic
    many: bool
    unit: Measure | None
    each: str


def answer_amount(asked: Asked) -> Answer:
    """`how much did we pick from North 1 in 2025`, `how many leeks did I plant out`."""
    many = _take_head(asked)
    unit = unit_measure(asked)
    if asked.take("kind", "weight"):
        # `what did the courgettes weigh in at`
        asked.take_all("preposition", "in", "at")
    asked.pass_over("did", "was", "have", "done")
    if asked.has("self") or asked.has("act"):
        # `what is the weight of the potatoes we dug up`
        weighed = any(part.kind == "kind" and part.name == "weight" for part in asked.parts)
        asked.pass_over(*(("is",) if weighed else ()))
    asked.take_all("state", "together")
    asked.take("noun", "plants")
    each = asked.take("each", *_EACH)
    # `how much tomato did we grow` is its weight, `how many tomatoes` its plants
    grew = not many and not asked.has("act") and asked.take("aux", "grow")
    act = ACTS["harvest"] if grew else _take_act(asked, parted=each is not None)
    if not many and not asked.has("thing"):
        # `how much veg did we grow`
        asked.take("noun", "crops")
    if act is None and asked.has("thing") and not many:
        # `how big was the tomato crop`
        asked.take("noun", "crops")
    topic = take_topic(asked, act.name if act else "", people=bool(act and act.name in _DEALINGS))
    if act is None and each and topic.is_empty:
        # `how much did each bed give`
        act = ACTS["harvest"]
    if act is None:
        if asked.has("aux", "get") and any(
            p.kind == "thing" and p.name == "for" for p in asked.parts
        ):
            # what was got for the tomatoes is money
            raise NotThisKindError
        act = _picked(asked, topic)
    fell = [part for part in asked.left if part.kind == "aux" and part.name == "come"]
    if act.name == "water" and fell:
        raise RefusedError(f"`{asked.words(fell[0])}` is said of rain; ask how much rain fell")
    if act.name == "harvest" and unit and unit.column == "volume_l" and not topic.places:
        raise RefusedError("say what was done: watered, fed, spread")
    asked.take("aux", "get", "come", "take")
    period = take_period(asked)
    asked.done()
    act = settled_act(act, topic)
    if act.name == "harvest" and _of_one(asked):
        raise RefusedError("what a single one weighed is not told; ask for the weight of all")
    return _sum(asked, Sought(act, topic, many, unit, _EACH[each.name] if each else ""), period)


def _take_head(asked: Asked) -> bool:
    """Whether a number is asked for; a `total weight` or a `harvest` needs no head."""
    if asked.take("head", "how_many"):
        return True
    if asked.take("head", "how_much"):
        return False
    if asked.has("aux", "do") and not asked.has("act") and asked.take("head", "how", "how_well"):
        # `how did the tomatoes do in 2025`
        asked.take("aux", "do")
        return False
    if asked.has("noun", "crops") and asked.take("head", "how_big"):
        return False
    come_to = asked.has("aux", "come") and asked.has("preposition", "to") and asked.has("thing")
    if come_to and asked.take("head", "what"):
        # `what did the tomatoes come to`
        asked.take("preposition", "to")
        return False
    told = asked.has("act") or asked.has("thing") or asked.has("place")
    if asked.parts[0].kind == "unit" and told and not asked.has("head"):
        # `kilos of leeks dug in January`, `kg of beans 2024`
        return False
    if asked.parts[0].kind == "thing" and asked.has("each"):
        # `potatoes by year`
        return False
    if asked.has("head") and not asked.take("head", "what"):
        raise NotThisKindError
    if not (asked.has("kind", "weight") or asked.has("act", "harvest_noun")):
        raise NotThisKindError
    return False


def _of_one(asked: Asked) -> bool:
    """`how much did an onion weigh`: of one, not of all of them."""
    things = [part for part in asked.parts if part.kind == "thing"]
    return any(_ONE.search(asked.text[: part.start]) for part in things)


_ONE = re.compile(r"\b(?:an?|one|single|typical) $", re.IGNORECASE)


def _take_act(asked: Asked, *, parted: bool) -> Act | None:
    if asked.take("act", "harvest_noun"):
        return ACTS["harvest"]
    # `how much water did I give the tomatoes`, `how many beans did I lift and store`
    if asked.has("act", "water") and asked.take("act", "give", "use"):
        asked.need("act", "water")
        return ACTS["water"]
    out = next((part for part in asked.left if part.kind == "act" and part.name == "clear"), None)
    if out is not None and asked.words(out).lower().startswith(("come out", "came out")):
        # `how much garlic came out of Platform 4`
        asked.take("act", "clear")
        asked.take("preposition", "from")
        return ACTS["harvest"]
    by_itself = not any(part.kind in ("self", "person") for part in asked.parts)
    gives = parted or asked.has("place") or asked.has("thing")
    if by_itself and gives and asked.take("act", "give"):
        # `how much did Platform 1 give us back`
        asked.take("particle", "back")
        return None
    if asked.has("act", "pay"):
        raise NotThisKindError
    if asked.has("act"):
        return take_act(asked)
    return None


def _picked(asked: Asked, topic: Topic) -> Act:
    """Without an act a crop, or what came from a place, is what was picked of it."""
    others = [thing.said for thing in topic.things if thing.kind != "crop"]
    if others:
        raise RefusedError(
            f"say what was done with {listed(others)}: spread, fetched, dug in, used"
        )
    from_there = any(place.preposition in ("from", "") for place in topic.places)
    if not topic.crops and not from_there and not asked.has("aux", "get", "come", "take", "grow"):
        raise NotThisKindError
    asked.take("aux", "grow")
    return ACTS["harvest"]


def _sum(asked: Asked, sought: Sought, period: Period | None) -> Answer:
    act, topic = sought.act, sought.topic
    if act.name == "harvest":
        events = topic.rows(all_pickings(asked.diary))
    else:
        events = act_events(asked, act, topic)
    span = span_of(events[events["date"].notna()], period)
    if span.rows.empty:
        narrowing = [t.said for t in topic.things if t.kind in ("task", "cover")]
        if topic.crops and narrowing:
            raise RefusedError(f"I cannot tell what `{listed(narrowing)}` narrows it to")
        return nothing(
            f"Nothing is written of {topic.being(act.name, act.past, act.noun)}{span.said}; "
            f"{record_words(asked.diary)}.",
            (*raised_then(asked, act, topic, span.period), *topic.notes, *span.doubts),
        )
    measure = _measure(sought, span.rows)
    if measure is None:
        return _not_measured(asked, sought, span)
    return _answer(asked, sought, span, measure)


def _measure(sought: Sought, rows: pd.DataFrame) -> Measure | None:
    """The measure asked for where some event has it, else the likeliest that one has."""
    if sought.unit is not None:
        return sought.unit if rows[sought.unit.column].notna().any() else None
    columns: tuple[str, ...] = ("count", "mass_kg", "volume_l")
    if any(thing.kind == "material" for thing in sought.topic.things):
        columns = ("volume_l", "mass_kg", "count")
    elif sought.act.name in _COLUMNS:
        columns = _COLUMNS[sought.act.name]
    elif sought.act.name in _KITCHEN:
        columns = _KITCHEN_COLUMNS
    elif sought.act.name in _PLANTS:
        columns = ("count",)
    if sought.many:
        columns = ("count",)
    found = (column for column in columns if rows[column].notna().any())
    column = next(found, None)
    return measure_of(column) if column else None


def _not_measured(asked: Asked, sought: Sought, span: Span) -> Answer:
    """What was asked for was not written; what was is said instead."""
    rows, what = span.rows, sought.topic.what or "what"
    if sought.unit is None and sought.many and rows["mass_kg"].notna().any():
        # nobody counts raspberries
        by_weight = _answer(asked, replace(sought, many=False), span, measure_of("mass_kg"))
        return replace(
            by_weight, caveats=("no number is written, only weights", *by_weight.caveats)
        )
    times = counted(rows[["file", "line"]].drop_duplicates().shape[0], "entry", "entries")
    others = [
        measure_of(column).said(total)
        for column in ("mass_kg", "volume_l", "count", "length_m")
        if (total := tally(rows, column).total) is not None
    ]
    asked_for = sought.unit.noun if sought.unit else "number" if sought.many else "amount"
    rest = f"; {listed(others)} is written" if others else ""
    done = f"{what} being {sought.act.past}{span.said}"
    return nothing(f"The diary has {times} of {done}, and no {asked_for}{rest}.")


def _answer(asked: Asked, sought: Sought, span: Span, measure: Measure) -> Answer:
    # in number only pickings that were counted count, by weight only those that were weighed
    rows = _one_per_picking(sought, span.rows)
    total = tally(rows, measure.column)
    assert total.total is not None
    keys = [sought.each] if sought.each else ["year", "crop", "cultivar", "place"]
    parted = rows.assign(year=certain_year(rows), month=_month(rows))
    table = tally_by(parted, measure.column, keys)
    if sought.each == "year":
        table = table.sort_values("year", ignore_index=True)
    if sought.each == "month":
        months = pd.to_datetime(table["month"], format="%B %Y", errors="coerce")
        table = table.iloc[months.argsort(kind="stable")].reset_index(drop=True)
    return Answer(
        True,
        _sentence(sought, span, measure, total, table),
        value=round(total.total, 6),
        unit=measure.unit,
        rows=table_rows(table),
        evidence=evidence_of(asked.diary, span.rows),
        caveats=(*_caveats(sought, total, measure), *sought.topic.notes, *span.doubts),
    )


def _one_per_picking(sought: Sought, rows: pd.DataFrame) -> pd.DataFrame:
    """Without a crop asked for, a weight written for several together is the weight of each."""
    if sought.act.name != "harvest" or sought.topic.crops:
        return rows
    together = rows.loc[rows["crop"].eq("") & rows["mass_kg"].notna(), "entry"]
    kept: pd.DataFrame = rows[~(rows["entry"].isin(together) & rows["crop"].ne(""))]
    return kept


def _sentence(
    sought: Sought, span: Span, measure: Measure, total: Tally, table: pd.DataFrame
) -> str:
    topic, act = sought.topic, sought.act
    amount = measure.said(total.total or 0.0)
    named = measure.of(amount, topic.said)
    stuff = measure.column == "mass_kg" and (topic.singular or not topic.said)
    one = total.total == 1 or stuff
    done = past(act, span.rows)
    if act.name == "patrol" and topic.said:
        done = "taken on patrol"
    party = f" {_TO.get(act.name, 'from')} {listed(topic.parties)}" if topic.parties else ""
    words = f"{named} {'was' if one else 'were'} {done}{party}"
    if act.name in ("water", "feed") and topic.what:
        subject = topic.what if topic.said else listed([place.said for place in topic.places])
        one = topic.singular if topic.said else len(topic.places) == 1
        words = f"{subject} {'was' if one else 'were'} {done} with {amount}"
    elif act.name == "water":
        words = f"{amount} of water {'was' if total.total == 1 else 'were'} given"
    elif topic.there:
        words = placed(words, topic.there)
    sentence = capital(words + span.said)
    if sought.each and len(table) > 1:
        groups = [
            f"{measure.said(row[measure.column])} {_by(sought.each, row)}"
            for row in table.to_dict("records")
            if not pd.isna(row[measure.column])
        ]
        return f"{sentence}: {listed(groups, most=12)}."
    return f"{sentence}{_over(span)}."


_TO = {"give": "to", "sell": "to"}


def _by(each: str, row: dict[Any, Any]) -> str:
    words = "" if pd.isna(row[each]) else str(row[each])
    if each == "cultivar":
        return f"of '{words}'" if words else "of no named variety"
    if each == "crop":
        return f"of {words}" if words else "of several together"
    nowhere = {"place": "with no place named"}.get(each, "on days that may lie in two")
    return f"in {words}" if words else nowhere


def _over(span: Span) -> str:
    """Without a period, the years that the sum runs over."""
    if span.period is not None and span.period.year is not None:
        return ""
    years = span.rows["date"].dt.year
    first, last = int(years.min()), int(span.rows["date_end"].dt.year.max())
    if span.period is not None and span.period.first and span.period.last:
        return ""
    return f", from {first} to {last}" if first != last else f", all in {first}"


def _month(rows: pd.DataFrame) -> "pd.Series[str]":
    named: pd.Series[str] = rows["date"].dt.strftime("%B %Y")
    return named.where(certain_month(rows).notna(), "")


def _caveats(sought: Sought, total: Tally, measure: Measure) -> tuple[str, ...]:
    found = []
    if total.missing:
        have = "has" if total.missing == 1 else "have"
        every = total.missing + total.given
        noun = sought.act.noun if every == 1 else _PLURAL.get(sought.act.name, "entries")
        found.append(
            f"{figure(total.missing)} of {figure(every)} {noun} {have} no {measure.noun}, "
            "so it was at least that"
        )
    if not total.certain:
        low, high = measure.said(total.low or 0.0), measure.said(total.high or 0.0)
        found.append(f"some amounts are written as about: between {low} and {high}")
    return tuple(found)


_PLURAL = {
    "harvest": "pickings", "sow": "sowings", "go_in": "plantings", "plant_out": "plantings out",
    "water": "waterings", "feed": "feeds", "lose": "losses", "buy": "purchases",
}  # fmt: skip
