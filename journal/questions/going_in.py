"""Which sowings and plantings put a crop into its growing place: `when did the leeks go in`.

Planting for what is planted, sowing for what is sown direct; what was raised in modules and
planted out went in when it was planted out.
"""

import pandas as pd

from journal.reference.load import Reference

# vessels that a crop is raised in and moves on from; sacks, barrels and tubs it grows in
_RAISED_IN = r"module|tray|cell|plug|seed|thumb|soil block|root ?trainer|\bpots?\b"


def going_in(events: pd.DataFrame, reference: Reference, under_glass: set[str]) -> pd.DataFrame:
    """The events of `events` that put a crop in.

    A crop that the reference calls planted goes in by planting; where the diary never planted
    that cultivar that year, by its sowing in the open ground. `under_glass` are frames and
    houses, where a sowing is taken as raised when the cultivar was planted out that year.
    """
    planted = events[events["kind"].eq("planting") & ~raised(events)]
    sown = events[events["kind"].eq("sowing") & ~raised(events)]
    key = ["crop", "cultivar"]
    years = planted.assign(year=planted["date"].dt.year)[[*key, "year"]].drop_duplicates()
    seeds = sown.assign(year=sown["date"].dt.year).merge(
        years.assign(moved=True), on=[*key, "year"], how="left"
    )
    moved = seeds["moved"].eq(True).to_numpy()
    planted_crops = [
        each for each in seeds["crop"].unique() if _put_in(each, reference) == "planted"
    ]
    mostly_planted = seeds["crop"].isin(planted_crops)
    glass = seeds["place"].isin(under_glass)
    moved_on = moved & (mostly_planted | glass).to_numpy()
    return pd.concat([planted, sown[~moved_on]]).sort_values("event")


def raised(events: pd.DataFrame) -> "pd.Series[bool]":
    """Which events put a crop into pots, trays or modules, to move on from there."""
    vessel = events["vessel"].str.contains(_RAISED_IN, case=False, regex=True).fillna(False)
    return vessel.astype(bool) & events["verb"].ne("plant out")


def _put_in(crop: str, reference: Reference) -> str:
    known = reference.crops.get(crop)
    return known.put_in if known else "either"
