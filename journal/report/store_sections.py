"""The fabric, money, seed and the books as sections of the season page."""

import pandas as pd

from journal.charts.books import books_chart
from journal.charts.money import money_chart, price, worth_chart
from journal.charts.words import kilograms, number
from journal.diary import Diary
from journal.report.page_tables import Shown, amount, page_table, whole, word
from journal.report.ranges import day_spans, long_day, span, spans
from journal.report.section import Make, Section, of_year
from journal.studies.books import DAYS, YIELD, books
from journal.studies.money import money
from journal.studies.money_worth import money_worth, money_years
from journal.studies.seed import seed
from journal.studies.structures import structures

FITTED = (
    word("thing"),
    word("place"),
    amount("fitted_said", "fitted"),
    amount("years", "years"),
    amount("seasons", "seasons"),
    word("how_ended", "ended"),
    Shown("due", "due by your own", long_day),
    word("usual", "said to last"),
)


def structures_section(diary: Diary, year: int) -> Section | None:
    """What stands, how old it is and when it may be due, and what ended in the year."""
    rows = structures(diary)
    began = rows["fitted"].dt.year <= year
    rows = rows[began & (rows["ended"].isna() | (rows["ended_end"].dt.year >= year))]
    if rows.empty:
        return None
    words = (
        "What was fitted, with its age today, or its life where it was replaced. The day it is "
        "due is by the lives of its own kind on this plot, and nothing else."
    )
    usual = [
        f"{span(*ends)} seasons ({basis})" if basis else ""
        for *ends, basis in rows[
            ["usual_seasons_low", "usual_seasons_high", "usual_basis"]
        ].to_numpy()
    ]
    shown = rows.assign(
        fitted_said=day_spans(rows, "fitted", "fitted_end"),
        years=spans(rows, "years_low", "years_high", number),
        seasons=spans(rows, "seasons_low", "seasons_high"),
        usual=usual,
    )
    table = page_table(shown.sort_values(["place", "fitted"]), "Boards, glass and the rest", FITTED)
    return Section("structures", "The fabric", words, None, (table,))


# ------------------------------------------------------------ money

SUMS = (
    word("currency"),
    amount("spent_said", "spent"),
    amount("earned_said", "taken by selling"),
    amount("worth_said", "harvest worth"),
    amount("per_m2_said", "worth a m²"),
    amount("per_hour_said", "worth an hour"),
    Shown("unpriced", "pickings without a price", lambda count: whole(count) if count else ""),
)
WORTH = (
    word("crop"),
    word("place"),
    Shown("kg", "weight", kilograms),
    amount("worth_said", "worth"),
    amount("per_m2_said", "a m²"),
    amount("per_hour_said", "an hour"),
    word("why", "beside it"),
)


def money_section(diary: Diary, year: int) -> Section | None:
    """What was spent and taken in the year, in one currency each."""
    rows = of_year(money(diary), year)
    sums = of_year(money_years(diary), year)
    if rows.empty:
        return None
    words = (
        "What the pages say that things cost. Two currencies are never added together, and what "
        "has no price is not counted as free."
    )
    said = _priced(sums, {"spent": "spent", "earned": "earned", **_WORTHS})
    table = page_table(said, f"Money in {year}", SUMS)
    return Section("money", "The money", words, money_chart(rows), (table,))


def worth_section(diary: Diary, year: int) -> Section | None:
    """What the harvest of the year was worth at the sheet's prices."""
    rows = of_year(money_worth(diary), year)
    if not rows["worth"].notna().any():
        return None
    words = (
        "The weight picked, at the price that the sheet gives for that day. It is not what was "
        "sold, and no crop without a price is in it. An hour is one that the pages time and that "
        "names the crop, or is of a bed that it had alone; work that was not timed is in none."
    )
    priced = _priced(rows[rows["worth"].notna()], _WORTHS).sort_values(["crop", "place"])
    table = page_table(priced, f"Worth of the harvest, {year}", WORTH)
    return Section("worth", "What it was worth", words, worth_chart(rows), (table,))


