"""The water of each bed and pot drawn: what its root zone lacks, and what rain and can brought."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.calendar import amount, day_axis, day_words, line, panel, plain, span
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import number, year_list
from journal.studies.notes import counted

NOTHING = "No bed or pot whose water can be reckoned."
KEY = [
    "Line: water that the root zone lacks at least; shaded: at most, where a day was not read.",
    "Dashed: from here the crop begins to thirst. Strokes: rain; ▲ a watering.",
]
DAY = alt.Tooltip("date:T", title="day", format="%-d %B")


def water_need_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the frame, one panel a place and crop."""
    if frame.empty:
        return sentence(NOTHING)
    year = year_list(frame)[-1]
    rows = frame[frame["year"] == year]
    stands = rows.groupby(["place", "crop"], sort=True)
    return stacked(
        [
            _stand(own, f"{place}: {crop}, {year}", year, [] if at else KEY)
            for at, ((place, crop), own) in enumerate(stands)
        ]
    )


def _stand(own: pd.DataFrame, name: str, year: int, key: list[str]) -> alt.LayerChart:
    """One panel; the first of them says for all what the marks are."""
    brought: Any = own[["rain_mm", "watered_mm"]].max().max()
    most = max(float(own["total_mm"].max()), 0.0 if pd.isna(brought) else float(brought))
    layers = [*_lack(own, year, most), *_brought(own, year, most)]
    return panel(layers, 130, title=title(name, key), description=_words(own, year))


def _lack(own: pd.DataFrame, year: int, most: float) -> list[alt.Chart]:
    low, high, thirst = "depletion_low_mm", "depletion_high_mm", "readily_mm"
    rows = _day_by_day(plain(own, "date", low, high, thirst))
    x = day_axis("date", year)
    tooltip = [
        DAY,
        alt.Tooltip(f"{low}:Q", title="lacks at least, mm", format=".0f"),
        alt.Tooltip(f"{high}:Q", title="at most, mm", format=".0f"),
        alt.Tooltip(f"{thirst}:Q", title="thirsts from, mm", format=".0f"),
    ]
    base = alt.Chart(rows).encode(tooltip=tooltip)
    return [
        span(base, x, low, amount(high, "mm", most)),
        line(base, x, amount(thirst, "mm", most), "clay", strokeDash=[4, 3], strokeWidth=1.4),
        line(base, x, amount(low, "mm", most), "slate", strokeWidth=2.2),
    ]


def _brought(own: pd.DataFrame, year: int, most: float) -> list[alt.Chart]:
    """Rain as strokes and waterings as triangles, one whose litres are not known at the foot."""
    rows = plain(own, "date", "rain_mm", "watered_mm")
    watered = rows[rows["watered_mm"].isna() | (rows["watered_mm"] > 0)]
    watered = watered.fillna({"watered_mm": 0.0})
    rain = alt.Chart(rows[rows["rain_mm"] > 0]).mark_rule(strokeWidth=1.6, color=LIGHT["slate"])
    cans = alt.Chart(watered).mark_point(
        shape="triangle-up", size=42, filled=True, color=LIGHT["moss"], opacity=1
    )
    fell = alt.Tooltip("rain_mm:Q", title="rain, mm", format=".1f")
    given = alt.Tooltip("watered_mm:Q", title="watered, mm", format=".1f")
    x = day_axis("date", year)
    return [
        rain.encode(x=x, y=amount("rain_mm", "mm", most), y2=alt.datum(0), tooltip=[DAY, fell]),
        cans.encode(x=x, y=amount("watered_mm", "mm", most), tooltip=[DAY, given]),
    ]


def _day_by_day(rows: pd.DataFrame) -> pd.DataFrame:
    """One row a day from the first to the last, so that the lines break between two crops."""
    every = pd.date_range(rows["date"].min(), rows["date"].max(), freq="D", name="date")
    whole: pd.DataFrame = rows.set_index("date").reindex(every).reset_index()
    return whole


def _words(own: pd.DataFrame, year: int) -> str:
    total = number(float(own["total_mm"].max()), 0)
    words = f"What the root zone lacked of water in {year}, day by day, of {total} mm"
    thirsty = own[own["state"] == "needs water"]
    if thirsty.empty:
        return f"{words}; on no day was it surely past what the crop takes up easily."
    days, first = counted(len(thirsty), "day"), day_words(thirsty["date"].iloc[0])
    return f"{words}; past what the crop takes up easily on {days}, the first {first}."
