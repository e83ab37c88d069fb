"""Declarations to the `Sheet`: what the plot is made of, from which day."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from journal.events.amounts import Measures, tidy
from journal.events.ground_pieces import GroundReader, changed_places, new_part
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
from journal.events.sheet_pieces import (
    comma_before_size,
    density,
    likely_piece,
    size_in_name,
    split_cultivar,
)
from journal.problems.model import Problem, make
from journal.reference.crops import nearest
from journal.reference.load import Reference
from journal.reference.units import unit_table
from journal.source import Source
from journal.syntax.nodes import Declaration, Field, Quantity

PLACE_WORDS = ("bed", "pot", "frame", "house", "bay", "tank", "roof", "store")
_WEIGHTS = {"basis", "w/w", "w/v"}
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
            make("J601", source, piece.span, mend=likely_piece(piece, known), word=piece.text)
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
            area = GroundReader(self._measures()).area(value)
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
            self.problems.append(size_in_name(line, source))
        ground = GroundReader(self._measures())
        for piece in line.fields:
            changed = ground.place_field(place, piece)
            if changed is None:
                self._unread(piece, source, "also N1", "soil loam", "at 0 x 3 m", "raised")
            else:
                place = changed
        self.places.append(place)

    def _ends_in_size(self, name: str) -> bool:
        """`Barrel 200 litres`: a comma was forgotten before the size."""
        words = name.split()
        return len(words) > 2 and words[-1].lower() in unit_table() and words[-2][0].isdigit()

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
            elif key == "words" and (kg_per_l := density(str(value))) is not None:
                made = replace(made, kg_per_l=kg_per_l)
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
            self.problems.append(
                make(
                    "J606",
                    source,
                    line.name_span,
                    word=line.name,
                    mend=comma_before_size(line.name),
                )
            )
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
        name, cultivar = split_cultivar(line.name)
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
                    self.plot.code_of(money.currency),
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
        parts = [new_part(piece) for piece in line.fields]
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
        self.places.extend(changed_places(change, old))

    def _declared(self, name: str) -> PlaceDeclared | None:
        wanted = name.lower()
        found = [
            place
            for place in self.places
            if wanted in {place.name.lower(), *(other.lower() for other in place.also)}
        ]
        return found[-1] if found else None


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
