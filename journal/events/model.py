"""Events, weather readings, declarations and paragraphs as plain values.

Field names are the columns of the tables; a missing figure is None, a missing word is "".
"""

import datetime
from dataclasses import dataclass, field

from journal.source import Source, Span


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happened (or is meant to): one row of the events table."""

    event: int
    entry: int
    date: datetime.date | None
    date_end: datetime.date | None
    kind: str
    verb: str
    crop: str = ""
    cultivar: str = ""
    label: str = ""
    family: str = ""
    place: str = ""
    place_from: str = ""
    vessel: str = ""
    party: str = ""
    cover: str = ""
    material: str = ""
    count: float | None = None
    count_of: float | None = None
    mass_kg: float | None = None
    volume_l: float | None = None
    length_m: float | None = None
    area_m2: float | None = None
    depth_m: float | None = None
    spacing_m: float | None = None
    row_spacing_m: float | None = None
    dose_l: float | None = None
    dose_kg: float | None = None
    minutes: float | None = None
    cost: float | None = None
    currency: str = ""
    temperature_c: float | None = None
    task: str = ""
    score: float | None = None
    approximate: bool = False
    low: float | None = None
    high: float | None = None
    amount_text: str = ""
    subject: str = ""
    due: datetime.date | None = None
    due_end: datetime.date | None = None
    packets: float | None = None
    spread: bool = False
    remark: str = ""
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class WeatherReading:
    """One figure or word of the weather on a day: one row of the weather table."""

    date: datetime.date | None
    date_end: datetime.date | None
    place: str
    variable: str
    value: float | None
    unit: str
    mark: str = ""
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Prose between entries, word for word, with its day."""

    date: datetime.date | None
    date_end: datetime.date | None
    text: str
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class PlaceDeclared:
    """A bed, pot, frame, house, bay, tank, roof or store as the sheet gives it from `date` on.

    Lengths in m, area in m2, volume in l; `feeds` is the tank that a roof drains to, and `surface`
    what the roof is made of, as the table of yields names it.
    """

    date: datetime.date | None
    kind: str
    name: str
    also: tuple[str, ...] = ()
    length_m: float | None = None
    width_m: float | None = None
    height_m: float | None = None
    area_m2: float | None = None
    volume_l: float | None = None
    feeds: str = ""
    soil: str = ""
    raised: bool = False
    x_m: float | None = None
    y_m: float | None = None
    ended: bool = False
    long_across: bool = False
    became: tuple[str, ...] = ()
    surface: str = ""
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class CropDeclared:
    """A crop that the sheet names, or other names for one."""

    date: datetime.date | None
    name: str
    also: tuple[str, ...] = ()
    family: str = ""
    group: tuple[str, ...] = ()
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class MaterialDeclared:
    """A feed or material: its N-P2O5-K2O label in per cent, basis, and usual dilution.

    `basis` is "w/w", "w/v" or "" when the sheet does not say; `dilution` is litres (or kg) of
    concentrate a litre of water; `kg_per_l` is the density of the concentrate.
    """

    date: datetime.date | None
    kind: str
    name: str
    also: tuple[str, ...] = ()
    n_pct: float | None = None
    p2o5_pct: float | None = None
    k2o_pct: float | None = None
    basis: str = ""
    dilution: float | None = None
    kg_per_l: float | None = None
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class MeasureDeclared:
    """What a kitchen or plot measure holds: `mass_kg` or `volume_l`, for one crop or for all."""

    date: datetime.date | None
    name: str
    crop: str = ""
    mass_kg: float | None = None
    volume_l: float | None = None
    minutes: float | None = None
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class PriceDeclared:
    """What a crop is worth: `price` in `currency` for one `per` (kg, each, or a measure)."""

    date: datetime.date | None
    crop: str
    cultivar: str
    price: float
    currency: str
    per: str
    per_kg: float | None = None
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class GroundChange:
    """A `split` or `rename` of a place: the history of the old ground belongs to the new names.

    `parts` are the new names with the length of each in m (None when the sheet does not say).
    """

    date: datetime.date | None
    kind: str
    old: str
    parts: tuple[tuple[str, float | None], ...]
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class MetFileDeclared:
    """A weather station's file beside the diary, and what the sheet says of it.

    `units` and `columns` pair a variable with its unit or its heading in the file; `wind_m` is the
    height of the wind gauge, 10 m (the standard of the weather services) unless the sheet says.
    """

    name: str
    units: tuple[tuple[str, str], ...] = ()
    columns: tuple[tuple[str, str], ...] = ()
    wind_m: float = 10.0
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    span: Span = field(default=Span(0, 0), compare=False, repr=False)


_DOLLARS = frozenset({"AUD", "CAD", "NZD", "USD"})


@dataclass(frozen=True, slots=True)
class Plot:
    """What holds for the whole plot; latitude and longitude in degrees, altitude in m.

    `nitrate_zone` is true where the sheet says that the plot lies in a nitrate vulnerable zone.
    """

    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    altitude_m: float | None = None
    month_first: bool = False
    us_units: bool = False
    fahrenheit: bool = False
    currency: str = ""
    area_m2: float | None = None
    nitrate_zone: bool = False

    def code_of(self, written: str) -> str:
        """The ISO 4217 code of money as written: `$` is the plot's own dollar, else the US one."""
        if written == "$":
            return self.currency if self.currency in _DOLLARS else "USD"
        return written or self.currency


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything that the diary declares, each with the day it holds from (None: from the start).

    `places` keeps every declaration in order, so that a bed may change size.
    """

    plot: Plot = Plot()
    places: tuple[PlaceDeclared, ...] = ()
    crops: tuple[CropDeclared, ...] = ()
    materials: tuple[MaterialDeclared, ...] = ()
    measures: tuple[MeasureDeclared, ...] = ()
    prices: tuple[PriceDeclared, ...] = ()
    changes: tuple[GroundChange, ...] = ()
    persons: tuple[str, ...] = ()
    nicknames: tuple[tuple[str, str], ...] = ()
    mets: tuple[MetFileDeclared, ...] = ()

    @property
    def met_files(self) -> tuple[str, ...]:
        """The names of the met files, each once."""
        return tuple(dict.fromkeys(row.name for row in self.mets))

    _by_name: dict[str, list[PlaceDeclared]] = field(
        init=False, compare=False, repr=False, default_factory=dict
    )

    def __post_init__(self) -> None:
        """Keeps each place's declarations together."""
        for place in self.places:
            self._by_name.setdefault(place.name, []).append(place)

    def place_on(self, name: str, day: datetime.date | None) -> PlaceDeclared | None:
        """The declaration of the place `name` that holds on `day`.

        Without a day the last one counts; before the first declaration the first one does.
        """
        own = self._by_name.get(name)
        if not own:
            return None
        if day is None:
            return own[-1]
        held = [place for place in own if place.date is None or place.date <= day]
        return held[-1] if held else own[0]
