"""The occupancy study drawn: a calendar of the beds, what stood in each from when to when."""

from collections.abc import Iterator
from typing import Any

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, stacked, title, x2_value, x_value
from journal.charts.words import listed, year_list
from journal.charts.years import MONTH_STARTS, month_axis
from journal.studies.notes import counted

NOTHING = "Nothing is known to have stood in any bed."
LANE = 22
LANES_A_PANEL = 22
YEAR = 366
# a letter needs about so many days of a phone's width
DAYS_A_LETTER = 7
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
    parts = _parts(_laid_out(stays))
    return stacked([_panel(part, year, len(parts)) for part in parts])


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
    return pd.DataFrame(
        [
            {"place": place, "begins": begins, "ends": ends, "crop": crops, "name": names}
            for (place, begins, ends), own in bars.groupby(["place", "begins", "ends"])
            for crops, names in _together(own)
        ]
    )


def _together(bars: pd.DataFrame) -> Iterator[tuple[str, str]]:
    """Crops that came and went together share a bar, as many as its line has room to name."""
    begins, ends = bars["begins"].iloc[0].day_of_year, bars["ends"].iloc[0].day_of_year
    longest = max(YEAR - begins, ends) // DAYS_A_LETTER - 1
    crops: list[str] = []
    names: list[str] = []
    for crop, name in bars[["crop", "name"]].to_numpy():
        if crops and len(", ".join([*crops, crop])) > longest:
            yield ", ".join(crops), listed(names)
            crops, names = [], []
        crops.append(crop)
        names.append(name)
    yield ", ".join(crops), listed(names)


def _laid_out(bars: pd.DataFrame) -> pd.DataFrame:
    """Bars with a lane each, so that neither bars nor their names touch; a lane for each name."""
    rows: list[dict[str, Any]] = []
    lane = 0
    for place, own in bars.sort_values(["place", "begins", "crop"]).groupby("place", sort=True):
        rows.append({"place": place, "lane": lane, "heading": place})
        free: list[int] = []
        for bar in own.to_dict("records"):
            first, last = bar["begins"].day_of_year, bar["ends"].day_of_year
            room = DAYS_A_LETTER * (len(bar["crop"]) + 1)
            late = YEAR - first < min(room, last)
            words_from = min(first, last - room) if late else first
            words_to = last if late else max(last, first + room)
            at = next((at for at, day in enumerate(free) if day < words_from), len(free))
            free[at : at + 1] = [words_to]
            laid = {"lane": lane + 1 + at, "first": first, "last": last + 1, "late": late}
            rows.append({str(key): value for key, value in bar.items()} | laid)
        lane += 1 + len(free)
    return pd.DataFrame(rows)


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


def _panel(rows: pd.DataFrame, year: int, panels: int) -> alt.LayerChart:
    rows = rows.assign(lane=rows["lane"] - rows["lane"].min())
    lanes = int(rows["lane"].max()) + 1
    bars = rows[rows["heading"].isna()].drop(columns="heading").astype({"late": bool})
    places = list(dict.fromkeys(rows["place"]))
    span = f", {' to '.join(dict.fromkeys([places[0], places[-1]]))}" if panels > 1 else ""
    return alt.LayerChart(
        layer=[*_heads(rows, lanes), *_bars(bars, lanes)],
        resolve=alt.Resolve(axis=alt.AxisResolveMap(x="independent")),
        width=WIDTH,
        height=lanes * LANE,
        title=title(f"What stood where in {year}{span}"),
        description=(
            f"Bars of what stood in {counted(len(places), 'place')} through {year}: "
            f"{counted(len(bars), 'bar')}, each from the day it came to the day it went."
        ),
    )


def _lane(lanes: int) -> alt.Y:
    return alt.Y("lane:O", axis=None, scale=alt.Scale(paddingInner=0, domain=list(range(lanes))))


def _heads(rows: pd.DataFrame, lanes: int) -> list[alt.Chart]:
    """A rule and the name of each bed."""
    named = rows.loc[rows["heading"].notna(), ["lane", "heading"]]
    base = alt.Chart(named).encode(y=_lane(lanes))
    rule = base.mark_rule(color=LIGHT["rule"], yOffset=-LANE // 2 + 1)
    name = base.mark_text(align="left", fontSize=13, fontWeight="bold", dy=2)
    return [
        rule.encode(x=x_value(0), x2=x2_value("width")),
        name.encode(x=x_value(0), text="heading:N"),
    ]


def _bars(bars: pd.DataFrame, lanes: int) -> list[alt.Chart]:
    """The bars under the months, which stand above and below, and their names."""
    above, below = month_axis(None), month_axis("month")
    above.orient, below.grid = "top", False
    scale = alt.Scale(domain=[MONTH_STARTS[0], YEAR], nice=False)
    base = alt.Chart(bars).encode(y=_lane(lanes), tooltip=TOOLTIP)
    bar = base.mark_bar(height=5, yOffset=7, color=LIGHT["moss"], cornerRadius=2)
    again = base.mark_bar(height=0, opacity=0)
    text: dict[str, Any] = {"baseline": "bottom", "dy": 3, "fontSize": 12}
    names = [
        alt.Chart(named)
        .mark_text(align="right" if late else "left", **text)
        .encode(y=_lane(lanes), x=alt.X(f"{edge}:Q", scale=scale, axis=None), text="crop:N")
        for late, edge in ((False, "first"), (True, "last"))
        if not (named := bars[bars["late"] == late]).empty
    ]
    return [
        bar.encode(x=alt.X("first:Q", scale=scale, axis=above), x2="last:Q"),
        again.encode(x=alt.X("first:Q", scale=scale, axis=below)),
        *names,
    ]
