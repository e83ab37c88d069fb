"""How a crop is taken and how long it lives, as far as the reference tables know it.

A crop that they do not know is taken for nothing: what was done to it leaves a range.
"""

from functools import cache
from typing import Literal

from journal.reference.crops import Crop
from journal.reference.load import load

Taking = Literal["whole", "parts", "unsure"]

# An annual that nobody cleared is over this long after its last picking.
OVER_AFTER_DAYS = 180
# Seeds of which nothing has shown for so long may all be dead (common practice, no published
# source; of Harrington's table only cold soils take longer).
UP_BY_DAYS = 42
# No annual or biennial is alive later than this after its sowing (common practice, no published
# source).
LONGEST_LIFE_DAYS = 730

# What is eaten of a crop tells whether a harvest takes the plant (common practice, no published
# source): a picked bean leaves its plant, a lifted carrot does not.
_WHOLE = frozenset(
    {
        "root",
        "bulb",
        "bulb and leaf",
        "stem (blanched)",
        "stem",
        "swollen stem",
        "swollen stem base",
        "swollen leaf base",
        "leaf head",
        "leaf stalk",
        "flower head",
    }
)
_PARTS = frozenset(
    {
        "axillary buds",
        "blanched shoot",
        "flower",
        "flower bud",
        "flower shoots",
        "fruit",
        "leaf / flower",
        "nut",
        "pod",
        "seed",
        "seed / pod",
        "seed head",
        "shoot",
    }
)
_HEADS = frozenset({"lettuce", "chicory", "endive", "pak choi", "tatsoi", "radish"})
_LEAF_BY_LEAF = frozenset(
    {
        "kale",
        "cavolo nero",
        "collard",
        "chard",
        "perpetual spinach",
        "new zealand spinach",
        "parsley",
        "basil",
        "marjoram",
        "perilla",
        "savory",
    }
)
_SIDE_SHOOTS = frozenset({"calabrese"})
_DIGGING = frozenset({"lift", "dig up"})


def known_crop(crop: str) -> Crop | None:
    """The crop as the reference tables have it."""
    return load().crops.get(crop)


def is_annual(crop: str) -> bool:
    """Whether a crop is known to be no perennial; false where the tables do not know it."""
    known = known_crop(crop)
    return known is not None and not known.perennial


def is_perennial(crop: str) -> bool:
    """Whether a crop is known to be a perennial."""
    known = known_crop(crop)
    return known is not None and known.perennial


def taking(crop: str, verb: str) -> Taking:
    """What a harvest takes: whole plants, parts that leave them alive, or one cannot tell.

    Of `whole` the count of a harvest is a count of plants, and a harvest without one took an
    unknown number of them.
    """
    known = known_crop(crop)
    if known is None:
        return "unsure"
    if known.perennial:
        return "unsure" if verb in _DIGGING else "parts"
    part = known.edible_part
    if crop in _HEADS or (part in _WHOLE and crop not in _SIDE_SHOOTS):
        return "whole"
    if part in _PARTS or crop in _LEAF_BY_LEAF:
        return "unsure" if verb in _DIGGING else "parts"
    return "unsure"


@cache
def members(crop: str) -> frozenset[str]:
    """The crops that a word stands for: itself, the kinds of it, what it is a kind of, a group's.

    A spring cabbage is a cabbage: one name ends in the other, and species and edible part are the
    same. A sweet potato is no potato.
    """
    group = load().groups.get(crop)
    own = frozenset({crop, *group.members}) if group else frozenset({crop})
    return own | _kinds().get(crop, frozenset())


@cache
def _kinds() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    crops = load().crops
    for kind in crops.values():
        _, _, rest = kind.name.partition(" ")
        while rest:
            whole = crops.get(rest)
            if whole is not None and _alike(kind, whole):
                found.setdefault(kind.name, set()).add(whole.name)
                found.setdefault(whole.name, set()).add(kind.name)
            _, _, rest = rest.partition(" ")
    return {name: frozenset(others) for name, others in found.items()}


def _alike(one: Crop, other: Crop) -> bool:
    return one.species != "" and (one.species, one.edible_part) == (
        other.species,
        other.edible_part,
    )
