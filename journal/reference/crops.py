"""Crops and crop groups: their families, their written forms, and likely spellings.

Pure values and functions; an unknown name is never forced onto a known one.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Crop:
    """A crop under its one name, lower case and singular, with what is known of its kind.

    `soil_contact` is in_soil, leaf_near_ground, may_touch, off_ground or empty; `put_in` is
    how it usually gets to its growing place: sown, planted or either. A `basis` is `read`
    (seen in the source), `memory` (not re-read) or empty where the field is empty.
    """

    name: str
    family: str
    also: tuple[str, ...] = ()
    group: tuple[str, ...] = ()
    species: str = ""
    rotation_group: str = ""
    edible_part: str = ""
    soil_contact: str = ""
    perennial: bool = False
    put_in: str = "either"
    source: str = ""
    species_basis: str = ""
    family_basis: str = ""
    rotation_basis: str = ""
    soil_contact_basis: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """A word for several crops, usable where a crop is; `family` only if all share one."""

    name: str
    also: tuple[str, ...]
    family: str
    members: tuple[str, ...]


_IRREGULAR = {
    "chilli": "chillies",
    "leaf": "leaves",
    "potato": "potatoes",
    "tomato": "tomatoes",
}


def plural(name: str) -> str:
    """The plural of a crop's name, on its last word: `chillies`, `radishes`, `potatoes`."""
    before, _, last = name.rpartition(" ")
    return f"{before} {_plural_word(last)}".strip()


def _plural_word(word: str) -> str:
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if word.endswith(("sh", "ch", "x", "ss")):
        return word + "es"
    if word.endswith("s"):
        return word
    if word.endswith("y") and word[-2:-1] not in tuple("aeiou"):
        return word[:-1] + "ies"
    return word + "s"


def crop_spellings(crops: Mapping[str, Crop], groups: Mapping[str, Group]) -> dict[str, str]:
    """Every written form, lower case, to the name of the crop or group.

    Names, other names, the plurals of both, and each of them without its apostrophe.
    A crop's own name wins over another's other name, a crop over a group.
    """
    known = [(crop.name, crop.also) for crop in crops.values()]
    known += [(group.name, group.also) for group in groups.values()]
    spellings = {name: name for name, _ in known}
    for name, also in known:
        for word in (name, *also):
            for form in (word, plural(word)):
                spellings.setdefault(form, name)
                spellings.setdefault(form.replace("'", ""), name)
    return spellings


def nearest(word: str, names: Iterable[str], limit: int = 3) -> list[str]:
    """The names one or two typing slips away from a word, best first; empty when none is.

    A slip is a letter too many, too few, wrong or swapped with its neighbour. Words under
    four letters have no near ones, words under seven allow one slip after their first letter,
    and figures must agree: `North 9` is no slip for `North 2`. Only the fewest slips count.
    """
    from rapidfuzz.distance import OSA, JaroWinkler  # 30 ms, needed for misspelt words only

    wanted = word.casefold()
    figures = _figures(wanted)
    found: list[tuple[int, float, str]] = []
    for name in names:
        allowed = _slips_allowed(wanted, figures, name.casefold())
        slips = int(OSA.distance(wanted, name.casefold(), score_cutoff=allowed))
        if slips <= allowed:
            likeness = JaroWinkler.similarity(wanted, name.casefold())
            found.append((slips, -likeness, name))
    fewest = min((slips for slips, _, _ in found), default=0)
    return [name for slips, _, name in sorted(found) if slips == fewest][:limit]


def _slips_allowed(wanted: str, figures: str, name: str) -> int:
    shorter, longer = sorted((len(wanted), len(name)))
    if longer < 4 or longer - shorter > 2 or figures != _figures(name):
        return 0
    if shorter >= 7:
        return 2
    return 1 if wanted[:1] == name[:1] else 0


def _figures(text: str) -> str:
    return "".join(letter for letter in text if letter.isdigit())
