"""The feeding study drawn: nitrogen, phosphate and potash that each bed was given, a m2."""

import altair as alt
import pandas as pd

from journal.charts.rows import amount_axis, bar_rows
from journal.charts.theme import AnyChart, sentence, stacked, title
from journal.charts.words import number
from journal.studies.feeding import feeding_totals
from journal.studies.notes import counted

NOTHING = "Nothing is known to have been fed."
NUTRIENTS = {"N": "Nitrogen (N)", "P2O5": "Phosphate (P2O5)", "K2O": "Potash (K2O)"}
COLOURS = {"N": "slate", "P2O5": "straw", "K2O": "clay"}
KEY = "g a m², by label or publication; ≥: not all of it is known."
LEFT_OUT = "{places} had only what no label and no publication tells."


def feeding_chart(frame: pd.DataFrame) -> AnyChart:
    """The nutrients that labels print, a panel each with a bar for each place of the frame."""
    known = frame[(frame["place"] != "") & frame["nutrient"].isin(list(NUTRIENTS))]
    totals = feeding_totals(known, ["nutrient", "place"])
    panels = [
        _panel(own[own["g_per_m2_low"].notna()], nutrient, int(own["g_per_m2_low"].isna().sum()))
        for nutrient in NUTRIENTS
        for own in [totals[totals["nutrient"] == nutrient]]
        if own["g_per_m2_low"].notna().any()
    ]
    return stacked(panels) if panels else sentence(NOTHING)


def _panel(rows: pd.DataFrame, nutrient: str, left_out: int) -> alt.LayerChart:
    rows = rows.sort_values(["g_per_m2_low", "place"], ascending=[False, True])
    says = [
        f"{'≥ ' if pd.isna(most) else ''}{_amount(least, most)} g"
        for least, most in rows[["g_per_m2_low", "g_per_m2_high"]].to_numpy()
    ]
    named = rows.assign(name=rows["place"], says=says, g=rows["g_per_m2_low"].astype("float64"))
    named = named[["name", "says", "g", "events", "unknown"]]
    tooltip = [
        alt.Tooltip("name:N", title="place"),
        alt.Tooltip("says:N", title="a m²"),
        alt.Tooltip("events:Q", title="feeds and dressings"),
        alt.Tooltip("unknown:Q", title="of them not known"),
    ]
    words = (
        f"Bars of {NUTRIENTS[nutrient].split(' ')[0].lower()} in g a m² given to "
        f"{counted(len(named), 'place')}; the most is {named['name'].iloc[0]} with "
        f"{named['says'].iloc[0]}."
    )
    axis = amount_axis("g", "g a m²", max(float(named["g"].max()), 0.01))
    more = [LEFT_OUT.format(places=counted(left_out, "more place"))] if left_out else []
    heading = title(NUTRIENTS[nutrient], [KEY, *more])
    return bar_rows(named, axis, COLOURS[nutrient], tooltip, title=heading, description=words)


def _amount(least: float, most: float) -> str:
    low = number(least, 1 if least >= 1 else 2)
    high = low if pd.isna(most) else number(most, 1 if most >= 1 else 2)
    return low if low == high else f"{low} to {high}"
