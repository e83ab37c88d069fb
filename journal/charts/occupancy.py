"""The occupancy study drawn: a calendar of the beds, what stood in each from when to when."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, stacked, title, x2_value, x_value
from journal.charts.words import counted, listed, year_list
from journal.charts.years import MONTH_STARTS, month_axis

NOTHING = "Nothing is known to have stood in any bed."
LANE = 25
LANES_A_PANEL = 40
# a name needs about so many days of a phone's width
ROOM_FOR_NAME = 125
TOOLTIP = [
    alt.Tooltip("place:N"),
    alt.Tooltip("name:N", title="what"),
    alt.Tooltip("begins:T", title="from", format="%-d %B"),
    alt.Tooltip("ends:T", title="to", format="%-d %B"),
]


def occupancy_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the frame: each bed's crops as bars under the months, beds by name."""
    if frame.empty:
        return sentence(NOTHING)
    year = year_list(frame)[-1]
    stays = _merged(frame[frame["year"] == year])
    panels = [_panel(part, year) for part in _parts(_laid_out(stays))]
    return stacked(panels)


def _merged(rows: pd.DataFrame) -> pd.DataFrame:
    """Stays of one crop in one place that touch are one bar, named by its cultivars."""
    rows = rows.sort_values(["place", "crop", "begins"])
    ends = rows.groupby(["place", "crop"])["ends"].cummax().groupby([rows["place"], rows["crop"]])
    rows = rows.assign(
        bar=(rows["begins"] > ends.shift()).groupby([rows["place"], rows["crop"]]).cumsum()
    )
    keys = ["place", "crop", "bar"]
    spans = rows.groupby(keys).agg(begins=("begins", "min"), ends=("ends", "max"))
    cultivars = (
        rows[rows["cultivar"] != ""]
        .groupby(keys)["cultivar"]
        .agg(lambda names: listed(list(dict.fromkeys(names))))
    )
    bars = spans.join(cultivars.rename("cultivars")).reset_index()
    bars["name"] = bars["crop"] + (" ‘" + bars["cultivars"] + "’").fillna("")
    return bars


def _laid_out(bars: pd.DataFrame) -> pd.DataFrame:
    """Bars with a lane each, so that neither bars nor their names touch; a lane for each name."""
    rows: list[dict[str, Any]] = []
    lane = 0
    for place, own in bars.sort_values(["place", "begins", "crop"]).groupby("place", sort=True):
        rows.append({"place": place, "lane": lane, "heading": place})
        free: list[int] = []
        for bar in own.to_dict("records"):
            first, last = bar["begins"].day_of_year, bar["ends"].day_of_year
            late = first > 366 - ROOM_FOR_NAME
            words_from = min(first, last - ROOM_FOR_NAME) if late else first
            words_to = last if late else max(last, first + ROOM_FOR_NAME)
            at = next((at for at, day in enumerate(free) if day < words_from), len(free))
            free[at : at + 1] = [words_to]
            laid = {"lane": lane + 1 + at, "first": first, "last": last + 1, "late": late}
            rows.append({str(key): value for key, value in bar.items()} | laid)
        lane += 1 + len(free)
    return pd.DataFrame(rows).drop(columns=["bar", "cultivars"])


def _parts(rows: pd.DataFrame) -> list[pd.DataFrame]:
    """The beds shared out to panels, so that none is taller than a sheet of paper."""
    parts: list[list[str]] = [[]]
    top = 0
    for place, lanes in rows.groupby("place", sort=False)["lane"]:
        if lanes.max() - top >= LANES_A_PANEL and parts[-1]:
            parts.append([])
            top = int(lanes.min())
        parts[-1].append(str(place))
    return [rows[rows["place"].isin(part)] for part in parts]


def _panel(rows: pd.DataFrame, year: int) -> alt.LayerChart:
    rows = rows.assign(lane=rows["lane"] - rows["lane"].min())
    lanes = int(rows["lane"].max()) + 1
    y = alt.Y("lane:O", axis=None, scale=alt.Scale(paddingInner=0, domain=list(range(lanes))))
    bars = rows[rows["heading"].isna()].drop(columns="heading").astype({"late": bool})
    scale = alt.Scale(domain=[MONTH_STARTS[0], 366], nice=False)
    x = alt.X("first:Q", scale=scale, axis=month_axis("day of the year"))
    heads = alt.Chart(rows.loc[rows["heading"].notna(), ["lane", "heading"]]).encode(y=y)
    drawn = alt.Chart(bars).encode(y=y, tooltip=TOOLTIP)
    text: dict[str, Any] = {"baseline": "bottom", "dy": 3, "fontSize": 12}
    layers = [
        heads.mark_rule(color=LIGHT["rule"], yOffset=-LANE // 2 + 1).encode(
            x=x_value(0), x2=x2_value("width")
        ),
        heads.mark_text(align="left", fontSize=13, fontWeight="bold", dy=2).encode(
            x=x_value(0), text="heading:N"
        ),
        drawn.mark_bar(height=6, yOffset=8, color=LIGHT["moss"], cornerRadius=2).encode(
            x=x, x2="last:Q"
        ),
        *(
            alt.Chart(named)
            .mark_text(align="right" if late else "left", **text)
            .encode(y=y, x=alt.X(f"{edge}:Q", scale=scale), text="crop:N")
            for late, edge in ((False, "first"), (True, "last"))
            if not (named := bars[bars["late"] == late]).empty
        ),
    ]
    places = list(dict.fromkeys(rows["place"]))
    span = places[0] if len(places) == 1 else f"{places[0]} to {places[-1]}"
    return alt.LayerChart(
        layer=layers,
        width=WIDTH,
        height=lanes * LANE,
        title=title(
            f"{span}, {year}", "Each bar from the first day it can have stood to the last."
        ),
        description=(
            f"Bars of what stood in {counted(len(places), 'place')} through {year}: "
            f"{counted(len(bars), 'crop')} from the day each came to the day it went."
        ),
    )
