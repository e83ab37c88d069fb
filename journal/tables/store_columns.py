"""Columns of the studies of the ground and of the stores: rotation, manure, feeds, heaps, money."""

from journal.tables.column import Table, day, figure, flag, whole, word

_CROP = word("crop", "crop name, lower case and singular")
_CULTIVAR = word("cultivar", "cultivar without quotes")
_GROUND = word("place", "the ground, by the name that it has today")
_EVENTS = word("events", "numbers of the events it rests on, with commas between")
_ORIGIN = word("origin", "livestock, plant or animal, or mineral; empty where not known")
_NUTRIENT = word("nutrient", "N, P2O5, P, K2O or K", always=True)
_WHY = word("why", "why a figure is empty, or what it leaves open")

_ADVISED = (
    figure("advised_low", "fewest years without it that a source advises"),
    figure("advised_high", "most years without it that a source advises"),
    word("advice", "each published figure with its source"),
)

_GROUND_YEARS = Table(
    "ground",
    "one row a year, ground and family that stood on it",
    (
        whole("year", "calendar year", always=True),
        word("place", "the ground, by the name that it has today", always=True),
        word("family", "botanical family; empty where not known, and each such crop by itself"),
        word("crops", "its crops that stood there, with commas between", always=True),
        day("since", "first possible day in that year that one of them stood there"),
        day("until", "last possible day in that year"),
        flag("arrived", "whether one of them was sown or planted there in that year"),
        day("last_before", "last possible day that a batch of earlier years stood there"),
        figure("years_without", "years between that day and the first arrival"),
        *_ADVISED,
        flag("roots", "whether a root crop is among those that arrived"),
        day("manured", "last day of raw manure in the 365 days before they arrived"),
        day("composted", "last day of compost or leaf mould in the 365 days before they arrived"),
        _EVENTS,
        _WHY,
    ),
    key=("year", "place", "family", "crops"),
)

_GROUND_NEXT = Table(
    "ground next",
    "one row a crop and bed that it could go to",
    (
        whole("year", "the year it would go there", always=True),
        word("crop", "crop name, lower case and singular", always=True),
        word("family", "botanical family"),
        word("place", "the bed", always=True),
        word("fits", "yes, by some sources, as far as the diary goes, or no", always=True),
        day("last_before", "last possible day that the family stood there"),
        day("goes_in", "the day that the crop usually goes in, in that year"),
        figure("years_without", "years between the two"),
        *_ADVISED,
        word("standing", "what stands there today, with commas between"),
        word("reasons_for", "what speaks for the bed, with semicolons between"),
        word("reasons_against", "what speaks against it"),
        _EVENTS,
        _WHY,
    ),
    key=("year", "crop", "place"),
)

_MANURE_INTERVAL = Table(
    "manure_interval",
    "one row a spreading of raw manure and a crop first picked from that ground within a year",
    (
        _GROUND,
        word("material", "the manure", always=True),
        day("applied", "first possible day of spreading"),
        day("applied_end", "last possible day of spreading"),
        word("crop", "crop picked; empty while nothing was and the wait is not over"),
        _CULTIVAR,
        day("harvested", "first possible day of its first picking after that"),
        day("harvested_end", "last possible day of that picking"),
        whole("days_low", "fewest days between"),
        whole("days_high", "most days between"),
        word("contact", "how its edible part meets the soil; empty where not known"),
        whole("needed_days", "days that 7 CFR 205.203(c)(1) asks for", always=True),
        day("allowed_from", "first day of picking that keeps to it, whenever it was spread"),
        flag("held", "whether it was kept to; empty where the days leave it open", always=False),
        _EVENTS,
        _WHY,
    ),
)

