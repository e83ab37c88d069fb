"""One event on its way into the books: which plants it is about, and how many of each batch.

Finds and shares out; what a verb does with what was found is `raising` and `taking`.
"""

from collections.abc import Callable
from datetime import date

from journal.events.dates import Days
from journal.events.model import Event
from journal.studies.ledger.batches import Batch, Number, Part, number
from journal.studies.ledger.books import Books
from journal.studies.ledger.entries import told, when
from journal.studies.ledger.grounds import Ground, meet
from journal.studies.ledger.habits import members
from journal.studies.ledger.joining import SEEDLINGS, YOUNG, Wanted

Drawn = list[tuple[Part, Number | None]]
Accepts = Callable[[Part], bool]
_STARTS = frozenset({"sowing", "planting"})
_UNDER_COVER = frozenset({"frame", "house"})


def order(event: Event) -> tuple[date, int]:
    """Where an event stands in the order of things.

    A day that is not certain counts from its first day for a beginning, to its last for a
    clearing, and from the middle for everything between.
    """
    days = when(event)
    if event.kind in _STARTS or days.first == days.last:
        return days.first, event.event
    if event.kind == "end":
        return days.last, event.event
    return days.first + (days.last - days.first) // 2, event.event


class Booking:
    """An event with the books that it goes into."""

    def __init__(self, books: Books, event: Event):
        """Settles what the event names: its days, its plants, its grounds."""
        self.books = books
        self.event = event
        self.days = when(event)
        self.day = order(event)[0]
        self.count = told(event)
        self.wanted = Wanted.of(event, self.day)
        self.ground: Ground = books.grounds.of(event.place, self.day)
        self.source: Ground = books.grounds.of(event.place_from, self.day)

    def last_days(self) -> Days:
        """The days on which the event can have been over."""
        assert self.event.date is not None and self.event.date_end is not None
        end = self.event.date_end
        return Days(end if self.event.spread else self.event.date, end)

    # ------------------------------------------------------------ finding

    def fitting(self, accepts: Accepts | None = None) -> list[Part]:
        """The living parts that the event's names fit, the oldest batch first."""
        return self._oldest_first(self._meant(accepts))

    def fitting_there(self, accepts: Accepts | None = None) -> list[Part]:
        """Those of them that are `there`, the oldest batch first."""
        # sorted last: of all that lives, little is in one place
        return self._oldest_first(self.there(self._meant(accepts)))

    def fitting_moved(self, accepts: Accepts | None = None) -> list[Part]:
        """Those at the event's place, else those elsewhere, which must have been moved there."""
        meant = self._meant(accepts)
        return self._oldest_first(self.there(meant) or meant)

    def _meant(self, accepts: Accepts | None) -> list[Part]:
        living = self.books.living(members(self.event.crop), self.day)
        if self.wanted.cultivar or self.wanted.label:
            living = [batch for batch in living if self.wanted.may_be(batch)]
        parts = [part for batch in living for part in batch.parts]
        return parts if accepts is None else [part for part in parts if accepts(part)]

    def _oldest_first(self, parts: list[Part]) -> list[Part]:
        return sorted(parts, key=self.wanted.by_age) if len(parts) > 1 else parts

    def there(self, parts: list[Part], ground: Ground | None = None) -> list[Part]:
        """Those at the event's place, else those whose place was never told; all if it has none."""
        ground = self.ground if ground is None else ground
        exact = [part for part in parts if part.ground & ground]
        return exact or [part for part in parts if meet(part.ground, ground)]

    def kind_of(self, place: str) -> str:
        """What the sheet declares a place to be; "" where it does not."""
        held = self.books.grounds.sheet.place_on(place, self.day)
        return held.kind if held is not None else ""

    def is_raised(self, part: Part) -> bool:
        """Whether the part is raised to be planted elsewhere: not sown where it is to grow."""
        if part.stage == "planted":
            return part.vessel != "" or self.kind_of(part.place) == "frame"
        if part.stage not in SEEDLINGS or part.vessel:
            return part.stage in YOUNG
        kind = self.kind_of(part.place)
        return kind in _UNDER_COVER or (kind == "" and not part.ground & self.ground)

    # ------------------------------------------------------------ sharing a count out

    def draw(self, parts: list[Part]) -> Drawn:
        """Which parts give how many: all that the first batch has there where none were counted.

        A count goes to the oldest batch that can hold it, else to one after the other.
        """
        if self.count is None:
            return [(part, None) for part in parts if part.batch is parts[0].batch]
        parts = self._able_first(parts, self.count)
        if self.count.exact is None:
            return [(parts[0], self.count.capped(parts[0].alive.high))]
        drawn, left = self.one_by_one(parts, self.count.exact)
        late = self.books.late(parts[0], left) if left else 0.0
        if late:
            given = dict(drawn).get(parts[0])
            others = [pair for pair in drawn if pair[0] is not parts[0]]
            drawn = [(parts[0], number(late + (given.low if given else 0.0))), *others]
        if left > late:
            self.too_many(parts[0], left - late)
        return drawn

    def one_by_one(self, parts: list[Part], count: float) -> tuple[Drawn, float]:
        """A count taken from one part after the other, and what is left when all are empty."""
        drawn: Drawn = []
        for part in parts:
            share = count if part.alive.high is None else min(count, part.alive.high)
            if share > 0:
                drawn.append((part, number(share)))
                count -= share
        return drawn, count

    def _able_first(self, parts: list[Part], count: Number) -> list[Part]:
        room: dict[int, Number] = {}
        for part in parts:
            room[part.batch.number] = room.get(part.batch.number, Number(0, 0)).more(part.alive)
        able = [batch for batch, alive in room.items() if alive.holds(count)]
        if not able:
            return parts
        first = [part for part in parts if part.batch.number == able[0]]
        return first + [part for part in parts if part.batch.number != able[0]]

    # ------------------------------------------------------------ what cannot be placed

    def too_many(self, part: Part, count: float) -> None:
        """So many of the event's plants are more than what last counted them leaves."""
        reason = "more than the diary accounts for"
        other = self.books.last_counted(part.batch, self.event)
        self.books.leave_out(self.event, reason, count, other)

    def nothing_fits(self, reason: str) -> None:
        """The event is left out, beside the last event of what fitted it and is over."""
        same = [batch for batch in self.over() if self.there_before(batch)]
        other = same[0].end_event if same else None
        count = self.count.exact if self.count is not None else None
        self.books.leave_out(self.event, reason, count, other)

    def over(self) -> list[Batch]:
        """The batches that the event's names fit and that are over, the last to end first."""
        ended = self.books.ended(members(self.event.crop))
        return [batch for batch in ended if self.wanted.fits(batch)]

    def there_before(self, batch: Batch) -> bool:
        """Whether a batch that is over ended at the event's place."""
        last = batch.stays[-1]
        return meet(self.books.grounds.of(last.place, last.since.last), self.ground)

    def was_there(self, batch: Batch) -> bool:
        """Whether a batch that the event's names fit has ever stood at the event's place."""
        grounds = self.books.grounds
        return self.wanted.fits(batch) and any(
            grounds.of(stay.place, stay.since.last) & self.ground for stay in batch.stays
        )
