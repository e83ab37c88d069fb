"""The diary's yields, days to harvest and per cent up beside published figures, with the source.

Never a verdict: it sets figures side by side and says neither good nor bad.
"""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.books import Published
from journal.reference.load import load
from journal.studies.harvest import harvest
from journal.studies.notes import Note, counted, crop_words
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings
from journal.studies.plants import batches
from journal.tables.schema import TABLES, make_frame

YIELD, DAYS, UP = "yield", "days to harvest", "per cent up"
FROM_SOWING = "sowing to harvest"
FROM_TRANSPLANTING = "transplanting to harvest"
FROM_PLANTING = "planting to harvest"

# a published unit of yield to what the harvest study has: the amount and the ground
_PER = {
    "kg per m": ("kg", "row_m"),
    "kg per m2": ("kg", "area_m2"),
    "kg per plant": ("kg", "plants"),
    "fruits per plant": ("count", "plants"),
    "spears per plant": ("count", "plants"),
    "fruits per m": ("count", "row_m"),
    "ears per m": ("count", "row_m"),
    "stalks per m": ("count", "row_m"),
}
AT_LEAST = "at least: {pickings} not {how}"
OPEN_YEAR = "the year is not over"
LABORATORY = "by law of seed as sold, in a laboratory"


@once_a_diary
def books(diary: Diary) -> pd.DataFrame:
    """The diary beside the books, one row a figure of each: the columns of the table `books`.

    - Yield: kg (or number) / metres of row, m2 or plants, over the rows of the harvest study that
      know both, each year and crop. A row where not every picking was weighed is "at least".
    - Days to harvest: from sowing (or planting, or planting out) to the first picking of each
      batch of the plant ledger whose days are certain; the median of the crop's batches begun in
      a year, with lowest and highest.
    - Per cent up: 100 x seedlings / seeds over the batches that counted both. It is set beside
      the least germination that seed law allows (7 CFR 201.31), which is of a laboratory.

    Published figures are all those of `expected_yields.csv`, `days_to_harvest.csv` and
    `germination.csv` that count the same thing; sources that differ have a row each. A crop that
    no source names, or of which the diary has no figure, has no row.
    """
    own = [*_yields(diary), *_days(diary), *_up(diary)]
    rows = [row for figure in own for row in _beside(figure)]
    rows.sort(key=lambda row: (row["measure"], row["crop"], row["year"], row["unit"]))
    names = TABLES["books"].column_names
    return make_frame("books", {name: [row[name] for row in rows] for name in names})


def _beside(figure: dict[str, Any]) -> list[dict[str, Any]]:
    """The diary's figure once for each published one that counts the same."""
    return [
        {
            **figure,
            "published_low": row.low,
            "published_high": row.high,
            "printed": row.printed,
            "what": row.measure,
            "condition": row.condition,
            "source": row.source,
        }
        for row in figure["published"]
    ]


# ------------------------------------------------------------ yields


def _yields(diary: Diary) -> list[dict[str, Any]]:
    rows = harvest(diary)
    rows = rows[(rows["crop"] != "") & rows["year"].notna()]
    by_crop: dict[tuple[int, str], list[dict[Any, Any]]] = {}
    for row in rows.to_dict("records"):
        by_crop.setdefault((int(row["year"]), row["crop"]), []).append(row)
    picked = _picked(diary)
    return [
        figure | {"why": _so_far(figure["why"], year, diary)}
        for (year, crop), own in by_crop.items()
        for unit in dict.fromkeys(row.unit for row in load().books.expected_yield(crop))
        if (figure := _one_yield(crop, year, own, picked[year, crop], unit)) is not None
    ]


def _picked(diary: Diary) -> dict[tuple[int, str], list[dict[Any, Any]]]:
    """The pickings of each year and crop: their numbers, and what they weighed and counted."""
    frame = pickings(diary.events)
    frame = frame.loc[frame["year"].notna(), ["year", "crop", "event", "mass_kg", "count"]]
    found: dict[tuple[int, str], list[dict[Any, Any]]] = {}
    for row in frame.to_dict("records"):
        found.setdefault((int(row["year"]), row["crop"]), []).append(row)
    return found


def _so_far(why: str, year: int, diary: Diary) -> str:
    return "; ".join(filter(None, [why, OPEN_YEAR if year == diary.today.year else ""]))


