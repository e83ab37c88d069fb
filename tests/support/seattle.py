"""Seattle's daily weather of 2012 to 2015 (NOAA, public domain, in vega-datasets) as a diary.

Written as a gardener would write it and read back, so that what is tested is the whole way from a
page to a figure.
"""

from collections.abc import Callable
from datetime import date

import pandas as pd
from vega_datasets import data

from journal.diary import Diary
from journal.reading import read_sources
from journal.source import Source

TODAY = date(2016, 1, 10)


def seattle() -> pd.DataFrame:
    """One row a day: `date precipitation temp_max temp_min` (mm, C), 1461 days without a gap."""
    return data.seattle_weather()


def as_line(row: pd.Series) -> str:
    """A day's weather as one entry."""
    return f"- weather {row.temp_min} to {row.temp_max} C, rain {row.precipitation} mm"


def as_gauge_and_glass(row: pd.Series) -> str:
    """The same in pieces: rain read twice, each extreme on its own line, a higher minimum too."""
    morning = round(row.precipitation / 2, 1)
    evening = round(row.precipitation - morning, 1)
    return (
        f"- rain {morning} mm\n- rain {evening} mm\n"
        f"- weather min {row.temp_min} C\n- weather min {row.temp_min + 1:.1f} C\n"
        f"- weather max {row.temp_max} C\n- weather max {row.temp_max - 0.5:.1f} C"
    )


def as_diary(
    rows: pd.DataFrame,
    write: Callable[[pd.Series], str] = as_line,
    sheet: str = "- plot Seattle, latitude 47.6",
    today: date = TODAY,
) -> Diary:
    """The days as a diary of one page."""
    days = [f"{row.date:%Y-%m-%d}\n{write(row)}\n" for row in rows.itertuples()]
    sources = [Source("plot.txt", sheet + "\n"), Source("page.txt", "\n".join(days))]
    return Diary(read_sources(sources, today), today)
