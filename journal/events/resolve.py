"""The stage documents -> events: names, units, amounts and days of each entry settled.

One entry is handled at a time; what only shows across entries is events/checks.py.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from journal.events.amounts import tidy
from journal.events.dates import Days, NoSuchDayError
from journal.events.doses import COLUMNS, DoseSettler, hedges
from journal.events.drafts import Draft, Settled, expand, fill, share
from journal.events.due import due_days
from journal.events.figures import Reckoner
from journal.events.grouping import Grouper
from journal.events.items import Grouped, Item, Words
from journal.events.model import Event, WeatherReading
from journal.events.other_days import day_before
from journal.events.runs import SMALL_WORDS, run_words
from journal.events.settle import Known, slice_of
from journal.events.weather import WeatherReader
from journal.problems.model import Problem
from journal.reference.crops import plural
from journal.source import Source, Span
from journal.syntax import nodes as n
from journal.syntax.nodes import Declaration, Entry
from journal.syntax.verbs import INTENTIONS, WEATHER_VERBS

_PLACE_WORDS = frozenset(
    {"bed", "pot", "frame", "house", "bay", "tank", "roof", "store", "split", "rename"}
)
_FROM_SERVES = frozenset({"harvest", "loss", "end", "job", "stock check", "raising"})
# `rate North 1 3/5`, `feed North 1 with ...` name a place instead.
_NEEDS_NO_CROP = frozenset({"rate", "feed", "save", "buy"})
_COVERING = frozenset({"cover", "net", "shade"})


@dataclass(slots=True)
class Resolver:
    """Settles the entries of one diary against its sheet, in reading order."""

    known: Known
    events: list[Event] = field(default_factory=list)
    weather: list[WeatherReading] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    entries: int = 0

    time_units: frozenset[str] = frozenset()

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
        one = _OneEntry(self, entry, days, source)
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
                remark=_remark(line.notes),
                source=source,
                span=_line_span(source, line.span),
                **columns,
            )
        )


def _line_span(source: Source, span: Span) -> Span:
    """The first line of a longer stretch."""
    return source.line_span(source.line_number(span.start))


class _OneEntry(DoseSettler):
    """The work on one entry; the events it makes go into the resolver's lists."""

    def __init__(self, resolver: Resolver, entry: Entry, days: Days | None, source: Source):
        super().__init__(resolver.known, entry, days, source)
        self.all = resolver

    # ------------------------------------------------------------ weather

    def weather(self) -> None:
        """Readings, and one event that says that the weather was noted."""
        place = ""
        remarks = list(self.entry.notes)
        days = self.days
        for part in run_words(self.entry.parts, self.entry.text):
            if isinstance(part, n.Place):
                place = self._places(part.names)[0]
            elif isinstance(part, n.Moment):
                days = self._other_day(part, days)
            elif isinstance(part, n.Remark):
                remarks.insert(0, part.text)
                if not part.closed:
                    self.complain("J104", Span(part.span.start, part.span.start + 1))
            elif isinstance(part, n.Aside):
                remarks.insert(0, part.text)
            elif isinstance(part, Words | n.Stray):
                self.complain("J101", part.span, word=part.text)
            elif isinstance(part, n.Fault):
                self._weather_fault(part)
        reader = WeatherReader(
            self.entry, self.source, days, place, self.known.measures.fahrenheit, self.complain
        )
        self.all.weather.extend(reader.read())
        self._emit(days, "weather", self.entry.verb, place=place, remark=_remark(remarks))

    def _weather_fault(self, part: n.Fault) -> None:
        """`rain 0.5 in`: `in` is never inches, also of rain."""
        before = [p for p in self.entry.parts if p.span.end <= part.span.start]
        figure = before[-1] if before else None
        if part.text == "in" and isinstance(figure, n.WeatherFigure) and not figure.unit:
            text = self.entry.text[slice_of(figure.span)].split()[-1]
            self.complain("J401", part.span, word="in", cure=f"write `{text} inch`")
        else:
            self.complain("J102", part.span, word=part.text)

    # ------------------------------------------------------------ every other entry

    def events(self) -> None:
        """The entry's events, one for each item and place (and occasion, of a succession)."""
        grouper = Grouper(self.entry.text, self.verb, self.entry.parts, self.all.time_units)
        grouped = grouper.group(self.entry.lead)
        if self.entry.verb in INTENTIONS and not self.entry.planned:
            grouped = self._in_words(grouped)
        for code, span, words in grouped.faults:
            self.complain(code, span, **words)
        days = self._day_of(grouped)
        items = [self._settle(item, days) for item in grouped.items]
        items = self._only_said(items)
        alone = len(items) == 1 and len(items[0].places) < 2
        for item in items:
            each = 1 + len(grouped.helpers) if alone and item.each_time else 1
            people = max(grouped.people, each)
            if item.minutes is not None and people > 1:
                item.minutes = item.minutes.times(people)
        fill(items)
        kind = self._kind(items)
        for item in items:
            self._from_serves(item, kind)
        self._tell_no_crop(items)
        drafts = expand(items)
        if share(items, drafts, lambda place: self._area(place, days)):
            self._tell_shared(grouped)
        for draft in drafts:
            self._finish_amounts(draft, kind, days)
        self._write(drafts, grouped, kind, days)

    def _in_words(self, grouped: Grouped) -> Grouped:
        """A plan without a verb of ours: its words are what it means, whatever they are."""
        aside = [p.span for p in self.entry.parts if isinstance(p, n.Moment | n.Remark)]
        text, at = "", self.entry.verb_span.end
        for span in [*aside, Span(len(self.entry.text), len(self.entry.text))]:
            text += " " + self.entry.text[at : span.start]
            at = span.end
        words = " ".join(text.replace(" ,", ",").split()).strip(" ,;.")
        places = [place for item in grouped.items for place in item.places if place.known]
        crops = [item.crop for item in grouped.items if item.crop is not None]
        item = Item(crop=crops[0] if len(crops) == 1 else None, places=places)
        if words:
            item.subject = [Words(words, self.entry.verb_span)]
        return Grouped([item], grouped.moments, grouped.remarks[:0] + self._said_aside())

    def _said_aside(self) -> list[str]:
        return [part.text for part in self.entry.parts if isinstance(part, n.Remark)]

    def _only_said(self, items: list[Settled]) -> list[Settled]:
        """Drops an item that nothing was said of (`sow , carrot`), but never the only one."""
        said = [item for item in items if _is_said(item)]
        return said or items[:1]

    def _tell_no_crop(self, items: list[Settled]) -> None:
        """`- sow`: a verb that works on crops, without one."""
        named = any(i.crop or i.material or i.subject or i.cultivar for i in items)
        if named or self.verb.object != "crop" or self.verb.name in _NEEDS_NO_CROP:
            return
        self.complain("J110", self.entry.verb_span, word=self.verb.name)

    def _kind(self, items: list[Settled]) -> str:
        if self.entry.verb in INTENTIONS:
            return "intention"
        verb = self.verb
        stuff = any(item.material and not item.crop for item in items)
        away = any(item.sources for item in items)
        if verb.name == "move" and stuff:
            return "heap"
        if verb.name == "turn" and away and (stuff or any(item.places for item in items)):
            return "heap"
        return verb.kind

    def _from_serves(self, item: Settled, kind: str) -> None:
        """For a harvest, loss or clearing the place after `from` is where it happened."""
        lifted = kind in _FROM_SERVES and self.verb.name not in {"fetch", "pot up", "pot on"}
        if lifted and item.sources and not item.places:
            item.places, item.sources = item.sources, []

    # ------------------------------------------------------------ days

    def _other_day(self, moment: n.Moment, days: Days | None) -> Days | None:
        if days is None and not any(letter.isdigit() for letter in moment.text[-4:]):
            return None
        try:
            anchor = days or Days(date.max, date.max)
            return day_before(moment.text, anchor, self.known.calendar)
        except NoSuchDayError as reason:
            self.complain("J209", moment.span, word=moment.text, reason=str(reason))
            return None

    def _day_of(self, grouped: Grouped) -> Days | None:
        """The entry's days: another one where it says `on 5 Nov`, or `in March` of a late page."""
        days = self.days
        if self.entry.verb in INTENTIONS:
            return days
        for moment in grouped.moments:
            if moment.kind == "on":
                days = self._other_day(moment, days)
            elif moment.kind == "in":
                days = self._other_day(moment, days) or days
            else:
                grouped.remarks.append(moment.text)
        return days

    def _due(self, grouped: Grouped, days: Days | None) -> list[Days | None]:
        if self.entry.verb in INTENTIONS and days is not None:
            try:
                return list(due_days(grouped.moments, days, self.known.calendar)) or [None]
            except NoSuchDayError as reason:
                moment = grouped.moments[0]
                self.complain("J209", moment.span, word=moment.text, reason=str(reason))
        return [None]

    # ------------------------------------------------------------ writing the events

    def _write(self, drafts: list[Draft], grouped: Grouped, kind: str, days: Days | None) -> None:
        remark = _remark([*grouped.remarks, *self.entry.notes])
        task = self._task(grouped)
        helpers = ", ".join(self._person(name) for name in grouped.helpers)
        repeat = 1 if kind == "intention" else grouped.repeat
        for due in self._due(grouped, days):
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
            minutes=None if draft.minutes is None else tidy(draft.minutes / repeat),
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

    def _tell_shared(self, grouped: Grouped) -> None:
        """Says that a weight after the last crop was shared out between all of them."""
        amounts = grouped.items[-1].amounts
        if self.verb.kind == "harvest" and amounts:
            span = amounts[0].span
            self.complain("J412", span, word=self.entry.text[slice_of(span)])


def _is_said(item: Settled) -> bool:
    figures = item.figures
    return bool(
        item.crop
        or item.cultivar
        or item.places
        or item.sources
        or item.material
        or item.subject
        or figures.totals
        or figures.texts
        or figures.fixed
        or item.minutes
        or item.priced
        or item.party
        or item.vessel
    )


def _remark(pieces: Iterable[str]) -> str:
    """Remarks as one text: sentences by a space, scraps by a semicolon."""
    said: list[str] = []
    for piece in filter(None, pieces):
        if said:
            said.append(" " if said[-1].endswith((".", "!", "?", "…", ":", ";")) else "; ")
        said.append(piece)
    return "".join(said)