_WORTHS = {"worth": "worth", "worth_per_m2": "per_m2", "worth_per_hour": "per_hour"}


def _priced(rows: pd.DataFrame, columns: dict[str, str]) -> pd.DataFrame:
    """Columns of money said with the currency of their row."""
    said = {
        f"{name}_said": [
            "" if pd.isna(amount) else price(amount, currency)
            for amount, currency in rows[[column, "currency"]].to_numpy()
        ]
        for column, name in columns.items()
    }
    return rows.assign(**said)


# ------------------------------------------------------------ seed and the books

ORDER = (
    word("crop"),
    word("cultivar"),
    amount("wanted", "to order"),
    Shown("bought_last", "last bought", long_day),
    word("why", "beside it"),
)
LEFT = (
    word("crop"),
    word("cultivar"),
    amount("kept", "left"),
    Shown("bought_last", "last bought", long_day),
    amount("age", "years old"),
    amount("life", "keeps, years"),
    word("past", "past it"),
)
BESIDE = (
    word("crop"),
    amount("own", "here"),
    word("unit", ""),
    amount("printed", "published"),
    word("what", "counting"),
    word("condition", "of"),
    word("source"),
    word("why", "beside it"),
)


def seed_section(diary: Diary, year: int) -> Section | None:
    """What to order to grow the area of the year again, and how old the seed is."""
    rows = seed(diary)
    wanted = rows["order"].gt(0).fillna(False) | rows["left"].notna()
    rows = rows[wanted & (rows["year"] == year)]
    if rows.empty:
        return None
    words = (
        f"For the same area as in {year}: packets by how far they went here, plants by how many "
        "were planted, less what lies unopened. Seed is at least as old as its buying, and "
        "sources differ on how long it keeps."
    )
    shown = rows.assign(
        age=spans(rows, "age_years_low", "age_years_high", number),
        life=spans(rows, "life_years_low", "life_years_high"),
        wanted=[_units(*some) for some in zip(rows["order"], rows["unit"], strict=True)],
        kept=[_units(*some) for some in zip(rows["left"], rows["unit"], strict=True)],
    )
    tables = (
        page_table(shown[shown["order"] > 0], f"To order after {year}", ORDER, pinned=True),
        page_table(shown[shown["left"].notna()], "Left, and how old", LEFT),
    )
    kept = tuple(table for table in tables if table.rows)
    return Section("seed", "Seed to order", words, None, kept)


def _units(count: float, unit: str) -> str:
    """`1 packet`, `30 plants`; nothing where the number is not known."""
    if pd.isna(count):
        return ""
    return f"{number(count)} {unit.removesuffix('s') if count == 1 else unit}"


def books_section(diary: Diary, year: int) -> Section | None:
    """The year's yields, days and per cent up beside published figures."""
    rows = of_year(books(diary), year)
    if rows.empty:
        return None
    words = (
        "Figures of this plot beside printed ones, most of them American and of other ground. "
        "They are yardsticks and no verdict; where sources differ each has its line."
    )
    own = [
        number(value, 1 if abs(value) >= 10 else 2)
        + (f" ({span(low, high)})" if not pd.isna(low) and low != high else "")
        for value, low, high in rows[["value", "value_low", "value_high"]].to_numpy()
    ]
    shown = rows.assign(own=own, what=rows["what"].mask(rows["measure"] == "yield", ""))
    tables = [
        page_table(shown[shown["measure"] == measure], f"{measure.capitalize()}, {year}", BESIDE)
        for measure in ("yield", "days to harvest", "per cent up")
    ]
    kept = tuple(table for table in tables if table.rows)
    drawn = books_chart(rows) if rows["measure"].isin([YIELD, DAYS]).any() else None
    return Section("books", "Beside the books", words, drawn, kept)


STORE_SECTIONS: tuple[Make, ...] = (
    structures_section,
    money_section,
    worth_section,
    seed_section,
    books_section,
)
