"""An event as the ledger reads it, and what is kept of it: joined to a batch or left out."""

from dataclasses import dataclass
from datetime import date

from journal.events.dates import Days
from journal.events.model import Event
from journal.studies.ledger.batches import Number, Totals, number


@dataclass(frozen=True, slots=True)
class Joined:
    """An event that a batch took in: what it did there, to how many, and why."""

    batch: int
    event: int
    what: str
    stage: str
    place: str
    count: Number | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Unplaced:
    """An event, or so many of its plants, that no batch could take in; `other` contradicts it.

    `day` is the first on which it can have been; None where it has no day.
    """

    event: int
    kind: str
    verb: str
    crop: str
    cultivar: str
    label: str
    place: str
    day: date | None
    reason: str
    count: float | None = None
    other: int | None = None

    @classmethod
    def of(
        cls, event: Event, reason: str, count: float | None = None, other: int | None = None
    ) -> "Unplaced":
        """What is left out of an event, and why."""
        names = event.crop, event.cultivar, event.label, event.place
        return cls(event.event, event.kind, event.verb, *names, event.date, reason, count, other)


@dataclass(frozen=True, slots=True)
class Before:
    """A part and its batch as they stood before an event."""

    alive: Number
    totals: Totals
    unknown: float | None


def when(event: Event) -> Days:
    """The days on which an event can have begun; days that it went on over are no doubt."""
    assert event.date is not None and event.date_end is not None
    return Days(event.date, event.date if event.spread else event.date_end)


def told(event: Event) -> Number | None:
    """The plants that an event counts; None where it counts none."""
    if event.count is None:
        return None
    ranged = event.mass_kg is None and event.volume_l is None
    return number(event.count, event.low, event.high) if ranged else number(event.count)
