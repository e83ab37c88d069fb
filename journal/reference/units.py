"""Written units to their exact factors: UK imperial unless US customary is asked for.

Refuses nothing and guesses nothing: a spelling that is not in the table is not a unit.
Factors: NIST SP 811 B.8 and Handbook 44 App. C; imperial divisions of the Weights and
Measures Acts (112 lb hundredweight, 4840 yd2 acre, 20 fl oz pint, 8 gallon bushel).
"""

from dataclasses import dataclass
from functools import cache

SI_NAMES = {
    "mass": "kg",
    "volume": "l",
    "length": "m",
    "area": "m2",
    "time": "min",
    "temperature": "C",
}


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one dimension; `factor` times a value is kg, l, m, m2 or minutes.

    The temperature units `C` and `F` have factor 1 and go through `to_celsius`.
    """

    name: str
    dimension: str
    factor: float


INCH = Unit("inch", "length", 0.0254)
FOOT = Unit("ft", "length", 0.3048)
ROD_LENGTH = Unit("rod", "length", 5.0292)
ROD_AREA = Unit("rod", "area", 25.29285264)

# Spellings of each unit, lower case. `in` is never inches (it is where a thing was done)
# and `kgs` is no unit: a slip of the pen is reported with its mend, not passed over.
_EVERYWHERE: tuple[tuple[Unit, str], ...] = (
    (Unit("kg", "mass", 1.0), "kg, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes"),
    (Unit("g", "mass", 0.001), "g, gram, grams, gramme, grammes"),
    (Unit("t", "mass", 1000.0), "t, tonne, tonnes"),
    (Unit("lb", "mass", 0.45359237), "lb, lbs, pound, pounds"),
    (Unit("oz", "mass", 0.028349523125), "oz, ounce, ounces"),
    (Unit("st", "mass", 6.35029318), "st, stone, stones"),
    (Unit("l", "volume", 1.0), "l, litre, litres, liter, liters"),
    (Unit("cl", "volume", 0.01), "cl, centilitre, centilitres, centiliter, centiliters"),
    (Unit("ml", "volume", 0.001), "ml, millilitre, millilitres, milliliter, milliliters"),
    (
        Unit("m3", "volume", 1000.0),
        "m3, m³, cu m, cubic metre, cubic metres, cubic meter, cubic meters",
    ),
    (Unit("ft3", "volume", 28.316846592), "ft3, ft³, cu ft, cubic foot, cubic feet"),
    (Unit("yd3", "volume", 764.554857984), "yd3, yd³, cu yd, cubic yard, cubic yards"),
    (Unit("mm", "length", 0.001), "mm, millimetre, millimetres, millimeter, millimeters"),
    (Unit("cm", "length", 0.01), "cm, centimetre, centimetres, centimeter, centimeters"),
    (Unit("m", "length", 1.0), "m, metre, metres, meter, meters"),
    (INCH, "inch, inches"),
    (FOOT, "ft, foot, feet"),
    (Unit("yd", "length", 0.9144), "yd, yds, yard, yards"),
    (
        Unit("cm2", "area", 0.0001),
        "cm2, cm², sq cm, square centimetre, square centimetres, square centimeter, "
        "square centimeters",
    ),
    (
        Unit("m2", "area", 1.0),
        "m2, m², sq m, sqm, square metre, square metres, square meter, square meters",
    ),
    (Unit("ft2", "area", 0.09290304), "ft2, ft², sq ft, square foot, square feet"),
    (Unit("yd2", "area", 0.83612736), "yd2, yd², sq yd, square yard, square yards"),
    (ROD_AREA, "rod, rods, pole, poles, perch, perches"),
    (Unit("acre", "area", 4046.8564224), "acre, acres"),
    (Unit("ha", "area", 10000.0), "ha, hectare, hectares"),
    (Unit("min", "time", 1.0), "min, mins, minute, minutes"),
    (Unit("h", "time", 60.0), "h, hr, hrs, hour, hours"),
    (
        Unit("C", "temperature", 1.0),
        "c, °c, deg c, degree c, degrees c, celsius, degrees celsius, centigrade",
    ),
    (Unit("F", "temperature", 1.0), "f, °f, deg f, degree f, degrees f, fahrenheit"),
)
_FLUID_OUNCE = "fl oz, fluid ounce, fluid ounces"
_PINT = "pint, pints, pt, pts"
_QUART = "quart, quarts, qt, qts"
_GALLON = "gallon, gallons, gal, gals"
_PECK = "peck, pecks"
_BUSHEL = "bushel, bushels"
_HUNDREDWEIGHT = "cwt, hundredweight, hundredweights"
_TON = "ton, tons"
_UK: tuple[tuple[Unit, str], ...] = (
    (Unit("cwt", "mass", 50.80234544), _HUNDREDWEIGHT),
    (Unit("ton", "mass", 1016.0469088), _TON),
    (Unit("fl oz", "volume", 0.0284130625), _FLUID_OUNCE),
    (Unit("pint", "volume", 0.56826125), _PINT),
    (Unit("quart", "volume", 1.1365225), _QUART),
    (Unit("gallon", "volume", 4.54609), _GALLON),
    (Unit("peck", "volume", 9.09218), _PECK),
    (Unit("bushel", "volume", 36.36872), _BUSHEL),
)
_US: tuple[tuple[Unit, str], ...] = (
    (Unit("cwt", "mass", 45.359237), _HUNDREDWEIGHT),
    (Unit("ton", "mass", 907.18474), _TON),
    (Unit("fl oz", "volume", 0.0295735295625), _FLUID_OUNCE),
    (Unit("pint", "volume", 0.473176473), _PINT),
    (Unit("quart", "volume", 0.946352946), _QUART),
    (Unit("gallon", "volume", 3.785411784), _GALLON),
    (Unit("peck", "volume", 8.80976754172), _PECK),
    (Unit("bushel", "volume", 35.23907016688), _BUSHEL),
)


@cache
def _table(us: bool) -> dict[str, Unit]:
    rows = _EVERYWHERE + (_US if us else _UK)
    return {spelling: unit for unit, spellings in rows for spelling in spellings.split(", ")}


def unit_table(us: bool = False) -> dict[str, Unit]:
    """Every accepted spelling, lower case, to its unit; a rod stands here as an area.

    `us` makes hundredweight, ton, fluid ounce, pint, quart, gallon, peck and bushel the
    US customary ones (liquid pint and quart, 2150.42 cubic inch bushel).
    """
    return dict(_table(us))


def to_celsius(value: float, unit: Unit) -> float:
    """A temperature in degrees Celsius: (F - 32) / 1.8, NIST SP 811 B.9."""
    if unit.dimension != "temperature":
        raise ValueError(f"{unit.name} is no unit of temperature")
    return (value - 32.0) / 1.8 if unit.name == "F" else value


def to_si(value: float, unit: Unit) -> float:
    """A value in the unit of the table columns: kg, l, m, m2, minutes or degrees Celsius."""
    return to_celsius(value, unit) if unit.dimension == "temperature" else value * unit.factor


def convert(value: float, unit: Unit, to: Unit) -> float:
    """A value of one unit in another of the same dimension; raises across dimensions."""
    if unit.dimension != to.dimension:
        raise ValueError(f"{unit.name} is {unit.dimension}, {to.name} is {to.dimension}")
    if unit == to:
        return value
    if unit.dimension != "temperature":
        return value * unit.factor / to.factor
    celsius = to_celsius(value, unit)
    return celsius * 1.8 + 32.0 if to.name == "F" else celsius
