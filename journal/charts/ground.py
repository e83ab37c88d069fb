"""The ground study drawn: beds by years, what family stood where, and how soon it came back."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, stacked, title, x_value
from journal.charts.words import year_list
from journal.studies.notes import counted

NOTHING = "Nothing is known to have stood on any ground."
# in pixels: a bed's name, a crop's line, what a tile has around its lines, between two tiles
HEAD, LINE, PAD, GAP = 24, 16, 4, 4
PANEL = 960
YEARS_SHOWN = 5
SOONER, SOME, ALL, NEW, STOOD_ON = "▼", "■", "●", "○", "–"
COLOURS = {SOONER: "clay", SOME: "straw", ALL: "moss", NEW: "slate", STOOD_ON: "rule"}
KEY = [
    "▼ back sooner than any source advises · ■ than some advise · ● later than all.",
    "○ not there before in this diary, or nothing advised · – stands on from the year before.",
]
TOOLTIP = [
    alt.Tooltip("place:N"),
    alt.Tooltip("year:O"),
    alt.Tooltip("family:N"),
    alt.Tooltip("crops:N"),
    alt.Tooltip("years_without:Q", title="years without", format=".1f"),
    alt.Tooltip("advised_low:Q", title="advised, from", format=".0f"),
    alt.Tooltip("advised_high:Q", title="to", format=".0f"),
]


def ground_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest years of the frame as columns, each bed's families in them by name."""
    if frame.empty:
        return sentence(NOTHING)
    years = year_list(frame)[-YEARS_SHOWN:]
    cells = _laid_out(frame[frame["year"].isin(years)])
    parts = _parts(cells)
    return stacked([_panel(part, years, len(parts)) for part in parts])


def came_back(years_without: float, low: float, high: float) -> str:
    """The sign of a return: how long it stayed away beside what is advised."""
    if pd.isna(years_without) or pd.isna(low):
        return NEW
    if years_without >= high:
        return ALL
    return SOME if years_without >= low else SOONER


def _laid_out(rows: pd.DataFrame) -> pd.DataFrame:
    """Tiles with their top and bottom in pixels, the families of a bed's year one below another."""
    rows = rows.assign(
        sign=[
            came_back(*figures) if arrived else STOOD_ON
            for arrived, *figures in rows[
                ["arrived", "years_without", "advised_low", "advised_high"]
            ].to_numpy()
        ]
    )
    rows["says"] = rows["sign"] + " " + rows["crops"]
    rows["tall"] = LINE * (rows["crops"].str.count(", ") + 1) + PAD
    cells, top = [], 0
    for place, own in rows.groupby("place", sort=True):
        cells.append({"place": place, "top": top, "bottom": top + HEAD, "heading": place})
        # a family that stands on keeps its turn
        order = {kin: at for at, kin in enumerate(dict.fromkeys(_kin(own.sort_values("since"))))}
        ends = [top + HEAD]
        for _, year in own.groupby("year"):
            kept = year.assign(at=_kin(year).map(order)).sort_values("at").drop(columns="at")
            bottoms = top + HEAD + (kept["tall"] + GAP).cumsum()
            placed = kept.assign(top=bottoms - kept["tall"] - GAP, bottom=bottoms - GAP)
            cells += [
                {str(key): value for key, value in cell.items()}
                for cell in placed.to_dict("records")
            ]
            ends.append(int(bottoms.iloc[-1]))
        top = max(ends) + GAP
    return pd.DataFrame(cells)


def _kin(rows: pd.DataFrame) -> "pd.Series[str]":
    return rows["family"].where(rows["family"] != "", rows["crops"])


def _parts(cells: pd.DataFrame) -> list[pd.DataFrame]:
    """The beds shared out to panels, so that none is taller than a sheet of paper."""
    last = cells.groupby("place", sort=False)["bottom"].max()
    parts: list[list[str]] = [[]]
    top = 0
    for place, bottom in last.items():
        if bottom - top >= PANEL and parts[-1]:
            parts.append([])
            top = int(cells.loc[cells["place"] == place, "top"].min())
        parts[-1].append(str(place))
    return [cells[cells["place"].isin(part)] for part in parts]


