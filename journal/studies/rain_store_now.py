"""The tanks today and year by year: how long the water lasts, and what came, went and ran over."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.rain_store import rain_store
from journal.studies.shaping import shaped


@once_a_diary
def rain_store_now(diary: Diary) -> pd.DataFrame:
    """One row a tank, today: what is in it, and how long that lasts at last summer's use.

    `tank date level_l level_low_l level_high_l volume_l summer use_low_l use_high_l days_low
    days_high`: `summer` is the year of the last summer that has ended (June to August, south of the
    equator December to February, named by its January); `use_low_l` a day is what was drawn from
    the tank in it, `use_high_l` with the waterings that say no source; `days_low` to `days_high`
    is the level over them, blank where nothing was drawn, where a drawing of the summer was not
    measured or its day is not certain, and where the tank's book begins after the summer did.
    """
    frame = rain_store(diary)
    last = frame.groupby("tank", sort=False).last(skipna=False).reset_index()
    rows = [
        row | _lasting(frame[frame["tank"] == row["tank"]], row, diary)
        for row in last.to_dict("records")
    ]
    return shaped("rain_store_now", rows)


def _lasting(own: pd.DataFrame, now: dict[Any, Any], diary: Diary) -> dict[str, Any]:
    year, first, last = last_summer(diary)
    summer = own[(own["date"] >= first) & (own["date"] <= last)]
    days = (last - first).days + 1
    if len(summer) < days or summer["drawn_l"].isna().any():
        return {"summer": year}
    low = float(summer["drawn_l"].sum()) / days
    unsaid = summer["unsaid_l"].sum(skipna=False)
    high = None if pd.isna(unsaid) else low + float(unsaid) / days
    return {
        "summer": year,
        "use_low_l": low,
        "use_high_l": high,
        "days_low": now["level_low_l"] / high if high else None,
        "days_high": now["level_high_l"] / low if low else None,
    }


def last_summer(diary: Diary) -> tuple[int, pd.Timestamp, pd.Timestamp]:
    """The last summer that ended before today: its year, its first and its last day."""
    south = (diary.plot.latitude or 0.0) < 0
    today = pd.Timestamp(diary.today)
    for year in range(today.year + 1, today.year - 3, -1):
        first = pd.Timestamp(year - 1, 12, 1) if south else pd.Timestamp(year, 6, 1)
        last = first + pd.DateOffset(months=3) - pd.Timedelta(days=1)
        if last < today:
            return year, first, last
    raise AssertionError("a summer ended within the last two years")


@once_a_diary
def rain_store_years(diary: Diary) -> pd.DataFrame:
    """One row a year and tank: `year tank in_l drawn_l unsaid_l overflow_l days uncertain_days`.

    Sums of the days that are certain; `uncertain_days` are those whose overflow is not.
    """
    frame = rain_store(diary)
    groups = frame.groupby(["year", "tank"], sort=True)
    sums = groups[["in_l", "drawn_l", "unsaid_l", "overflow_l"]].sum(min_count=1)
    sums["days"] = groups.size()
    sums["uncertain_days"] = groups.size() - groups["overflow_l"].count()
    return shaped("rain_store_years", sums.reset_index())
