"""One entry to its events and readings: grouped, settled, shared out and written."""

from datetime import date
from typing import Any

from journal.events.dates import Days, NoSuchDayError
from journal.events.drafts import Settled, expand, fill, share
from journal.events.due import due_days
from journal.events.grouping import Grouper
from journal.events.items import Grouped, Item, Words
from journal.events.other_days import day_before
from journal.events.runs import run_words
from journal.events.settle import slice_of
from journal.events.weather import WeatherReader
from journal.events.writing import EntryWriter, remark_of
from journal.source import Span
from journal.syntax import nodes as n
from journal.syntax.verbs import INTENTIONS

_FROM_SERVES = frozenset({"harvest", "loss", "end", "job", "stock check", "raising"})
# `rate North 1 3/5`, `feed North 1 with ...` name a place instead.
_NEEDS_NO_CROP = frozenset({"rate", "feed", "save", "buy"})


class EntryEvents(EntryWriter):
    """The work on one entry; the events it makes go into what is gathered."""

    # ------------------------------------------------------------ weather

    def weather(self) -> None:
        """Readings, and one event that says that the weather was noted."""
        place = ""
        remarks = list(self.entry.notes)
        days = self.days
        parts = run_words(self.entry.parts, self.entry.text)
        for before, part in zip([None, *parts], parts, strict=False):
            if isinstance(part, n.Place):
                place = self._places(part.names)[0] if part.names else place
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
                self._weather_fault(part, before)
        held = self.known.sheet.place_on(place, days.first if days else None)
        covered = held is not None and held.kind in {"house", "frame"}
        measures = self.known.measures
        reader = WeatherReader(
            self.entry, self.source, days, place, covered, measures.fahrenheit, self.complain
        )
        self.all.weather.extend(reader.read())
        self._emit(days, "weather", self.entry.verb, place=place, remark=remark_of(remarks))

    def _weather_fault(self, part: n.Fault, figure: Any) -> None:
        """`rain 0.5 in`: `in` is never inches, also of rain; `figure` is the part before it."""
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
            times = 1 if self.entry.verb in INTENTIONS else grouped.repeat
            if item.minutes is not None:
                item.minutes = item.minutes.times(people / times)
        fill(items)
        kind = self._kind(items)
        for item in items:
            self._from_serves(item, self.verb.kind if kind == "intention" else kind)
        self._tell_no_crop(items)
        drafts = expand(items)
        if share(items, drafts, lambda place: self._area(place, days)):
            self._tell_shared(grouped)
        for draft in drafts:
            self._finish_amounts(draft, kind, days)
        self._write(drafts, grouped, kind, days, self._due(grouped, days))

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

    def _tell_shared(self, grouped: Grouped) -> None:
        """Says that a weight after the last crop was shared out between all of them."""
        amounts = grouped.items[-1].amounts
        if self.verb.kind == "harvest" and amounts:
            span = amounts[0].span
            self.complain("J412", span, word=self.entry.text[slice_of(span)])

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
        said = False
        for moment in grouped.moments:
            if moment.kind == "on" and said:
                cure = "take it to an entry of its own"
                self.complain("J101", moment.span, word=moment.text, cure=cure)
            elif moment.kind == "on":
                days, said = self._other_day(moment, days), True
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
