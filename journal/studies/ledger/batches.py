"""Batches of plants as values: how many, where, at which stage, and what became of the rest.

A batch is one sowing or planting. Its plants stand in parts, one for each place and stage, since
some may be moved on and others left behind; its counts are those of the whole batch.
"""

from dataclasses import dataclass, field, replace
from datetime import date

from journal.events.dates import Days
from journal.studies.ledger.grounds import Ground

STAGES = ("sown", "up", "pricked out", "potted on", "hardened off", "planted", "cropping", "ended")
RANK = {stage: rank for rank, stage in enumerate(STAGES)}
_TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Number:
    """A number of plants from `low` to `high`; `high` is None where nothing bounds it."""

    low: float
    high: float | None

    @property
    def exact(self) -> float | None:
        """The number where the diary leaves no choice."""
        return self.high if self.high is not None and self.high - self.low < _TINY else None

    @property
    def none_left(self) -> bool:
        """Whether certainly nothing is alive."""
        return self.high is not None and self.high < _TINY

    def holds(self, wanted: "Number") -> bool:
        """Whether so many can be among these."""
        return self.high is None or wanted.low <= self.high + _TINY

    def capped(self, most: float | None) -> "Number":
        """At most so many."""
        if most is None:
            return self
        high = most if self.high is None else min(self.high, most)
        return Number(min(self.low, high), high)

    def less(self, taken: "Number") -> "Number":
        """What is left when so many were taken; the taking is a fact, so none is below nothing."""
        low = 0.0 if taken.high is None else max(0.0, self.low - taken.high)
        high = None if self.high is None else max(0.0, self.high - taken.low)
        return Number(low, high)

    def more(self, added: "Number") -> "Number":
        """Both together."""
        high = None if self.high is None or added.high is None else self.high + added.high
        return Number(self.low + added.low, high)

    def some(self) -> "Number":
        """An unknown number of these, but one at least."""
        return Number(1.0 if self.high is None else min(1.0, self.high), self.high)


def number(count: float, low: float | None = None, high: float | None = None) -> Number:
    """A count, with its range where the diary wrote one (`5 or 6`)."""
    return Number(count if low is None else low, count if high is None else high)


UNTOLD = Number(0.0, None)


@dataclass(frozen=True, slots=True)
class Totals:
    """What became of a batch, as far as it was counted; None where the diary does not tell.

    `entered` is how many the ledger has to account for: the seeds sown, else the plants that were
    first counted.
    """

    entered: float | None = None
    sown: float | None = None
    up: float | None = None
    pricked_out: float | None = None
    potted_on: float | None = None
    planted: float | None = None
    not_up: float | None = None
    discarded: float | None = None
    lost: float = 0.0
    harvested: float = 0.0
    cleared: float = 0.0

    def plus(self, name: str, count: float) -> "Totals":
        """The totals with so many more of one of them."""
        held: float = getattr(self, name) or 0.0
        return replace(self, **{name: held + count})

    @property
    def gone(self) -> float:
        """How many are known to have come to nothing or to their end."""
        gone = (self.not_up, self.discarded, self.lost, self.harvested, self.cleared)
        return sum(part or 0.0 for part in gone)


@dataclass(slots=True, eq=False)
class Stay:
    """A part's time at one stage in one place: a row of the `plants` study.

    `alive` and `totals` are as they stood when the stay ended; None of an open one.
    """

    stage: str
    place: str
    since: Days
    event: int
    until: Days | None = None
    alive: Number | None = None
    totals: Totals | None = None
    unknown: float | None = None


@dataclass(slots=True, eq=False)
class Part:
    """The plants of a batch that are at one stage in one place.

    `vessel` is what they grow in; `tended` the last day they were sown, moved, potted or fed;
    a `remnant` is what may be left where others were moved on, last on `parted`; `seen` is
    whether anybody said that plants of it showed.
    """

    batch: "Batch"
    stay: Stay
    ground: Ground
    alive: Number
    vessel: str = ""
    tended: Days | None = None
    remnant: bool = False
    parted: Days | None = None
    seen: bool = False

    @property
    def stage(self) -> str:
        """The stage that the part has reached."""
        return self.stay.stage

    @property
    def unseen(self) -> bool:
        """Whether these are seeds of which nothing says that they came up."""
        return self.stage == "sown" and not self.seen

    @property
    def place(self) -> str:
        """Where it stands, by the name of the day it came there."""
        return self.stay.place


@dataclass(slots=True, eq=False)
class Batch:
    """One sowing or planting and all that came of it."""

    number: int
    crop: str
    cultivar: str
    label: str
    started: Days
    how: str
    event: int
    totals: Totals = Totals()
    parts: list[Part] = field(default_factory=list)
    stays: list[Stay] = field(default_factory=list)
    first_harvest: Days | None = None
    last_harvest: Days | None = None
    over_after: date | None = None
    counted_up: bool = False
    ended: str = ""
    last_way: str = ""
    ended_on: Days | None = None
    end_event: int = 0

    def goes_on(self, day: date) -> bool:
        """Whether nothing of it has ended, and it is not too old by the day."""
        return self.ended_on is None and (self.over_after is None or day <= self.over_after)

    @property
    def alive(self) -> Number:
        """How many of the whole batch are alive, in all places."""
        total = Number(0.0, 0.0)
        for part in self.parts:
            total = total.more(part.alive)
        if total.high is None or self.totals.entered is None:
            return total
        return total.capped(max(0.0, self.totals.entered - self.totals.gone))

    @property
    def unknown(self) -> float | None:
        """How many the diary does not account for: entered less those alive and those gone."""
        if self.totals.entered is None:
            return None
        bounded = sum(part.alive.low for part in self.parts if part.alive.high is not None)
        left = self.totals.entered - self.totals.gone - bounded
        return left if abs(left) > _TINY else 0.0

    def add(self, name: str, count: float) -> None:
        """So many more of one total."""
        self.totals = self.totals.plus(name, count)


def later_than(days: Days, by: int, day: date) -> bool:
    """Whether `day` is certainly more than so many days after the last possible day."""
    return (day - days.last).days > by
