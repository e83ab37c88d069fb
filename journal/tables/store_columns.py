"""Columns of the studies of the ground and of the stores: rotation, manure, feeds, heaps, money."""

from journal.tables.column import Table, day, flag, whole, word

_CROP = word("crop", "crop name, lower case and singular")
_CULTIVAR = word("cultivar", "cultivar without quotes")
_GROUND = word("place", "the ground, by the name that it has today")
_EVENTS = word("events", "numbers of the events it rests on, with commas between")
_WHY = word("why", "why a figure is empty, or what it leaves open")

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

STORE_TABLES = (_MANURE_INTERVAL,)
