"""The stage documents -> events: names, units, amounts and days of each entry settled.

One entry is handled at a time; what only shows across entries is events/checks.py.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from journal.events.amounts import Amount, Measures
from journal.events.dates import Calendar, Days, NoSuchDay, day_before
from journal.events.drafts import Draft, Settled, expand, fill, share
from journal.events.due import due_days
from journal.events.figures import Figures, Reckoner
from journal.events.items import Grouped, Grouper, Item
from journal.events.model import Event, Sheet, WeatherReading
from journal.events.names import Names, singular
from journal.events.weather import WeatherReader
from journal.problems.model import Edit, Problem, make
from journal.reference.crops import nearest
from journal.source import Source, Span
from journal.syntax import nodes as n
from journal.syntax.nodes import Declaration, Entry
from journal.syntax.verbs import (
    BY_NAME,
    INTENTIONS,
    NOT_HARVEST,
    STATES,
    WEATHER_VERBS,
    Verb,
)

_PLACE_WORDS = frozenset(
    {"bed", "pot", "frame", "house", "bay", "tank", "roof", "store", "split", "rename"}
)
_FROM_SERVES = frozenset({"harvest", "loss", "end", "job", "stock check", "raising"})
_WHOLE_KINDS = {"bed": "beds", "pot": "pots", "frame": "frames", "house": "houses", "bay": "bays"}
_WHOLE_KINDS |= {"tank": "tanks"}
# `rate Long 1 3/5`, `feed Long 1 with ...` name a place instead.
_NEEDS_NO_CROP = frozenset({"rate", "feed", "save", "buy"})
_COVERING = frozenset({"cover", "net", "shade"})
_HEAPED = frozenset({"move", "turn"})
_COLUMNS = {
    "count": "count",
    "mass": "mass_kg",
    "volume": "volume_l",
    "length": "length_m",
    "area": "area_m2",
    "packets": "packets",
}
# The dimension whose range fills `low` and `high` when several are approximate.
_MAIN = ("mass", "count", "volume", "packets", "length", "area")


@dataclass(slots=True)
class Resolver:
    """Settles the entries of one diary against its sheet, in reading order."""

    sheet: Sheet
    names: Names
    measures: Measures
    calendar: Calendar
    events: list[Event] = field(default_factory=list)
    weather: list[WeatherReading] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    entries: int = 0

    @property
    def time_units(self) -> frozenset[str]:
        """The units and measures of time."""
        units = {word for word, unit in self.measures.units.items() if unit.dimension == "time"}
        timed = {m.name for m in self.measures.declared if m.minutes is not None}
        return frozenset(units | timed)

    def add(self, entry: Entry, days: Days | None, source: Source) -> None:
        """Takes one entry with the days of the line that it stands under."""
        self.entries += 1
        one = _OneEntry(self, entry, days, source)
        if entry.verb in WEATHER_VERBS:
            one.weather()
        else:
            one.events()


    def declare(self, line: Declaration, days: Days | None, source: Source) -> None:
        """One row of kind `sheet` for a declaration; what it says is in the sheet's own tables."""
        self.entries += 1
        columns: dict[str, Any] = {}
        if line.word in _PLACE_WORDS:
            columns["place"] = self.names.place(line.name) or line.name
        elif line.word in {"crop", "worth"}:
            columns["crop"] = self.names.crop(line.name) or line.name.lower()
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
                family=self.names.family(crop),
                remark=_remark(line.notes),
                source=source,
                span=_line_span(source, line.span),
                **columns,
            )
        )


def _line_span(source: Source, span: Span) -> Span:
    """The first line of a longer stretch."""
    return source.line_span(source.line_number(span.start))


