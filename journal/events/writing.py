"""Finished drafts to the rows of the events table, with the words and days of their entry."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from journal.events.amounts import tidy
from journal.events.dates import Days
from journal.events.doses import COLUMNS, DoseSettler, hedges
from journal.events.drafts import Draft
from journal.events.figures import Reckoner
from journal.events.items import Grouped, Item
from journal.events.model import Event, WeatherReading
from journal.events.rows import Gathering
from journal.events.runs import SMALL_WORDS
from journal.events.settle import Known, slice_of
from journal.problems.model import Problem
from journal.source import Source, Span
from journal.syntax.nodes import Entry

_COVERING = frozenset({"cover", "net", "shade"})


@dataclass(slots=True)
class Gathered:
    """What the entries of one diary have come to so far."""

    known: Known
    events: Gathering[Event]
    weather: Gathering[WeatherReading]
    problems: list[Problem] = field(default_factory=list)
    entries: int = 0
    time_units: frozenset[str] = frozenset()


class EntryWriter(DoseSettler):
    """Writes the events of one entry into what was gathered."""

    def __init__(self, gathered: Gathered, entry: Entry, days: Days | None, source: Source):
        """`days` are those of the line that the entry stands under."""
        super().__init__(gathered.known, entry, days, source)
        self.all = gathered

    def _write(
        self,
        drafts: list[Draft],
        grouped: Grouped,
        kind: str,
        days: Days | None,
        dues: list[Days | None],
    ) -> None:
        """Each draft once for each day that it is due (`[None]` for what was done)."""
        remark = remark_of([*grouped.remarks, *self.entry.notes])
        task = self._task(grouped)
        helpers = ", ".join(self._person(name) for name in grouped.helpers)
        repeat = 1 if kind == "intention" else grouped.repeat
        for due in dues:
            for _ in range(repeat):
                for draft in drafts:
                    self._write_one(draft, kind, days, due, repeat, remark, task, helpers)
        if grouped.altogether is not None:
            self._write_altogether(grouped, drafts, kind, days, remark)

    def _write_one(
        self,
        draft: Draft,
        kind: str,
        days: Days | None,
        due: Days | None,
        repeat: int,
        remark: str,
        task: str,
        helpers: str,
    ) -> None:
        item = draft.item
        verb = self._verb_name()
        cover = item.cover
        if not cover and verb in _COVERING:
            cover = item.material
        subject = item.subject
        if self.entry.verb.startswith("state:") and verb == "see":
            subject = self.entry.verb.removeprefix("state:")
        if self.entry.verb in {"done", "abandon"} and self.entry.planned:
            task = task or self.entry.planned
        self._emit(
            days,
            kind,
            verb,
            crop=item.crop,
            cultivar=item.cultivar,
            label=item.label,
            family=self.names.family(item.crop),
            place=draft.place,
            place_from=draft.place_from,
            vessel=item.vessel,
            party=item.party or helpers,
            cover=cover,
            material=item.material,
            minutes=None if draft.minutes is None else draft.minutes.value,
            cost=None if draft.cost is None else tidy(draft.cost / repeat),
            currency=draft.currency,
            task=task,
            amount_text=", ".join(dict.fromkeys(item.figures.texts)),
            subject=subject,
            due=due.first if due else None,
            due_end=due.last if due else None,
            remark=remark,
            **draft.extra,
        )

    def _verb_name(self) -> str:
        if self.entry.verb in {"done", "abandon"}:
            return self.entry.verb
        return self.verb.name

    def _write_altogether(
        self,
        grouped: Grouped,
        drafts: list[Draft],
        kind: str,
        days: Days | None,
        remark: str,
    ) -> None:
        """One weight of the entry, no crop's own."""
        part = grouped.altogether
        assert part is not None
        reckoner = Reckoner(self.verb, self._measures_on(days), self.entry.text, self.complain)
        item = Item(amounts=[part])
        figures = reckoner.reckon(item, "")
        columns: dict[str, Any] = {
            COLUMNS[dimension]: amount.value for dimension, amount in figures.totals.items()
        }
        places = {draft.place for draft in drafts}
        self._emit(
            days,
            kind,
            self._verb_name(),
            place=places.pop() if len(places) == 1 else "",
            amount_text=", ".join(figures.texts),
            remark=remark,
            **columns,
            **hedges(figures.totals, figures),
        )

    def _task(self, grouped: Grouped) -> str:
        if not grouped.task:
            return ""
        if self.verb.name != "job":
            pieces = [self.entry.text[slice_of(span)] for span in grouped.task]
            return " ".join(" ".join(pieces).split())
        runs: list[Span] = []
        for span in grouped.task:
            small = runs and self._only_small(Span(runs[-1].end, max(runs[-1].end, span.start)))
            if small:
                runs[-1] = Span(runs[-1].start, span.end)
            else:
                runs.append(span)
        return " ".join(" ".join(self.entry.text[slice_of(span)].split()) for span in runs)

    def _only_small(self, span: Span) -> bool:
        between = self.entry.text[slice_of(span)].lower().replace(",", " ").split()
        return all(word in SMALL_WORDS or word == "and" for word in between)

    def _emit(self, days: Days | None, kind: str, verb: str, **columns: Any) -> None:
        self.all.events.append(
            Event(
                event=len(self.all.events) + 1,
                entry=self.all.entries,
                date=days.first if days else None,
                date_end=days.last if days else None,
                kind=kind,
                verb=verb,
                spread=bool(days and days.spread),
                source=self.source,
                span=Span(self.entry.start - self._dash(), self.entry.start + len(self.entry.text)),
                **columns,
            )
        )

    def _dash(self) -> int:
        line = self.source.line_number(self.entry.start)
        return self.entry.start - self.source.starts[line - 1]


def remark_of(pieces: Iterable[str]) -> str:
    """Remarks as one text: sentences by a space, scraps by a semicolon."""
    said: list[str] = []
    for piece in filter(None, pieces):
        if said:
            said.append(" " if said[-1].endswith((".", "!", "?", "…", ":", ";")) else "; ")
        said.append(piece)
    return "".join(said)
