"""The tables of `shared/` to one `Reference`, checked against their declared columns.

A bad table is a fault of the program, not of a diary: it raises, naming file and row.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

from journal.reference.books import Books, Published, by_crop
from journal.reference.crops import Crop, Group, crop_spellings
from journal.reference.materials import ROLES, Material, material_spellings
from journal.reference.rows import Row, read_rows
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
SOURCE_COLUMNS = ("source_id", "cite", "title", "address", "basis", "licence")
FIGURE_COLUMNS = (
    "crop",
    "crop_in_source",
    "measure",
    "condition",
    "low",
    "high",
    "unit",
    "printed_low",
    "printed_high",
    "printed_unit",
    "source_id",
    "basis",
    "note",
)
GERMINATION_COLUMNS = (*FIGURE_COLUMNS[:4], "soil_c", *FIGURE_COLUMNS[4:])
_ROTATION_GROUPS = ("brassica", "legume", "allium", "potato", "root", "cucurbit", "other")
_CONTACT = ("", "in_soil", "leaf_near_ground", "may_touch", "off_ground")
_PUT_IN = ("sown", "planted", "either")
_BASIS = ("", "read", "memory")
_WHOLE = ("all crops", "whole plot")


@dataclass(frozen=True)
class Reference:
    """What is known before a diary is read, by name; handed on as an argument.

    The spellings lead from every written form, lower case, to a name of `crops` or `groups`,
    or of `materials`.
    """

    # Without slots, for the one thing kept back: the figures take longer to read than all
    # the names together, and checking a diary needs none of them.
    crops: Mapping[str, Crop]
    groups: Mapping[str, Group]
    materials: Mapping[str, Material]
    crop_spellings: Mapping[str, str]
    material_spellings: Mapping[str, str]
    folder: Path

    @cached_property
    def books(self) -> Books:
        """The published figures, read when first asked for."""
        return read_books(self.folder, self.crops, self.groups)


def read_crops(folder: Path) -> dict[str, Crop]:
    """The crops of `crops.csv` by name."""
    crops: dict[str, Crop] = {}
    for row in read_rows(folder / "crops.csv", CROP_COLUMNS):
        name = row.text("name")
        if name in crops:
            raise row.bad(f"{name} stands twice")
        crops[name] = _crop(row)
    return crops


def _crop(row: Row) -> Crop:
    return Crop(
        name=row.text("name"),
        family=row.cells["family"],
        also=row.words("also"),
        group=row.words("groups"),
        species=row.cells["species"],
        rotation_group=row.one_of("rotation_group", _ROTATION_GROUPS),
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


def read_books(folder: Path, crops: Mapping[str, Crop], groups: Mapping[str, Group]) -> Books:
    """The published figures; a row that was not read in its source is a bad row."""
    cites = {
        row.text("source_id"): row.text("cite")
        for row in read_rows(folder / "sources.csv", SOURCE_COLUMNS)
    }
    known = {*crops, *groups, *_WHOLE}

    def figures(
        name: str, columns: tuple[str, ...] = FIGURE_COLUMNS
    ) -> dict[str, tuple[Published, ...]]:
        rows = read_rows(folder / name, columns)
        return by_crop(figure for row in rows for figure in _figures(row, cites, known))

    return Books(
        yields=figures("expected_yields.csv"),
        days=figures("days_to_harvest.csv"),
        seed=figures("seed_viability.csv"),
        germination=figures("germination.csv", GERMINATION_COLUMNS),
        breaks=figures("rotation_years.csv"),
        distances=figures("spacing.csv"),
        weights=figures("weights.csv"),
        crops=crops,
        groups=groups,
    )


def _figures(row: Row, cites: Mapping[str, str], known: set[str]) -> Iterator[Published]:
    low, high = row.number_or_none("low"), row.number_or_none("high")
    if low is not None and high is not None and low > high:
        raise row.bad(f"low {low} is above high {high}")
    if row.text("source_id") not in cites:
        raise row.bad(f"source {row.cells['source_id']} is not in sources.csv")
    soil_c = row.number_or_none("soil_c") if "soil_c" in row.cells else None
    for crop in row.words("crop"):
        if crop not in known:
            raise row.bad(f"{crop} is no crop of crops.csv")
        yield Published(
            crop=crop,
            low=low,
            high=high,
            unit=row.text("unit"),
            source=cites[row.cells["source_id"]],
            basis=row.one_of("basis", ("read",)),
            note=row.cells["note"],
            measure=row.text("measure"),
            condition=row.cells["condition"],
            soil_c=soil_c,
            source_id=row.cells["source_id"],
            printed=_printed(row),
        )


def _printed(row: Row) -> str:
    low, high = row.cells["printed_low"], row.cells["printed_high"]
    number = low if low == high or not high else f"{low} to {high}"
    return f"{number} {row.text('printed_unit')}" if number else ""


def read_reference(folder: Path) -> Reference:
    """The tables of one folder as a `Reference`; its figures follow when they are asked for."""
    crops = read_crops(folder)
    groups = read_groups(folder, crops)
    materials = read_materials(folder)
    return Reference(
        crops=crops,
        groups=groups,
        materials=materials,
        crop_spellings=crop_spellings(crops, groups),
        material_spellings=material_spellings(materials),
        folder=folder,
    )


@cache
def load() -> Reference:
    """The project's own reference tables, read once."""
    return read_reference(shared_folder())
