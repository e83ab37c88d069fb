"""Hours of work a kilo of each crop took, over a year or over all years."""

import pandas as pd

from journal.diary import Diary
from journal.studies.labour import labour_worth


def hours_per_kilo(diary: Diary, year: int | None = None) -> pd.DataFrame:
    """One row a crop: `crop hours kg hours_per_kg`, the crop that took least first.

    hours_per_kg = sum of hours / sum of kg over the rows of `labour worth` that name the crop,
    places together, of a calendar year or of all. Only crops with both; what was not timed or not
    weighed is in neither sum. No published source: plain quotients.
    """
    frame = labour_worth(diary)
    rows = frame[(frame["crop"] != "").fillna(False)]
    if year is not None:
        rows = rows[(rows["year"] == year).fillna(False)]
    sums = rows.groupby("crop")[["hours", "kg"]].sum(min_count=1).reset_index()
    sums = sums[sums["hours"].notna() & sums["kg"].notna() & (sums["kg"] > 0)]
    sums = sums.assign(hours_per_kg=sums["hours"] / sums["kg"])
    return sums.sort_values("hours_per_kg", kind="stable", ignore_index=True)