class _OneEntry:
    """The work on one entry; everything it decides goes into the resolver's lists."""

    def __init__(self, resolver: Resolver, entry: Entry, days: Days | None, source: Source):
        self.all = resolver
        self.entry = entry
        self.days = days
        self.source = source
        self.names = resolver.names
        self.verb = self._verb()

    def _verb(self) -> Verb:
        """The verb whose grammar the parts follow: the planned one of an intention."""
        entry = self.entry
        state = entry.verb.removeprefix("state:")
        if state != entry.verb:
            return BY_NAME[STATES[state]]
        verb = BY_NAME[entry.planned or entry.verb]
        word = entry.text[entry.verb_span.end :].split()
        if verb.name in {"cut", "pull"} and word and word[0].lower().strip(",") in NOT_HARVEST:
            return Verb(verb.name, "job", "task", verb.forms)
        return verb

    def complain(self, code: str, span: Span, **words: Any) -> None:
        """Adds a problem; the span counts from the entry's text."""
        at = self.entry.at(span)
        edit = words.pop("edit", None)
        made = Edit(at, edit, f"write `{edit}`") if edit else None
        mend = words.pop("cure", None)
        self.all.problems.append(make(code, self.source, at, mend=mend, edit=made, **words))

    # ------------------------------------------------------------ weather

    def weather(self) -> None:
        """Readings, and one event that says that the weather was noted."""
        place = ""
        remarks = list(self.entry.notes)
        days = self.days
        for part in self.entry.parts:
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
            elif isinstance(part, n.Unread | n.Stray):
                self.complain("J101", part.span, word=part.text)
            elif isinstance(part, n.Fault):
                self.complain("J102", part.span, word=part.text)
        reader = WeatherReader(
            self.entry, self.source, days, place, self.all.measures.fahrenheit, self.complain
        )
        self.all.weather.extend(reader.read())
        self._emit(days, "weather", self.entry.verb, place=place, remark=_remark(remarks))

    # ------------------------------------------------------------ every other entry

    def events(self) -> None:
        """The entry's events, one for each item and place (and occasion, of a succession)."""
        grouper = Grouper(self.entry.text, self.verb, self.entry.parts, self.all.time_units)
        grouped = grouper.group(self.entry.lead)
        for code, span, words in grouped.faults:
            self.complain(code, span, **words)
        days = self._day_of(grouped)
        items = [self._settle(item, grouped, days) for item in grouped.items]
        items = self._only_said(items)
        fill(items)
        kind = self._kind(items)
        for item in items:
            self._from_serves(item, kind)
        self._tell_no_crop(items)
        drafts = expand(items)
        shared = share(items, drafts, lambda place: self._area(place, days))
        self._tell_shared(shared, grouped, items)
        for draft in drafts:
            self._finish_amounts(draft, kind, days)
        self._write(drafts, grouped, kind, days)

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
        if verb.name in _HEAPED and any(item.material and not item.crop for item in items):
            if verb.name == "move" or any(item.sources for item in items):
                return "heap"
        if verb.name == "turn" and any(item.sources and item.places for item in items):
            return "heap"
        return verb.kind

    def _from_serves(self, item: Settled, kind: str) -> None:
        """For a harvest, loss or clearing the place after `from` is where it happened."""
        lifted = kind in _FROM_SERVES and self.verb.name not in {"fetch", "pot up", "pot on"}
        if lifted and item.sources and not item.places:
            item.places, item.sources = item.sources, []

    def _area(self, place: str, days: Days | None) -> float | None:
        declared = self.all.sheet.place_on(place, days.first if days else None)
        return declared.area_m2 if declared else None

    # ------------------------------------------------------------ days

    def _other_day(self, moment: n.Moment, days: Days | None) -> Days | None:
        if days is None and not any(letter.isdigit() for letter in moment.text[-4:]):
            return None
        try:
            anchor = days or Days(date.max, date.max)
            return day_before(moment.text, anchor, self.all.calendar)
        except NoSuchDay as reason:
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
                return list(due_days(grouped.moments, days, self.all.calendar)) or [None]
            except NoSuchDay as reason:
                moment = grouped.moments[0]
                self.complain("J209", moment.span, word=moment.text, reason=str(reason))
        return [None]

    # ------------------------------------------------------------ names

    def _settle(self, item: Item, grouped: Grouped, days: Days | None) -> Settled:
        crop = self._crop(item)
        settled = Settled(
            crop=crop,
            cultivar=self._cultivar(item, crop),
            label=item.label,
            places=self._places(item.places),
            sources=self._places(item.sources),
            vessel=item.vessel,
            cover=item.cover,
            party=self._party(item),
            material=self._material(item),
            form=item.form,
            subject="; ".join(words.text for words in item.subject),
            used=item.with_ is not None,
        )
        if item.cultivar is not None and not settled.crop and settled.cultivar:
            settled.crop = self._crop_of_cultivar(item.cultivar)
        reckoner = Reckoner(self.verb, self._measures_on(days), self.entry.text, self.complain)
        settled.figures = reckoner.reckon(item, settled.crop)
        self._settle_time(item, settled, reckoner)
        self._settle_money(item, settled)
        return settled

    def _measures_on(self, days: Days | None) -> Measures:
        """The measures that hold on the entry's day."""
        if days is None or all(m.date is None for m in self.all.measures.declared):
            return self.all.measures
        held = [m for m in self.all.measures.declared if m.date is None or m.date <= days.last]
        return replace(self.all.measures, declared=tuple(held))

    def _settle_time(self, item: Item, settled: Settled, reckoner: Reckoner) -> None:
        for part in item.times:
            amount = reckoner.minutes(part)
            if amount is None:
                settled.figures.texts.append(self.entry.text[part.span.start : part.span.end])
                continue
            held = settled.minutes
            settled.minutes = _added(held, amount) if held else amount
            settled.own_time = part.own

    def _settle_money(self, item: Item, settled: Settled) -> None:
        for money, own in item.money:
            if not money.value < 1e12:
                self.complain("J403", money.span, word=self.entry.text[_slice(money.span)])
                continue
            settled.own_money = own
            settled.currency = money.currency or self.all.sheet.plot.currency
            if money.each:
                settled.cost_each = (settled.cost_each or 0) + money.value
            else:
                settled.cost = (settled.cost or 0) + money.value

    def _crop(self, item: Item) -> str:
        if item.crop is not None:
            return self.names.crop(item.crop.name) or item.crop.name
        if item.undeclared is None:
            return ""
        words = item.undeclared
        known = self.names.crop(words.text)
        if known:
            return known
        name = singular(words.text, self.names.crops)
        likely = nearest(words.text.lower(), self.names.crops, 1)
        owner = self._owner(words.text)
        if owner:
            cure = f"write `{owner} '{words.text}'`"
            self.complain("J306", words.span, word=words.text, crop=owner, cure=cure)
        elif likely:
            self.complain(
                "J304", words.span, word=words.text, cure=f"write `{likely[0]}`", edit=likely[0]
            )
        else:
            self.complain("J303", words.span, word=words.text)
        return name

    def _owner(self, written: str) -> str:
        """The only crop that has a cultivar of this name, else ""."""
        owners = [crop for crop in self.names.cultivars if self.names.cultivar(crop, written)]
        return owners[0] if len(owners) == 1 else ""

    def _crop_of_cultivar(self, cultivar: n.Cultivar) -> str:
        return self._owner(cultivar.name)

    def _cultivar(self, item: Item, crop: str) -> str:
        part = item.cultivar
        if part is None:
            return ""
        known = self.names.cultivar(crop, part.name)
        if part.quoted or known:
            name = known or part.name
            twin = self.names.rare_twin(crop, name)
            if twin:
                self.complain("J307", part.span, word=name, cure=f"write `'{twin}'`")
            return name
        if not crop:
            owner = self._owner(part.name)
            return self.names.cultivar(owner, part.name) or "" if owner else ""
        cure = f"put it in quotes: `'{part.name}'`"
        self.complain("J109", part.span, word=part.name, crop=crop, cure=cure)
        return ""

    def _party(self, item: Item) -> str:
        if not item.party:
            return ""
        return self._person(item.party)

    def _person(self, written: str) -> str:
        for person in self.all.sheet.persons:
            if person.lower() == written.lower():
                return person
        return written

    def _material(self, item: Item) -> str:
        main = item.material
        with_ = item.with_
        if main is not None and self.verb.kind == "structure":
            return " ".join(main.text.split())
        if main is not None and self.verb.object == "material":
            return self.names.material(main.text)
        if with_ is not None and with_.name:
            if with_.kind == "place":
                return with_.name
            return self.names.material(with_.name)
        if main is not None:
            return self.names.material(main.text)
        if self.verb.name == "buy" and item.form and item.form.rstrip("s") not in {"packet", "pkt"}:
            return item.form
        return "lime" if self.verb.name == "lime" else ""

    def _places(self, written: Iterable[n.PlaceName]) -> list[str]:
        found: list[str] = []
        for name in written:
            every = self._every(name.text)
            if every is not None:
                found.extend(every)
            else:
                found.append(self._one_place(name))
        return list(dict.fromkeys(found))

    def _every(self, written: str) -> list[str] | None:
        """`all beds`: each place of the kind that still stands on the day."""
        words = written.lower().split()
        if len(words) < 2 or words[0] not in {"all", "every"}:
            return None
        kind = words[-1].rstrip("s")
        if kind not in _WHOLE_KINDS:
            return None
        day = self.days.first if self.days else None
        names = dict.fromkeys(p.name for p in self.all.sheet.places if p.kind == kind)
        held = [self.all.sheet.place_on(name, day) for name in names]
        return [place.name for place in held if place is not None and not place.ended]

    def _one_place(self, name: n.PlaceName) -> str:
        known = self.names.place(name.text)
        if known:
            return known
        plural_of_one = _singular_place(name.text)
        known = self.names.place(plural_of_one)
        if known:
            return known
        likely = nearest(name.text, dict.fromkeys(self.names.places.values()), 1)
        if likely:
            self.complain(
                "J301", name.span, word=name.text, cure=f"write `{likely[0]}`", edit=likely[0]
            )
        else:
            self.complain("J302", name.span, word=name.text)
        return name.text

    # ------------------------------------------------------------ amounts

    def _tell_shared(
        self, shared: list[tuple[Amount, bool]], grouped: Grouped, items: list[Settled]
    ) -> None:
        if not shared or self.verb.kind != "harvest":
            return
        for item in grouped.items[-1:]:
            for part in item.amounts:
                written = self.entry.text[_slice(part.span)]
                self.complain("J412", part.span, word=written)
                return

    def _finish_amounts(self, draft: Draft, kind: str, days: Days | None) -> None:
        figures = draft.item.figures
        self._rows(draft, figures, days)
        columns: dict[str, Any] = dict(figures.fixed)
        for dimension, amount in draft.amounts.items():
            columns[_COLUMNS[dimension]] = amount.value
        self._doses(draft, figures, columns, days)
        self._bought(draft, columns)
        columns |= _hedges(draft.amounts, figures)
        draft.extra = columns

    def _rows(self, draft: Draft, figures: Figures, days: Days | None) -> None:
        """Rows without a length run the length of the bed and are approximate."""
        if figures.rows is None:
            return
        if figures.per_row is not None and "count" not in draft.amounts:
            draft.amounts["count"] = figures.per_row.times(figures.rows.value)
        if "length" in draft.amounts:
            return
        declared = self.all.sheet.place_on(draft.place, days.first if days else None)
        length = declared.length_m if declared else None
        if length:
            metres = figures.rows.value * length
            draft.amounts["length"] = Amount("length", metres, metres, metres, True)

    def _doses(
        self, draft: Draft, figures: Figures, columns: dict[str, Any], days: Days | None
    ) -> None:
        area = self._area(draft.place, days) if draft.place else None
        for rate in figures.rates:
            if area is None:
                self._tell_no_area(draft)
            elif rate.dimension in {"mass", "volume"}:
                total = float(f"{rate.value * area:.12g}")
                unit = "kg" if rate.dimension == "mass" else "l"
                columns[f"dose_{unit}"] = total
                if rate.dimension == "mass":
                    columns["mass_kg"] = total
                elif self.verb.kind not in {"feed", "treatment"}:
                    columns["volume_l"] = total
        if self.verb.kind in {"feed", "treatment"}:
            self._diluted(draft, figures, columns)

    def _tell_no_area(self, draft: Draft) -> None:
        self.complain("J404", draft.item.figures.rate_span, word=draft.place or "no place")

    def _diluted(self, draft: Draft, figures: Figures, columns: dict[str, Any]) -> None:
        volume = draft.amounts.get("volume")
        if figures.dilution is not None:
            stuff, water = figures.dilution
            applied = volume.value if volume else water.value
            columns["volume_l"] = applied
            unit = "kg" if stuff.dimension == "mass" else "l"
            columns[f"dose_{unit}"] = float(f"{applied * stuff.value / water.value:.12g}")
            return
        strength = figures.ratio
        if strength is None and volume is not None:
            strength = self._usual_dilution(draft.item.material)
        if strength is not None and volume is not None:
            columns["dose_l"] = float(f"{volume.value * strength:.12g}")
        mass = draft.amounts.get("mass")
        if mass is not None:
            columns.setdefault("dose_kg", mass.value)

    def _usual_dilution(self, material: str) -> float | None:
        own = [m for m in self.all.sheet.materials if m.name == material]
        return own[-1].dilution if own else None

    def _bought(self, draft: Draft, columns: dict[str, Any]) -> None:
        """A purchase of a crop with no count is one packet."""
        if self.verb.name != "buy" or self.entry.verb != "buy" or not draft.item.crop:
            return
        if draft.amounts or draft.item.figures.texts:
            return
        if draft.item.form.rstrip("s") in {"", "packet", "pkt", "seed"}:
            columns["packets"] = 1.0

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
            minutes=None if draft.minutes is None else _tidy(draft.minutes / repeat),
            cost=None if draft.cost is None else _tidy(draft.cost / repeat),
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
            _COLUMNS[dimension]: amount.value for dimension, amount in figures.totals.items()
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
            **_hedges(figures.totals, figures),
        )

    def _task(self, grouped: Grouped) -> str:
        if not grouped.task:
            return ""
        if self.verb.name != "job":
            pieces = [self.entry.text[_slice(span)] for span in grouped.task]
            return " ".join(" ".join(pieces).split())
        runs: list[Span] = []
        for span in grouped.task:
            small = runs and self._only_small(Span(runs[-1].end, max(runs[-1].end, span.start)))
            if small:
                runs[-1] = Span(runs[-1].start, span.end)
            else:
                runs.append(span)
        return " ".join(" ".join(self.entry.text[_slice(span)].split()) for span in runs)

    def _only_small(self, span: Span) -> bool:
        between = self.entry.text[_slice(span)].lower().replace(",", " ").split()
        return all(word in _PASSED_OVER for word in between)

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


