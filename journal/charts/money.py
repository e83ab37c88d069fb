"""The money studies drawn: what each kind of thing cost, and what each crop was worth."""

import altair as alt
import pandas as pd

from journal.charts.rows import amount_axis, bar_rows
from journal.charts.theme import AnyChart, sentence, stacked, title
from journal.charts.words import listed, year_list
from journal.studies.money import money_totals
from journal.studies.money_worth import worth_totals
from journal.studies.notes import counted

NO_MONEY = "No money is written of."
NO_WORTH = "Nothing that was picked has a price on the sheet."
SIGNS = {"GBP": "£", "EUR": "€", "USD": "$"}


def money_chart(frame: pd.DataFrame) -> AnyChart:
    """Money spent by kind, the years one below the other, each currency by itself."""
    spent = frame[frame["spent"].notna() & frame["year"].notna()]
    totals = money_totals(spent, ["year", "kind"])
    panels = [
        _panel(totals[(totals["year"] == year) & (totals["currency"] == currency)], year, currency)
        for year in year_list(totals)
        for currency in sorted(totals.loc[totals["year"] == year, "currency"].unique())
    ]
    return stacked(panels) if panels else sentence(NO_MONEY)


def _panel(rows: pd.DataFrame, year: int, currency: str) -> alt.LayerChart:
    rows = rows.sort_values(["spent", "kind"], ascending=[False, True])
    named = rows.assign(
        name=rows["kind"], says=[price(amount, currency) for amount in rows["spent"]]
    )
    axis = amount_axis("spent", _unit(currency), float(rows["spent"].max()))
    tooltip = [
        alt.Tooltip("name:N", title="kind"),
        alt.Tooltip("says:N", title="spent"),
        alt.Tooltip("times:Q", title="entries"),
    ]
    kind, amount = named["name"].iloc[0], named["says"].iloc[0]
    words = f"All that was spent in {year} in {_unit(currency)} went on {kind}, {amount}."
    if len(rows) > 1:
        words = (
            f"Bars of what was spent in {year} in {_unit(currency)} on {len(rows)} kinds of "
            f"things; most went on {kind}, {amount}."
        )
    heading = title(f"Spent in {year}, in {_unit(currency)}")
    return bar_rows(_plain(named), axis, "clay", tooltip, title=heading, description=words)


def worth_chart(frame: pd.DataFrame) -> AnyChart:
    """Worth of the harvest by crop, the years one below the other, each currency by itself."""
    totals = worth_totals(frame[frame["year"].notna()], ["year", "crop"])
    panels = [
        _worth(own, year, currency)
        for year in year_list(totals)
        for currency in sorted(totals.loc[totals["year"] == year, "currency"].unique())
        if (own := totals[(totals["year"] == year) & (totals["currency"] == currency)])["worth"]
        .notna()
        .any()
    ]
    return stacked(panels) if panels else sentence(NO_WORTH)


def _worth(rows: pd.DataFrame, year: int, currency: str) -> alt.LayerChart:
    """Bars of the crops that have a worth; those that have none are counted below the title."""
    bare = rows[rows["worth"].isna()]
    rows = rows[rows["worth"].notna()]
    rows = rows.sort_values(["worth", "crop"], ascending=[False, True])
    figures = zip(rows["worth"], rows["unpriced"], strict=True)
    named = rows.assign(
        name=rows["crop"],
        says=[_worth_says(worth, unpriced, currency) for worth, unpriced in figures],
    )
    axis = amount_axis("worth", _unit(currency), float(rows["worth"].max()))
    tooltip = [alt.Tooltip("name:N", title="crop"), alt.Tooltip("says:N", title="worth")]
    words = (
        f"Bars of what {counted(len(rows), 'crop')} picked in {year} were worth in "
        f"{_unit(currency)}; first stands {named['name'].iloc[0]}, {named['says'].iloc[0]}."
    )
    some = (rows["unpriced"] > 0).any()
    under = "At the sheet's prices." + (
        " ≥: some pickings were not weighed or have no price." if some else ""
    )
    if len(bare):
        under += f" No price, or not weighed: {listed(sorted(bare['crop']))}."
    heading = title(f"Worth of the harvest in {year}", under)
    return bar_rows(_plain(named), axis, "moss", tooltip, title=heading, description=words)


def _worth_says(worth: float, unpriced: int, currency: str) -> str:
    return f"{'≥ ' if unpriced else ''}{price(worth, currency)}"


def price(amount: float, currency: str) -> str:
    """Money as a person writes it: `£4.50`, `3.95 CHF`."""
    sign = SIGNS.get(currency)
    return f"{sign}{amount:,.2f}" if sign else f"{amount:,.2f} {currency}".strip()


def _unit(currency: str) -> str:
    return currency or "money"


def _plain(rows: pd.DataFrame) -> pd.DataFrame:
    return rows.drop(columns=["year", "currency"])
