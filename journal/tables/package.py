"""All tables as a Data Package: a CSV file each, and `datapackage.json` that tells what is in them.

Frames are handed in by name, so that this layer knows no study. The descriptor keeps to the Data
Package standard (datapackage.org, version 2.0) with a Table Schema for every table.
"""

import hashlib
import json
import re
import secrets
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pandas as pd

from journal.tables.files import file_name, to_csv
from journal.tables.schema import Column, Dtype, Table, checked
from journal.tables.whole import stem_beside

DESCRIPTOR = "datapackage.json"
_NAME = "haulm-diary"
_TOKEN = re.compile(r"[0-9a-f]{8}")
_DESCRIPTION = (
    "A garden diary as tidy tables. An empty cell is missing and never zero. A word that a "
    "spreadsheet would run as a formula has an apostrophe put before it."
)
_TYPES: dict[Dtype, str] = {
    "string": "string",
    "Float64": "number",
    "Int64": "integer",
    "boolean": "boolean",
    "datetime64[s]": "date",
}


def write_package(frames: Mapping[str, pd.DataFrame], folder: Path, title: str = "") -> None:
    """Writes every frame and the descriptor into `folder`, which is made where it is missing.

    Raises as `refuse_foreign` does. Nothing in it changes before all files are written in full.
    """
    refuse_foreign(folder)
    files = {f"{file_name(name)}.csv": to_csv(frame, name) for name, frame in frames.items()}
    resources = [
        _resource(checked(frame, name), files[f"{file_name(name)}.csv"])
        for name, frame in frames.items()
    ]
    with _filled_whole(folder) as beside:
        for file, content in files.items():
            (beside / file).write_bytes(content)
        text = json.dumps(_descriptor(resources, title), ensure_ascii=False, indent=2)
        (beside / DESCRIPTOR).write_bytes(f"{text}\n".encode())


def refuse_foreign(folder: Path) -> None:
    """FileExistsError where `folder` is a file or holds anything but an earlier package."""
    if folder.exists() and not folder.is_dir():
        raise FileExistsError(f"`{folder}` is a file, not a folder")
    if not folder.exists():
        if folder.is_symlink():
            raise FileExistsError(f"`{folder}` is a link to nothing")
        return
    # a run that was killed leaves its own folder behind, with the descriptor while files were moved
    left_over = [each for each in folder.iterdir() if _is_left_over(each, folder)]
    if {*folder.iterdir()} <= {*left_over} or any(map(_is_ours, (folder, *left_over))):
        return
    raise FileExistsError(f"`{folder}` holds files that haulm did not write")


def _is_left_over(place: Path, folder: Path) -> bool:
    stem, _, token = place.name.rpartition(".")
    return stem == stem_beside(folder) and _TOKEN.fullmatch(token) is not None and place.is_dir()


def _is_ours(folder: Path) -> bool:
    try:
        earlier = json.loads((folder / DESCRIPTOR).read_bytes())
    except (OSError, ValueError):
        return False
    return isinstance(earlier, dict) and earlier.get("name") == _NAME


@contextmanager
def _filled_whole(folder: Path) -> Iterator[Path]:
    """A new folder whose files end up in `folder`, or that goes when something fails."""
    home = folder if folder.exists() else folder.resolve().parent
    beside = home / f"{stem_beside(folder)}.{secrets.token_hex(4)}"
    beside.mkdir()
    try:
        yield beside
        if folder.exists():
            _move_files(beside, folder)
        else:
            beside.rename(folder)
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _move_files(beside: Path, folder: Path) -> None:
    # the descriptor comes last: it never tells of a file that is not there yet
    for file in sorted(beside.iterdir(), key=lambda file: (file.name == DESCRIPTOR, file.name)):
        file.replace(folder / file.name)


def _descriptor(resources: list[dict[str, Any]], title: str) -> dict[str, Any]:
    return {
        "$schema": "https://datapackage.org/profiles/2.0/datapackage.json",
        "name": _NAME,
        **({"title": title} if title else {}),
        "description": _DESCRIPTION,
        "resources": resources,
    }


def _resource(table: Table, content: bytes) -> dict[str, Any]:
    return {
        "name": file_name(table.name),
        "type": "table",
        **({"description": table.meaning} if table.meaning else {}),
        "path": f"{file_name(table.name)}.csv",
        "scheme": "file",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": len(content),
        "hash": f"sha256:{hashlib.sha256(content).hexdigest()}",
        "schema": _table_schema(table),
    }


def _table_schema(table: Table) -> dict[str, Any]:
    return {
        "fields": [_field(column) for column in table.columns],
        "missingValues": [""],
        **({"primaryKey": list(table.key)} if table.key else {}),
    }


def _field(column: Column) -> dict[str, Any]:
    return {
        "name": column.name,
        "type": _TYPES[column.dtype],
        "format": "default",
        **({"description": column.meaning} if column.meaning else {}),
        **({} if column.may_be_empty else {"constraints": {"required": True}}),
    }
