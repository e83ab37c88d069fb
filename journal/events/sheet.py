"""Declarations to the `Sheet`: what the plot is made of, from which day."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from journal.events.amounts import Measures, tidy
from journal.events.met_sheet import met_file
from journal.events.model import (
    CropDeclared,
    GroundChange,
    MaterialDeclared,
    MeasureDeclared,
    MetFileDeclared,
    PlaceDeclared,
    Plot,
    PriceDeclared,
    Sheet,
)
from journal.problems.model import Problem, make
from journal.reference.crops import nearest
from journal.reference.load import Reference
from journal.reference.units import unit_table
from journal.source import Source
from journal.syntax.nodes import Declaration, Field, Product, Quantity

PLACE_WORDS = ("bed", "pot", "frame", "house", "bay", "tank", "roof", "store")
_FLAGS = {"raised"}
_WEIGHTS = {"basis", "w/w", "w/v"}
# a roof's surface as people say it: the standard's name for it, BS EN 16941-1 Table 2
_SURFACES = {name: name for name in ("pitched smooth", "pitched rough", "flat with gravel")}
_SURFACES |= dict.fromkeys(("smooth", "metal", "glass"), "pitched smooth")
_SURFACES |= {"rough": "pitched rough"}
_SURFACES |= dict.fromkeys(("flat", "flat without gravel"), "flat without gravel")
_SURFACES |= dict.fromkeys(("gravel", "gravelled"), "flat with gravel")
_SURFACES |= dict.fromkeys(("green", "turf", "sedum"), "green extensive")
_PLOT_PIECES = (
    *("latitude 53.8", "longitude -1.8", "altitude 90 m", "dates day first", "units metric"),
    *("currency GBP", "temperatures C"),
)
_NITRATE_ZONE = {"nitrate zone", "nitrate vulnerable zone"}


@dataclass(slots=True)
class SheetBuilder:
    """Collects declarations in order of their day; `sheet()` is what they come to."""

    reference: Reference
    plot: Plot = field(default_factory=Plot)
    places: list[PlaceDeclared] = field(default_factory=list)
    crops: list[CropDeclared] = field(default_factory=list)
    materials: list[MaterialDeclared] = field(default_factory=list)
    measures: list[MeasureDeclared] = field(default_factory=list)
    prices: list[PriceDeclared] = field(default_factory=list)
    changes: list[GroundChange] = field(default_factory=list)
    persons: list[str] = field(default_factory=list)
    nicknames: list[tuple[str, str]] = field(default_factory=list)
    mets: list[MetFileDeclared] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def sheet(self) -> Sheet:
        """Everything declared, each kind in order of its day."""
        return Sheet(
            self.plot,
            _by_day(self.places),
            _by_day(self.crops),
            _by_day(self.materials),
            _by_day(self.measures),
            _by_day(self.prices),
            _by_day(self.changes),
            tuple(dict.fromkeys(self.persons)),
            tuple(dict.fromkeys(self.nicknames)),
            tuple(self.mets),
        )

    # ------------------------------------------------------------ one declaration

    def add(self, line: Declaration, day: date | None, source: Source) -> None:
        """Takes one declaration that holds from `day` on (None: from the start)."""
        handler = _HANDLERS.get(line.word)
        if line.word in PLACE_WORDS:
            self._place(line, day, source)
        elif handler is not None:
            handler(self, line, day, source)

    def _measures(self) -> Measures:
        units = unit_table(self.plot.us_units)
        return Measures(units, tuple(self.measures), self.plot.fahrenheit)

    def _unread(self, piece: Field, source: Source, *known: str) -> None:
        """Tells of a piece that means nothing; `known` are pieces that would, the likeliest first
        where one of them must be written.
        """
        self.problems.append(
            make("J601", source, piece.span, mend=_likely_piece(piece, known), word=piece.text)
        )

    def _unread_size(self, piece: Field, source: Source, example: str) -> None:
        """Tells of a piece where nothing but a size or a price can stand."""
        mend = f"write it as a figure, for example `{example}`"
        self.problems.append(make("J601", source, piece.span, mend=mend, word=piece.text))

    def _plot(self, line: Declaration, day: date | None, source: Source) -> None:
        changes: dict[str, Any] = {"name": line.name}
        for piece in line.fields:
            found = self._plot_field(piece)
            if found is None:
                self._unread(piece, source, *_PLOT_PIECES)
            else:
                changes |= found
        self.plot = replace(self.plot, **changes)

    def _plot_field(self, piece: Field) -> dict[str, Any] | None:
        key, value = piece.key, piece.value
        words = str(value).lower()
        if key in {"latitude", "longitude"} and isinstance(value, float):
            limit = 90 if key == "latitude" else 180
            return {key: value} if abs(value) <= limit else None
        if key == "altitude":
            return {"altitude_m": value}
        if key == "dates" and words in {"day first", "month first"}:
            return {"month_first": words == "month first"}
        if key == "units" and words in {"metric", "imperial", "uk", "us"}:
            return {"us_units": words == "us", "fahrenheit": words == "us"}
        if key == "currency" and len(words) == 3 and words.isalpha():
            return {"currency": words.upper()}
        if key.startswith("temperature") and words[:1] in {"c", "f"}:
            return {"fahrenheit": words[:1] == "f"}
        if key in {"amount", "size"}:
            area = self._area(value)
            return None if area is None else {"area_m2": area}
        if key == "words" and words in _NITRATE_ZONE:
            return {"nitrate_zone": True}
        return None

    # ------------------------------------------------------------ places

    def _place(self, line: Declaration, day: date | None, source: Source) -> None:
        place = PlaceDeclared(day, line.word, line.name, source=source, span=line.name_span)
        before = [old for old in self.places if old.name == line.name]
        if before:
            last = before[-1]
            if last.date == day:
                self.problems.append(make("J602", source, line.name_span, word=line.name))
            # What the new line does not say again stays as it was; ground that had ended is new.
            if not last.ended:
                place = replace(last, date=day, kind=line.word, source=source, span=line.name_span)
        if self._ends_in_size(line.name):
            self.problems.append(_size_in_name(line, source))
        for piece in line.fields:
            changed = self._place_field(place, piece)
            if changed is None:
                self._unread(piece, source, "also N1", "soil loam", "at 0 x 3 m", "raised")
            else:
                place = changed
        self.places.append(place)

    def _ends_in_size(self, name: str) -> bool:
        """`Barrel 200 litres`: a comma was forgotten before the size."""
        words = name.split()
        return len(words) > 2 and words[-1].lower() in unit_table() and words[-2][0].isdigit()

    def _place_field(self, place: PlaceDeclared, piece: Field) -> PlaceDeclared | None:
        key, value = piece.key, piece.value
        if key == "size" and isinstance(value, Product):
            return self._sized(place, value)
        if key == "amount" and isinstance(value, Quantity):
            return self._big(place, value)
        if key == "also":
            return replace(place, also=(*place.also, str(value)))
        if key == "soil":
            return replace(place, soil=str(value).lower())
        if key in {"to", "feeds"}:
            return replace(place, feeds=str(value))
        if key == "at" and isinstance(value, Product):
            return self._at(place, value)
        if key == "words":
            return self._flagged(place, str(value).lower())
        return None

    def _flagged(self, place: PlaceDeclared, words: str) -> PlaceDeclared | None:
        if words in _FLAGS:
            return replace(place, raised=True)
        if words.endswith(" soil"):
            return replace(place, soil=words.removesuffix(" soil"))
        if words in {"gone", "ended", "given up"}:
            return replace(place, ended=True)
        if place.kind == "roof" and words in _SURFACES:
            return replace(place, surface=_SURFACES[words])
        return None

    def _sizes(self, product: Product) -> list[float] | None:
        unit = product.factors[-1].unit
        measures = self._measures()
        sizes = []
        for factor in product.factors:
            with_unit = factor if factor.unit else Quantity(factor.figure, unit)
            size = measures.length(with_unit)
            if size is None or not 0 <= size < 1e6:
                return None
            sizes.append(size)
        return sizes

    def _sized(self, place: PlaceDeclared, product: Product) -> PlaceDeclared | None:
        sizes = self._sizes(product)
        if sizes is None or len(sizes) > 3 or not all(sizes):
            return None
        width, length = sorted(sizes[:2])
        height = sizes[2] if len(sizes) > 2 else None
        volume = width * length * height * 1000 if height else place.volume_l
        return replace(
            place,
            width_m=width,
            length_m=length,
            height_m=height,
            long_across=sizes[0] > sizes[1],
            area_m2=tidy(width * length),
            volume_l=tidy(volume) if volume else None,
        )

    def _big(self, place: PlaceDeclared, quantity: Quantity) -> PlaceDeclared | None:
        amount = self._measures().weigh(quantity)
        if not 0 < amount.value < 1e9:
            return None
        if amount.dimension == "area":
            # A new area undoes an older length and width that would contradict it.
            return replace(place, area_m2=amount.value, length_m=None, width_m=None)
        if amount.dimension == "volume":
            return replace(place, volume_l=amount.value)
        if amount.dimension == "length":
            return replace(place, length_m=amount.value)
        return None

    def _area(self, value: object) -> float | None:
        if isinstance(value, Product):
            sizes = self._sizes(value)
            return tidy(sizes[0] * sizes[1]) if sizes and len(sizes) == 2 else None
        if isinstance(value, Quantity):
            amount = self._measures().weigh(value)
            return amount.value if amount.dimension == "area" else None
        return None

    def _at(self, place: PlaceDeclared, product: Product) -> PlaceDeclared | None:
        sizes = self._sizes(product)
        if sizes is None or len(sizes) != 2:
            return None
        return replace(place, x_m=sizes[0], y_m=sizes[1])

    # ------------------------------------------------------------ crops, stuff, measures, prices

    def _crop(self, line: Declaration, day: date | None, source: Source) -> None:
        also: list[str] = []
        groups: list[str] = []
        family = ""
        for piece in line.fields:
            if piece.key == "also":
                also.append(str(piece.value).lower())
            elif piece.key == "family":
                family = str(piece.value).capitalize()
            elif piece.key in {"words", "group"}:
                groups.append(str(piece.value).lower())
            else:
                self._unread(piece, source, "also yams", "family Oxalidaceae")
        name = line.name.lower()
        name = self.reference.crop_spellings.get(name, name)
        self.crops.append(
            CropDeclared(day, name, tuple(also), family, tuple(groups), source, line.name_span)
        )

    def _material(self, line: Declaration, day: date | None, source: Source) -> None:
        made = MaterialDeclared(day, line.word, line.name, source=source, span=line.name_span)
        for piece in line.fields:
            key, value = piece.key, piece.value
            if key == "label" and isinstance(value, tuple):
                (nitrogen, phosphate, potash), basis = value
                made = replace(
                    made, n_pct=nitrogen, p2o5_pct=phosphate, k2o_pct=potash, basis=basis
                )
            elif key == "words" and str(value).lower() in _WEIGHTS:
                made = replace(made, basis=str(value).lower())
            elif key == "also":
                made = replace(made, also=(*made.also, str(value).lower()))
            elif key in {"dose", "ratio"}:
                made = self._diluted(made, value) or made
            elif key == "words" and (density := _density(str(value))) is not None:
                made = replace(made, kg_per_l=density)
            else:
                self._unread(piece, source, "also tomato food", "density 1.1")
        self.materials.append(made)

    def _diluted(self, made: MaterialDeclared, value: Any) -> MaterialDeclared | None:
        if not isinstance(value, tuple):
            return replace(made, dilution=value.one / (value.one + value.water))
        stuff, water = (self._measures().weigh(part) for part in value)
        if water.dimension != "volume" or stuff.dimension not in {"volume", "mass"}:
            return None
        return replace(made, dilution=stuff.value / water.value) if water.value else None

    def _measure(self, line: Declaration, day: date | None, source: Source) -> None:
        name, crop = self._measure_name(line.name.lower())
        made = MeasureDeclared(day, name, crop, source=source, span=line.name_span)
        for piece in line.fields:
            if piece.key != "amount" or not isinstance(piece.value, Quantity):
                self._unread_size(piece, source, "85 l")
                continue
            amount = self._measures().weigh(piece.value)
            columns = {"mass": "mass_kg", "volume": "volume_l", "time": "minutes"}
            if amount.dimension in columns:
                changed: dict[str, Any] = {columns[amount.dimension]: amount.value}
                made = replace(made, **changed)
            else:
                self._unread_size(piece, source, "85 l")
        empty = made.mass_kg is None and made.volume_l is None and made.minutes is None
        if empty and not line.fields:
            self.problems.append(make("J606", source, line.name_span, word=line.name))
        self.measures.append(made)

    def _measure_name(self, name: str) -> tuple[str, str]:
        """`punnet tomato` is the punnet of tomatoes; `carrier bag` is one name."""
        words = name.split()
        for cut in range(len(words) - 1, 0, -1):
            tail = " ".join(words[cut:])
            crop = self._crop_name(tail)
            if crop:
                return " ".join(words[:cut]), crop
        return name, ""

    def _crop_name(self, written: str) -> str:
        for crop in self.crops:
            if written == crop.name or written in crop.also:
                return crop.name
        return self.reference.crop_spellings.get(written, "")

    def _price(self, line: Declaration, day: date | None, source: Source) -> None:
        name, cultivar = _split_cultivar(line.name)
        crop = self._crop_name(name.lower()) or name.lower()
        priced = False
        for piece in line.fields:
            if piece.key != "price" or not isinstance(piece.value, tuple):
                self._unread_size(piece, source, "£1.10 per kg")
                continue
            money, per = piece.value
            priced = True
            self.prices.append(
                PriceDeclared(
                    day,
                    crop,
                    cultivar,
                    money.value,
                    money.currency,
                    per or "each",
                    self._per_kg(money.value, per),
                    source,
                    line.name_span,
                )
            )
        if not priced and not line.fields:
            self.problems.append(make("J607", source, line.name_span, word=line.name))

    def _per_kg(self, price: float, per: str) -> float | None:
        unit = unit_table(self.plot.us_units).get(per)
        if unit is None or unit.dimension != "mass":
            return None
        return tidy(price / unit.factor)

    # ------------------------------------------------------------ people, files, changes

    def _person(self, line: Declaration, day: date | None, source: Source) -> None:
        self.persons.append(line.name)
        for piece in line.fields:
            if piece.key == "also":
                self.nicknames.append((str(piece.value), line.name))
            else:
                self._unread(piece, source, "also Ed")

    def _met(self, line: Declaration, day: date | None, source: Source) -> None:
        self.mets.append(met_file(line, source, self.problems))

    def _change(self, line: Declaration, day: date | None, source: Source) -> None:
        parts = [self._new_part(piece) for piece in line.fields]
        if line.word == "rename":
            parts = [(piece.text, None) for piece in line.fields[:1]]
        old = self._declared(line.name)
        if old is None:
            names = [place.name for place in self.places]
            likely = nearest(line.name, names, 1)
            mend = f"write `{likely[0]}`" if likely else None
            self.problems.append(make("J605", source, line.name_span, mend=mend, word=line.name))
            return
        change = GroundChange(day, line.word, old.name, tuple(parts), source, line.name_span)
        self.changes.append(change)
        self._change_places(change, old)

    def _new_part(self, piece: Field) -> tuple[str, float | None]:
        """`North 3a 2 m`: a name, and its length where one follows."""
        words = piece.text.split()
        for cut in (len(words) - 2, len(words) - 1):
            if cut < 1:
                continue
            length = self._written_length(words[cut:])
            if length is not None:
                return " ".join(words[:cut]), length
        return " ".join(words), None

    def _written_length(self, words: list[str]) -> float | None:
        text = "".join(words)
        figure = text.rstrip("abcdefghijklmnopqrstuvwxyz")
        unit = unit_table().get(text[len(figure) :])
        if unit is None or unit.dimension != "length" or not figure:
            return None
        try:
            return tidy(float(figure) * unit.factor)
        except ValueError:
            return None

    def _declared(self, name: str) -> PlaceDeclared | None:
        wanted = name.lower()
        found = [
            place
            for place in self.places
            if wanted in {place.name.lower(), *(other.lower() for other in place.also)}
        ]
        return found[-1] if found else None

    def _change_places(self, change: GroundChange, old: PlaceDeclared) -> None:
        """The old ground ends; each new name holds its part of it."""
        told = sum(length for _, length in change.parts if length is not None)
        silent = [name for name, length in change.parts if length is None]
        rest = (old.length_m or 0) - told
        for name, length in change.parts:
            part = replace(
                old, date=change.date, name=name, also=(), source=change.source, span=change.span
            )
            if change.kind == "split":
                part = _cut(part, length if length is not None else _even(rest, len(silent)))
            self.places.append(part)
        ended = replace(
            old,
            date=change.date,
            ended=True,
            became=tuple(name for name, _ in change.parts),
            source=change.source,
            span=change.span,
        )
        self.places.append(ended)


def _size_in_name(line: Declaration, source: Source) -> Problem:
    """`Barrel 200 litres`."""
    name, figure, unit = line.name.rsplit(" ", 2)
    size = f"{figure} {unit}"
    return make("J608", source, line.name_span, word=line.name, name=name, size=size)


def _likely_piece(piece: Field, known: tuple[str, ...]) -> str:
    """The known piece that opens with the same word, or one close to it."""
    word = piece.text.split()[0].lower()
    heads = {example.split()[0]: example for example in known}
    likely = [word] if word in heads else nearest(word, heads, 1)
    if likely:
        return f"write it like `{heads[likely[0]]}`"
    return "put it in (brackets) if it is a remark"


def _density(words: str) -> float | None:
    """`density 1.1` or `density 1.1 kg per l`: kg a litre; None for anything else."""
    name, _, rest = words.lower().partition(" ")
    figure = rest.removesuffix("kg per l").removesuffix("kg/l").strip()
    if name != "density":
        return None
    try:
        value = float(figure)
    except ValueError:
        return None
    return value if 0 < value < 25 else None


def _even(rest: float, among: int) -> float | None:
    return rest / among if rest > 0 else None


def _cut(place: PlaceDeclared, length: float | None) -> PlaceDeclared:
    if length is None or place.width_m is None:
        return replace(place, length_m=None, area_m2=None, volume_l=None)
    return replace(place, length_m=tidy(length), area_m2=tidy(length * place.width_m))


def _split_cultivar(name: str) -> tuple[str, str]:
    for quote in "'‘\"“":
        if quote in name:
            crop, _, rest = name.partition(quote)
            return crop.strip(), rest.strip().rstrip("'’\"”")
    return name, ""


def _by_day(rows: list[Any]) -> tuple[Any, ...]:
    return tuple(sorted(rows, key=lambda row: row.date or date.min))


_Handler = Callable[[SheetBuilder, Declaration, date | None, Source], None]
_HANDLERS: dict[str, _Handler] = {
    "plot": SheetBuilder._plot,
    "feed": SheetBuilder._material,
    "material": SheetBuilder._material,
    "crop": SheetBuilder._crop,
    "measure": SheetBuilder._measure,
    "worth": SheetBuilder._price,
    "person": SheetBuilder._person,
    "met file": SheetBuilder._met,
    "split": SheetBuilder._change,
    "rename": SheetBuilder._change,
}
