"""Place names to the ground behind them, through every split and new name of the sheet."""

from dataclasses import dataclass
from datetime import date

from journal.events.model import GroundChange, Sheet

Ground = frozenset[str]
NOWHERE: Ground = frozenset()


@dataclass(frozen=True, slots=True)
class Grounds:
    """The ground of a sheet's places: the names that it has after everything that befell it.

    A place that was split is ground of several names, and an event in one of them may be of what
    stood in the old one.
    """

    sheet: Sheet

    def of(self, place: str, day: date | None) -> Ground:
        """The latest names of the ground that was called `place` on that day; "" has none."""
        if not place:
            return NOWHERE
        names: set[str] = set()
        self._follow(place, day, names, frozenset())
        return frozenset(names)

    def now(self, place: str, day: date | None) -> str:
        """What the ground called `place` on that day is called now, several names with commas."""
        return ", ".join(sorted(self.of(place, day)))

    def _follow(self, place: str, day: date | None, names: set[str], passed: Ground) -> None:
        change = self._change(place, day)
        if change is None or place in passed or not change.parts:
            names.add(place)
            return
        for part, _ in change.parts:
            self._follow(part, change.date, names, passed | {place})

    def _change(self, place: str, day: date | None) -> GroundChange | None:
        """The next change of the place after the day, or the one that the old name outlived."""
        own = [change for change in self.sheet.changes if change.old == place]
        if day is None or not own:
            return own[0] if own else None
        later = [change for change in own if change.date is not None and change.date > day]
        if later:
            return later[0]
        held = self.sheet.place_on(place, day)
        return own[-1] if held is not None and held.ended else None


def meet(one: Ground, other: Ground) -> bool:
    """Whether two grounds may be the same; one that is not known may be any."""
    return not one or not other or bool(one & other)
