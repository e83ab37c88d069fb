"""What goes into heaps and onto beds: published analyses, densities, and where a feed comes from.

Read from `heap_stuff.csv`, `manures.csv`, `feed_origins.csv` and `structure_life.csv`. Sources
that differ are all kept; a material without a figure has none, never its neighbour's.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TypeVar

from journal.reference.load import SOURCE_COLUMNS, Reference, load
from journal.reference.rows import Row, read_rows

HEAP_COLUMNS = (
    "material",
    "material_in_source",
    "n_pct_dry",
    "c_to_n",
    "moisture_pct",
    "kg_per_m3",
    "printed_density",
    "printed_unit",
    "source_id",
    "basis",
    "note",
)
MANURE_COLUMNS = (
    "material",
    "material_in_source",
    "dry_matter_pct",
    "n_kg_per_t",
    "p2o5_kg_per_t",
    "k2o_kg_per_t",
    "source_id",
    "basis",
    "note",
)
ORIGIN_COLUMNS = ("material", "origin", "basis")
LIFE_COLUMNS = ("thing", "seasons_low", "seasons_high", "basis", "note")
ORIGINS = ("livestock", "plant or animal", "mineral")
COMMON_PRACTICE = "common practice, no published source"

_DUNG = re.compile(r"\b(?:manure|dung|slurry|muck|droppings)\b")
_TREATED = re.compile(r"\b(?:compost\w*|pellet\w*|heat[- ]treated|sterili[sz]ed)\b")


@dataclass(frozen=True, slots=True)
class HeapStuff:
    """A heap material in one source: nitrogen in per cent of dry mass, C:N, moisture in per cent
    of wet mass, and bulk density in kg/m3 where the source gives one."""

    material: str
    n_pct_dry: float
    c_to_n: float
    moisture_pct: float
    kg_per_m3: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Manure:
    """A manure in one source, kg a tonne of fresh weight; None where the source is silent."""

    material: str
    n_kg_per_t: float
    p2o5_kg_per_t: float | None
    k2o_kg_per_t: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Life:
    """How many growing seasons a thing usually lasts, and on what basis that is said."""

    thing: str
    seasons_low: int
    seasons_high: int
    basis: str


@dataclass(frozen=True, slots=True)
class Stuff:
    """All of it, by the name of the material or thing."""

    heap: Mapping[str, tuple[HeapStuff, ...]]
    manures: Mapping[str, tuple[Manure, ...]]
    origins: Mapping[str, str]
    lives: Mapping[str, Life]


def is_raw_manure(material: str, reference: Reference) -> bool:
    """Whether a material is manure that is not said to be composted.

    A name of the tables answers with its own row. Any other is raw where it names dung and no
    treatment: the safe reading. Pellets and composted manure are not raw (7 CFR
    205.203(c); common practice, no published source, for pellets).
    """
    name = material.lower()
    known = reference.material_spellings.get(name)
    if known is not None:
        return reference.materials[known].raw_manure
    return _DUNG.search(name) is not None and _TREATED.search(name) is None


@cache
def load_stuff() -> Stuff:
    """The project's own tables, read once."""
    return read_stuff(load().folder, load())


def read_stuff(folder: Path, reference: Reference) -> Stuff:
    """The tables of one folder; a name or a source that nobody knows is a bad row."""
    cites = {
        row.text("source_id"): row.text("cite")
        for row in read_rows(folder / "sources.csv", SOURCE_COLUMNS)
    }
    names = reference.materials
    heap = read_rows(folder / "heap_stuff.csv", HEAP_COLUMNS)
    manures = read_rows(folder / "manures.csv", MANURE_COLUMNS)
    origins = read_rows(folder / "feed_origins.csv", ORIGIN_COLUMNS)
    lives = read_rows(folder / "structure_life.csv", LIFE_COLUMNS)
    return Stuff(
        heap=_grouped((_heap_stuff(row, cites, names) for row in heap), lambda one: one.material),
        manures=_grouped((_manure(row, cites, names) for row in manures), lambda one: one.material),
        origins={_name(row, names): row.one_of("origin", ORIGINS) for row in origins},
        lives={row.text("thing"): _life(row) for row in lives},
    )


def _name(row: Row, names: Mapping[str, object]) -> str:
    material = row.text("material")
    if material not in names:
        raise row.bad(f"{material} is no material of materials.csv")
    return material


def _source(row: Row, cites: Mapping[str, str]) -> str:
    row.one_of("basis", ("read",))
    if row.text("source_id") not in cites:
        raise row.bad(f"source {row.cells['source_id']} is not in sources.csv")
    return cites[row.cells["source_id"]]


def _number(row: Row, column: str) -> float:
    value = row.number_or_none(column)
    if value is None:
        raise row.bad(f"{column} is empty")
    return value


def _heap_stuff(row: Row, cites: Mapping[str, str], names: Mapping[str, object]) -> HeapStuff:
    return HeapStuff(
        _name(row, names),
        _number(row, "n_pct_dry"),
        _number(row, "c_to_n"),
        _number(row, "moisture_pct"),
        row.number_or_none("kg_per_m3"),
        _source(row, cites),
    )


def _manure(row: Row, cites: Mapping[str, str], names: Mapping[str, object]) -> Manure:
    return Manure(
        _name(row, names),
        _number(row, "n_kg_per_t"),
        row.number_or_none("p2o5_kg_per_t"),
        row.number_or_none("k2o_kg_per_t"),
        _source(row, cites),
    )


def _life(row: Row) -> Life:
    low, high = _number(row, "seasons_low"), _number(row, "seasons_high")
    basis = row.one_of("basis", ("read", COMMON_PRACTICE))
    return Life(row.text("thing"), int(low), int(high), basis)


One = TypeVar("One")


def _grouped(rows: Iterable[One], key: Callable[[One], str]) -> dict[str, tuple[One, ...]]:
    found: dict[str, tuple[One, ...]] = {}
    for row in rows:
        found[key(row)] = (*found.get(key(row), ()), row)
    return found
