"""What each bed earned and what it cost in hours."""

import pandas as pd

from journal.diary import Diary
from journal.studies.bed_size import bed_size
from journal.studies.harvest import harvest, harvest_totals, per
from journal.studies.labour import labour
from journal.studies.once import once_a_diary
from journal.tables.schema import TABLES, make_frame

_KEYS = ["year", "place"]


@once_a_diary
def beds(diary: Diary) -> pd.DataFrame:
    """Harvest and hours of each place, one row a year and place that was picked from or worked on.

    - `kg`, `unweighed`: the harvest's, all crops of the place together; `hours` = minutes / 60 of
      all timed work that names the place.
    - `area_m2`: the place as the sheet sizes it at the end of the year; `kg_per_m2` = kg /
      area_m2 of the whole place, `hours_per_kg` = hours / kg, `hours_per_m2` = hours / area_m2.
    - Blank where nothing was weighed or timed, or the sheet gives no size. `kg` is "at least"
      where `unweighed` is not 0.

    No published source: plain sums and quotients.
    """
    picked = harvest_totals(harvest(diary), _KEYS)
    timed = labour(diary).groupby(_KEYS, dropna=False)["minutes"].sum() / 60
    rows = picked.merge(timed.rename("hours").reset_index(), on=_KEYS, how="outer", sort=True)
    rows = rows[(rows["place"] != "") & rows["year"].notna()].reset_index(drop=True)
    new_year_eve = pd.to_datetime(rows["year"].astype("string") + "-12-31").dt.as_unit("s")
    rows["area_m2"] = bed_size(rows["place"], new_year_eve, diary.sheet)
    rows["kg_per_m2"] = per(rows["kg"], rows["area_m2"])
    rows["hours_per_kg"] = per(rows["hours"], rows["kg"])
    rows["hours_per_m2"] = per(rows["hours"], rows["area_m2"])
    return make_frame("beds", {name: rows[name] for name in TABLES["beds"].column_names})
