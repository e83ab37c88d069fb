"""One entry's items with their names, times and money settled against the diary's own."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from journal.events.amounts import Amount, Measures
from journal.events.dates import WEEKDAY_NAMES, Calendar, Days
from journal.events.drafts import Settled
from journal.events.figures import Reckoner
from journal.events.items import Item
from journal.events.model import PlaceDeclared, Sheet
from journal.events.names import Names, singular
from journal.problems.model import Edit, Problem, make
from journal.reference.crops import nearest
from journal.source import Source, Span
from journal.syntax import nodes as n
from journal.syntax.days import MONTH_NAMES
from journal.syntax.nodes import Entry
from journal.syntax.verbs import BY_NAME, NOT_HARVEST, STATES, Verb

# `on Staurday`
_DAYS = (*WEEKDAY_NAMES, *MONTH_NAMES)
_WHOLE_KINDS = frozenset({"bed", "pot", "frame", "house", "bay", "tank"})


@dataclass(frozen=True, slots=True)
class Known:
    """What an entry is settled against: the sheet, the names, the measures and the calendar."""

    sheet: Sheet
    names: Names
    measures: Measures
    calendar: Calendar


class Settler:
    """The names of one entry; what it cannot settle it adds to its problems."""

    def __init__(self, known: Known, entry: Entry, days: Days | None, source: Source):
        """`days` are those of the line that the entry stands under."""
        self.known = known
        self.problems: list[Problem] = []
        self.entry = entry
        self.days = days
        self.today = days
        self.source = source
        self.names = known.names
        self.verb = self._verb()

    def _verb(self) -> Verb:
        """The verb whose grammar the parts follow: the planned one of an intention."""
        entry = self.entry
        state = entry.verb.removeprefix("state:")
        if state != entry.verb:
            return BY_NAME[STATES[state]]
        verb = BY_NAME[entry.planned or entry.verb]
        if verb.name in {"cut", "pull"} and NOT_HARVEST.match(entry.text, entry.verb_span.end):
            return Verb(verb.name, "job", "task", verb.forms)
        return verb

    def complain(self, code: str, span: Span, **words: Any) -> None:
        """Adds a problem; the span counts from the entry's text.

        Words that hold a byte that is no text were told of when the file was opened.
        """
        at = self.entry.at(span)
        if self.source.damaged and "\ufffd" in self.source.slice(at):
            return
        edit = words.pop("edit", None)
        made = Edit(at, edit, f"write `{edit}`") if edit else None
        mend = words.pop("cure", None)
        self.problems.append(make(code, self.source, at, mend=mend, edit=made, **words))

    def _area(self, place: str, days: Days | None) -> float | None:
        declared = self.known.sheet.place_on(place, days.first if days else None)
        return declared.area_m2 if declared else None

    def _settle(self, item: Item, days: Days | None) -> Settled:
        self.today = days
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
        if days is None or all(m.date is None for m in self.known.measures.declared):
            return self.known.measures
        held = [m for m in self.known.measures.declared if m.date is None or m.date <= days.last]
        return replace(self.known.measures, declared=tuple(held))

    def _settle_time(self, item: Item, settled: Settled, reckoner: Reckoner) -> None:
        for part in item.times:
            amount = reckoner.minutes(part)
            if amount is None:
                settled.figures.texts.append(self.entry.text[part.span.start : part.span.end])
                continue
            held = settled.minutes
            settled.minutes = _added(held, amount) if held else amount
            settled.own_time = part.own
            settled.each_time = settled.each_time or "each" in part.tails

    def _settle_money(self, item: Item, settled: Settled) -> None:
        for money, own in item.money:
            if not money.value < 1e12:
                self.complain("J403", money.span, word=self.entry.text[slice_of(money.span)])
                continue
            settled.own_money = own
            settled.currency = self.known.sheet.plot.code_of(money.currency)
            if money.per:
                self._settle_price(money, item, settled)
            elif money.each:
                settled.cost_each = (settled.cost_each or 0) + money.value
            else:
                settled.cost = (settled.cost or 0) + money.value

    def _settle_price(self, money: n.Money, item: Item, settled: Settled) -> None:
        """`£3 per kg`, `50p per plug`."""
        one = n.Quantity(n.Figure(1, 1), money.per, span=money.span)
        measures = self._measures_on(self.today)
        amount = measures.weigh(one, settled.crop)
        if money.per.rstrip("s") in {"packet", "pkt"}:
            amount = Amount("packets", 1, 1, 1)
        elif amount.dimension == "loose" and measures.find(money.per, settled.crop) is None:
            settled.cost_each = (settled.cost_each or 0) + money.value
            return
        if amount.dimension != "loose" and amount.dimension not in settled.figures.totals:
            written = self.entry.text[slice_of(money.span)]
            self.complain("J413", money.span, word=written, unit=money.per)
            return
        settled.prices.append((money.value, amount))

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
        for nickname, person in self.known.sheet.nicknames:
            if nickname.lower() == written.lower():
                return person
        for person in self.known.sheet.persons:
            if person.lower() == written.lower():
                return person
        return written

    def _material(self, item: Item) -> str:
        main = item.material
        with_ = item.with_
        if main is not None and self.verb.kind == "structure":
            # `replace boards with larch planks`: the new ones are what now stands there.
            new = with_.name if with_ is not None and with_.kind != "place" else ""
            return " ".join((new or main.text).split())
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
        day = self.today.first if self.today else None
        names = dict.fromkeys(p.name for p in self.known.sheet.places if p.kind == kind)
        held = [self.known.sheet.place_on(name, day) for name in names]
        return [place.name for place in held if place is not None and _stands(place, day)]

    def _one_place(self, name: n.PlaceName) -> str:
        known = self.names.place(name.text)
        if known:
            return known
        plural_of_one = _singular_place(name.text)
        known = self.names.place(plural_of_one)
        if known:
            return known
        likely = nearest(name.text, [*dict.fromkeys(self.names.places.values()), *_DAYS], 1)
        if likely:
            self.complain(
                "J301", name.span, word=name.text, cure=f"write `{likely[0]}`", edit=likely[0]
            )
        else:
            self.complain("J302", name.span, word=name.text)
        return name.text


def _stands(place: PlaceDeclared, day: date | None) -> bool:
    """Whether a place is there on a day: declared by then, and not given up."""
    begun = place.date is None or day is None or place.date <= day
    return begun and not place.ended


def slice_of(span: Span) -> slice:
    """A span as a slice of the entry's text."""
    return slice(span.start, span.end)


def _added(first: Amount, second: Amount) -> Amount:
    return Amount(
        first.dimension,
        first.value + second.value,
        first.low + second.low,
        first.high + second.high,
        first.approximate or second.approximate,
    )


def _singular_place(written: str) -> str:
    """`Beds 1` is `Bed 1`."""
    stem, _, number = written.rpartition(" ")
    return f"{stem.removesuffix('s')} {number}" if number.isdigit() else written
