"""What a question is about: crops, cultivars, places, goods and people as a filter over events."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import pandas as pd

from journal.events.model import Sheet
from journal.questions.asked import Asked, Refused
from journal.questions.names import Names, Sense, SenseKind
from journal.questions.parts import Part
from journal.questions.saying import crop_said, is_one, listed

# which meaning of a name is meant where the question does not say
_CROPS: tuple[SenseKind, ...] = ("cultivar", "crop", "group", "narrow", "label")
_USUAL: tuple[SenseKind, ...] = (*_CROPS, "material", "subject", "task")
_MATERIAL_FIRST: tuple[SenseKind, ...] = ("material", *_CROPS, "subject", "task")
_SUBJECT_FIRST: tuple[SenseKind, ...] = ("subject", "task", *_CROPS, "material")
_MATERIAL_ACTS = frozenset(
    ["spread", "mulch", "dig_in", "lime", "fill", "empty", "fetch", "fit", "replace", "treat", "spray", "take_down"]
)


@dataclass(frozen=True, slots=True)
class Thing:
    """One crop, group, cultivar, material, sighting or task, with how it is said."""

    kind: str
    said: str
    crops: tuple[str, ...] = ()
    cultivar: str = ""
    names: tuple[str, ...] = ()
    singular: bool = False

    def rows(self, events: pd.DataFrame) -> pd.DataFrame:
        """The events that name it."""
        if self.kind == "crop":
            mine = events["crop"].isin(self.crops)
            if self.cultivar:
                mine &= events["cultivar"] == self.cultivar
        elif self.kind == "label":
            mine = events["label"].isin(self.names)
        elif self.kind == "task":
            mine = events["task"].isin(self.names)
        else:
            mine = events[self.kind].isin(self.names)
        kept: pd.DataFrame = events[mine]
        return kept


@dataclass(frozen=True, slots=True)
class Place:
    """Ground or a building: all names that its ground has gone by, and the word before it."""

    said: str
    names: tuple[str, ...]
    preposition: str = ""
    before: tuple[str, ...] = ()

    def rows(self, events: pd.DataFrame) -> pd.DataFrame:
        """The events there; after `from`, also what left it for another place."""
        mine = events["place"].isin(self.names)
        if self.preposition == "from":
            left = events["place_from"].isin(self.names)
            own = events["kind"].isin(["harvest", "loss", "end"]) & events["place_from"].eq("")
            mine = left | (mine & own)
        kept: pd.DataFrame = events[mine]
        return kept

    @property
    def there(self) -> str:
        """`in Platform 1`, `from Platform 1`: with the preposition that was said."""
        word = self.preposition if self.preposition in ("from", "on", "under", "to") else "in"
        return f"{word} {self.said}"


@dataclass(frozen=True, slots=True)
class Topic:
    """All that narrows a question's events but its days; nothing at all is everything."""

    things: tuple[Thing, ...] = ()
    places: tuple[Place, ...] = ()
    parties: tuple[str, ...] = ()
    label: str = ""

    def rows(self, events: pd.DataFrame) -> pd.DataFrame:
        """The events that every part of the topic holds of; of several crops or places, any."""
        events = _any_of(self.things, events)
        events = _any_of(self.places, events)
        if self.parties:
            events = events[events["party"].isin(self.parties)]
        if self.label:
            events = events[events["label"] == self.label]
        return events

    @property
    def said(self) -> str:
        """The things by name: `runner beans`, `'Sungold' tomatoes and garlic`, or ""."""
        words = listed([thing.said for thing in self.things])
        return f"{words} [{self.label}]" if self.label else words

    @property
    def there(self) -> str:
        """`in Platform 1`, `from Platform 1 and Platform 2`, or ""."""
        if not self.places:
            return ""
        return f"{self.places[0].there.split()[0]} {listed([each.said for each in self.places])}"

    @property
    def singular(self) -> bool:
        """Whether it is spoken of as one: `garlic was`, but `leeks were`."""
        return len(self.things) == 1 and self.things[0].singular

    @property
    def crops(self) -> tuple[str, ...]:
        """The crops that its things name."""
        return tuple(crop for thing in self.things for crop in thing.crops)

    def without_places(self) -> "Topic":
        """The same anywhere."""
        return replace(self, places=())


def _any_of(filters: Sequence[Thing] | Sequence[Place], events: pd.DataFrame) -> pd.DataFrame:
    if not filters:
        return events
    found = pd.concat([each.rows(events) for each in filters])
    kept: pd.DataFrame = found[~found.index.duplicated()].sort_index()
    return kept


