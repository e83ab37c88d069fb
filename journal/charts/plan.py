"""The plan study drawn: the plot to scale from above, with what stands in each place."""

from datetime import date
from textwrap import wrap
from typing import Any

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, themed, title
from journal.charts.words import some
from journal.studies.notes import counted

NOTHING = "The plot sheet gives no place both two sides and a corner, so no plan can be drawn."
LETTER, LINE = 6.4, 15  # pixels of a letter across, and of a line of them
TOOLTIP = [
    alt.Tooltip("place:N"),
    alt.Tooltip("stands:N", title="what stands there"),
    alt.Tooltip("across_m:Q", title="m across"),
    alt.Tooltip("down_m:Q", title="m down"),
]


def plan_chart(frame: pd.DataFrame, day: date | None = None) -> AnyChart:
    """The places of the frame that can be drawn, in m from the plot's own corner, named within.

    `day` is the day that the frame is of, for the title.
    """
    drawn = frame[frame["why"] == ""]
    if drawn.empty:
        return sentence(NOTHING)
    rows = drawn.drop(columns=["kind", "why"]).assign(
        x2=drawn["x_m"] + drawn["across_m"],
        y2=drawn["y_m"] + drawn["down_m"],
        full=drawn["stands"] != "",
    )
    figures = ["x_m", "y_m", "across_m", "down_m", "x2", "y2"]
    rows = rows.astype(dict.fromkeys(figures, "float64"))
    ends = [[rows["x_m"].min(), rows["x2"].max()], [rows["y_m"].min(), rows["y2"].max()]]
    scale = WIDTH / (ends[0][1] - ends[0][0])
    on = f" on {day.day} {day:%B %Y}" if day else ""
    plot = alt.LayerChart(
        layer=_layers(_labelled(rows, scale), ends),
        width=WIDTH,
        height=round(scale * (ends[1][1] - ends[1][0])),
        title=title(f"The plot{on}, to scale"),
    )
    return themed(plot, _words(rows, len(frame) - len(rows), on))


def _words(rows: pd.DataFrame, missing: int, on: str) -> str:
    words = (
        f"A plan of {counted(len(rows), 'place')} to scale, with what stands in each{on}; "
        f"something stands in {some(int(rows['full'].sum()))} of them."
    )
    if missing:
        words += f" {counted(missing, 'place')} without two sides and a corner on the sheet "
        words += f"{'is' if missing == 1 else 'are'} not drawn."
    return words


def _labelled(rows: pd.DataFrame, scale: float) -> pd.DataFrame:
    """The rows with the lines of their words, where these begin, and whether they run upwards."""
    labels = [_label(row, scale) for row in rows.to_dict("records")]
    turned = pd.Series([turn for _, turn in labels], rows.index, dtype=bool)
    words: list[Any] = [lines for lines, _ in labels]
    rows = rows.assign(lines=pd.Series(words, rows.index, dtype=object), turned=turned)
    # a text of several lines hangs from its first: half of the others go before the middle
    lifted = rows["lines"].map(len).sub(1) * LINE / scale / 2
    return rows.assign(
        x_mid=(rows["x_m"] + rows["x2"]) / 2 - lifted.where(turned, 0.0),
        y_mid=(rows["y_m"] + rows["y2"]) / 2 - lifted.where(~turned, 0.0),
    )


def _layers(rows: pd.DataFrame, ends: list[list[float]]) -> list[alt.Chart]:
    axis = alt.Axis(title="m", grid=False, tickMinStep=1)
    x = alt.X("x_m:Q", axis=axis, scale=alt.Scale(domain=ends[0], nice=False))
    y = alt.Y("y_m:Q", axis=axis, scale=alt.Scale(domain=ends[1], nice=False, reverse=True))
    base = alt.Chart(rows)
    shapes = [
        alt.Chart(own)
        .mark_rect(fill=LIGHT[fill], stroke=LIGHT["mute"], strokeWidth=1, opacity=1)
        .encode(x=x, x2="x2:Q", y=y, y2="y2:Q", tooltip=TOOLTIP)
        for fill, own in (("band", rows[rows["full"]]), ("paper", rows[~rows["full"]]))
        if not own.empty
    ]
    names = [
        base.mark_text(angle=angle, baseline="middle", lineHeight=LINE, fontSize=12)
        .encode(x="x_mid:Q", y="y_mid:Q", text="lines:N")
        .properties(data=own)
        for angle, own in ((0, rows[~rows["turned"]]), (270, rows[rows["turned"]]))
        if not own.empty
    ]
    return [*shapes, *names]


def _label(row: dict[Any, Any], scale: float) -> tuple[list[str], bool]:
    """A place's name and what stands there in lines that fit, and whether they run up the page."""
    across, down = row["across_m"] * scale, row["down_m"] * scale
    turned = down > across and len(row["place"]) * LETTER > across
    along, high = (down, across) if turned else (across, down)
    letters, lines = max(int(along / LETTER), 3), max(int(high / LINE), 1)
    name = row["place"] if len(row["place"]) <= letters else f"{row['place'][: letters - 1]}…"
    if lines == 1:
        return [name], turned
    crops = wrap(row["stands"], letters, max_lines=lines - 1, placeholder=" …")
    return [name, *crops], turned
