"""Each tank's level drawn: as reckoned, as read, and the days on which it ran over."""

import altair as alt
import pandas as pd

from journal.charts.calendar import amount, day_axis, line, panel, plain, span
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import listed, number, year_list
from journal.studies.notes import counted

NOTHING = "No tank whose water can be reckoned."
KEY = [
    "Line: the water in it at least; shaded: at most, by days not read and cans of no said source.",
    "● a level that was read; ▼ a day on which it ran over.",
]


def rain_store_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the frame, one panel a tank."""
    if frame.empty:
        return sentence(NOTHING)
    year = year_list(frame)[-1]
    rows = frame[frame["year"] == year]
    return stacked([_tank(own, str(tank), year) for tank, own in rows.groupby("tank", sort=False)])


def _tank(own: pd.DataFrame, tank: str, year: int) -> alt.LayerChart:
    columns = ("level_low_l", "level_high_l", "read_l", "overflow_l", "volume_l")
    rows = plain(own, "date", *columns)
    x, most = day_axis("date", year), float(rows["volume_l"].max())
    tooltip = [
        alt.Tooltip("date:T", title="day", format="%-d %B"),
        alt.Tooltip("level_low_l:Q", title="at least, l", format=",.0f"),
        alt.Tooltip("level_high_l:Q", title="at most, l", format=",.0f"),
        alt.Tooltip("read_l:Q", title="read, l", format=",.0f"),
        alt.Tooltip("overflow_l:Q", title="ran over, l", format=",.0f"),
    ]
    base = alt.Chart(rows).encode(tooltip=tooltip)
    read = alt.Chart(rows[rows["read_l"].notna()]).encode(tooltip=tooltip)
    over = alt.Chart(rows[rows["overflow_l"] > 0]).encode(tooltip=tooltip)
    dots = read.mark_point(
        size=70, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, opacity=1
    )
    marks = over.mark_point(
        shape="triangle-down", size=26, filled=True, color=LIGHT["moss"], opacity=1, yOffset=-7
    )
    layers = [
        span(base, x, "level_low_l", amount("level_high_l", "litres", most)),
        line(base, x, amount("level_low_l", "litres", most), "slate", strokeWidth=2.2),
        marks.encode(x=x, y=amount("volume_l", "litres", most)),
        dots.encode(x=x, y=amount("read_l", "litres", most)),
    ]
    days = {
        "surely ran over": int((rows["overflow_l"] > 0).sum()),
        "was read": int(rows["read_l"].notna().sum()),
    }
    told = [f"{what} on {counted(count, 'day')}" for what, count in days.items() if count]
    words = f"The level of {tank} on each day of {year}; it holds {number(most, 0)} litres"
    words += f", {listed(told)}." if told else "."
    return panel(layers, 160, title=title(f"{tank}, {year}", KEY), description=words)
