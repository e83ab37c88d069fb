"""The harvest study drawn: one bar a crop, cultivar and place, the heaviest crop first."""

import altair as alt
import pandas as pd

from journal.charts.rows import amount_axis, bar_rows
from journal.charts.theme import AnyChart, sentence, stacked, title
from journal.charts.words import crop_name, kilograms, number, year_list
from journal.studies.harvest import harvest_totals

NOTHING = "Nothing was picked."
TOOLTIP = [
    alt.Tooltip("name:N", title="what"),
    alt.Tooltip("kg:Q", format=",.2f"),
    alt.Tooltip("count:Q", format=",.0f"),
    alt.Tooltip("pickings:Q"),
    alt.Tooltip("unweighed:Q", title="not weighed"),
    alt.Tooltip("first:T", format="%-d %B"),
    alt.Tooltip("last:T", format="%-d %B"),
    alt.Tooltip("kg_per_m2:Q", title="kg per m²", format=".2f"),
    alt.Tooltip("kg_per_plant:Q", title="kg per plant", format=".2f"),
    alt.Tooltip("kg_per_m:Q", title="kg per m of row", format=".2f"),
]


def harvest_chart(frame: pd.DataFrame) -> AnyChart:
    """The harvest study's rows as bars of kg, the years one below the other."""
    panels = [_year_panel(frame[frame["year"] == year], year) for year in year_list(frame)]
    return stacked(panels) if panels else sentence(NOTHING)


def _year_panel(rows: pd.DataFrame, year: int) -> alt.LayerChart:
    named = _heaviest_first(rows)
    names, figures = ["crop", "cultivar", "place"], ["kg", "unweighed", "count"]
    named["name"] = [crop_name(*words) for words in named[names].to_numpy()]
    named["says"] = [_says(*amounts) for amounts in named[figures].to_numpy()]
    heaviest = rows["kg"].max()
    axis = amount_axis("kg", "kg", 1.0 if pd.isna(heaviest) else float(heaviest))
    subtitle = "Weight in kg." + (" ≥: some pickings were not weighed." if _some(rows) else "")
    heading, words = title(f"Picked in {year}", subtitle), harvest_words(named, year)
    return bar_rows(named, axis, "moss", TOOLTIP, title=heading, description=words)


def _some(rows: pd.DataFrame) -> bool:
    """Whether a row with a weight has pickings without one."""
    return bool((rows["kg"].notna() & (rows["unweighed"] > 0)).any())


def _heaviest_first(rows: pd.DataFrame) -> pd.DataFrame:
    """Crops by their weight, and within a crop the heaviest row first."""
    crops = harvest_totals(rows, ["crop"])[["crop", "kg"]].rename(columns={"kg": "crop_kg"})
    keys = ["crop_kg", "crop", "kg", "cultivar", "place"]
    ordered = rows.merge(crops, on="crop").sort_values(
        keys, ascending=[False, True, False, True, True], na_position="last"
    )
    return ordered.drop(columns="crop_kg")


def _says(kg: float, unweighed: int, count: float) -> str:
    if not pd.isna(kg):
        return f"≥ {kilograms(kg)}" if unweighed else kilograms(kg)
    return "not weighed" if pd.isna(count) else f"{number(count)} counted"


def harvest_words(named: pd.DataFrame, year: int) -> str:
    """What the chart of a year shows, in one sentence; `named` has the heaviest crop first."""
    weighed = named[named["kg"].notna()]
    if weighed.empty:
        return f"What was picked in {year}, by crop, cultivar and place; none of it was weighed."
    most = weighed.sort_values("kg", ascending=False, kind="stable").iloc[0]
    if len(named) == 1:
        return f"All that was picked in {year} is {most['name']}, {kilograms(most['kg'])}."
    return (
        f"The weight picked in {year} in {len(named)} bars, one for each crop, cultivar and place; "
        f"most is {most['name']} with {kilograms(most['kg'])}."
    )
