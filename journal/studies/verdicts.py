"""What speaks for and against each variety: its yield, ground, seedlings, losses and ratings.

Gives the evidence and leaves the choice to the keeper.
"""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.harvest import harvest, per
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.plants import batches, losses
from journal.studies.seasons import certain_year, to_day_of_season
from journal.tables.schema import TABLES, make_frame

KEYS = ["year", "crop", "cultivar"]
# the limits from which a figure counts as evidence are our own; no published source
MORE, LESS = 1.1, 0.9
LIKED, DISLIKED = 0.7, 0.4
WELL_UP, ILL_UP = 80, 50


@once_a_diary
def verdicts(diary: Diary) -> pd.DataFrame:
    """The evidence on each variety, one row a year, crop and cultivar: the table `verdicts`.

    - `kg`, `unweighed`: the harvest's, all places together; `kg_per_m2` = sum of kg / sum of
      area_m2, blank where one of its places has no known ground or a picking was not weighed.
    - `rank` of `ranked`: among the cultivars of the crop that have a `kg_per_m2` that year, where
      there are two or more; equals share the better place.
    - `mean_before`: mean of its own kg in earlier years, while the year is open to the same day.
    - `pct_up` = 100 x seedlings / seeds of the batches begun that year that were counted both
      times; `lost` = what `lose` and stock checks of that year count.
    - `score`: mean of that year's ratings.
    - `keep`: first by ground of two or more; a tenth above its own mean; 80 % up or better; rated
      0.7 or more. `drop`: last by ground; a tenth below its own mean, all weighed; less than half
      up; plants lost; a sowing that failed; rated 0.4 or less.

    These limits are our own, no published source.
    """
    rows = _yields(diary)
    for more in (_seedlings(diary), _lost(diary), _scores(diary)):
        rows = rows.merge(more, on=KEYS, how="outer")
    rows = rows[rows["crop"] != ""].sort_values(KEYS, ignore_index=True)
    rows["years_before"] = rows["years_before"].fillna(0)
    # as plain floats a missing figure compares as false: it is no evidence
    told = rows.set_index(KEYS).astype("float64").to_dict("records")
    rows["keep"] = pd.array([", ".join(_for(row)) for row in told], dtype="string")
    rows["drop"] = pd.array([", ".join(_against(row)) for row in told], dtype="string")
    return make_frame("verdicts", {name: rows[name] for name in TABLES["verdicts"].column_names})


def _yields(diary: Diary) -> pd.DataFrame:
    picked = harvest(diary)
    groups = picked[picked["year"].notna() & (picked["crop"] != "")].groupby(KEYS)
    sums = groups[["kg", "area_m2"]].sum(min_count=1).astype("Float64")
    sums["unweighed"] = groups["unweighed"].sum()
    known = groups[["kg", "area_m2"]].count().eq(groups.size(), axis=0).all(axis=1)
    known &= sums["unweighed"] == 0
    sums["kg_per_m2"] = per(sums["kg"], sums["area_m2"]).where(known)
    rows = sums.reset_index()
    among = rows[rows["cultivar"] != ""].groupby(["year", "crop"])["kg_per_m2"]
    several = among.transform("count") > 1
    rows["rank"] = among.rank(method="min", ascending=False).where(several)
    rows["ranked"] = among.transform("count").where(rows["rank"].notna())
    own = rows.sort_values("year").groupby(["crop", "cultivar"])["kg"]
    rows["mean_before"] = own.transform(lambda kg: kg.expanding().mean().shift())
    rows["years_before"] = own.transform(lambda kg: kg.notna().cumsum().shift(fill_value=0))
    rows = _to_the_same_day(diary, rows)
    return rows.astype({"rank": "Int64", "ranked": "Int64"})


def _to_the_same_day(diary: Diary, rows: pd.DataFrame) -> pd.DataFrame:
    """An open year beside earlier ones to the same day: what is still to come is no loss."""
    today = diary.today
    so_far = pickings(to_day_of_season(diary.events, today.month, today.day))
    earlier = so_far[(so_far["year"] < today.year).fillna(False) & (so_far["crop"] != "")]
    own = sum_pickings(earlier, KEYS).groupby(KEYS[1:])["kg"].agg(["mean", "count"])
    own = own.reindex(pd.MultiIndex.from_frame(rows[KEYS[1:]]))
    is_open = rows["year"] == today.year
    means = pd.Series(own["mean"].to_numpy(), rows.index, dtype="Float64")
    counts = pd.Series(own["count"].fillna(0).to_numpy(), rows.index, dtype="Int64")
    return rows.assign(
        mean_before=rows["mean_before"].mask(is_open, means),
        years_before=rows["years_before"].mask(is_open, counts),
    )


def _seedlings(diary: Diary) -> pd.DataFrame:
    """Per cent up of each year's counted sowings, and how many sowings failed whole."""
    begun = batches(diary).assign(year=lambda frame: frame["started"].dt.year.astype("Int64"))
    begun = begun[begun["year"].notna()]
    counted = begun["sown"].notna() & begun["up"].notna()
    up = begun[counted].groupby(KEYS)[["up", "sown"]].sum()
    failed = (begun["ended"] == "failed").groupby([begun[key] for key in KEYS]).sum()
    found = pd.concat(
        [per(100 * up["up"], up["sown"]).rename("pct_up"), failed.rename("failed")], axis=1
    )
    return found.reset_index()


def _lost(diary: Diary) -> pd.DataFrame:
    gone = losses(diary)
    gone = gone[gone["what"] == "lost"]
    gone = gone.assign(year=certain_year(gone))
    return (
        gone[gone["year"].notna()]
        .groupby(KEYS)["count"]
        .sum(min_count=1)
        .rename("lost")
        .reset_index()
    )


def _scores(diary: Diary) -> pd.DataFrame:
    rated = diary.events[(diary.events["kind"] == "verdict") & diary.events["score"].notna()]
    rated = rated.assign(year=certain_year(rated))
    return rated[rated["year"].notna()].groupby(KEYS)["score"].mean().reset_index()


def _for(row: dict[Any, Any]) -> list[str]:
    found = []
    if row["rank"] == 1:
        found.append(f"most per m² of {row['ranked']:.0f} cultivars")
    if row["kg"] > MORE * row["mean_before"]:
        found.append(f"{_share(row):.0f} % above its own mean")
    if row["pct_up"] >= WELL_UP:
        found.append(f"{row['pct_up']:.0f} % up")
    if row["score"] >= LIKED:
        found.append(f"rated {5 * row['score']:.2g} of 5")
    return found


def _against(row: dict[Any, Any]) -> list[str]:
    found = []
    if row["rank"] == row["ranked"]:
        found.append(f"least per m² of {row['ranked']:.0f} cultivars")
    if row["kg"] < LESS * row["mean_before"] and not row["unweighed"]:
        found.append(f"{-_share(row):.0f} % below its own mean")
    if row["failed"] > 0:
        found.append(
            "a sowing failed" if row["failed"] == 1 else f"{row['failed']:.0f} sowings failed"
        )
    elif row["pct_up"] < ILL_UP:
        found.append(f"only {row['pct_up']:.0f} % up")
    if row["lost"] > 0:
        found.append(f"{row['lost']:g} plants lost" if row["lost"] != 1 else "1 plant lost")
    if row["score"] <= DISLIKED:
        found.append(f"rated {5 * row['score']:.2g} of 5")
    return found


def _share(row: dict[Any, Any]) -> float:
    return float(100 * (row["kg"] / row["mean_before"] - 1))
