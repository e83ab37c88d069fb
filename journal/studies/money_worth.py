"""What the harvest was worth at the sheet's prices: per crop and place, per m2 and per hour."""

import re
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import PriceDeclared, Sheet
from journal.reference.units import unit_table
from journal.studies.harvest import per
from journal.studies.labour import labour, labour_totals, labour_worth
from journal.studies.money import money, money_totals
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings
from journal.studies.plot_area import plot_area
from journal.tables.schema import TABLES, make_frame

KEYS = ["year", "crop", "place", "currency"]
_WEIGHT = re.compile(r"(?P<figure>\d+(?:\.\d+)?)\s*(?P<unit>[a-z]+)")
NO_PRICE = "the sheet has no price for it"
NO_WEIGHT = "not weighed, and the price is by weight"
NO_COUNT = "not counted, and the price is for each"
NO_MEASURE = "the sheet does not say what the measure of its price holds"


@once_a_diary
def money_worth(diary: Diary) -> pd.DataFrame:
    """Worth of the harvest, one row a year, crop, place and currency: the table `money worth`.

    - `worth` sums over pickings kg x price a kg, or count x price each. The price is the one
      that holds on the day of picking, the cultivar's own before the crop's; a price by a
      measure (`per punnet`) counts by the weight that the sheet gives the measure, one `per 200 g`
      by that weight.
    - `unpriced` pickings have no price, or not the weight or count that it needs, so that
      `worth` reads "at least" beside them; `why` says which it is.
    - `worth_per_m2` = worth / area_m2, `worth_per_hour` = worth / hours, with ground and hours as
      `labour worth` has them; empty without both.

    Plain products and quotients, no published source. What was sold is in `money`.
    """
    rows = _priced(diary)
    rows = rows.merge(
        labour_worth(diary)[["year", "place", "crop", "area_m2", "hours"]],
        on=["year", "place", "crop"],
        how="left",
    )
    rows["worth_per_m2"] = per(rows["worth"], rows["area_m2"])
    rows["worth_per_hour"] = per(rows["worth"], rows["hours"])
    names = TABLES["money worth"].column_names
    return make_frame("money worth", {name: rows[name] for name in names})


def _priced(diary: Diary) -> pd.DataFrame:
    """Pickings with their worth, summed by year, crop, place and currency."""
    picked = pickings(diary.events)
    picked = picked[picked["crop"] != ""]
    found = [_worth(row, diary.sheet) for row in picked.to_dict("records")]
    picked = picked.assign(
        worth=pd.array([worth for worth, _, _ in found], dtype="Float64"),
        currency=pd.array([currency for _, currency, _ in found], dtype="string"),
        why=pd.array([why for _, _, why in found], dtype="string"),
    )
    picked["unpriced"] = picked["worth"].isna().astype("Int64")
    groups = picked.groupby(KEYS, dropna=False, sort=True)
    sums = groups[["worth", "mass_kg"]].sum(min_count=1).rename(columns={"mass_kg": "kg"})
    rows = pd.concat([sums, groups[["pickings", "unpriced"]].sum()], axis=1)
    rows["events"] = groups["event"].agg(lambda events: ", ".join(map(str, events)))
    rows["why"] = groups["why"].agg(lambda words: "; ".join(dict.fromkeys(filter(None, words))))
    return rows.reset_index()


def _worth(row: dict[Any, Any], sheet: Sheet) -> tuple[float | None, str, str]:
    """Worth of one picking, its currency, and why there is no worth."""
    day = None if pd.isna(row["date"]) else row["date"].date()
    own = prices(row["crop"], row["cultivar"], day, sheet)
    if not own:
        return None, sheet.plot.currency, NO_PRICE
    reasons = []
    for price in own:
        amount, why = _amount(row, price, sheet)
        if amount is not None:
            return amount, price.currency, ""
        reasons.append(why)
    return None, own[0].currency, reasons[0]