def _one_yield(
    crop: str, year: int, own: list[dict[Any, Any]], picked: list[dict[Any, Any]], unit: str
) -> dict[str, Any] | None:
    if unit not in _PER:
        return None
    amount, ground = _PER[unit]
    known = [row for row in own if not pd.isna(row[amount]) and not pd.isna(row[ground])]
    over = sum(row[ground] for row in known)
    if not over:
        return None
    column, how = ("mass_kg", "weighed") if amount == "kg" else ("count", "counted")
    missing = sum(bool(pd.isna(row[column])) for row in picked)
    published = [row for row in load().books.expected_yield(crop) if row.unit == unit]
    words = {"measure": YIELD, "crop": crop, "year": year, "unit": unit}
    value = float(sum(row[amount] for row in known) / over)
    return _figure(words, value, len(known), published) | {
        "events": ", ".join(str(row["event"]) for row in picked),
        "why": AT_LEAST.format(pickings=counted(missing, "picking"), how=how) if missing else "",
    }


def _figure(
    words: dict[str, Any], value: float, of: int, published: list[Published]
) -> dict[str, Any]:
    return {
        **words,
        "value": value,
        "value_low": None,
        "value_high": None,
        "of": of,
        "published": published,
    }


# ------------------------------------------------------------ days and per cent


def _days(diary: Diary) -> list[dict[str, Any]]:
    frame = batches(diary)
    known = frame[frame["first_picking"].notna() & frame["started"].notna()]
    sown = known["how_started"] == "sow"
    out = known[sown & known["planted_on"].notna()]
    spans = [
        (FROM_SOWING, known[sown], "started"),
        (FROM_PLANTING, known[~sown], "started"),
        (FROM_TRANSPLANTING, out, "planted_on"),
    ]
    return [
        figure
        for what, rows, since in spans
        for own in _by_crop_and_year(rows, since)
        if (figure := _one_span(own, what, since)) is not None
    ]


def _by_crop_and_year(rows: pd.DataFrame, since: str) -> list[pd.DataFrame]:
    groups = rows.groupby([rows["crop"], rows[since].dt.year], sort=True)
    return [own for _, own in groups]


def _one_span(own: pd.DataFrame, what: str, since: str) -> dict[str, Any] | None:
    crop, year = str(own["crop"].iloc[0]), int(own[since].iloc[0].year)
    published = [row for row in load().books.days_to_harvest(crop) if row.measure == what]
    if not published:
        return None
    days = (own["first_picking"] - own[since]).dt.days
    words = {"measure": DAYS, "crop": crop, "year": year, "unit": "days"}
    return _figure(words, float(days.median()), len(own), published) | {
        "value_low": float(days.min()),
        "value_high": float(days.max()),
        "events": ", ".join(str(event) for event in own["event"]),
        "why": "",
    }


def _up(diary: Diary) -> list[dict[str, Any]]:
    frame = batches(diary)
    frame = frame[frame["pct_up"].notna() & frame["started"].notna()]
    found = []
    for own in _by_crop_and_year(frame, "started"):
        crop, year = str(own["crop"].iloc[0]), int(own["started"].iloc[0].year)
        published = list(load().books.germination_minimum(crop))
        if not published:
            continue
        value = float(100 * own["up"].sum() / own["sown"].sum())
        words = {"measure": UP, "crop": crop, "year": year, "unit": "%"}
        found.append(
            _figure(words, value, len(own), published)
            | {
                "value_low": float(own["pct_up"].min()),
                "value_high": float(own["pct_up"].max()),
                "events": ", ".join(str(event) for event in own["event"]),
                "why": LABORATORY,
            }
        )
    return found


def books_notes(diary: Diary) -> list[Note]:
    """Crops that were picked and weighed, and of which no source names a yield."""
    rows = harvest(diary)
    weighed = rows[rows["kg"].notna() & (rows["crop"] != "") & rows["year"].notna()]
    silent = {
        crop: not load().books.expected_yield(crop) for crop in weighed["crop"].drop_duplicates()
    }
    rows = weighed[weighed["crop"].map(silent).astype(bool)].drop_duplicates(["crop", "year"])
    return [
        Note("books", "figure", crop_words(row["crop"]), "no published yield", int(row["year"]))
        for row in rows.to_dict("records")
    ]
