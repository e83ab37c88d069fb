"""What became of the plants as sections of the season page: survival, lines of life, usual days."""

from collections.abc import Hashable, Iterator
from typing import Any

import pandas as pd

from journal.charts.catalog import CHARTS
from journal.charts.words import crop_name, listed, number
from journal.diary import Diary
from journal.report.page_tables import Shown, amount, page_table, whole, word
from journal.report.ranges import spans
from journal.report.section import Section, of_year
from journal.studies.catalog import STUDIES
from journal.studies.notes import counted
from journal.studies.plants import losses

SURVIVAL = (
    word("crop"),
    word("cultivar"),
    Shown("sown", "sown", whole),
    Shown("up", "up", whole),
    Shown("pct_up", "% up", whole),
    Shown("pct_law", "least by law, %", whole),
    Shown("days_to_up", "days to up", number),
    amount("published", "published days to up"),
    Shown("planted", "planted", whole),
    Shown("pct_planted", "% planted", whole),
    Shown("lost", "lost", lambda count: whole(count) if count else ""),
)

BEGINNINGS = ("sowing", "planting")


def survival_section(diary: Diary, year: int) -> Section | None:
    """How many of the year's seeds came up and were planted, and what was lost to what."""
    rows = of_year(STUDIES["plants survival"](diary), year)
    counted_rows = rows[rows["pct_up"].notna() | rows["pct_planted"].notna()]
    if counted_rows.empty:
        return None
    sources = sorted({*counted_rows["law_source"], *counted_rows["emergence_source"]} - {""})
    words = (
        "Only sowings that were counted. The law's figure is a test in a laboratory for seed that "
        "is sold, no promise for a bed"
    )
    words += f"; published figures: {listed(sources)}." if sources else "."
    published = spans(counted_rows, "emergence_low", "emergence_high")
    shown = counted_rows.assign(published=published)
    table = page_table(shown, f"From seed to plant, sown in {year}", SURVIVAL)
    chart = CHARTS["plants survival"].draw(counted_rows)
    items = tuple(_losses(diary, year))
    return Section("survival", "From seed to plant", words, chart, (table,), items=items)


def _losses(diary: Diary, year: int) -> Iterator[str]:
    """What was lost in a year, each with its reason as written."""
    lost = losses(diary)
    mine = lost[(lost["date"].dt.year == year) & (lost["date_end"].dt.year == year)]
    for row in mine.sort_values(["date", "crop"]).to_dict("records"):
        yield f"{row['date'].day} {row['date']:%B}: {_lost(row)}."


def _lost(row: dict[Hashable, Any]) -> str:
    """`4 cabbage ‘Kilaxy’ in Platform 4 lost to drought`."""
    place = f" in {row['place']}" if row["place"] else ""
    plants = f"{crop_name(row['crop'], row['cultivar'])}{place}"
    reason = f" to {row['reason']}" if row["reason"] else ""
    if row["what"] == "failed":
        return f"the sowing of {plants} came to nothing{f', lost{reason}' if reason else ''}"
    many = "an unknown number of" if pd.isna(row["count"]) else number(row["count"])
    return f"{many} {plants} lost{reason}"


def lives_section(diary: Diary, year: int) -> Section | None:
    """A line of life for each batch begun in the year."""
    rows = of_year(STUDIES["plants lives"](diary), year)
    if rows.empty:
        return None
    batches = counted(rows["batch"].nunique(), "batch", "batches")
    words = f"{batches} begun in {year}, each from sowing or planting to its end or to today."
    chart = CHARTS["plants lives"].draw(rows)
    return Section("lives", "From sowing to clearing", words, chart)


def usual_days_section(diary: Diary, year: int) -> Section | None:
    """The year's sowings and plantings beside the usual days; pickings where there are none."""
    rows = of_year(STUDIES["ahead years"](diary), year)
    rows = rows[(rows["cultivar"] == "") & rows["day"].notna()]
    if rows["years_before"].fillna(0).eq(0).all():
        return None
    if rows["what"].isin(BEGINNINGS).any():
        # the first pickings stand beside other years in a chart of their own
        rows = rows[rows["what"].isin(BEGINNINGS)]
    words = (
        f"The first day of each in {year} beside the earliest, the latest and the middle of the "
        "years before it. What is begun from August on, to stand over the winter, is told apart."
    )
    return Section("usual-days", "The usual days", words, CHARTS["ahead years"].draw(rows))
