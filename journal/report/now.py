"""What stands, what is due, overdue or forgotten today, as rows for programs and words for people.

Quotes the studies of the ledger; nothing is computed here.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

import pandas as pd

from journal.charts.words import crop_name, number
from journal.diary import Diary
from journal.report.thirst import thirst_aside, thirst_lines
from journal.studies.ahead import falling_due
from journal.studies.cautions import caution_words, cautions_for_plans
from journal.studies.intentions import intentions
from journal.studies.manure_interval import still_waiting
from journal.studies.notes import counted
from journal.studies.plants import contradictions, unplaced
from journal.studies.standing import empty_beds, outlook, waiting

WEEK = 7
WAITING_SHOWN = 5
LONG_ENOUGH = 7
PLANNED_DAYS = 28
# common practice, no published source: what is picked at all is picked again within four weeks
PICKED_DAYS = 28

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Line:
    """What a line is about, and what it says of it; `row` is the same for a program.

    `place` stands in a column of its own where lines are told by place.
    """

    subject: str
    says: str
    row: Row
    place: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Lines under one heading; `key` is its name in JSON, `aside` a word on all of them."""

    key: str
    title: str
    lines: tuple[Line, ...]
    aside: str = ""


@dataclass(frozen=True, slots=True)
class Glance:
    """The plot at a glance on one day, and how many entries the ledger could not place.

    `contradictions` name both lines of a count that another line gainsays, `cautions` are those on
    the work that is planned.
    """

    today: date
    plot: str
    groups: tuple[Group, ...]
    unplaced: int
    cautions: tuple[str, ...] = ()
    contradictions: tuple[str, ...] = ()


def glance(diary: Diary) -> Glance:
    """Everything that `haulm now` tells; groups without a line are kept, for programs."""
    frame = _by_place(outlook(diary), diary)
    over = _long_picked(frame, diary.today)
    shown = frame[~frame["may_be_left"] & ~over]
    left = frame[frame["may_be_left"] | over]
    cover = shown["under_cover"].astype(bool)
    words = Words(diary.today)
    groups = (
        Group("in_the_ground", "In the ground", _lines(shown[~cover], words.standing)),
        Group("under_cover", "Under cover", _lines(shown[cover], words.standing)),
        Group("ready", "Ready", _lines(_of_state(shown, "ready"), words.ready)),
        Group(
            "past_its_time", "Past its time", _lines(_of_state(shown, "past its time"), words.late)
        ),
        Group("forgotten", "Forgotten", _lines(_of_state(shown, "forgotten"), words.late)),
        Group("due", "Due this week", _due(diary, shown, words)),
        Group("overdue", "Planned and overdue", _lines(_plans(diary, "overdue"), words.plan)),
        Group("planned", "Planned for the weeks after", _lines(_later(diary), words.plan)),
        Group(
            "thirsty",
            "In need of water",
            tuple(Line(*line) for line in thirst_lines(diary)),
            thirst_aside(diary),
        ),
        Group(
            "on_manure",
            "On raw manure",
            _lines(still_waiting(diary), words.on_manure),
            caution_words("manure_interval"),
        ),
        Group("empty_beds", "Beds standing empty", _lines(empty_beds(diary), words.empty)),
        Group(
            "waiting",
            "Young plants waiting longest",
            _lines(waiting(diary, LONG_ENOUGH).head(WAITING_SHOWN), words.waits),
            "Nobody potted, fed or moved them since.",
        ),
        Group("may_be_left", "May still be about", _lines(left, words.left)),
    )
    plans = intentions(diary)
    ahead = plans[plans["state"].isin(("open", "overdue"))]
    care = tuple(caution.text for caution in cautions_for_plans(ahead))
    return Glance(
        diary.today, diary.plot.name, groups, len(unplaced(diary)), care, contradictions(diary)
    )


def _long_picked(frame: pd.DataFrame, today: date) -> "pd.Series[bool]":
    """What was picked or lifted long ago, of which nothing says that any is left.

    Where the diary's own past tells until when a crop is picked, that is told instead.
    """
    silent = (frame["stage"] == "cropping") & (frame["alive_low"] <= 1) & frame["due_high"].isna()
    since = pd.Timestamp(today) - frame["last_picked"]
    long_ago: pd.Series[bool] = silent & (since > pd.Timedelta(days=PICKED_DAYS)).fillna(False)
    return long_ago


