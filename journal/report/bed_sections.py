"""The beds as sections of the season page: what each earned, its calendar, the plan of the plot."""

from datetime import date

import pandas as pd

from journal.charts.catalog import CHARTS
from journal.charts.words import listed
from journal.diary import Diary
from journal.report.page_tables import BEDS, CALENDAR, Shown, page_table, whole, word
from journal.report.section import Plot, Section, Shape, of_year
from journal.studies.beds import beds
from journal.studies.occupancy import days_in_use, occupancy
from journal.studies.plan import overlaps, plan_on

MIDSUMMER = (6, 24)
IN_USE = (word("place"), Shown("days", "days in use", whole))


def beds_section(diary: Diary, year: int) -> Section | None:
    """What each bed earned and what it cost in hours."""
    rows = of_year(beds(diary), year)
    rows = rows[rows["kg"].notna() | rows["hours"].notna()]
    if rows.empty:
        return None
    words = (
        "What came off each bed and the time that went into it. Work that names no place is in "
        "no row, and weight is at least what is shown where pickings were not weighed."
    )
    ordered = rows.sort_values(["kg", "place"], ascending=[False, True])
    table = page_table(ordered, f"Beds in {year}", BEDS, pinned=True)
    return Section("beds", "Bed by bed", words, None, (table,))


def calendar_section(diary: Diary, year: int) -> Section | None:
    """What stood in each bed through the year."""
    rows = of_year(occupancy(diary), year)
    if rows.empty:
        return None
    words = (
        "What stood in each place, from the first day that it can have come there to the last "
        "that it can have gone. Where nobody wrote that a crop was cleared, the bar runs on."
    )
    used = days_in_use(rows).rename("days").reset_index().sort_values("place")
    tables = (
        page_table(rows.sort_values(["place", "begins", "crop"]), f"Calendar {year}", CALENDAR),
        page_table(used, f"Days of {year} on which something stood", IN_USE),
    )
    chart = CHARTS["occupancy"].draw(rows)
    return Section("calendar", "The calendar of beds", words, chart, tables, pinned=True)


def plan_section(diary: Diary, year: int) -> Section | None:
    """The plan of the plot, drawn to scale, with what stood in each place on a day."""
    closes = min(date(year, 12, 31), diary.today)
    places = plan_on(diary, closes)
    drawn = places[places["why"] == ""]
    if drawn.empty:
        return None
    stood = of_year(occupancy(diary), year)
    words = "Drawn to scale from the sizes and corners on the plot sheet."
    missing = places.loc[(places["why"] != "") & places["place"].isin(stood["place"]), "place"]
    if not missing.empty:
        words += (
            f" Not drawn, since the sheet does not give both a place and two sides: "
            f"{listed(list(missing))}."
        )
    for one, other in overlaps(places):
        words += f" On the sheet {one} and {other} lie on one another."
    last = closes.timetuple().tm_yday
    day = min(date(year, *MIDSUMMER).timetuple().tm_yday, last)
    return Section("plan", "The plot", words, plot=_plot(drawn, stood, day, last))


def _plot(drawn: pd.DataFrame, stood: pd.DataFrame, day: int, last: int) -> Plot:
    left, top = float(drawn["x_m"].min()), float(drawn["y_m"].min())
    shapes = tuple(
        Shape(
            number,
            row["place"],
            round(float(row["x_m"]) - left, 3),
            round(float(row["y_m"]) - top, 3),
            float(row["across_m"]),
            float(row["down_m"]),
            _stays(stood[stood["place"] == row["place"]]),
        )
        for number, row in enumerate(drawn.to_dict("records"), 1)
    )
    across = max(shape.x + shape.across for shape in shapes)
    down = max(shape.y + shape.down for shape in shapes)
    return Plot(across, down, shapes, day, last)


def _stays(rows: pd.DataFrame) -> tuple[tuple[str, int, int], ...]:
    return tuple(
        (crop, begins.day_of_year, ends.day_of_year)
        for crop, begins, ends in zip(rows["crop"], rows["begins"], rows["ends"], strict=True)
    )
