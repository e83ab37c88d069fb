"""Each crop's weight and days of picking in one year beside those of every earlier year."""

import pandas as pd

from journal.diary import Diary
from journal.studies.carried_over import first_pickings
from journal.studies.harvest import per
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.seasons import certain_year, season_day, to_day_of_season
from journal.tables.schema import TABLES, make_frame

DAYS = ("first picking", "last picking")
_WHAT = ["measure", "crop"]


@once_a_diary
def beside(diary: Diary) -> pd.DataFrame:
    """One row a year, an earlier year (`other`), a measure and a crop; a blank crop is all.

    - `value` of the year and `before` of the other; `change` = value - before and `change_pct` =
      100 change / before, which is blank for days. Where the other year has no figure, `before`
      and both changes are blank.
    - `mean_before`, `low_before`, `high_before` over all earlier years that have a figure,
      `years_before` of them: the same in each row of a year.
    - Measures, days and the open year as in the study `years`: weights in kg, days as days of the
      year, no first picking that goes on from a crop of the year before, and while a year is open
      earlier years count only to the same day.

    No published source: plain differences, means and ranges.
    """
    whole = _figures(diary, diary.events)
    today = diary.today
    so_far = _figures(diary, to_day_of_season(diary.events, today.month, today.day))
    first = whole["measure"] == "first picking"
    to_date = pd.concat([so_far[so_far["measure"] != "first picking"], whole[first]])
    is_open = whole["year"] == today.year
    now = whole[is_open & (whole["measure"] != "last picking")]
    rows = pd.concat([_pairs(whole[~is_open], whole), _pairs(now, to_date)], ignore_index=True)
    rows = rows.sort_values(["year", "other", *_WHAT], ignore_index=True)
    return make_frame("beside", {name: rows[name] for name in TABLES["beside"].column_names})


def years_beside(diary: Diary, year: int) -> list[int]:
    """The earlier years in which something was surely picked, in order."""
    own = certain_year(diary.events[diary.events["kind"] == "harvest"]).dropna().unique()
    return sorted(int(each) for each in own if each < year)


def _figures(diary: Diary, events: pd.DataFrame) -> pd.DataFrame:
    """All figures of these events: measure, crop, year, value."""
    picked = pickings(events)
    picked = picked[picked["year"].notna()]
    named, keys = picked[picked["crop"] != ""], ["year", "crop"]
    crops = sum_pickings(named, keys).drop(columns="first")
    crops = crops.merge(first_pickings(named, keys, diary), on=keys, how="left")
    total = sum_pickings(picked, ["year"]).assign(crop="")[["year", "crop", "kg"]]
    sums = pd.concat([crops, total], ignore_index=True)
    sums["first picking"] = season_day(sums["first"])
    sums["last picking"] = season_day(sums["last"])
    long = sums.melt(["year", "crop"], ["kg", *DAYS], "measure", "value").dropna(subset="value")
    return long.astype({"value": "Float64", "measure": "string", "crop": "string"})


def _pairs(rows: pd.DataFrame, figures: pd.DataFrame) -> pd.DataFrame:
    """Each row once for each earlier year, with that year's figure and those of all of them."""
    others = figures[["year"]].drop_duplicates().rename(columns={"year": "other"})
    pairs = rows.merge(others, how="cross")
    pairs = pairs[pairs["other"] < pairs["year"]]
    before = figures.rename(columns={"year": "other", "value": "before"})
    pairs = pairs.merge(before, on=[*_WHAT, "other"], how="left")
    pairs["change"] = pairs["value"] - pairs["before"]
    pairs["change_pct"] = 100 * per(pairs["change"], pairs["before"])
    pairs["change_pct"] = pairs["change_pct"].where(~pairs["measure"].isin(DAYS))
    spans = pairs.groupby([*_WHAT, "year"])["before"].agg(["mean", "min", "max", "count"])
    spans.columns = pd.Index(["mean_before", "low_before", "high_before", "years_before"])
    return pairs.merge(spans.reset_index(), on=[*_WHAT, "year"])