def _panel(cells: pd.DataFrame, years: list[int], panels: int) -> alt.LayerChart:
    above = int(cells["top"].min())
    cells = cells.assign(top=cells["top"] - above, bottom=cells["bottom"] - above)
    tall = int(cells["bottom"].max())
    heads = cells.loc[cells["heading"].notna(), ["top", "heading"]]
    named = ["place", "year", "family", "crops", "sign", "says", "top", "bottom"]
    figures = ["years_without", "advised_low", "advised_high"]
    drawn = cells.loc[cells["heading"].isna(), [*named, *figures]]
    drawn = drawn.astype({"year": int, **dict.fromkeys(figures, "float64")})
    soon = drawn[drawn["sign"] == SOONER]
    places = list(dict.fromkeys(cells["place"]))
    part = f", {' to '.join(dict.fromkeys([places[0], places[-1]]))}" if panels > 1 else ""
    return alt.LayerChart(
        layer=_layers(drawn, heads, years, tall),
        width=WIDTH,
        height=tall,
        title=title(f"What stood where, {_years(years)}{part}", KEY),
        description=(
            f"A grid of {counted(len(places), 'place')} through {_years(years)} with the crops of "
            f"each family that stood there; {_returns(len(soon))} came sooner than any source "
            "advises."
        ),
    )


def _layers(
    drawn: pd.DataFrame, heads: pd.DataFrame, years: list[int], tall: int
) -> list[alt.Chart]:
    down = alt.Scale(domain=[0, tall], nice=False, reverse=True)
    y = alt.Y("top:Q", axis=None, scale=down)
    scale = alt.Scale(domain=years, paddingInner=0.04, paddingOuter=0)
    axis = alt.Axis(title="calendar year", orient="top", labelAngle=0, grid=False, labelFontSize=13)
    colour = alt.Scale(domain=list(COLOURS), range=[LIGHT[name] for name in COLOURS.values()])
    tiles = (
        alt.Chart(drawn)
        .mark_bar(cornerRadius=3, opacity=0.32)
        .encode(
            x=alt.X("year:O", scale=scale, axis=axis),
            y=y,
            y2="bottom:Q",
            color=alt.Color("sign:N", scale=colour).legend(None),
            tooltip=TOOLTIP,
        )
    )
    start = alt.X("year:O", scale=scale, axis=axis, bandPosition=0)
    rows = _lines(drawn)
    lines, firsts = alt.Chart(rows), alt.Chart(rows[rows["sign"] != ""])
    # on a telephone a column is some 65 pixels wide: smaller, so that most names still fit
    size: dict[str, Any] = {
        "align": "left",
        "fontSize": alt.expr("width < 500 ? 10 : 12"),
        "dy": LINE // 2 + 1,
    }
    signs = firsts.mark_text(dx=alt.expr("width < 500 ? 3 : 6"), **size)
    crops = lines.mark_text(
        dx=alt.expr("width < 500 ? 13 : 20"),
        limit=alt.expr(f"width / {len(years)} * 0.96 - (width < 500 ? 14 : 24)"),
        **size,
    )
    names = alt.Chart(heads).mark_text(align="left", fontSize=13, fontWeight="bold", dy=HEAD // 2)
    return [
        tiles,
        signs.encode(x=start, y=y, text="sign:N"),
        crops.encode(x=start, y=y, text="crop:N"),
        names.encode(x=x_value(0), y=y, text="heading:N"),
    ]


def _lines(drawn: pd.DataFrame) -> pd.DataFrame:
    """Each crop of a tile on a line of its own, the sign before the first."""
    return pd.DataFrame(
        [
            {
                "year": year,
                "top": top + PAD // 2 + at * LINE,
                "sign": "" if at else sign,
                "crop": crop,
            }
            for year, top, sign, crops in drawn[["year", "top", "sign", "crops"]].to_numpy()
            for at, crop in enumerate(crops.split(", "))
        ]
    )


def _returns(count: int) -> str:
    return counted(count, "return") if count else "no return"


def _years(years: list[int]) -> str:
    return str(years[0]) if len(years) == 1 else f"{years[0]} to {years[-1]}"
