"""A year's days from left to right: the axis and the marks that the charts of weather share."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH


def day_axis(column: str, year: int) -> alt.X:
    """A whole year, a line for each month."""
    axis = alt.Axis(
        title=None,
        format="%b",
        tickCount={"interval": "month", "step": 1},
        labelAlign="left",
        labelOverlap=True,
        labelSeparation=4,
    )
    ends = [{"year": year, "month": 1, "date": 1}, {"year": year, "month": 12, "date": 31}]
    return alt.X(f"{column}:T", axis=axis, scale=alt.Scale(domain=ends, nice=False))


def amount(column: str, unit: str, most: float, least: float = 0.0) -> alt.Y:
    """An upright axis in a unit, from `least` to a round figure at or above `most`."""
    axis = alt.Axis(title=unit, tickCount=4, titleAngle=0, titleAlign="left", titleAnchor="end")
    axis.titleX, axis.titleY = -28, -8
    scale = alt.Scale(domain=[least, most if most > least else least + 1], nice=True)
    return alt.Y(f"{column}:Q", axis=axis, scale=scale)


def plain(frame: pd.DataFrame, *columns: str) -> pd.DataFrame:
    """Some columns with plain figures, so that a missing one is a gap in the picture."""
    kept = frame[list(columns)].copy()
    for name in kept.columns:
        if pd.api.types.is_numeric_dtype(kept[name]):
            kept[name] = kept[name].astype("float64")
    return kept


def span(base: alt.Chart, x: alt.X, low: str, high: alt.Y) -> alt.Chart:
    """A faint band from one column to another."""
    band: alt.Chart = base.mark_area(color=LIGHT["band"], opacity=0.9).encode(
        x=x, y=high, y2=f"{low}:Q"
    )
    return band


def line(base: alt.Chart, x: alt.X, y: alt.Y, colour: str, **mark: Any) -> alt.Chart:
    """A line that breaks where a figure is missing."""
    kind: dict[str, Any] = {
        "strokeWidth": 1.8,
        "color": LIGHT[colour],
        "invalid": "break-paths-show-domains",
    }
    drawn: alt.Chart = base.mark_line(**(kind | mark)).encode(x=x, y=y)
    return drawn


def panel(layers: list[alt.Chart], height: int, **words: Any) -> alt.LayerChart:
    """Layers on one pair of axes; `words` are their title and description."""
    return alt.LayerChart(layer=layers, width=WIDTH, height=height, **words)


def day_words(day: Any) -> str:
    """`3 July`."""
    return f"{day.day} {day:%B}"
