"""What stood in which bed from when to when, and how many days of a year each bed was in use."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.once import once_a_diary
from journal.studies.stays import stays
from journal.tables.schema import TABLES, make_frame


@once_a_diary
def occupancy(diary: Diary) -> pd.DataFrame:
    """The plant ledger's batches by the ground they stood on, one row a year, batch and place.

    `since` to `since_end` are the days on which the first of the batch can have come there,
    `until` to `until_end` those on which the last of it can have gone; both blank while any of it
    stands. `begins` and `ends` are the widest that this allows within the year, no later than
    today. `ended` as in the study `plants`. `place` is what the ground is called today. Joins
    `studies.stays`; no published source.
    """
    found = _by_ground(stays(diary))
    today = pd.Timestamp(diary.today).as_unit("s")
    until = found["until_end"].fillna(today)
    found["last"] = until.where(until <= today, today)
    spans = zip(found["since"].dt.year, found["last"].dt.year, strict=True)
    found["year"] = [range(first, final + 1) for first, final in spans]
    rows = found.explode("year", ignore_index=True)
    years = rows["year"].astype("string")
    january, december = pd.to_datetime(years + "-01-01"), pd.to_datetime(years + "-12-31")
    rows["begins"] = rows["since"].where(rows["since"] >= january, january)
    rows["ends"] = rows["last"].where(rows["last"] <= december, december)
    rows = rows.sort_values(["year", "place", "begins", "batch"], ignore_index=True)
    names = TABLES["occupancy"].column_names
    return make_frame("occupancy", {name: rows[name] for name in names})


def _by_ground(frame: pd.DataFrame) -> pd.DataFrame:
    """The stays in some place, those of a batch on one ground joined into one row."""
    frame = frame[frame["place"] != ""]
    keys = ["batch", "ground"]
    came = frame.sort_values("since_first", kind="stable").drop_duplicates(keys)
    went = frame.sort_values("until_last", kind="stable").drop_duplicates(keys, keep="last")
    names = {"since_first": "since", "since_last": "since_end"}
    rows = came[[*keys, "crop", "cultivar", "label", *names]].rename(columns=names)
    ends = {"until_first": "until", "until_last": "until_end"}
    rows = rows.merge(went[[*keys, *ends, "ended"]].rename(columns=ends), on=keys)
    return rows.rename(columns={"ground": "place"})


def days_in_use(rows: pd.DataFrame) -> "pd.Series[Any]":
    """How many days something stood in each place, of the rows of one year.

    The first and the last day count, and days on which several crops stood count once.
    """
    return rows.groupby("place")[["begins", "ends"]].apply(_covered).astype("Int64")


def _covered(spans: pd.DataFrame) -> int:
    total, reached = 0, pd.Timestamp.min
    for begins, ends in spans.sort_values("begins").itertuples(index=False):
        start = (
            max(begins, reached + pd.Timedelta(days=1)) if reached > pd.Timestamp.min else begins
        )
        total += max(0, (ends - start).days + 1)
        reached = max(reached, ends)
    return total
