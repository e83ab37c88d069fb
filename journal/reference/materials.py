"""Everyday materials and their written forms: dressings, feeds, heap stuff, products, covers.

Generic names only; what a bought product holds stands on the diary's own plot sheet.
"""

from collections.abc import Mapping
from dataclasses import dataclass

ROLES = ("dressing", "feed", "heap", "product", "cover", "fabric")


@dataclass(frozen=True, slots=True)
class Material:
    """A material under its one name, lower case; `role` is what it is usually used as.

    `raw_manure` is true for manure that is not said to be rotted or composted: the safe
    reading, since a heap without a temperature record cannot claim to be.
    """

    name: str
    also: tuple[str, ...] = ()
    role: str = "dressing"
    raw_manure: bool = False
    basis: str = ""


def material_spellings(materials: Mapping[str, Material]) -> dict[str, str]:
    """Every written form, lower case, to the material's name; a name wins over an other name."""
    spellings = {name: name for name in materials}
    for material in materials.values():
        for word in (material.name, *material.also):
            spellings.setdefault(word, material.name)
            spellings.setdefault(word.replace("'", ""), material.name)
    return spellings
