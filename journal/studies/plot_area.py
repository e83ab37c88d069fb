"""How large the whole plot is on a day: as the sheet says, else its beds together."""

import pandas as pd

from journal.diary import Diary
from journal.events.model import PlaceDeclared
from journal.studies.bed_size import bed_size


def plot_area(diary: Diary, day: pd.Timestamp) -> float | None:
    """The plot's area in m2 as the sheet gives it, else the sum of its beds that day.

    None where a bed has no size, or there is none.
    """
    if diary.plot.area_m2 is not None:
        return diary.plot.area_m2
    beds = dict.fromkeys(place.name for place in diary.sheet.places if place.kind == "bed")
    held = [diary.sheet.place_on(name, day.date()) for name in beds]
    names = [place.name for place in held if place is not None and _is_there(place, day)]
    days = pd.Series([day] * len(names))
    sizes = bed_size(pd.Series(names, dtype="string"), days, diary.sheet)
    return None if sizes.empty or sizes.isna().any() else float(sizes.sum())


def _is_there(place: PlaceDeclared, day: pd.Timestamp) -> bool:
    return not place.ended and (place.date is None or place.date <= day.date())
