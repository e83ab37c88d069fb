"""When the last frost of spring or the first of autumn usually is: the span of the own years."""

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import day, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.outlook import day_of_year
from journal.questions.periods import day_words
from journal.questions.readings import air_evidence, small_words
from journal.questions.saying import counted, listed
from journal.questions.weather import words_beside
from journal.studies.ahead import ENOUGH_YEARS
from journal.studies.climate import climate
from journal.studies.seasons import season_day

_MEASURES = {"last": "last spring frost", "first": "first autumn frost"}


def answer_usual_frost(asked: Asked) -> Answer:
    """`when is the last frost usually`, `usual date of the first frost`: earliest and latest day.

    Years that are over, of this diary's own minima; a crop or a place is no part of it.
    """
    if not asked.take_all("ahead", "usually"):
        raise NotThisKindError
    said = asked.take("kind", "last_spring_frost", "first_autumn_frost")
    order = asked.take("order", "first", "last") if said is None else None
    if said is None:
        asked.need("kind", "frost")
        if order is None:
            raise NotThisKindError
    measure = _MEASURES[order.name if order else said.name.split("_")[0]]  # type: ignore[union-attr]
    spring = measure == _MEASURES["last"]
    asked.take_all("head", "when", "what")
    asked.take_all("noun", "days", "times")
    small_words(asked)
    asked.done()
    frame = climate(asked.diary)
    rows = frame[frame["measure"].eq(measure) & frame["date"].notna()]
    rows = rows[rows["year"] < asked.clock.today.year].sort_values("year")
    if len(rows) < ENOUGH_YEARS:
        return nothing(
            f"The diary has {counted(len(rows), 'year')} with a {measure}, too few to tell; "
            f"{record_words(asked.diary)}."
        )
    order_of_year = rows.assign(at=season_day(rows["date"])).sort_values("at")
    low, high = int(order_of_year["at"].iloc[0]), int(order_of_year["at"].iloc[-1])
    each = [day_words(day(stamp)) for stamp in rows["date"]]
    return Answer(
        True,
        f"The {measure} was between {day_of_year(low)} and {day_of_year(high)} over "
        f"{counted(len(rows), 'year')}: {listed(each)}.",
        rows=table_rows(rows[["year", "measure", "value", "date"]]),
        evidence=air_evidence(asked, pd.DatetimeIndex(rows["date"]), ("t_min",)),
        caveats=(
            *_beside(asked, rows, spring=spring),
            "by this diary's own past; a later or an earlier one may come",
        ),
    )


def _beside(asked: Asked, rows: pd.DataFrame, *, spring: bool) -> tuple[str, ...]:
    """Frosts of the same halves that have no temperature, and might widen the span."""
    return tuple(
        note for stamp in rows["date"] for note in words_beside(asked, day(stamp), spring=spring)
    )
