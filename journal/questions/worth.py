"""Which crop or bed was worth the most at the sheet's prices, in all, per square metre or hour."""

from typing import Any

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import (
    dated,
    evidence_of,
    numbered_evidence,
    record_words,
    table_rows,
)
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period
from journal.questions.saying import capital, counted, crop_said, is_one
from journal.questions.saying import money as money_said
from journal.questions.spans import span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.harvest import per
from journal.studies.money import priced_events
from journal.studies.money_worth import money_worth
from journal.studies.tallies import tally_by

_BY = {"crops": "crop", "beds": "place", "places": "place", "years": "year"}
_RATES = {"square_metre": "area_m2", "hour": "hours"}
_RATE_WORDS = {"area_m2": " per square metre", "hours": " per hour of work"}
_LEAST = ("least", "worst")


def answer_most_worth(asked: Asked) -> Answer:
    """`which crop was worth the most in 2025`, `worth most per square metre`, `most valuable`."""
    end = asked.take("superlative", "dearest")
    if end is None:
        if not asked.has("kind", "worth"):
            raise NotThisKindError
        end = asked.need("superlative", "most", "best", "least", "worst")
        asked.need("kind", "worth")
        asked.take("kind", "cost")
    asked.take("head", "which", "what", "where")
    noun = asked.take("noun", *_BY)
    rate = asked.take("per", *_RATES)
    asked.pass_over("was", "is", "did", "have")
    asked.take("preposition", "in")
    topic = take_topic(asked, batches=False)
    period = take_period(asked)
    asked.done()
    if period is not None and period.year is None:
        raise RefusedError("worth is reckoned by calendar year; ask for a year")
    if any(thing.cultivar for thing in topic.things):
        raise RefusedError("worth is reckoned by crop; ask about the crop")
    if noun is None and topic.crops and len(topic.crops) == 1:
        raise RefusedError("worth is reckoned by crop; ask for the year or the bed of it")
    frame = money_worth(asked.diary)
    if period is not None:
        frame = frame[frame["year"] == period.year]
    rows = topic.rows(frame.assign(place_from="", kind="harvest"))
    by = _BY[noun.name] if noun else "crop"
    divisor = _RATES[rate.name] if rate else ""
    return _rank(asked, topic, rows, by, divisor, end.name in _LEAST, period)


def answer_most_earned(asked: Asked) -> Answer:
    """`which crop made the most money`, `what earned least in 2025`: by what was sold of each."""
    if not asked.has("kind", "earn"):
        raise NotThisKindError
    end = asked.need("superlative", "most", "best", "least", "worst")
    asked.need("head", "which", "what")
    asked.take_all("kind", "earn", "cost")
    asked.take("noun", "crops")
    asked.pass_over("did", "was", "have")
    asked.take_all("self", "me")
    topic = take_topic(asked, batches=False)
    period = take_period(asked)
    asked.done()
    if topic.places or any(thing.kind != "crop" or thing.cultivar for thing in topic.things):
        raise RefusedError("sales are ranked by crop; ask for the crop that earned most")
    events = priced_events(asked.diary)
    sold = events[events["earned"].notna() & (events["crop"] != "")]
    span = span_of(dated(topic.rows(sold)), period)
    rows = span.rows
    if rows.empty:
        return nothing(f"No sales are written{span.said}; {record_words(asked.diary)}.")
    if rows["currency"].nunique() > 1:
        raise RefusedError("the sales are in several currencies, which are never added")
    least = end.name in _LEAST
    sums = tally_by(rows, "earned", ["crop"]).sort_values("earned", ascending=least, kind="stable")
    currency = str(rows["currency"].iloc[0])
    told = [
        f"{crop_said(str(row['crop']))}, {money_said(float(row['earned']), currency)}"
        for row in sums.head(2).to_dict("records")
    ]
    best, value = str(sums["crop"].iloc[0]), float(sums["earned"].iloc[0])
    nxt = f"; next {told[1]}" if len(told) > 1 else ""
    return Answer(
        True,
        capital(
            f"{crop_said(best)} earned the {'least' if least else 'most'}{span.said}: "
            f"{money_said(value, currency)}{nxt}."
        ),
        value=round(value, 6),
        unit=currency,
        rows=table_rows(sums[["crop", "earned"]]),
        evidence=evidence_of(asked.diary, rows[rows["crop"] == best]),
        caveats=("of what was sold; what was eaten or given away earned nothing", *span.doubts),
    )


def _rank(
    asked: Asked,
    topic: Topic,
    rows: pd.DataFrame,
    by: str,
    divisor: str,
    least: bool,
    period: Period | None,
) -> Answer:
    said = f" {period.said}" if period else ""
    known = rows[rows["worth"].notna() & (rows[by] != "")]
    left = len(known)
    if divisor:
        known = known[known[divisor].notna()]
    left -= len(known)
    if known.empty:
        return nothing(
            f"No worth{_RATE_WORDS.get(divisor, '')} can be told{said}; "
            f"{record_words(asked.diary)}."
        )
    if known["currency"].nunique() > 1:
        raise RefusedError("the worth is in several currencies, which are never added")
    table = _table(known, by, divisor).sort_values("value", ascending=least, kind="stable")
    best = table.iloc[0]
    value, currency = float(best["value"]), str(known["currency"].iloc[0])
    words = _RATE_WORDS.get(divisor, "")
    amounts = [
        f"{_name(row[by], by)}, {money_said(round(float(row['value']), 2), currency)}"
        for row in table.head(2).to_dict("records")
    ]
    verb = "were" if by == "crop" and not is_one(str(best[by])) else "was"
    of = f" of {topic.what}" if topic.what else ""
    nxt = f"; next {amounts[1]}" if len(amounts) > 1 else ""
    return Answer(
        True,
        capital(
            f"{_name(best[by], by)} {verb} worth the {'least' if least else 'most'}{words}{of}"
            f"{said}: {money_said(round(value, 2), currency)}{nxt}."
        ),
        value=round(value, 6),
        unit=currency,
        rows=table_rows(table),
        evidence=numbered_evidence(asked.diary, list(known.loc[known[by] == best[by], "events"])),
        caveats=_caveats(rows, left, divisor),
    )


def _table(known: pd.DataFrame, by: str, divisor: str) -> pd.DataFrame:
    columns = ["worth", divisor] if divisor else ["worth"]
    table = known.groupby(by)[columns].sum().reset_index()
    table["value"] = per(table["worth"], table[divisor]) if divisor else table["worth"]
    return table


def _name(cell: Any, by: str) -> str:
    if by == "year":
        return str(int(cell))
    return crop_said(str(cell)) if by == "crop" else str(cell)


def _caveats(rows: pd.DataFrame, left: int, divisor: str) -> tuple[str, ...]:
    unpriced = int(rows["unpriced"].sum())
    notes = []
    if unpriced:
        notes.append(f"{counted(unpriced, 'picking')} could not be priced")
    if left:
        what = "ground" if divisor == "area_m2" else "hours"
        beds = counted(left, "crop of a bed and year", "crops of a bed and year")
        notes.append(f"{beds} with no {what} known {'is' if left == 1 else 'are'} left out")
    if divisor == "hours":
        notes.append("by the hours that were written down")
    return ("at the prices of the sheet", *notes)
