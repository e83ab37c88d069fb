"""The books study drawn: yields and days to harvest beside published ranges, and no verdict."""

from typing import Any

import altair as alt
import pandas as pd

from journal.charts.rows import MARK_OFFSET, numbered, room_for, row_panel, row_track, row_words
from journal.charts.theme import LIGHT, AnyChart, sentence, stacked, title
from journal.charts.words import listed, number, year_list
from journal.studies.books import DAYS, YIELD
from journal.studies.notes import counted

NOTHING = "No published figure stands beside one of the diary."
KEY = "● and figure: here · shaded, and in brackets: published; one stroke where one is printed."
MOST_KEY = "Thin line: the batches here, from least to most."
UNITS = {
    "kg per m2": "kg a m²",
    "kg per m": "kg a metre of row",
    "kg per plant": "kg a plant",
    "fruits per plant": "fruits a plant",
    "spears per plant": "spears a plant",
    "fruits per m": "fruits a metre of row",
    "ears per m": "ears a metre of row",
    "stalks per m": "stalks a metre of row",
    "days": "days",
}
TOOLTIP = [
    alt.Tooltip("crop:N"),
    alt.Tooltip("value:Q", title="here", format=",.2f"),
    alt.Tooltip("printed:N", title="published"),
    alt.Tooltip("what:N", title="counting"),
    alt.Tooltip("condition:N", title="of"),
    alt.Tooltip("source:N"),
    alt.Tooltip("why:N", title="beside it"),
]


def books_chart(frame: pd.DataFrame) -> AnyChart:
    """The latest year of the frame: a panel a unit, yields by ground first, then days to harvest.

    A row is one published figure; per cent up is drawn with `plants survival`.
    """
    if frame.empty:
        return sentence(NOTHING)
    year = year_list(frame)[-1]
    rows = frame[(frame["year"] == year) & frame["measure"].isin([YIELD, DAYS])]
    panels = [
        _panel(own, unit, words, year)
        for unit, words in UNITS.items()
        if not (own := rows[rows["unit"] == unit]).empty
    ]
    return stacked(panels) if panels else sentence(NOTHING)


def _panel(rows: pd.DataFrame, unit: str, words: str, year: int) -> alt.LayerChart:
    rows = rows.sort_values(["crop", "what", "condition", "source"])
    columns = ["value", "value_low", "value_high", "published_low", "published_high"]
    plain = rows.astype(dict.fromkeys(columns, "float64"))
    named = plain.drop(columns=["measure", "year", "unit", "of", "events"]).assign(
        name=[_name(row, rows["source"].nunique() > 1) for row in rows.to_dict("records")],
        says=[_says(row, unit) for row in plain.to_dict("records")],
    )
    axis = alt.Axis(title=words, tickCount=5)
    scale = alt.Scale(domain=[0, float(named[columns].max().max())], nice=True)
    x = alt.X("value:Q", axis=axis, scale=scale)
    spread = (named["value_low"] < named["value_high"]).any()
    base = numbered(named).encode(tooltip=TOOLTIP)
    heading = "Days to harvest" if unit == "days" else f"Yield, {words}"
    return row_panel(
        [row_track(base, 3), *_marks(base, x), *row_words(base, room_for(named["says"]))],
        len(named),
        title=title(f"{heading}, {year} beside the books", [KEY, MOST_KEY] if spread else KEY),
        description=(
            f"What {counted(rows['crop'].nunique(), 'crop')} gave in {words} in {year} beside "
            f"{counted(len(rows), 'published figure')}, of {_sources(rows)}."
            if unit != "days"
            else f"Days to the first picking of {counted(rows['crop'].nunique(), 'crop')} begun "
            f"in {year} beside {counted(len(rows), 'published figure')}, of {_sources(rows)}."
        ),
    )


def _marks(base: alt.Chart, x: alt.X) -> list[alt.Chart]:
    at: dict[str, Any] = {"yOffset": MARK_OFFSET, "opacity": 1}
    band = base.mark_bar(height=11, color=LIGHT["band"], cornerRadius=2, **at)
    ends = base.mark_tick(thickness=2, height=11, color=LIGHT["straw"], orient="vertical", **at)
    own = base.mark_bar(height=2, color=LIGHT["clay"], **at)
    dot = base.mark_point(size=80, fill=LIGHT["clay"], stroke=LIGHT["paper"], strokeWidth=1, **at)
    return [
        band.encode(x="published_low:Q", x2="published_high:Q"),
        ends.encode(x="published_low:Q"),
        ends.encode(x="published_high:Q"),
        own.encode(x="value_low:Q", x2="value_high:Q"),
        dot.encode(x=x),
    ]


def _sources(rows: pd.DataFrame) -> str:
    return listed(sorted(set(rows["source"])))


def _name(row: dict[Any, Any], several: bool) -> str:
    """A row's crop, what the figure counts and, where sources differ, whose it is."""
    counting = "" if row["measure"] == YIELD else row["what"].removesuffix(" to harvest")
    source = row["source"] if several else ""
    return " · ".join(filter(None, [row["crop"], row["condition"], counting, source]))


def _says(row: dict[Any, Any], unit: str) -> str:
    places = 0 if unit == "days" else 1 if row["published_low"] >= 10 else 2
    ends = [number(row[f"published_{end}"], places) for end in ("low", "high")]
    at_least = "≥ " if row["why"].startswith("at least") else ""
    own = f"{at_least}{number(row['value'], places)}"
    return f"{own} ({' to '.join(dict.fromkeys(ends))})"
