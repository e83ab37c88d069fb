"""The cumulative study drawn: the harvest of each year as it mounted up, one line a year."""

import altair as alt
import pandas as pd

from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, themed, title
from journal.charts.words import day_of_year, kilograms, year_list
from journal.charts.years import month_axis

NOTHING = "Nothing was weighed."
ROOM_FOR_YEARS = 45  # days of the axis behind December, for the years' names
TOOLTIP = [
    alt.Tooltip("year:N"),
    alt.Tooltip("date:T", format="%-d %B"),
    alt.Tooltip("kg:Q", title="kg so far", format=",.1f"),
    alt.Tooltip("kg_of_day:Q", title="kg that day", format=",.2f"),
]


def cumulative_chart(
    frame: pd.DataFrame, year: int | None = None, against: int | None = None
) -> AnyChart:
    """The frame's years as steps: `year` bold, `against` clear, the others faint.

    Without them, the latest year and the one before it.
    """
    years = year_list(frame)
    if not years:
        return sentence(NOTHING)
    main = years[-1] if year is None else year
    earlier = [each for each in years if each < main]
    other = against if against is not None else earlier[-1] if earlier else main
    rows = frame[frame["year"] <= main]
    lasts = rows.groupby("year").tail(1).assign(name=lambda last: last["year"].astype("string"))
    x = alt.X(
        "day_of_year:Q",
        scale=alt.Scale(domain=[1, 366 + ROOM_FOR_YEARS], nice=False),
        axis=month_axis(None),
    )
    y = alt.Y("kg:Q", axis=alt.Axis(title="kg picked so far", tickCount=5))
    lines, ends = (alt.Chart(each).encode(x=x, y=y, detail="year:N") for each in (rows, lasts))
    layers = [
        _line(lines, f"datum.year != {main} && datum.year != against", "mute", 1, 0.45),
        _line(lines, f"datum.year != {main} && datum.year == against", "slate", 2, 1),
        _line(lines, f"datum.year == {main}", "moss", 3, 1),
        lines.mark_circle(size=60, opacity=0).encode(tooltip=TOOLTIP),
        ends.mark_text(align="left", dx=5, fontSize=12).encode(
            text="name:N",
            color=alt.condition(
                f"datum.year == {main}", alt.value(LIGHT["moss"]), alt.value(LIGHT["mute"])
            ),
        ),
    ]
    drawn = alt.LayerChart(
        layer=layers,
        width=WIDTH,
        height=260,
        title=title(f"The harvest mounting up, {main}", _key(main)),
    )
    drawn = drawn.add_params(alt.param(name="against", value=other))
    return themed(drawn, cumulative_words(rows, main, other))


def _line(lines: alt.Chart, test: str, colour: str, width: float, opacity: float) -> alt.Chart:
    shown = alt.OpacityValue(0, condition={"test": test, "value": opacity})
    step: alt.Chart = lines.mark_line(
        interpolate="step-after", color=LIGHT[colour], strokeWidth=width
    ).encode(opacity=shown)
    return step


def _key(year: int) -> str:
    return f"Bold: {year}; the year it is set beside is drawn clear, the others faint."


def cumulative_words(rows: pd.DataFrame, year: int, against: int) -> str:
    """What the chart shows, in one sentence."""
    own = rows[rows["year"] == year]
    if own.empty:
        return f"Nothing was weighed in {year}."
    total = float(own["kg"].iloc[-1])
    half = own[own["kg"] >= total / 2].iloc[0]
    words = (
        f"The weight picked mounting up through {year} to {kilograms(total)}; "
        f"half of it was in by {day_of_year(half['day_of_year'])}"
    )
    other = rows[rows["year"] == against]
    if against == year or other.empty:
        return f"{words}."
    return f"{words}, and {against} came to {kilograms(float(other['kg'].iloc[-1]))}."
