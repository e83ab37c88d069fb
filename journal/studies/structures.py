"""What was fitted and built on the plot: its age, the life of what went, when the next is due."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import Event
from journal.reference.stuff import load_stuff
from journal.studies.ledger.booking import order
from journal.studies.ledger.grounds import Grounds
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.products import known_name
from journal.tables.schema import TABLES, make_frame

YEAR_DAYS = 365.2425

NO_LIFE = "none of its kind was replaced here yet, so nothing says when it is due"
PARTLY = "some were replaced since, and the rest stand"
NOT_FITTED = "when it was fitted is not written"


@dataclass(slots=True)
class Fitted:
    """One thing from its fitting to its end; `kind` is what it is, for a life of its kind."""

    thing: str
    kind: str
    place: str
    start: Event
    end: Event | None = None
    partly: list[Event] = field(default_factory=list)


@once_a_diary
def structures(diary: Diary) -> pd.DataFrame:
    """Every thing fitted, from `fit` to `replace` or `take down`: the table `structures`.

    - `years_low` to `years_high` = days / 365.2425 from the last (first) possible day of fitting
      to today, or to the first (last) possible day of its end: its age, or its life.
    - `seasons_low` to `seasons_high`: midsummers (1 July; 1 January south of the equator) that
      it stood through, so that boards fitted in April and replaced in November have the season
      of that year.
    - A `replace` ends what stands there under that name, or the only thing there that ends in
      the same word (`boards` of `scaffold boards`), and fits the new one. With a count below
      that of the old it is a part only, and the rest stand. What is replaced under the end of
      its name is replaced by its like: the new `boards` are scaffold boards too.
    - `due` = fitted + the median life of things of its kind that were replaced on this plot;
      `due_low` and `due_high` by the shortest and longest. The keeper's own, no published source.
    - `usual_seasons`: what such a thing is said to last (scaffold boards six to seven seasons:
      common practice, no published source), beside it and not mixed in.

    `why` says what is empty.
    """
    things = fittings(diary)
    rows = [_row(one, things, diary) for one in things]
    names = TABLES["structures"].column_names
    return make_frame("structures", {name: [row[name] for row in rows] for name in names})


# ------------------------------------------------------------ from entries to things


def fittings(diary: Diary) -> list[Fitted]:
    """Things in the order in which they were fitted, up to today."""
    grounds = Grounds(diary.sheet)
    things: list[Fitted] = []
    mine = [event for event in diary.reading.events if _is_mine(event) and event.date is not None]
    for event in sorted(mine, key=order):
        if order(event)[0] <= diary.today:
            _book(event, grounds.now(event.place, event.date), things)
    return things


def _is_mine(event: Event) -> bool:
    return event.kind == "structure" or (event.kind == "job" and event.verb == "take down")


def _book(event: Event, place: str, things: list[Fitted]) -> None:
    name = event.material or event.task
    if event.verb == "fit":
        things.append(Fitted(name, known_name(name), place, event))
        return
    old = _standing(name, place, things)
    if event.verb == "take down":
        if old is not None:
            old.end = event
        return
    if old is not None and _is_part(event, old):
        old.partly.append(event)
    elif old is not None:
        old.end = event
    things.append(Fitted(name, _kind(name, old), place, event))


def _kind(name: str, old: Fitted | None) -> str:
    """The name that the tables give it, or as written; short for the old thing's, the old's."""
    short = old is not None and old.thing.lower().endswith(f" {name.lower()}")
    return old.kind if old is not None and short else known_name(name)


def _standing(name: str, place: str, things: Iterable[Fitted]) -> Fitted | None:
    """What stands there under the name, else the only thing there that ends in the same word."""
    there = [one for one in things if one.place == place and one.end is None]
    same = [one for one in there if one.kind == known_name(name)]
    if same:
        return same[0]
    alike = [one for one in there if _last_word(one.thing) == _last_word(name)]
    return alike[0] if len(alike) == 1 else None


def _last_word(name: str) -> str:
    return name.lower().split()[-1].removesuffix("s") if name.split() else ""


def _is_part(event: Event, old: Fitted) -> bool:
    if event.count is None:
        return False
    before = old.start.count
    return before is None or event.count < before


# ------------------------------------------------------------ from things to rows


def _row(one: Fitted, things: Sequence[Fitted], diary: Diary) -> dict[str, Any]:
    start, end = one.start, one.end
    until = (diary.today, diary.today) if end is None else _days(end)
    lives = [life for other in things if other.kind == one.kind and (life := _life(other))]
    due = _due(start, lives) if end is None else dict.fromkeys(_DUE)
    usual = load_stuff().lives.get(one.kind)
    said = [PARTLY if one.partly else "", NO_LIFE if end is None and not lives else ""]
    events = [start, *one.partly, *([end] if end is not None else [])]
    return {
        "thing": one.thing,
        "place": one.place,
        "fitted": start.date,
        "fitted_end": start.date_end,
        "ended": end.date if end else None,
        "ended_end": end.date_end if end else None,
        "how_ended": {"take down": "taken down", "replace": "replaced"}[end.verb] if end else "",
        **_age(_days(start), until, diary),
        **due,
        "lives": len(lives),
        "usual_seasons_low": usual.seasons_low if usual else None,
        "usual_seasons_high": usual.seasons_high if usual else None,
        "usual_basis": usual.basis if usual else "",
        "cost": start.cost,
        "currency": start.currency,
        "events": ", ".join(str(event.event) for event in events),
        "why": "; ".join(filter(None, said)),
    }


_DUE = ("due_low", "due", "due_high")
Days = tuple[date, date]


def _days(event: Event) -> Days:
    """First and last possible day; work that went on over days is done on its last."""
    assert event.date is not None and event.date_end is not None
    return (event.date_end if event.spread else event.date), event.date_end


def _age(start: Days, until: Days, diary: Diary) -> dict[str, Any]:
    south = (diary.plot.latitude or 0) < 0
    fewest, most = (start[1], until[0]), (start[0], until[1])
    return {
        "years_low": max(0, (fewest[1] - fewest[0]).days) / YEAR_DAYS,
        "years_high": (most[1] - most[0]).days / YEAR_DAYS,
        "seasons_low": seasons(*fewest, south=south),
        "seasons_high": seasons(*most, south=south),
    }


def seasons(first: date, last: date, *, south: bool = False) -> int:
    """Growing seasons from one day to another: midsummers that lie between them, both counted."""
    month = 1 if south else 7
    return sum(first <= date(year, month, 1) <= last for year in range(first.year, last.year + 1))


def _life(one: Fitted) -> tuple[int, int] | None:
    """Fewest and most days from fitting to replacing; None of what stands or was taken down."""
    if one.end is None or one.end.verb != "replace":
        return None
    start, end = _days(one.start), _days(one.end)
    return max(0, (end[0] - start[1]).days), (end[1] - start[0]).days


def _due(start: Event, lives: Sequence[tuple[int, int]]) -> dict[str, date | None]:
    if not lives:
        return dict.fromkeys(_DUE)
    first, last = _days(start)
    usual = median((low + high) / 2 for low, high in lives)
    return {
        "due_low": first + timedelta(days=min(low for low, _ in lives)),
        "due": first + (last - first) / 2 + timedelta(days=round(usual)),
        "due_high": last + timedelta(days=max(high for _, high in lives)),
    }


def structures_notes(diary: Diary) -> list[Note]:
    """What was fitted or replaced on no known day, so that it is in no row."""
    return [
        Note("structures", "day", event.material or event.task, NOT_FITTED)
        for event in diary.reading.events
        if event.kind == "structure" and event.date is None
    ]
