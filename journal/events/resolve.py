"""The stage documents -> events: names, units, amounts and days of each entry settled.

One entry is handled at a time; what only shows across entries is events/checks.py.
"""

from dataclasses import dataclass
from typing import Any

from journal.events.dates import Days
from journal.events.entry_events import EntryEvents
from journal.events.model import Event
from journal.events.writing import Gathered, remark_of
from journal.reference.crops import plural
from journal.source import Source, Span
from journal.syntax.nodes import Declaration, Entry
from journal.syntax.verbs import WEATHER_VERBS

_PLACE_WORDS = frozenset(
    {"bed", "pot", "frame", "house", "bay", "tank", "roof", "store", "split", "rename"}
)


@dataclass(slots=True)
class Resolver(Gathered):
    """Settles the entries of one diary against its sheet, in reading order."""

    def __post_init__(self) -> None:
        """Finds the units and measures of time."""
        units = {
            word for word, unit in self.known.measures.units.items() if unit.dimension == "time"
        }
        timed = {m.name for m in self.known.measures.declared if m.minutes is not None}
        timed |= {plural(name) for name in timed}
        self.time_units = frozenset(units | timed)

    def add(self, entry: Entry, days: Days | None, source: Source) -> None:
        """Takes one entry with the days of the line that it stands under."""
        self.entries += 1
        one = EntryEvents(self, entry, days, source)
        if entry.verb in WEATHER_VERBS:
            one.weather()
        else:
            one.events()
        self.problems.extend(one.problems)

    def declare(self, line: Declaration, days: Days | None, source: Source) -> None:
        """One row of kind `sheet` for a declaration; what it says is in the sheet's own tables."""
        self.entries += 1
        columns: dict[str, Any] = {}
        if line.word in _PLACE_WORDS:
            columns["place"] = self.known.names.place(line.name) or line.name
        elif line.word in {"crop", "worth"}:
            columns["crop"] = self.known.names.crop(line.name) or line.name.lower()
        elif line.word in {"feed", "material"}:
            columns["material"] = line.name
        elif line.word == "person":
            columns["party"] = line.name
        else:
            columns["subject"] = line.name
        crop = columns.get("crop", "")
        self.events.append(
            Event(
                event=len(self.events) + 1,
                entry=self.entries,
                date=days.first if days else None,
                date_end=days.last if days else None,
                kind="sheet",
                verb=line.word,
                family=self.known.names.family(crop),
                remark=remark_of(line.notes),
                source=source,
                span=first_line(source, line.span),
                **columns,
            )
        )


def first_line(source: Source, span: Span) -> Span:
    """The first line of a longer stretch."""
    return source.line_span(source.line_number(span.start))