_FEEDING = Table(
    "feeding",
    "one row a feed or dressing and a nutrient",
    (
        whole("event", "number of its event", always=True),
        day("date", "first possible day"),
        day("date_end", "last possible day"),
        word("place", "where, as written"),
        _CROP,
        _CULTIVAR,
        word("material", "the feed or dressing; empty where it is not written"),
        _ORIGIN,
        _NUTRIENT,
        figure("product_kg_low", "least product it can have been, in kg"),
        figure("product_kg_high", "most product, in kg"),
        figure("product_l", "product or concentrate in litres, where it was measured so"),
        figure("g_low", "least of the nutrient, in g"),
        figure("g_high", "most of the nutrient, in g; empty beside a figure: it is at least that"),
        figure("area_m2", "ground it went on, in m2"),
        word("area_of", "as written, the crop's rows, or the whole place"),
        figure("g_per_m2_low", "least g a m2"),
        figure("g_per_m2_high", "most g a m2"),
        figure("plants", "plants it went to"),
        figure("g_per_plant_low", "least g a plant"),
        figure("g_per_plant_high", "most g a plant"),
        figure("mg_per_l_low", "least mg of the nutrient a litre of the diluted feed (ppm)"),
        figure("mg_per_l_high", "most mg a litre"),
        word("analysis", "who says what the product holds and weighs"),
        _WHY,
    ),
    key=("event", "nutrient"),
)

_FEEDING_LAST = Table(
    "feeding last",
    "one row a crop and place that was ever fed",
    (
        _CROP,
        _GROUND,
        word("material", "the last feed or dressing; empty where it is not written"),
        day("date", "first possible day of the last"),
        day("date_end", "last possible day of the last"),
        whole("days_low", "fewest days since then"),
        whole("days_high", "most days since then"),
        whole("times", "how often it was fed in all", always=True),
        _EVENTS,
    ),
)

_FEEDING_LIMITS = Table(
    "feeding limits",
    "one row a bed and twelve months, or a calendar year of the whole plot",
    (
        word("rule", "whose limit it is", always=True),
        word("place", "the ground, by the name that it has today; empty for the whole plot"),
        day("since", "first day of the twelve months"),
        day("until", "last day of the twelve months"),
        figure("area_m2", "the ground's area in m2"),
        figure("n_kg_per_ha_low", "least nitrogen, in kg a hectare"),
        figure("n_kg_per_ha_high", "most nitrogen; empty beside a figure: it is at least that"),
        figure("limit_kg_per_ha", "the limit, in kg a hectare", always=True),
        figure("limit_kg", "the limit on that area, in kg"),
        whole("dressings", "dressings and feeds that count towards it", always=True),
        whole("unknown", "how many of them have no known nitrogen", always=True),
        _EVENTS,
        _WHY,
    ),
)

_HEAP_MADE_OF = (
    word("materials", "what went into the heap in the making, with commas between"),
    flag("manure", "whether raw manure went into it; empty without one", always=False),
    whole("turns", "how often it was turned", always=True),
    figure("c_to_n_low", "least C:N of its mix as it went in, over all sources"),
    figure("c_to_n_high", "most C:N of its mix"),
    figure("moisture_pct_low", "least moisture of its mix as it went in, per cent of wet mass"),
    figure("moisture_pct_high", "most moisture of its mix"),
    whole("hot_days", "days on which 55 C or more was read in it", always=True),
    figure("hottest_c", "highest heat read in it, in degrees Celsius"),
)

_HEAPS = Table(
    "heaps",
    "one row a bay as it stands",
    (
        word("place", "the bay, by the name that it has today", always=True),
        figure("size_l", "what the bay holds when full, in litres"),
        figure("held_l_low", "least it can hold by the books, in litres"),
        figure("held_l_high", "most by the books; empty where what was there before is not told"),
        day("measured", "day the diary last said what it held"),
        figure("full_pct", "held_l_low as per cent of the bay"),
        figure("covers_m2", "ground that held_l_low covers 5 cm deep, in m2"),
        day("oldest", "first possible day of its oldest stuff"),
        whole("oldest_days", "days since then: its oldest is at most so old"),
        day("newest", "last possible day of its newest stuff"),
        whole("newest_days", "days since then: its newest is at least so old"),
        day("started", "first possible day of the heap in the making"),
        day("started_end", "last possible day of its start"),
        *_HEAP_MADE_OF,
        day("probed", "day it was last probed"),
        figure("temperature_c", "heat then, in degrees Celsius"),
        day("ready_low", "earliest day it is likely ready, by the bay's own past heaps"),
        day("ready", "usual day: the median of the past heaps"),
        day("ready_high", "latest day"),
        whole("heaps_before", "how many past heaps that rests on", always=True),
        _EVENTS,
        _WHY,
    ),
    key=("place",),
)

