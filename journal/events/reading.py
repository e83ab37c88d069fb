"""`Reading`: everything that a diary holds and what was wrong with it, as one value."""

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol, TypeVar

from journal.events.model import Event, Paragraph, Sheet, WeatherReading
from journal.problems.model import Problem
from journal.source import Source

if TYPE_CHECKING:
    from journal.syntax.nodes import Document

_Line = TypeVar("_Line")


class Watch(Protocol):
    """Somebody who is told how far a reading has come."""

    def expect(self, lines: int) -> None:
        """So many lines will be passed in all."""

    def passed(self, lines: Iterable[_Line]) -> Iterable[_Line]:
        """The lines as they are, each counted when the next one is asked for."""


class Aside(Protocol):
    """Where what was reckoned from a reading is kept from one run to the next, if it is."""

    def take(self, what: str) -> str | None:
        """What was put there for this very reading, else None."""

    def put(self, what: str, text: str) -> None:
        """Keeps a text for this very reading."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a diary holds, with everything that was wrong with it.

    It is the same on every day from `same_from` to before `same_until`. `documents` are the pages
    as their lines, where they were asked for; `aside` is no part of what it holds.
    """

    sources: tuple[Source, ...]
    sheet: Sheet
    events: Sequence[Event]
    weather: Sequence[WeatherReading]
    prose: Sequence[Paragraph]
    problems: tuple[Problem, ...]
    documents: "tuple[Document, ...]" = ()
    met_sources: tuple[Source, ...] = ()
    same_from: datetime.date = datetime.date.min
    same_until: datetime.date = datetime.date.max
    aside: Aside | None = field(default=None, compare=False, repr=False)

    @property
    def has_errors(self) -> bool:
        """Whether an entry, or a part of one, is not in the tables."""
        return any(problem.severity == "error" for problem in self.problems)
