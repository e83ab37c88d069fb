"""The books of the plants: batches opened, moved on, counted, taken from and closed.

Keeps the arithmetic: of what a batch began with, every plant is alive, gone for a reason, or not
accounted for. Nothing here looks at an event's verb.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta

from journal.events.dates import Days
from journal.events.model import Event
from journal.studies.ledger.batches import (
    UNTOLD,
    Batch,
    Number,
    Part,
    Stay,
    Totals,
    later_than,
    number,
)
from journal.studies.ledger.entries import Before, Joined, Unplaced, when
from journal.studies.ledger.grounds import Grounds
from journal.studies.ledger.habits import (
    LONGEST_LIFE_DAYS,
    OVER_AFTER_DAYS,
    UP_BY_DAYS,
    is_annual,
)


@dataclass(slots=True)
class Books:
    """All batches of one diary, and what could not be placed."""

    grounds: Grounds
    batches: list[Batch] = field(default_factory=list)
    joined: list[Joined] = field(default_factory=list)
    unplaced: list[Unplaced] = field(default_factory=list)
    _living: dict[str, list[Batch]] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        """Sorts out what goes on of batches that there were before."""
        for batch in self.batches:
            if not batch.ended:
                self._living.setdefault(batch.crop, []).append(batch)

    # ------------------------------------------------------------ which batches there are

    def living(self, crops: Iterable[str], day: date) -> list[Batch]:
        """The batches of these crops that stand on the day; what is over by then is closed."""
        held = [batch for crop in crops for batch in self._living.get(crop, ())]
        return [batch for batch in held if batch.goes_on(day) or not self._over(batch, day)]

    def all_living(self, day: date) -> list[Batch]:
        """Every batch that stands on the day."""
        return self.living(list(self._living), day)

    def ended(self, crops: Iterable[str]) -> list[Batch]:
        """The batches of these crops that are over, the last to end first."""
        names = frozenset(crops)
        over = [batch for batch in self.batches if batch.ended and batch.crop in names]
        return sorted(over, key=lambda batch: _last_day(batch), reverse=True)

    def _over(self, batch: Batch, day: date) -> bool:
        gone = batch.ended_on
        if gone is not None and _only_remnants(batch) and later_than(gone, OVER_AFTER_DAYS, day):
            self._close(batch)
        elif batch.over_after is not None and day > batch.over_after:
            for part in batch.parts[:]:
                self.end(part, _last_of_an_annual(batch), "assumed", batch.end_event)
        return bool(batch.ended)

    def harvest(self, batch: Batch, first: Days, last: Days) -> None:
        """Notes a picking: the days on which it can have begun, and been over."""
        batch.first_harvest = batch.first_harvest or first
        if batch.last_harvest is None or last.last >= batch.last_harvest.last:
            batch.last_harvest = last
        if is_annual(batch.crop):
            batch.over_after = _last_of_an_annual(batch).last

    def finish(self, day: date) -> None:
        """Closes what is over by the day.

        Seeds that should have shown by then and of which nobody says that they did are no longer
        known to be alive.
        """
        for batch in self.all_living(day):
            if later_than(batch.started, UP_BY_DAYS, day):
                for part in batch.parts:
                    part.alive = Number(0.0, part.alive.high) if part.unseen else part.alive

    # ------------------------------------------------------------ opening and joining

    def open(self, event: Event, stage: str, count: Number | None) -> Part:
        """A new batch with one part; `count` becomes the number that it has to account for."""
        days = when(event)
        batch = Batch(
            number=len(self.batches) + 1,
            crop=event.crop,
            cultivar=event.cultivar,
            label=event.label,
            started=days,
            how=event.verb,
            event=event.event,
            end_event=event.event,
        )
        if is_annual(batch.crop):
            batch.over_after = _last_of_an_annual(batch).last
        if count is not None:
            batch.totals = Totals(entered=count.high)
        self.batches.append(batch)
        self._living.setdefault(batch.crop, []).append(batch)
        part = self.stand(batch, event, stage, event.place, UNTOLD if count is None else count)
        part.vessel = event.vessel
        return part

    def stand(self, batch: Batch, event: Event, stage: str, place: str, alive: Number) -> Part:
        """A new part of a batch, which reaches its stage with the event."""
        days = when(event)
        stay = Stay(stage, place, days, event.event)
        ground = self.grounds.of(place, days.last)
        part = Part(batch, stay, ground, alive, tended=days)
        batch.stays.append(stay)
        batch.parts.append(part)
        return part

    def join(
        self, part: Part, event: Event, what: str, count: Number | None = None, reason: str = ""
    ) -> None:
        """Notes that the part's batch took in the event."""
        found = Joined(part.batch.number, event.event, what, part.stage, part.place, count, reason)
        self.joined.append(found)
        part.batch.end_event = event.event

    def confirm(self, batch: Batch, event: Event, what: str) -> None:
        """Notes that an event says once more what ended a batch."""
        place = batch.stays[-1].place
        self.joined.append(Joined(batch.number, event.event, what, "ended", place))

    def last_counted(self, batch: Batch, event: Event) -> int:
        """The last event before this one that counted plants of the batch, else its beginning."""
        for each in reversed(self.joined):
            if each.batch == batch.number and each.count is not None and each.event != event.event:
                return each.event
        return batch.event

    def leave_out(
        self, event: Event, reason: str, count: float | None = None, other: int | None = None
    ) -> None:
        """Notes that an event, or so many of its plants, could not be placed."""
        self.unplaced.append(Unplaced.of(event, reason, count, other))

    # ------------------------------------------------------------ from stage to stage

    def before(self, part: Part) -> Before:
        """How things stand, to be kept by the stay that an event is about to end."""
        return Before(part.alive, part.batch.totals, part.batch.unknown)

    def pass_on(self, part: Part, event: Event, stage: str, place: str, before: Before) -> None:
        """The whole part reaches a stage, or a place, and its stay there begins."""
        self._end_stay(part, when(event), before)
        if part.unseen and stage not in {"sown", "up"}:
            part.alive = part.alive.some()
        part.stay = Stay(stage, place, when(event), event.event)
        part.batch.stays.append(part.stay)
        part.ground = self.grounds.of(place, when(event).last)
        if stage not in {"up", "cropping"}:
            part.tended = when(event)

    def split(self, part: Part, taken: Number, event: Event, stage: str, place: str) -> Part:
        """So many of the part reach a stage; the rest stay where they are."""
        moved = self.stand(part.batch, event, stage, place, taken)
        moved.vessel = part.vessel
        if part.alive.high is None:
            part.batch.add("entered", taken.high or taken.low)
        rest = part.alive.less(taken)
        # of seeds that nobody saw come up, nothing says that any of the rest did
        part.alive = Number(0.0, rest.high) if part.unseen else rest
        part.remnant = part.alive.low == 0
        part.parted = when(event)
        return moved

    def merge(self, part: Part) -> Part:
        """The part, or the one of its batch that was already at the same stage and place."""
        for other in part.batch.parts:
            same = other is not part and other.stage == part.stage != "cropping"
            if same and other.ground == part.ground:
                other.alive = other.alive.more(part.alive)
                other.remnant = other.remnant and part.remnant
                part.batch.parts.remove(part)
                part.batch.stays.remove(part.stay)
                return other
        return part

    def place(self, part: Part, event: Event) -> None:
        """The part stands where the event says: it was moved there, or its place is first told."""
        self.put(part, event, event.place)

    def put(self, part: Part, event: Event, place: str) -> None:
        """The part stands in a place from the event on; "" leaves it where it is."""
        ground = self.grounds.of(place, when(event).last)
        if not ground or part.ground & ground:
            return
        if part.ground:
            self.pass_on(part, event, part.stage, place, self.before(part))
        else:
            part.stay.place, part.ground = place, ground

    def _end_stay(self, part: Part, until: Days, before: Before) -> None:
        stay = part.stay
        stay.until, stay.alive = until, before.alive
        stay.totals, stay.unknown = before.totals, before.unknown

    # ------------------------------------------------------------ taking and ending

    def take(self, part: Part, name: str, taken: Number, event: Event, ending: str) -> None:
        """So many of the part are lost, harvested or cleared; with none left it ends."""
        before = self.before(part)
        if part.alive.high is None:
            part.batch.add("entered", taken.low)
        part.batch.add(name, taken.low)
        part.alive = part.alive.less(taken)
        if part.alive.none_left:
            self.end(part, when(event), ending, event.event, before)

    def recount(self, part: Part, seen: Number, event: Event) -> None:
        """So many are alive, seen on the day: those of the rest that were surely alive are lost."""
        before, held = self.before(part), part.alive
        part.seen = True
        if held.high is None:
            part.batch.add("entered", seen.high or seen.low)
        else:
            seen = seen.capped(held.high)
            part.batch.add("lost", max(0.0, held.low - (seen.high or 0.0)))
        part.alive = seen
        if part.alive.none_left:
            self.end(part, when(event), "lost", event.event, before)

    def late(self, part: Part, missing: float) -> float:
        """Of plants missing, those that can have come up after the seedlings were counted."""
        batch = part.batch
        if part.stage != "up" or not batch.counted_up or part.alive.high is None:
            return 0.0
        late = missing
        if batch.totals.sown is None:
            batch.add("entered", late)
        else:
            late = min(missing, batch.totals.not_up or 0.0)
            if not late:
                return 0.0
            batch.add("not_up", -late)
        batch.add("up", late)
        part.alive = part.alive.more(number(late))
        return late

    def doubt(self, part: Part, taken: Number | None = None) -> None:
        """Some of the part may be gone: so many at most, or any number."""
        high = part.alive.high
        low = 0.0 if taken is None or taken.high is None else part.alive.low - taken.high
        part.alive = Number(max(0.0, low), high)

    def end(
        self, part: Part, days: Days, how: str, event: int, before: Before | None = None
    ) -> None:
        """The part is over; with the last one its batch."""
        batch = part.batch
        self._end_stay(part, days, before or self.before(part))
        part.alive = Number(0.0, 0.0)
        batch.parts.remove(part)
        last = Stay("ended", part.place, days, event, until=days, alive=part.alive)
        last.totals, last.unknown = batch.totals, batch.unknown
        batch.stays.append(last)
        batch.ended_on, batch.end_event = days, event
        batch.last_way = how
        if not batch.parts:
            self._close(batch)

    def drop(self, part: Part, days: Days, before: Before) -> None:
        """The part is no more and nobody counts it: its stay ends without an ending of its own."""
        self._end_stay(part, days, before)
        part.batch.parts.remove(part)

    def reopen(self, batch: Batch, event: Event, alive: Number) -> Part:
        """A batch that had come to nothing shows life: its last ending is taken back."""
        last = batch.stays.pop()
        stay = batch.stays[-1]
        stay.until = stay.alive = stay.totals = stay.unknown = None
        part = Part(batch, stay, self.grounds.of(last.place, when(event).last), alive)
        batch.parts.append(part)
        batch.ended, batch.ended_on = "", None
        self._living.setdefault(batch.crop, []).append(batch)
        return part

    def _close(self, batch: Batch) -> None:
        """The batch is over; remnants that are left had nothing to say that any were.

        They were gone when others were moved on, or stood at most until the batch was over.
        """
        over = batch.ended_on
        for part in batch.parts:
            gone = part.parted
            if gone is not None and over is not None and gone.first <= over.last:
                part.stay.until = Days(gone.first, over.last)
            part.stay.alive = part.alive
            part.stay.totals, part.stay.unknown = batch.totals, batch.unknown
        batch.parts.clear()
        batch.ended = batch.last_way
        self._living[batch.crop].remove(batch)


def _last_of_an_annual(batch: Batch) -> Days:
    """The days in which an annual is over, though nobody cleared it."""
    last = batch.last_harvest
    if last is not None:
        return Days(last.last, last.last + timedelta(days=OVER_AFTER_DAYS))
    longest = timedelta(days=LONGEST_LIFE_DAYS)
    return Days(batch.started.first, batch.started.last + longest)


def _only_remnants(batch: Batch) -> bool:
    return all(part.remnant and part.alive.low == 0 for part in batch.parts)


def _last_day(batch: Batch) -> date:
    return batch.ended_on.last if batch.ended_on is not None else date.min
