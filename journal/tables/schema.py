"""Columns of values to frames of a table's shape, and frames held to that shape.

`make_frame` gives every column its dtype and `check_frame` refuses a frame that drifted from the
columns of `journal.tables.columns`; neither computes anything.
"""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import pandas as pd

from journal.events.rows import Coded
from journal.tables.columns import DIARY_TABLES, TABLES, Column, Dtype, Table

__all__ = ["DIARY_TABLES", "TABLES", "Column", "Dtype", "Table", "check_frame", "make_frame"]


def make_frame(
    name: str, values: "Mapping[str, Sequence[Any] | Coded | pd.Series[Any]] | pd.DataFrame"
) -> pd.DataFrame:
    """Columns of values as a frame with the table's columns, order and dtypes, numbered from 0.

    A study's frame serves as `values` too. No values at all give the table without rows; a column
    too many or too few is a KeyError.
    """
    table = TABLES[name]
    if len(values) == 0:
        values = {column: () for column in table.column_names}
    if set(values) != set(table.column_names):
        drift = ", ".join(sorted(map(str, set(values) ^ set(table.column_names))))
        raise KeyError(f"columns of `{name}` that are missing or not of it: {drift}")
    return pd.DataFrame(
        {column.name: _as_array(values[column.name], column.dtype) for column in table.columns},
        copy=False,  # the arrays have just been made
    )


def _as_array(values: Any, dtype: Dtype) -> Any:
    if isinstance(values, Coded):
        return _spread(_as_array(values.values, dtype), values)
    if dtype == "datetime64[s]":
        if isinstance(values, pd.Series):
            return values.astype("datetime64[s]").array.copy()
        return np.array(list(values), dtype="datetime64[D]").astype("datetime64[s]")
    array: Any = pd.array(values, dtype=dtype)
    return array.fillna("") if dtype == "string" else array


def _spread(different: Any, column: Coded) -> Any:
    """The different values of a column at each of its rows."""
    if column.codes is not None:
        return different.take(np.frombuffer(column.codes, column.codes.typecode))
    if len(column.values) == column.rows:
        return different
    return different.take(np.zeros(column.rows, "B"))


def checked(frame: pd.DataFrame, name: str) -> Table:
    """The table of the schema that a frame is; ValueError where the frame does not keep to it."""
    check_frame(frame, name)
    return TABLES[name]


def check_frame(frame: pd.DataFrame, name: str) -> None:
    """Raises ValueError where a frame is not what the schema says of the table `name`."""
    table = TABLES[name]
    if tuple(frame.columns) != table.column_names:
        raise ValueError(
            f"`{name}` has the columns {list(frame.columns)}, not {list(table.column_names)}"
        )
    for column in table.columns:
        _check_column(frame[column.name], column, name)
    if table.key and frame.duplicated(list(table.key)).any():
        raise ValueError(f"`{name}` has two rows with the same {', '.join(table.key)}")


def _check_column(values: "pd.Series[Any]", column: Column, name: str) -> None:
    where = f"`{column.name}` of `{name}`"
    if not _has_dtype(values, column.dtype):
        raise ValueError(f"{where} is {values.dtype}, not {column.dtype}")
    if column.dtype == "string" and values.isna().any():
        raise ValueError(f'{where} has missing words that are not ""')
    if column.dtype == "Float64" and np.isinf(values.to_numpy(float, na_value=np.nan)).any():
        raise ValueError(f"{where} has a figure without end")
    empty = values.eq("") if column.dtype == "string" else values.isna()
    if not column.may_be_empty and empty.any():
        raise ValueError(f"{where} has an empty cell")


def _has_dtype(values: "pd.Series[Any]", dtype: Dtype) -> bool:
    if dtype == "string":
        # `str` of pandas 3 is a StringDtype as well, but its missing word is NaN
        return isinstance(values.dtype, pd.StringDtype) and values.dtype.na_value is pd.NA
    return str(values.dtype) == dtype
