"""Columns of the studies that the season page adds: years side by side, beds, verdicts, plan."""

from journal.tables.column import Table, day, figure, whole, word

_YEAR = whole("year", "calendar year", always=True)
_PLACE = word("place", "the ground, by the name that it has today", always=True)
_CROP = word("crop", "crop name, lower case and singular")
_CULTIVAR = word("cultivar", "cultivar without quotes")

_BESIDE = Table(
    "beside",
    "one row a year, an earlier year, a measure and a crop",
    (
        _YEAR,
        whole("other", "the earlier year that it is compared with", always=True),
        word("measure", "kg, first picking or last picking", always=True),
        word("crop", "crop name; empty for all crops together"),
        figure("value", "the year's figure: kg, or the day of the year", always=True),
        figure("before", "the other year's figure"),
        figure("change", "value less before"),
        figure("change_pct", "change as per cent of before; empty for days"),
        figure("mean_before", "mean over all earlier years that have a figure"),
        figure("low_before", "lowest of them"),
        figure("high_before", "highest of them"),
        whole("years_before", "how many earlier years have a figure", always=True),
    ),
    key=("year", "other", "measure", "crop"),
)

_CUMULATIVE = Table(
    "cumulative",
    "one row a year and day on which something was weighed",
    (
        _YEAR,
        day("date", "last day that the pickings can have been"),
        whole("day_of_year", "day of the year, 29 February counting with 1 March", always=True),
        figure("kg_of_day", "weighed that day", always=True),
        figure("kg", "weighed in the year up to and with that day", always=True),
    ),
    key=("year", "date"),
)

_OCCUPANCY = Table(
    "occupancy",
    "one row a year, batch and place that it stood in",
    (
        _YEAR,
        _PLACE,
        _CROP,
        _CULTIVAR,
        word("label", "label of one of several batches"),
        whole("batch", "running number of the batch", always=True),
        day("since", "first possible day that it came there"),
        day("since_end", "last possible day of that"),
        day("until", "first possible day that the last of it went; empty while it stands"),
        day("until_end", "last possible day of that"),
        day("begins", "first day of the year that it can have stood there"),
        day("ends", "last such day of the year, no later than today"),
        word("ended", "how the batch ended; empty while it stands"),
    ),
)

_BEDS = Table(
    "beds",
    "one row a year and place",
    (
        _YEAR,
        _PLACE,
        figure("kg", "weight picked there, in kg"),
        whole("unweighed", "pickings there that were not weighed"),
        figure("hours", "person-hours timed there"),
        figure("area_m2", "size of the place in m2"),
        figure("kg_per_m2", "kg a m2 of the whole place"),
        figure("hours_per_kg", "person-hours a kg picked"),
        figure("hours_per_m2", "person-hours a m2"),
    ),
    key=("year", "place"),
)

_PLAN = Table(
    "plan",
    "one row a place of the plot",
    (
        _PLACE,
        word("kind", "bed, frame, house, pot, bay or tank", always=True),
        figure("x_m", "distance of its corner along the plot, in m"),
        figure("y_m", "distance of its corner down the plot, in m"),
        figure("across_m", "its size along the plot, in m"),
        figure("down_m", "its size down the plot, in m"),
        word("stands", "the crops that stand there on the day of reading"),
        word("why", "why it cannot be drawn"),
    ),
    key=("place",),
)

_VERDICTS = Table(
    "verdicts",
    "one row a year, crop and cultivar that was picked, rated, sown, planted or lost",
    (
        _YEAR,
        _CROP,
        _CULTIVAR,
        figure("kg", "weight picked, in kg"),
        whole("unweighed", "pickings that were not weighed"),
        figure("kg_per_m2", "kg a m2, where the ground of all of it is known"),
        whole("rank", "place among the crop's cultivars of that year by kg a m2, 1 the best"),
        whole("ranked", "how many cultivars of the crop have a kg a m2 that year"),
        figure("mean_before", "mean kg of its own earlier years"),
        whole("years_before", "how many earlier years it was weighed in", always=True),
        figure("pct_up", "per cent of the seeds that came up, of that year's counted sowings"),
        figure("lost", "plants counted lost that year"),
        figure("score", "mean of the year's ratings, 0 to 1"),
        word("keep", "what speaks for growing it again"),
        word("drop", "what speaks against it"),
    ),
    key=("year", "crop", "cultivar"),
)

SEASON_TABLES = (_BESIDE, _CUMULATIVE, _OCCUPANCY, _BEDS, _PLAN, _VERDICTS)
