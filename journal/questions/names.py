"""Every name that a question may use for this diary: crops, cultivars, places, goods, people.

A name may mean several things (`swift` is a sweetcorn and a bird); which of them is meant is
settled by the question, never here.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import permutations
from typing import Literal

import pandas as pd

from journal.diary import Diary
from journal.events.names import bare
from journal.questions.nicknames import NARROWER, NICKNAMES
from journal.reference.crops import nearest, plural
from journal.reference.load import Reference, load

SenseKind = Literal[
    "crop", "group", "narrow", "cultivar", "place", "places", "every", "material", "person",
    "subject", "task", "measure", "label", "cover",
]  # fmt: skip
# a frame is asked for as `the frame` where the sheet has only one
PLACE_WORDS = {
    "frame": "frame",
    "cold frame": "frame",
    "coldframe": "frame",
    "greenhouse": "house",
    "glasshouse": "house",
    "tunnel": "house",
    "polytunnel": "house",
    "poly tunnel": "house",
    "hothouse": "house",
    "butt": "tank",
    "water butt": "tank",
    "rain butt": "tank",
    "tank": "tank",
    "water tank": "tank",
    "bay": "bay",
    "compost bay": "bay",
    "compost heap": "bay",
    "heap": "bay",
}
# words of cultivars that say something by themselves: `the red onions` are not 'Red Baron'
_COMMON_WORDS = frozenset(
    "american arrow chinese danish density dutch english finnish french german indian irish "
    "italian japanese polish spanish swedish swiss turkish welsh "
    "apple banana beauty bounty breakfast butter champion cherry crown delight dream emerald "
    "exhibition express favorite favourite flame frost globe glory green's heart honey ideal "
    "island jewel ladies lady lemon market marvel master match melody middle moon mountain "
    "peach pearl pepper pigeon pride prince princess queen rapid record reward rocket royal "
    "sharp snow special spice star storm sunset supreme surprise treasure trophy valley velvet "
    "victory village water world "
    "amber autumn best black blue bronze brown bush climbing cool cream crimson dark december "
    "double dwarf early eight fast fern first flat fresh garden giant gold golden great greek "
    "green grey half hardy heavy improved january large late light little long majestic market "
    "mini mixed moss november october orange organic perfection perpetual pink plain prize purple "
    "quick rainbow ribbed round ruby russian salad scarlet season seasons second seed september "
    "short silver slow small smooth spring standard stripe striped summer super sweet tall tender "
    "thick third violet white wild winter wonder yellow young".split()
)
_ARTICLES = ("the ", "a ", "an ", "my ", "our ")


@dataclass(frozen=True, slots=True)
class Sense:
    """One meaning of a name: its kind, the name the diary keeps it under, a cultivar's crop."""

    kind: SenseKind
    name: str
    crop: str = ""


