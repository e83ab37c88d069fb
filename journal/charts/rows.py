"""Rows of a named mark each: the name above it at the left, its figure at the right.

The shape that the charts share: it needs no legend, keeps long names whole, and reads at the
width of a phone as at that of a sheet of paper.
"""

from collections.abc import Iterable
from typing import Any

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, x2_value, x_value

ROW = 34
ROOM_FOR_FIGURES = 100
MARK_OFFSET = 8


def numbered(frame: pd.DataFrame) -> alt.Chart:
    """A chart of the frame with one band a row, in the frame's order."""
    rows = frame.reset_index(drop=True).rename_axis("row").reset_index()
    scale = alt.Scale(paddingInner=0, paddingOuter=0)
    return alt.Chart(rows).encode(y=alt.Y("row:O", axis=None, sort=None, scale=scale))


def row_words(base: alt.Chart, room: int = ROOM_FOR_FIGURES) -> list[alt.Chart]:
    """The layers of names (`name`) and figures (`says`); `room` pixels are kept for the figures."""
    line: dict[str, Any] = {"baseline": "bottom", "dy": -1}
    name = base.mark_text(align="left", limit=alt.expr(f"width - {room}"), **line)
    says = base.mark_text(align="right", color=LIGHT["mute"], **line)
    return [
        name.encode(x=x_value(0), text="name:N"),
        says.encode(x=x_value("width"), text="says:N"),
    ]


def room_for(figures: Iterable[str]) -> int:
    """Pixels that the longest of some figures takes at the right of a row, with a gap before it."""
    return 14 + round(6.8 * max(map(len, figures), default=0))


def row_track(base: alt.Chart, height: float) -> alt.Chart:
    """A faint strip across each row, below its words."""
    strip: alt.Chart = base.mark_bar(
        height=height, yOffset=MARK_OFFSET, color=LIGHT["rule"], opacity=0.45, cornerRadius=2
    )
    return strip.encode(x=x_value(0), x2=x2_value("width"))


def row_panel(layers: list[alt.Chart], rows: int, **panel: Any) -> alt.LayerChart:
    """Layers over so many rows; `panel` is their title and description."""
    return alt.LayerChart(layer=layers, width=WIDTH, height=rows * ROW, **panel)


def bar_rows(
    frame: pd.DataFrame, x: alt.X, colour: str, tooltip: list[Any], **panel: Any
) -> alt.LayerChart:
    """Bars for a frame with the columns `name` and `says`; `panel` is its title and description."""
    base = numbered(frame).encode(tooltip=tooltip)
    bars = base.mark_bar(
        height=9, yOffset=MARK_OFFSET, color=LIGHT[colour], cornerRadiusEnd=2
    ).encode(x=x)
    words = row_words(base, room_for(frame["says"]))
    return row_panel([row_track(base, 9), bars, *words], len(frame), **panel)


def amount_axis(column: str, unit: str, most: float) -> alt.X:
    """An axis from nothing to the most of all rows."""
    axis = alt.Axis(title=unit, tickCount=5, grid=False)
    return alt.X(f"{column}:Q", axis=axis, scale=alt.Scale(domain=[0, most], nice=True))