def take_topic(asked: Asked, act: str = "") -> Topic:
    """Takes every crop, cultivar, place, person and thing of the question.

    Refused where a name is not the diary's own kind of thing or may mean several places.
    """
    things = _things(asked, act)
    labels = [thing for thing in things if thing.kind == "label"]
    if len(labels) > 1:
        raise Refused("the question names two batches; ask about one")
    places = tuple(_place(part, asked) for part in asked.take_all("place"))
    people = tuple(part.senses[0].name for part in asked.take_all("person"))
    _take_joints(asked, len(things) + len(places) + len(people))
    return Topic(
        tuple(thing for thing in things if thing.kind != "label"),
        places,
        people,
        labels[0].names[0] if labels else "",
    )


def _take_joints(asked: Asked, names: int) -> None:
    """`and` between names is used up with them; a lone one is not."""
    if names > 1:
        asked.take_all("joint")


def _things(asked: Asked, act: str) -> list[Thing]:
    parts = asked.take_all("thing")
    found: list[Thing] = []
    at = 0
    while at < len(parts):
        pair = _pair(parts[at : at + 2], asked)
        if pair is not None:
            found.append(pair)
            at += 2
            continue
        found.append(_thing(parts[at], asked, act))
        at += 1
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


def _thing(part: Part, asked: Asked, act: str) -> Thing:
    order = _USUAL
    if act == "see" or (part.name in ("to", "by") and act in ("lose", "waste")):
        order = _SUBJECT_FIRST
    elif part.name == "with" or act in _MATERIAL_ACTS:
        order = _MATERIAL_FIRST
    for kind in order:
        senses = [sense for sense in part.senses if sense.kind == kind]
        if senses:
            return _meant(senses, asked.words(part), asked.names)
    raise Refused(f"`{asked.words(part)}` names nothing that this can be asked of")


def _meant(senses: list[Sense], written: str, names: Names) -> Thing:
    sense = senses[0]
    if sense.kind == "cultivar":
        return _cultivar_thing(senses, written)
    if sense.kind == "narrow":
        raise Refused(
            f"the diary does not tell `{written}` from other {crop_said(sense.name)}; "
            f"ask about {crop_said(sense.name)} or a cultivar"
        )
    if sense.kind == "crop":
        return Thing("crop", crop_said(sense.name), (sense.name,), singular=is_one(sense.name))
    if sense.kind == "group":
        return Thing("crop", crop_said(sense.name), names.members(sense.name))
    found = tuple(each.name for each in senses)
    return Thing(sense.kind, listed(found, "or"), names=found, singular=_one(found))


def _one(names: Sequence[str]) -> bool:
    return len(names) == 1 and (not names[0].endswith("s") or names[0].endswith("ss"))


def _cultivar_thing(senses: list[Sense], written: str = "") -> Thing:
    crops = tuple(sense.crop for sense in senses)
    if len(crops) > 1:
        raise Refused(f"`{written}` is a cultivar of {listed(crops)}; name the crop too")
    sense = senses[0]
    said = f"'{sense.name}' {crop_said(sense.crop)}"
    return Thing("crop", said, crops, sense.name, singular=is_one(sense.crop))


def _place(part: Part, asked: Asked) -> Place:
    exact = [sense for sense in part.senses if sense.kind == "place"]
    senses = exact or [sense for sense in part.senses if sense.kind == "places"]
    names = list(dict.fromkeys(sense.name for sense in senses))
    if len(names) > 1:
        raise Refused(f"`{asked.words(part)}` may be {listed(names, 'or')}; say which")
    own, before = ground_names(names[0], asked.diary.sheet)
    return Place(names[0], own, part.name, before)


def ground_names(name: str, sheet: Sheet) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The names that a place's ground has gone by, and the larger grounds that it was part of.

    A renamed place keeps its history; a split one goes on in its parts, while of a part the
    whole says only that something was done somewhere in it.
    """
    own, wholes = {name}, set()
    for change in sheet.changes:
        parts = {part for part, _ in change.parts}
        if change.kind == "rename" and (change.old in own or parts & own):
            own |= {change.old, *parts}
        elif change.old in own:
            own |= parts
    for change in reversed(sheet.changes):
        parts = {part for part, _ in change.parts}
        if change.kind != "rename" and parts & own and change.old not in own:
            wholes.add(change.old)
    return tuple(sorted(own)), tuple(sorted(wholes))
