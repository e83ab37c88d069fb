"""The harvest, the work and the comparison of years as sections of the season page."""

from journal.charts.catalog import CHARTS
from journal.charts.years import whole_crops
from journal.diary import Diary
from journal.report.page_tables import FIRSTS, HARVEST, WEIGHTS, WORTH, page_table
from journal.report.section import Section, of_year
from journal.studies.catalog import STUDIES


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
    return Section("harvest", "The harvest", words, CHARTS["harvest"].draw(rows), (table,))


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
    return Section("labour", "The work", words, CHARTS["labour"].draw(rows), (table,))


def years_section(diary: Diary, year: int) -> Section | None:
    """The year beside the earlier ones; nothing in a diary's first year."""
    rows = of_year(STUDIES["years"](diary), year)
    if rows["years_before"].fillna(0).eq(0).all():
        return None
    words = f"Each crop of {year} beside {year - 1} and beside all years before. "
    words += "A year in which a crop was not picked is left out, not counted as nothing."
    if year == diary.today.year:
        words += " The year is open: earlier years count to the same day."
    weights = whole_crops(rows, "kg").sort_values("crop")
    firsts = whole_crops(rows, "first picking").sort_values("crop")
    tables = (
        page_table(weights, f"Weight in {year} and before", WEIGHTS),
        page_table(firsts, f"First picking in {year} and before", FIRSTS),
    )
    kept = tuple(table for table in tables if table.rows)
    return Section("years", "Beside other years", words, CHARTS["years"].draw(rows), kept)
