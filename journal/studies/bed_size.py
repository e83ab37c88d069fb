"""How large a place is on a day, and which name its ground has now."""

from typing import Any

import numpy as np
import pandas as pd

from journal.events.model import PlaceDeclared, Sheet


def ground_now(places: "pd.Series[Any]", sheet: Sheet) -> "pd.Series[Any]":
    """Place names with every `rename` of the sheet followed, so that old and new name join."""
    for change in sheet.changes:
        if change.kind == "rename" and change.parts:
            places = places.replace({change.old: change.parts[0][0]})
    return places


def bed_size(places: "pd.Series[Any]", days: "pd.Series[Any]", sheet: Sheet) -> "pd.Series[Any]":
    """Area in m2 of each place as the sheet gives it on each day; blank where it gives none.

    Before the first declaration of a place the first one holds.
    """
    asked = pd.DataFrame({"name": places, "day": days}).reset_index(names="row")
    found = asked.merge(_declared(sheet), on="name")
    found["held"] = found["since"].isna() | (found["since"] <= found["day"])
    # the last declaration that held; where none did, the first, which sorts last when negated
    found["rank"] = found["order"].where(found["held"], -found["order"] - 1)
    last = found.sort_values("rank").groupby("row")["area_m2"].last(skipna=False)
    return last.reindex(asked["row"]).astype("Float64").set_axis(places.index)


def _declared(sheet: Sheet) -> pd.DataFrame:
    living = [place for place in sheet.places if not place.ended]
    days = [place.date for place in living]
    return pd.DataFrame(
        {
            "name": pd.array([place.name for place in living], dtype="string"),
            "since": np.array(days, dtype="datetime64[D]").astype("datetime64[s]"),
            "area_m2": pd.array([_area(place) for place in living], dtype="Float64"),
            "order": range(len(living)),
        }
    )


def _area(place: PlaceDeclared) -> float | None:
    if place.area_m2 is None and place.length_m is not None and place.width_m is not None:
        return place.length_m * place.width_m
    return place.area_m2
