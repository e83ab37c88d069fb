"""What family stood where in which year, and how long each stayed away before it came back."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.load import load
from journal.reference.stuff import is_raw_manure
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.parcels import by_parcel
from journal.studies.products import known_name
from journal.studies.rotation import advice
from journal.studies.stood import stood
from journal.studies.structures import YEAR_DAYS
from journal.tables.schema import TABLES, make_frame

YEAR = pd.Timedelta(days=365)

STOOD_ON = "stands on from before, so nothing came back"
NOT_BEFORE = "not before in this diary, which tells of that ground from {year}"
ROOTS_ON_MANURE = (
    "roots on ground manured within the year, where they may fork "
    "(common practice, no published source)"
)
_COMPOST = ("compost", "leaf mould")


@once_a_diary
def ground(diary: Diary) -> pd.DataFrame:
    """Families on the ground, one row a year, ground and family: the columns of `ground`.

    - A family stands in every year that holds a possible day of one of its batches there, by the
      plant ledger and not only by sowing lines (`studies.stood`): what stood over the winter
      stands in both years. Ground goes by the names of today.
    - `years_without` = days / 365.2425 from `last_before`, the last possible day of a batch of
      earlier years, to the first possible day that one of the family was sown or planted there
      that year (`arrived`); 0 where both stood together.
    - `advised_low` to `advised_high`: years without, by every source of `rotation_years.csv` for
      the crops that arrived and for whole rotations; a break of n years is n, a rotation of n
      years n - 1. `advice` has each with its source; where sources differ the range is theirs.
    - `manured`, `composted`: the last raw manure, and the last compost or leaf mould, on that
      ground in the 365 days before the first of them arrived.

    Roots on freshly manured ground may fork: common practice, no published source. `why` says
    what leaves `years_without` empty.
    """
    batches = _by_year(stood(diary))
    dressed = dressings(diary)
    rows = [
        _row(own, batches[batches["ground"] == own["ground"].iloc[0]], dressed)
        for _, own in batches.groupby(["standing_in", "ground", "kin"], sort=True)
    ]
    names = TABLES["ground"].column_names
    return make_frame("ground", {name: [row[name] for row in rows] for name in names})


def _by_year(batches: pd.DataFrame) -> pd.DataFrame:
    """The batches once for each calendar year that they stood in; `kin` is family or crop."""
    spans = [
        range(int(first), int(last) + 1)
        for first, last in zip(batches["year"], batches["year_end"], strict=True)
    ]
    at = [at for at, span in enumerate(spans) for _ in span]
    years = [year for span in spans for year in span]
    rows = batches.iloc[at].reset_index(drop=True)
    kin = rows["family"].where(rows["family"] != "", rows["crop"])
    return rows.assign(standing_in=pd.array(years, dtype="Int64"), kin=kin)


def _row(own: pd.DataFrame, there: pd.DataFrame, dressed: pd.DataFrame) -> dict[str, Any]:
    """`own` is the family's batches there in one year, `there` all batches of that ground."""
    year, place = int(own["standing_in"].iloc[0]), own["ground"].iloc[0]
    came = own[own["year"] == year]
    last = _last_before(year, there[there["kin"] == own["kin"].iloc[0]])
    advised = advice(came["crop"].drop_duplicates())
    before = _within_a_year_before(came["since"].min(), dressed[dressed["ground"] == place])
    roots = any(is_root(crop) for crop in came["crop"])
    on_manure = roots and before["manure"] is not None
    return {
        "year": year,
        "place": place,
        "family": own["family"].iloc[0],
        "crops": ", ".join(own["crop"].drop_duplicates()),
        "since": max(own["since"].min(), pd.Timestamp(year, 1, 1)),
        "until": min(own["until"].max(), pd.Timestamp(year, 12, 31)),
        "arrived": not came.empty,
        "last_before": last if not came.empty else None,
        "years_without": years_without(came["since"].min(), last) if not came.empty else None,
        "advised_low": advised.low if not came.empty else None,
        "advised_high": advised.high if not came.empty else None,
        "advice": advised.words if not came.empty else "",
        "roots": roots,
        "manured": before["manure"],
        "composted": before["compost"],
        "events": ", ".join(str(event) for event in came["event"]),
        "why": "; ".join(_reasons(came, last, int(there["year"].min()), on_manure)),
    }


def _reasons(
    came: pd.DataFrame, last: pd.Timestamp | None, first_year: int, on_manure: bool
) -> list[str]:
    if came.empty:
        return [STOOD_ON]
    said = [NOT_BEFORE.format(year=first_year)] if last is None else []
    return [*said, ROOTS_ON_MANURE] if on_manure else said


def _last_before(year: int, kin: pd.DataFrame) -> pd.Timestamp | None:
    """The last possible day that a batch of earlier years stood there."""
    earlier = kin.loc[kin["year"] < year, "until"]
    return None if earlier.empty else earlier.max()


def years_without(arrival: pd.Timestamp, last: pd.Timestamp | None) -> float | None:
    """Years from the last day of the one to the arrival of the next, none below nothing."""
    return None if last is None else max(0, (arrival - last).days) / YEAR_DAYS


def is_root(crop: str) -> bool:
    """Whether a crop goes with the roots in a rotation and is eaten from under the ground."""
    known = load().crops.get(crop)
    return known is not None and known.rotation_group == "root" and known.soil_contact == "in_soil"


# ------------------------------------------------------------ what the ground was given


def dressings(diary: Diary) -> pd.DataFrame:
    """Dressings of manure, compost and lime on the ground of today: `what`, date and date_end."""
    events = diary.events
    mine = events[(events["kind"] == "dressing") & (events["place"] != "")]
    kinds = {material: _dressing(material) for material in mine["material"].unique()}
    mine = mine.assign(what=mine["material"].map(kinds).astype("string"))
    return by_parcel(mine[mine["what"].notna() & mine["date"].notna()], diary.sheet)


def _dressing(material: str) -> str | None:
    name = known_name(material)
    if is_raw_manure(material, load()):
        return "manure"
    if name == "lime":
        return "lime"
    return "compost" if any(word in name for word in _COMPOST) else None


def _within_a_year_before(day: pd.Timestamp, dressed: pd.DataFrame) -> dict[str, Any]:
    """The last possible day of each kind of dressing in the 365 days before."""
    found: dict[str, Any] = {"manure": None, "compost": None, "lime": None}
    if pd.isna(day):
        return found
    before = dressed[(dressed["date"] <= day) & (dressed["date_end"] >= day - YEAR)]
    for what, own in before.groupby("what"):
        found[str(what)] = min(own["date_end"].max(), day)
    return found


def ground_notes(diary: Diary) -> list[Note]:
    """Crops of which no family is known, so that each rotates by itself."""
    batches = stood(diary)
    nameless = batches.loc[batches["family"] == "", "crop"].drop_duplicates()
    return [
        Note("ground", "family", str(crop), "no family is known, so it rotates by itself")
        for crop in nameless
    ]
