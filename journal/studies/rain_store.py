"""The water in each tank from day to day: what the roofs brought, what was drawn, what ran over.

Where the diary leaves something open (rain not read, water of no said source) the level is a range,
and a `level` line makes it a figure again.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import inf
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import Event, PlaceDeclared, Sheet
from journal.reference.water import load_water
from journal.studies.notes import Note, counted
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.weather_days import weather_days

# what a roof yields whose surface the sheet does not say: pitched and rough as flat without gravel
USUAL_ROOF = "pitched rough"
WATERS = ("water", "feed")


def roof_yield(area_m2: float, rain_mm: float, surface: float, filtered: float = 1.0) -> float:
    """Litres from a roof: Y = A h e eta (BS EN 16941-1), plan area in m2, rain in mm.

    `surface` is the yield coefficient e and `filtered` the filter's eta, 1 without a filter: one mm
    on one m2 is a litre.
    """
    return area_m2 * rain_mm * surface * filtered


@once_a_diary
def rain_store(diary: Diary) -> pd.DataFrame:
    """One row a day and tank, at the day's end: the columns of the table `rain_store`.

    - `in_l`: rain x area x yield coefficient of every roof that the sheet leads to the tank (BS EN
      16941-1:2024, Table 2; 0.80 where the sheet does not say the surface; no filter), with what
      was filled in by hand. Blank where rain was not read, which may have been any.
    - `drawn_l`: waterings, feeds and moves `from` the tank; blank where one was not measured, and
      on every day on which one of an uncertain day may have been.
      `unsaid_l`: waterings and feeds of the day that say no source, which may have come from it;
      blank likewise.
    - `overflow_l`: what came beyond `volume_l`, reckoned each day, rain before drawing; blank where
      it is not certain.
    - `level_l`: what is in it; blank where that is a range, `level_low_l` to `level_high_l`. The
      first day is wholly open. `level TANK 120 l`, `fill TANK` and `empty TANK` set it: `read_l`,
      and `off_l` is by how much that lay outside what was reckoned.

    No row for a tank without a volume on the sheet. Water of the tank's own opening, leaks and what
    the sun takes are not reckoned.
    """
    days = weather_days(diary)
    rows = [row for tank in tanks(diary) for row in _Ledger(diary, tank).rows(days["rain"])]
    return shaped("rain_store", rows)


def tanks(diary: Diary) -> list[str]:
    """The tanks with a volume, in the order of the sheet, without those that were given up."""
    named = {place.name: place for place in diary.sheet.places if place.kind == "tank"}
    return [name for name, place in named.items() if place.volume_l]


def roofs_to(sheet: Sheet, tank: str, day: date | None) -> list[PlaceDeclared]:
    """The roofs that drain to a tank on a day, with an area."""
    own = sheet.place_on(tank, day)
    names = {tank.lower(), *(other.lower() for other in (own.also if own else ()))}
    roofs = {place.name for place in sheet.places if place.kind == "roof"}
    held = (sheet.place_on(name, day) for name in sorted(roofs))
    return [
        roof
        for roof in held
        if roof is not None and roof.area_m2 and not roof.ended and roof.feeds.lower() in names
    ]


def surface_yield(roof: PlaceDeclared) -> float:
    """The yield coefficient of a roof's surface as the sheet says it, else of the usual one."""
    runoff = load_water().runoff
    return runoff.get(roof.surface or USUAL_ROOF, runoff[USUAL_ROOF]).value


@dataclass(slots=True)
class _Acts:
    """What was done with a tank on one day, in litres, up to the line that set its level.

    `doubts` are drawings of an uncertain day, of which this is the first: the last possible day
    and the litres. On an `open_day` one `from` the tank may have been, on an `unsaid_open` day one
    of no said source.
    """

    filled: float = 0.0
    drawn: float = 0.0
    unmeasured: bool = False
    unsaid: float = 0.0
    open_day: bool = False
    unsaid_open: bool = False
    doubts: list[tuple[date, float]] = field(default_factory=list)
    level: float | None = None
    was_read: bool = False


