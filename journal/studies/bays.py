"""The books of the compost bays: what went in, came out, was turned, measured and probed.

A bay's volume is what was put in less what was taken since it was last measured; it settles
unseen, so a book figure stays one until the diary restates it.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from journal.events.model import Event, Sheet
from journal.studies.compost_mix import Filling
from journal.studies.ledger.booking import order
from journal.studies.ledger.grounds import Grounds
from journal.studies.products import cover_litres, known_name

HOT_C = 55.0
_TINY = 1e-6
_DONE = ("compost", "garden compost", "leaf mould", "worm compost")
_OUT = frozenset({"spread", "mulch", "dig in", "sieve", "fill"})


@dataclass(slots=True)
class Layer:
    """Stuff that went in on one occasion; `first` is None for what was there before the diary.

    An `unmeasured` one has no amount written, and `litres` is what is known of it.
    """

    first: date | None
    last: date | None
    litres: float
    unmeasured: bool = False


@dataclass(frozen=True, slots=True)
class Change:
    """One thing done to a bay and what it held after; litres, least and most."""

    place: str
    what: str
    event: Event
    material: str = ""
    litres: float | None = None
    held_low: float = 0.0
    held_high: float | None = None
    temperature_c: float | None = None


@dataclass(slots=True)
class Heap:
    """From the first filling after a bay last gave compost to the next time that it gives some."""

    place: str
    started: Event
    fillings: list[Filling] = field(default_factory=list)
    events: list[int] = field(default_factory=list)
    turns: int = 0
    heats: dict[tuple[date, date], float] = field(default_factory=dict)
    ended: Event | None = None

    @property
    def hot_days(self) -> int:
        """Days on which 55 C or more was read; a day that is not certain is one day."""
        return sum(heat >= HOT_C for heat in self.heats.values())

    @property
    def materials(self) -> tuple[str, ...]:
        """What went in, each once, in order."""
        return tuple(dict.fromkeys(filling.material for filling in self.fillings))


@dataclass(slots=True)
class Bay:
    """One bay as its books stand: litres held, layers oldest first, and the heap in the making.

    `finished` is compost moved in from another bay, which goes out before the bay's own heap.
    `told` is whether the diary ever said what it held: before, it may hold older stuff.
    """

    place: str
    low: float = 0.0
    high: float | None = None
    finished: float = 0.0
    layers: list[Layer] = field(default_factory=list)
    measured: Event | None = None
    last_fill: Event | None = None
    probed: Event | None = None
    heap: Heap | None = None
    past: list[Heap] = field(default_factory=list)
    told: bool = False
    unmeasured: list[int] = field(default_factory=list)

    def put(self, litres: float, layers: Iterable[Layer], *, at_least: bool = False) -> None:
        """So much more, or at least so much, which leaves no most."""
        self.low += litres
        self.high = None if self.high is None or at_least else self.high + litres
        self.layers += layers
        self.layers.sort(key=lambda layer: layer.first or date.min)

    def take(self, litres: float | None) -> list[Layer]:
        """So much less, of the oldest first; the layers that went."""
        if litres is None:
            self.low = 0.0
            return []
        self.low = max(0.0, self.low - litres)
        self.high = None if self.high is None else max(0.0, self.high - litres)
        gone: list[Layer] = []
        left = litres
        while left > _TINY and self.layers:
            oldest = self.layers[0]
            part = left if oldest.unmeasured else min(left, oldest.litres)
            gone.append(Layer(oldest.first, oldest.last, part))
            oldest.litres = max(0.0, oldest.litres - part)
            left -= part
            if oldest.litres <= _TINY and not oldest.unmeasured:
                self.layers.pop(0)
        return gone

    def clear(self) -> list[Layer]:
        """Nothing is left; the layers that went."""
        gone, self.layers = self.layers, []
        self.low = self.high = self.finished = 0.0
        self.told = True
        self.unmeasured.clear()
        return gone

    def give(self, litres: float | None) -> bool:
        """Counts compost that goes out; whether some of it is of the bay's own heap."""
        held, self.finished = self.finished, max(0.0, self.finished - (litres or 0.0))
        return held <= _TINY if litres is None else litres - held > _TINY

    def measure(self, litres: float, event: Event) -> None:
        """What it holds now: layers settle in proportion.

        What is more than was known went in unmeasured, or was there before the diary.
        """
        known = sum(layer.litres for layer in self.layers)
        unmeasured = [layer for layer in self.layers if layer.unmeasured]
        if litres > known and not self.told:
            self.layers.insert(0, Layer(None, None, litres - known))
        elif litres > known and unmeasured:
            for layer in unmeasured:
                layer.litres += (litres - known) / len(unmeasured)
        elif known > _TINY:
            for layer in self.layers:
                layer.litres *= litres / known
            self.finished *= litres / known
        for layer in unmeasured:
            layer.unmeasured = False
        self.told = True
        self.unmeasured.clear()
        self.low = self.high = litres
        self.measured = event


