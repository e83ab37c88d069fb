"""Rows or a wider frame to a frame of a table's columns, order and dtypes, figures tidied."""

from collections.abc import Sequence
from typing import Any

import pandas as pd

from journal.tables.schema import TABLES, make_frame

# sums of tenths in binary go astray far beyond this
PLACES = 6


def shaped(name: str, rows: "pd.DataFrame | Sequence[dict[Any, Any]]") -> pd.DataFrame:
    """The table `name` of these rows; columns that are not its own are left out.

    Figures are rounded to six places. A column that the rows lack is empty.
    """
    columns = list(TABLES[name].column_names)
    frame = pd.DataFrame(rows) if not isinstance(rows, pd.DataFrame) else rows
    frame = frame.reindex(columns=columns).reset_index(drop=True)
    for column in TABLES[name].columns:
        if column.dtype == "Float64":
            frame[column.name] = frame[column.name].astype("Float64").round(PLACES)
        elif column.dtype == "datetime64[s]":
            frame[column.name] = pd.to_datetime(frame[column.name])
    return make_frame(name, {name: frame[name] for name in columns})
