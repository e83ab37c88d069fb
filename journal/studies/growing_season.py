"""The growing season of a year by its daily means, as ETCCDI counts it."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.spells import runs
from journal.studies.weather_days import calendar, mean_temperature, weather_days

WARM_C = 5.0
SPAN_DAYS = 6


@once_a_diary
def growing_season(diary: Diary) -> pd.DataFrame:
    """Growing season length, ETCCDI index GSL (list_27_indices), one row a season.

    From the first day of the first span of at least 6 days whose mean is above 5 C to the first
    day, not counted, of the first such span below 5 C after the middle of the season's year (1
    July in the north, 1 January in the south, where the year begins on 1 July). Columns: `year`
    (in which its year begins), `begins`, `ends`, `days`, `unread` (days between without a mean).
    A day at exactly 5.0 C is of neither kind. Blank where there is no such span, and where days
    before its beginning were not read, since it may have begun then.
    """
    means = mean_temperature(weather_days(diary))
    south = (diary.plot.latitude or 0.0) < 0
    first_month = 7 if south else 1
    years = sorted(set(calendar(means).year)) if means.notna().any() else []
    if south and years:
        years = [years[0] - 1, *years]
    rows = [_season(means, year, first_month) for year in years]
    return shaped("growing_season", rows)


def _season(means: "pd.Series[Any]", year: int, first_month: int) -> dict[str, Any]:
    start = pd.Timestamp(year, first_month, 1)
    last = start + pd.DateOffset(years=1) - pd.Timedelta(days=1)
    every = pd.date_range(start, last, freq="D", unit="s")
    own = means.reindex(every)
    middle = start + pd.DateOffset(months=6)
    row: dict[str, Any] = {"year": year, "begins": pd.NaT, "ends": pd.NaT}
    row |= {"days": pd.NA, "unread": int(own.isna().sum())}
    warm = _first_span(own > WARM_C)
    if pd.isna(warm) or own.loc[:warm].isna().any():
        return row
    row["begins"] = warm
    # a span that began before the middle of the year is no end of the season
    cold = _first_span(own.loc[max(middle, warm) :] < WARM_C)
    between = own.loc[warm:cold] if not pd.isna(cold) else own.loc[warm:]
    row["unread"] = int(between.isna().sum())
    if not pd.isna(cold) and not row["unread"]:
        row |= {"ends": cold, "days": (cold - warm).days}
    return row


def _first_span(held: "pd.Series[Any]") -> Any:
    found = runs(held)
    long = found[found["days"] >= SPAN_DAYS]
    return pd.NaT if long.empty else long["begins"].iloc[0]
