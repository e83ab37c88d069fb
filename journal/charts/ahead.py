"""The usual days of the year drawn: when each crop is sown, planted and first picked."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.rows import MARK_OFFSET, numbered, room_for, row_panel, row_track, row_words
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import MONTHS, day_of_year, some, year_list
from journal.charts.years import MONTH_STARTS
from journal.studies.notes import counted

NOTHING = "No sowing, planting or picking has a certain day yet."
WHATS = ("sowing", "planting", "first picking")
TOOLTIP = [
    alt.Tooltip("name:N", title="crop"),
    alt.Tooltip("date:T", title="that year", format="%-d %B %Y"),
    alt.Tooltip("usual_before:Q", title="usual day of the year", format=",.1f"),
    alt.Tooltip("earliest_before:Q", format=",.0f"),
    alt.Tooltip("latest_before:Q", format=",.0f"),
    alt.Tooltip("years_before:Q"),
]


def ahead_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the frame: each crop's day beside the usual one of the years before."""
    if frame.empty:
        return sentence(NOTHING)
    year = year_list(frame)[-1]
    whole = frame[(frame["year"] == year) & (frame["cultivar"] == "")]
    panels = [
        _panel(whole[whole["what"] == what], what, year)
        for what in WHATS
        if (whole["what"] == what).any()
    ]
    return stacked(panels) if panels else sentence(NOTHING)


def _panel(rows: pd.DataFrame, what: str, year: int) -> alt.LayerChart:
    rows = rows.assign(at=rows["usual_before"].fillna(rows["day"])).sort_values(["at", "crop"])
    figures = rows[["day", "usual_before", "years_before"]].to_numpy()
    named = rows.drop(columns="at").assign(
        name=[_name(*words) for words in rows[["crop", "season"]].to_numpy()],
        says=[_says(*row) for row in figures],
    )
    crops, come = rows["crop"].nunique(), rows.loc[rows["day"].notna(), "crop"].nunique()
    words = (
        f"The day of the first {what.removeprefix('first ')} of {counted(crops, 'crop')} in "
        f"{year} beside the range and the middle of all years before"
    )
    words += f"; it has come for {some(come)} of them." if come < crops else "."
    key = [f"● {year}", "Shaded: earliest to latest of all years before; stroke: the middle one."]
    base = numbered(named).encode(tooltip=TOOLTIP)
    return row_panel(
        [
            row_track(base, 3),
            *_marks(base, _axis(named)),
            *row_words(base, room_for(named["says"])),
        ],
        len(named),
        title=title(f"{what.capitalize()}: the usual days and {year}", key),
        description=words,
    )


def _axis(rows: pd.DataFrame) -> alt.X:
    """The months of a year, and of the next one where a winter runs into it."""
    latest = rows["latest_before"].max()
    last = 366 if pd.isna(latest) else max(366, int(latest) + 1)
    starts = [day + more for more in (0, 365) for day in MONTH_STARTS if day + more < last]
    labels = {str(start): MONTHS[at % 12] for at, start in enumerate(starts)}
    axis = alt.Axis(
        title="day of the year",
        values=starts,
        labelExpr=f"{labels}[datum.value]",
        labelAlign="left",
        labelOverlap=True,
    )
    return alt.X("day:Q", axis=axis, scale=alt.Scale(domain=[1, last], nice=False))


def _marks(base: alt.Chart, x: alt.X) -> list[alt.Chart]:
    at: dict[str, Any] = {"yOffset": MARK_OFFSET, "opacity": 1}
    band = base.mark_bar(height=11, color=LIGHT["band"], cornerRadius=2, **at)
    usual = base.mark_tick(thickness=2, height=11, color=LIGHT["straw"], orient="vertical", **at)
    dot = base.mark_point(size=80, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, **at)
    return [
        band.encode(x="earliest_before:Q", x2="latest_before:Q"),
        usual.encode(x="usual_before:Q"),
        dot.encode(x=x),
    ]


def _name(crop: str, season: str) -> str:
    return f"{crop}, begun in autumn" if season == "autumn" else crop


def _says(day: float, usual: float, years: int) -> str:
    if pd.isna(day):
        return f"{'usually' if years > 1 else 'once before'} {day_of_year(usual)}"
    if not years:
        return f"{day_of_year(day)}, first year"
    shift = round(day - usual)
    if shift == 0:
        return f"{day_of_year(day)}, the usual day"
    days = counted(abs(shift), "day")
    return f"{day_of_year(day)}, {days} {'later' if shift > 0 else 'earlier'}"
