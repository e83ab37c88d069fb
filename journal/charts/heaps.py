"""The heaps log drawn: what each bay held, by the books, and how hot it was."""

import altair as alt
import pandas as pd

from journal.charts.calendar import amount, day_words, panel
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import listed, number
from journal.studies.notes import counted

NOTHING = "No compost bay is written of."
HOT_C = 55
HELD = (
    "Litres by the books: filled and taken since it was last measured (●). A heap settles unseen."
)
HEAT = "● a reading; dashed: 55 °C, from which a heap counts as hot (7 CFR 205.203)."
FEW_DAYS = 62
A_ROW = 3  # readings of heat below this many are told and not drawn


def heaps_chart(frame: pd.DataFrame) -> AnyChart:
    """Two panels a bay: the litres that it held, and the heat if it was read more than twice."""
    if frame.empty:
        return sentence(NOTHING)
    # a day that is not certain stands in the middle, where the books have it
    middle = frame["date"] + (frame["date_end"] - frame["date"]) / 2
    rows = frame.assign(day=middle.dt.floor("D")).reset_index(names="order")
    days = [rows["day"].min(), rows["day"].max()]
    panels = []
    for place, own in rows.groupby("place", sort=True):
        heats = own[own["temperature_c"].notna()]
        panels.append(_held(own, str(place), days, heats if len(heats) < A_ROW else heats[:0]))
        panels += [_heat(heats, str(place), days)] if len(heats) >= A_ROW else []
    return stacked(panels)


def _time(days: list[pd.Timestamp]) -> alt.X:
    """Days by name within two months, else months; the year where it is not the axis's title."""
    ends = [{"year": day.year, "month": day.month, "date": day.day} for day in days]
    one_year, long = days[0].year == days[1].year, (days[1] - days[0]).days
    axis = alt.Axis(
        title=str(days[0].year) if one_year else None,
        labelAlign="left",
        labelOverlap=True,
        labelBound=8,
    )
    if long < FEW_DAYS:
        axis.format, axis.tickCount = "%-d %b" if one_year else "%-d %b %Y", 5
    else:
        axis.tickCount = {
            "interval": "month",
            "step": 1 if long < 400 else 3 if long < 1200 else 12,
        }
        if one_year:
            axis.format = "%b"
        else:
            axis.labelExpr = "timeFormat(datum.value, month(datum.value) ? '%b' : '%b %Y')"
    return alt.X("day:T", axis=axis, scale=alt.Scale(domain=ends, nice=False))


def _held(
    own: pd.DataFrame, place: str, days: list[pd.Timestamp], heats: pd.DataFrame
) -> alt.LayerChart:
    columns = ["day", "order", "what", "material", "held_l_low", "change_l"]
    rows = own[columns].astype({"held_l_low": "float64", "change_l": "float64"})
    tooltip = [
        alt.Tooltip("day:T", format="%-d %B %Y"),
        alt.Tooltip("what:N"),
        alt.Tooltip("material:N"),
        alt.Tooltip("change_l:Q", title="litres", format=",.0f"),
        alt.Tooltip("held_l_low:Q", title="held after", format=",.0f"),
    ]
    x, y = _time(days), amount("held_l_low", "litres", float(rows["held_l_low"].max()))
    steps = alt.Chart(rows).mark_line(
        interpolate="step-after", color=LIGHT["moss"], strokeWidth=1.8
    )
    measured = alt.Chart(rows[rows["what"] == "measured"]).mark_point(
        size=60, fill=LIGHT["moss"], stroke=LIGHT["paper"], strokeWidth=1, opacity=1
    )
    layers = [
        steps.encode(x=x, y=y, order="order:Q"),
        measured.encode(x=x, y=y, tooltip=tooltip),
    ]
    last = number(float(rows["held_l_low"].iloc[-1]), 0)
    read = [f"{number(heat, 0)} °C on {day_words(day)}" for day, heat in _readings(heats)]
    words = (
        f"The litres in {place} through {counted(len(rows), 'entry', 'entries')}, {last} at last"
    )
    words += f"; its heat was {listed(read)}." if read else "."
    return panel(layers, 130, title=title(f"{place}: what it held", HELD), description=words)


def _readings(heats: pd.DataFrame) -> list[tuple[pd.Timestamp, float]]:
    return list(zip(heats["day"], heats["temperature_c"].astype("float64"), strict=True))


def _heat(heats: pd.DataFrame, place: str, days: list[pd.Timestamp]) -> alt.LayerChart:
    rows = heats[["day", "temperature_c"]].astype({"temperature_c": "float64"})
    tooltip = [
        alt.Tooltip("day:T", format="%-d %B %Y"),
        alt.Tooltip("temperature_c:Q", title="°C", format=".0f"),
    ]
    top = max(float(rows["temperature_c"].max()), HOT_C + 5.0)
    x, y = _time(days), amount("temperature_c", "°C", top)
    dots = alt.Chart(rows).mark_point(
        size=60, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, opacity=1
    )
    hot = alt.Chart(pd.DataFrame({"temperature_c": [float(HOT_C)]})).mark_rule(
        color=LIGHT["mute"], strokeDash=[4, 3]
    )
    layers = [hot.encode(y=y), dots.encode(x=x, y=y, tooltip=tooltip)]
    hottest = number(float(rows["temperature_c"].max()), 0)
    words = (
        f"The heat of {place} in {counted(len(rows), 'reading')}, {hottest} °C at most, with a "
        f"line at {HOT_C} °C."
    )
    return panel(layers, 120, title=title(f"{place}: its heat", HEAT), description=words)