_HEAPS_PAST = Table(
    "heaps past",
    "one row a heap that was used",
    (
        word("place", "the bay, by the name that it has today", always=True),
        day("started", "first possible day of its first filling"),
        day("started_end", "last possible day of its first filling"),
        day("taken", "first possible day that it was taken out as compost"),
        day("taken_end", "last possible day of that"),
        whole("days_low", "fewest days between"),
        whole("days_high", "most days between"),
        *_HEAP_MADE_OF,
        _EVENTS,
        _WHY,
    ),
)

_HEAPS_LOG = Table(
    "heaps log",
    "one row a thing done to a bay",
    (
        word("place", "the bay, by the name that it has today", always=True),
        day("date", "first possible day"),
        day("date_end", "last possible day"),
        word("what", "filled, moved in, moved out, taken, emptied, measured, turned or probed"),
        word("material", "what went in or out"),
        figure("change_l", "litres in, or out below nought; what was measured, for a measuring"),
        figure("held_l_low", "least it can hold after that by the books, in litres"),
        figure("held_l_high", "most by the books"),
        figure("temperature_c", "heat read, in degrees Celsius"),
        whole("event", "number of its event", always=True),
    ),
)

_STRUCTURES = Table(
    "structures",
    "one row a thing fitted",
    (
        word("thing", "what was fitted, as written", always=True),
        word("place", "where, by the name that the ground has today"),
        day("fitted", "first possible day of its fitting"),
        day("fitted_end", "last possible day of its fitting"),
        day("ended", "first possible day that it was replaced or taken down"),
        day("ended_end", "last possible day of that; empty while it stands"),
        word("how_ended", "replaced or taken down; empty while it stands"),
        figure("years_low", "fewest years that it has stood, or stood"),
        figure("years_high", "most years"),
        whole("seasons_low", "fewest growing seasons: midsummers that it stood through"),
        whole("seasons_high", "most growing seasons"),
        day("due_low", "earliest day it is due, by the shortest life of its kind here"),
        day("due", "usual day: the median life of its kind here"),
        day("due_high", "latest day, by the longest life"),
        whole("lives", "how many of its kind here were replaced", always=True),
        whole("usual_seasons_low", "growing seasons that such a thing is said to last"),
        whole("usual_seasons_high", "the most that is said"),
        word("usual_basis", "on what basis that is said"),
        figure("cost", "what the fitting cost"),
        word("currency", "currency of the cost, as its ISO 4217 code"),
        _EVENTS,
        _WHY,
    ),
)

_MONEY_YEAR = whole("year", "calendar year; empty where the days may lie in two years")
_CURRENCY = word("currency", "currency, as its ISO 4217 code; sums never mix two")

_MONEY = Table(
    "money",
    "one row a year, kind, crop and currency",
    (
        _MONEY_YEAR,
        word(
            "kind", "seed, plants, feeds and dressings, structures, rent ... or sales", always=True
        ),
        _CROP,
        _CURRENCY,
        figure("spent", "money spent"),
        figure("earned", "money taken by selling"),
        whole("times", "how many entries it is of", always=True),
        _EVENTS,
    ),
)

