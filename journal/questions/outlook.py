"""What lies ahead by the diary's own past: usual days, and when a crop will be ready."""

import re
from datetime import date, timedelta
from typing import Any

import pandas as pd

from journal.questions.acting import take_act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words, stretch_words
from journal.questions.saying import capital, counted, crop_said, is_one, listed
from journal.questions.topic import Topic, take_topic
from journal.studies.ahead import ahead, ahead_years
from journal.studies.standing import outlook

# what `ahead` calls the acts of a question
_WHATS = {
    "sow": ("sowing",),
    "go_in": ("planting", "sowing"),
    "plant_out": ("planting",),
    "harvest": ("first picking",),
}


SAID = {"sowing": "sown", "planting": "planted", "first picking": "first picked"}


USUAL_COLUMNS = [
    "crop",
    "cultivar",
    "season",
    "what",
    "years",
    "earliest",
    "usual",
    "latest",
    "error_days",
]


def answer_usual(asked: Asked) -> Answer:
    """`when do I usually sow broad beans`: the middle and the range of the diary's own years."""
    usual = asked.take_all("ahead", "usually", "in_time")
    headed = asked.take("head", "when") is not None
    timed = any(re.search("time|date|day|moment", asked.words(part)) for part in usual)
    if not headed and not timed and not asked.has("noun", "times", "days", "months", "weeks"):
        raise NotThisKindError
    if asked.has("act", "harvest_noun") and not headed:
        raise NotThisKindError
    asked.take("head", "what", "which")
    should = asked.take("aux", "can", "will")
    habit = asked.take("aux", "do", "is")
    if not (usual or should or habit):
        raise NotThisKindError
    asked.take("noun", "times", "days", "months", "weeks")
    asked.take_all("self", "it")
    asked.take_all("preposition", "to", "for", "in")
    asked.pass_over("do", "did", "is", "was", "get", "can", "come")
    asked.take("order", "first")
    if asked.has("act"):
        asked.take("state", "due")
    what = _planned_or_picked(asked)
    topic = take_topic(asked, batches=False)
    asked.done()
    if topic.places or not topic.crops:
        raise RefusedError("say of which crop, without a place")
    rows = usual_rows(asked, topic, what)
    enough = rows[rows["usual"].notna()]
    if enough.empty:
        return too_little(asked, topic, rows)
    return _usual_answer(asked, topic, enough)


def _usual_answer(asked: Asked, topic: Topic, enough: pd.DataFrame) -> Answer:
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
        rows=table_rows(enough[USUAL_COLUMNS]),
        evidence=years_evidence(asked, enough),
        caveats=tuple(_error(row) for row in enough.to_dict("records") if _error(row)),
    )


def _planned_or_picked(asked: Asked) -> tuple[str, ...]:
    """`when are the leeks usually ready`, `our first courgettes`, `see the first strawberries`."""
    if not asked.has("act"):
        asked.take("state", "ready")
        if not asked.has("thing"):
            raise NotThisKindError
        return _WHATS["harvest"]
    if asked.take("act", "see"):
        return _WHATS["harvest"]
    return planned_what(asked)


def planned_what(asked: Asked) -> tuple[str, ...]:
    """What the act of the question is in the study `ahead`; NotThisKindError where it is none."""
    act = take_act(asked)
    if act.name not in _WHATS:
        raise NotThisKindError
    return _WHATS[act.name]


def usual_rows(asked: Asked, topic: Topic, whats: tuple[str, ...]) -> pd.DataFrame:
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


def too_little(asked: Asked, topic: Topic, rows: pd.DataFrame) -> Answer:
    """The diary has too few years of it to tell a usual day."""
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


def day_of_year(number: float) -> str:
    """`14 July` for 195, counted as in a year without 29 February."""
    day_of = _date_of(number, 2001)
    return f"{day_of.day} {day_of:%B}"


def _usual_words(row: dict[Any, Any], today: date) -> str:
    low, high = day_of_year(row["earliest"]), day_of_year(row["latest"])
    days = "on just that day" if low == high else f"between {low} and {high}"
    years = counted(int(row["years"]), "year")
    autumn = row["season"] == "autumn"
    if autumn and row["what"] == "first picking":
        start = f"where sown in autumn first picked about {day_of_year(row['usual'])}"
        return f"{start} ({days}, over {years})"
    season = " in autumn" if autumn else ""
    return f"{SAID[row['what']]}{season} about {day_of_year(row['usual'])} ({days}, over {years})"


