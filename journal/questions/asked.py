"""One question while an answer to it is tried: the parts that were used, and those that were not.

Every part of a question is taken by the answer, or there is none: `done` raises LeftoverError.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from journal.diary import Diary
from journal.questions.names import Names
from journal.questions.parts import Part, PartKind
from journal.questions.periods import Clock


class NotThisKindError(Exception):
    """The question is of another kind."""


class LeftoverError(Exception):
    """Parts that the answer would have had to pass over."""

    def __init__(self, parts: Sequence[Part]) -> None:
        """Keeps the parts that were left."""
        super().__init__()
        self.parts = tuple(parts)


class RefusedError(Exception):
    """The question is of this kind and cannot be answered so; says why, in one sentence."""


@dataclass
class Asked:
    """A question and what is left of it; `take` what is understood, then be `done`."""

    diary: Diary
    names: Names
    clock: Clock
    text: str
    parts: tuple[Part, ...]
    used: set[int] = field(default_factory=set)
    joint_lent: bool = False

    @property
    def left(self) -> list[Part]:
        """The parts that nothing has taken yet, in order."""
        return [part for at, part in enumerate(self.parts) if at not in self.used]

    def words(self, part: Part) -> str:
        """A part as it was written."""
        return self.text[part.start : part.end]

    def name_words(self, part: Part) -> str:
        """A named part as it was written, without the preposition and article before it."""
        words = self.words(part)
        if part.name:
            words = words.split(maxsplit=1)[-1]
        return re.sub(r"^(?:the|my|our|a|an)\s+", "", words, flags=re.IGNORECASE)

    def has(self, kind: PartKind, *names: str) -> bool:
        """Whether such a part is left."""
        return any(_is(part, kind, names) for part in self.left)

    def take(self, kind: PartKind, *names: str) -> Part | None:
        """The first part of this kind (and one of these words) that is left, now used."""
        for at, part in enumerate(self.parts):
            if at not in self.used and _is(part, kind, names):
                self.used.add(at)
                return part
        return None

    def take_all(self, kind: PartKind, *names: str) -> list[Part]:
        """All such parts, now used."""
        found = []
        while part := self.take(kind, *names):
            found.append(part)
        return found

    def need(self, kind: PartKind, *names: str) -> Part:
        """As `take`; NotThisKindError where there is none."""
        part = self.take(kind, *names)
        if part is None:
            raise NotThisKindError
        return part

    def lend_joint(self) -> None:
        """Lets two names stand without `and`: a word of comparison between them joins them."""
        self.joint_lent = True

    def pass_over(self, *aux: str) -> None:
        """Uses up `I`, `we` and these auxiliary verbs: they say nothing more here."""
        self.take_all("self", "i")
        if aux:
            self.take_all("aux", *aux)

    def done(self) -> None:
        """Every part must have been used; LeftoverError where one was not."""
        if self.left:
            raise LeftoverError(self.left)


def _is(part: Part, kind: PartKind, names: Sequence[str]) -> bool:
    return part.kind == kind and (not names or part.name in names)
