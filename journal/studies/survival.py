"""From seed to plant: how many of each variety came up and were planted, beside the published."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.books import Published
from journal.reference.load import load
from journal.studies.once import once_a_diary
from journal.studies.plants import batches
from journal.tables.schema import make_frame

KEYS = ["year", "crop", "cultivar"]
# soils in which anything is sown; the published days to emergence are given by soil temperature
COLDEST_C, WARMEST_C = 10.0, 25.0


@once_a_diary
def survival(diary: Diary) -> pd.DataFrame:
    """Per year of sowing, crop and cultivar: seeds, seedlings and plants, one row each.

    - `sown`, `up`: over the sowings of which both were counted; `pct_up` = 100 up / sown.
    - `sown_planted`, `planted`: over those of which both were counted; `pct_planted` likewise.
      `lost` is what was lost of all of them.
    - `pct_law`: the least germination in per cent that seed law allows to be sold, by
      `law_source` (7 CFR 201.31 for most); a test in a laboratory, no promise for a bed.
    - `days_to_up`: the median days from sowing to coming up; `emergence_low` to `emergence_high`
      the published days in a soil of 25 to 10 C, by `emergence_source` (Harrington's table).

    `sowings` counts all of the year; a year without a sowing counted by number has no row.
    """
    frame = batches(diary)
    sown = frame[frame["sown"].notna() & frame["started"].notna()].copy()
    sown["year"] = sown["started"].dt.year.astype("Int64")
    groups = sown.groupby(KEYS, sort=True)
    rows = groups.agg(
        sowings=("batch", "size"),
        lost=("lost", "sum"),
        days_to_up=("days_to_up", "median"),
    )
    rows = rows.join(_counted(sown, "up", "sown")).join(_counted(sown, "planted", "sown_planted"))
    rows["pct_up"] = 100 * rows["up"] / rows["sown"]
    rows["pct_planted"] = 100 * rows["planted"] / rows["sown_planted"]
    rows = rows.reset_index()
    books = pd.DataFrame([_published(crop) for crop in rows["crop"]], index=rows.index)
    return make_frame("plants survival", rows.join(books))


def _counted(sown: pd.DataFrame, stage: str, seeds: str) -> pd.DataFrame:
    """Sums of the sowings that were counted at a stage, with the seeds they came from."""
    both = sown[sown[stage].notna()].groupby(KEYS)
    return pd.DataFrame({stage: both[stage].sum(), seeds: both["sown"].sum()})


def _published(crop: str) -> dict[str, Any]:
    books = load().books
    law = books.germination_minimum(crop)
    days = [row for row in books.emergence(crop) if _is_a_usual_soil(row)]
    return {
        "pct_law": law[0].low if law else None,
        "law_source": law[0].source if law else "",
        "emergence_low": min((row.low for row in days if row.low is not None), default=None),
        "emergence_high": max((row.high for row in days if row.high is not None), default=None),
        "emergence_source": days[0].source if days else "",
    }


def _is_a_usual_soil(row: Published) -> bool:
    return row.soil_c is not None and COLDEST_C <= row.soil_c <= WARMEST_C
