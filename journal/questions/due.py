"""What is due, overdue or forgotten: open plans, and the usual days of the diary's own years."""

from datetime import timedelta
from typing import Any

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, evidence_of, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.outlook import SAID, years_evidence
from journal.questions.parts import Part
from journal.questions.periods import MONTHS, Period, between, day_words
from journal.questions.saying import capital, crop_said, listed
from journal.questions.topic import take_topic
from journal.studies.ahead import ahead
from journal.studies.intentions import intentions
from journal.studies.standing import outlook

_DUE_DAYS = 14


def answer_due(asked: Asked) -> Answer:
    """`what is due this week`, `what is overdue`, `what needs doing`, `anything planned`."""
    headed = asked.take("head", "what", "which") is not None
    ought = asked.has("aux", "can") and asked.has("aux", "do")
    must = asked.has("aux", "need") and asked.has("aux", "do")
    past = asked.take("aux", "did", "was")
    asked.pass_over("is", "have", "get", "will", *(("can", "need", "do") if ought or must else ()))
    asked.take("aux", "do")
    if asked.has("superlative") or asked.has("aux", "take", "spend"):
        raise NotThisKindError
    listed_jobs = headed and asked.has("noun", "jobs") and not asked.has("act")
    jobs = asked.take("noun", "jobs", "entries")
    asked.take_all("preposition", "to", "for", "on", "in")
    state = asked.take("state", "due", "overdue", "to_do") or asked.take("ahead", "due_soon")
    state = state or asked.take("act", "plan") or asked.take("order", "next")
    if state is None and not asked.has("thing"):
        # `what jobs are coming up`
        state = asked.take("act", "up")
    if state is None and (ought or must) and headed:
        # `what should I be doing today`
        state = Part("state", "due", 0, 0)
    bare = asked.parts[0].kind == "noun" and asked.parts[0].name == "jobs"
    bare = bare or (headed and jobs is not None and not past)
    if state is None and bare and jobs and (asked.has("period") or listed_jobs):
        # `jobs for this week`
        state = Part("state", "due", 0, 0)
    short = len(asked.parts) <= 3 and state is not None and state.name != "next"
    if state is None or past or not (headed or jobs or short):
        raise NotThisKindError
    asked.take_all("state", "to_do", "still", "yet", "due")
    asked.take("ahead", "due_soon")
    periods = [_from_today(asked, part) for part in asked.take_all("period")]
    asked.done()
    today = asked.clock.today
    plans = intentions(asked.diary)
    if state.name == "overdue":
        return _plans(asked, plans[plans["state"] == "overdue"], "overdue", None)
    period = periods[0] if periods else None
    if period is None:
        period = between(today, today + timedelta(days=_DUE_DAYS), "in the next two weeks ({})")
    assert period.first is not None and period.last is not None
    first, last = pd.Timestamp(max(period.first, today)), pd.Timestamp(period.last)
    open_plans = plans[
        plans["state"].eq("open") & plans["due"].le(last) & plans["due_end"].ge(first)
    ]
    late = plans[plans["state"] == "overdue"]
    crops = _due_crops(asked, first, last)
    return _due(asked, period, open_plans, late, crops)


def _from_today(asked: Asked, part: Part) -> Period:
    """The days asked about, a month without a year as the next; RefusedError for past ones."""
    period, today = part.period, asked.clock.today
    assert period is not None
    name = asked.words(part).split()[-1].lower()
    if name[:3] in {month[:3] for month in MONTHS} and name.isalpha() and period.first:
        year = today.year + (period.first.month < today.month)
        period = asked.clock.month(name, year)
    if period.first is None or period.last is None or period.last < today:
        raise RefusedError(f"`{asked.words(part)}` is past; what is due lies ahead")
    return period


def _due_crops(asked: Asked, first: pd.Timestamp, last: pd.Timestamp) -> pd.DataFrame:
    """The crops whose usual day falls into these days, by the middle of the diary's own years."""
    frame = ahead(asked.diary)
    whole = frame[(frame["cultivar"] == "") & frame["due"].notna() & frame["usual"].notna()]
    found = whole[whole["due"].between(first, last)]
    return found.sort_values("due")


