"""Columns that many tables have, spelled once."""

from journal.tables.column import day, figure, whole, word

FIRST = day("date", "first possible day")
LAST = day("date_end", "last possible day")
FILE = word("file", "file it stands in", always=True)
LINE = whole("line", "line it stands on, counted from 1", always=True)
COLUMN = whole("column", "column it begins at, counted from 1", always=True)
CROP = word("crop", "crop name, lower case and singular")
CULTIVAR = word("cultivar", "cultivar without quotes")
LABEL = word("label", "label of one of several batches")
STAGE = word("stage", "stage the batch reached", always=True)
ALIVE = (
    figure("alive", "plants alive; empty where the diary leaves a range"),
    figure("alive_low", "fewest plants that can be alive"),
    figure("alive_high", "most plants that can be alive"),
)
