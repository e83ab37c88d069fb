"""The weather, the warmth, the water of the beds and the tanks as sections of the season page."""

from typing import Any

import pandas as pd

from journal.charts.climate import climate_chart, degrees
from journal.charts.rain_store import rain_store_chart
from journal.charts.water_need import water_need_chart
from journal.charts.words import MONTHS, listed, number
from journal.diary import Diary
from journal.report.page_tables import PageTable, Shown, page_table, short_day, whole, word
from journal.report.section import Section, of_year
from journal.studies.cautions import caution_words
from journal.studies.climate import climate, climate_gaps
from journal.studies.climate_days import climate_days, climate_months
from journal.studies.et0 import et0_notes
from journal.studies.notes import counted
from journal.studies.rain_store import rain_store
from journal.studies.rain_store_now import rain_store_years
from journal.studies.season_shift import season_shift, shift_words
from journal.studies.spells import spells
from journal.studies.water_need import water_need
from journal.studies.water_need_years import water_need_years

# as many beds as a page can draw before it tires; the table has them all
BEDS_DRAWN = 3
MONTHLY = (
    word("name", "month"),
    Shown("rain_mm", "rain, mm", number),
    Shown("rain_days", "days ≥ 1 mm", whole),
    Shown("t_mean_c", "mean °C", degrees),
    Shown("coldest_c", "coldest", degrees),
    Shown("hottest_c", "warmest", degrees),
    Shown("frost_days", "frosts", whole),
    Shown("degree_days", "degree days", whole),
    Shown("rain_read", "days with rain read", whole),
    Shown("temperature_read", "with temperature", whole),
)
SPELLS = (
    word("spell"),
    Shown("begins", "from", short_day),
    Shown("ends", "to", short_day),
    Shown("days", "days", whole),
    Shown("rain_mm", "rain, mm", number),
    word("loose", ""),
)
SHIFTS = (
    word("crop"),
    Shown("date", "first picked", short_day),
    word("said", "beside the year before"),
    Shown("base_c", "base °C", number),
)
THIRST = (
    word("place"),
    word("crop"),
    Shown("days_thirsty", "days thirsty", whole),
    Shown("days", "of", whole),
    Shown("first", "since", short_day),
    Shown("most_past_l", "at worst, l", whole),
    Shown("watered_l", "watered, l", whole),
)
STORED = (
    word("tank"),
    Shown("in_l", "came in, l", whole),
    Shown("drawn_l", "drawn, l", whole),
    Shown("unsaid_l", "of no said source, l", whole),
    Shown("overflow_l", "ran over, l", whole),
    Shown("uncertain_days", "days not certain", whole),
)


def weather_section(diary: Diary, year: int) -> Section | None:
    """The year's weather: what stands out, its days drawn, its months and its dry spells."""
    rows = of_year(climate(diary), year).set_index("measure")
    if rows.empty:
        return None
    days = of_year(climate_days(diary), year)
    chart = climate_chart(days) if not days.empty else None
    tables = tuple(table for table in (_months(diary, year), _spells(diary, year)) if table.rows)
    words = "The open air's own, by the diary and then by a met file. "
    return Section(
        "weather",
        "The weather",
        words + _unread(diary, year),
        chart,
        tables,
        items=tuple(_said(rows)),
    )


def _unread(diary: Diary, year: int) -> str:
    gaps = of_year(climate_gaps(diary), year).set_index("variable")["days_unread"]
    names = {"rain": "rain", "t_min": "the minimum", "t_max": "the maximum"}
    told = [
        f"{names[str(name)]} on {counted(int(days), 'day')}" for name, days in gaps.items() if days
    ]
    if not told:
        return "Every day was read."
    return f"Not read: {listed(told)}; sums are at least what they say."


def _said(rows: pd.DataFrame) -> list[str]:
    """The year's figures in sentences; one that the diary does not have is not said."""
    found: list[str] = []
    if _has(rows, "rain"):
        found.append(f"Rain: {number(_value(rows, 'rain'))} mm{_rain_days(rows)}.")
    if _value(rows, "frost days", 0) > 0:
        found.append(_frosts(rows))
    for measure, limit in (
        ("longest run under 1 mm", "1 mm"),
        ("longest run under 0.2 mm", "0.2 mm"),
    ):
        if _value(rows, measure, 0) > 1:
            span = f"{_day(rows, measure)} to {_day(rows, measure, 'date_end')}"
            days = counted(int(_value(rows, measure)), "day")
            found.append(f"Longest without {limit} on a day: {days}, {span}.")
    if _has(rows, "frost-free days"):
        days = counted(int(_value(rows, "frost-free days")), "day")
        found.append(f"Between the last frost of spring and the first of autumn: {days}.")
    if _value(rows, "degree days", 0) > 0:
        found.append(f"Degree days above 10 °C: {number(_value(rows, 'degree days'), 0)}.")
    return found