def _plan_words(row: dict[Any, Any]) -> str:
    thing = (row["cultivar"] and f"{row['crop']} '{row['cultivar']}'") or row["crop"]
    what = thing or row["material"] or row["what"]
    place = f" in {row['place']}" if row["place"] else ""
    due = day_words(day(row["due"]), year=False)
    return f"{row['verb']} {what}{place} (by {due})".replace("  ", " ")


def _due(
    asked: Asked,
    period: Period,
    plans: pd.DataFrame,
    late: pd.DataFrame,
    crops: pd.DataFrame,
) -> Answer:
    said = (
        [f"planned: {listed([_plan_words(row) for row in plans.to_dict('records')])}"]
        if len(plans)
        else []
    )
    for what in dict.fromkeys(crops["what"]):
        names = [crop_said(crop) for crop in crops.loc[crops["what"] == what, "crop"]]
        said.append(f"usually {SAID[what]} then: {listed(names)}")
    if not said:
        return nothing(f"Nothing is due {period.said}.", _late(late))
    return Answer(
        True,
        f"{capital(period.said)}, {'; '.join(said)}.",
        rows=(
            *table_rows(plans[["verb", "crop", "cultivar", "place", "due", "state"]]),
            *table_rows(crops[["what", "crop", "due_low", "due", "due_high"]]),
        ),
        evidence=(
            *evidence_of(asked.diary, plans),
            *(years_evidence(asked, crops) if len(crops) else ()),
        ),
        caveats=_late(late),
    )


def _late(late: pd.DataFrame) -> tuple[str, ...]:
    words = [_plan_words(row) for row in late.to_dict("records")]
    return (f"overdue: {listed(words)}",) if words else ()


def _plans(asked: Asked, plans: pd.DataFrame, word: str, period: Period | None) -> Answer:
    if plans.empty:
        return nothing(f"Nothing that is planned is {word}.")
    words = [_plan_words(row) for row in plans.to_dict("records")]
    return Answer(
        True,
        f"{capital(word)}: {listed(words)}.",
        value=len(plans),
        rows=table_rows(plans[["verb", "crop", "cultivar", "place", "due", "overdue_days"]]),
        evidence=evidence_of(asked.diary, plans),
    )


def answer_undone(asked: Asked) -> Answer:
    """`have I left anything undone that I meant to do`: the plans whose days are past."""
    asked.need("state", "undone")
    asked.take("head", "what", "which")
    asked.take("noun", "jobs", "entries")
    asked.pass_over("did", "was", "have", "is", "do", "get")
    asked.take("state", "left", "still")
    asked.take("act", "plan")
    asked.take_all("preposition", "to")
    asked.take("aux", "do")
    asked.done()
    plans = intentions(asked.diary)
    return _plans(asked, plans[plans["state"] == "overdue"], "overdue", None)


def answer_forgotten(asked: Asked) -> Answer:
    """`what did I forget`, `what is past its time`: what stands and was never picked or cleared."""
    asked.need("head", "what", "which")
    asked.take("noun", "crops")
    asked.pass_over("did", "have", "is", "was")
    asked.need("state", "forgotten")
    topic = take_topic(asked, batches=False)
    asked.done()
    frame = outlook(asked.diary)
    rows = frame[(frame["state"] == "forgotten") & ~frame["may_be_left"]]
    rows = topic.rows(rows.assign(kind="", place_from="")) if not topic.is_empty else rows
    if rows.empty:
        return nothing("By the diary nothing that stands is forgotten.")
    names = [
        f"{crop_said(row['crop'])} '{row['cultivar']}' in {row['place']}".replace(" ''", "")
        for row in rows.to_dict("records")
    ]
    events = asked.diary.events
    return Answer(
        True,
        capital(
            f"{listed(names)}: never picked or cleared, and past the usual time to the first "
            "picking."
        ),
        value=len(rows),
        rows=table_rows(
            rows[["crop", "cultivar", "place", "stage", "since", "due_high", "source"]]
        ),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(rows["event"]))]),
    )
