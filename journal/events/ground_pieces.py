"""The pieces of a place's declaration, and of a split or rename, to what they change."""

from dataclasses import dataclass, replace

from journal.events.amounts import Measures, tidy
from journal.events.model import GroundChange, PlaceDeclared
from journal.reference.units import unit_table
from journal.syntax.nodes import Field, Product, Quantity

_FLAGS = {"raised"}
# a roof's surface as people say it: the standard's name for it, BS EN 16941-1 Table 2
_SURFACES = {name: name for name in ("pitched smooth", "pitched rough", "flat with gravel")}
_SURFACES |= dict.fromkeys(("smooth", "metal", "glass"), "pitched smooth")
_SURFACES |= {"rough": "pitched rough"}
_SURFACES |= dict.fromkeys(("flat", "flat without gravel"), "flat without gravel")
_SURFACES |= dict.fromkeys(("gravel", "gravelled"), "flat with gravel")
_SURFACES |= dict.fromkeys(("green", "turf", "sedum"), "green extensive")


@dataclass(frozen=True, slots=True)
class GroundReader:
    """Reads sizes in the units of one plot."""

    measures: Measures

    def place_field(self, place: PlaceDeclared, piece: Field) -> PlaceDeclared | None:
        """The place with what the piece says of it; None for a piece that says nothing."""
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
        sizes = []
        for factor in product.factors:
            with_unit = factor if factor.unit else Quantity(factor.figure, unit)
            size = self.measures.length(with_unit)
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
        amount = self.measures.weigh(quantity)
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

    def area(self, value: object) -> float | None:
        """A written size or area in square metres; None for anything else."""
        if isinstance(value, Product):
            sizes = self._sizes(value)
            return tidy(sizes[0] * sizes[1]) if sizes and len(sizes) == 2 else None
        if isinstance(value, Quantity):
            amount = self.measures.weigh(value)
            return amount.value if amount.dimension == "area" else None
        return None

    def _at(self, place: PlaceDeclared, product: Product) -> PlaceDeclared | None:
        sizes = self._sizes(product)
        if sizes is None or len(sizes) != 2:
            return None
        return replace(place, x_m=sizes[0], y_m=sizes[1])


def new_part(piece: Field) -> tuple[str, float | None]:
    """`North 3a 2 m`: a name, and its length where one follows."""
    words = piece.text.split()
    for cut in (len(words) - 2, len(words) - 1):
        if cut < 1:
            continue
        length = _written_length(words[cut:])
        if length is not None:
            return " ".join(words[:cut]), length
    return " ".join(words), None


def _written_length(words: list[str]) -> float | None:
    text = "".join(words)
    figure = text.rstrip("abcdefghijklmnopqrstuvwxyz")
    unit = unit_table().get(text[len(figure) :])
    if unit is None or unit.dimension != "length" or not figure:
        return None
    try:
        return tidy(float(figure) * unit.factor)
    except ValueError:
        return None


def changed_places(change: GroundChange, old: PlaceDeclared) -> list[PlaceDeclared]:
    """The old ground ends; each new name holds its part of it."""
    made: list[PlaceDeclared] = []
    told = sum(length for _, length in change.parts if length is not None)
    silent = [name for name, length in change.parts if length is None]
    rest = (old.length_m or 0) - told
    for name, length in change.parts:
        part = replace(
            old, date=change.date, name=name, also=(), source=change.source, span=change.span
        )
        if change.kind == "split":
            part = _cut(part, length if length is not None else _even(rest, len(silent)))
        made.append(part)
    ended = replace(
        old,
        date=change.date,
        ended=True,
        became=tuple(name for name, _ in change.parts),
        source=change.source,
        span=change.span,
    )
    return [*made, ended]


def _even(rest: float, among: int) -> float | None:
    return rest / among if rest > 0 else None


def _cut(place: PlaceDeclared, length: float | None) -> PlaceDeclared:
    if length is None or place.width_m is None:
        return replace(place, length_m=None, area_m2=None, volume_l=None)
    return replace(place, length_m=tidy(length), area_m2=tidy(length * place.width_m))