def _by_place(frame: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    """The rows in the order in which the sheet names their places, then by crop."""
    names = dict.fromkeys(place.name for place in diary.sheet.places)
    order = {name: at for at, name in enumerate(names)}
    rank = frame["place"].map(order).fillna(len(order))
    ordered = frame.assign(rank=rank).sort_values(["rank", "place", "crop", "cultivar", "batch"])
    return ordered.drop(columns="rank")


def _of_state(frame: pd.DataFrame, state: str) -> pd.DataFrame:
    return frame[frame["state"] == state]


def _lines(frame: pd.DataFrame, line: Callable[[Row], Line]) -> tuple[Line, ...]:
    return tuple(line(named(row)) for row in frame.to_dict("records"))


def named(row: Mapping[Any, Any]) -> Row:
    """A row of a frame by the names of its columns."""
    return {str(name): value for name, value in row.items()}


def _due(diary: Diary, frame: pd.DataFrame, words: "Words") -> tuple[Line, ...]:
    """Plans, then what stands and comes to its next stage, then what is usually done by now."""
    week = pd.Timestamp(diary.today) + pd.Timedelta(days=WEEK - 1)
    plans = _plans(diary, "open")
    this_week = plans[plans["due"] <= week]
    soon = frame["due"].between(pd.Timestamp(diary.today), week) & frame["next"].isin(list(NEXT))
    usual = falling_due(diary, WEEK - 1)
    planned = {(row["crop"], _WHAT.get(row["verb"])) for row in plans.to_dict("records")}
    unplanned = [pair not in planned for pair in zip(usual["crop"], usual["what"], strict=True)]
    return (
        *_lines(this_week, words.plan),
        *_lines(frame[soon.fillna(False).astype(bool)], words.next),
        *_lines(usual[unplanned], words.usual),
    )


def _plans(diary: Diary, state: str) -> pd.DataFrame:
    frame = intentions(diary)
    return frame[frame["state"] == state]


def _later(diary: Diary) -> pd.DataFrame:
    """Open plans of the weeks after this one, and those that name no day."""
    frame = _plans(diary, "open")
    first = pd.Timestamp(diary.today) + pd.Timedelta(days=WEEK)
    last = pd.Timestamp(diary.today) + pd.Timedelta(days=PLANNED_DAYS)
    return frame[frame["due"].isna() | frame["due"].between(first, last)]


# ---------------------------------------------------------------- words

NEXT = {"up": "coming up", "planted": "planting out", "picking": "first picking"}
_WHAT = {"sow": "sowing", "plant": "planting", "plant out": "planting"}
_LATE = "past its time"
_SINCE = {"cropping": "first picked", "up": "up since"}
_WAS_DUE = {
    "picking": "first picking was due",
    "planted": "planting out was due",
    "up": "coming up was due",
}


def many(row: Row) -> str:
    """How many are alive, as a person says it: `16`, `at most 46`, `5 to 6`, `uncounted`."""
    low, high = row["alive_low"], row["alive_high"]
    if not pd.isna(row["alive"]):
        return number(row["alive"])
    if pd.isna(high):
        return "uncounted" if low <= 1 else f"at least {number(low)}"
    return f"at most {number(high)}" if low <= 1 else f"{number(low)} to {number(high)}"


def plan_words(row: Row) -> str:
    """A plan as it was written, without its day: `sow 24 leek ‘Musselburgh’ · Frame`."""
    many_of: str = "" if pd.isna(row["count"]) else f"{number(row['count'])} "
    verb = "" if row["verb"] in {"plan", "job"} else row["verb"]
    thing = name(row) if row["crop"] else ""
    pieces = [verb, f"{many_of}{thing}", row["material"], row["what"]]
    said = " ".join(piece.strip() for piece in pieces if piece.strip())
    return f"{said} · {row['place']}" if row["place"] else said


def name(row: Row) -> str:
    """What a row is about: `carrot ‘Flyaway’ [second]`."""
    words = crop_name(row["crop"], row["cultivar"])
    return f"{words} [{row['label']}]" if row["label"] else words


def _at(row: Row) -> str:
    return f"{name(row)} · {row['place']}" if row["place"] else name(row)


@dataclass(frozen=True, slots=True)
class Words:
    """How the rows are said on a day, from which a year need not be named."""

    today: date

    def day(self, day: Any) -> str:
        """A day as a person says it; without its year where that is today's."""
        year = "" if day.year == self.today.year else f" {day.year}"
        return f"{day.day} {day:%B}{year}"

    def days(self, low: Any, high: Any) -> str:
        """A first and last day: `11 July to 10 August 2025`, one day where they are the same."""
        if pd.isna(low):
            return f"by {self.day(high)}"
        if low == high:
            return self.day(low)
        first = f"{low.day} {low:%B}" if low.year == high.year else self.day(low)
        if (low.year, low.month) == (high.year, high.month):
            first = str(low.day)
        return f"{first} to {self.day(high)}"

    def standing(self, row: Row) -> Line:
        """`16, up since 25 February, 4 days`."""
        stage = row["stage"]
        if not pd.isna(row["since"]):
            stage = f"{_SINCE.get(stage, stage)} {self.day(row['since'])}"
        if row["stage"] != "cropping" and not pd.isna(row["days"]):
            stage += f", {counted(int(row['days']), 'day')}"
        return Line(name(row), f"{many(row)}, {stage}", _plant_row(row), row["place"] or "no place")

    def ready(self, row: Row) -> Line:
        """`being picked, usually until 7 March (this diary, 2 batches)`."""
        being_picked = row["stage"] == "cropping"
        says = "being picked" if being_picked else "first picking due"
        if being_picked and not pd.isna(row["last_picked"]):
            says += f", last on {self.day(row['last_picked'])}"
        if not pd.isna(row["due_high"]):
            span = f" {self.days(row['due_low'], row['due_high'])}"
            if row["next"] == "last picking":
                span = f", usually until {self.day(row['due_high'])}"
            says = f"{'usually picked' if being_picked and span[0] == ' ' else says}{span}"
            says += f" ({row['source']})"
        return Line(_at(row), says, _plant_row(row))

    def late(self, row: Row) -> Line:
        """`first picking was due 11 July to 10 August 2025 (North Dakota ...)`."""
        if row["next"] == "last picking":
            says = f"usually over by {self.day(row['due_high'])}"
        else:
            span = self.days(row["due_low"], row["due_high"])
            says = f"{_WAS_DUE.get(row['next'], 'was due')} {span}"
        return Line(_at(row), f"{says} ({row['source']})", _plant_row(row))

    def next(self, row: Row) -> Line:
        """`planting out 21 to 28 March (this diary, 4 batches)`."""
        span = self.days(row["due_low"], row["due_high"])
        says = f"{NEXT[row['next']]} {span} ({row['source']})"
        return Line(_at(row), says, _plant_row(row) | {"what": NEXT[row["next"]]})

    def usual(self, row: Row) -> Line:
        """`sowing, usually 3 March, 1 to 5 March (this diary, 4 years; right to 2 days)`."""
        span = self.days(row["due_low"], row["due_high"])
        error: str = (
            "" if pd.isna(row["error_days"]) else f"; right to {_right_to(row['error_days'])}"
        )
        says = f"{row['what']}, usually {self.day(row['due'])}, {span} ({row['source']}{error})"
        names = ("what", "crop", "due_low", "due", "due_high", "error_days", "source")
        return Line(row["crop"], says, _plain(row, names))

    def plan(self, row: Row) -> Line:
        """`due 15 November 2025, 106 days ago`."""
        says = "no day said"
        if not pd.isna(row["due"]):
            says = f"due {self.days(row['due'], row['due_end'])}"
        if not pd.isna(row["overdue_days"]):
            says += f", {counted(int(row['overdue_days']), 'day')} ago"
        names = ("verb", "crop", "cultivar", "label", "place", "material", "what", "count")
        told = _plain(row, (*names, "due", "due_end", "overdue_days", "file", "line"))
        return Line(plan_words(row), says, told)

    def on_manure(self, row: Row) -> Line:
        """`horse manure on 20 April; 120 days end on 18 August`."""
        says = (
            f"{row['material']} on {self.day(row['applied_end'])}; {row['needed_days']} days end "
            f"on {self.day(row['allowed_from'])}"
        )
        names = ("place", "crop", "material", "applied_end", "needed_days", "allowed_from")
        return Line(f"{row['crop']} · {row['place']}", says, _plain(row, names))

    def empty(self, row: Row) -> Line:
        """`since 4 October 2025`."""
        known = not pd.isna(row["since"])
        says: str = (
            f"since {self.day(row['since'])}" if known else "nothing is known to stand there"
        )
        return Line(row["place"], says, _plain(row, ("place", "since")))

    def waits(self, row: Row) -> Line:
        """`62, 8 days since 21 February`."""
        days = counted(int(row["tended_days"]), "day")
        says = f"{many(row)}, {days} since {self.day(row['tended'])}"
        return Line(_at(row), says, _plant_row(row) | _plain(row, ("tended", "tended_days")))

    def left(self, row: Row) -> Line:
        """`at most 4, left when others were moved on`, or `last picked 2 July, 70 days ago`."""
        if row["may_be_left"]:
            return Line(_at(row), f"{many(row)}, left when others were moved on", _plant_row(row))
        days = counted((self.today - row["last_picked"].date()).days, "day")
        says = f"{many(row)}, last picked {self.day(row['last_picked'])}, {days} ago"
        return Line(_at(row), says, _plant_row(row))


def _right_to(days: float) -> str:
    return "the day" if days < 1 else counted(round(days), "day")


# ---------------------------------------------------------------- rows for programs

_PLANT = (
    "crop",
    "cultivar",
    "label",
    "place",
    "stage",
    "alive",
    "alive_low",
    "alive_high",
    "since",
    "days",
    "next",
    "due",
    "due_low",
    "due_high",
    "source",
    "state",
    "file",
    "line",
)


def _plant_row(row: Row) -> Row:
    return _plain(row, _PLANT)


def _plain(row: Row, names: Iterable[str]) -> Row:
    """The columns as JSON takes them: days in ISO 8601, whole numbers whole, blanks null."""
    return {name: _value(row[name]) for name in names}


def _value(value: Any) -> Any:
    if pd.isna(value):
        return None
    if isinstance(value, pd.Timestamp):
        return value.date().isoformat()
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value