def _has(rows: pd.DataFrame, measure: str) -> bool:
    value: Any = rows.loc[measure, "value"]
    return not pd.isna(value)


def _value(rows: pd.DataFrame, measure: str, missing: float = 0.0) -> float:
    value: Any = rows.loc[measure, "value"]
    return missing if pd.isna(value) else float(value)


def _day(rows: pd.DataFrame, measure: str, column: str = "date") -> str:
    day: Any = rows.loc[measure, column]
    return f"{day.day} {day:%B}"


def _rain_days(rows: pd.DataFrame) -> str:
    if not _has(rows, "rain days"):
        return ""
    days = counted(int(_value(rows, "rain days")), "day")
    wettest = number(_value(rows, "wettest day"))
    return (
        f", 1 mm or more on {days}; the wettest was {_day(rows, 'wettest day')} with {wettest} mm"
    )


def _frosts(rows: pd.DataFrame) -> str:
    words = f"Frosts, below 0 °C: {counted(int(_value(rows, 'frost days')), 'night')}"
    ends = {"last spring frost": "the last of spring", "first autumn frost": "the first of autumn"}
    told = [
        f"{name} {_day(rows, measure)} ({degrees(_value(rows, measure))} °C)"
        for measure, name in ends.items()
        if _has(rows, measure)
    ]
    return f"{words}; {listed(told)}." if told else f"{words}."


def _months(diary: Diary, year: int) -> PageTable:
    months = of_year(climate_months(diary), year)
    named = months.assign(name=[MONTHS[month - 1] for month in months["month"]])
    return page_table(named, f"The months of {year}", MONTHLY)


def _spells(diary: Diary, year: int) -> PageTable:
    """The spells that reach into the year, by the British Rainfall terms."""
    frame = spells(diary)
    mine = frame[(frame["begins"].dt.year <= year) & (frame["ends"].dt.year >= year)]
    loose = ["or longer: a day beside it was not read" if each else "" for each in mine["at_least"]]
    return page_table(mine.assign(loose=loose), f"Dry spells and droughts of {year}", SPELLS)


def warmth_section(diary: Diary, year: int) -> Section | None:
    """First pickings beside the year before, in days and in degree days."""
    rows = of_year(season_shift(diary), year)
    rows = rows[(rows["cultivar"] == "") & rows["change_low"].notna()]
    if rows.empty:
        return None
    words = (
        "A cold spring makes a crop late in days; warmth is what it waits for. Degree days add up "
        "what each day was above the crop's base temperature since New Year."
    )
    said = [shift_words(row).replace(" than the year before", "") for row in _records(rows)]
    named = rows.assign(said=said)
    table = page_table(named.sort_values("crop"), f"First pickings of {year} by warmth", SHIFTS)
    return Section("warmth", "Early or late, by warmth", words, tables=(table,))


def _records(rows: pd.DataFrame) -> list[dict[Any, Any]]:
    return rows.to_dict("records")


def water_section(diary: Diary, year: int) -> Section | None:
    """Which beds and pots thirsted, when, and what they were given."""
    rows = of_year(water_need_years(diary), year)
    if rows.empty:
        return None
    words = (
        "What each root zone lacked of water, by FAO-56 (1998): rain and cans against what the "
        "crop used in that warmth, for its soil and the depth of its roots. Thirsty is past what a "
        "crop takes up easily. Feel the soil before you believe it. "
    )
    words += " ".join(f"{note.reason[0].upper()}{note.reason[1:]}." for note in et0_notes(diary))
    rows = rows[rows["days_thirsty"] > 0]
    if rows.empty:
        words += f" By that no crop here surely thirsted in {year}."
        return Section("water", "Water in the ground", " ".join(words.split()))
    first = rows.head(BEDS_DRAWN)
    days = of_year(water_need(diary), year).merge(first[["place", "crop"]], on=["place", "crop"])
    chart = water_need_chart(days) if not days.empty else None
    table = page_table(rows, f"Thirst in {year}", THIRST)
    return Section("water", "Water in the ground", words.strip(), chart, (table,))


def rain_store_section(diary: Diary, year: int) -> Section | None:
    """What the roofs brought, and what ran over."""
    rows = of_year(rain_store(diary), year)
    if rows.empty:
        return None
    words = (
        "Litres from each roof by the rain, its area and its surface (BS EN 16941-1), less what "
        "was drawn. Water that says no source may have come from here."
    )
    table = page_table(of_year(rain_store_years(diary), year), f"The tanks in {year}", STORED)
    caution = caution_words("rain_store")
    chart = rain_store_chart(rows)
    return Section("rain-store", "Rain in store", words, chart, (table,), caution)
