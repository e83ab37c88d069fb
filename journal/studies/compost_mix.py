"""Moisture and C:N of a heap's mix, from what went into it and published analyses.

Carbon over nitrogen on dry mass; ratios are never averaged. Where sources differ the mix is a
range over all of them; where one material has no figure there is none.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

from journal.reference.stuff import HeapStuff, load_stuff
from journal.studies.products import known_name

# so many combinations of sources at most; a heap of more kinds of stuff takes each one's first
MOST_COMBINATIONS = 4096


@dataclass(frozen=True, slots=True)
class Filling:
    """So much of one material that went into a heap; kg or litres, None where not written."""

    material: str
    litres: float | None
    kg: float | None = None


@dataclass(frozen=True, slots=True)
class Stuff:
    """A mass of one material: kg wet, nitrogen in per cent of dry mass, C:N, moisture per cent."""

    kg: float
    n_pct_dry: float
    c_to_n: float
    moisture_pct: float


@dataclass(frozen=True, slots=True)
class Mix:
    """C:N and moisture in per cent, least and most over the sources; `lack` says why not."""

    c_to_n: tuple[float, float] | None
    moisture_pct: tuple[float, float] | None
    lack: str = ""


def moisture_of(parts: Sequence[Stuff]) -> float:
    """Moisture of a mix in per cent of wet mass: sum Q M / sum Q (Cornell Composting, read:
    https://compost.css.cornell.edu/calc/2.html). No parts, or none with a mass: ValueError."""
    wet = sum(part.kg for part in parts)
    if wet <= 0:
        raise ValueError("a mix without a mass has no moisture")
    return sum(part.kg * part.moisture_pct for part in parts) / wet


def c_to_n_of(parts: Sequence[Stuff]) -> float:
    """C:N of a mix: sum Q C (100 - M) / sum Q N (100 - M), with per cent C = per cent N x C:N,
    both of dry mass (Cornell Composting, read: https://compost.css.cornell.edu/calc/2.html).
    A mix without nitrogen: ValueError."""
    nitrogen = [part.kg * part.n_pct_dry * (100 - part.moisture_pct) for part in parts]
    if sum(nitrogen) <= 0:
        raise ValueError("a mix without nitrogen has no C:N")
    carbon = sum(n * part.c_to_n for n, part in zip(nitrogen, parts, strict=True))
    return carbon / sum(nitrogen)


def mix(fillings: Iterable[Filling]) -> Mix:
    """The mix of all fillings as they went in, over every source of each material.

    A volume is weighed by the published bulk density of loose material. No figure at all where
    an amount, a density or an analysis is missing: `lack` names the materials.
    """
    totals = _by_material(fillings)
    if not totals:
        return Mix(None, None)
    options = {name: _options(name, *amount) for name, amount in totals.items()}
    lacking = [name for name, found in options.items() if not found]
    if lacking:
        return Mix(None, None, f"no published figure, or no amount, of {', '.join(lacking)}")
    chosen = list(options.values())
    if _combinations(chosen) > MOST_COMBINATIONS:
        chosen = [found[:1] for found in chosen]
    mixes = [parts for parts in product(*chosen) if sum(part.kg for part in parts) > 0]
    if not mixes:
        return Mix(None, None, "no amount")
    ratios = [c_to_n_of(parts) for parts in mixes]
    wet = [moisture_of(parts) for parts in mixes]
    return Mix((min(ratios), max(ratios)), (min(wet), max(wet)))


def _by_material(
    fillings: Iterable[Filling],
) -> dict[str, tuple[float | None, float | None]]:
    """Litres and kg of each material; None for both where one filling was not measured."""
    totals: dict[str, tuple[float | None, float | None]] = {}
    for filling in fillings:
        name = known_name(filling.material)
        litres, kg = totals.get(name, (0.0, 0.0))
        if litres is None or kg is None or (filling.litres is None and filling.kg is None):
            totals[name] = (None, None)
        elif filling.kg is not None:
            totals[name] = (litres, kg + filling.kg)
        else:
            totals[name] = (litres + (filling.litres or 0.0), kg)
    return totals


def _options(name: str, litres: float | None, kg: float | None) -> list[Stuff]:
    """The material's mass and analysis by each source of density and of analysis."""
    if litres is None or kg is None:
        return []
    found = load_stuff().heap.get(name, ())
    densities = [one.kg_per_m3 for one in found if one.kg_per_m3 is not None]
    options = []
    for one in found:
        own = [one.kg_per_m3] if one.kg_per_m3 is not None else densities
        masses = [kg + litres * density / 1000 for density in own] if litres else [kg]
        options += [_stuff(one, mass) for mass in masses]
    return list(dict.fromkeys(options))


def _stuff(one: HeapStuff, kg: float) -> Stuff:
    return Stuff(kg, one.n_pct_dry, one.c_to_n, one.moisture_pct)


def _combinations(options: Iterable[Sequence[Stuff]]) -> int:
    count = 1
    for found in options:
        count *= len(found)
    return count
