"""What a crop gave a year, over the whole years that have pickings of it."""

from dataclasses import dataclass

import pandas as pd

from journal.studies.seasons import certain_year


@dataclass(frozen=True, slots=True)
class YearlyYield:
    """Kilograms a year: the mean, the least and the most, over so many years."""

    mean: float
    low: float
    high: float
    years: int


def yearly_yield(picked: pd.DataFrame, running_year: int) -> YearlyYield | None:
    """mean = sum of kg / number of calendar years with weighed pickings, the running one left out.

    `picked` are harvest events with `mass_kg`; None where no year has a weight. Plain mean, no
    published source.
    """
    rows = picked.assign(year=certain_year(picked))
    rows = rows[rows["mass_kg"].notna() & rows["year"].notna()]
    sums = rows[(rows["year"] < running_year).fillna(False)].groupby("year")["mass_kg"].sum()
    if sums.empty:
        return None
    return YearlyYield(float(sums.mean()), float(sums.min()), float(sums.max()), len(sums))
