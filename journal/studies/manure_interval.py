"""Days between raw manure on a bed and what was first picked from it, against the published wait.

Compost is not raw manure; manure that is not said to be composted is, well rotted or not.
"""

from collections.abc import Iterable
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.load import load
from journal.reference.stuff import is_raw_manure
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.parcels import by_parcel
from journal.studies.put_on import put_on
from journal.studies.standing import standing
from journal.tables.schema import TABLES, make_frame

TOUCHES_SOIL = 120
CLEAR_OF_SOIL = 90
WITHIN_DAYS = 366

NO_CONTACT = "not known whether its edible part touches the soil, so the longer wait counts"
MAY_TOUCH = "its edible part may touch the soil, so the longer wait counts"
OPEN_DAYS = "the days that the diary leaves lie on both sides of the wait"
OF_MANURE = (
    "manure went into that heap, and counts as raw by 7 CFR 205.203(c)(2) unless its heat was "
    "kept; `heaps past` has what is noted"
)
NOT_PICKED = "nothing was picked from there since; the longer wait counts"
_KEY = ["put", "ground", "crop", "cultivar"]


@once_a_diary
def manure_interval(diary: Diary) -> pd.DataFrame:
    """Waits from raw manure to food, one row a spreading, ground and crop: `manure_interval`.

    - A spreading is a dressing, a feed, a planting with or a digging in (`put_on`) of manure that
      is not said to be composted (see `is_raw_manure`). Its ground is followed through splits and
      new names.
    - Of each crop and cultivar the first picking after it within 366 days counts. A picking of
      the same day is taken to be before it.
    - `days_low` to `days_high`: days between, the day of spreading being day 0. Both are equal
      where the diary gives one day for each; work that went on over days ends on its last, a
      picking over days begins on its first.
    - `needed_days`: 120 where the edible part touches the soil surface or soil particles, may
      touch it, or is not known to be clear of it; else 90: 7 CFR 205.203(c)(1), read:
      https://tilth.org/help-center/manure/. Whether a crop's part touches is from memory.
    - `allowed_from` = last possible day of spreading + `needed_days`: a picking on that day
      keeps to the rule. `held` is empty where the days leave it open.
    - A row without a crop is a spreading after which nothing was picked and whose wait is not
      over on the diary's today.

    The rule is one of US organic growing and binds nobody else; local rules go first. `why` says
    what is empty or was decided for safety's sake.
    """
    put = _spreadings(diary)
    rows = pd.concat([_picked(put, diary), _waiting(put, diary)], ignore_index=True)
    rows = rows.sort_values(["applied", "place", "crop", "cultivar"], ignore_index=True)
    names = TABLES["manure_interval"].column_names
    return make_frame("manure_interval", {name: rows[name] for name in names})


def _spreadings(diary: Diary) -> pd.DataFrame:
    """Raw manure on known ground: `put` is its event, `put_low` to `put_high` its days."""
    found = _raw(diary)
    found = by_parcel(found[(found["place"] != "") & found["date"].notna()], diary.sheet)
    went_on = found["spread"].astype(bool)
    return pd.DataFrame(
        {
            "put": found["event"],
            "ground": found["ground"],
            "material": found["material"],
            "applied": found["date"],
            "applied_end": found["date_end"],
            "put_low": found["date"].mask(went_on, found["date_end"]),
            "put_high": found["date_end"],
        }
    )


def _raw(diary: Diary) -> pd.DataFrame:
    events = diary.events
    fed = events[put_on(events) | ((events["kind"] == "feed") & (events["material"] != ""))]
    return fed[fed["material"].isin(_raw_names(diary, fed["material"].unique()))]


def _raw_names(diary: Diary, materials: Iterable[str]) -> list[str]:
    """Those of some materials that are raw manure, by the sheet's other names too."""
    also = {one.name: one.also for one in diary.sheet.materials}
    reference = load()
    raw = {
        name: any(
            is_raw_manure(word, reference) for word in (*name.split("; "), *also.get(name, ()))
        )
        for name in materials
    }
    return [name for name, held in raw.items() if held]