_PASSED_OVER = frozenset("the some of our my its a an and".split())


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
        or item.cost is not None
        or item.cost_each is not None
        or item.party
        or item.vessel
    )


def _slice(span: Span) -> slice:
    return slice(span.start, span.end)


def _remark(pieces: Iterable[str]) -> str:
    """Remarks as one text: sentences by a space, scraps by a semicolon."""
    text = ""
    for piece in pieces:
        joint = " " if text.endswith((".", "!", "?", "…", ":", ";")) else "; "
        text = f"{text}{joint}{piece}" if text and piece else text or piece
    return text


def _added(first: Amount, second: Amount) -> Amount:
    return Amount(
        first.dimension,
        first.value + second.value,
        first.low + second.low,
        first.high + second.high,
        first.approximate or second.approximate,
    )


def _hedges(amounts: dict[str, Amount], figures: Figures) -> dict[str, Any]:
    """`approximate`, and the range of the main amount where one was written."""
    hedged = [amounts[name] for name in _MAIN if name in amounts and amounts[name].approximate]
    approximate = bool(hedged) or figures.approximate
    ranged = [amount for amount in hedged if amount.low != amount.high]
    if not ranged:
        return {"approximate": approximate}
    return {"approximate": approximate, "low": ranged[0].low, "high": ranged[0].high}


def _tidy(value: float) -> float:
    return float(f"{value:.12g}")


def _singular_place(written: str) -> str:
    """`Beds 1` is `Bed 1`."""
    stem, _, number = written.rpartition(" ")
    return f"{stem.removesuffix('s')} {number}" if number.isdigit() else written
