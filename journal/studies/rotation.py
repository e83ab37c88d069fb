"""How long a crop should stay away from ground it stood on: every published figure, as years."""

from collections.abc import Iterable
from dataclasses import dataclass

from journal.reference.books import Published
from journal.reference.load import load

# What a source counts, as whole years without the crop. A rotation of three years has it on a
# bed every third year, so two years without.
_YEARS_OFF = {
    "break without host": 0,
    "rotation": 1,
    "rotation to prevent": 1,
    "length of rotation": 1,
}
WHOLE_PLOT = "whole plot"


@dataclass(frozen=True, slots=True)
class Figure:
    """Years without by one source, from `low` to `high`, and who says so of what."""

    low: float
    high: float
    said_by: str


@dataclass(frozen=True, slots=True)
class Advice:
    """The years without that sources advise; `words` has every published figure as printed.

    An open end (`10 years or more`) counts with its lower figure.
    """

    figures: tuple[Figure, ...]
    words: str

    @property
    def low(self) -> float | None:
        """The fewest years that a source advises; None where none names a number."""
        return min((figure.low for figure in self.figures), default=None)

    @property
    def high(self) -> float | None:
        """The most years that a source advises."""
        return max((figure.high for figure in self.figures), default=None)

    def enough(self, years: float) -> list[str]:
        """Who is content with so many years without."""
        return [figure.said_by for figure in self.figures if years >= figure.high]

    def too_soon(self, years: float) -> list[str]:
        """Whose years are not reached, or not surely."""
        return [figure.said_by for figure in self.figures if years < figure.high]


def advice(crops: Iterable[str]) -> Advice:
    """What is published for these crops and for whole rotations, of annual crops only.

    How long a trouble lives in the soil, and the least break that law asks of seed growers, are
    in the words and not in the range: they advise a garden of nothing.
    """
    books, known = load().books, load().crops
    annual = [crop for crop in crops if crop not in known or not known[crop].perennial]
    rows = [row for crop in crops for row in books.rotation(crop)]
    rows += list(books.rotation(WHOLE_PLOT)) if annual else []
    rows = list(dict.fromkeys(rows))
    figures = [found for row in rows if (found := _figure(row)) is not None]
    words = "; ".join(dict.fromkeys(_said(row) for row in rows))
    return Advice(tuple(dict.fromkeys(figures)), words)


def _figure(row: Published) -> Figure | None:
    off = _YEARS_OFF.get(row.measure)
    # a third of the plot dug and manured each year is no word on what grows there
    of_digging = row.crop == WHOLE_PLOT and row.condition != "general"
    if off is None or row.low is None or of_digging:
        return None
    high = row.high if row.high is not None else row.low
    return Figure(row.low - off, high - off, _said(row))


def _said(row: Published) -> str:
    """`clubroot, break without host 7 years (University of Connecticut IPM ...)`."""
    years = row.printed if row.low is not None else "without end"
    more = " or more" if row.low is not None and row.high is None else ""
    what = "" if row.condition in {"", "general"} else f"{row.condition}, "
    return f"{what}{row.measure} {years}{more} ({row.source})"
