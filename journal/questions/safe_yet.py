"""Whether it is too late or safe yet: today against the diary's own years and frosts."""

from datetime import date

import pandas as pd

from journal.questions.acting import act_events, past, take_act
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, RefusedError
from journal.questions.evidence import day, event_rows, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.outlook import (
    SAID,
    USUAL_COLUMNS,
    day_of_year,
    planned_what,
    too_little,
    usual_rows,
    years_evidence,
)
from journal.questions.periods import day_words
from journal.questions.saying import capital, counted
from journal.questions.topic import Topic, take_topic
from journal.studies.ahead import ENOUGH_YEARS
from journal.studies.climate import climate
from journal.studies.seasons import season_day


def answer_too_late(asked: Asked) -> Answer:
    """`is it too late to sow carrots`: today against all days of the diary's own years."""
    part = asked.need("ahead", "too_late", "too_early")
    asked.pass_over("is", "have")
    asked.take_all("self", "it")
    asked.take("preposition", "to", "for")
    asked.take("state", "yet")
    act = take_act(asked)
    topic = take_topic(asked)
    asked.take("period", "")
    asked.done()
    if not topic.crops or topic.places:
        raise RefusedError("say of which crop, without a place")
    rows = act_events(asked, act, topic)
    rows = rows[(rows["date"] == rows["date_end"]).fillna(False)]
    before = rows[rows["date"].dt.year < asked.clock.today.year]
    years = int(before["date"].dt.year.nunique())
    if years < ENOUGH_YEARS:
        have = f"only {counted(years, 'year')}" if years else "no year"
        return nothing(
            f"The diary has {have} of {topic.said} being {act.past} to tell it by; "
            f"{record_words(asked.diary)}."
        )
    return _against_own_days(asked, topic, before, late=part.name == "too_late")


def _against_own_days(asked: Asked, topic: Topic, rows: pd.DataFrame, *, late: bool) -> Answer:
    days = season_day(rows["date"])
    low, high = int(days.min()), int(days.max())
    today = _today_number(asked.clock.today)
    yes = today > high if late else today < low
    verb = "was" if topic.singular else "were"
    edge = rows[days == (high if late else low)]
    years = counted(int(rows["date"].dt.year.nunique()), "year")
    return Answer(
        True,
        f"{'Yes' if yes else 'No'}, by your own past: {topic.said} {verb} "
        f"{past(ACTS['go_in'], rows)} "
        f"between {day_of_year(low)} and {day_of_year(high)}, and today is "
        f"{day_words(asked.clock.today)}.",
        value=yes,
        rows=event_rows(rows.sort_values("date")),
        evidence=evidence_of(asked.diary, edge),
        caveats=(f"over {years} of this diary; the weather of this year may differ",),
    )


def _today_number(today: date) -> int:
    return (
        date(2001, today.month, min(today.day, 28 if today.month == 2 else 31)).timetuple().tm_yday
    )


def answer_safe(asked: Asked) -> Answer:
    """`when is it safe to plant out tomatoes`: own days, and the last frosts that were read."""
    asked.need("head", "when")
    asked.need("ahead", "safe")
    asked.pass_over("is", "will")
    asked.take_all("self", "it")
    asked.take("preposition", "to", "for")
    what = planned_what(asked)
    topic = take_topic(asked)
    asked.done()
    rows = usual_rows(asked, topic, what)
    enough = rows[rows["usual"].notna()]
    frame = climate(asked.diary)
    frosts = frame[frame["measure"].eq("last spring frost") & frame["date"].notna()]
    frosts = frosts[frosts["year"] < asked.clock.today.year]
    if enough.empty and frosts.empty:
        return too_little(asked, topic, rows)
    parts = []
    if len(frosts):
        days = sorted(_today_number(day(stamp)) for stamp in frosts["date"])
        parts.append(
            f"the last spring frost was between {day_of_year(days[0])} and "
            f"{day_of_year(days[-1])} over {counted(len(days), 'year')}"
        )
    if len(enough):
        verb = "was" if topic.singular else "were"
        parts.append(
            f"{topic.said} {verb} first {SAID[str(enough['what'].iloc[0])]} between "
            f"{day_of_year(min(enough['earliest']))} and {day_of_year(max(enough['latest']))}"
        )
    return Answer(
        True,
        capital(f"{'; '.join(parts)}. No day is safe for certain."),
        rows=(
            *table_rows(enough[USUAL_COLUMNS]),
            *table_rows(frosts[["year", "measure", "value", "date"]]),
        ),
        evidence=years_evidence(asked, enough) if len(enough) else (),
        caveats=("by this diary's own past; a later frost than any before may come",),
    )
