"""The days of a year drawn: temperatures and frosts, rain, and both sums beside earlier years."""

from dataclasses import dataclass
from typing import Any

import altair as alt
import pandas as pd

from journal.charts.calendar import amount, day_axis, day_words, line, panel, plain, span
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import number, year_list
from journal.studies.climate_days import well_read
from journal.studies.notes import counted

NOTHING = "No weather was read."
DAY = alt.Tooltip("date:T", title="day", format="%-d %B")


@dataclass(frozen=True, slots=True)
class _Sum:
    """One of the sums: its columns' name, heading, unit and colour."""

    name: str
    heading: str
    unit: str
    colour: str


RAIN = _Sum("rain", "Rain since New Year", "mm", "slate")
WARMTH = _Sum("degree_days", "Degree days since New Year", "°C days", "clay")


def climate_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the days of the climate, one panel below the other.

    Sums have a panel only where the year is well read: one with gaps would look like drought.
    """
    if frame.empty:
        return sentence(NOTHING)
    year = year_list(frame)[-1]
    days = frame[frame["year"] == year]
    panels: list[alt.LayerChart] = []
    if days["t_min_c"].notna().any() or days["t_max_c"].notna().any():
        panels.append(_temperatures(days, year))
    if days["rain_mm"].notna().any():
        panels.append(_rain(days, year))
    for each in (RAIN, WARMTH):
        if days[f"{each.name}_to_date"].max() > 0 and well_read(days, each.name):
            panels.append(_sum_so_far(days, year, each))
    return stacked(panels) if panels else sentence(NOTHING)


def _temperatures(days: pd.DataFrame, year: int) -> alt.LayerChart:
    rows = plain(days, "date", "t_min_c", "t_max_c", "frost")
    rows["frost"] = days["frost"].fillna(False).astype(bool)
    warmest, coldest = rows["t_max_c"].max(), rows["t_min_c"].min()
    x = day_axis("date", year)
    y = amount("t_min_c", "°C", float(warmest), min(float(coldest), 0.0))
    tooltip = [
        DAY,
        alt.Tooltip("t_min_c:Q", title="lowest", format=".1f"),
        alt.Tooltip("t_max_c:Q", title="highest", format=".1f"),
    ]
    base = alt.Chart(rows).encode(tooltip=tooltip)
    bars = base.mark_rule(strokeWidth=1.5, color=LIGHT["straw"]).encode(x=x, y=y, y2="t_max_c:Q")
    freezing = alt.Chart(pd.DataFrame({"at": [0.0]})).mark_rule(color=LIGHT["mute"])
    frosts = alt.Chart(rows[rows["frost"]]).encode(tooltip=tooltip)
    dots = frosts.mark_point(size=16, filled=True, color=LIGHT["slate"], opacity=1)
    key = "A stroke a day from the lowest to the highest temperature; ● a frost, below 0 °C."
    told = counted(int(rows["frost"].sum()), "frost")
    unread = int((rows["t_min_c"].isna() | rows["t_max_c"].isna()).sum())
    words = f"The lowest and highest temperature of each day of {year}, with {told}"
    if pd.notna(warmest) and pd.notna(coldest):
        words += f", from {degrees(coldest)} to {degrees(warmest)} °C"
    heading = title(f"Temperature, {year}", _with_unread(key, unread))
    layers = [freezing.encode(y="at:Q"), bars, dots.encode(x=x, y=y)]
    return panel(layers, 190, title=heading, description=f"{words}.")


def degrees(value: float) -> str:
    """A temperature with a true minus: `−1.5`."""
    return number(value).replace("-", "−")


def _rain(days: pd.DataFrame, year: int) -> alt.LayerChart:
    rows = plain(days, "date", "rain_mm")
    wettest: Any = rows.sort_values("rain_mm", ascending=False, kind="stable").iloc[0]
    y = amount("rain_mm", "mm", float(wettest["rain_mm"]))
    tooltip = [DAY, alt.Tooltip("rain_mm:Q", title="rain, mm", format=".1f")]
    bars = alt.Chart(rows[rows["rain_mm"] > 0]).mark_rule(strokeWidth=1.6, color=LIGHT["slate"])
    drawn = bars.encode(x=day_axis("date", year), y=y, y2=alt.datum(0), tooltip=tooltip)
    key = _with_unread("Rain of each day.", int(rows["rain_mm"].isna().sum()))
    words = (
        f"The rain of each day of {year}; the most was {number(wettest['rain_mm'])} mm on "
        f"{day_words(wettest['date'])}."
    )
    return panel([drawn], 90, title=title(f"Rain, {year}", key), description=words)


def _with_unread(key: str, unread: int) -> str:
    return f"{key} Not read: {counted(unread, 'day')}." if unread else key


def _sum_so_far(days: pd.DataFrame, year: int, what: _Sum) -> alt.LayerChart:
    to_date, low, high = f"{what.name}_to_date", f"{what.name}_low", f"{what.name}_high"
    mean = f"{what.name}_mean"
    rows = plain(days, "date", to_date, low, mean, high)
    last: dict[Any, Any] = days.iloc[-1].to_dict()
    x, most = day_axis("date", year), float(rows[[to_date, high]].max().max())
    tooltip = [
        DAY,
        alt.Tooltip(f"{to_date}:Q", title=str(year), format=",.0f"),
        alt.Tooltip(f"{mean}:Q", title="mean before", format=",.0f"),
        alt.Tooltip(f"{low}:Q", title="least before", format=",.0f"),
        alt.Tooltip(f"{high}:Q", title="most before", format=",.0f"),
    ]
    base = alt.Chart(rows).encode(tooltip=tooltip)
    layers = [line(base, x, amount(to_date, what.unit, most), what.colour, strokeWidth=2.2)]
    if last[f"{what.name}_years"]:
        band = span(base, x, low, amount(high, what.unit, most))
        dashes = line(base, x, amount(mean, what.unit, most), "straw", strokeDash=[5, 3])
        layers = [band, dashes, *layers]
    heading = title(f"{what.heading}, {year}", _sum_key(last, year, what.name))
    return panel(layers, 150, title=heading, description=_sum_words(last, year, what))


def _sum_key(last: dict[Any, Any], year: int, name: str) -> list[str]:
    key = [_with_unread(f"Thick line: {year}.", last[f"{name}_unread"])]
    if last[f"{name}_years"]:
        earlier, lacking = counted(last[f"{name}_years"], "earlier year"), last[f"{name}_lacking"]
        short = f", lacking at most {counted(lacking, 'day')}" if lacking else ""
        key.append(f"Shaded: the least and most of {earlier}{short}; dashed: their mean.")
    return key


def _sum_words(last: dict[Any, Any], year: int, what: _Sum) -> str:
    reached = number(last[f"{what.name}_to_date"], 0)
    words = f"{what.heading} in {year} came to {reached} {what.unit} by {day_words(last['date'])}"
    if not last[f"{what.name}_years"]:
        return f"{words}; there is no earlier year to set beside it."
    low, high = (number(last[f"{what.name}_{end}"], 0) for end in ("low", "high"))
    return f"{words}; earlier years had {low} to {high} by then."
