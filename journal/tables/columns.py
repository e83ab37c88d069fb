"""Every table's columns: name, dtype, whether a cell may be empty, and what it means.

The one place where a column is spelled. Names, order and units are the contract that other
programs build on.
"""

from journal.tables.column import Column, Dtype, Table, day, figure, flag, whole, word
from journal.tables.ledger_columns import LEDGER_TABLES
from journal.tables.recurring import COLUMN, CROP, CULTIVAR, FILE, FIRST, LABEL, LAST, LINE
from journal.tables.season_columns import SEASON_TABLES
from journal.tables.store_columns import STORE_TABLES
from journal.tables.weather_columns import WEATHER_TABLES

__all__ = ["DIARY_TABLES", "TABLES", "Column", "Dtype", "Table"]

_HOLDS_FROM = day("date", "day it holds from; empty: from the beginning")
_ALSO = word("also", "its other names, with commas between")
_PLACE = word("place", "where it happened")
_YEAR = whole("year", "calendar year; empty where the days may lie in two years")
_KG = figure("kg", "weight picked, in kg")
_AREA = figure("area_m2", "ground it stood on, in m2")
_UNIT = word("unit", "unit of the value; empty for a bare number or word")

_EVENTS = Table(
    "events",
    "one row an event",
    (
        whole("event", "running number, stable for an unchanged diary", always=True),
        whole("entry", "number of the entry the event came from", always=True),
        FIRST,
        LAST,
        word("kind", "kind of event: sowing, harvest, job and so on", always=True),
        word("verb", "the canonical verb", always=True),
        CROP,
        CULTIVAR,
        LABEL,
        word("family", "botanical family of the crop"),
        word("place", "where it happened or ended up; of a harvest, where it came from"),
        word("place_from", "where plants or materials moved from"),
        word("vessel", "pots, trays, modules or sacks, with size and number as written"),
        word("party", "person or shop"),
        word("cover", "fleece, glass or net"),
        word("material", "feed, dressing, product or thing fitted"),
        figure("count", "plants, seeds, tubers or fruits: a bare number"),
        figure("count_of", "for `36 of 40`, the 40"),
        figure("mass_kg", "mass in kg"),
        figure("volume_l", "volume in litres; of a feed, the diluted volume applied"),
        figure("length_m", "length in m, rows taken together"),
        figure("area_m2", "area in m2"),
        figure("depth_m", "depth in m"),
        figure("spacing_m", "distance between plants in m"),
        figure("row_spacing_m", "distance between rows in m"),
        figure("dose_l", "concentrate used, in litres"),
        figure("dose_kg", "concentrate used, in kg"),
        figure("minutes", "person-minutes, this event's share of its entry"),
        figure("cost", "money, this event's share of its entry"),
        word("currency", "currency of the cost, as its ISO 4217 code"),
        figure("temperature_c", "a heap's heat in degrees Celsius"),
        word("task", "the words of a `job` entry"),
        figure("score", "verdict, 0 to 1"),
        flag("approximate", "true where the diary said `about` or a range"),
        figure("low", "low end of a range, in the amount's own SI unit"),
        figure("high", "high end of a range, in the amount's own SI unit"),
        word("amount_text", "the amount as written"),
        word("subject", "what was seen, lost to, or is meant by a plan"),
        day("due", "first day an intention is due"),
        day("due_end", "last day an intention is due"),
        figure("packets", "packets of seed bought"),
        flag("spread", "true where it went on over all the days, false where they are doubt"),
        word("remark", "remark in brackets and indented lines"),
        FILE,
        LINE,
        COLUMN,
    ),
    key=("event",),
)

_WEATHER = Table(
    "weather",
    "one row a reading",
    (
        FIRST,
        LAST,
        word("place", "place it was read in; empty for the open air"),
        word("variable", "t_min, t_max, t, soil_t, rain, wind ... or a word as fog", always=True),
        figure("value", "the figure read; empty for a phenomenon"),
        word("unit", "C, mm, cm, h or m/s; empty where there is none"),
        word("source", "`diary`, or the met file's name", always=True),
        FILE,
        LINE,
    ),
)

_PLACES = Table(
    "places",
    "one row a declaration of a place; a split or a new name ends the old one",
    (
        _HOLDS_FROM,
        word("kind", "bed, pot, frame, house, bay, tank, roof or store", always=True),
        word("name", "its name", always=True),
        _ALSO,
        figure("length_m", "length in m"),
        figure("width_m", "width in m"),
        figure("height_m", "height in m"),
        figure("area_m2", "area in m2"),
        figure("volume_l", "volume in litres"),
        word("feeds", "the tank that a roof drains to"),
        word("soil", "soil as the sheet words it"),
        flag("raised", "true for a raised bed"),
        figure("x_m", "distance of its corner along the plot, in m"),
        figure("y_m", "distance of its corner across the plot, in m"),
        flag("ended", "true where the name ends on this day"),
        word("became", "the names its ground has from then on, with commas between"),
        FILE,
        LINE,
    ),
)

