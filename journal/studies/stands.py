"""What stands in which bed or pot from when to when, with the water figures of its soil and crop.

A stand that cannot be reckoned keeps the reason; none is reckoned by another crop's figures.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from math import pi

from journal.diary import Diary
from journal.events.dates import Days
from journal.events.model import PlaceDeclared
from journal.reference.water import CropWater, Soil, load_water
from journal.studies.ledger.batches import Batch, Stay
from journal.studies.ledger.grounds import Ground, Grounds
from journal.studies.plants import books_of, certain
from journal.studies.soil_water import total_available

NO_COEFFICIENT = "FAO-56 (1998) prints no coefficient for it"
NO_STAGES = "FAO-56 (1998) prints no lengths of its stages"
NO_SOIL = "the sheet gives no soil"
NO_SUCH_SOIL = "FAO-56 has no figures for the soil `{soil}`"
NO_SIZE = "the sheet gives the pot no volume"
NO_DAY = "the day it went in is not certain"
COVERED = "it stands under cover, away from the weather that is read"


@dataclass(frozen=True, slots=True)
class RootZone:
    """The water side of a place: how much its root zone holds, gives up easily, and its area.

    `total_mm` and, in a pot, `readily_mm` over `area_m2`; `readily_mm` is None where it follows
    from the crop. `guessed` marks an area that the sheet does not give.
    """

    total_mm: float
    readily_mm: float | None
    area_m2: float | None
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class Stand:
    """One crop in one bed or pot, with everything that its water is reckoned from.

    `place` is what its ground is called today.
    """

    place: str
    kind: str
    crop: CropWater
    begins: date
    ends: date | None
    ground: Ground
    water: RootZone


@dataclass(frozen=True, slots=True)
class Unreckoned:
    """A crop in a place whose water cannot be reckoned, and why."""

    place: str
    crop: str
    year: int
    reason: str


def stands(diary: Diary) -> list[Stand | Unreckoned]:
    """Every crop in every declared bed, pot, frame and house, those of one day together."""
    found: dict[tuple[str, str, date], Stand | Unreckoned] = {}
    grounds = Grounds(diary.sheet)
    for batch in books_of(diary).batches:
        for place, since, until in _times(batch):
            declared = diary.sheet.place_on(place, since.first)
            if declared is None or declared.kind not in {"bed", "pot", "frame", "house"}:
                continue
            made = _stand(batch.crop, declared, since, until, grounds)
            key = (place, batch.crop, since.first)
            found[key] = _longer(found.get(key), made)
    return list(found.values())


def _times(batch: Batch) -> Iterator[tuple[str, Days, Days | None]]:
    """Each place of a batch, when it came there and when the last of it went."""
    by_place: dict[str, list[Stay]] = {}
    for stay in batch.stays:
        if stay.stage != "ended":
            by_place.setdefault(stay.place, []).append(stay)
    for place, stays in by_place.items():
        since = min((stay.since for stay in stays), key=lambda days: days.first)
        ends = [stay.until for stay in stays if stay.until is not None]
        stands_on = len(ends) < len(stays)
        yield place, since, None if stands_on else max(ends, key=lambda days: days.last)


def _stand(
    crop: str, place: PlaceDeclared, since: Days, until: Days | None, grounds: Grounds
) -> Stand | Unreckoned:
    begins = certain(since)
    figures = load_water().crops.get(crop)
    water = _water(place, figures) if figures else NO_COEFFICIENT
    why = water if isinstance(water, str) else ""
    if figures is not None and figures.stages is None:
        why = why or NO_STAGES
    if begins is None:
        why = why or NO_DAY
    if why or figures is None or begins is None or isinstance(water, str):
        return Unreckoned(place.name, crop, since.first.year, why)
    ends = until.last if until is not None else None
    ground, name = grounds.of(place.name, begins), grounds.now(place.name, begins)
    return Stand(name, place.kind, figures, begins, ends, ground, water)


def _water(place: PlaceDeclared, crop: CropWater) -> RootZone | str:
    """The water side of a place for a crop, or why there is none."""
    if place.kind in {"frame", "house"}:
        return COVERED
    if place.kind == "pot":
        return _pot(place)
    if not place.soil:
        return NO_SOIL
    soil: Soil | None = load_water().soils.get(place.soil)
    if soil is None:
        return NO_SUCH_SOIL.format(soil=place.soil)
    area = place.area_m2
    if area is None and place.length_m is not None and place.width_m is not None:
        area = place.length_m * place.width_m
    return RootZone(total_available(soil.available, crop.root_low_m), None, area)


def _pot(place: PlaceDeclared) -> RootZone | str:
    """A pot holds and gives up parts of its volume; without an area it is as wide as deep."""
    if place.volume_l is None:
        return NO_SIZE
    area, guessed = place.area_m2, False
    if area is None:
        # a cylinder as wide as deep: volume = pi width^3 / 4
        width = (4 * place.volume_l / 1000 / pi) ** (1 / 3)
        area, guessed = pi * width**2 / 4, True
    parts = load_water().pots
    held, easy = parts["held after draining"].value, parts["easily given up"].value
    return RootZone(held * place.volume_l / area, easy * place.volume_l / area, area, guessed)


def _longer(one: Stand | Unreckoned | None, other: Stand | Unreckoned) -> Stand | Unreckoned:
    """Of two batches of a crop that came to a place together, the one that stands longer."""
    if not isinstance(one, Stand) or not isinstance(other, Stand):
        return other if isinstance(other, Stand) or one is None else one
    return one if one.ends is None or (other.ends is not None and one.ends >= other.ends) else other
