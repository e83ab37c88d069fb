"""Which living plants an event is about: the oldest batch of its crop, cultivar, label and place.

A blank cultivar, label or place matches any; a batch of the very name goes before one without.
"""

from dataclasses import dataclass
from datetime import date

from journal.events.model import Event
from journal.reference.load import load
from journal.studies.ledger.batches import Batch, Part
from journal.studies.ledger.habits import LONGEST_LIFE_DAYS, is_annual, members

YOUNG = frozenset({"sown", "up", "pricked out", "potted on", "hardened off"})
SEEDLINGS = frozenset({"sown", "up"})


@dataclass(frozen=True, slots=True)
class Wanted:
    """What an event names of the plants that it is about."""

    crop: str
    cultivar: str
    label: str
    day: date

    @classmethod
    def of(cls, event: Event, day: date) -> "Wanted":
        """The names that an event wrote."""
        return cls(event.crop, event.cultivar, event.label, day)

    def fits(self, batch: Batch) -> bool:
        """Whether the batch may be meant."""
        if self.crop and batch.crop not in members(self.crop):
            return False
        return self.may_be(batch)

    def may_be(self, batch: Batch) -> bool:
        """Whether a batch of the crop may be meant."""
        return _either(self.cultivar, batch.cultivar) and _either(self.label, batch.label)

    def by_age(self, part: Part) -> tuple[bool, bool, bool, bool, bool, date, int]:
        """Sorts the very name and the living first, then the oldest."""
        batch = part.batch
        age = (self.day - batch.started.last).days
        return (
            self.crop != batch.crop and self.crop in load().crops,
            self.cultivar != batch.cultivar and self.cultivar != "",
            self.label != batch.label and self.label != "",
            age > LONGEST_LIFE_DAYS and is_annual(batch.crop),
            part.remnant and part.alive.low == 0,
            batch.started.first,
            batch.number,
        )


def _either(written: str, held: str) -> bool:
    return not written or not held or written == held or written.casefold() == held.casefold()
