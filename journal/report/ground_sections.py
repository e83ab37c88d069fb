"""The ground, manure, feeds and heaps as sections of the season page."""

from typing import Any

import pandas as pd

from journal.charts.feeding import feeding_chart
from journal.charts.ground import ground_chart
from journal.charts.heaps import heaps_chart
from journal.charts.words import listed, number
from journal.diary import Diary
from journal.report.page_tables import (
    PageTable,
    Shown,
    amount,
    page_table,
    two_places,
    whole,
    word,
)
from journal.report.ranges import long_day, spans
from journal.report.section import Make, Section, of_year
from journal.studies.cautions import caution_words
from journal.studies.feeding import feeding
from journal.studies.ground import ground
from journal.studies.ground_next import SOME, YES, where_next
from journal.studies.heaps import heaps, heaps_log, heaps_past
from journal.studies.in_soil import in_soil
from journal.studies.manure_interval import manure_interval
from journal.studies.nitrogen_limits import feeding_limits
from journal.studies.notes import counted

# ------------------------------------------------------------ the ground

RETURNS = (
    word("place"),
    word("crops", "what came back"),
    Shown("last_before", "family last there", long_day),
    Shown("years_without", "years without", number),
    amount("advised", "advised"),
    word("why", "beside it"),
)
NEXT = (word("crop"), word("yes", "by every source"), word("some", "by some sources"))


def ground_section(diary: Diary, year: int) -> Section | None:
    """What stood where in five years, what came back how soon, and what can go where next."""
    rows = ground(diary)
    rows = rows[rows["year"] <= year]
    if rows[rows["year"] == year].empty:
        return None
    words = (
        "Families by bed and year, by what stood there and not by sowing lines alone. Sources "
        "differ on how long a family should stay away, so the advice is a range; none of them "
        f"knows this ground. Where each can go in {year + 1} is from what is written so far."
    )
    back = of_year(rows, year)
    back = back[back["years_without"].notna()]
    back = back.assign(advised=spans(back, "advised_low", "advised_high"))
    tables = (
        page_table(back.sort_values(["place", "crops"]), f"Back in {year}", RETURNS),
        _next_table(diary, year),
    )
    kept = tuple(table for table in tables if table.rows)
    return Section("ground", "The ground", words, ground_chart(rows), kept)


def _next_table(diary: Diary, year: int) -> PageTable:
    """The beds for each annual of the year, in the year after."""
    grown = {one.crop for one in in_soil(diary) if one.since.year == year and not one.perennial}
    alike: dict[tuple[str, str], list[str]] = {}
    for crop in sorted(grown):
        beds = where_next(diary, crop, year + 1)
        yes, some = (listed(list(beds.loc[beds["fits"] == fits, "place"])) for fits in (YES, SOME))
        if yes or some:
            alike.setdefault((yes, some), []).append(crop)
    rows = [(listed(crops), *beds) for beds, crops in alike.items()]
    frame = pd.DataFrame(rows, columns=["crop", "yes", "some"], dtype="string")
    return page_table(frame, f"Where each can go in {year + 1}", NEXT, pinned=True)


# ------------------------------------------------------------ manure and feeds

WAITS = (
    word("place"),
    word("material", "manure"),
    Shown("applied_end", "spread", long_day),
    word("crop"),
    word("cultivar"),
    Shown("harvested", "first picked", long_day),
    amount("days", "days"),
    Shown("needed_days", "asked for", whole),
    Shown("allowed_from", "from", long_day),
    word("why", "beside it"),
)


def manure_section(diary: Diary, year: int) -> Section | None:
    """Days from raw manure to food in the year, and ground that still waits."""
    rows = manure_interval(diary)
    picked = rows["harvested"].dt.year == year
    waiting = (rows["crop"] == "") & (rows["applied_end"].dt.year == year)
    rows = rows[picked | waiting]
    if rows.empty:
        return None
    early = rows[rows["held"].eq(False).fillna(False)]
    words = (
        "Days from raw manure to the first picking, beside the 120 days (where what is eaten "
        "touches the soil) and 90 days (where it does not) of 7 CFR 205.203(c)(1). "
        f"{counted(len(early), 'crop')} came sooner."
    )
    shown = rows.assign(days=spans(rows, "days_low", "days_high"))
    table = page_table(shown, f"Raw manure to food, {year}", WAITS)
    caution = caution_words("manure_interval")
    return Section("manure", "Manure to table", words, None, (table,), caution)


FEEDS = (
    Shown("date", "day", long_day),
    word("place"),
    word("crop"),
    word("material"),
    amount("N", "N, g/m²"),
    amount("P2O5", "P2O5"),
    amount("K2O", "K2O"),
    amount("each", "N, g a plant"),
    word("why", "beside it"),
)
LIMITS = (
    word("place"),
    Shown("until", "twelve months to", long_day),
    amount("n", "N, kg/ha"),
    Shown("limit_kg_per_ha", "limit", whole),
    Shown("unknown", "dressings not known", lambda count: whole(count) if count else ""),
)


