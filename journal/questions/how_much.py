"""How much was picked: kg and counts of a crop or place in a period, with what was not weighed."""

import pandas as pd

from journal.questions.asked import Asked, NotThisKind, one_period
from journal.questions.evidence import evidence_of, perhaps_in, record_words, surely_in
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period
from journal.questions.saying import capital, counted, figure, kilograms
from journal.questions.topic import Topic, take_topic
from journal.reference.units import convert, unit_table
from journal.studies.pickings import pickings, sum_pickings

_MASSES = {"kg": "kg", "gram": "g", "lb": "lb", "oz": "oz", "stone": "st", "tonne": "t"}


def answer_how_much(asked: Asked) -> Answer:
    """`how much did we pick from Long 1 in 2025`, `how many pounds of courgettes in July`."""
    many = asked.take("head", "how_many") is not None
    if not many and not asked.take("head", "how_much"):
        asked.need("kind", "weight")
    asked.take("kind", "weight")
    asked.pass_over("did", "was", "have", "get", "come", "is")
    unit = asked.take("unit", *_MASSES)
    act = asked.take("act")
    if act and act.name != "harvest":
        raise NotThisKind
    asked.take("state", "together")
    topic = take_topic(asked, "harvest")
    period = one_period(asked)
    asked.done()
    return _answer(asked, topic, period, _MASSES[unit.name] if unit else "", many and not unit)


def _answer(asked: Asked, topic: Topic, period: Period | None, unit: str, counts: bool) -> Answer:
    picked = topic.rows(pickings(asked.diary.events))
    rows = surely_in(picked, period)
    if rows.empty and period and period.before:
        period = period.before
        rows = surely_in(picked, period)
    what = " ".join(filter(None, [topic.said or "anything", topic.there]))
    said = f" {period.said}" if period else ""
    if rows.empty:
        return nothing(f"No picking of {what} is written{said}; {record_words(asked.diary)}.")
    sums = sum_pickings(rows.assign(all=0), ["all"]).iloc[0]
    frame = sum_pickings(rows, ["year", "crop", "cultivar", "place"])
    kept = ["year", "crop", "cultivar", "place", "kg", "count", "pickings", "unweighed"]
    value, value_unit, amount = _amount(sums, unit, counts)
    return Answer(
        True,
        capital(f"{what.replace('anything', 'everything')} came to {amount}{said}."),
        value=value,
        unit=value_unit,
        rows=tuple(frame[kept].to_dict("records")),
        evidence=evidence_of(asked.diary, rows, len(rows)),
        caveats=_caveats(sums, perhaps_in(picked, period)),
    )


def _amount(
    sums: "pd.Series[float]", unit: str, counts: bool
) -> tuple[float | None, str | None, str]:
    kg, count = sums["kg"], sums["count"]
    if counts and not pd.isna(count):
        return float(count), None, figure(float(count))
    if pd.isna(kg):
        if pd.isna(count):
            return None, None, f"{counted(int(sums['pickings']), 'picking')}, none of them weighed"
        return float(count), None, figure(float(count))
    words = kilograms(float(kg))
    if unit not in ("", "kg"):
        table = unit_table()
        other = convert(float(kg), table["kg"], table[unit])
        words = f"{figure(other)} {unit} ({words})"
    return float(kg), "kg", words


def _caveats(sums: "pd.Series[float]", doubtful: pd.DataFrame) -> tuple[str, ...]:
    found = []
    if sums["unweighed"] and not pd.isna(sums["kg"]):
        found.append(
            f"{figure(float(sums['unweighed']))} of {counted(float(sums['pickings']), 'picking')} "
            "were not weighed, so it was at least that"
        )
    if len(doubtful):
        found.append(f"{counted(len(doubtful), 'more picking')} may lie in it or not")
    return tuple(found)