def _error(row: dict[Any, Any]) -> str:
    if pd.isna(row["error_days"]):
        return ""
    error = counted(round(float(row["error_days"])), "day")
    return f"left out one by one, the years' {row['what']} days were {error} off on average"


def years_evidence(asked: Asked, rows: pd.DataFrame) -> Any:
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


def answer_ready(asked: Asked) -> Answer:
    """`when will the leeks be ready`, `when are the broad beans due`: of what stands today."""
    asked.need("head", "when", "how_long")
    asked.take("ahead", "usually")
    will = asked.take("aux", "will", "can")
    asked.pass_over("is", "do", "have", "get", "will", "can")
    asked.take("order", "first")
    asked.take("preposition", "to")
    _take_running_year(asked)
    if not asked.take("state", "ready", "due"):
        if will is None:
            raise NotThisKindError
        asked.need("act", "harvest")
    asked.take("preposition", "to", "for", "from")
    asked.take("act", "harvest", "plant_out", "harvest_noun")
    topic = take_topic(asked, batches=False)
    asked.done()
    if not topic.crops:
        raise NotThisKindError
    if any(thing.kind != "crop" for thing in topic.things):
        raise NotThisKindError
    frame = outlook(asked.diary)
    frame = topic.anywhere().rows(frame)
    if topic.places:
        names = {name for place in topic.places for name in (*place.names, place.said)}
        frame = frame[frame["place"].isin(names)]
    frame = frame[~frame["may_be_left"]]
    if frame.empty or not _told(frame).any():
        rows = usual_rows(asked, topic.anywhere(), _WHATS["harvest"])
        usual = rows[rows["usual"].notna()]
        if len(usual):
            return _usual_answer(asked, topic.anywhere(), usual)
    if frame.empty:
        return nothing(f"By the diary no {topic.what} stands today; {record_words(asked.diary)}.")
    words = [_ready_words(row, len(frame) > 1) for row in frame.to_dict("records")]
    told = frame[_told(frame)]
    if told.empty:
        return nothing(
            f"Nothing tells when {topic.said} in {listed(sorted(set(frame['place'])))} "
            "will be ready: the diary has too few of them and no published days apply."
        )
    return _ready(asked, frame, words)


_READY = [
    "crop", "cultivar", "place", "stage", "state", "next", "due_low", "due", "due_high", "source",
]  # fmt: skip


def _ready(asked: Asked, frame: pd.DataFrame, words: list[str]) -> Answer:
    one = len(frame) == 1 and not pd.isna(frame["due"].iloc[0])
    row = frame.iloc[0]
    events = asked.diary.events
    return Answer(
        True,
        f"{'; '.join(capital(word) for word in words)}.",
        date=day(row["due_low"]) if one else None,
        date_end=day(row["due_high"]) if one else None,
        rows=table_rows(frame[_READY]),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(frame["event"]))]),
        caveats=("by the days that such crops took before, not a promise",),
    )


def _told(frame: pd.DataFrame) -> "pd.Series[bool]":
    told: pd.Series[bool] = frame["due"].notna() | frame["stage"].eq("cropping")
    return told


def _take_running_year(asked: Asked) -> None:
    """`this year`, `this summer`: what stands today is ready in no other."""
    today = asked.clock.today
    for part in [each for each in asked.left if each.kind == "period"]:
        period = part.period
        if period is not None and period.first is not None and period.last is not None:
            running = period.first.year == today.year or period.last.year == today.year
            if running and period.last >= today and (period.last - period.first).days > 300:
                asked.take("period", part.name)


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
            f"{name}{where} {'is' if is_one(row['crop']) else 'are'} being picked already; "
            f"the last picking is due by {day_words(high)} ({row['source']})"
        )
    days = (
        f"about {day_words(low)}"
        if low == high
        else f"between {stretch_words(low, high)}".replace(" to ", " and ")
    )
    verb = _NEXT.get(str(row["next"]), f"should reach {row['next']}")
    return f"{name}{where} {verb} {days} ({row['source']})"
