"""What the can brought where: waterings and liquid feeds by day, with what was not measured."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from math import inf

from journal.diary import Diary
from journal.events.model import Event
from journal.studies.ledger.grounds import Ground, Grounds, meet


@dataclass(slots=True)
class Brought:
    """What the can brought to a place on one day: least and most, in litres."""

    low: float = 0.0
    high: float = 0.0
    unmeasured: bool = False
    given: bool = False

    def add(self, litres: float | None, sure: bool) -> None:
        """One watering; an unmeasured one may be any, a doubtful one none."""
        self.given = True
        self.unmeasured |= litres is None
        self.low += litres if litres is not None and sure else 0.0
        self.high += inf if litres is None else litres


@dataclass(frozen=True, slots=True)
class Watering:
    """One watering of one place: its share of each day, in litres; None where unmeasured."""

    ground: frozenset[str]
    crop: str
    days: tuple[date, ...]
    litres: float | None
    sure: bool


def waterings(diary: Diary) -> list[Watering]:
    """Every watering and liquid feed with a day and a place.

    What went on over several days is shared out to them; one of a doubtful day may have been on
    any of them, and surely on none.
    """
    grounds = Grounds(diary.sheet)
    return [made for event in diary.reading.events for made in _of_event(event, grounds)]


def _of_event(event: Event, grounds: Grounds) -> Iterator[Watering]:
    if event.kind not in {"water", "feed"} or event.date is None or event.date_end is None:
        return
    if event.kind == "feed" and event.volume_l is None:
        return
    ground = grounds.of(event.place, event.date)
    span = (event.date_end - event.date).days + 1
    days = tuple(event.date + timedelta(days=at) for at in range(span))
    litres = event.volume_l
    if event.spread and litres is not None:
        litres /= span
    yield Watering(ground, event.crop, days, litres, sure=event.spread or span == 1)


def brought_to(ground: Ground, crop: str, given: Iterable[Watering]) -> dict[date, Brought]:
    """What came to a crop on its ground by day; a can for another crop there may have missed it."""
    found: dict[date, Brought] = {}
    for each in given:
        if each.ground and meet(each.ground, ground):
            mine = each.crop in ("", crop)
            for day in each.days:
                found.setdefault(day, Brought()).add(each.litres, each.sure and mine)
    return found
