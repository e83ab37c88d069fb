"""How long from one stage to another, and how long something went without."""

import pandas as pd

from journal.questions.acting import act_events, settled_act
from journal.questions.acts import ACTS, SAME_ACT
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import dated, day, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period, day_words
from journal.questions.saying import capital, counted, figure
from journal.questions.spans import span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.intervals import intervals, longest_gap, spread

# the stage that an act brings a crop to, and its name
_STAGES = {
    "sow": ("sow", "sowing"),
    "up": ("up", "coming up"),
    "go_in": ("plant", "planting"),
    "plant_out": ("plant", "planting out"),
    "harvest": ("harvest", "the first picking"),
    "clear": ("end", "clearing"),
}


def answer_between(asked: Asked) -> Answer:
    """`how long do carrots take from sowing to picking`, `how long do leeks take to come up`."""
    if not asked.take("head", "how_long"):
        asked.need("head", "how_many")
        asked.need("noun", "days", "weeks", "months")
    asked.take("ahead", "usually")
    start, end = _stages(asked)
    asked.pass_over("did", "do", "take", "was", "have", "is")
    asked.take_all("self", "it")
    asked.take("preposition", "to", "for")
    topic = take_topic(asked)
    period = take_period(asked)
    asked.done()
    if not topic.crops:
        raise RefusedError("say of which crop")
    for stage in (start, end):
        if stage not in _STAGES:
            raise RefusedError(f"the diary's batches have no such stage as {ACTS[stage].noun}")
    frame = intervals(asked.diary, _STAGES[start][0], _STAGES[end][0])
    frame = topic.anywhere().rows(frame)
    if frame.empty and start == "sow":
        # potatoes, garlic and sets begin by planting
        start = "go_in"
        planted = intervals(asked.diary, "plant", _STAGES[end][0])
        frame = topic.anywhere().rows(planted)
    if topic.places:
        raise RefusedError("the place does not part it; ask without it")
    return _answer(asked, topic, frame, (start, end), period)


def _stages(asked: Asked) -> tuple[str, str]:
    """The two acts: `from A to B`, `B after A`, or `take to B`, which counts from sowing."""
    interval = asked.take("interval")
    if interval is not None:
        acts = [SAME_ACT.get(name, name) for name in interval.others]
        if len(acts) == 2:
            return acts[0], acts[1]
        own = asked.need("act")
        pair = acts[0], SAME_ACT.get(own.name, own.name)
        return pair if interval.name == "after" else (pair[1], pair[0])
    if not asked.has("aux", "take"):
        raise NotThisKindError
    if not asked.has("act") and asked.has("aux", "do"):
        # `how long do potatoes take`
        asked.take("aux", "grow")
        asked.take("state", "ready")
        return "sow", "harvest"
    own = asked.need("act", "up", "harvest")
    things = [part for part in asked.left if part.kind == "thing"]
    if own.name == "harvest" and things and things[0].start > own.start:
        # `how long did it take to lift the potatoes` is work
        raise NotThisKindError
    return "sow", own.name


def _answer(
    asked: Asked,
    topic: Topic,
    frame: pd.DataFrame,
    stages: tuple[str, str],
    period: Period | None,
) -> Answer:
    if period is not None:
        first = period.first or day(pd.Timestamp.min)
        last = period.last or asked.clock.today
        frame = frame[frame["from_day"].between(pd.Timestamp(first), pd.Timestamp(last))]
    names = f"from {_STAGES[stages[0]][1]} to {_STAGES[stages[1]][1]}"
    said = f" {period.said}" if period else ""
    if frame.empty:
        return nothing(
            f"No batch of {topic.said} has both days certain {names}{said}; "
            f"{record_words(asked.diary)}."
        )
    low, middle, high = spread(frame["days"])
    begun = f" of those begun{said}" if period else ""
    if len(frame) == 1:
        row = frame.iloc[0]
        words = (
            f"{topic.said} took {counted(low, 'day')} {names}{begun}, "
            f"from {day_words(day(row['from_day']))} to {day_words(day(row['to_day']))}"
        )
    elif low == high:
        words = (
            f"{topic.said} took {counted(low, 'day')} {names}{begun}, each of {len(frame)} times"
        )
    else:
        words = (
            f"{topic.said} took {figure(middle)} days {names}{begun}, in the middle of "
            f"{counted(len(frame), 'batch', 'batches')} that took {figure(low)} to {figure(high)}"
        )
    events = asked.diary.events
    return Answer(
        True,
        capital(f"{words}."),
        value=middle,
        unit="days",
        rows=table_rows(frame.drop(columns=["batch", "event"])),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(frame["event"]))]),
        caveats=topic.notes,
    )


def answer_without(asked: Asked) -> Answer:
    """`how long did Churn 1 go without water`: the longest gap between two waterings."""
    asked.need("head", "how_long")
    asked.need("state", "without")
    going = asked.take("act", "go") is not None
    act = ACTS[asked.need("act", "water", "feed").name]
    asked.pass_over("did", "was", "have", "is")
    topic = take_topic(asked, act.name)
    period = take_period(asked)
    asked.done()
    events = dated(act_events(asked, settled_act(act, topic), topic))
    span = span_of(events, period)
    what = topic.what or "anything"
    if topic.places and not topic.said:
        what = " and ".join(place.said for place in topic.places)
    if span.rows.empty:
        return nothing(
            f"Nothing is written of {what} being {act.past}{span.said}; "
            f"{record_words(asked.diary)}."
        )
    if not going and period is None:
        return _until_today(asked, act.past, what, span.rows)
    rows = span.rows
    if period is None:
        rows = rows[rows["date"].dt.year == rows["date"].dt.year.max()]
    found = longest_gap(rows)
    if found is None:
        return nothing(f"{capital(what)} was {act.past} only once{span.said}, so there is no gap.")
    days, first, last = found
    ends = rows[rows["date"].isin([first, last]) | rows["date_end"].isin([first])]
    return Answer(
        True,
        f"{capital(what)} went {counted(days, 'day')} without being {act.past}{span.said} at the "
        f"longest, from {day_words(day(first))} to {day_words(day(last))}.",
        value=days,
        unit="days",
        date=day(first),
        date_end=day(last),
        evidence=evidence_of(asked.diary, ends),
        caveats=(
            f"between the first and the last of {counted(rows['date'].nunique(), 'day')} with "
            f"{act.noun}; rain is not counted",
            *topic.notes,
        ),
    )


def _until_today(asked: Asked, past: str, what: str, rows: pd.DataFrame) -> Answer:
    last = rows["date_end"].max()
    today = asked.clock.today
    days = (today - day(last)).days
    return Answer(
        True,
        f"{capital(what)} was last {past} on {day_words(day(last), weekday=True)}, "
        f"{counted(days, 'day')} ago.",
        value=days,
        unit="days",
        date=day(last),
        date_end=day(last),
        evidence=evidence_of(asked.diary, rows[rows["date_end"] == last]),
        caveats=("rain is not counted",) if past == "watered" else (),
    )