def prices(crop: str, cultivar: str, day: date | None, sheet: Sheet) -> list[PriceDeclared]:
    """The prices of a crop that hold on the day, the cultivar's own first, by weight first.

    Of several declarations for one measure the last that holds counts; before the first, it.
    """
    found: list[PriceDeclared] = []
    for name in dict.fromkeys((cultivar, "")):
        own = [one for one in sheet.prices if one.crop == crop and one.cultivar == name]
        measures = dict.fromkeys(one.per for one in own)
        found += [_holding([one for one in own if one.per == measure], day) for measure in measures]
        if found:
            break
    return sorted(found, key=lambda price: price.per_kg is None)


def _holding(own: list[PriceDeclared], day: date | None) -> PriceDeclared:
    held = [one for one in own if one.date is None or day is None or one.date <= day]
    return held[-1] if held else own[0]


def _amount(row: dict[Any, Any], price: PriceDeclared, sheet: Sheet) -> tuple[float | None, str]:
    if price.per_kg is not None:
        return _times(row["mass_kg"], price.per_kg), NO_WEIGHT
    if price.per in {"each", "one", "head", "piece"}:
        return _times(row["count"], price.price), NO_COUNT
    holds = _kg_of(price, sheet)
    if holds is None:
        return None, NO_MEASURE
    return _times(row["mass_kg"], price.price / holds), NO_WEIGHT


def _kg_of(price: PriceDeclared, sheet: Sheet) -> float | None:
    """What a price is for, in kg: `200 g` as it is, a measure by what the sheet says it holds."""
    written = _WEIGHT.fullmatch(price.per)
    if written is not None:
        unit = unit_table(sheet.plot.us_units).get(written["unit"])
        if unit is None or unit.dimension != "mass":
            return None
        return float(written["figure"]) * unit.factor or None
    holds = [
        one.mass_kg
        for one in sheet.measures
        if one.name == price.per and one.crop in {"", price.crop} and one.mass_kg
    ]
    return holds[-1] if holds else None


def _times(amount: Any, price: float) -> float | None:
    return None if pd.isna(amount) else float(amount) * price


def worth_totals(frame: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    """The worth frame summed further by `keys` and by currency: worth and unpriced pickings."""
    groups = frame.groupby([*keys, "currency"], dropna=False, sort=True)
    sums = [groups["worth"].sum(min_count=1), groups["unpriced"].sum()]
    return pd.concat(sums, axis=1).reset_index()


@once_a_diary
def money_years(diary: Diary) -> pd.DataFrame:
    """Each year's money, one row a year and currency: the table `money years`.

    `spent`, `earned` and `worth` are sums of the studies `money` and `money worth`, in one
    currency each. `worth_per_hour` = worth / hours of all timed work of the year, whatever it
    was; `worth_per_m2` = worth / area of the plot (the sheet's, else its beds together). A year
    with two currencies has two rows, and its hours and area stand in both.
    """
    spent = money_totals(money(diary), ["year"])
    worth = worth_totals(money_worth(diary), ["year"])
    rows = spent.merge(worth, on=["year", "currency"], how="outer", sort=True)
    rows["unpriced"] = rows["unpriced"].fillna(0)
    hours = labour_totals(labour(diary), ["year"])[["year", "hours"]]
    rows = rows.merge(hours, on="year", how="left")
    ends = [None if pd.isna(year) else pd.Timestamp(int(year), 12, 31) for year in rows["year"]]
    areas = [None if end is None else plot_area(diary, end) for end in ends]
    rows["area_m2"] = pd.array(areas, dtype="Float64")
    rows["worth_per_hour"] = per(rows["worth"], rows["hours"])
    rows["worth_per_m2"] = per(rows["worth"], rows["area_m2"])
    return make_frame(
        "money years", {name: rows[name] for name in TABLES["money years"].column_names}
    )


def money_worth_notes(diary: Diary) -> list[Note]:
    """Crops of which some pickings have no worth, and why."""
    frame = money_worth(diary)
    rows = frame[frame["unpriced"] > 0]
    return [
        Note("money worth", "price", row["crop"], row["why"], year)
        for row in rows.drop_duplicates(["year", "crop", "why"]).to_dict("records")
        for year in [None if pd.isna(row["year"]) else int(row["year"])]
    ]
