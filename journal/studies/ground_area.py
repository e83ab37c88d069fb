"""The ground that each harvest came from: its area, plants and length of row, or why not.

Joins the rows of the harvest study to the sowings and plantings that they were picked from; what
the diary does not support stays blank.
"""

from typing import Any

import numpy as np
import pandas as pd

from journal.events.model import Sheet
from journal.reference.load import load
from journal.studies.bed_size import bed_size, ground_now
from journal.studies.seasons import certain_year

# a crop sown in autumn stands this long before its first picking: garlic, broad bean, onion sets
# (common practice, no published source)
AUTUMN_DAYS = 300
# a sowing that has not shown by then is no longer the one that failed (common practice, no
# published source)
SHOWN_DAYS = 180

NO_GROUND = "no ground known: "
NO_PLACE = NO_GROUND + "no place was written"
NO_YEAR = NO_GROUND + "the year is not certain"
SHARED = NO_GROUND + "no rows or spacing written, and it had not the bed alone"
NO_SIZE = NO_GROUND + "no rows or spacing written, and the bed has no size on the sheet"
IN_VESSELS = NO_GROUND + "it grew in pots, trays or sacks"
RESIZED = NO_GROUND + "no rows or spacing written, and the bed changed size that year"


def ground_area(rows: pd.DataFrame, events: pd.DataFrame, sheet: Sheet) -> pd.DataFrame:
    """`area_m2`, `plants`, `row_m` and `no_area` (why there is no area) for each row's index.

    Each figure is the sum over all sowings and plantings of the row, and blank when one of them
    does not tell it.
    """
    grown = _growing(events, sheet)
    sources = _sources(rows, grown, events, sheet)
    written = _sum_of_all(sources, rows.index)
    stood = pd.concat([grown, _over_winter(grown, events, sheet)])
    bed, why_not = _whole_bed(rows, stood, sheet)
    potted = rows.index.isin(sources.loc[sources["vessel"] != "", "row"])
    area = written["area_m2"].fillna(bed.mask(potted))
    reasons = pd.Series(np.where(potted, IN_VESSELS, why_not), index=rows.index)
    return pd.DataFrame(
        {
            "area_m2": area,
            "plants": written["plants"],
            "row_m": written["row_m"],
            "no_area": reasons.where(area.isna() & (rows["crop"] != ""), ""),
        }
    )


def _growing(events: pd.DataFrame, sheet: Sheet) -> pd.DataFrame:
    """Sowings and plantings in a growing place, with what each says of its ground.

    A sowing in modules or trays is raised there and grows elsewhere. Seeds sown are not plants,
    so a sowing tells none; the plants set out at a planting are. A sowing that failed grew nothing.
    """
    mine = events["kind"].isin(["sowing", "planting"]) & (events["crop"] != "")
    mine &= (events["place"] != "") & ~((events["kind"] == "sowing") & (events["vessel"] != ""))
    grown = events.loc[mine & ~events["event"].isin(failed_sowings(events, sheet))].copy()
    grown["place"] = ground_now(grown["place"], sheet)
    between = grown["spacing_m"]
    each = between * grown["row_spacing_m"].fillna(between)
    grown["area_m2"] = (grown["length_m"] * grown["row_spacing_m"]).fillna(grown["count"] * each)
    grown["plants"] = grown["count"].where(grown["kind"] == "planting")
    grown["row_m"] = grown["length_m"]
    columns = ["crop", "cultivar", "place", "date", "vessel", "area_m2", "plants", "row_m"]
    return grown[columns]


