"""What was picked: per year, crop, cultivar and place, and per m2, plant and metre of row."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.ground_area import ground_area
from journal.studies.notes import Lack, Note, counted, crop_words
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.tables.schema import TABLES, make_frame

KEYS = ("year", "crop", "cultivar", "place")
RATES = {"kg_per_m2": "area_m2", "kg_per_plant": "plants", "kg_per_m": "row_m"}


@once_a_diary
def harvest(diary: Diary) -> pd.DataFrame:
    """Yields, one row a year, crop, cultivar and place: the columns of the table `harvest`.

    - `kg`, `count`: sums of what was weighed and what was counted; blank where nothing was.
    - `pickings`, `unweighed`: harvest events, and those without a weight, so that `kg` reads
      "at least" where `unweighed` is not 0.
    - `first`, `last`: blank where the diary leaves a choice of days; `days` counts both.
    - `area_m2`: rows x row length x row spacing of the sowings and plantings that it was picked
      from; else plants x spacing (x row spacing, or squared); else the whole bed when the crop
      had it alone that year; else blank. `plants` were set out or came up, `row_m` is the
      length of all rows.
    - `kg_per_m2` = kg / area_m2, `kg_per_plant` = kg / plants, `kg_per_m` = kg / row_m.

    kg, m2, m; calendar years. A row without a crop holds what several crops weighed
    altogether; a row without a year holds pickings whose days may lie in two years, so that
    every grouping adds up to the events. Yield per unit of ground is common practice, no
    published source.
    """
    return harvest_of(diary, diary.events)


def harvest_of(diary: Diary, events: pd.DataFrame) -> pd.DataFrame:
    """The same from some of the diary's events only."""
    rows = _grounded(diary, events)
    return make_frame("harvest", {name: rows[name] for name in TABLES["harvest"].column_names})


def _grounded(diary: Diary, events: pd.DataFrame) -> pd.DataFrame:
    rows = sum_pickings(pickings(events), KEYS)
    rows = rows.join(ground_area(rows, events, diary.sheet))
    for rate, ground in RATES.items():
        rows[rate] = per(rows["kg"], rows[ground])
    return rows


def per(amount: "pd.Series[Any]", ground: "pd.Series[Any]") -> "pd.Series[Any]":
    """Amount a unit of ground; blank where either is, or the ground is nothing."""
    return amount / ground.where(ground > 0)


def harvest_totals(frame: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    """The harvest frame summed further: kg, count, pickings and unweighed by `keys`."""
    groups = frame.groupby(keys, dropna=False, sort=True)
    amounts = groups[["kg", "count"]].sum(min_count=1)
    return pd.concat([amounts, groups[["pickings", "unweighed"]].sum()], axis=1).reset_index()


def harvest_notes(diary: Diary) -> list[Note]:
    """What was not weighed, not dated surely, or has no ground, each with its reason."""
    rows = _grounded(diary, diary.events)
    kept_with_others = _weighed_altogether(diary.events)
    return [
        note
        for row in rows.merge(kept_with_others, on=list(KEYS), how="left").to_dict("records")
        for note in _notes_of(row)
    ]


def _weighed_altogether(events: pd.DataFrame) -> pd.DataFrame:
    """How many pickings of each row were weighed only together with other crops."""
    picked = pickings(events)
    sums = picked.loc[(picked["crop"] == "") & (picked["pickings"] == 0), "entry"]
    shared = picked[picked["entry"].isin(sums) & (picked["crop"] != "")]
    return shared.groupby(list(KEYS), dropna=False).size().rename("altogether").reset_index()


def _notes_of(row: dict[Any, Any]) -> list[Note]:
    subject = crop_words(row["crop"], row["cultivar"], row["place"])
    year = None if pd.isna(row["year"]) else int(row["year"])
    reasons: list[tuple[Lack, str]] = [
        ("weight", _not_weighed(row)),
        ("day", _not_dated(row)),
        ("ground", row["no_area"]),
    ]
    return [Note("harvest", lack, subject, why, year) for lack, why in reasons if why]


def _not_weighed(row: dict[Any, Any]) -> str:
    if not row["unweighed"]:
        return ""
    words = f"{counted(row['unweighed'], 'picking')} of {row['pickings']} not weighed"
    if row["pickings"] == row["unweighed"]:
        words = f"{counted(row['unweighed'], 'picking')} not weighed"
    if not pd.isna(row["count"]):
        words += f", {row['count']:g} counted"
    if not pd.isna(row["altogether"]):
        words += f", {int(row['altogether'])} of them weighed with other crops"
    return words


def _not_dated(row: dict[Any, Any]) -> str:
    if pd.isna(row["year"]):
        return "the day is missing or may lie in two years, so no year counts it"
    if pd.isna(row["first"]):
        return f"first picking some day {_between(row['first_low'], row['first_high'])}"
    if pd.isna(row["last"]):
        return f"last picking some day {_between(row['last_low'], row['last_high'])}"
    return ""


def _between(low: pd.Timestamp, high: pd.Timestamp) -> str:
    return f"from {low.day} {low:%B} to {high.day} {high:%B %Y}"
