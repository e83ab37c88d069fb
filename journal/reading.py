"""A folder of diary pages read whole: sources, sheet, events, weather, prose and problems.

No pandas: `haulm check` stops here.
"""

from dataclasses import dataclass

from journal.events.model import Event, Paragraph, Sheet, WeatherReading
from journal.problems.model import Problem
from journal.source import Source


@dataclass(frozen=True, slots=True)
class Reading:
    """What a diary holds, with everything that was wrong with it."""

    sources: tuple[Source, ...]
    sheet: Sheet
    events: tuple[Event, ...]
    weather: tuple[WeatherReading, ...]
    prose: tuple[Paragraph, ...]
    problems: tuple[Problem, ...]

    @property
    def has_errors(self) -> bool:
        """Whether an entry, or a part of one, is not in the tables."""
        return any(problem.severity == "error" for problem in self.problems)