_MONEY_WORTH = Table(
    "money worth",
    "one row a year, crop, place and currency",
    (
        _MONEY_YEAR,
        _CROP,
        word("place", "where it was picked, as written"),
        _CURRENCY,
        figure("kg", "weight picked, in kg"),
        figure("worth", "what the priced pickings were worth at the sheet's prices"),
        whole("pickings", "how many pickings", always=True),
        whole("unpriced", "how many of them have no price, weight or count to reckon with"),
        figure("area_m2", "ground it stood on, in m2"),
        figure("worth_per_m2", "worth a m2 of that ground"),
        figure("hours", "person-hours that it took"),
        figure("worth_per_hour", "worth a person-hour"),
        _EVENTS,
        _WHY,
    ),
)

_MONEY_YEARS = Table(
    "money years",
    "one row a year and currency",
    (
        _MONEY_YEAR,
        _CURRENCY,
        figure("spent", "money spent"),
        figure("earned", "money taken by selling"),
        figure("worth", "what the priced pickings were worth at the sheet's prices"),
        whole("unpriced", "pickings with no price, weight or count to reckon with", always=True),
        figure("hours", "person-hours of all timed work"),
        figure("worth_per_hour", "worth a person-hour of all timed work"),
        figure("area_m2", "area of the plot, or of its beds together, in m2"),
        figure("worth_per_m2", "worth a m2 of that area"),
    ),
)

_SEED = Table(
    "seed",
    "one row a crop and cultivar that was bought or saved, as seed or as plants",
    (
        _CROP,
        _CULTIVAR,
        word("unit", "packets of seed, or plants: sets, tubers, plugs", always=True),
        figure("bought", "how many were bought in all; empty where that was not written"),
        day("bought_last", "last possible day of the last buying"),
        day("saved_last", "last possible day that own seed was saved"),
        whole("sown_times", "how often it was sown, or planted, in all", always=True),
        day("sown_last", "last possible day of the last sowing or planting"),
        whole("year", "the year whose area the order is for", always=True),
        figure("sown_m", "metres of row sown in that year, where each sowing says"),
        figure("sown_count", "seeds or plants set in that year, where each says"),
        figure("left", "packets that were never sown from, or plants not yet planted"),
        figure("age_years_low", "fewest years since the last packet was bought or seed saved"),
        figure("age_years_high", "most years"),
        figure("life_years_low", "least that seed is published to keep, in years"),
        figure("life_years_high", "most that seed is published to keep"),
        word("life_sources", "each published life with its source"),
        word("past", "no, yes, or by some sources; empty where age or life is not known"),
        whole("order", "how many to order for the same area; empty where nothing says"),
        _EVENTS,
        _WHY,
    ),
)

_BOOKS = Table(
    "books",
    "one row a measure, crop and year of the diary beside one published figure",
    (
        word("measure", "yield, days to harvest or per cent up", always=True),
        word("crop", "crop name, lower case and singular", always=True),
        whole("year", "calendar year of the picking, or of the sowing or planting", always=True),
        figure("value", "the diary's figure; of several batches their median", always=True),
        figure("value_low", "the lowest of several batches"),
        figure("value_high", "the highest of several batches"),
        word("unit", "unit of the figures", always=True),
        whole("of", "how many harvest rows or batches it is of", always=True),
        figure("published_low", "the published figure, or its low end"),
        figure("published_high", "its high end; empty for an open one"),
        word("printed", "the figure as its source prints it"),
        word("what", "what the source counts: from sowing, least by law ..."),
        word("condition", "of what kind, or under what circumstance"),
        word("source", "who says so", always=True),
        _EVENTS,
        _WHY,
    ),
)

STORE_TABLES = (
    _GROUND_YEARS,
    _GROUND_NEXT,
    _MANURE_INTERVAL,
    _FEEDING,
    _FEEDING_LAST,
    _FEEDING_LIMITS,
    _HEAPS,
    _HEAPS_PAST,
    _HEAPS_LOG,
    _STRUCTURES,
    _MONEY,
    _MONEY_WORTH,
    _MONEY_YEARS,
    _SEED,
    _BOOKS,
)
