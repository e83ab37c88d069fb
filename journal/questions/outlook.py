"""What lies ahead: usual days, what is due, when a crop will be ready, too late or safe yet.

By the diary's own past or its plans; where there is too little of them, nothing is said.
"""

from datetime import date, timedelta
from typing import Any

import pandas as pd

from journal.questions.acting import act_events, past, take_act
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, event_rows, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.parts import Part
from journal.questions.periods import Period, between, day_words, stretch_words
from journal.questions.saying import capital, counted, crop_said, is_one, listed
from journal.questions.topic import Topic, take_topic
from journal.studies.ahead import ENOUGH_YEARS, ahead, ahead_years
from journal.studies.climate import climate
from journal.studies.intentions import intentions
from journal.studies.seasons import season_day
from journal.studies.standing import outlook

# what `ahead` calls the acts of a question
_WHATS = {
    "sow": ("sowing",),
    "go_in": ("planting", "sowing"),
    "plant_out": ("planting",),
    "harvest": ("first picking",),
}
_SAID = {"sowing": "sown", "planting": "planted", "first picking": "first picked"}
_ROWS = ["crop", "cultivar", "season", "what", "years", "earliest", "usual", "latest", "error_days"]
_DUE_DAYS = 14


def answer_usual(asked: Asked) -> Answer:
    """`when do I usually sow broad beans`: the middle and the range of the diary's own years."""
    asked.need("head", "when")
    usual = asked.take("ahead", "usually")
    should = asked.take("aux", "can", "will")
    habit = asked.take("aux", "do", "is")
    if not (usual or should or habit):
        raise NotThisKindError
    asked.pass_over("do", "did", "is", "was", "get")
    asked.take("order", "first")
    what = _what(asked)
    topic = take_topic(asked)
    asked.done()
    if topic.places or not topic.crops:
        raise RefusedError("say of which crop, without a place")
    rows = _rows(asked, topic, what)
    enough = rows[rows["usual"].notna()]
    if enough.empty:
        return _too_little(asked, topic, rows)
    words = [_usual_words(row, asked.clock.today) for row in enough.to_dict("records")]
    subject = topic.said
    verb = "is" if topic.singular else "are"
    first = enough.iloc[0]
    one = len(enough) == 1
    return Answer(
        True,
        capital(f"{subject} {verb} usually {listed(words)}."),
        date=_date_of(first["usual"], asked.clock.today.year) if one else None,
        date_end=_date_of(first["usual"], asked.clock.today.year) if one else None,
        rows=table_rows(enough[_ROWS]),
        evidence=_years_evidence(asked, enough),
        caveats=tuple(_error(row) for row in enough.to_dict("records") if _error(row)),
    )


def _what(asked: Asked) -> tuple[str, ...]:
    act = take_act(asked)
    if act.name not in _WHATS:
        raise NotThisKindError
    return _WHATS[act.name]


def _rows(asked: Asked, topic: Topic, whats: tuple[str, ...]) -> pd.DataFrame:
    """The rows of `ahead` for each crop, of the first of `whats` that it has any years of."""
    frame = ahead(asked.diary)
    found = []
    for thing in topic.things:
        own = frame[frame["crop"].isin(thing.crops) & (frame["cultivar"] == thing.cultivar)]
        for crop in dict.fromkeys(own["crop"]):
            for what in whats:
                rows = own[(own["crop"] == crop) & (own["what"] == what)]
                if len(rows):
                    found.append(rows)
                    break
    return pd.concat(found) if found else frame.iloc[0:0]


def _too_little(asked: Asked, topic: Topic, rows: pd.DataFrame) -> Answer:
    years = int(rows["years"].max()) if len(rows) else 0
    have = f"only {counted(years, 'year')}" if years else "no year"
    return nothing(
        f"The diary has {have} of {topic.said} to tell a usual day from; "
        f"{record_words(asked.diary)}."
    )


def _date_of(number: float, year: int) -> date:
    """A day of the year as a date, counted as in a year without 29 February."""
    plain = date(2001, 1, 1) + timedelta(days=round(float(number)) - 1)
    over = plain.year - 2001
    return date(year + over, plain.month, plain.day)


