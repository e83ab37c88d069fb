"""The survival study drawn: of the seeds of each variety, how many came up and were planted."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.rows import MARK_OFFSET, numbered, room_for, row_panel, row_track, row_words
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import crop_name, number, year_list
from journal.studies.notes import counted

NOTHING = "No sowing was counted."
TOOLTIP = [
    alt.Tooltip("name:N", title="what"),
    alt.Tooltip("sown:Q", format=",.0f"),
    alt.Tooltip("up:Q", format=",.0f"),
    alt.Tooltip("pct_up:Q", title="% up", format=".1f"),
    alt.Tooltip("planted:Q", format=",.0f"),
    alt.Tooltip("pct_planted:Q", title="% planted", format=".1f"),
    alt.Tooltip("lost:Q", format=",.0f"),
    alt.Tooltip("pct_law:Q", title="least % by seed law"),
    alt.Tooltip("law_source:N", title="law"),
]


def survival_chart(frame: pd.DataFrame) -> AnyChart:
    """The survival study's rows as per cent of the seeds, the years one below the other."""
    told = frame[frame["pct_up"].notna() | frame["pct_planted"].notna()]
    panels = [_year_panel(told[told["year"] == year], year) for year in year_list(told)]
    return stacked(panels) if panels else sentence(NOTHING)


def _year_panel(rows: pd.DataFrame, year: int) -> alt.LayerChart:
    rows = rows.sort_values(["crop", "cultivar"])
    figures = rows[["up", "sown", "planted", "sown_planted"]].to_numpy()
    named = rows.assign(
        name=[crop_name(*words) for words in rows[["crop", "cultivar"]].to_numpy()],
        says=[_says(*row) for row in figures],
    )
    axis = alt.Axis(title="per cent of the seeds sown", tickCount=5, grid=False)
    x = alt.X("pct_up:Q", axis=axis, scale=alt.Scale(domain=[0, 100], nice=False))
    below = int((rows["pct_up"] < rows["pct_law"]).sum())
    worse = f"; {below} came up worse than seed law lets be sold" if below else ""
    words = (
        f"Per cent of the seeds of {counted(len(rows), 'variety', 'varieties')} sown in {year} "
        f"that came up and that were planted{worse}."
    )
    key = (
        "Bar: came up · ● planted · stroke: the least that seed law lets be sold (US 7 CFR 201.31)"
    )
    words_of = row_words(_base(named), room_for(named["says"]))
    return row_panel(
        [row_track(_base(named), 9), *_marks(_base(named), x), *words_of],
        len(named),
        title=title(f"From seed to plant, sown in {year}", key),
        description=words,
    )


def _base(named: pd.DataFrame) -> alt.Chart:
    return numbered(named).encode(tooltip=TOOLTIP)


def _marks(base: alt.Chart, x: alt.X) -> list[alt.Chart]:
    at: dict[str, Any] = {"yOffset": MARK_OFFSET, "opacity": 1}
    bar = base.mark_bar(height=9, color=LIGHT["moss"], cornerRadiusEnd=2, **at)
    law = base.mark_tick(thickness=2, height=15, color=LIGHT["straw"], orient="vertical", **at)
    dot = base.mark_point(size=80, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, **at)
    return [bar.encode(x=x), law.encode(x="pct_law:Q"), dot.encode(x="pct_planted:Q")]


def _says(up: float, sown: float, planted: float, of: float) -> str:
    parts = []
    if not pd.isna(up):
        parts.append(f"{number(up)} of {number(sown)} up")
    if not pd.isna(planted):
        parts.append(f"{number(planted)}{'' if parts else f' of {number(of)}'} planted")
    return "; ".join(parts)