@dataclass
class Names:
    """Names by their words, lower case and without apostrophes; `longest` is in words."""

    diary: Diary
    reference: Reference
    senses: dict[tuple[str, ...], list[Sense]] = field(default_factory=dict)
    longest: int = 1

    def add(self, written: str, sense: Sense) -> None:
        """Makes `written` a name for what `sense` means, beside what it meant before."""
        words = name_words(written)
        if not words:
            return
        known = self.senses.setdefault(words, [])
        if sense not in known:
            known.append(sense)
        self.longest = max(self.longest, len(words))

    @cached_property
    def own_crops(self) -> set[str]:
        """Crops and groups that the diary names, on the sheet or in an entry."""
        crops = {crop.name for crop in self.diary.sheet.crops}
        crops |= {price.crop for price in self.diary.sheet.prices}
        return (crops | set(self.diary.events["crop"].unique())) - {""}

    @cached_property
    def first_year(self) -> int:
        """The year of the oldest entry; today's where there is none."""
        oldest = self.diary.events["date"].min()
        return self.diary.today.year if pd.isna(oldest) else int(oldest.year)

    def members(self, group: str) -> tuple[str, ...]:
        """The crops of a group, those that the sheet puts there too, and the group's own name."""
        known = self.reference.groups.get(group)
        crops = list(known.members) if known else []
        crops += [crop.name for crop in self.diary.sheet.crops if group in crop.group]
        return tuple(dict.fromkeys([*crops, group]))

    def near(self, written: str) -> list[str]:
        """The diary's own crops, cultivars and places that `written` may be a slip for."""
        return nearest(" ".join(name_words(written)), self._own_spellings)

    def by_one_word(self, word: str) -> list[str]:
        """The diary's own cultivars of several words that have this one: `Sarpo Mira`."""
        common = word in _COMMON_WORDS or word.removesuffix("s") in _COMMON_WORDS
        return [] if common else self._cultivar_words.get(word, [])

    @cached_property
    def _cultivar_words(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for words, senses in self.senses.items():
            own = dict.fromkeys(s.name for s in senses if s.kind == "cultivar")
            for name in own if len(words) > 1 else ():
                for word in words:
                    if name not in found.setdefault(word, []):
                        found[word].append(name)
        return found

    def meant(self, spelling: str) -> list[Sense]:
        """What a spelling of `near` means."""
        return self.senses[tuple(spelling.split())]

    @cached_property
    def _own_spellings(self) -> list[str]:
        return [
            " ".join(words)
            for words, senses in self.senses.items()
            if any(self.is_own(sense) for sense in senses)
        ]

    def is_own(self, sense: Sense) -> bool:
        """Whether it is a crop, cultivar or place of this very diary."""
        if sense.kind in ("crop", "group"):
            return sense.name in self.own_crops
        return sense.kind in ("cultivar", "place")


def name_words(written: str) -> tuple[str, ...]:
    """The words of a name as they are compared: lower case, no apostrophes, hyphens parted."""
    return tuple(bare(written.replace("-", " ")).split())


def question_names(diary: Diary) -> Names:
    """All names of the reference tables, the plot sheet and the entries together."""
    names = Names(diary, load())
    _add_crops(names)
    _add_sheet(names)
    _add_events(names)
    return names


def _add_crops(names: Names) -> None:
    reference = names.reference
    for spelling, name in reference.crop_spellings.items():
        if name in reference.groups:
            names.add(spelling, Sense("group", name))
        elif spelling in NARROWER or _narrows(spelling, name):
            names.add(spelling, Sense("narrow", name))
        else:
            names.add(spelling, Sense("crop", name))
    for spelling, name in NICKNAMES.items():
        if name_words(spelling) not in names.senses:
            names.add(spelling, Sense("crop", name))
    for spelling, name in NARROWER.items():
        if name_words(spelling) not in names.senses:
            names.add(spelling, Sense("narrow", name))
    for crop in names.diary.sheet.crops:
        for written in (crop.name, *crop.also):
            names.add(written, Sense("crop", crop.name))
            names.add(plural(written), Sense("crop", crop.name))


# other names that say no more than the crop's own does
_NO_NARROWER = ("garden ", "bulb ", "eating ", "salad ")


def _narrows(spelling: str, crop: str) -> bool:
    """`early potato` asks for less than `potato`: the diary keeps no such crop."""
    ends = any(spelling.endswith(" " + form) for form in (crop, plural(crop)))
    return ends and not spelling.startswith(_NO_NARROWER)


def _add_sheet(names: Names) -> None:
    sheet = names.diary.sheet
    kinds: dict[str, list[str]] = {}
    for place in sheet.places:
        for written in (place.name, *place.also):
            names.add(written, Sense("place", place.name))
        if not place.ended:
            kinds.setdefault(place.kind, []).append(place.name)
    for change in sheet.changes:
        for name, _ in change.parts:
            names.add(name, Sense("place", name))
    for word, kind in PLACE_WORDS.items():
        for name in dict.fromkeys(kinds.get(kind, ())):
            names.add(word, Sense("places", name))
            names.add(plural(word), Sense("every", name))
    _add_numbered(names)
    for material in sheet.materials:
        for written in (material.name, *material.also):
            names.add(written, Sense("material", material.name))
    for measure in sheet.measures:
        names.add(measure.name, Sense("measure", measure.name))
        names.add(plural(measure.name), Sense("measure", measure.name))
    for person in sheet.persons:
        names.add(person, Sense("person", person))


def _add_numbered(names: Names) -> None:
    """`the barrels` are all of Barrel 1 and Barrel 2, `Platforms 3 and 4` those two."""
    families: dict[str, dict[str, str]] = {}
    for place in names.diary.sheet.places:
        found = re.fullmatch(r"(.*\D) (\d+)", place.name)
        if found and not place.ended:
            families.setdefault(found[1], {})[found[2]] = place.name
    for word, family in families.items():
        for name in family.values():
            names.add(plural(word), Sense("every", name))
        for one, other in permutations(family, 2):
            for name in (family[one], family[other]):
                names.add(f"{plural(word)} {one} and {other}", Sense("every", name))


def _add_events(names: Names) -> None:
    events = names.diary.events
    pairs = events[["crop", "cultivar"]].drop_duplicates()
    for crop, cultivar in pairs.itertuples(index=False):
        if cultivar:
            names.add(cultivar, Sense("cultivar", cultivar, crop))
            names.add(cultivar + "s", Sense("cultivar", cultivar, crop))
        elif crop and (crop,) not in names.senses:
            names.add(crop, Sense("crop", crop))
            names.add(plural(crop), Sense("crop", crop))
    for place in _said(events["place"], events["place_from"]):
        names.add(place, Sense("place", place))
    for party in _said(events["party"]):
        names.add(party, Sense("person", party))
    for kind in ("material", "subject", "task", "cover"):
        _add_words(names, kind, list(_said(events[kind])))
    for label in _said(events["label"]):
        names.add(label, Sense("label", label))


def _add_words(names: Names, kind: SenseKind, written: list[str]) -> None:
    """Goods, sightings and jobs, and by their last word: `manure` where it is horse manure.

    A thing's own name wins over a last word, but `boards` are scaffold boards too.
    """
    known = set(names.senses)
    own = {form for words in written for form in (words, *_other_numbers(words))}
    for words in written:
        doing = _doing(words) if kind == "task" else ()
        for form in (words, *_other_numbers(words), *_joined(words), *doing):
            names.add(form, Sense(kind, words))
        last = words.split()[-1]
        for form in (last, *_other_numbers(last), *_IN_TALK.get(last, ())):
            fabric = form in own and _is_fabric(words, names.reference)
            if fabric or (form not in own and name_words(form) not in known):
                names.add(form, Sense(kind, words))


# common practice, no published source
_IN_TALK = {"manure": ("muck", "dung")}


def _is_fabric(material: str, reference: Reference) -> bool:
    known = reference.materials.get(material)
    return known is not None and known.role == "fabric"


def _said(*columns: "pd.Series[str]") -> Iterator[str]:
    seen = {str(word) for column in columns for word in column.unique()}
    return (word for word in sorted(seen) if word)


def _doing(task: str) -> tuple[str, ...]:
    """`pointing the platform wall` and `pointing platform wall` of `point the platform wall`."""
    verb, *rest = task.split()
    if not rest:
        return ()
    stem = verb.removesuffix("e") if not verb.endswith("ee") else verb
    twice = stem + stem[-1]
    bare = [word for word in rest if f"{word} " not in _ARTICLES]
    return tuple(
        " ".join([f"{begun}ing", *words])
        for begun in dict.fromkeys((stem, verb, twice))
        for words in (rest, bare)
    )


def _joined(written: str) -> tuple[str, ...]:
    """`clubroot` for `club root`."""
    words = written.split()
    return ("".join(words),) if len(words) == 2 else ()


def _other_numbers(written: str) -> tuple[str, ...]:
    """`slug` beside `slugs`, `swallows` beside `swallow`."""
    if written.endswith("s") and not written.endswith("ss"):
        return (written[:-1],)
    return (plural(written),)
