"""Where the time went: person-minutes by place, verb, crop and month, and what they earned."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.bed_size import bed_size
from journal.studies.harvest import harvest, per
from journal.studies.notes import Note, counted
from journal.studies.once import once_a_diary
from journal.studies.seasons import certain_month, certain_year
from journal.tables.schema import TABLES, make_frame

KEYS = ("year", "month", "place", "verb", "crop")
WORTH_KEYS = ["year", "place", "crop"]


@once_a_diary
def labour(diary: Diary) -> pd.DataFrame:
    """Person-minutes, one row a year, month, place, verb and crop: the table `labour`.

    Sums the `minutes` of every event that has them, whatever its kind; an entry's time is
    already shared among its events, and two people for an hour are 120. Month or year is blank
    where the event's days leave a choice, so that every grouping adds up to the events. An
    event without a time is in no row. No published source: plain sums.
    """
    timed = diary.events[diary.events["minutes"].notna()].copy()
    timed["year"] = certain_year(timed)
    timed["month"] = certain_month(timed)
    sums = timed.groupby(list(KEYS), dropna=False, sort=True)["minutes"].sum().reset_index()
    return make_frame("labour", {name: sums[name] for name in TABLES["labour"].column_names})


def labour_totals(frame: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    """The labour frame summed further: `minutes` and `hours` by `keys`, the most first."""
    totals = frame.groupby(keys, dropna=False, sort=True)["minutes"].sum().reset_index()
    totals["hours"] = totals["minutes"] / 60
    return totals.sort_values("minutes", ascending=False, kind="stable", ignore_index=True)


@once_a_diary
def labour_worth(diary: Diary) -> pd.DataFrame:
    """Hours against harvest, one row a year, place and crop: the table `labour worth`.

    - `hours` = minutes / 60 of the work that names the crop. Work that names a place and no
      crop goes to the crop that had the place alone that year: nothing else was sown, planted,
      picked or worked on there. Otherwise it stays in the place's own row, whose crop is blank.
    - `kg` is the harvest's, blank where nothing was weighed. `area_m2` is the harvest's ground
      and, for a place's own row, the bed as the sheet sizes it at the end of that year.
    - `hours_per_kg` = hours / kg, `hours_per_m2` = hours / area_m2; blank without both. A row
      without a crop has no hours_per_kg: its kg are only what several crops weighed altogether.

    `kg` counts what was weighed, so hours_per_kg is "at most" where pickings went unweighed.
    No published source: plain quotients.
    """
    picked = _picked(harvest(diary))
    worked = _worked(labour(diary), _alone(diary.events))
    rows = worked.merge(picked, on=WORTH_KEYS, how="outer", sort=True)
    own = (rows["crop"] == "") & rows["year"].notna()
    new_year_eve = pd.to_datetime(rows["year"].astype("string") + "-12-31").dt.as_unit("s")
    rows["area_m2"] = rows["area_m2"].mask(own, bed_size(rows["place"], new_year_eve, diary.sheet))
    rows["hours_per_kg"] = per(rows["hours"], rows["kg"]).where(rows["crop"] != "")
    rows["hours_per_m2"] = per(rows["hours"], rows["area_m2"])
    return make_frame(
        "labour worth", {name: rows[name] for name in TABLES["labour worth"].column_names}
    )


def _picked(yields: pd.DataFrame) -> pd.DataFrame:
    """kg and ground of each year, place and crop; no ground where one cultivar has none."""
    groups = yields.groupby(WORTH_KEYS, dropna=False)
    kg = groups["kg"].sum(min_count=1)
    complete = groups["area_m2"].count() == groups.size()
    area = groups["area_m2"].sum().where(complete)
    return pd.concat([kg, area], axis=1).reset_index()


def _alone(events: pd.DataFrame) -> pd.DataFrame:
    """The year, place and crop wherever a place had one crop only in a year."""
    grew = events["kind"].isin(["sowing", "planting", "harvest"]) | events["minutes"].notna()
    stood = events.loc[grew & (events["crop"] != "") & (events["place"] != "")]
    stood = stood.assign(year=certain_year(stood))[WORTH_KEYS].dropna().drop_duplicates()
    return stood[~stood.duplicated(["year", "place"], keep=False)]


def _worked(time: pd.DataFrame, alone: pd.DataFrame) -> pd.DataFrame:
    """Hours of each year, place and crop, a place's own work given to its only crop."""
    given = time.merge(alone, on=["year", "place"], how="left", suffixes=("", "_alone"))
    given["crop"] = given["crop"].where(given["crop"] != "", given["crop_alone"].fillna(""))
    hours = given.groupby(WORTH_KEYS, dropna=False)["minutes"].sum() / 60
    return hours.rename("hours").reset_index()


def labour_notes(diary: Diary) -> list[Note]:
    """Jobs that were not timed and times whose month or year is not certain, with the reason."""
    events = diary.events.assign(year=certain_year(diary.events))
    return [*_untimed(events), *_undated(events)]


def _untimed(events: pd.DataFrame) -> list[Note]:
    jobs = events[events["kind"] == "job"]
    groups = jobs.groupby(["year", "verb"], dropna=False, sort=True)
    counts = pd.DataFrame({"all": groups.size(), "timed": groups["minutes"].count()}).reset_index()
    return [
        Note("labour", "time", row["verb"], _untimed_words(row), _whole_year(row))
        for row in counts.to_dict("records")
        if row["timed"] < row["all"]
    ]


def _untimed_words(row: dict[Any, Any]) -> str:
    missing = row["all"] - row["timed"]
    words = counted(missing, "job")
    return f"{words} not timed" if missing == row["all"] else f"{words} of {row['all']} not timed"


def _undated(events: pd.DataFrame) -> list[Note]:
    timed = events[events["minutes"].notna()]
    doubtful = timed[certain_month(timed).isna()]
    sums = doubtful.groupby("year", dropna=False)["minutes"].sum().reset_index()
    reason = "the days may lie in two months, so no month counts them"
    lost = "the day is missing or may lie in two years, so no year counts them"
    return [
        Note(
            "labour",
            "day",
            counted(round(row["minutes"]), "minute"),
            lost if pd.isna(row["year"]) else reason,
            _whole_year(row),
        )
        for row in sums.to_dict("records")
    ]


def _whole_year(row: dict[Any, Any]) -> int | None:
    return None if pd.isna(row["year"]) else int(row["year"])
