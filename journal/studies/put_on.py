"""Which entries put a material on or into the ground, besides those whose verb says so."""

from collections.abc import Iterable

import pandas as pd

# work on a bed that digs in what it names: `dig 3 barrows manure into Long 1`
DIGGING = frozenset(["dig", "fork", "rake", "hoe"])


def puts_on(kind: str, verb: str, material: str, vessel: str = "") -> bool:
    """Whether an entry put its material on or into the ground.

    A dressing; a sowing or planting with it (`plant potato in Long 1 with manure`), though not a
    sowing in trays or modules; a bed that was dug or forked with it. A feed is none of these.
    """
    if not material:
        return False
    if kind == "sowing":
        return not vessel
    return kind in {"dressing", "planting"} or (kind == "job" and verb in DIGGING)


def put_on(events: pd.DataFrame) -> "pd.Series[bool]":
    """The same of each row of the events."""
    columns: Iterable[tuple[str, str, str, str]] = zip(
        *(events[name] for name in ("kind", "verb", "material", "vessel")), strict=True
    )
    return pd.Series([puts_on(*row) for row in columns], events.index, dtype=bool)
