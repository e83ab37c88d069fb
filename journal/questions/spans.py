"""The days of a question: its periods together, `since the peas went in` among them."""

from dataclasses import dataclass

import pandas as pd

from journal.questions.acting import act_events, past
from journal.questions.acts import ACTS, SAME_ACT
from journal.questions.asked import Asked, RefusedError
from journal.questions.evidence import dated, first_days, perhaps_in, surely_in
from journal.questions.parts import Part
from journal.questions.periods import MONTHS, ONE_DAY, Period, both, day_words, from_to
from journal.questions.saying import counted
from journal.questions.topic import Thing, Topic, meant


@dataclass(frozen=True, slots=True)
class Span:
    """The events of a period, and those of which it is not certain."""

    period: Period | None
    rows: pd.DataFrame
    doubtful: pd.DataFrame

    @property
    def said(self) -> str:
        """` in 2025`, with its space, or ""."""
        return f" {self.period.said}" if self.period else ""

    @property
    def doubts(self) -> tuple[str, ...]:
        """How many entries may lie in the period or not."""
        count = self.doubtful[["file", "line"]].drop_duplicates().shape[0]
        if not count:
            return ()
        more = counted(count, "more entry", "more entries")
        return (f"{more} may be of another time, and {'is' if count == 1 else 'are'} not counted",)


def take_period(asked: Asked) -> Period | None:
    """Takes the days that the question is about; None where it names none."""
    found: Period | None = None
    pair = _two_months(asked)
    if pair is not None:
        return pair
    for part in asked.take_all("period"):
        assert part.period is not None
        if part.period.ahead:
            raise RefusedError(
                f"`{asked.words(part)}` is still to come, and the diary tells the past"
            )
        found = part.period if found is None else both(found, part.period)
    for part in asked.take_all("clause"):
        period = _clause(asked, part)
        found = period if found is None else both(found, period)
    return found


def _two_months(asked: Asked) -> Period | None:
    """`in June and July 2025`: two months that follow on each other, joined by `and`."""
    parts = [part for part in asked.left if part.kind == "period"]
    joints = [part for part in asked.left if part.kind == "joint"]
    if len(parts) != 2 or not any(parts[0].end < j.start < parts[1].start for j in joints):
        return None
    one, other = parts[0].period, parts[1].period
    name = asked.words(parts[0]).split()[-1]
    if one is None or other is None or other.first is None or other.last is None:
        return None
    if name.isalpha() and name[:3].lower() in {month[:3] for month in MONTHS}:
        one = asked.clock.month(name, other.first.year)
    if one.first is None or one.last is None or one.last + ONE_DAY != other.first:
        return None
    asked.take_all("period")
    asked.take("joint")
    return from_to(one, other)


def span_of(events: pd.DataFrame, period: Period | None) -> Span:
    """The events of a period; of the one before where an open, yearless one has none yet."""
    rows = surely_in(events, period)
    if rows.empty and period is not None and period.before is not None:
        earlier = surely_in(events, period.before)
        if not earlier.empty:
            return Span(period.before, earlier, perhaps_in(events, period.before))
    return Span(period, rows, perhaps_in(events, period))


def _clause(asked: Asked, part: Part) -> Period:
    """`since the peas went in`: from the latest season's first such day."""
    act = ACTS[SAME_ACT.get(part.others[0], part.others[0])]
    topic = Topic((_clause_thing(asked, part),))
    events = dated(act_events(asked, act, topic))
    if events.empty:
        raise RefusedError(f"the diary does not say when {topic.said} were {act.past}")
    latest = events[events["date"].dt.year == events["date"].dt.year.max()]
    first, last = first_days(latest)
    if first != last:
        raise RefusedError(f"the diary is not certain of the day {topic.said} were {act.past}")
    on_day = latest[latest["date"] == latest["date"].min()]
    done = f"{topic.said} {'was' if topic.singular else 'were'} {past(act, on_day)}"
    said = f"{part.name} {done} on {day_words(first)}"
    if part.name == "since":
        return Period(first, None, said)
    if part.name == "after":
        return Period(first + ONE_DAY, None, said)
    return Period(None, first - ONE_DAY if part.name == "before" else first, said)


def _clause_thing(asked: Asked, part: Part) -> Thing:
    for kind in ("cultivar", "crop", "group", "narrow", "material"):
        senses = [sense for sense in part.senses if sense.kind == kind]
        if senses:
            return meant(senses, asked.words(part), asked.names)
    raise RefusedError(f"I cannot tell which day `{asked.words(part)}` is")