def failed_sowings(events: pd.DataFrame, sheet: Sheet) -> set[int]:
    """The sowings that a `fail` ended: of each the oldest that it can mean, as in the ledger.

    Of the same crop and of the same cultivar, label and place, a blank of either side matching any.
    """
    sown = events[(events["kind"] == "sowing") & (events["crop"] != "")].sort_values("date")
    sown = sown.assign(place=ground_now(sown["place"], sheet))
    whole = (events["verb"] == "fail") & events["count"].isna()
    whole |= (events["verb"] == "up") & (events["count"] == 0).fillna(False)
    fails = events[whole & (events["crop"] != "")].sort_values("date")
    fails = fails.assign(place=ground_now(fails["place"], sheet))
    failed: set[int] = set()
    for fail in fails.to_dict("records"):
        since = fail["date"] - pd.Timedelta(days=SHOWN_DAYS)
        mine = sown["date"].between(since, fail["date_end"]) & (sown["crop"] == fail["crop"])
        for word in ("cultivar", "label", "place"):
            mine &= (sown[word] == fail[word]) | (sown[word] == "") | (fail[word] == "")
        meant = [event for event in sown.loc[mine, "event"] if event not in failed]
        failed.update(meant[:1])
    return failed


def _sources(
    rows: pd.DataFrame, grown: pd.DataFrame, events: pd.DataFrame, sheet: Sheet
) -> pd.DataFrame:
    """Pairs of a harvest row and a sowing or planting that it was picked from.

    Of the same crop and place; of the same cultivar, or, where none was written on one side and
    the row is the crop's only one there that year, of any. After the last clearing before the
    first picking and not after the last picking.
    """
    named = rows[(rows["crop"] != "") & (rows["place"] != "") & rows["year"].notna()].copy()
    named["row"] = named.index
    named["ground"] = ground_now(named["place"], sheet)
    named["only"] = named.groupby(["year", "crop", "place"])["row"].transform("size") == 1
    named["picked_before"] = _last_picking_of_year_before(named)
    named["cleared"] = _last_clearing(named, events, sheet)
    pairs = named.merge(
        grown, left_on=["crop", "ground"], right_on=["crop", "place"], suffixes=("", "_grown")
    )
    standing = (pairs["date"] <= pairs["last_high"]) & ~(pairs["date"] < pairs["cleared"])
    pairs = _of_the_season(pairs[standing])
    same = pairs["cultivar"] == pairs["cultivar_grown"]
    blank = (pairs["cultivar"] == "") | (pairs["cultivar_grown"] == "")
    return pairs[same | (blank & pairs["only"] & ~same.groupby(pairs["row"]).transform("any"))]


def _of_the_season(pairs: pd.DataFrame) -> pd.DataFrame:
    """Sown or planted this year; or the year before, for what was standing over the winter.

    The year before counts when nothing went in this year before the first picking, or when it
    went in in autumn and was not picked that year. A perennial counts from any year.
    """
    age = pairs["year"] - pairs["date"].dt.year.astype("Int64")
    this_year = age == 0
    begun = this_year & (pairs["date"] <= pairs["first_low"])
    has_begun = begun.groupby(pairs["row"]).transform("any")
    autumn = (pairs["first_low"] - pairs["date"]).dt.days <= AUTUMN_DAYS
    unpicked = ~(pairs["picked_before"] >= pairs["date"])
    over_winter = (age == 1) & (~has_begun | (autumn & unpicked))
    found: pd.DataFrame = pairs.loc[this_year | over_winter | pairs["crop"].isin(_perennials())]
    return found


def _perennials() -> list[str]:
    return [crop.name for crop in load().crops.values() if crop.perennial]


def _last_picking_of_year_before(named: pd.DataFrame) -> "pd.Series[Any]":
    before = named[["year", "crop", "cultivar", "place", "last_high"]].copy()
    before["year"] += 1
    found = named.drop(columns="last_high").merge(
        before, on=["year", "crop", "cultivar", "place"], how="left"
    )
    return found["last_high"].set_axis(named.index)


