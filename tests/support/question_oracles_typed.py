"""What the meanings that came in by questions typed on a phone come to, by plain pandas.

As in `question_oracles`, nothing here goes through the studies or through `journal.questions`.
"""

from collections.abc import Callable

import pandas as pd
from support.question_oracles import BEANS, Tables, first, kg, last, on
from support.questions import amount

HARVEST = {"kind": "harvest"}


def spent_with(t: Tables, party: str, year: int) -> str:
    """Minutes of the entries of a year that name a person."""
    return amount(t.year(year, party=party)["minutes"].sum(), "min")


def helpers(t: Tables) -> "pd.Series[int]":
    """How many entries of work name each person."""
    work = t.e[~t.e["verb"].isin(["give", "sell", "swap", "buy", "pay"])]
    named = work[work["party"] != ""].drop_duplicates(["party", "file", "line"])
    return named["party"].value_counts()


def sold(t: Tables, year: int | None = None) -> "pd.Series[float]":
    """Money by crop of what was sold."""
    rows = t.ever(verb="sell") if year is None else t.year(year, verb="sell")
    return rows.groupby("crop")["cost"].sum()


def days_of(rows: pd.DataFrame) -> str:
    """On how many days."""
    return amount(rows[["date", "date_end"]].drop_duplicates().shape[0], "days")


def snow(t: Tables) -> "pd.Series[float]":
    """Snow in cm by day, the latest last."""
    rows = t.air[(t.air["variable"] == "snow") & (t.air["value"] > 0)].sort_values("date")
    return rows.set_index("date")["value"].astype(float)


def planted(t: Tables, year: int, crop: str) -> float:
    """Plants and sets that were put where they grew, by number."""
    return float(t.year(year, kind="planting", crop=crop)["count"].sum())


TYPED_ORACLES: dict[str, Callable[[Tables], str]] = {
    "garlic lifted 2023": lambda t: first(t.year(2023, **HARVEST, crop="garlic")),
    "potatoes picked 2023": lambda t: kg(t.year(2023, **HARVEST, crop="potato")),
    "beans from Signal bed 2025": lambda t: kg(
        t.year(2025, **HARVEST, crop=BEANS, place="Signal bed")
    ),
    "rain November 2025": lambda t: amount(
        round(t.days("rain", "2025-11-01", "2025-11-30").sum(), 6), "mm"
    ),
    "days of liming": lambda t: days_of(t.ever(verb="lime")),
    "days of sowing lettuce 2025": lambda t: days_of(t.year(2025, verb="sow", crop="lettuce")),
    "last liming": lambda t: last(t.ever(verb="lime")),
    "last snow": lambda t: on(amount(10 * snow(t).iloc[-1], "mm"), snow(t).index[-1]),
    "least tomato 2022": lambda t: _least(
        t.year(2022, **HARVEST, crop="tomato").query("cultivar != ''")
    ),
    "Sarpo Mira 2024": lambda t: kg(t.year(2024, **HARVEST, cultivar="Sarpo Mira")),
    "with Tam 2025": lambda t: spent_with(t, "Tam", 2025),
    "helped most": lambda t: f"{helpers(t).max()} on {helpers(t).idxmax()}",
    "last helped by Tam": lambda t: last(t.ever(party="Tam").query("verb != 'give'")),
    "pointing the wall": lambda t: amount(
        t.ever(task="point the platform wall")["minutes"].sum(), "min"
    ),
    "cabbages with club root": lambda t: amount(
        t.ever(kind="loss", crop="cabbage", subject="club root")["count"].sum()
    ),
    "potato blight": lambda t: f"yes on {last(t.ever(crop='potato', subject='blight'))}",
    "earned most ever": lambda t: f"{amount(sold(t).max(), 'GBP')} on {sold(t).idxmax()}",
    "earned most 2025": lambda t: (
        f"{amount(sold(t, 2025).max(), 'GBP')} on {sold(t, 2025).idxmax()}"
    ),
    # onions are raised in modules before that, which is no going in
    "leeks beside onions 2024": lambda t: amount(
        planted(t, 2024, "leek") - t.year(2024, verb="plant out", crop="onion")["count"].sum()
    ),
    "potatoes planted 2024 and 2025": lambda t: amount(
        planted(t, 2024, "potato") - planted(t, 2025, "potato")
    ),
    "picked most often 2025": lambda t: _most_often(t.year(2025, **HARVEST)),
    "last manuring": lambda t: "..".join(
        t.ever(verb=["spread", "dig in", "mulch"], material="horse manure")
        .sort_values("date")
        .iloc[-1][["date", "date_end"]]
        .map(lambda stamp: stamp.date().isoformat())
    ),
}


def _least(rows: pd.DataFrame) -> str:
    weights = rows.groupby("cultivar")["mass_kg"].sum()
    return f"{amount(weights.min(), 'kg')} on {weights.idxmin()}"


def _most_often(rows: pd.DataFrame) -> str:
    times = rows.drop_duplicates(["crop", "file", "line"])["crop"].value_counts()
    best = sorted(times.index[times == times.max()])[0]
    return f"{times.max()} on {best}"


# held to independent figures in the tests of their own studies
TYPED_BY_STUDIES = frozenset({"due in two weeks", "garlic too late, bare"})
