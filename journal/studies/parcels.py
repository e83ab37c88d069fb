"""Which ground a written place is: every `split` and `rename` followed to the names of today.

The history of a bed belongs to its ground, so a family that stood in a bed before it was split
stood in both of its parts.
"""

from collections.abc import Sequence
from datetime import date

import pandas as pd

from journal.events.model import GroundChange, Sheet


def parcels(place: str, day: date | None, sheet: Sheet) -> tuple[tuple[str, float | None], ...]:
    """The names that the ground of `place` on `day` has today, each with its share of the area.

    Shares add up to 1; one is None where the sheet does not tell the sizes of the parts. A name
    that is declared anew after its ground was split or renamed is new ground.
    """
    for at, change in enumerate(sheet.changes):
        if change.old == place and _was_before(change, day, sheet):
            return _parts(change, sheet, sheet.changes[at + 1 :])
    return ((place, 1.0),)


def _was_before(change: GroundChange, day: date | None, sheet: Sheet) -> bool:
    if change.date is None or day is None or day < change.date:
        return True
    return not any(
        place.name == change.old and not place.ended and place.date and place.date >= change.date
        for place in sheet.places
    )


def _parts(
    change: GroundChange, sheet: Sheet, later: Sequence[GroundChange]
) -> tuple[tuple[str, float | None], ...]:
    found: list[tuple[str, float | None]] = []
    for (name, _), share in zip(change.parts, _shares(change, sheet), strict=True):
        again = next((at for at, next_one in enumerate(later) if next_one.old == name), None)
        if again is None:
            found.append((name, share))
            continue
        below = _parts(later[again], sheet, later[again + 1 :])
        found += [(part, _times(share, of_part)) for part, of_part in below]
    return tuple(found)


def _shares(change: GroundChange, sheet: Sheet) -> list[float | None]:
    """The parts' shares of the old ground by area; None for each where an area is not known."""
    if len(change.parts) == 1:
        return [1.0]
    places = [sheet.place_on(name, change.date) for name, _ in change.parts]
    areas = [None if place is None else place.area_m2 for place in places]
    known = [area for area in areas if area]
    if len(known) < len(areas):
        return [None] * len(areas)
    return [area / sum(known) for area in known]


def _times(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one * other


def by_parcel(frame: pd.DataFrame, sheet: Sheet) -> pd.DataFrame:
    """The rows with a column `ground`, the name of today, and `share` of the place's area.

    A row of a place that was split since stands once for each part. `frame` has `place` and
    `date`; its index is given anew.
    """
    found = [
        (at, *parcel)
        for at, (place, day) in enumerate(zip(frame["place"], frame["date"], strict=True))
        for parcel in parcels(place, None if pd.isna(day) else day.date(), sheet)
    ]
    rows = frame.iloc[[at for at, _, _ in found]].reset_index(drop=True)
    return rows.assign(
        ground=pd.array([name for _, name, _ in found], dtype="string"),
        share=pd.array([share for _, _, share in found], dtype="Float64"),
    )