@dataclass(slots=True)
class _Ledger:
    """One tank's books.

    `least` is what it holds at least if none of the `doubts` was drawn: a drawing, whenever it was,
    leaves no day's level lower by more than itself, since rain only makes good for it.
    """

    diary: Diary
    tank: str
    acts: dict[date, list[_Acts]] = field(default_factory=dict)
    first: date | None = None
    least: float = 0.0
    doubts: list[tuple[date, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for event in self.diary.reading.events:
            if event.date is not None and event.date_end is not None:
                self._take(event, event.date, event.date_end)

    def _volume(self, day: date) -> float:
        place = self.diary.sheet.place_on(self.tank, day)
        return place.volume_l or 0.0 if place is not None else 0.0

    def _take(self, event: Event, first: date, last: date) -> None:
        days = [first + timedelta(days=at) for at in range((last - first).days + 1)]
        if event.place_from == self.tank and event.verb != "empty":
            self._draw(event, days)
        elif event.place == self.tank and event.kind == "heap":
            if first == last or event.spread:
                self._set(event, last)
        elif event.kind in WATERS and not event.place_from and event.volume_l != 0:
            self._unsaid(event, days)

    def _on(self, day: date) -> _Acts:
        """The acts that the next line of a day belongs to: new ones after a level was set."""
        acts = self.acts.setdefault(day, [_Acts()])
        if acts[-1].level is not None:
            acts.append(_Acts())
        return acts[-1]

    def _draw(self, event: Event, days: list[date]) -> None:
        share = _share(event, days)
        for day in days:
            act = self._on(day)
            act.unmeasured |= event.volume_l is None
            act.drawn += share
            act.open_day |= not _is_sure(event, days)
        self._doubt(event, days)
        self._begin(days[0])

    def _unsaid(self, event: Event, days: list[date]) -> None:
        share = inf if event.volume_l is None else _share(event, days)
        for day in days:
            act = self._on(day)
            act.unsaid += share
            act.unsaid_open |= not _is_sure(event, days)
        self._doubt(event, days)

    def _doubt(self, event: Event, days: list[date]) -> None:
        if event.volume_l is not None and not _is_sure(event, days):
            self._on(days[0]).doubts.append((days[-1], event.volume_l))

    def _set(self, event: Event, day: date) -> None:
        litres, act = event.volume_l, self._on(day)
        if event.verb == "fill" and litres is not None:
            act.filled += litres
        elif event.verb == "empty":
            act.level = 0.0
        elif event.verb == "fill":
            act.level = self._volume(day)
        elif event.verb == "level" and litres is not None:
            act.level, act.was_read = litres, True
        self._begin(day)

    def _begin(self, day: date) -> None:
        self.first = day if self.first is None else min(self.first, day)

    def rows(self, rain: "pd.Series[Any]") -> Iterator[dict[str, Any]]:
        """The tank's days, from the first weather or act of its own to today."""
        read = {stamp.date(): float(mm) for stamp, mm in rain.dropna().items()}  # type: ignore[attr-defined]
        starts = [day for day in (self.first, min(read, default=None)) if day is not None]
        if not starts:
            return
        day, high = min(starts), self._volume(min(starts))
        while day <= self.diary.today:
            row = self._day(day, high, read.get(day))
            high = row["level_high_l"]
            yield row
            day += timedelta(days=1)

    def _day(self, day: date, high: float, mm: float | None) -> dict[str, Any]:
        acts, volume = self.acts.get(day, [_Acts()]), self._volume(day)
        roofs = roofs_to(self.diary.sheet, self.tank, day)
        brought = sum(
            roof_yield(roof.area_m2 or 0.0, 1.0 if mm is None else mm, surface_yield(roof))
            for roof in roofs
        )
        rain = (0.0, inf) if mm is None and brought else (brought, brought) if mm else (0.0, 0.0)
        steps = []
        for act in acts:
            steps.append(self._step(act, day, high, rain, volume))
            high, rain = steps[-1].high, (0.0, 0.0)
        came = sum(step.came[0] for step in steps), sum(step.came[1] for step in steps)
        over = sum(step.over[0] for step in steps), sum(step.over[1] for step in steps)
        read = [(act.level, step.off) for act, step in zip(acts, steps, strict=True) if step.is_set]
        level, off = read[-1] if read else (None, None)
        low = steps[-1].low
        return {
            "year": day.year,
            "date": day,
            "tank": self.tank,
            "rain_mm": mm,
            "in_l": came[0] if came[1] < inf else None,
            "drawn_l": _sum(None if act.unmeasured or act.open_day else act.drawn for act in acts),
            "unsaid_l": _sum(
                None if act.unsaid == inf or act.unsaid_open else act.unsaid for act in acts
            ),
            "overflow_l": over[0] if over[1] - over[0] < 1e-6 else None,
            "level_l": low if high - low < 1e-6 else None,
            "level_low_l": low,
            "level_high_l": high,
            "read_l": level,
            "off_l": off,
            "volume_l": volume,
        }

    def _step(
        self, act: _Acts, day: date, high: float, rain: tuple[float, float], volume: float
    ) -> "_Step":
        """A part of a day up to a level that was set: what came, then what was drawn."""
        self.doubts += act.doubts
        doubt = sum(litres for _, litres in self.doubts)
        came, most = act.filled + rain[0], act.filled + rain[1]
        over = max(self.least - doubt + came - volume, 0.0), max(high + most - volume, 0.0)
        gone = inf if act.unmeasured else act.drawn + act.unsaid
        self.least = max(min(self.least + came, volume) - gone, 0.0)
        low, high = max(self.least - doubt, 0.0), max(min(high + most, volume) - act.drawn, 0.0)
        off = None
        if act.level is not None:
            off = act.level - min(max(act.level, low), high) if act.was_read else None
            self.least = low = high = min(act.level, volume) if volume else act.level
            self.doubts = [(last, litres) for last, litres in self.doubts if last > day]
        return _Step(low, high, (came, most), over, off, act.level is not None)


@dataclass(frozen=True, slots=True)
class _Step:
    """What a tank holds after a part of a day, least and most, and what came and ran over."""

    low: float
    high: float
    came: tuple[float, float]
    over: tuple[float, float]
    off: float | None
    is_set: bool


def _sum(litres: Iterable[float | None]) -> float | None:
    """The sum of a day's parts, unknown where one is."""
    found = list(litres)
    return None if None in found else sum(each for each in found if each is not None)


def _is_sure(event: Event, days: list[date]) -> bool:
    """Whether it was on these days, and not on one of them."""
    return bool(event.spread) or len(days) == 1


def _share(event: Event, days: list[date]) -> float:
    """The litres of each day, none where the day is not certain."""
    return (event.volume_l or 0.0) / len(days) if _is_sure(event, days) else 0.0


def rain_store_notes(diary: Diary) -> list[Note]:
    """Tanks without a volume or a roof, and waterings that do not say where the water came from."""
    notes = []
    kept = tanks(diary)
    for place in {row.name: row for row in diary.sheet.places if row.kind == "tank"}.values():
        if place.name not in kept:
            notes.append(_note(place.name, "the sheet gives it no volume"))
        elif not roofs_to(diary.sheet, place.name, diary.today):
            notes.append(_note(place.name, "no roof with an area leads to it on the sheet"))
    if kept:
        events = diary.events
        silent = events[events["kind"].isin(WATERS) & (events["place_from"] == "")]
        by_year = silent.groupby(silent["date"].dt.year).size()
        notes += [
            _note(
                "the tanks",
                f"{counted(size, 'watering')} without a source, which may be theirs",
                year,
            )
            for year, size in _whole(by_year.items())
        ]
    return notes


def _note(subject: str, reason: str, year: int | None = None) -> Note:
    return Note("rain_store", "weather", subject, reason, year)


def _whole(pairs: Iterable[tuple[Any, Any]]) -> Iterator[tuple[int, int]]:
    for year, size in pairs:
        yield int(year), int(size)