def _day(number: float) -> str:
    day_of = _date_of(number, 2001)
    return f"{day_of.day} {day_of:%B}"


def _usual_words(row: dict[Any, Any], today: date) -> str:
    low, high = _day(row["earliest"]), _day(row["latest"])
    days = "on just that day" if low == high else f"between {low} and {high}"
    years = counted(int(row["years"]), "year")
    season = f" in {row['season']}" if row["season"] == "autumn" else ""
    return f"{_SAID[row['what']]}{season} about {_day(row['usual'])} ({days}, over {years})"


def _error(row: dict[Any, Any]) -> str:
    if pd.isna(row["error_days"]):
        return ""
    error = counted(round(float(row["error_days"])), "day")
    return f"left out one by one, the years' {row['what']} days were {error} off on average"


def _years_evidence(asked: Asked, rows: pd.DataFrame) -> Any:
    """The events of the days that the usual day is the middle of."""
    keys = ["crop", "cultivar", "season", "what"]
    days = ahead_years(asked.diary).merge(rows[keys], on=keys)
    kinds = {"sowing": "sowing", "planting": "planting", "first picking": "harvest"}
    events = asked.diary.events
    mine = pd.Series(False, index=events.index)
    for row in days.to_dict("records"):
        own = events["crop"].eq(row["crop"]) & events["date"].eq(row["date"])
        own &= events["kind"].eq(kinds[row["what"]])
        if row["cultivar"]:
            own &= events["cultivar"].eq(row["cultivar"])
        mine |= own.fillna(False)
    return evidence_of(asked.diary, events[mine])


# ---------------------------------------------------------------- ready


def answer_ready(asked: Asked) -> Answer:
    """`when will the leeks be ready`, `when are the broad beans due`: of what stands today."""
    asked.need("head", "when", "how_long")
    will = asked.take("aux", "will", "can")
    asked.pass_over("is", "do", "have")
    if not asked.take("state", "ready", "due"):
        if will is None:
            raise NotThisKindError
        asked.need("act", "harvest")
    asked.take("preposition", "to", "for", "from")
    asked.take("act", "harvest", "plant_out", "harvest_noun")
    topic = take_topic(asked)
    asked.done()
    if not topic.crops:
        raise NotThisKindError
    frame = outlook(asked.diary)
    frame = topic.anywhere().rows(frame)
    if topic.places:
        names = {name for place in topic.places for name in (*place.names, place.said)}
        frame = frame[frame["place"].isin(names)]
    frame = frame[~frame["may_be_left"]]
    if frame.empty:
        return nothing(f"By the diary no {topic.what} stands today; {record_words(asked.diary)}.")
    words = [_ready_words(row, len(frame) > 1) for row in frame.to_dict("records")]
    told = frame[frame["due"].notna() | frame["stage"].eq("cropping")]
    if told.empty:
        return nothing(
            f"Nothing tells when {topic.said} in {listed(sorted(set(frame['place'])))} "
            "will be ready: the diary has too few of them and no published days apply."
        )
    one = len(frame) == 1 and not pd.isna(frame["due"].iloc[0])
    row = frame.iloc[0]
    events = asked.diary.events
    return Answer(
        True,
        f"{'; '.join(capital(word) for word in words)}.",
        date=day(row["due_low"]) if one else None,
        date_end=day(row["due_high"]) if one else None,
        rows=table_rows(
            frame[
                [
                    "crop",
                    "cultivar",
                    "place",
                    "stage",
                    "state",
                    "next",
                    "due_low",
                    "due",
                    "due_high",
                    "source",
                ]
            ]
        ),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(frame["event"]))]),
        caveats=("by the days that such crops took before, not a promise",),
    )


_NEXT = {
    "up": "should come up",
    "planted": "should be fit to plant out",
    "picking": "should be ready to pick",
}


