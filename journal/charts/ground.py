"""The ground study drawn: beds by years, what family stood where, and how soon it came back."""

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, stacked, title, x_value
from journal.charts.words import year_list
from journal.studies.notes import counted

NOTHING = "Nothing is known to have stood on any ground."
LANE = 24
LANES_A_PANEL = 40
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
    return stacked([_panel(part, years) for part in _parts(cells)])


def came_back(years_without: float, low: float, high: float) -> str:
    """The sign of a return: how long it stayed away beside what is advised."""
    if pd.isna(years_without) or pd.isna(low):
        return NEW
    if years_without >= high:
        return ALL
    return SOME if years_without >= low else SOONER


def _laid_out(rows: pd.DataFrame) -> pd.DataFrame:
    """A lane for each bed's name, and below it one for each family of its fullest year."""
    rows = rows.assign(
        sign=[
            came_back(*figures) if arrived else STOOD_ON
            for arrived, *figures in rows[
                ["arrived", "years_without", "advised_low", "advised_high"]
            ].to_numpy()
        ]
    )
    rows["says"] = rows["sign"] + " " + rows["crops"]
    cells, lane = [], 0
    for place, own in rows.groupby("place", sort=True):
        cells.append({"place": place, "lane": lane, "heading": place})
        # a family that stands on keeps the lane that it had
        order = {kin: at for at, kin in enumerate(dict.fromkeys(_kin(own.sort_values("since"))))}
        for _, year in own.groupby("year"):
            kept = year.assign(at=_kin(year).map(order)).sort_values("at")
            cells += [
                {str(key): value for key, value in cell.items()} | {"lane": lane + 1 + at}
                for at, cell in enumerate(kept.drop(columns="at").to_dict("records"))
            ]
        lane += 1 + int(own.groupby("year").size().max())
    return pd.DataFrame(cells)


def _kin(rows: pd.DataFrame) -> "pd.Series[str]":
    return rows["family"].where(rows["family"] != "", rows["crops"])


def _parts(cells: pd.DataFrame) -> list[pd.DataFrame]:
    """The beds shared out to panels, so that none is taller than a sheet of paper."""
    last = cells.groupby("place", sort=False)["lane"].max()
    parts: list[list[str]] = [[]]
    top = 0
    for place, bottom in last.items():
        if bottom - top >= LANES_A_PANEL and parts[-1]:
            parts.append([])
            top = int(cells.loc[cells["place"] == place, "lane"].min())
        parts[-1].append(str(place))
    return [cells[cells["place"].isin(part)] for part in parts]


def _panel(cells: pd.DataFrame, years: list[int]) -> alt.LayerChart:
    cells = cells.assign(lane=cells["lane"] - cells["lane"].min())
    lanes = int(cells["lane"].max()) + 1
    y = alt.Y("lane:O", axis=None, scale=alt.Scale(paddingInner=0, domain=list(range(lanes))))
    heads = alt.Chart(cells.loc[cells["heading"].notna(), ["lane", "heading"]]).encode(y=y)
    named = ["place", "year", "family", "crops", "sign", "says", "lane"]
    figures = ["years_without", "advised_low", "advised_high"]
    drawn = cells.loc[cells["heading"].isna(), [*named, *figures]]
    drawn = drawn.astype({"year": int, **dict.fromkeys(figures, "float64")})
    base = alt.Chart(drawn).encode(y=y, tooltip=TOOLTIP)
    scale = alt.Scale(domain=years, paddingInner=0.04, paddingOuter=0)
    axis = alt.Axis(title="calendar year", orient="top", labelAngle=0, grid=False, labelFontSize=13)
    colour = alt.Scale(domain=list(COLOURS), range=[LIGHT[name] for name in COLOURS.values()])
    tiles = base.mark_bar(height=LANE - 4, cornerRadius=3, opacity=0.32).encode(
        x=alt.X("year:O", scale=scale, axis=axis),
        color=alt.Color("sign:N", scale=colour).legend(None),
    )
    # on a telephone a column is some 65 pixels wide: smaller, so that most names still fit
    text = base.mark_text(
        align="left",
        dx=alt.expr("width < 500 ? 3 : 5"),
        fontSize=alt.expr("width < 500 ? 10 : 12"),
        limit=alt.expr(f"width / {len(years)} - (width < 500 ? 6 : 14)"),
    ).encode(x=alt.X("year:O", scale=scale, axis=axis, bandPosition=0), text="says:N")
    names = heads.mark_text(align="left", fontSize=13, fontWeight="bold", dy=3).encode(
        x=x_value(0), text="heading:N"
    )
    soon = drawn[drawn["sign"] == SOONER]
    places = list(dict.fromkeys(cells["place"]))
    return alt.LayerChart(
        layer=[tiles, text, names],
        width=WIDTH,
        height=lanes * LANE,
        title=title(f"What stood where, {_years(years)}", KEY),
        description=(
            f"A grid of {counted(len(places), 'place')} through {_years(years)} with the crops of "
            f"each family that stood there; {counted(len(soon), 'return')} came sooner than any "
            "source advises."
        ),
    )


def _years(years: list[int]) -> str:
    return str(years[0]) if len(years) == 1 else f"{years[0]} to {years[-1]}"