def feeding_section(diary: Diary, year: int) -> Section | None:
    """What each bed was given in the year, nutrient by nutrient."""
    rows = feeding(diary)
    rows = rows[rows["date"].dt.year == year]
    if rows.empty:
        return None
    words = (
        "Nutrients by the labels on the sheet, or by publication. The limits are those of farms "
        "in a nitrate vulnerable zone of England (SI 2015/668), a yardstick here; manure by the "
        "barrow is weighed at the density of a published table, which is only near the truth."
    )
    tables = (_feeds_table(rows, year), _limits_table(diary, year))
    kept = tuple(table for table in tables if table.rows)
    caution = caution_words("feeding")
    return Section("feeding", "Feeds and dressings", words, feeding_chart(rows), kept, caution)


def _feeds_table(rows: pd.DataFrame, year: int) -> PageTable:
    one_each = rows[rows["nutrient"] == "N"].set_index("event")
    for nutrient in ("N", "P2O5", "K2O"):
        own = rows[rows["nutrient"] == nutrient].set_index("event")
        one_each[nutrient] = spans(own, "g_per_m2_low", "g_per_m2_high", two_places)
    one_each["each"] = spans(one_each, "g_per_plant_low", "g_per_plant_high", two_places)
    return page_table(one_each.sort_values("date"), f"Fed in {year}", FEEDS)


def _limits_table(diary: Diary, year: int) -> PageTable:
    rows = feeding_limits(diary)
    rows = rows[(rows["until"].dt.year == year) & rows["n_kg_per_ha_low"].notna()]
    # the fullest twelve months of each bed that ended in the year
    rows = rows.sort_values("n_kg_per_ha_low", ascending=False).drop_duplicates(["rule", "place"])
    shown = rows.assign(
        n=spans(rows, "n_kg_per_ha_low", "n_kg_per_ha_high", number),
        place=rows["place"].mask(rows["place"] == "", "the whole plot"),
    )
    return page_table(shown, f"Organic nitrogen, {year}", LIMITS)


# ------------------------------------------------------------ heaps

BAYS = (
    word("place", "bay"),
    amount("held", "holds, l"),
    Shown("full_pct", "full, %", whole),
    Shown("covers_m2", "covers 5 cm deep, m²", number),
    Shown("oldest", "oldest", long_day),
    Shown("newest", "newest", long_day),
    word("materials", "heap in the making"),
    amount("ratio", "C:N"),
    amount("wet", "moisture, %"),
    word("ready", "likely ready"),
    word("why", "beside it"),
)
PAST = (
    word("place", "bay"),
    Shown("started", "begun", long_day),
    Shown("taken", "taken out", long_day),
    amount("days", "days"),
    word("materials", "of"),
    Shown("turns", "turns", whole),
    Shown("hot_days", "days ≥ 55 °C read", whole),
    Shown("hottest_c", "hottest", whole),
    word("why", "beside it"),
)


def heaps_section(diary: Diary, year: int) -> Section | None:
    """The bays through the year, the heaps that were used, and how they stand today."""
    log = heaps_log(diary)
    log = log[log["date"].dt.year == year]
    if log.empty:
        return None
    words = (
        "What each bay held is a book figure: filled and taken since the diary last measured it, "
        f"for a heap settles unseen. The first table is of {long_day(pd.Timestamp(diary.today))}."
    )
    bays = heaps(diary)
    now = bays.assign(
        held=spans(bays, "held_l_low", "held_l_high"),
        ratio=spans(bays, "c_to_n_low", "c_to_n_high"),
        wet=spans(bays, "moisture_pct_low", "moisture_pct_high"),
        ready=[_ready(row) for row in bays.to_dict("records")],
    )
    past = heaps_past(diary)
    past = past[past["taken"].dt.year == year]
    tables = (
        page_table(now, "The bays as they stand", BAYS),
        page_table(past.assign(days=spans(past, "days_low", "days_high")), f"Used {year}", PAST),
    )
    kept = tuple(table for table in tables if table.rows)
    return Section("heaps", "The heaps", words, heaps_chart(log), kept, caution_words("heaps"))


def _ready(row: dict[Any, Any]) -> str:
    if pd.isna(row["ready"]):
        return ""
    within = f"{long_day(row['ready_low'])} to {long_day(row['ready_high'])}"
    return f"{long_day(row['ready'])} ({within}, by {counted(int(row['heaps_before']), 'heap')})"


GROUND_SECTIONS: tuple[Make, ...] = (
    ground_section,
    manure_section,
    feeding_section,
    heaps_section,
)
