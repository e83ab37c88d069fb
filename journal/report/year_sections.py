"""The harvest, the work and the comparison of years as sections of the season page."""

from dataclasses import replace

import pandas as pd

from journal.charts.beside import beside_chart
from journal.charts.catalog import CHARTS
from journal.charts.cumulative import cumulative_chart
from journal.charts.words import MONTHS, kilograms, year_list
from journal.diary import Diary
from journal.report.page_tables import (
    FIRSTS,
    HARVEST,
    WEIGHTS,
    WORTH,
    PageTable,
    Shown,
    page_table,
    word,
)
from journal.report.section import Section, cautions_of_year, of_year
from journal.studies.beside import beside
from journal.studies.catalog import STUDIES
from journal.studies.cumulative import by_month, cumulative


def harvest_section(diary: Diary, year: int) -> Section | None:
    """What was picked, each crop, cultivar and place."""
    rows = of_year(STUDIES["harvest"](diary), year)
    if rows.empty:
        return None
    words = (
        "Weight is what was put on the scales: ≥ marks a crop of which some pickings were not. "
        "Weight per m² counts the ground that the crop was sown or planted on."
    )
    table = page_table(rows.sort_values(["crop", "cultivar", "place"]), f"Harvest {year}", HARVEST)
    # of what is said of potatoes; a hedge or a spray is work
    caution = cautions_of_year(diary, year, "harvest", "kitchen", "loss")
    return Section("harvest", "The harvest", words, CHARTS["harvest"].draw(rows), (table,), caution)


def cumulative_section(diary: Diary, year: int, against: int | None = None) -> Section | None:
    """The harvest as it mounted up, beside earlier years."""
    rows = cumulative(diary)
    if of_year(rows, year).empty:
        return None
    words = (
        "Everything weighed, added up from January. A picking whose day is not certain counts on "
        "the last day that it can have been."
    )
    chart = cumulative_chart(rows, year, against)
    table = _mounting(by_month(rows[rows["year"] <= year]), year)
    return Section("cumulative", "Week by week", words, chart, (table,))


def _mounting(months: pd.DataFrame, year: int) -> PageTable:
    """What was in by the end of each month, a column a year."""
    wide = months.pivot(index="month", columns="year", values="kg").reset_index()
    wide["name"] = [MONTHS[month - 1] for month in wide["month"]]
    years = [Shown(str(each), str(each), kilograms) for each in year_list(months)]
    wide.columns = pd.Index([str(column) for column in wide.columns])
    return page_table(
        wide, f"Picked by the end of each month, to {year}", (word("name", "by the end of"), *years)
    )


def labour_section(diary: Diary, year: int) -> Section | None:
    """Where the time went."""
    rows = of_year(STUDIES["labour"](diary), year)
    if rows.empty:
        return None
    words = (
        "Person-hours as the diary times them; work that was not timed is not here. The table "
        "gives a bed's own work to the crop that had the bed alone."
    )
    worth = of_year(STUDIES["labour worth"](diary), year)
    worth = worth[worth["hours"].notna()].sort_values(["place", "crop"])
    table = page_table(worth, f"Time and what it earned, {year}", WORTH)
    caution = cautions_of_year(diary, year, "job", "treatment", "sighting")
    return Section("labour", "The work", words, CHARTS["labour"].draw(rows), (table,), caution)


def years_section(diary: Diary, year: int, against: int | None = None) -> Section | None:
    """The year beside the earlier ones; nothing in a diary's first year."""
    rows = of_year(beside(diary), year)
    rows = rows[rows["crop"] != ""]
    if rows["years_before"].fillna(0).eq(0).all():
        return None
    other = int(rows["other"].max()) if against is None else against
    words = f"Each crop of {year} beside {other} and beside all years before. "
    words += "A year in which a crop was not picked is left out, not counted as nothing."
    if year == diary.today.year:
        words += " The year is open: earlier years count to the same day."
    tables = tuple(
        replace(
            page_table(pairs.sort_values("crop"), f"{name}, {year} beside {set_beside}", columns),
            against=set_beside,
        )
        for set_beside in sorted(year_list(rows.assign(year=rows["other"])), reverse=True)
        for measure, name, columns in (
            ("kg", "Weight", WEIGHTS),
            ("first picking", "First picking", FIRSTS),
            ("last picking", "Last picking", FIRSTS),
        )
        if not (pairs := _pairs(rows, measure, set_beside, other)).empty
    )
    return Section("years", "Beside other years", words, beside_chart(rows, other), tables)


def _pairs(rows: pd.DataFrame, measure: str, set_beside: int, other: int) -> pd.DataFrame:
    """A year's figures beside one other year; nothing for a year that shares no crop with it."""
    pairs = rows[(rows["measure"] == measure) & (rows["other"] == set_beside)]
    return pairs if set_beside == other else pairs[pairs["before"].notna()]
