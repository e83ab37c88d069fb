"""Which ground a written place is: every `split` and `rename` followed to the names of today.

The history of a bed belongs to its ground, so a family that stood in a bed before it was split
stood in both of its parts.
"""

from datetime import date

import pandas as pd

from journal.events.model import GroundChange, Sheet


def parcels(place: str, day: date | None, sheet: Sheet) -> tuple[str, ...]:
    """The names that the ground of `place` on `day` has today.

    A name that is declared anew after its ground was split or renamed is new ground.
    """
    for at, change in enumerate(sheet.changes):
        if change.old == place and _was_before(change, day, sheet):
            return _parts(change, sheet.changes[at + 1 :])
    return (place,)


def _was_before(change: GroundChange, day: date | None, sheet: Sheet) -> bool:
    if change.date is None or day is None or day < change.date:
        return True
    return not any(
        place.name == change.old and not place.ended and place.date and place.date >= change.date
        for place in sheet.places
    )


def _parts(change: GroundChange, later: tuple[GroundChange, ...]) -> tuple[str, ...]:
    found: list[str] = []
    for name, _ in change.parts:
        again = next((at for at, other in enumerate(later) if other.old == name), None)
        found += [name] if again is None else _parts(later[again], later[again + 1 :])
    return tuple(dict.fromkeys(found))


def by_parcel(frame: pd.DataFrame, sheet: Sheet) -> pd.DataFrame:
    """The rows with a column `ground`, the name of today.

    A row of a place that was split since stands once for each part. `frame` has `place` and
    `date`; its index is given anew.
    """
    found = [
        (at, name)
        for at, (place, day) in enumerate(zip(frame["place"], frame["date"], strict=True))
        for name in parcels(place, None if pd.isna(day) else day.date(), sheet)
    ]
    rows = frame.iloc[[at for at, _ in found]].reset_index(drop=True)
    return rows.assign(ground=pd.array([name for _, name in found], dtype="string"))
