"""Published figures about crops, each with its source: yields, days, seed life, spacing.

Only figures that were read in their source stand here. Sources that differ are all kept;
a crop without a figure has an empty tuple, never its neighbour's figure.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from journal.reference.crops import Crop, Group


@dataclass(frozen=True, slots=True)
class Published:
    """One figure of one source, from `low` to `high` in `unit`; an open end is None.

    `measure` is what was counted (`sowing to harvest`, `between rows`), `condition` the kind
    or circumstance (`maincrop`, `clubroot`), `soil_c` the soil temperature it holds at, and
    `printed` the figure as the source has it.
    """

    crop: str
    low: float | None
    high: float | None
    unit: str
    source: str
    basis: str
    note: str = ""
    measure: str = ""
    condition: str = ""
    soil_c: float | None = None
    source_id: str = ""
    printed: str = ""


Figures = Mapping[str, tuple[Published, ...]]


@dataclass(frozen=True, slots=True)
class Books:
    """The published figures by crop; every accessor answers with all rows, or none."""

    yields: Figures = field(default_factory=dict)
    days: Figures = field(default_factory=dict)
    seed: Figures = field(default_factory=dict)
    germination: Figures = field(default_factory=dict)
    breaks: Figures = field(default_factory=dict)
    distances: Figures = field(default_factory=dict)
    weights: Figures = field(default_factory=dict)
    crops: Mapping[str, Crop] = field(default_factory=dict)
    groups: Mapping[str, Group] = field(default_factory=dict)

    def expected_yield(self, crop: str) -> tuple[Published, ...]:
        """Yields: kg per m of row, kg per plant, kg per m2, kg per kg planted, or a count.

        `all crops` answers for a whole mixed plot.
        """
        return self.yields.get(crop, ())

    def days_to_harvest(self, crop: str) -> tuple[Published, ...]:
        """Days to harvest; `measure` says from what: sowing, transplanting, planting, or the
        whole crop cycle."""
        return self.days.get(crop, ())

    def seed_life(self, crop: str) -> tuple[Published, ...]:
        """Years that seed keeps."""
        return self.seed.get(crop, ())

    def germination_minimum(self, crop: str) -> tuple[Published, ...]:
        """The least germination in per cent that seed law allows to be sold."""
        return self._germination(crop, lambda measure: measure == "least germination by law")

    def emergence(self, crop: str) -> tuple[Published, ...]:
        """Days from sowing until seedlings show, each at the soil temperature `soil_c`."""
        return self._germination(crop, lambda measure: measure == "days to emergence")

    def soil_temperature(self, crop: str) -> tuple[Published, ...]:
        """Lowest, best and highest soil temperature for germination, in degrees Celsius."""
        return self._germination(crop, lambda measure: measure.endswith("temperature"))

    def rotation(self, host: str) -> tuple[Published, ...]:
        """Years to wait, or that a trouble lives in the soil, for a crop, group or family.

        A crop answers with its own rows and those of its groups; `whole plot` with the
        lengths of whole rotations.
        """
        names = [host]
        if host in self.crops:
            names += self.crops[host].group
        names += [name for name in self.breaks if name not in names and self._is_of(name, host)]
        return tuple(row for name in names for row in self.breaks.get(name, ()))

    def spacing(self, crop: str) -> tuple[Published, ...]:
        """Distances in metres; `measure` is between plants, between rows, or deep."""
        return self.distances.get(crop, ())

    def weight(self, crop: str) -> tuple[Published, ...]:
        """Weights in kg of one item, or of a US bushel, dry quart or dry pint."""
        return self.weights.get(crop, ())

    def _germination(self, crop: str, wanted: Callable[[str], bool]) -> tuple[Published, ...]:
        return tuple(row for row in self.germination.get(crop, ()) if wanted(row.measure))

    def _is_of(self, name: str, family: str) -> bool:
        named = self.crops.get(name) or self.groups.get(name)
        return named is not None and named.family == family


def by_crop(rows: Iterable[Published]) -> dict[str, tuple[Published, ...]]:
    """The figures of one table under their crops, in the order of the table."""
    found: dict[str, tuple[Published, ...]] = {}
    for row in rows:
        found[row.crop] = (*found.get(row.crop, ()), row)
    return found
