"""The study `beside` drawn: each crop's weight and days of picking beside an earlier year's.

The earlier year is a parameter of the chart, `against`, so that a page can let the reader choose.
"""

from math import ceil, floor, log10
from typing import Any

import altair as alt
import pandas as pd

from journal.charts.rows import MARK_OFFSET, numbered, row_panel, row_track, row_words
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import some
from journal.charts.years import (
    MONTH_STARTS,
    ROOM_FOR_CHANGE,
    ROOM_FOR_SHIFT,
    first_says,
    month_axis,
    weight_says,
)
from journal.studies.notes import counted

NOTHING = "There is no year to compare yet."
FIGURES = ["value", "mean_before", "low_before", "high_before"]
CHOSEN = "datum.other == against"


def beside_chart(frame: pd.DataFrame, against: int | None = None) -> AnyChart:
    """The latest year of the frame, crop by crop, beside `against`, else the year before it."""
    if frame.empty:
        return sentence(NOTHING)
    year = int(frame["year"].max())
    rows = frame[(frame["year"] == year) & (frame["crop"] != "")]
    other = int(rows["other"].max()) if against is None else against
    panels = [
        *_weights(rows[rows["measure"] == "kg"], year, other),
        *_days(rows, "first picking", year, other),
        *_days(rows, "last picking", year, other),
    ]
    if not panels:
        return sentence(f"Nothing of {year} compares: no picking was weighed or surely dated.")
    return with_choice(stacked(panels), other)


def with_choice(chart: AnyChart, against: int) -> AnyChart:
    """The chart with the earlier year as a parameter that a page may change."""
    return chart.add_params(alt.param(name="against", value=against))


def _weights(rows: pd.DataFrame, year: int, against: int) -> list[alt.LayerChart]:
    rows = rows[rows["value"] > 0].sort_values(["value", "crop"], ascending=[False, True])
    if rows.empty:
        return []
    figures = rows[["value", "change_pct", "years_before"]].to_numpy()
    named = rows.assign(name=rows["crop"], says=[weight_says(*row) for row in figures])
    change = rows.loc[rows["other"] == against, "change"]
    words = (
        f"The weight of {counted(rows['crop'].nunique(), 'crop')} in {year} beside {against} and "
        f"the range of all earlier years; {_moved(change, 'gave more', 'less', against)}."
    )
    amounts = rows[[*FIGURES, "before"]]
    least = float(amounts.where(amounts > 0).min().min())
    ends = [floor(log10(least)), ceil(log10(amounts.max().max()) + 0.001)]
    axis = alt.Axis(
        title="kg, each line ten times the one before",
        values=[10**power for power in range(ends[0], ends[1] + 1)],
        format="~r",
    )
    x = alt.Scale(type="log", domain=[10 ** ends[0], 10 ** ends[1]], nice=False), axis
    heading = title(f"Weight, {year} and before", _key(year))
    return [_ranges(named, x, ROOM_FOR_CHANGE, title=heading, description=words)]


def _days(rows: pd.DataFrame, measure: str, year: int, against: int) -> list[alt.LayerChart]:
    rows = rows[rows["measure"] == measure].sort_values(["value", "crop"])
    if rows.empty:
        return []
    figures = rows[["value", "change"]].to_numpy()
    named = rows.assign(name=rows["crop"], says=[first_says(*row) for row in figures])
    change = rows.loc[rows["other"] == against, "change"]
    words = (
        f"The day of the {measure} of {counted(rows['crop'].nunique(), 'crop')} in {year} beside "
        f"{against} and the range of all earlier years; "
        f"{_moved(-change, 'came earlier', 'later', against)}."
    )
    x = alt.Scale(domain=[MONTH_STARTS[0], 366], nice=False), month_axis()
    heading = title(f"{measure.capitalize()}, {year} and before", _key(year))
    return [_ranges(named, x, ROOM_FOR_SHIFT, title=heading, description=words)]


def _moved(change: "pd.Series[float]", up: str, down: str, against: int) -> str:
    """How many went one way since the earlier year and how many the other."""
    if change.notna().sum() == 0:
        return f"none of them can be set beside {against}"
    more, less = int((change > 0).sum()), int((change < 0).sum())
    return f"{some(more)} {up} than in {against} and {some(less)} {down}"


def _key(year: int) -> list[str]:
    return [
        f"● {year} · ○ the year it is set beside",
        "Shaded: lowest to highest of all earlier years; stroke: their mean.",
    ]


def _ranges(
    rows: pd.DataFrame, x: tuple[alt.Scale, alt.Axis], room: int, **panel: Any
) -> alt.LayerChart:
    """A band from the lowest to the highest earlier year, a ring for the chosen, a dot for this."""
    crops = rows.drop_duplicates("crop").reset_index(drop=True)
    pairs = rows.assign(row=rows["crop"].map(pd.Series(crops.index, index=crops["crop"])))
    tooltip = [
        alt.Tooltip("name:N", title="crop"),
        *(alt.Tooltip(f"{column}:Q", format=",.1f") for column in FIGURES),
    ]
    scale, axis = x
    base = numbered(crops[["name", "says", "years_before", *FIGURES]]).encode(tooltip=tooltip)
    chosen = alt.Chart(pairs[["row", "other", "before", "says"]]).encode(
        y=alt.Y("row:O", axis=None, sort=None, scale=alt.Scale(paddingInner=0, paddingOuter=0)),
        opacity=alt.OpacityValue(0, condition={"test": CHOSEN, "value": 1}),
    )
    at: dict[str, Any] = {"yOffset": MARK_OFFSET, "opacity": 1}
    band = base.mark_bar(height=11, color=LIGHT["band"], cornerRadius=2, **at)
    mean = base.mark_tick(thickness=2, height=11, color=LIGHT["straw"], orient="vertical", **at)
    ring = chosen.mark_point(
        size=70, stroke=LIGHT["slate"], strokeWidth=2, fill=LIGHT["paper"], yOffset=MARK_OFFSET
    )
    dot = base.mark_point(size=80, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, **at)
    names, _ = row_words(base, room)
    _, says = row_words(chosen, room)
    layers = [
        row_track(base, 3),
        band.encode(x="low_before:Q", x2="high_before:Q"),
        mean.encode(x="mean_before:Q"),
        ring.encode(x="before:Q"),
        dot.encode(x=alt.X("value:Q", axis=axis, scale=scale)),
        names,
        says,
    ]
    return row_panel(layers, len(crops), **panel)
