"""Published figures of soil, crop and roof water, and the base temperatures of crops.

Read from `shared/` when first asked for; a crop or texture that no source prints has none here.
A bad table is a fault of the program: it raises, naming file and row.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from journal.reference.load import SOURCE_COLUMNS
from journal.reference.rows import Row, read_rows
from journal.resources import shared_folder

_BASIS = ("read",)
SOIL_COLUMNS = (
    "texture",
    "field_capacity_low",
    "field_capacity_high",
    "wilting_low",
    "wilting_high",
    "available_low",
    "available_high",
    "source_id",
    "basis",
    "note",
)
COEFFICIENT_COLUMNS = (
    "crop",
    "crop_in_source",
    "kc_ini",
    "kc_mid",
    "kc_end",
    "height_m",
    "root_low_m",
    "root_high_m",
    "depletion",
    "source_id",
    "basis",
    "note",
)
STAGE_COLUMNS = (
    "crop",
    "crop_in_source",
    "ini_days",
    "dev_days",
    "mid_days",
    "late_days",
    "planted",
    "region",
    "source_id",
    "basis",
    "note",
)
BASE_COLUMNS = (
    "crop",
    "crop_in_source",
    "base_c",
    "cutoff_c",
    "printed_base",
    "printed_cutoff",
    "printed_unit",
    "source_id",
    "basis",
    "note",
)
RUNOFF_COLUMNS = ("surface", "coefficient", "source_id", "basis", "note")
POT_COLUMNS = ("measure", "part", "source_id", "basis", "note")


@dataclass(frozen=True, slots=True)
class Soil:
    """Water that a soil holds between field capacity and wilting point, m3 a m3, low to high."""

    texture: str
    available_low: float
    available_high: float
    source: str

    @property
    def available(self) -> float:
        """The middle of the printed range."""
        return (self.available_low + self.available_high) / 2


@dataclass(frozen=True, slots=True)
class CropWater:
    """A crop's coefficients, height in m, depth of roots in m, and the part easily taken up.

    `stages` are the days of the initial, development, middle and late stage, None where no
    source prints them; `region` is where they were observed.
    """

    crop: str
    kc_ini: float
    kc_mid: float
    kc_end: float
    height_m: float
    root_low_m: float
    root_high_m: float
    depletion: float
    source: str
    stages: tuple[float, float, float, float] | None = None
    region: str = ""


@dataclass(frozen=True, slots=True)
class BaseTemperature:
    """The temperature that a crop's degree days count above (and up to), in C, with its source."""

    crop: str
    base_c: float
    cutoff_c: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a whole, 0 to 1, with its source."""

    value: float
    source: str


@dataclass(frozen=True, slots=True)
class Water:
    """All of these figures by soil texture, crop, surface or measure."""

    soils: Mapping[str, Soil]
    crops: Mapping[str, CropWater]
    bases: Mapping[str, tuple[BaseTemperature, ...]]
    runoff: Mapping[str, Part]
    pots: Mapping[str, Part]

    def base(self, crop: str) -> BaseTemperature | None:
        """The first printed base of a crop; sources differ, so its source goes with it."""
        return next(iter(self.bases.get(crop, ())), None)


def read_water(folder: Path) -> Water:
    """The figures of one folder."""
    cites = {
        row.text("source_id"): row.text("cite")
        for row in read_rows(folder / "sources.csv", SOURCE_COLUMNS)
    }
    return Water(
        soils={
            row.text("texture"): _soil(row, cites)
            for row in read_rows(folder / "soil_water.csv", SOIL_COLUMNS)
        },
        crops=_crops(folder, cites),
        bases=_bases(folder, cites),
        runoff=_parts(folder / "roof_runoff.csv", RUNOFF_COLUMNS, cites),
        pots=_parts(folder / "pot_water.csv", POT_COLUMNS, cites),
    )


@cache
def load_water() -> Water:
    """The project's own figures, read once."""
    return read_water(shared_folder())


def _source(row: Row, cites: Mapping[str, str]) -> str:
    row.one_of("basis", _BASIS)
    if row.text("source_id") not in cites:
        raise row.bad(f"source {row.cells['source_id']} is not in sources.csv")
    return cites[row.cells["source_id"]]


def _number(row: Row, column: str) -> float:
    value = row.number_or_none(column)
    if value is None or value < 0:
        raise row.bad(f"{column} is {row.cells[column]!r}, not a number from 0 up")
    return value


def _soil(row: Row, cites: Mapping[str, str]) -> Soil:
    low, high = _number(row, "available_low"), _number(row, "available_high")
    if low > high:
        raise row.bad(f"available_low {low} is above available_high {high}")
    return Soil(row.text("texture"), low, high, _source(row, cites))


def _crops(folder: Path, cites: Mapping[str, str]) -> dict[str, CropWater]:
    stages: dict[str, tuple[tuple[float, float, float, float], str]] = {}
    for row in read_rows(folder / "crop_stages.csv", STAGE_COLUMNS):
        _source(row, cites)
        ini, dev, mid, late = (_number(row, name) for name in STAGE_COLUMNS[2:6])
        for crop in row.words("crop"):
            stages[crop] = (ini, dev, mid, late), row.text("region")
    found: dict[str, CropWater] = {}
    for row in read_rows(folder / "crop_coefficients.csv", COEFFICIENT_COLUMNS):
        figures: dict[str, Any] = {name: _number(row, name) for name in COEFFICIENT_COLUMNS[2:9]}
        for crop in row.words("crop"):
            if crop in found:
                raise row.bad(f"{crop} stands twice")
            days, region = stages.pop(crop, (None, ""))
            found[crop] = CropWater(
                crop, **figures, source=_source(row, cites), stages=days, region=region
            )
    if stages:
        raise ValueError(f"crop_stages.csv: {sorted(stages)} are not in crop_coefficients.csv")
    return found


def _bases(folder: Path, cites: Mapping[str, str]) -> dict[str, tuple[BaseTemperature, ...]]:
    found: dict[str, tuple[BaseTemperature, ...]] = {}
    for row in read_rows(folder / "base_temperatures.csv", BASE_COLUMNS):
        cutoff = row.number_or_none("cutoff_c")
        for crop in row.words("crop"):
            base = BaseTemperature(crop, _number(row, "base_c"), cutoff, _source(row, cites))
            found[crop] = (*found.get(crop, ()), base)
    return found


def _parts(path: Path, columns: tuple[str, ...], cites: Mapping[str, str]) -> dict[str, Part]:
    return {
        row.text(columns[0]): Part(_number(row, columns[1]), _source(row, cites))
        for row in read_rows(path, columns)
    }
