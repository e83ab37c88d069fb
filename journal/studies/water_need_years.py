"""How thirsty each crop was in a year: its days past readily available water and the worst."""

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.water_need import NEEDS, water_need


@once_a_diary
def water_need_years(diary: Diary) -> pd.DataFrame:
    """One row a year, place and crop of `water_need`, the thirstiest first.

    `days` reckoned, `days_thirsty` of them surely past readily available water, the `first` of
    these, `most_past_l` litres past it on the worst (blank without an area) and `watered_l` given
    in all, of the waterings that were measured.
    """
    frame = water_need(diary)
    thirst = frame[frame["state"] == NEEDS]
    keys = ["year", "place", "crop"]
    litres = frame["watered_mm"] * frame["area_m2"]
    whole = pd.DataFrame(
        {
            "days": frame.groupby(keys).size(),
            "watered_l": litres.groupby([frame[key] for key in keys]).sum(min_count=1),
        }
    )
    worst = thirst.groupby(keys).agg(
        days_thirsty=("date", "size"), first=("date", "min"), most_past_l=("past_l", "max")
    )
    found = whole.join(worst).reset_index().fillna({"days_thirsty": 0})
    order = ["year", "days_thirsty", "place", "crop"]
    return shaped("water_need_years", found.sort_values(order, ascending=[True, False, True, True]))
