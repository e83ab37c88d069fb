"""Written names to the diary's own: places, crops, cultivars, materials; likely spellings."""

from collections import Counter
from dataclasses import dataclass, field

from journal.events.model import Sheet
from journal.reference.crops import nearest, plural
from journal.reference.load import Reference
from journal.syntax.numbers import squeeze
from journal.syntax.words import Words

_LEADING = ("the ", "my ", "our ", "a ", "an ")


def bare(name: str) -> str:
    """A cultivar's name as it may be written: lower case, without apostrophes."""
    return squeeze(name.replace("'", "").replace("’", "").replace("‘", ""))


@dataclass(slots=True)
class Names:
    """Every name that is known for one diary.

    `cultivars` gives for each crop the bare form of each cultivar and the name it goes by: the
    spelling most often written, of equals the first in the alphabet.
    """

    places: dict[str, str] = field(default_factory=dict)
    crops: dict[str, str] = field(default_factory=dict)
    families: dict[str, str] = field(default_factory=dict)
    materials: dict[str, str] = field(default_factory=dict)
    cultivars: dict[str, dict[str, str]] = field(default_factory=dict)
    seen: dict[str, Counter[str]] = field(default_factory=dict)

    def place(self, written: str) -> str | None:
        """A declared place, by any of its names."""
        return self.places.get(squeeze(written))

    def crop(self, written: str) -> str | None:
        """A known crop or group, by any of its names."""
        return self.crops.get(squeeze(written))

    def material(self, written: str) -> str:
        """A known material's name, or the words as written."""
        words = squeeze(written)
        return self.materials.get(words, " ".join(written.split()))

    def family(self, crop: str) -> str:
        """The botanical family of a crop, "" where it is not known or a group has several."""
        return self.families.get(crop, "")

    def cultivar(self, crop: str, written: str) -> str | None:
        """The name that a cultivar of this crop goes by; None for one never written in quotes."""
        return self.cultivars.get(crop, {}).get(bare(written))

    def note(self, crop: str, cultivar: str) -> None:
        """Remembers a cultivar that stands in quotes beside its crop."""
        if crop and cultivar:
            self.seen.setdefault(crop, Counter())[cultivar] += 1

    def settle_cultivars(self) -> None:
        """Chooses one spelling for each cultivar that was noted."""
        for crop, counts in self.seen.items():
            known = self.cultivars.setdefault(crop, {})
            for name, _ in sorted(counts.items(), key=lambda item: (-item[1], item[0])):
                known.setdefault(bare(name), name)

    def rare_twin(self, crop: str, cultivar: str) -> str | None:
        """The commoner cultivar of the same crop that this one is probably a slip for."""
        counts = self.seen.get(crop, Counter())
        own = counts[cultivar]
        commoner = [name for name, count in counts.items() if count > own and own == 1]
        others = [name for name in commoner if bare(name) != bare(cultivar)]
        likely = nearest(cultivar, others, 1)
        return likely[0] if likely else None


def singular(written: str, known: dict[str, str]) -> str:
    """An undeclared crop's name: lower case, without an article, in the singular."""
    name = squeeze(written)
    for lead in _LEADING:
        name = name.removeprefix(lead)
    if name in known:
        return known[name]
    for ending, instead in (("ies", "y"), ("oes", "o"), ("s", "")):
        cut = name.removesuffix(ending) + instead
        if name.endswith(ending) and len(cut) > 2 and plural(cut) == name:
            return cut
    return name


def known_names(sheet: Sheet, reference: Reference) -> Names:
    """The names of the reference tables and of the plot sheet together."""
    names = Names(
        crops=dict(reference.crop_spellings),
        families={crop.name: crop.family for crop in reference.crops.values()},
        materials=dict(reference.material_spellings),
    )
    names.families |= {group.name: group.family for group in reference.groups.values()}
    for place in sheet.places:
        names.places[squeeze(place.name)] = place.name
    for place in sheet.places:
        for other in place.also:
            names.places.setdefault(squeeze(other), place.name)
    for crop in sheet.crops:
        for name in (crop.name, *crop.also):
            names.crops[name] = crop.name
            names.crops.setdefault(plural(name), crop.name)
        if crop.family:
            names.families[crop.name] = crop.family
    for material in sheet.materials:
        for name in (material.name, *material.also):
            names.materials[squeeze(name)] = material.name
    for price in sheet.prices:
        names.note(price.crop, price.cultivar)
    return names


def words_of(sheet: Sheet, names: Names, units: frozenset[str], cultivars: frozenset[str]) -> Words:
    """The words that the lexer must know for this diary."""
    measures = {measure.name for measure in sheet.measures}
    measures |= {plural(name) for name in measures}
    return Words(
        crops=frozenset(names.crops),
        places=frozenset(names.places),
        materials=frozenset(names.materials),
        measures=frozenset(measures),
        units=units,
        persons=frozenset(
            squeeze(person) for person in (*sheet.persons, *(name for name, _ in sheet.nicknames))
        ),
        cultivars=cultivars | frozenset(bare(cultivar) for cultivar in cultivars),
    )
