"""Amounts as an answer gives them: the column, its unit, the words, and the unit asked for."""

from dataclasses import dataclass

from journal.questions.asked import Asked
from journal.questions.saying import counted, duration, figure, kilograms, litres
from journal.reference.units import convert, unit_table

_UNITS = {
    "mass_kg": "kg",
    "volume_l": "l",
    "dose_l": "l",
    "length_m": "m",
    "area_m2": "m2",
    "minutes": "min",
    "count": None,
    "packets": None,
}
_NOUNS = {
    "mass_kg": "weight",
    "volume_l": "volume",
    "dose_l": "dose",
    "length_m": "length of row",
    "area_m2": "area",
    "minutes": "time",
    "count": "number",
    "packets": "number of packets",
}
# the unit word of the grammar to the unit's own spelling and the column it measures
_ASKED = {
    "kg": ("kg", "mass_kg"),
    "gram": ("g", "mass_kg"),
    "lb": ("lb", "mass_kg"),
    "oz": ("oz", "mass_kg"),
    "stone": ("st", "mass_kg"),
    "tonne": ("t", "mass_kg"),
    "litre": ("l", "volume_l"),
    "gallon": ("gallon", "volume_l"),
    "pint": ("pint", "volume_l"),
    "metre": ("m", "length_m"),
    "packets": ("", "packets"),
}


@dataclass(frozen=True, slots=True)
class Measure:
    """A column and the unit that it is said in: `factor` of the column's unit is one of `name`."""

    column: str
    name: str = ""
    factor: float = 1.0

    @property
    def unit(self) -> str | None:
        """The unit of the answer's value: the column's own, whatever is said."""
        return _UNITS[self.column]

    @property
    def noun(self) -> str:
        """What it measures: `weight`."""
        return _NOUNS[self.column]

    def said(self, value: float) -> str:
        """A value of the column as it is spoken: `24.8 kg`, `55.1 lb (25 kg)`."""
        own = self._own(value)
        if not self.name:
            return own
        if self.name.startswith(" "):
            # a measure of the sheet is a word, however short
            number = float(figure(value / self.factor, 1).replace(",", ""))
            return f"{counted(number, self.name.strip())} ({own})"
        return f"{counted_unit(value / self.factor, self.name)} ({own})"

    def _own(self, value: float) -> str:
        if self.column == "mass_kg":
            return kilograms(value)
        if self.column in ("volume_l", "dose_l"):
            return litres(value)
        if self.column == "minutes":
            return duration(value)
        if self.column == "packets":
            return counted(value, "packet")
        unit = {"length_m": " m", "area_m2": " m2"}.get(self.column, "")
        return f"{figure(value)}{unit}"

    def of(self, amount: str, what: str) -> str:
        """`25 kg of courgettes`, `48 leeks`, `62 m of carrots`."""
        if not what:
            return amount
        return f"{amount} {what}" if self.column == "count" else f"{amount} of {what}"


def counted_unit(value: float, name: str) -> str:
    """`55.1 lb`, `1 barrow`, `3.5 barrows`."""
    if len(name) <= 3:
        return f"{figure(value, 1)} {name}"
    return counted(float(figure(value, 1).replace(",", "")), name)


def measure_of(column: str) -> Measure:
    """A column in its own unit."""
    return Measure(column)


def unit_measure(asked: Asked) -> Measure | None:
    """Takes the unit that the answer is asked in; a measure of the sheet goes by its volume."""
    part = asked.take("unit", *_ASKED)
    if part is not None:
        spelling, column = _ASKED[part.name]
        if spelling in ("", "kg", "l", "m"):
            return Measure(column)
        unit = unit_table(asked.diary.plot.us_units)[spelling]
        base = unit_table()[_UNITS[column] or ""]
        return Measure(column, unit.name, convert(1.0, unit, base))
    for part in [each for each in asked.left if each.kind == "unit" and each.senses]:
        found = _sheet_measure(asked, part.senses[0].name)
        if found:
            asked.take("unit", part.name)
            return found
    return None


def _sheet_measure(asked: Asked, name: str) -> Measure | None:
    for measure in asked.diary.sheet.measures:
        if measure.name == name and measure.volume_l:
            return Measure("volume_l", f" {name}", measure.volume_l)
    return None
