"""Each met file beside the diary: how often it was read and used, and how far the two differ."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.notes import Note, counted
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.weather_days import DIARY, TOGETHER, open_air, winning

# smaller differences of a thermometer or a gauge are no news (common practice, no published source)
WORTH_TELLING = {"t_min": 2.0, "t_max": 2.0, "rain": 2.0}


@once_a_diary
def met_file(diary: Diary) -> pd.DataFrame:
    """One row a met file and variable: `source variable days_read days_used days_both
    mean_difference largest_difference date`.

    `days_used` are those on which the file's reading counts, since the diary has none of its own;
    `days_both` those with both, on which the diary's counts. Differences are the file's reading
    less the diary's, in the variable's unit, the largest by size with its `date`.
    """
    readings = open_air(diary)
    files = [name for name in diary.sheet.met_files if (readings["source"] == name).any()]
    won = winning(readings, diary.sheet.met_files)
    own = _by_day(readings, DIARY)
    rows = [
        _beside(name, variable, values, own, won)
        for name in files
        for variable, values in _by_day(readings, name).items()
        if values.notna().any()
    ]
    return shaped("met_file", rows)


def _by_day(readings: pd.DataFrame, source: str) -> pd.DataFrame:
    mine = readings[readings["source"] == source]
    return pd.DataFrame(
        {
            name: mine[mine["variable"] == name].groupby("date")["value"].agg(how)
            for name, how in TOGETHER.items()
        }
    )


def _beside(
    source: str, variable: Any, values: "pd.Series[Any]", own: pd.DataFrame, won: pd.DataFrame
) -> dict[str, Any]:
    used = won[(won["source"] == source) & (won["variable"] == variable)]
    difference = (values - own[variable].reindex(values.index)).dropna().round(6)
    row: dict[str, Any] = {"source": source, "variable": variable}
    row |= {"days_read": int(values.notna().sum()), "days_used": used["date"].nunique()}
    row |= {"days_both": len(difference)}
    if len(difference):
        day = difference.abs().idxmax()
        row |= {"mean_difference": round(difference.mean(), 6)}
        row |= {"largest_difference": difference[day], "date": day}
    return row


def met_file_notes(diary: Diary) -> list[Note]:
    """Where a met file and the diary read the same day far apart."""
    frame = met_file(diary)
    limit = frame["variable"].map(WORTH_TELLING)
    apart = frame[(frame["largest_difference"].abs() > limit).fillna(False)]
    return [
        Note(
            "met file",
            "weather",
            f"{row['variable']} of {row['source']}",
            f"read beside the diary on {counted(row['days_both'], 'day')}, "
            f"by up to {row['largest_difference']:+.1f} on {row['date']:%-d %B %Y}; "
            "the diary's own counts",
        )
        for row in apart.to_dict("records")
    ]
