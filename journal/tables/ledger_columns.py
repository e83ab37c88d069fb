"""Columns of the ledger's tables: batches, their events and lives, the usual days, the plans."""

from journal.tables.column import Table, day, figure, whole, word
from journal.tables.recurring import (
    ALIVE,
    COLUMN,
    CROP,
    CULTIVAR,
    FILE,
    FIRST,
    LABEL,
    LAST,
    LINE,
    STAGE,
)

_BATCH = whole("batch", "running number of the batch", always=True)
_EVENT = whole("event", "number of the event", always=True)
_SEASON = word("season", "spring, or autumn for what stands over the winter; else empty")
_WHAT_HAPPENED = word("what", "sowing, planting or first picking", always=True)
_WRITTEN = (FIRST, LAST, FILE, LINE, COLUMN)

_COUNTS = (
    figure("sown", "seeds sown"),
    figure("up", "seedlings that came up"),
    figure("pricked_out", "seedlings pricked out"),
    figure("potted_on", "plants potted on"),
    figure("planted", "plants planted"),
    figure("not_up", "seeds that did not come up"),
    figure("discarded", "seedlings left at pricking out"),
    figure("lost", "plants lost"),
    figure("harvested", "plants harvested whole"),
    figure("cleared", "plants cleared"),
    figure("unknown", "plants that the diary does not account for"),
)
_ENDED = word("ended", "how the batch ended; empty while it stands")

_PLANTS = Table(
    "plants",
    "one row a batch and stage reached",
    (
        _BATCH,
        CROP,
        CULTIVAR,
        LABEL,
        day("started", "day the batch was sown or planted"),
        word("how_started", "the verb it began with"),
        word("place", "where the batch was at that stage"),
        STAGE,
        day("date", "day it reached the stage"),
        *_COUNTS,
        *ALIVE,
        _ENDED,
        whole("days_in_stage", "days it was at the stage"),
    ),
)

_STANDING = Table(
    "standing",
    "one row a batch that stands today",
    (
        CROP,
        CULTIVAR,
        LABEL,
        word("place", "where it stands"),
        STAGE,
        *ALIVE,
        day("since", "day it reached the stage"),
        whole("days", "days since then"),
        day("due", "day its next stage is due"),
        word("state", "growing, ready, past its time or forgotten", always=True),
    ),
)


_BATCHES = Table(
    "plants batches",
    "one row a batch, its counts, days and per cents",
    (
        _BATCH,
        CROP,
        CULTIVAR,
        LABEL,
        word("how_started", "the verb it began with"),
        day("started", "day the batch was sown or planted; empty where that is vague"),
        day("up_on", "day the first of it came up"),
        day("planted_on", "day the first of it was planted"),
        day("first_picking", "day of the first picking"),
        day("last_picking", "day of the last picking"),
        day("ended_on", "day it ended"),
        *_COUNTS,
        *ALIVE,
        figure("pct_up", "seedlings as per cent of the seeds"),
        figure("pct_planted", "plants planted as per cent of the seeds"),
        whole("days_to_up", "days from the beginning to the first seedling"),
        whole("days_to_planted", "days from the beginning to the first planting"),
        whole("days_to_picking", "days from the beginning to the first picking"),
        _ENDED,
        _EVENT,
        *_WRITTEN,
    ),
    key=("batch",),
)

_PLANT_EVENTS = Table(
    "plants events",
    "one row a batch and event that it took in",
    (
        _BATCH,
        _EVENT,
        word("what", "what the event did to the batch", always=True),
        word("stage", "stage of the plants after it"),
        word("place", "where they then were"),
        figure("count", "plants that it touched; empty where the diary counts none"),
        figure("low", "fewest that can be meant"),
        figure("high", "most that can be meant"),
        word("reason", "reason of a loss"),
        CROP,
        CULTIVAR,
        LABEL,
        *_WRITTEN,
    ),
)

_UNPLACED = Table(
    "plants unplaced",
    "one row an event, or so many of its plants, that no batch could take in",
    (
        _EVENT,
        CROP,
        CULTIVAR,
        LABEL,
        word("place", "where it happened"),
        word("verb", "the canonical verb", always=True),
        figure("count", "plants that found no batch; empty where the diary counts none"),
        word("reason", "why no batch could take them", always=True),
        whole("other", "number of the event that it contradicts"),
        *_WRITTEN,
        word("other_file", "file of the event that it contradicts"),
        whole("other_line", "line of the event that it contradicts"),
    ),
)

