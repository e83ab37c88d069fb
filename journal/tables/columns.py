"""Every table's columns: name, dtype, whether a cell may be empty, and what it means.

The one place where a column is spelled. Names, order and units are the contract that other
programs build on.
"""

from dataclasses import dataclass
from typing import Literal

Dtype = Literal["string", "Float64", "Int64", "boolean", "datetime64[s]"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column; an empty cell is "" for words, NaT for days and NA for the rest."""

    name: str
    dtype: Dtype
    meaning: str
    may_be_empty: bool = True


@dataclass(frozen=True, slots=True)
class Table:
    """One table: what a row is, its columns in order, and the columns that tell rows apart."""

    name: str
    meaning: str
    columns: tuple[Column, ...]
    key: tuple[str, ...] = ()

    @property
    def column_names(self) -> tuple[str, ...]:
        """The names of the columns, in order."""
        return tuple(column.name for column in self.columns)


def _word(name: str, meaning: str, *, always: bool = False) -> Column:
    return Column(name, "string", meaning, not always)


def _figure(name: str, meaning: str, *, always: bool = False) -> Column:
    return Column(name, "Float64", meaning, not always)


def _whole(name: str, meaning: str, *, always: bool = False) -> Column:
    return Column(name, "Int64", meaning, not always)


def _day(name: str, meaning: str) -> Column:
    return Column(name, "datetime64[s]", meaning)


def _flag(name: str, meaning: str) -> Column:
    return Column(name, "boolean", meaning, may_be_empty=False)


_FIRST = _day("date", "first possible day")
_LAST = _day("date_end", "last possible day")
_HOLDS_FROM = _day("date", "day it holds from; empty: from the beginning")
_FILE = _word("file", "file it stands in", always=True)
_LINE = _whole("line", "line it stands on, counted from 1", always=True)
_COLUMN = _whole("column", "column it begins at, counted from 1", always=True)
_ALSO = _word("also", "its other names, with commas between")
_CROP = _word("crop", "crop name, lower case and singular")
_CULTIVAR = _word("cultivar", "cultivar without quotes")
_LABEL = _word("label", "label of one of several batches")
_PLACE = _word("place", "where it happened")
_YEAR = _whole("year", "calendar year; empty where the days may lie in two years")
_KG = _figure("kg", "weight picked, in kg")
_AREA = _figure("area_m2", "ground it stood on, in m2")
_UNIT = _word("unit", "unit of the value; empty for a bare number or word")
_STAGE = _word("stage", "stage the batch reached", always=True)
_ALIVE = (
    _figure("alive", "plants alive; empty where the diary leaves a range"),
    _figure("alive_low", "fewest plants that can be alive"),
    _figure("alive_high", "most plants that can be alive"),
)

_EVENTS = Table(
    "events",
    "one row an event",
    (
        _whole("event", "running number, stable for an unchanged diary", always=True),
        _whole("entry", "number of the entry the event came from", always=True),
        _FIRST,
        _LAST,
        _word("kind", "kind of event: sowing, harvest, job and so on", always=True),
        _word("verb", "the canonical verb", always=True),
        _CROP,
        _CULTIVAR,
        _LABEL,
        _word("family", "botanical family of the crop"),
        _word("place", "where it happened or ended up; of a harvest, where it came from"),
        _word("place_from", "where plants or materials moved from"),
        _word("vessel", "pots, trays, modules or sacks, with size and number as written"),
        _word("party", "person or shop"),
        _word("cover", "fleece, glass or net"),
        _word("material", "feed, dressing, product or thing fitted"),
        _figure("count", "plants, seeds, tubers or fruits: a bare number"),
        _figure("count_of", "for `36 of 40`, the 40"),
        _figure("mass_kg", "mass in kg"),
        _figure("volume_l", "volume in litres; of a feed, the diluted volume applied"),
        _figure("length_m", "length in m, rows taken together"),
        _figure("area_m2", "area in m2"),
        _figure("depth_m", "depth in m"),
        _figure("spacing_m", "distance between plants in m"),
        _figure("row_spacing_m", "distance between rows in m"),
        _figure("dose_l", "concentrate used, in litres"),
        _figure("dose_kg", "concentrate used, in kg"),
        _figure("minutes", "person-minutes, this event's share of its entry"),
        _figure("cost", "money, this event's share of its entry"),
        _word("currency", "currency of the cost, as its ISO 4217 code"),
        _figure("temperature_c", "a heap's heat in degrees Celsius"),
        _word("task", "the words of a `job` entry"),
        _figure("score", "verdict, 0 to 1"),
        _flag("approximate", "true where the diary said `about` or a range"),
        _figure("low", "low end of a range, in the amount's own SI unit"),
        _figure("high", "high end of a range, in the amount's own SI unit"),
        _word("amount_text", "the amount as written"),
        _word("subject", "what was seen, lost to, or is meant by a plan"),
        _day("due", "first day an intention is due"),
        _day("due_end", "last day an intention is due"),
        _figure("packets", "packets of seed bought"),
        _flag("spread", "true where it went on over all the days, false where they are doubt"),
        _word("remark", "remark in brackets and indented lines"),
        _FILE,
        _LINE,
        _COLUMN,
    ),
    key=("event",),
)

_WEATHER = Table(
    "weather",
    "one row a reading",
    (
        _FIRST,
        _LAST,
        _word("place", "place it was read in; empty for the open air"),
        _word("variable", "t_min, t_max, t, soil_t, rain, wind ... or a word as fog", always=True),
        _figure("value", "the figure read; empty for a phenomenon"),
        _word("unit", "C, mm, cm, h or m/s; empty where there is none"),
        _word("source", "`diary`, or the met file's name", always=True),
        _FILE,
        _LINE,
    ),
)

_PLACES = Table(
    "places",
    "one row a declaration of a place; a split or a new name ends the old one",
    (
        _HOLDS_FROM,
        _word("kind", "bed, pot, frame, house, bay, tank, roof or store", always=True),
        _word("name", "its name", always=True),
        _ALSO,
        _figure("length_m", "length in m"),
        _figure("width_m", "width in m"),
        _figure("height_m", "height in m"),
        _figure("area_m2", "area in m2"),
        _figure("volume_l", "volume in litres"),
        _word("feeds", "the tank that a roof drains to"),
        _word("soil", "soil as the sheet words it"),
        _flag("raised", "true for a raised bed"),
        _figure("x_m", "distance of its corner along the plot, in m"),
        _figure("y_m", "distance of its corner across the plot, in m"),
        _flag("ended", "true where the name ends on this day"),
        _word("became", "the names its ground has from then on, with commas between"),
        _FILE,
        _LINE,
    ),
)

_CROPS = Table(
    "crops",
    "one row a declaration of a crop",
    (
        _HOLDS_FROM,
        _word("name", "crop name, lower case and singular", always=True),
        _ALSO,
        _word("family", "botanical family"),
        _word("group", "groups it belongs to, with commas between"),
        _FILE,
        _LINE,
    ),
)

_MATERIALS = Table(
    "materials",
    "one row a declaration of a feed or material",
    (
        _HOLDS_FROM,
        _word("kind", "feed or material", always=True),
        _word("name", "its name", always=True),
        _ALSO,
        _figure("n_pct", "nitrogen on the label, as N in per cent"),
        _figure("p2o5_pct", "phosphorus on the label, as P2O5 in per cent"),
        _figure("k2o_pct", "potassium on the label, as K2O in per cent"),
        _word("basis", "w/w or w/v; empty where the sheet does not say"),
        _figure("dilution", "usual litres or kg of concentrate a litre of water"),
        _FILE,
        _LINE,
    ),
)

_PRICES = Table(
    "prices",
    "one row a declaration of what a crop is worth",
    (
        _HOLDS_FROM,
        _word("crop", "crop name, lower case and singular", always=True),
        _CULTIVAR,
        _figure("price", "price of one `per`", always=True),
        _word("currency", "currency of the price, as its ISO 4217 code"),
        _word("per", "what the price is for: kg, each or a measure", always=True),
        _figure("per_kg", "price of one kg, where it can be known"),
        _FILE,
        _LINE,
    ),
)

_PROSE = Table(
    "prose",
    "one row a paragraph",
    (_FIRST, _LAST, _word("text", "the words as written", always=True), _FILE, _LINE),
)

_PROBLEMS = Table(
    "problems",
    "one row a problem",
    (
        _word("code", "its stable code", always=True),
        _word("severity", "error, warning or hint", always=True),
        _FILE,
        _LINE,
        _COLUMN,
        _whole("column_end", "column just after its last character on that line", always=True),
        _word("message", "what is the matter, in one sentence", always=True),
        _word("mend", "what to type instead"),
    ),
)

_HARVEST = Table(
    "harvest",
    "one row a year, crop, cultivar and place",
    (
        _YEAR,
        _CROP,
        _CULTIVAR,
        _PLACE,
        _KG,
        _figure("count", "fruits, roots or heads picked by number"),
        _whole("pickings", "how many pickings", always=True),
        _whole("unweighed", "how many of the pickings were not weighed", always=True),
        _day("first", "day of the first picking"),
        _day("last", "day of the last picking"),
        _whole("days", "days from the first picking to the last, both counted"),
        _AREA,
        _figure("kg_per_m2", "kg a m2 of that ground"),
        _figure("plants", "plants it was picked from"),
        _figure("kg_per_plant", "kg a plant"),
        _figure("row_m", "length of row in m"),
        _figure("kg_per_m", "kg a metre of row"),
    ),
)

_LABOUR = Table(
    "labour",
    "one row a year, month, place, verb and crop",
    (
        _YEAR,
        _whole("month", "month of the year, 1 to 12"),
        _PLACE,
        _word("verb", "the canonical verb", always=True),
        _CROP,
        _figure("minutes", "person-minutes", always=True),
    ),
)

_LABOUR_WORTH = Table(
    "labour worth",
    "one row a year, place and crop",
    (
        _YEAR,
        _PLACE,
        _CROP,
        _figure("hours", "person-hours"),
        _KG,
        _AREA,
        _figure("hours_per_kg", "person-hours a kg picked"),
        _figure("hours_per_m2", "person-hours a m2"),
    ),
)

_YEARS = Table(
    "years",
    "one row a measure, crop, cultivar, place and year",
    (
        _word("measure", "what is compared", always=True),
        _CROP,
        _CULTIVAR,
        _PLACE,
        _YEAR,
        _figure("value", "that year's figure"),
        _UNIT,
        _figure("before", "the figure of the year before"),
        _figure("change", "value less before, in the unit"),
        _figure("change_pct", "change as per cent of before"),
        _figure("mean_before", "mean of all earlier years"),
        _figure("low_before", "lowest of all earlier years"),
        _figure("high_before", "highest of all earlier years"),
        _whole("years_before", "how many earlier years there are"),
    ),
)

_CLIMATE = Table(
    "climate",
    "one row a year and measure",
    (
        _YEAR,
        _word("measure", "what is measured", always=True),
        _figure("value", "that year's figure"),
        _UNIT,
        _day("date", "its day, or the first of its days"),
        _day("date_end", "the last of its days"),
    ),
)

_PLANTS = Table(
    "plants",
    "one row a batch and stage reached",
    (
        _whole("batch", "running number of the batch", always=True),
        _CROP,
        _CULTIVAR,
        _LABEL,
        _day("started", "day the batch was sown or planted"),
        _word("how_started", "the verb it began with"),
        _word("place", "where the batch was at that stage"),
        _STAGE,
        _day("date", "day it reached the stage"),
        _figure("sown", "seeds sown"),
        _figure("up", "seedlings that came up"),
        _figure("pricked_out", "seedlings pricked out"),
        _figure("potted_on", "plants potted on"),
        _figure("planted", "plants planted"),
        _figure("not_up", "seeds that did not come up"),
        _figure("discarded", "seedlings left at pricking out"),
        _figure("lost", "plants lost"),
        _figure("harvested", "plants harvested whole"),
        _figure("cleared", "plants cleared"),
        _figure("unknown", "plants that the diary does not account for"),
        *_ALIVE,
        _word("ended", "how the batch ended; empty while it stands"),
        _whole("days_in_stage", "days it was at the stage"),
    ),
)

_STANDING = Table(
    "standing",
    "one row a batch that stands today",
    (
        _CROP,
        _CULTIVAR,
        _LABEL,
        _word("place", "where it stands"),
        _STAGE,
        *_ALIVE,
        _day("since", "day it reached the stage"),
        _whole("days", "days since then"),
        _day("due", "day its next stage is due"),
        _word("state", "growing, ready, past its time or forgotten", always=True),
    ),
)

_DIARY_TABLES = (_EVENTS, _WEATHER, _PLACES, _CROPS, _MATERIALS, _PRICES, _PROSE, _PROBLEMS)
_STUDY_TABLES = (_HARVEST, _LABOUR, _LABOUR_WORTH, _YEARS, _CLIMATE, _PLANTS, _STANDING)

DIARY_TABLES: tuple[str, ...] = tuple(table.name for table in _DIARY_TABLES)
TABLES: dict[str, Table] = {table.name: table for table in (*_DIARY_TABLES, *_STUDY_TABLES)}