def _picked(put: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    """A row for each crop's first picking after each spreading."""
    pairs = put.merge(_pickings(diary), on="ground")
    pairs = pairs[pairs["picked_high"] > pairs["put_low"]]
    pairs["days_low"] = (pairs["picked_low"] - pairs["put_high"]).dt.days.clip(lower=0)
    pairs["days_high"] = (pairs["picked_high"] - pairs["put_low"]).dt.days
    pairs = pairs[pairs["days_low"] < WITHIN_DAYS]
    pairs = pairs.sort_values(["picked_low", "picked_high", "picking"])
    firsts = pairs.drop_duplicates(_KEY).reset_index(drop=True)
    return _against_the_wait(firsts)


def _pickings(diary: Diary) -> pd.DataFrame:
    events = diary.events
    mine = (events["kind"] == "harvest") & (events["crop"] != "") & (events["place"] != "")
    found = by_parcel(events[mine & events["date"].notna()], diary.sheet)
    went_on = found["spread"].astype(bool)
    return pd.DataFrame(
        {
            "picking": found["event"],
            "ground": found["ground"],
            "crop": found["crop"],
            "cultivar": found["cultivar"],
            "harvested": found["date"],
            "harvested_end": found["date_end"],
            "picked_low": found["date"],
            "picked_high": found["date_end"].mask(went_on, found["date"]),
        }
    )


def _against_the_wait(rows: pd.DataFrame) -> pd.DataFrame:
    crops = load().crops
    contact = [crops[crop].soil_contact if crop in crops else "" for crop in rows["crop"]]
    rows = rows.assign(contact=pd.array(contact, dtype="string"))
    rows["needed_days"] = wait_days(rows["contact"])
    enough = rows["days_low"] >= rows["needed_days"]
    too_few = rows["days_high"] < rows["needed_days"]
    rows["held"] = enough.astype("boolean").where(enough | too_few)
    rows["why"] = _reasons(rows)
    rows["events"] = rows["put"].astype("string") + ", " + rows["picking"].astype("string")
    return _allowed(rows)


def wait_days(contact: "pd.Series[Any]") -> "pd.Series[Any]":
    """Days of 7 CFR 205.203(c)(1) for each way in which an edible part meets the soil."""
    days: pd.Series[Any] = contact.map({"off_ground": CLEAR_OF_SOIL})
    return days.fillna(TOUCHES_SOIL).astype("Int64")


def _reasons(rows: pd.DataFrame) -> "pd.Series[Any]":
    words = pd.Series("", index=rows.index, dtype="string")
    words = words.mask(rows["contact"] == "", NO_CONTACT)
    words = words.mask(rows["contact"] == "may_touch", MAY_TOUCH)
    return words.mask(rows["held"].isna(), OPEN_DAYS)


def _allowed(rows: pd.DataFrame) -> pd.DataFrame:
    wait = pd.to_timedelta(rows["needed_days"].astype("int64"), unit="D")
    return rows.assign(allowed_from=rows["put_high"] + wait, place=rows["ground"])


def _waiting(put: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    """Spreadings after which nothing was picked, while the longer wait is not over."""
    pairs = put.merge(_pickings(diary), on="ground")
    since = pairs[pairs["picked_high"] > pairs["put_low"]]
    done = pd.MultiIndex.from_frame(since[["put", "ground"]])
    rows = put[~pd.MultiIndex.from_frame(put[["put", "ground"]]).isin(done)]
    rows = _allowed(rows.assign(needed_days=TOUCHES_SOIL))
    rows = rows[rows["allowed_from"] > pd.Timestamp(diary.today)]
    said = {"crop": "", "cultivar": "", "contact": "", "why": NOT_PICKED}
    unknown = ["harvested", "harvested_end", "days_low", "days_high", "held"]
    rows = rows.assign(**said, events=rows["put"].astype("string"))
    return rows.reindex(columns=[*rows.columns, *unknown])


def manure_notes(diary: Diary) -> list[Note]:
    """Raw manure of which the diary does not say where or when it went, and compost made of it."""
    raw = _raw(diary)
    placeless = raw[raw["place"] == ""]
    undated = raw[raw["date"].isna()]
    notes = [
        Note("manure_interval", "place", row["material"], "not written where it went", _year(row))
        for row in placeless.to_dict("records")
    ]
    notes += [
        Note("manure_interval", "day", row["material"], "spread on a day that cannot be known")
        for row in undated.to_dict("records")
    ]
    return notes + [
        Note("manure_interval", "history", f"compost on {row['place']}", OF_MANURE, _year(row))
        for row in _of_manured_heaps(diary)
    ]


def _of_manured_heaps(diary: Diary) -> list[dict[Any, Any]]:
    """Dressings from a bay into which raw manure had gone, itself or moved in from another bay."""
    events = diary.events
    raw = set(_raw_names(diary, events["material"].unique()))
    dated = events[events["date"].notna()].sort_values(["date", "event"], kind="stable")
    manured: set[str] = set()
    found = []
    for row in dated.to_dict("records"):
        filled = row["verb"] == "fill" and row["material"] in raw
        if row["kind"] == "heap" and (filled or row["place_from"] in manured):
            manured.add(row["place"])
        elif row["verb"] == "empty":
            manured.discard(row["place"] or row["place_from"])
        elif row["kind"] == "dressing" and row["place_from"] in manured and row["place"]:
            found += [] if row["material"] in raw else [row]
    return found


def _year(row: dict[Any, Any]) -> int | None:
    first, last = row["date"], row["date_end"]
    return None if pd.isna(first) or first.year != last.year else int(first.year)


def still_waiting(diary: Diary) -> pd.DataFrame:
    """Crops that stand on raw manure whose wait is not over today: one row a place and crop.

    `place crop material applied_end needed_days allowed_from`: of several spreadings the one that
    waits longest, by the rule of `manure_interval`; 120 days for a crop whose contact with the soil
    is not known.
    """
    put = _spreadings(diary)
    today = pd.Timestamp(diary.today)
    stands = standing(diary)[["crop", "place"]].drop_duplicates()
    rows = put[put["put_low"] <= today].merge(stands, left_on="ground", right_on="place")
    crops = load().crops
    contact = [crops[crop].soil_contact if crop in crops else "" for crop in rows["crop"]]
    rows = rows.assign(needed_days=wait_days(pd.Series(contact, rows.index, dtype="string")))
    rows = _allowed(rows).sort_values(["allowed_from", "put"])
    waits = rows[rows["allowed_from"] > today].drop_duplicates(["place", "crop"], keep="last")
    columns = ["place", "crop", "material", "applied_end", "needed_days", "allowed_from"]
    return waits[columns].sort_values(["place", "crop"], ignore_index=True)
