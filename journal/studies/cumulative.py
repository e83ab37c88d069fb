"""The harvest of each year as it mounted up, day by day."""

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings
from journal.studies.seasons import season_day
from journal.tables.schema import TABLES, make_frame


@once_a_diary
def cumulative(diary: Diary) -> pd.DataFrame:
    """The weight picked up to and with each day of picking, one row a year and day.

    `kg_of_day` is what was weighed that day and `kg` the sum of the year so far, all crops
    together. A picking counts on the last day that it can have been, so that `kg` is "by then, at
    the least"; one whose year is not certain, or that was not weighed, is in no row.
    `day_of_year` counts as in a year without 29 February. No published source: plain sums.
    """
    picked = pickings(diary.events)
    picked = picked[picked["mass_kg"].notna() & picked["year"].notna()]
    days = picked.groupby(["year", "date_end"])["mass_kg"].sum().reset_index()
    days = days.rename(columns={"date_end": "date", "mass_kg": "kg_of_day"})
    days["kg"] = days.groupby("year")["kg_of_day"].cumsum()
    days["day_of_year"] = season_day(days["date"])
    return make_frame(
        "cumulative", {name: days[name] for name in TABLES["cumulative"].column_names}
    )


def by_month(rows: pd.DataFrame) -> pd.DataFrame:
    """What was in by the end of each month, of rows of `cumulative`: year, month, kg.

    A month without a picking has what the one before it had; from the first picking of the year
    to the month of its last.
    """
    found = rows.assign(month=rows["date"].dt.month.astype("Int64"))
    ends = found.groupby(["year", "month"])["kg"].last().unstack("month")
    ends = ends.reindex(columns=range(1, 13)).astype("float64").ffill(axis=1)
    last = found.groupby("year")["month"].max()
    long = ends.reset_index().melt("year", var_name="month", value_name="kg").dropna()
    long = long.sort_values(["year", "month"])
    return long[long["month"] <= long["year"].map(last)].reset_index(drop=True)
