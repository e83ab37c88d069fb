"""Dry spells, absolute and partial droughts, and the runs of days that they are made of.

The British Rainfall terms (Meteorological Glossary 1963, quoted at xmetman.com/dry-last-fortnight-
in-uk; out of official use since 1961). A day that was not read ends a run: it is never a dry day.
"""

from typing import Any

import numpy as np
import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.weather_days import weather_days

RAIN_DAY_MM = 1.0
TRACE_MM = 0.2
SPELL_DAYS = 15
PARTIAL_DAYS = 29
# sums of tenths of a millimetre in binary go astray by less
_TOLERANCE_MM = 1e-6


def runs(dry: "pd.Series[Any]") -> pd.DataFrame:
    """Runs of True over days on end: `begins`, `ends`, `days`; `dry` has a row for each day."""
    held = dry.astype(bool)
    number = (held != held.shift()).cumsum()[held]
    days = held.index.to_series()[held].groupby(number)
    found = pd.DataFrame({"begins": days.min(), "ends": days.max(), "days": days.size()})
    return found.reset_index(drop=True)


def longest_run(dry: "pd.Series[Any]") -> tuple[int, Any, Any]:
    """Days, first and last day of the longest run, the earliest of equals; 0 days if none."""
    found = runs(dry)
    if found.empty:
        return 0, pd.NaT, pd.NaT
    best = found.iloc[int(found["days"].to_numpy().argmax())]
    return int(best["days"]), best["begins"], best["ends"]


@once_a_diary
def spells(diary: Diary) -> pd.DataFrame:
    """Every spell of the diary, one row each: `spell begins ends days rain_mm at_least`.

    - `dry spell`: at least 15 days on end, none with 1.0 mm of rain or more.
    - `absolute drought`: at least 15 days on end, none with 0.2 mm or more.
    - `partial drought`: at least 29 days on end whose mean does not exceed 0.2 mm a day; the
      longest such stretches that do not overlap.

    Spells run on over the end of a year. `at_least` is true where the day before or after was not
    read, so that the spell may have been longer; the last day of the diary's weather is such an
    end too.
    """
    rain = weather_days(diary)["rain"]
    found = [
        _named("dry spell", _long(runs(rain < RAIN_DAY_MM))),
        _named("absolute drought", _long(runs(rain < TRACE_MM))),
        _named("partial drought", partial_droughts(rain)),
    ]
    frame = pd.concat(found, ignore_index=True)
    total = rain.fillna(0).cumsum()
    at_end, before = (
        total.reindex(frame["ends"]),
        total.shift(fill_value=0).reindex(frame["begins"]),
    )
    frame["rain_mm"] = (at_end.to_numpy() - before.to_numpy()).round(6)
    day = pd.Timedelta(days=1)
    edges = [rain.reindex(frame["begins"] - day), rain.reindex(frame["ends"] + day)]
    frame["at_least"] = np.logical_or(*(edge.isna().to_numpy() for edge in edges))
    return shaped("spells", frame.sort_values(["begins", "spell"]))


def _named(spell: str, found: pd.DataFrame) -> pd.DataFrame:
    return found.assign(spell=spell)


def _long(found: pd.DataFrame) -> pd.DataFrame:
    kept: pd.DataFrame = found.loc[found["days"] >= SPELL_DAYS]
    return kept


def partial_droughts(rain: "pd.Series[Any]") -> pd.DataFrame:
    """The longest stretches of 29 days or more, read whole, whose mean is 0.2 mm a day or less."""
    stretches = [
        stretch
        for run in runs(rain.notna()).to_dict("records")
        if run["days"] >= PARTIAL_DAYS
        for stretch in _low_means(rain.loc[run["begins"] : run["ends"]])
    ]
    days = pd.DataFrame(stretches, columns=["begins", "ends"], dtype="datetime64[s]")
    return days.assign(days=(days["ends"] - days["begins"]).dt.days + 1)


def _low_means(rain: "pd.Series[Any]") -> list[tuple[Any, Any]]:
    """Non-overlapping stretches of unbroken days, the longest taken first.

    With the running sum of rain less 0.2 mm a day, a stretch qualifies where the sum at its end
    is not above that at its start; the farthest such end is found in the running minimum from
    the right.
    """
    running = np.concatenate([[0.0], (rain.to_numpy() - TRACE_MM).cumsum()])
    from_right = np.minimum.accumulate(running[::-1])[::-1]
    ends = np.searchsorted(from_right, running + _TOLERANCE_MM, side="right") - 1
    lengths = ends - np.arange(len(running))
    taken = np.zeros(len(rain), dtype=bool)
    found = []
    for start in np.argsort(-lengths, kind="stable"):
        if lengths[start] < PARTIAL_DAYS:
            break
        if not taken[start : ends[start]].any():
            taken[start : ends[start]] = True
            found.append((rain.index[start], rain.index[ends[start] - 1]))
    return found
