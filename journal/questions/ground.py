"""The places of a question: all names that its ground has gone by, and what it was part of."""

from dataclasses import dataclass

import pandas as pd

from journal.events.model import Sheet
from journal.questions.asked import Asked, RefusedError
from journal.questions.parts import Part
from journal.questions.periods import day_words
from journal.questions.saying import listed

_ON = ("on", "under", "to", "from")


@dataclass(frozen=True, slots=True)
class Place:
    """Ground or a building: the names of its ground, and of larger grounds that held it."""

    said: str
    names: tuple[str, ...]
    preposition: str = ""
    wholes: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def word(self) -> str:
        """The preposition that was said, else `in`."""
        return self.preposition if self.preposition in _ON else "in"

    def is_there(self, events: pd.DataFrame, *, whole: bool = False) -> "pd.Series[bool]":
        """Which events are there; after `from`, what left it: a harvest, a loss, or a move."""
        names = [*self.names, *self.wholes] if whole else list(self.names)
        mine = events["place"].isin(names)
        if self.preposition != "from":
            return mine
        own = events["kind"].isin(["harvest", "loss", "end"]) & events["place_from"].eq("")
        return events["place_from"].isin(names) | (mine & own)

    def rows(self, events: pd.DataFrame, *, whole: bool = False) -> pd.DataFrame:
        """The events that are there."""
        kept: pd.DataFrame = events[self.is_there(events, whole=whole)]
        return kept


def places_of(part: Part, asked: Asked) -> list[Place]:
    """The places that a part names: one, or all of `the barrels`."""
    every = list(dict.fromkeys(sense.name for sense in part.senses if sense.kind == "every"))
    if every and not any(sense.kind == "place" for sense in part.senses):
        return [named_place(name, asked.diary.sheet, part.name) for name in every]
    return [place_of(part, asked)]


def place_of(part: Part, asked: Asked) -> Place:
    """The place that a part names; RefusedError where it may be one of several."""
    exact = [sense for sense in part.senses if sense.kind == "place"]
    senses = exact or [sense for sense in part.senses if sense.kind == "places"]
    names = list(dict.fromkeys(sense.name for sense in senses))
    if len(names) > 1:
        raise RefusedError(f"`{asked.words(part)}` may be {listed(names, 'or')}; say which")
    return named_place(names[0], asked.diary.sheet, part.name)


def named_place(name: str, sheet: Sheet, preposition: str = "") -> Place:
    """A place by its name, with the history of its ground.

    A renamed place keeps its history and a split one goes on in its parts; of a part, the whole
    says only that something was done somewhere in it.
    """
    own, wholes, notes = {name}, [], []
    for change in sheet.changes:
        parts = {part for part, _ in change.parts}
        if change.kind == "rename" and (change.old in own or parts & own):
            own |= {change.old, *parts}
        elif change.old in own:
            own |= parts
    for change in sheet.changes:
        split = change.kind != "rename" and change.old not in own
        if split and {part for part, _ in change.parts} & own:
            wholes.append(change.old)
            day = f" until {day_words(change.date)}" if change.date else ""
            notes.append(f"{name} was part of {change.old}{day}")
    return Place(name, tuple(sorted(own)), preposition, tuple(wholes), tuple(notes))
