"""What the spells say beside the longest dry stretch: droughts, and where the period cut it."""

from typing import Any

import pandas as pd

from journal.questions.asked import Asked
from journal.questions.evidence import day
from journal.questions.periods import Period, stretch_words
from journal.questions.saying import counted, listed
from journal.studies.spells import spells

_MOST = 4


def beside_dry_stretch(
    asked: Asked, period: Period, stretch: tuple[pd.Timestamp, pd.Timestamp], drought: bool
) -> tuple[str, ...]:
    """Caveats: the whole spell where the period cut it, and the absolute droughts if asked for.

    By the rows of the study `spells`, the terms of British Rainfall.
    """
    found = spells(asked.diary)
    dry = found[found["spell"] == "dry spell"]
    around = dry[(dry["begins"] <= stretch[0]) & (dry["ends"] >= stretch[1])]
    wider = around[(around["begins"] < stretch[0]) | (around["ends"] > stretch[1])]
    cut = [
        f"the whole of it was {_stretch(row)}, {counted(row['days'], 'day')}"
        for row in wider.to_dict("records")
    ]
    if not drought:
        return tuple(cut)
    held = found[found["spell"] == "absolute drought"]
    if period.first is not None:
        held = held[held["ends"] >= pd.Timestamp(period.first)]
    if period.last is not None:
        held = held[held["begins"] <= pd.Timestamp(period.last)]
    stretches = [_stretch(row) for row in held.to_dict("records")]
    what = "15 days on end, none with 0.2 mm"
    if not stretches:
        return (*cut, f"no absolute drought ({what}) was read")
    return (*cut, f"absolute droughts ({what}): {listed(stretches, most=_MOST)}")


def _stretch(row: dict[Any, Any]) -> str:
    return stretch_words(day(row["begins"]), day(row["ends"]))
