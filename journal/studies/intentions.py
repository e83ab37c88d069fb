"""What was planned: open, overdue, closed by the entry that did it, done or abandoned."""

from dataclasses import dataclass, field
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import Event
from journal.studies.ledger.grounds import Grounds, meet
from journal.studies.ledger.habits import members
from journal.studies.once import once_a_diary
from journal.studies.plants import events_located, typed
from journal.tables.schema import make_frame

# verbs that do what another was planned to do
_SAME = (
    frozenset({"plant", "plant out", "heel in"}),
    frozenset({"pot on", "pot up"}),
    frozenset({"pick", "cut", "lift", "pull", "dig up", "harvest", "gather"}),
    frozenset({"fit", "replace"}),
    frozenset({"spread", "mulch", "dig in"}),
)
_CLOSING = frozenset({"done", "abandon"})


@dataclass(slots=True)
class _Plan:
    """One occasion of an intention, and what became of it."""

    event: Event
    how: str = ""
    by: Event | None = None
    closers: set[int] = field(default_factory=set)


@once_a_diary
def intentions(diary: Diary) -> pd.DataFrame:
    """One row an occasion of a plan, in the order in which they are due.

    `state` is `open`, `overdue` (its last due day is before today), `closed` by an entry that did
    it, `done` or `abandoned`. An entry closes the first open occasion of its verb (or one that
    does the same: `plant out` a planned `plant`), crop, cultivar, label, place and material, on
    the day of the plan or later; what the plan leaves blank may be anything. `done` and `abandon`
    close what they name; `abandon` closes every occasion that is left of a succession.

    `due` to `due_end` are blank where the plan says no day; `overdue_days` counts from `due_end`.
    `closed` and `closed_by` are the day and the event that closed it; `what` is the words of a
    plan that names no verb of the diary's. No figure here needs a source.
    """
    plans = _plans(diary)
    rows = [_row(plan, diary.today) for plan in sorted(plans, key=_by_due)]
    frame = typed(pd.DataFrame(rows, columns=_COLUMNS), _WORDS, ("due", "due_end", "closed"))
    located = events_located(diary)[["event", "date", "file", "line", "column"]]
    found = frame.merge(located, on="event", how="left")
    closers = located.rename(columns={"event": "closed_by", "file": "closed_file"})
    closers = closers.rename(columns={"line": "closed_line"})
    whole = found.merge(closers[["closed_by", "closed_file", "closed_line"]], how="left")
    return make_frame("intentions", whole)


_WORDS = ("verb", "crop", "cultivar", "label", "place", "material", "what", "state")
_COLUMNS = [
    "event",
    "entry",
    *_WORDS[:7],
    "count",
    "due",
    "due_end",
    "state",
    "overdue_days",
    "closed",
    "closed_by",
]


def _plans(diary: Diary) -> list[_Plan]:
    book = _Book(Grounds(diary.sheet))
    known = [event for event in diary.reading.events if _is_past(event, diary.today)]
    for event in sorted(known, key=lambda event: (event.date or date.min, event.event)):
        book.take(event)
    return book.plans


def _is_past(event: Event, today: date) -> bool:
    return event.date is not None and event.date <= today


def _by_due(plan: _Plan) -> tuple[date, int]:
    return plan.event.due or date.max, plan.event.event


@dataclass(slots=True)
class _Book:
    """The plans met so far; `still` are those that nothing has closed."""

    grounds: Grounds
    plans: list[_Plan] = field(default_factory=list)
    still: list[_Plan] = field(default_factory=list)

    def take(self, event: Event) -> None:
        if event.kind != "intention":
            self.close_one(event)
        elif event.verb in _CLOSING:
            self.close_named(event)
        else:
            plan = _Plan(event)
            self.plans.append(plan)
            self.still = sorted([*self.still, plan], key=_by_due)

    def close_one(self, event: Event) -> None:
        """The first open occasion that the entry did; an entry does a plan once."""
        for plan in self.still:
            done = _does(plan.event, event) and _names(plan.event, event, self.grounds)
            if done and not any(event.entry in fellow.closers for fellow in self.fellows(plan)):
                plan.closers.add(event.entry)
                self.close([plan], "closed", event)
                return

    def close_named(self, event: Event) -> None:
        """`done` closes the first occasion that it names, `abandon` all that are left of it."""
        for plan in self.still:
            if _verb_named(plan.event, event) and _names(event, plan.event, self.grounds):
                if event.verb == "done":
                    self.close([plan], "done", event)
                else:
                    self.close(self.fellows(plan), "abandoned", event)
                return

    def fellows(self, plan: _Plan) -> list[_Plan]:
        """The occasions of the same succession."""
        return [
            other for other in self.plans if _occasion_of(other.event) == _occasion_of(plan.event)
        ]

    def close(self, plans: list[_Plan], how: str, by: Event) -> None:
        for plan in plans:
            if not plan.how:
                plan.how, plan.by = how, by
        self.still = [plan for plan in self.still if not plan.how]


def _occasion_of(event: Event) -> tuple[int, str, str, str, str]:
    return event.entry, event.crop, event.cultivar, event.label, event.place


def _does(planned: Event, event: Event) -> bool:
    """Whether an entry's verb does what was planned."""
    if planned.verb == event.verb:
        return planned.verb != "job" or _words(planned) == _words(event)
    return any(planned.verb in same and event.verb in same for same in _SAME)


def _verb_named(planned: Event, closing: Event) -> bool:
    """Whether `done` or `abandon` names the planned verb, or leaves it open."""
    task = closing.task.casefold()
    named = (
        task == ""
        or task == planned.verb
        or any(task in same and planned.verb in same for same in _SAME)
    )
    if named and task:
        return True
    blank = not (closing.crop or closing.cultivar or closing.place or closing.material)
    mine = _words(closing)
    return bool(mine) and mine == _words(planned) if blank else named


def _words(event: Event) -> str:
    """The words of a plan or job without the grammar's own, compared without case."""
    return " ".join((event.task or event.subject or event.material).casefold().split())


def _names(said: Event, other: Event, grounds: Grounds) -> bool:
    """Whether the second fits every name that the first wrote; a blank fits any."""
    if said.crop and other.crop not in members(said.crop):
        return False
    for name in ("cultivar", "label"):
        written = getattr(said, name)
        if written and written.casefold() != getattr(other, name).casefold():
            return False
    if said.material and other.material and _words(said) != _words(other):
        return False
    return not said.place or _is_there(said, other, grounds)


def _is_there(said: Event, other: Event, grounds: Grounds) -> bool:
    ground = grounds.of(said.place, said.date)
    places = [place for place in (other.place, other.place_from) if place]
    return any(meet(ground, grounds.of(place, other.date)) for place in places)


def _row(plan: _Plan, today: date) -> dict[str, Any]:
    event, by = plan.event, plan.by
    late = event.due_end is not None and event.due_end < today and not plan.how
    return {
        **{name: getattr(event, name) for name in ("event", "entry", *_WORDS[:6])},
        "what": event.task or event.subject,
        "count": event.count,
        "due": event.due,
        "due_end": event.due_end,
        "state": plan.how or ("overdue" if late else "open"),
        "overdue_days": (today - event.due_end).days if late and event.due_end else None,
        "closed": None if by is None or by.date != by.date_end else by.date,
        "closed_by": None if by is None else by.event,
    }
