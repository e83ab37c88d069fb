"""Days of the year as windows: whether today lies in one, or which of two it lies nearer to."""

from collections.abc import Sequence
from dataclasses import dataclass

YEAR_DAYS = 365
# days of the year farther apart than this belong to two windows, as of spring and autumn sowings
APART_DAYS = 90


@dataclass(frozen=True, slots=True)
class Window:
    """From one day of the year to another; `last` before `first` where it runs over New Year."""

    first: int
    last: int

    def holds(self, day: int) -> bool:
        """Whether a day of the year lies in it."""
        return (day - self.first) % YEAR_DAYS <= (self.last - self.first) % YEAR_DAYS

    def since(self, day: int) -> int:
        """Days from its end to a day after it."""
        return (day - self.last) % YEAR_DAYS

    def ahead(self, day: int) -> int:
        """Days from a day before it to its beginning."""
        return (self.first - day) % YEAR_DAYS


def windows_of(days: Sequence[int]) -> list[Window]:
    """The windows that days of the year fall into, parted where none is for three months."""
    order = sorted(set(days))
    starts = [
        at
        for at, day in enumerate(order)
        if (day - order[at - 1]) % YEAR_DAYS > APART_DAYS or len(order) == 1
    ]
    if not starts:
        return [Window(order[0], order[-1])]
    turned = order[starts[0] :] + order[: starts[0]]
    found: list[list[int]] = []
    for at, day in enumerate(turned):
        if at == 0 or (day - turned[at - 1]) % YEAR_DAYS > APART_DAYS:
            found.append([])
        found[-1].append(day)
    return [Window(group[0], group[-1]) for group in found]