def _ready_words(row: dict[Any, Any], several: bool) -> str:
    name = (
        f"'{row['cultivar']}' {crop_said(row['crop'])}"
        if row["cultivar"]
        else crop_said(row["crop"])
    )
    where = f" in {row['place']}" if row["place"] else ""
    if pd.isna(row["due"]):
        return f"{name}{where}: nothing tells when the next stage is due"
    low, high = day(row["due_low"]), day(row["due_high"])
    if row["next"] == "last picking":
        return (
            f"{name}{where} {'is' if is_one(row['crop']) else 'are'} being picked already; by "
            f"{row['source']} the last picking is due by {day_words(high)}"
        )
    days = (
        f"about {day_words(low)}"
        if low == high
        else f"between {stretch_words(low, high)}".replace(" to ", " and ")
    )
    verb = _NEXT.get(str(row["next"]), f"should reach {row['next']}")
    return f"{name}{where} {verb} {days} ({row['source']})"


# ---------------------------------------------------------------- due


def answer_due(asked: Asked) -> Answer:
    """`what is due this week`, `what is overdue`, `what needs doing`."""
    if not asked.take("head", "what"):
        asked.need("noun", "jobs")
    ought = asked.has("aux", "can") and asked.has("aux", "do")
    asked.pass_over("is", "have", "do", "did", "will", "can" if ought else "will")
    asked.take("noun", "jobs")
    state = asked.take("state", "due", "overdue", "to_do") or asked.take("ahead", "due_soon")
    if state is None and ought and any(p.period and p.period.ahead for p in asked.left):
        # `what should I be doing next week`
        state = Part("state", "due", 0, 0)
    if state is None:
        raise NotThisKindError
    periods = asked.take_all("period")
    asked.done()
    today = asked.clock.today
    plans = intentions(asked.diary)
    if state.name == "overdue":
        return _plans(asked, plans[plans["state"] == "overdue"], "overdue", None)
    period = periods[0].period if periods else None
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
        said.append(f"usually {_SAID[what]} then: {listed(names)}")
    if not said:
        return nothing(f"Nothing is due {period.said}.", _late(late))
    return Answer(
        True,
        f"{capital(period.said)}, {'; '.join(said)}.",
        rows=(
            *table_rows(plans[["verb", "crop", "cultivar", "place", "due", "state"]]),
            *table_rows(crops[["what", "crop", "due_low", "due", "due_high"]]),
        ),
        evidence=evidence_of(asked.diary, plans),
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


def answer_forgotten(asked: Asked) -> Answer:
    """`what did I forget`, `what is past its time`: what stands and was never picked or cleared."""
    asked.need("head", "what", "which")
    asked.take("noun", "crops")
    asked.pass_over("did", "have", "is", "was")
    asked.need("state", "forgotten")
    topic = take_topic(asked)
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


# ---------------------------------------------------------------- too late, safe yet


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
        f"between {_day(low)} and {_day(high)}, and today is {day_words(asked.clock.today)}.",
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
    what = _what(asked)
    topic = take_topic(asked)
    asked.done()
    rows = _rows(asked, topic, what)
    enough = rows[rows["usual"].notna()]
    frame = climate(asked.diary)
    frosts = frame[frame["measure"].eq("last spring frost") & frame["date"].notna()]
    frosts = frosts[frosts["year"] < asked.clock.today.year]
    if enough.empty and frosts.empty:
        return _too_little(asked, topic, rows)
    parts = []
    if len(frosts):
        days = sorted(_today_number(day(stamp)) for stamp in frosts["date"])
        parts.append(
            f"the last spring frost was between {_day(days[0])} and {_day(days[-1])} over "
            f"{counted(len(days), 'year')}"
        )
    if len(enough):
        verb = "was" if topic.singular else "were"
        parts.append(
            f"{topic.said} {verb} first {_SAID[str(enough['what'].iloc[0])]} between "
            f"{_day(min(enough['earliest']))} and {_day(max(enough['latest']))}"
        )
    return Answer(
        True,
        capital(f"{'; '.join(parts)}. No day is safe for certain."),
        rows=(
            *table_rows(enough[_ROWS]),
            *table_rows(frosts[["year", "measure", "value", "date"]]),
        ),
        evidence=_years_evidence(asked, enough) if len(enough) else (),
        caveats=("by this diary's own past; a later frost than any before may come",),
    )