def _last_clearing(named: pd.DataFrame, events: pd.DataFrame, sheet: Sheet) -> "pd.Series[Any]":
    """The last day before a row's first picking that its bed, or the crop in it, was cleared."""
    ends = events.loc[events["kind"] == "end", ["crop", "cultivar", "place", "date", "date_end"]]
    ends = ends.assign(place=ground_now(ends["place"], sheet))
    pairs = named.merge(ends, left_on="ground", right_on="place", suffixes=("", "_end"))
    crop = pairs["crop_end"].isin([""]) | (pairs["crop_end"] == pairs["crop"])
    cultivar = (pairs["cultivar_end"] == "") | (pairs["cultivar_end"] == pairs["cultivar"])
    over = pairs[crop & cultivar & (pairs["date_end"] < pairs["first_low"])]
    return over.groupby("row")["date"].max().reindex(named.index)


def _sum_of_all(sources: pd.DataFrame, index: "pd.Index[Any]") -> pd.DataFrame:
    """Sums of each row's sources, blank where one of them is blank."""
    figures = ["area_m2", "plants", "row_m"]
    groups = sources.groupby("row")[figures]
    complete = groups.count().eq(groups.size(), axis=0)
    totals: pd.DataFrame = groups.sum().where(complete).reindex(index)
    return totals.astype("Float64")


def _over_winter(grown: pd.DataFrame, events: pd.DataFrame, sheet: Sheet) -> pd.DataFrame:
    """What went in and was neither picked nor cleared that year, as of the next 1 January."""
    sown = grown.assign(row=range(len(grown)), next=grown["date"] + pd.offsets.YearBegin())
    gone = events.loc[events["kind"].isin(["end", "harvest"]), ["crop", "place", "date"]]
    gone = gone.assign(place=ground_now(gone["place"], sheet))
    pairs = sown.merge(gone, on="place", suffixes=("", "_gone"))
    same = (pairs["crop_gone"] == "") | (pairs["crop_gone"] == pairs["crop"])
    within = (pairs["date_gone"] >= pairs["date"]) & (pairs["date_gone"] < pairs["next"])
    stayed: pd.DataFrame = sown[~sown["row"].isin(pairs.loc[same & within, "row"])]
    return stayed.assign(date=stayed["next"])[grown.columns]


def _whole_bed(
    rows: pd.DataFrame, grown: pd.DataFrame, sheet: Sheet
) -> "tuple[pd.Series[Any], Any]":
    """The bed's area where the row's crop had it alone that year, and why not elsewhere.

    Alone: nothing else was sown, planted or picked there, or stood on from the autumn before, of
    another crop or another cultivar.
    """
    early, late = (bed_size(rows["place"], rows[day], sheet) for day in ("first_low", "last_high"))
    alone = _alone(rows, grown, sheet)
    resized = early.ne(late).fillna(False) & early.notna() & late.notna()
    conditions = [rows["place"] == "", rows["year"].isna(), ~alone, early.isna(), resized]
    why = np.select(
        [condition.to_numpy(bool) for condition in conditions],
        [NO_PLACE, NO_YEAR, SHARED, NO_SIZE, RESIZED],
        "",
    )
    return early.where(why == ""), why


def _alone(rows: pd.DataFrame, grown: pd.DataFrame, sheet: Sheet) -> "pd.Series[Any]":
    ground = ground_now(rows["place"], sheet)
    picked = rows.assign(ground=ground)[["year", "ground", "crop", "cultivar"]]
    sown = grown.assign(year=certain_year(grown.assign(date_end=grown["date"])))
    sown = sown.rename(columns={"place": "ground"})[["year", "ground", "crop", "cultivar"]]
    stood = pd.concat([picked[picked["crop"] != ""], sown]).drop_duplicates()
    named = stood["cultivar"].where(stood["cultivar"] != "")
    by = [stood["year"], stood["ground"]]
    crops = stood.groupby(by, dropna=False)["crop"].nunique()
    cultivars = named.groupby(by, dropna=False).nunique()
    lone = ((crops <= 1) & (cultivars <= 1)).rename("alone").reset_index()
    found = picked.merge(lone, on=["year", "ground"], how="left")
    several = picked.groupby(["year", "ground", "crop"], dropna=False)["crop"].transform("size")
    return found["alone"].set_axis(rows.index).isin([True]) & (several <= 1)