_CROPS = Table(
    "crops",
    "one row a declaration of a crop",
    (
        _HOLDS_FROM,
        word("name", "crop name, lower case and singular", always=True),
        _ALSO,
        word("family", "botanical family"),
        word("group", "groups it belongs to, with commas between"),
        FILE,
        LINE,
    ),
)

_MATERIALS = Table(
    "materials",
    "one row a declaration of a feed or material",
    (
        _HOLDS_FROM,
        word("kind", "feed or material", always=True),
        word("name", "its name", always=True),
        _ALSO,
        figure("n_pct", "nitrogen on the label, as N in per cent"),
        figure("p2o5_pct", "phosphorus on the label, as P2O5 in per cent"),
        figure("k2o_pct", "potassium on the label, as K2O in per cent"),
        word("basis", "w/w or w/v; empty where the sheet does not say"),
        figure("dilution", "usual litres or kg of concentrate a litre of water"),
        figure("kg_per_l", "density of the concentrate, in kg a litre"),
        FILE,
        LINE,
    ),
)

_PRICES = Table(
    "prices",
    "one row a declaration of what a crop is worth",
    (
        _HOLDS_FROM,
        word("crop", "crop name, lower case and singular", always=True),
        CULTIVAR,
        figure("price", "price of one `per`", always=True),
        word("currency", "currency of the price, as its ISO 4217 code"),
        word("per", "what the price is for: kg, each or a measure", always=True),
        figure("per_kg", "price of one kg, where it can be known"),
        FILE,
        LINE,
    ),
)

_PROSE = Table(
    "prose",
    "one row a paragraph",
    (FIRST, LAST, word("text", "the words as written", always=True), FILE, LINE),
)

_PROBLEMS = Table(
    "problems",
    "one row a problem",
    (
        word("code", "its stable code", always=True),
        word("severity", "error, warning or hint", always=True),
        FILE,
        LINE,
        COLUMN,
        whole("column_end", "column just after its last character on that line", always=True),
        word("message", "what is the matter, in one sentence", always=True),
        word("mend", "what to type instead"),
    ),
)

_HARVEST = Table(
    "harvest",
    "one row a year, crop, cultivar and place",
    (
        _YEAR,
        CROP,
        CULTIVAR,
        _PLACE,
        _KG,
        figure("count", "fruits, roots or heads picked by number"),
        whole("pickings", "how many pickings", always=True),
        whole("unweighed", "how many of the pickings were not weighed", always=True),
        day("first", "day of the first picking"),
        day("last", "day of the last picking"),
        whole("days", "days from the first picking to the last, both counted"),
        _AREA,
        figure("kg_per_m2", "kg a m2 of that ground"),
        figure("plants", "plants it was picked from"),
        figure("kg_per_plant", "kg a plant"),
        figure("row_m", "length of row in m"),
        figure("kg_per_m", "kg a metre of row"),
    ),
)

_LABOUR = Table(
    "labour",
    "one row a year, month, place, verb and crop",
    (
        _YEAR,
        whole("month", "month of the year, 1 to 12"),
        _PLACE,
        word("verb", "the canonical verb", always=True),
        CROP,
        figure("minutes", "person-minutes", always=True),
    ),
)

_LABOUR_WORTH = Table(
    "labour worth",
    "one row a year, place and crop",
    (
        _YEAR,
        _PLACE,
        CROP,
        figure("hours", "person-hours"),
        _KG,
        _AREA,
        figure("hours_per_kg", "person-hours a kg picked"),
        figure("hours_per_m2", "person-hours a m2"),
    ),
)

_YEARS = Table(
    "years",
    "one row a measure, crop, cultivar, place and year",
    (
        word("measure", "what is compared", always=True),
        CROP,
        CULTIVAR,
        _PLACE,
        _YEAR,
        figure("value", "that year's figure"),
        _UNIT,
        figure("before", "the figure of the year before"),
        figure("change", "value less before, in the unit"),
        figure("change_pct", "change as per cent of before"),
        figure("mean_before", "mean of all earlier years"),
        figure("low_before", "lowest of all earlier years"),
        figure("high_before", "highest of all earlier years"),
        whole("years_before", "how many earlier years there are"),
    ),
)

_CLIMATE = Table(
    "climate",
    "one row a year and measure",
    (
        _YEAR,
        word("measure", "what is measured", always=True),
        figure("value", "that year's figure"),
        _UNIT,
        day("date", "its day, or the first of its days"),
        day("date_end", "the last of its days"),
    ),
)

_DIARY_TABLES = (_EVENTS, _WEATHER, _PLACES, _CROPS, _MATERIALS, _PRICES, _PROSE, _PROBLEMS)
_STUDY_TABLES = (_HARVEST, _LABOUR, _LABOUR_WORTH, _YEARS, _CLIMATE)

DIARY_TABLES: tuple[str, ...] = tuple(table.name for table in _DIARY_TABLES)
TABLES: dict[str, Table] = {
    table.name: table
    for table in (
        *_DIARY_TABLES,
        *_STUDY_TABLES,
        *LEDGER_TABLES,
        *STORE_TABLES,
        *SEASON_TABLES,
        *WEATHER_TABLES,
    )
}
