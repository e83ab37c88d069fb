"""A diary narrowed to a part of every year, so that a spring can be told beside other springs."""

from dataclasses import dataclass, replace
from datetime import date

from journal.diary import Diary
from journal.events.model import Event

# what says where plants stand; it holds whatever part of the year is told
_COMINGS_AND_GOINGS = frozenset({"sowing", "raising", "planting", "moving", "loss", "stock check"})


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the year: first and last day, each a month and a day, both counted."""

    first: tuple[int, int]
    last: tuple[int, int]

    def holds(self, first: date | None, last: date | None) -> bool:
        """Whether both possible days lie in this part of one year; an unknown day does not."""
        if first is None or last is None:
            return False
        within = self.first <= (first.month, first.day) and (last.month, last.day) <= self.last
        return within and first.year == last.year


def part_of_year(diary: Diary, part: Part) -> Diary:
    """The diary with what was counted, weighed, timed, paid or seen only in that part of each year.

    Sowings, plantings, movings, losses and clearings of other days are kept without their time and
    cost: what stood where does not change with the days that are told. Something whose days may
    lie outside the part is left out.
    """
    reading = diary.reading
    events = tuple(kept for event in reading.events if (kept := _kept(event, part)) is not None)
    weather = tuple(row for row in reading.weather if part.holds(row.date, row.date_end))
    prose = tuple(row for row in reading.prose if part.holds(row.date, row.date_end))
    part_of_it = replace(reading, events=events, weather=weather, prose=prose, aside=None)
    return Diary(part_of_it, diary.today)


def _kept(event: Event, part: Part) -> Event | None:
    if part.holds(event.date, event.date_end):
        return event
    if event.kind in _COMINGS_AND_GOINGS or event.kind == "end":
        return replace(event, minutes=None, cost=None)
    return None
