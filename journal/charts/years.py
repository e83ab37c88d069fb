"""The years study drawn: each crop's weight and first picking beside those of earlier years."""

from math import ceil, floor, log10
from typing import Any

import altair as alt
import pandas as pd

from journal.charts.rows import MARK_OFFSET, numbered, row_panel, row_track, row_words
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import MONTHS, day_of_year, kilograms, number, some
from journal.studies.notes import counted

NOTHING = "There is no year to compare yet."
FIGURES = ["value", "before", "mean_before", "low_before", "high_before"]
# the first of each month, counted as in a year without 29 February
MONTH_STARTS = (1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335)
ROOM_FOR_CHANGE = 130
ROOM_FOR_SHIFT = 185


def years_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the frame, crop by crop: its weight and its first picking."""
    if frame.empty:
        return sentence(NOTHING)
    year = int(frame["year"].max())
    rows = frame[frame["year"] == year]
    panels = [*_weights(rows, year), *_firsts(rows, year)]
    if not panels:
        return sentence(f"Nothing of {year} compares: no picking was weighed or surely dated.")
    return stacked(panels)


def whole_crops(rows: pd.DataFrame, measure: str) -> pd.DataFrame:
    """One row a crop, all its cultivars and places together."""
    whole = (rows["crop"] != "") & (rows["cultivar"] == "") & (rows["place"] == "")
    return rows[whole & (rows["measure"] == measure)]


def _weights(rows: pd.DataFrame, year: int) -> list[alt.LayerChart]:
    rows = whole_crops(rows, "kg")
    rows = rows[rows["value"] > 0].sort_values(["value", "crop"], ascending=[False, True])
    if rows.empty:
        return []
    figures = rows[["value", "change_pct", "years_before"]].to_numpy()
    named = rows.assign(name=rows["crop"], says=[weight_says(*row) for row in figures])
    compared = rows[rows["change"].notna()]
    more, less = int((compared["change"] > 0).sum()), int((compared["change"] < 0).sum())
    words = (
        f"The weight of {counted(len(rows), 'crop')} in {year} beside {year - 1} and the range of "
        f"all earlier years; {some(more)} gave more than the year before and {some(less)} less."
    )
    ends = [floor(log10(_least(rows))), ceil(log10(rows[FIGURES].max().max()) + 0.001)]
    axis = alt.Axis(
        title="kg, each line ten times the one before",
        values=[10**power for power in range(ends[0], ends[1] + 1)],
        format="~r",
    )
    scale = alt.Scale(type="log", domain=[10 ** ends[0], 10 ** ends[1]], nice=False)
    x = alt.X("value:Q", axis=axis, scale=scale)
    heading = title(f"Weight, {year} and before", _key(year))
    return [_ranges(named, x, ROOM_FOR_CHANGE, title=heading, description=words)]


def _least(rows: pd.DataFrame) -> float:
    figures = rows[FIGURES]
    return float(figures.where(figures > 0).min().min())


def _firsts(rows: pd.DataFrame, year: int) -> list[alt.LayerChart]:
    rows = whole_crops(rows, "first picking").sort_values(["value", "crop"])
    if rows.empty:
        return []
    figures = rows[["value", "change"]].to_numpy()
    named = rows.assign(name=rows["crop"], says=[first_says(*row) for row in figures])
    early, late = int((rows["change"] < 0).sum()), int((rows["change"] > 0).sum())
    words = (
        f"The day of the first picking of {counted(len(rows), 'crop')} in {year} beside "
        f"{year - 1} and the range of all earlier years; {some(early)} came earlier than the "
        f"year before and {some(late)} later."
    )
    x = alt.X("value:Q", axis=month_axis(), scale=alt.Scale(domain=[1, 366], nice=False))
    heading = title(f"First picking, {year} and before", _key(year))
    return [_ranges(named, x, ROOM_FOR_SHIFT, title=heading, description=words)]


def month_axis(title: str | None = "day of the year") -> alt.Axis:
    """The twelve months under days of the year, each named from its first day on."""
    months = dict(zip(map(str, MONTH_STARTS), MONTHS, strict=True))
    return alt.Axis(
        title=title,
        values=list(MONTH_STARTS),
        labelExpr=f"{months}[datum.value]",
        labelAlign="left",
        labelOverlap=True,
        labelSeparation=4,
    )


def _key(year: int) -> list[str]:
    return [
        f"● {year} · ○ {year - 1}",
        "Shaded: lowest to highest of all earlier years; stroke: their mean.",
    ]


def _ranges(rows: pd.DataFrame, x: alt.X, room: int, **panel: Any) -> alt.LayerChart:
    """A band from the lowest to the highest earlier year, a ring for the last, a dot for this."""
    tooltip = [
        alt.Tooltip("name:N", title="crop"),
        *(alt.Tooltip(f"{column}:Q", format=",.1f") for column in FIGURES),
    ]
    base = numbered(rows).encode(tooltip=tooltip)
    layers = [row_track(base, 3), *_marks(base, x), *row_words(base, room)]
    return row_panel(layers, len(rows), **panel)


def _marks(base: alt.Chart, x: alt.X) -> list[alt.Chart]:
    at: dict[str, Any] = {"yOffset": MARK_OFFSET, "opacity": 1}
    band = base.mark_bar(height=11, color=LIGHT["band"], cornerRadius=2, **at)
    mean = base.mark_tick(thickness=2, height=11, color=LIGHT["straw"], orient="vertical", **at)
    ring = base.mark_point(size=70, stroke=LIGHT["slate"], strokeWidth=2, fill=LIGHT["paper"], **at)
    dot = base.mark_point(size=80, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, **at)
    return [
        band.encode(x="low_before:Q", x2="high_before:Q"),
        mean.encode(x="mean_before:Q"),
        ring.encode(x="before:Q"),
        dot.encode(x=x),
    ]


def weight_says(value: float, change_pct: float, years_before: int) -> str:
    """A weight with what it gained or lost: `12.4 kg (+12 %)`."""
    if pd.isna(change_pct):
        return kilograms(value) if years_before else f"{kilograms(value)}, first year"
    per_cent = number(abs(change_pct), 0)
    if per_cent == "0":
        return f"{kilograms(value)} (as before)"
    return f"{kilograms(value)} ({'+' if change_pct > 0 else '−'}{per_cent} %)"


def first_says(value: float, change: float) -> str:
    """A day with its shift: `14 July, 3 days later`."""
    if pd.isna(change):
        return day_of_year(value)
    if change == 0:
        return f"{day_of_year(value)}, the same day"
    days = counted(round(abs(change)), "day")
    return f"{day_of_year(value)}, {days} {'later' if change > 0 else 'earlier'}"
