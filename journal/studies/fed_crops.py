"""The plants and the ground of a crop in one place on one day, as its sowings and plantings say."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from journal.diary import Diary
from journal.events.model import Event
from journal.studies.ledger.batches import Batch
from journal.studies.ledger.entries import Joined
from journal.studies.ledger.grounds import Ground, Grounds
from journal.studies.once import once_a_diary
from journal.studies.plants import books_of


@dataclass(frozen=True, slots=True)
class SetOut:
    """One sowing or planting in its growing place, from its first day to the last of its stay.

    `plants` is how many were planted, None of seed and where it was not counted; `area_m2` is
    rows x distance between rows, else plants x spacing; `lost` are later losses there by day.
    """

    crop: str
    cultivar: str
    ground: Ground
    since: date
    until: date | None
    plants: float | None
    area_m2: float | None
    lost: tuple[tuple[date, float], ...]

    def stands(self, day: date) -> bool:
        """Whether it can have stood there on the day."""
        return self.since <= day and (self.until is None or day <= self.until)

    def left(self, day: date) -> float | None:
        """Plants left on the day, of those planted less those lost."""
        if self.plants is None:
            return None
        return max(0.0, self.plants - sum(count for when, count in self.lost if when <= day))


@once_a_diary
def set_out(diary: Diary) -> list[SetOut]:
    """Every sowing and planting of the ledger, in its growing place."""
    books, grounds = books_of(diary), Grounds(diary.sheet)
    events = {event.event: event for event in diary.reading.events}
    by_batch: dict[int, list[Joined]] = {}
    for joined in books.joined:
        by_batch.setdefault(joined.batch, []).append(joined)
    return [
        found
        for batch in books.batches
        for found in _of_batch(batch, by_batch.get(batch.number, []), events, grounds)
    ]


def _of_batch(
    batch: Batch, joined: Sequence[Joined], events: dict[int, Event], grounds: Grounds
) -> list[SetOut]:
    planted = [each for each in joined if each.what == "planted"]
    begun = planted or [each for each in joined if each.what == "sown"]
    lost = [each for each in joined if each.what == "lost" and each.count is not None]
    found = []
    for each in begun:
        event = events[each.event]
        if event.date is None or not event.place:
            continue
        ground = grounds.of(event.place, event.date)
        until = _until(batch, ground, grounds)
        plants = event.count if each.what == "planted" else None
        gone = tuple(
            (when, low)
            for one in lost
            if (when := events[one.event].date) is not None
            and one.count is not None
            and (low := one.count.low)
            and ground & grounds.of(one.place, when)
        )
        found.append(
            SetOut(
                batch.crop,
                batch.cultivar,
                ground,
                event.date,
                until,
                plants,
                _area(event),
                gone,
            )
        )
    return found


def _until(batch: Batch, ground: Ground, grounds: Grounds) -> date | None:
    """The last day that any of the batch can have stood there; None while some does."""
    stays = [
        stay
        for stay in batch.stays
        if stay.stage != "ended" and ground & grounds.of(stay.place, stay.since.first)
    ]
    ends = [stay.until.last for stay in stays if stay.until is not None]
    return max(ends) if ends and len(ends) == len(stays) else None


def _area(event: Event) -> float | None:
    between = event.spacing_m
    if event.length_m is not None and event.row_spacing_m is not None:
        return event.length_m * event.row_spacing_m
    if event.count is None or between is None:
        return None
    return event.count * between * (event.row_spacing_m or between)


def stood_there(
    diary: Diary, crop: str, cultivar: str, place: str, day: date
) -> tuple[float | None, float | None]:
    """Plants of a crop in a place on a day, and the m2 that they stood on.

    Each is the sum over all sowings and plantings that can have stood there, and None where one
    of them does not tell it, or there is none. A blank cultivar is any.
    """
    ground = Grounds(diary.sheet).of(place, day)
    there = [
        one
        for one in set_out(diary)
        if one.crop == crop
        and (not cultivar or one.cultivar in {"", cultivar})
        and one.ground & ground
        and one.stands(day)
    ]
    return _sum([one.left(day) for one in there]), _sum([one.area_m2 for one in there])


def _sum(figures: Sequence[float | None]) -> float | None:
    known = [figure for figure in figures if figure is not None]
    return sum(known) if figures and len(known) == len(figures) else None
