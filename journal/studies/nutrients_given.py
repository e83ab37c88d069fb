"""What feeds and dressings gave of one nutrient, added up, with those of unknown strength."""

from dataclasses import dataclass

import pandas as pd


@dataclass(frozen=True, slots=True)
class Given:
    """Grams: at least `low`, at most `high`, which is None where one is unknown; `why` says so."""

    low: float | None
    high: float | None
    unknown: int
    why: str


def grams_given(rows: pd.DataFrame) -> Given:
    """The sum of rows of the table `feeding`, all of one nutrient, in g.

    `low` sums what is known and is None where nothing is. Plain sums, no published source.
    """
    known = rows[rows["g_low"].notna()]
    blank = rows[rows["g_low"].isna()]
    open_above = rows["g_high"].isna().any()
    reasons = [str(why) for why in dict.fromkeys(blank["why"]) if why]
    return Given(
        float(known["g_low"].sum()) if len(known) else None,
        None if open_above else float(rows["g_high"].sum()),
        len(blank),
        "; ".join(reasons),
    )
