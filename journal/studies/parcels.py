"""Rows of a frame laid on the ground of today: the history of a bed belongs to its ground.

A family that stood in a bed before it was split stood in both of its parts.
"""

import pandas as pd

from journal.events.model import Sheet
from journal.studies.ledger.grounds import Grounds


def by_parcel(frame: pd.DataFrame, sheet: Sheet) -> pd.DataFrame:
    """The rows with a column `ground`, the name that their place's ground has today.

    A row of a place that was split since stands once for each part. `frame` has `place` and
    `date`; its index is given anew.
    """
    grounds = Grounds(sheet)
    found = [
        (at, name)
        for at, (place, day) in enumerate(zip(frame["place"], frame["date"], strict=True))
        for name in sorted(grounds.of(place, None if pd.isna(day) else day.date()) or {""})
    ]
    rows = frame.iloc[[at for at, _ in found]].reset_index(drop=True)
    return rows.assign(ground=pd.array([name for _, name in found], dtype="string"))
