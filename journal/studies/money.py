"""Money spent and taken, by kind, crop and year. Two currencies are never added together."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.load import load
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.products import known_name
from journal.studies.seasons import certain_year
from journal.tables.schema import TABLES, make_frame

KEYS = ["year", "kind", "crop", "currency"]
SALES = "sales"
SEED = "seed"
PLANTS = "plants"
GOODS = "feeds and dressings"
BUILT = "structures"
TREATED = "treatments"
OTHER = "other"
_SEED_WORDS = frozenset({"seed", "seeds"})
_BY_ROLE = {
    "dressing": GOODS,
    "feed": GOODS,
    "heap": GOODS,
    "product": TREATED,
    "cover": BUILT,
    "fabric": BUILT,
}
_BY_KIND = {
    "structure": BUILT,
    "treatment": TREATED,
    "dressing": GOODS,
    "feed": GOODS,
    "heap": GOODS,
    "job": "jobs",
}


@once_a_diary
def money(diary: Diary) -> pd.DataFrame:
    """Money by year, kind, crop and currency: the columns of the table `money`.

    - `spent` sums what every entry says that it cost, whatever its kind; an entry's price is
      already shared among its events. `earned` sums what `sell` brought. Plain sums, no
      published source.
    - `kind`: `seed` for packets and seed bought; `plants` for sets, tubers, plugs and other
      plants bought; what was paid for (`rent`, `water`); `feeds and dressings`, `treatments`,
      `structures`, `jobs` by the kind of entry, or by what is usually done with a thing bought;
      else `other`.
    - `year` is empty where the days may lie in two years. Currencies stand in rows of their own.

    An entry without a price is in no row: the diary does not say that it was free.
    """
    sums = priced_events(diary).groupby(KEYS, dropna=False, sort=True)
    rows = pd.concat([sums[["spent", "earned"]].sum(min_count=1), sums.size()], axis=1)
    rows = rows.rename(columns={0: "times"})
    rows["events"] = sums["event"].agg(lambda events: ", ".join(str(event) for event in events))
    rows = rows.reset_index()
    return make_frame("money", {name: rows[name] for name in TABLES["money"].column_names})


def priced_events(diary: Diary) -> pd.DataFrame:
    """The events with a price: year, kind of money, crop, currency, spent or earned."""
    events = diary.events[diary.events["cost"].notna()]
    sold = events["verb"] == "sell"
    kinds = [priced_kind(row) for row in events.to_dict("records")]
    return events.assign(
        year=certain_year(events),
        kind=pd.array(kinds, dtype="string"),
        spent=events["cost"].mask(sold),
        earned=events["cost"].where(sold),
    )


def priced_kind(row: dict[Any, Any]) -> str:
    """What the money of an event went on, or `sales`; `row` is its row of the events table."""
    if row["verb"] == "sell":
        return SALES
    if row["verb"] == "pay":
        return row["task"] or row["subject"] or OTHER
    if row["kind"] != "purchase":
        return _BY_KIND.get(row["kind"], OTHER)
    if not pd.isna(row["packets"]) or row["material"] in _SEED_WORDS:
        return SEED
    if row["crop"]:
        return PLANTS
    material = load().materials.get(known_name(row["material"]))
    return _BY_ROLE[material.role] if material is not None else OTHER


def money_totals(frame: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    """The money frame summed further by `keys` and by currency: spent, earned and times."""
    groups = frame.groupby([*keys, "currency"], dropna=False, sort=True)
    amounts = groups[["spent", "earned"]].sum(min_count=1)
    return pd.concat([amounts, groups[["times"]].sum()], axis=1).reset_index()


def money_notes(diary: Diary) -> list[Note]:
    """Money whose year is not certain, and purchases without a price."""
    undated = priced_events(diary)
    undated = undated[undated["year"].isna()]
    bought = diary.events[(diary.events["kind"] == "purchase") & diary.events["cost"].isna()]
    years = certain_year(bought)
    return [
        *(
            Note("money", "day", row["kind"], "the day may lie in two years, so no year counts it")
            for row in undated.to_dict("records")
        ),
        *(
            Note("money", "price", _what(row), "not written what it cost", year)
            for row, found in zip(bought.to_dict("records"), years, strict=True)
            for year in [None if pd.isna(found) else int(found)]
        ),
    ]


def _what(row: dict[Any, Any]) -> str:
    return str(row["crop"] or row["material"] or row["task"] or row["verb"])
