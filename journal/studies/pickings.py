"""Harvest events summed over any columns: kg, count, pickings, first and last day.

The sums that the harvest study and the comparison of years share. A weight is never made up: a
group without one has none, and says how many pickings were not weighed.
"""

from collections.abc import Sequence

import pandas as pd

from journal.studies.seasons import certain_year


def pickings(events: pd.DataFrame) -> pd.DataFrame:
    """The harvest events with their `year` and what the sums need.

    The weight of an entry `altogether` stands in an event of its own without a crop; it is no
    picking beside the ones that it weighs. A picking without any crop in its entry is one.
    """
    picked = events[events["kind"] == "harvest"].copy()
    picked["year"] = certain_year(picked)
    named = picked["crop"] != ""
    beside_others = named.groupby(picked["entry"]).transform("any")
    picked["pickings"] = (named | ~beside_others).astype("Int64")
    picked["unweighed"] = (picked["mass_kg"].isna() & (picked["pickings"] == 1)).astype("Int64")
    # days over which it went on are no doubt: the first of them was a day of picking
    went_on = picked["spread"].astype(bool)
    picked["first_high"] = picked["date_end"].where(~went_on, picked["date"])
    picked["last_low"] = picked["date"].where(~went_on, picked["date_end"])
    return picked


def sum_pickings(picked: pd.DataFrame, keys: Sequence[str]) -> pd.DataFrame:
    """`pickings` summed by `keys`: one row a group, sorted.

    kg and count are missing where no picking had one. `first` and `last` are missing where the
    diary leaves a choice of days; `first_low` to `first_high` and `last_low` to `last_high` are
    the days that it leaves. `days` counts both the first and the last.
    """
    groups = picked.groupby(list(keys), dropna=False, sort=True)
    amounts = groups[["mass_kg", "count"]].sum(min_count=1)
    whole = groups[["pickings", "unweighed"]].sum()
    days = groups.agg(
        first_low=("date", "min"),
        first_high=("first_high", "min"),
        last_low=("last_low", "max"),
        last_high=("date_end", "max"),
    )
    total = pd.concat([amounts, whole, days], axis=1).rename(columns={"mass_kg": "kg"})
    total = total.reset_index()
    total["first"] = total["first_low"].where(total["first_low"] == total["first_high"])
    total["last"] = total["last_high"].where(total["last_low"] == total["last_high"])
    total["days"] = (total["last"] - total["first"]).dt.days.astype("Int64") + 1
    return total
