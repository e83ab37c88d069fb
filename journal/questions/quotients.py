"""Hours against harvest: what a kilo of a crop took in work, a year at a time."""

from collections.abc import Sequence

import pandas as pd

from journal.questions.acting import all_pickings, done_events
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import evidence_of, record_words, surely_in, table_rows
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import Period
from journal.questions.saying import (
    capital,
    counted,
    crop_said,
    duration,
    figure,
    kilograms,
    listed,
)
from journal.questions.spans import take_period
from journal.questions.topic import take_topic
from journal.studies.hours_per_kilo import hours_per_kilo
from journal.studies.yearly_yield import yearly_yield


def answer_average_yield(asked: Asked) -> Answer:
    """`how much do we usually get from the courgettes`: the mean of the whole years before now."""
    if not asked.take("head", "how_much", "how_many", "what"):
        raise NotThisKindError
    asked.need("ahead", "usually")
    asked.take("unit", "kg")
    asked.take("kind", "weight")
    asked.pass_over("did", "was", "do", "is", "have", "get", "come")
    asked.take("act", "harvest_noun", "harvest")
    asked.take_all("preposition", "for", "from")
    asked.take("noun", "crops", "years")
    asked.take("each", "years")
    asked.take("per", "years")
    topic = take_topic(asked, batches=False)
    asked.done()
    if not topic.things or any(thing.kind != "crop" for thing in topic.things):
        raise NotThisKindError
    picked = topic.rows(all_pickings(asked.diary))
    found = yearly_yield(picked, asked.clock.today.year)
    if found is None:
        return nothing(
            f"No whole year has weighed pickings of {topic.what}; {record_words(asked.diary)}."
        )
    years = counted(found.years, "year")
    return Answer(
        True,
        capital(
            f"{topic.what} gave {kilograms(found.mean)} a year on average "
            f"({kilograms(found.low)} to {kilograms(found.high)}, over {years})."
        ),
        value=round(found.mean, 6),
        unit="kg",
        evidence=evidence_of(asked.diary, _weighed_before(picked, asked.clock.today.year)),
        caveats=(
            "over the years that have pickings of it; what was not weighed counts for nothing",
            *topic.notes,
        ),
    )


def _weighed_before(picked: pd.DataFrame, year: int) -> pd.DataFrame:
    """The pickings with a weight before a year, in their order."""
    kept = picked["mass_kg"].notna() & picked["date_end"].dt.year.lt(year)
    rows: pd.DataFrame = picked[kept.fillna(False)].sort_values(["date", "event"])
    return rows


def _work_and_pickings(
    asked: Asked, crops: Sequence[str], period: Period | None
) -> tuple[Evidence, ...]:
    """The timed work and the weighed pickings that name these crops."""
    done = done_events(asked.diary)
    told = done["minutes"].notna() | (done["kind"].eq("harvest") & done["mass_kg"].notna())
    return evidence_of(asked.diary, surely_in(done[done["crop"].isin(list(crops)) & told], period))


def answer_per_kilo(asked: Asked) -> Answer:
    """`how many hours per kilo did the tomatoes take in 2025`: work that names the crop."""
    per = asked.need("per", "kg")
    asked.take("head", "how_many", "how_long", "how_much", "what", "which")
    end = asked.take("superlative", "most", "least", "best", "worst", "longest", "shortest")
    work = asked.take("unit", "hour", "minute")
    work = work or asked.take("noun", "times", "jobs") or asked.take("aux", "take", "spend")
    if work is None or per is None:
        raise NotThisKindError
    asked.take("noun", "crops", "jobs", "times")
    asked.pass_over("did", "was", "take", "spend", "do", "is", "have", "get")
    asked.take("preposition", "for", "on", "of")
    topic = take_topic(asked, batches=False)
    period = take_period(asked)
    asked.done()
    if topic.places or any(thing.cultivar for thing in topic.things):
        raise RefusedError("hours per kilo are told of a crop in a year")
    if period is not None and period.year is None:
        raise RefusedError("hours per kilo are told by calendar year; ask for a year")
    if not topic.crops and end is None:
        raise NotThisKindError
    frame = hours_per_kilo(asked.diary, period.year if period else None)
    if topic.crops:
        frame = frame[frame["crop"].isin(topic.crops)]
    said = f" {period.said}" if period else ""
    if frame.empty:
        return nothing(
            f"No work that names {topic.said or 'a crop'} stands beside weighed pickings{said}; "
            f"{record_words(asked.diary)}."
        )
    least = end is not None and end.name in ("least", "best", "shortest")
    order = frame.sort_values("hours_per_kg", ascending=least)
    shown = order.head(3) if end is not None else order
    words = [
        f"{crop_said(row['crop'])} took {duration(60 * row['hours_per_kg'])} a kilo "
        f"({figure(row['hours'])} hours for {figure(row['kg'])} kg)"
        for row in shown.to_dict("records")
    ]
    one = len(frame) == 1 or end is not None
    value = float(order["hours_per_kg"].iloc[0])
    return Answer(
        True,
        capital(f"{listed(words)}{said}."),
        value=round(value, 6) if one else None,
        unit="h" if one else None,
        rows=table_rows(order),
        evidence=_work_and_pickings(asked, list(shown["crop"]), period),
        caveats=(
            "by the timed work that names the crop, or a place that it had alone",
            f"over {counted(len(order), 'crop')}"
            if end is not None
            else "what was not timed or weighed counts for nothing",
        ),
    )