_LIVES = Table(
    "plants lives",
    "one row a batch, stage and place: the days that it surely was there",
    (
        whole("year", "year in which the batch began", always=True),
        _BATCH,
        CROP,
        CULTIVAR,
        LABEL,
        word("place", "where it was"),
        STAGE,
        whole("lane", "1 for plants left behind when others were moved on, else 0", always=True),
        day("begins", "last possible day of reaching the stage"),
        day("ends", "first possible day of leaving it; today for what stands"),
        figure("alive", "plants there when they left; empty where not known"),
        _ENDED,
    ),
)

_SURVIVAL = Table(
    "plants survival",
    "one row a year of sowing, crop and cultivar",
    (
        whole("year", "year of sowing", always=True),
        CROP,
        CULTIVAR,
        whole("sowings", "batches sown", always=True),
        figure("sown", "seeds of the sowings of which the seedlings were counted"),
        figure("up", "seedlings that came up of these"),
        figure("pct_up", "seedlings as per cent of these seeds"),
        figure("sown_planted", "seeds of the sowings of which the plants were counted"),
        figure("planted", "plants planted of these"),
        figure("pct_planted", "plants as per cent of these seeds"),
        figure("lost", "plants lost"),
        figure("pct_law", "least per cent that seed for sale must come up with"),
        word("law_source", "the law that says so"),
        figure("days_to_up", "days from sowing to the first seedling"),
        figure("emergence_low", "published days to emergence, in the warmest soil given"),
        figure("emergence_high", "published days to emergence, in the coldest soil given"),
        word("emergence_source", "where they were published"),
    ),
    key=("year", "crop", "cultivar"),
)

_AHEAD = Table(
    "ahead",
    "one row a crop, cultivar, season and what is usual",
    (
        CROP,
        word("cultivar", "cultivar; empty for all of the crop"),
        _SEASON,
        _WHAT_HAPPENED,
        whole("years", "years in which it happened", always=True),
        figure("earliest", "earliest day of the year; blank of what was first done this year"),
        figure("usual", "median day of the year; empty with fewer than two years"),
        figure("latest", "latest day of the year"),
        figure("error_days", "mean error in days, each year left out in turn"),
        figure("error_most", "largest such error"),
        figure("base_c", "base of the degree days, in C"),
        figure("degree_days", "median degree days from the beginning to the first picking"),
        figure("degree_error_days", "mean error in days of predicting by degree days"),
        day("this_year", "its day in the year of today"),
        day("due_low", "earliest day that it falls due"),
        day("due", "usual day that it falls due"),
        day("due_high", "latest day that it falls due"),
        word("source", "whose days these are"),
    ),
    key=("crop", "cultivar", "season", "what"),
)

_AHEAD_YEARS = Table(
    "ahead years",
    "one row a row of `ahead` and year",
    (
        CROP,
        word("cultivar", "cultivar; empty for all of the crop"),
        _SEASON,
        _WHAT_HAPPENED,
        whole("year", "calendar year", always=True),
        figure("day", "day of the year; empty where it has not come"),
        day("date", "the day itself"),
        figure("earliest_before", "earliest day of the year in the years before"),
        figure("usual_before", "median of them"),
        figure("latest_before", "latest of them"),
        whole("years_before", "how many years before have one", always=True),
    ),
    key=("crop", "cultivar", "season", "what", "year"),
)

_INTENTIONS = Table(
    "intentions",
    "one row an occasion of a plan",
    (
        _EVENT,
        whole("entry", "number of the entry", always=True),
        word("verb", "the verb that is planned"),
        CROP,
        CULTIVAR,
        LABEL,
        word("place", "where"),
        word("material", "feed, dressing, product or thing to fit"),
        word("what", "words of a plan that names no verb of the diary's"),
        figure("count", "how many"),
        day("due", "first day that it is due"),
        day("due_end", "last day that it is due"),
        word("state", "open, overdue, closed, done or abandoned", always=True),
        whole("overdue_days", "days since due_end"),
        day("closed", "day it was closed"),
        whole("closed_by", "number of the event that closed it"),
        day("date", "day the plan was written"),
        FILE,
        LINE,
        COLUMN,
        word("closed_file", "file of that event"),
        whole("closed_line", "line of that event"),
    ),
)

LEDGER_TABLES = (
    _PLANTS,
    _STANDING,
    _BATCHES,
    _PLANT_EVENTS,
    _UNPLACED,
    _LIVES,
    _SURVIVAL,
    _AHEAD,
    _AHEAD_YEARS,
    _INTENTIONS,
)
