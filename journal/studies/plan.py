"""Where the beds lie and what stands in them, for places with sides and a corner on the sheet."""

from datetime import date

import pandas as pd

from journal.diary import Diary
from journal.events.model import PlaceDeclared, Sheet
from journal.studies.occupancy import occupancy
from journal.studies.once import once_a_diary
from journal.tables.schema import make_frame

DRAWN = ("bed", "frame", "house", "pot", "bay", "tank")


@once_a_diary
def plan(diary: Diary) -> pd.DataFrame:
    """The places of the plot as they are today, one row each: the columns of the table `plan`."""
    return plan_on(diary, diary.today)


def plan_on(diary: Diary, day: date) -> pd.DataFrame:
    """The places as the sheet has them on a day.

    `x_m` and `y_m` are the corner that the sheet gives after `at`, `across_m` and `down_m` the
    place's sides in the order that they are written in: `1.2 x 5 m, at 2 x 0 m` lies 1.2 m across
    and 5 m down from a corner 2 m along. The parts of a `split` lie one after the other along the
    old place, in the order in which they are named. `stands` names the crops that may stand there
    on the day, by the study `occupancy`. `why` says why a place cannot be drawn; a
    place with an area but no sides has no shape, and none is guessed.
    """
    latest: dict[str, PlaceDeclared] = {}
    for place in diary.sheet.places:
        if place.kind in DRAWN and (place.date is None or place.date <= day):
            latest[place.name] = place
    rows = [place for place in latest.values() if not place.ended]
    corners = [_corner(place, diary.sheet) for place in rows]
    stands = _standing(diary, day)
    return make_frame(
        "plan",
        {
            "place": [place.name for place in rows],
            "kind": [place.kind for place in rows],
            "x_m": [corner[0] for corner in corners],
            "y_m": [corner[1] for corner in corners],
            "across_m": [_sides(place)[0] for place in rows],
            "down_m": [_sides(place)[1] for place in rows],
            "stands": [stands.get(place.name, "") for place in rows],
            "why": [_why(place, corner) for place, corner in zip(rows, corners, strict=True)],
        }
        if rows
        else {},
    )


def _standing(diary: Diary, day: date) -> dict[str, str]:
    """The crops of each place on a day, in the order that they came."""
    rows, on = occupancy(diary), pd.Timestamp(day)
    rows = rows[(rows["begins"] <= on) & (rows["ends"] >= on)].sort_values(["begins", "crop"])
    return {
        str(place): ", ".join(dict.fromkeys(crops))
        for place, crops in rows.groupby("place")["crop"]
    }


def _sides(place: PlaceDeclared) -> tuple[float | None, float | None]:
    """Across and down."""
    sides = (place.width_m, place.length_m)
    return (sides[1], sides[0]) if place.long_across else sides


def _corner(place: PlaceDeclared, sheet: Sheet) -> tuple[float | None, float | None]:
    """A place's corner; a part of a split starts where the parts named before it end."""
    before = [part.length_m for part in _parts_before(place, sheet)]
    if place.x_m is None or place.y_m is None or any(size is None for size in before):
        return None, None
    along = sum(size for size in before if size is not None)
    if place.long_across:
        return place.x_m + along, place.y_m
    return place.x_m, place.y_m + along


def _parts_before(place: PlaceDeclared, sheet: Sheet) -> list[PlaceDeclared]:
    """The parts of the split that made this place which the sheet names before it."""
    for change in sheet.changes:
        names = [name for name, _ in change.parts]
        if change.kind == "split" and place.name in names and place.date == change.date:
            before = names[: names.index(place.name)]
            return [part for name in before if (part := sheet.place_on(name, change.date))]
    return []


def _why(place: PlaceDeclared, corner: tuple[float | None, float | None]) -> str:
    if place.width_m is None or place.length_m is None:
        return "the sheet gives it no sides"
    return "the sheet does not say where" if corner[0] is None else ""


def overlaps(frame: pd.DataFrame) -> list[tuple[str, str]]:
    """Pairs of drawn places that lie on one another, which is a slip of the sheet."""
    drawn = frame[frame["why"] == ""].to_dict("records")
    return [
        (one["place"], other["place"])
        for at, one in enumerate(drawn)
        for other in drawn[at + 1 :]
        if all(
            one[corner] + 1e-9 < other[corner] + other[side]
            and other[corner] + 1e-9 < one[corner] + one[side]
            for corner, side in (("x_m", "across_m"), ("y_m", "down_m"))
        )
    ]