@dataclass(slots=True)
class BayBooks:
    """Books every heap event of a diary in the order of its days."""

    sheet: Sheet
    bays: dict[str, Bay] = field(default_factory=dict)
    changes: list[Change] = field(default_factory=list)

    def book(self, events: Iterable[Event], today: date) -> None:
        """Books the events up to and with today, an uncertain one in the middle of its days.

        Those without a day are left out.
        """
        dated = [event for event in events if event.date is not None]
        for event in sorted(dated, key=order):
            if order(event)[0] <= today:
                self._book(event)

    # ------------------------------------------------------------ which event does what

    def _book(self, event: Event) -> None:
        place, source = self._bay(event.place, event), self._bay(event.place_from, event)
        if event.kind == "heap" and event.verb in {"move", "turn"} and source:
            self._move(event, source, place)
        elif event.verb == "turn" and place and event.kind in {"job", "heap"}:
            self._turn(event, place)
        elif event.verb == "fill" and event.kind == "heap":
            self._fill(event, place, source)
        elif event.verb == "empty" and (source or place):
            self._empty(event, source or place)
        elif event.verb == "level" and place:
            self._level(event, place)
        elif event.verb == "probe" and place:
            self._probe(event, place)
        elif event.verb in _OUT and source:
            self._give(event, source)
        elif event.verb == "sieve" and place and event.material:
            self._give(event, place)

    def _bay(self, place: str, event: Event) -> str:
        """The bay's name of today; "" for a bed, pot or tank, and for a place that is no bay.

        An undeclared place counts as a bay once something was filled into it.
        """
        if not place:
            return ""
        declared = self.sheet.place_on(place, event.date)
        kind = declared.kind if declared is not None else ""
        name = Grounds(self.sheet).now(place, event.date)
        filled = event.kind == "heap" and event.verb in {"fill", "move", "turn"}
        if kind == "bay" or (not kind and (filled or name in self.bays)):
            self.bays.setdefault(name, Bay(name))
            return name
        return ""

    # ------------------------------------------------------------ in

    def _fill(self, event: Event, place: str, source: str) -> None:
        litres = _litres(event)
        if source:
            self._give(event, source)
        if not place:
            return
        bay = self.bays[place]
        unmeasured = litres is None
        layer = Layer(event.date, event.date_end, litres or 0.0, unmeasured)
        bay.put(layer.litres, [layer], at_least=unmeasured)
        bay.last_fill = event
        if bay.heap is None:
            bay.heap = Heap(place, event)
        kg = event.mass_kg if event.volume_l is None else None
        bay.heap.fillings.append(Filling(event.material, event.volume_l, kg))
        bay.heap.events.append(event.event)
        if litres is None:
            bay.unmeasured.append(event.event)
        self._note(place, "filled", event, event.material, litres)

    # ------------------------------------------------------------ out

    def _move(self, event: Event, source: str, place: str) -> None:
        """Some of it to another bay, or all where no amount is written.

        What the diary calls compost is done; anything else goes on as the same heap, turned.
        """
        bay, litres = self.bays[source], _litres(event)
        at_least = litres is None and bay.high is None
        gone = bay.clear() if litres is None else bay.take(litres)
        moved = sum(layer.litres for layer in gone) if litres is None else litres
        self._note(source, "moved out", event, event.material, 0.0 - moved)
        done = known_name(event.material) in _DONE and event.verb == "move"
        if done:
            self._done(bay, event, litres)
        elif litres is None and place and place != source:
            self._carry_on(bay, self.bays[place], event)
        if not place or place == source:
            return
        beyond = moved - sum(layer.litres for layer in gone)
        if beyond > _TINY:
            gone.insert(0, Layer(None, None, beyond))
        self.bays[place].put(moved, gone, at_least=at_least)
        if at_least:
            self.bays[place].unmeasured.append(event.event)
        self.bays[place].finished += moved if done else 0.0
        self._note(place, "moved in", event, event.material, moved)

    def _carry_on(self, source: Bay, bay: Bay, event: Event) -> None:
        heap, source.heap = source.heap, None
        if heap is None:
            return
        heap.turns += 1
        heap.events.append(event.event)
        if bay.heap is not None:
            heap.fillings += bay.heap.fillings
            heap.heats |= bay.heap.heats
        heap.place, bay.heap = bay.place, heap

    def _give(self, event: Event, source: str) -> None:
        """Taken out onto a bed, into a pot or through a sieve."""
        bay = self.bays[source]
        litres = _litres(event) or self._over_a_bed(event)
        bay.take(litres)
        if litres is None:
            bay.unmeasured.append(event.event)
        self._note(source, "taken", event, event.material, None if litres is None else -litres)
        self._done(bay, event, litres)

    def _over_a_bed(self, event: Event) -> float | None:
        bed = self.sheet.place_on(event.place, event.date) if event.place else None
        area = event.area_m2 or (bed.area_m2 if bed is not None else None)
        if event.depth_m is None or area is None:
            return None
        return cover_litres(area, event.depth_m)

    def _empty(self, event: Event, place: str) -> None:
        bay = self.bays[place]
        litres = _litres(event)
        gone = bay.clear() if litres is None else bay.take(litres)
        taken = sum(layer.litres for layer in gone) if litres is None else litres
        self._note(place, "emptied", event, event.material, 0.0 - taken)
        self._done(bay, event, litres)

    def _done(self, bay: Bay, event: Event, litres: float | None) -> None:
        """The heap in the making became compost and left, unless only moved-in compost did."""
        if bay.give(litres) and bay.heap is not None and bay.heap.started is not event:
            bay.heap.ended = event
            bay.past.append(bay.heap)
            bay.heap = None

    # ------------------------------------------------------------ turned, measured, probed

    def _turn(self, event: Event, place: str) -> None:
        heap = self.bays[place].heap
        if heap is not None:
            heap.turns += 1
            heap.events.append(event.event)
        self._note(place, "turned", event)

    def _level(self, event: Event, place: str) -> None:
        bay = self.bays[place]
        declared = self.sheet.place_on(event.place, event.date)
        litres = event.volume_l
        if litres is None and event.depth_m is not None and declared and declared.area_m2:
            litres = cover_litres(declared.area_m2, event.depth_m)
        if litres is None:
            bay.unmeasured.append(event.event)
        else:
            bay.measure(litres, event)
        self._note(place, "measured", event, "", litres)

    def _probe(self, event: Event, place: str) -> None:
        bay = self.bays[place]
        bay.probed = event
        heat = event.temperature_c
        if bay.heap is not None and heat is not None and event.date and event.date_end:
            day = (event.date, event.date_end)
            bay.heap.heats[day] = max(heat, bay.heap.heats.get(day, heat))
            bay.heap.events.append(event.event)
        self._note(place, "probed", event, "", None, heat)

    def _note(
        self,
        place: str,
        what: str,
        event: Event,
        material: str = "",
        litres: float | None = None,
        heat: float | None = None,
    ) -> None:
        bay = self.bays[place]
        self.changes.append(Change(place, what, event, material, litres, bay.low, bay.high, heat))


def _litres(event: Event) -> float | None:
    return event.volume_l
