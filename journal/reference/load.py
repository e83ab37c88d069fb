"""The tables of `shared/` to one `Reference`, checked against their declared columns.

A bad table is a fault of the program, not of a diary: it raises, naming file and row.
"""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from journal.reference.crops import Crop, Group, crop_spellings
from journal.reference.materials import ROLES, Material, material_spellings
from journal.resources import shared_folder

CROP_COLUMNS = (
    "name",
    "also",
    "family",
    "species",
    "groups",
    "rotation_group",
    "edible_part",
    "soil_contact",
    "perennial",
    "put_in",
    "source_id",
    "species_basis",
    "family_basis",
    "rotation_basis",
    "soil_contact_basis",
)
GROUP_COLUMNS = ("name", "also")
MATERIAL_COLUMNS = ("name", "also", "role", "raw_manure", "basis")
_CONTACT = ("", "in_soil", "leaf_near_ground", "may_touch", "off_ground")
_PUT_IN = ("sown", "planted", "either")
_BASIS = ("", "read", "memory")


@dataclass(frozen=True, slots=True)
class Reference:
    """What is known before a diary is read, by name; handed on as an argument."""

    crops: Mapping[str, Crop]
    groups: Mapping[str, Group]
    materials: Mapping[str, Material]
    crop_spellings: Mapping[str, str]
    material_spellings: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table, with the place to name when it is bad."""

    path: Path
    number: int
    cells: Mapping[str, str]

    def bad(self, why: str) -> ValueError:
        """The error to raise for this row; rows count from 2, below the heading."""
        return ValueError(f"{self.path.name}, row {self.number}: {why}")

    def text(self, column: str) -> str:
        """A cell that must not be empty."""
        if not self.cells[column]:
            raise self.bad(f"{column} is empty")
        return self.cells[column]

    def one_of(self, column: str, allowed: tuple[str, ...]) -> str:
        """A cell that must be one of a few words."""
        if self.cells[column] not in allowed:
            raise self.bad(f"{column} is {self.cells[column]!r}, not one of {allowed}")
        return self.cells[column]

    def words(self, column: str) -> tuple[str, ...]:
        """The parts of a cell between semicolons."""
        return tuple(word for word in self.cells[column].split(";") if word)

    def truth(self, column: str) -> bool:
        """A cell that says yes or no."""
        return self.one_of(column, ("yes", "no")) == "yes"


def read_rows(path: Path, columns: tuple[str, ...]) -> Iterator[Row]:
    """The rows of one table; raises when the heading or a row has other columns."""
    with path.open(encoding="utf-8", newline="") as file:
        reader = csv.reader(file)
        heading = tuple(next(reader, ()))
        if heading != columns:
            raise ValueError(f"{path.name}, row 1: columns are {heading}, not {columns}")
        for number, cells in enumerate(reader, start=2):
            if len(cells) != len(columns):
                raise ValueError(f"{path.name}, row {number}: {len(cells)} cells")
            yield Row(path, number, dict(zip(columns, cells, strict=True)))


def read_crops(folder: Path) -> dict[str, Crop]:
    """The crops of `crops.csv` by name."""
    crops: dict[str, Crop] = {}
    for row in read_rows(folder / "crops.csv", CROP_COLUMNS):
        name = row.text("name")
        if name in crops:
            raise row.bad(f"{name} stands twice")
        crops[name] = Crop(
            name=name,
            family=row.cells["family"],
            also=row.words("also"),
            group=row.words("groups"),
            species=row.cells["species"],
            rotation_group=row.text("rotation_group"),
            edible_part=row.cells["edible_part"],
            soil_contact=row.one_of("soil_contact", _CONTACT),
            perennial=row.truth("perennial"),
            put_in=row.one_of("put_in", _PUT_IN),
            source=row.cells["source_id"],
            species_basis=row.one_of("species_basis", _BASIS),
            family_basis=row.one_of("family_basis", _BASIS),
            rotation_basis=row.one_of("rotation_basis", _BASIS),
            soil_contact_basis=row.one_of("soil_contact_basis", _BASIS),
        )
    return crops


def read_groups(folder: Path, crops: Mapping[str, Crop]) -> dict[str, Group]:
    """The groups of `crop_groups.csv` by name, with the crops that name them."""
    groups: dict[str, Group] = {}
    for row in read_rows(folder / "crop_groups.csv", GROUP_COLUMNS):
        name = row.text("name")
        members = tuple(crop.name for crop in crops.values() if name in crop.group)
        if name in groups or name in crops or not members:
            raise row.bad(f"{name} stands twice, is a crop, or has no crops")
        families = {crops[member].family for member in members}
        family = families.pop() if len(families) == 1 else ""
        groups[name] = Group(name, row.words("also"), family, members)
    strays = {name for crop in crops.values() for name in crop.group} - set(groups)
    if strays:
        raise ValueError(f"crops.csv: groups {sorted(strays)} are not in crop_groups.csv")
    return groups


def read_materials(folder: Path) -> dict[str, Material]:
    """The materials of `materials.csv` by name."""
    materials: dict[str, Material] = {}
    for row in read_rows(folder / "materials.csv", MATERIAL_COLUMNS):
        name = row.text("name")
        if name in materials:
            raise row.bad(f"{name} stands twice")
        materials[name] = Material(
            name=name,
            also=row.words("also"),
            role=row.one_of("role", ROLES),
            raw_manure=row.truth("raw_manure"),
            basis=row.text("basis"),
        )
    return materials


def read_reference(folder: Path) -> Reference:
    """All tables of one folder as a `Reference`."""
    crops = read_crops(folder)
    groups = read_groups(folder, crops)
    materials = read_materials(folder)
    return Reference(
        crops=crops,
        groups=groups,
        materials=materials,
        crop_spellings=crop_spellings(crops, groups),
        material_spellings=material_spellings(materials),
    )


@cache
def load() -> Reference:
    """The project's own reference tables, read once."""
    return read_reference(shared_folder())
