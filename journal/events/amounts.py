"""Written amounts to figures in SI: `2 lb 4 oz` to kg, `½ barrow` to l, `1h30` to minutes.

Refuses to weigh what only has a name: `a trug` stays as written unless the sheet gives a measure.
"""

import math
from dataclasses import dataclass

from journal.events.model import MeasureDeclared
from journal.reference.units import FOOT, INCH, ROD_LENGTH, Unit, to_si
from journal.syntax.nodes import Figure, Quantity

_MARKS = {"'": FOOT, "′": FOOT, "’": FOOT, '"': INCH, "″": INCH, "”": INCH}
_RODS = {"rod", "rods", "pole", "poles", "perch", "perches"}


@dataclass(frozen=True, slots=True)
class Amount:
    """A figure of one dimension in SI (kg, l, m, m2, minutes, C; "count" for bare numbers).

    `dimension` is "loose" for a measure that nobody has weighed.
    """

    dimension: str
    value: float
    low: float
    high: float
    approximate: bool = False

    def times(self, factor: float) -> "Amount":
        """The amount so many times over."""
        value, low, high = (tidy(figure * factor) for figure in (self.value, self.low, self.high))
        return Amount(self.dimension, value, low, high, self.approximate)


@dataclass(frozen=True, slots=True)
class Measures:
    """The units of a plot and the measures of its sheet."""

    units: dict[str, Unit]
    declared: tuple[MeasureDeclared, ...] = ()
    fahrenheit: bool = False

    def weigh(self, quantity: Quantity, crop: str = "") -> Amount:
        """A quantity as an amount; `crop` chooses between measures (`punnet tomato`)."""
        figure = quantity.figure
        if not quantity.unit:
            return _amount("count", figure, 1.0)
        unit = _MARKS.get(quantity.unit) or self.units.get(quantity.unit)
        if unit is None:
            return self._measured(quantity, crop)
        if unit.dimension == "temperature":
            return _warmth(figure, unit)
        major = _amount(unit.dimension, figure, unit.factor)
        if quantity.minor is None or not quantity.minor_unit:
            return major
        small = _MARKS.get(quantity.minor_unit) or self.units.get(quantity.minor_unit)
        if small is None:
            return major
        extra = quantity.minor.middle * small.factor
        value, low, high = (tidy(part + extra) for part in (major.value, major.low, major.high))
        return Amount(major.dimension, value, low, high, major.approximate)

    def length(self, quantity: Quantity) -> float | None:
        """A quantity as metres, a rod being 5 1/2 yards here; None for anything else."""
        if quantity.unit in _RODS:
            return quantity.figure.middle * ROD_LENGTH.factor
        amount = self.weigh(quantity)
        return amount.value if amount.dimension == "length" else None

    def _measured(self, quantity: Quantity, crop: str) -> Amount:
        measure = self.find(quantity.unit, crop)
        if measure is None:
            return _amount("loose", quantity.figure, 1.0)
        for dimension, size in (
            ("mass", measure.mass_kg),
            ("volume", measure.volume_l),
            ("time", measure.minutes),
        ):
            if size is not None:
                return _amount(dimension, quantity.figure, size)
        return _amount("loose", quantity.figure, 1.0)

    def find(self, written: str, crop: str) -> MeasureDeclared | None:
        """The sheet's last measure of a name (`barrows` is `barrow`), the crop's own first."""
        names = {written, written.removesuffix("s"), written.removesuffix("es")}
        names.add(written.removesuffix("ful").removesuffix("fuls"))
        named = [measure for measure in self.declared if measure.name.lower() in names]
        own = [measure for measure in named if measure.crop and measure.crop == crop]
        general = [measure for measure in named if not measure.crop]
        return own[-1] if own else general[-1] if general else None


def is_finite(quantity: Quantity) -> bool:
    """Whether the figures are small enough to mean anything."""
    figures = [quantity.figure.low, quantity.figure.high]
    if quantity.minor is not None:
        figures.append(quantity.minor.high)
    return all(math.isfinite(figure) for figure in figures)


def _amount(dimension: str, figure: Figure, factor: float) -> Amount:
    low, high = tidy(figure.low * factor), tidy(figure.high * factor)
    approximate = figure.approximate or figure.low != figure.high
    return Amount(dimension, tidy(figure.middle * factor), low, high, approximate)


def _warmth(figure: Figure, unit: Unit) -> Amount:
    low, high = to_si(figure.low, unit), to_si(figure.high, unit)
    return Amount("temperature", (low + high) / 2, low, high, figure.low != figure.high)


def tidy(value: float) -> float:
    """A figure to 12 digits, so that 0.1 + 0.2 does not show through."""
    return float(f"{value:.12g}")
