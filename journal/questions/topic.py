"""What a question is about: crops, cultivars, places, goods and people as a filter over events."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import pandas as pd

from journal.questions.asked import Asked, RefusedError
from journal.questions.ground import Place, places_of
from journal.questions.names import Names, Sense, SenseKind
from journal.questions.parts import Part
from journal.questions.saying import crop_said, is_one, listed

# which meaning of a name is meant where the question does not say
_CROPS: tuple[SenseKind, ...] = ("cultivar", "crop", "group", "narrow", "label")
_USUAL: tuple[SenseKind, ...] = (*_CROPS, "material", "subject", "task", "cover")
_MATERIAL_FIRST: tuple[SenseKind, ...] = ("material", *_CROPS, "subject", "task", "cover")
_SUBJECT_FIRST: tuple[SenseKind, ...] = ("subject", "task", *_CROPS, "material", "cover")
_TASK_FIRST: tuple[SenseKind, ...] = ("task", "cover", *_CROPS, "material", "subject")
_MATERIAL_ACTS = frozenset(
    ("spread", "mulch", "dig_in", "fill", "empty", "fetch", "fit", "replace", "treat", "spray")
)
_TASK_ACTS = frozenset(("cut", "mow", "mend", "build", "paint", "burn", "cover", "pull_up", "job"))
# what edges a bed goes by several names
_BOARDS = ("boards", "planks", "timbers", "sleepers")
# before a crop these say something else than that the crop is meant
_NOT_THE_CROP = ("under", "by", "at")


@dataclass(frozen=True, slots=True)
class Thing:
    """One crop, group, cultivar, material, sighting or task, with how it is said."""

    kind: str
    said: str
    crops: tuple[str, ...] = ()
    cultivar: str = ""
    names: tuple[str, ...] = ()
    singular: bool = False

    def names_it(self, events: pd.DataFrame) -> "pd.Series[bool]":
        """Which events name it."""
        if self.kind != "crop":
            return events[self.kind].isin(self.names)
        mine = events["crop"].isin(self.crops)
        if self.cultivar:
            mine &= events["cultivar"] == self.cultivar
        return mine


@dataclass(frozen=True, slots=True)
class Topic:
    """All that narrows a question's events but its days; nothing at all is everything.

    Several crops, or several places, are any of them; a crop and a place are both.
    """

    things: tuple[Thing, ...] = ()
    places: tuple[Place, ...] = ()
    parties: tuple[str, ...] = ()
    label: str = ""
    notes: tuple[str, ...] = field(default=(), compare=False)

    def rows(self, events: pd.DataFrame, *, whole: bool = False) -> pd.DataFrame:
        """The events that it holds of; `whole` adds those of the ground a place was part of."""
        mine = pd.Series(True, index=events.index)
        for kind in dict.fromkeys(thing.kind for thing in self.things):
            own = [thing.names_it(events) for thing in self.things if thing.kind == kind]
            mine &= _any(own)
        if self.places:
            mine &= _any([place.is_there(events, whole=whole) for place in self.places])
        if self.parties:
            mine &= events["party"].isin(self.parties)
        if self.label:
            mine &= events["label"] == self.label
        kept: pd.DataFrame = events if mine.all() else events[mine]
        return kept

    @property
    def said(self) -> str:
        """The things by name: `runner beans`, `'Sungold' tomatoes and garlic`, or ""."""
        crops = [thing.said for thing in self.things if thing.kind == "crop"]
        others = [thing.said for thing in self.things if thing.kind != "crop"]
        words = " with ".join(filter(None, [listed(crops), listed(others)]))
        return f"{words} [{self.label}]" if self.label else words

    @property
    def there(self) -> str:
        """`in Platform 1`, `from Platform 1 and Platform 2`, or ""."""
        if not self.places:
            return ""
        return f"{self.places[0].word} {listed([each.said for each in self.places])}"

    @property
    def what(self) -> str:
        """Things and places together: `leeks in Platform 1`."""
        return " ".join(filter(None, [self.said, self.there]))

    def being(self, name: str, past: str, noun: str) -> str:
        """`leeks in Platform 1 being fed`, `peas coming up`: what an act of them is called."""
        subject = self.what if self.said else listed([place.said for place in self.places])
        if name == "lose":
            return self.lost_to()
        if name == "ail":
            return self.what
        done = noun if name in ("up", "bolt", "fail") else f"being {past}"
        return f"{subject or 'anything'} {done}"

    def lost_to(self) -> str:
        """`leeks being lost to slugs`: what a loss is asked of, with its reason."""
        crops = listed([thing.said for thing in self.things if thing.kind == "crop"])
        reasons = listed([thing.said for thing in self.things if thing.kind != "crop"], "or")
        to = f" to {reasons}" if reasons else ""
        there = f" {self.there}" if self.there else ""
        return f"{crops or 'anything'}{there} being lost{to}"

    @property
    def singular(self) -> bool:
        """Whether it is spoken of as one: `garlic was`, but `leeks were`."""
        return len(self.things) == 1 and self.things[0].singular

    @property
    def crops(self) -> tuple[str, ...]:
        """The crops that its things name."""
        return tuple(crop for thing in self.things for crop in thing.crops)

    @property
    def is_empty(self) -> bool:
        """Whether nothing at all narrows it."""
        return not (self.things or self.places or self.parties or self.label)

    def each_thing(self) -> "list[Topic]":
        """One topic for every crop that it names."""
        return [replace(self, things=(thing,)) for thing in self.things]

    def anywhere(self) -> "Topic":
        """The same without its places."""
        return replace(self, places=())


def _any(masks: "Sequence[pd.Series[bool]]") -> "pd.Series[bool]":
    found = masks[0]
    for mask in masks[1:]:
        found = found | mask
    return found.fillna(False).astype(bool)


def take_topic(asked: Asked, act: str = "", *, people: bool = False, batches: bool = True) -> Topic:
    """Takes every crop, cultivar, place and thing of the question, and people where they may be.

    RefusedError where a name may mean several, where two names stand side by side unjoined, and
    for a batch (`the second carrots`) where what is asked is not told by `batches`.
    """
    parts = asked.take_all("thing")
    found = _things(parts, asked, act)
    if act in ("lose", "see") and (cold := asked.take("kind", "frost")):
        asked.take("preposition", "to", "by")
        found.append(Thing("subject", asked.words(cold), names=("frost", "frosts")))
    spots = asked.take_all("place")
    grounds = [places_of(part, asked) for part in spots]
    places = tuple(place for each in grounds for place in each)
    parties = tuple(part.senses[0].name for part in asked.take_all("person")) if people else ()
    found, places = list(dict.fromkeys(found)), tuple(dict.fromkeys(places))
    _take_joints(asked, [*found, *dict.fromkeys(each[0] for each in grounds)])
    found = [_boards(thing, places, asked) for thing in found]
    labels = [thing for thing in found if thing.kind == "label"]
    if len(labels) > 1:
        raise RefusedError("it names two batches; ask about one")
    things = tuple(thing for thing in found if thing.kind != "label")
    label = labels[0].names[0] if labels else ""
    if label and not batches:
        raise RefusedError(f"I cannot tell what `{label}` does in that question")
    notes = tuple(note for place in places for note in place.notes)
    return Topic(things, places, parties, label, notes + _kin(things, asked.names))


def _boards(thing: Thing, places: Sequence[Place], asked: Asked) -> Thing:
    """`the boards on Platform 3` are its planks, where boards of no other name were there."""
    if thing.kind != "material" or thing.said not in _BOARDS or not places:
        return thing
    events = asked.diary.events
    there = events[_any([place.is_there(events) for place in places])]
    if there["material"].isin(thing.names).any():
        return thing
    others = sorted({m for m in there["material"] if m.split()[-1:] and m.split()[-1] in _BOARDS})
    return replace(thing, said=listed(others), names=tuple(others)) if others else thing


def _take_joints(asked: Asked, found: Sequence[Thing | Place]) -> None:
    """`and` joins names of one kind; as many are used as join, and none may be missing."""
    kinds = [item.kind if isinstance(item, Thing) else "place" for item in found]
    needed = len(kinds) - len(set(kinds))
    joints = asked.take_all("joint") if needed else []
    if needed and not joints and not asked.joint_lent:
        names = [item.said for item in found if kinds.count(_kind(item)) > 1]
        raise RefusedError(
            f"it names {listed(names)} side by side; write `and` between, or one of them"
        )


def _kind(item: Thing | Place) -> str:
    return item.kind if isinstance(item, Thing) else "place"


def _things(parts: Sequence[Part], asked: Asked, act: str) -> list[Thing]:
    found: list[Thing] = []
    at = 0
    while at < len(parts):
        pair = _pair(parts[at : at + 2], asked)
        found.append(pair or _thing(parts[at], asked, act))
        at += 2 if pair else 1
    return found


def _pair(parts: Sequence[Part], asked: Asked) -> Thing | None:
    """A cultivar beside its crop: `Sungold tomatoes`, `tomato 'Sungold'`."""
    if len(parts) < 2 or asked.text[parts[0].end : parts[1].start].strip(" '\"‘’“”"):
        return None
    for one, other in (parts, parts[::-1]):
        crops = {crop for sense in other.senses for crop in _crops(sense, asked.names)}
        for sense in one.senses:
            if sense.kind == "cultivar" and sense.crop in crops:
                return _cultivar_thing([sense])
    return None


def _crops(sense: Sense, names: Names) -> tuple[str, ...]:
    if sense.kind == "group":
        return names.members(sense.name)
    return (sense.name,) if sense.kind in ("crop", "narrow") else ()


def _order(part: Part, act: str) -> tuple[SenseKind, ...]:
    if part.name == "under":
        return ("cover", *_USUAL)
    if act == "see" or (part.name in ("to", "by") and act in ("lose", "waste")):
        return _SUBJECT_FIRST
    if part.name == "with" or act in _MATERIAL_ACTS:
        return _MATERIAL_FIRST
    return _TASK_FIRST if act in _TASK_ACTS else _USUAL


def _thing(part: Part, asked: Asked, act: str) -> Thing:
    for kind in _order(part, act):
        senses = [sense for sense in part.senses if sense.kind == kind]
        if senses:
            written = asked.name_words(part)
            if kind == "narrow" and act == "buy" and written.lower().startswith("seed "):
                # `what did seed potatoes cost`: the purchases of the crop
                senses = [Sense("crop", senses[0].name)]
            thing = meant(senses, written, asked.names)
            if part.name in _NOT_THE_CROP and thing.kind == "crop":
                raise RefusedError(f"I cannot tell what `{asked.words(part)}` narrows it to")
            return thing
    raise RefusedError(f"`{asked.words(part)}` names nothing that this can be asked of")


def meant(senses: list[Sense], written: str, names: Names) -> Thing:
    """The thing that senses of one kind mean; RefusedError where they mean several."""
    sense = senses[0]
    if sense.kind == "cultivar":
        return _cultivar_thing(senses, written)
    if sense.kind == "narrow":
        crop = crop_said(sense.name)
        raise RefusedError(
            f"the diary does not tell `{written}` from other {crop}; ask about {crop} or a cultivar"
        )
    if sense.kind == "crop":
        return _crop_thing(sense.name, names)
    if sense.kind == "group":
        return Thing("crop", crop_said(sense.name), names.members(sense.name))
    found = tuple(dict.fromkeys(each.name for each in senses))
    said = " ".join(written.lower().split())
    singular = not said.endswith("s") or said.endswith("ss")
    return Thing(sense.kind, said, names=found, singular=singular)


def _crop_thing(crop: str, names: Names) -> Thing:
    """A crop; one that the diary has under longer names only (`winter squash`) is all of those."""
    longer = tuple(sorted(own for own in names.own_crops if own.endswith(f" {crop}")))
    if crop in names.own_crops or not longer:
        return Thing("crop", crop_said(crop), (crop,), singular=is_one(crop))
    said = listed([crop_said(each) for each in longer])
    return Thing("crop", said, longer, singular=len(longer) == 1 and is_one(longer[0]))


def _cultivar_thing(senses: list[Sense], written: str = "") -> Thing:
    crops = tuple(sense.crop for sense in senses)
    if len(crops) > 1:
        raise RefusedError(f"`{written}` is a cultivar of {listed(crops)}; name the crop too")
    sense = senses[0]
    said = f"'{sense.name}' {crop_said(sense.crop)}"
    return Thing("crop", said, crops, sense.name, singular=is_one(sense.crop))


def _kin(things: Sequence[Thing], names: Names) -> tuple[str, ...]:
    """Crops of the diary that may be meant too: `onion` is kept apart from `red onion`."""
    asked = {crop for thing in things for crop in thing.crops}
    single = [t.crops[0] for t in things if len(t.crops) == 1 and not t.cultivar]
    apart = [
        crop_said(crop)
        for crop in sorted(names.own_crops - asked)
        if any(crop.endswith(f" {each}") for each in single)
    ]
    one = len(apart) == 1 and not apart[0].endswith("s")
    return (f"{listed(apart)} {'is' if one else 'are'} counted apart",) if apart else ()
