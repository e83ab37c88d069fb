"""Seasons of plants whose truth is known, written as a diary: whole, blurred, or with holes.

The truth is counted plant by plant while the season is made up; the ledger has to find it from
the text alone. Nothing here uses the program.
"""

from dataclasses import dataclass, field
from datetime import date, timedelta
from random import Random

SHEET = """\
- bed Long 1, 1.2 x 4.8 m
- bed Long 2, 1.2 x 4.8 m
- bed Long 3, 1.2 x 4.8 m
- bed Long 4, 1.2 x 4.8 m
- house Tunnel, 3 x 6 m
- frame Frame, 0.9 x 1.8 m
"""
BEDS = ("Long 1", "Long 2", "Long 3", "Long 4")
FATES = ("not_up", "discarded", "lost", "harvested", "cleared")
REACHED = ("sown", "up", "pricked_out", "potted_on", "planted")
RAISED = (
    ("leek", "Porbella", "pull"),
    ("cabbage", "January King", "cut"),
    ("celeriac", "Monarch", "lift"),
    ("lettuce", "Little Gem", "cut"),
    ("tomato", "Sungold", "pick"),
    ("courgette", "Defender", "pick"),
    ("runner bean", "White Lady", "pick"),
)
DIRECT = (("beetroot", "Boltardy", "pull"), ("broad bean", "The Sutton", "pick"))
SETS = (("garlic", "Germidour", "lift"), ("onion", "Sturon", "lift"))
WHOLE = frozenset({"pull", "cut", "lift"})


@dataclass
class Truth:
    """What became of one batch; `standing` is how many are alive in each place."""

    crop: str
    cultivar: str
    label: str = ""
    reached: dict[str, int] = field(default_factory=dict)
    fates: dict[str, int] = field(default_factory=lambda: dict.fromkeys(FATES, 0))
    standing: dict[str, int] = field(default_factory=dict)

    @property
    def alive(self) -> int:
        return sum(self.standing.values())

    @property
    def words(self) -> str:
        label = f" [{self.label}]" if self.label else ""
        return f"{self.crop} '{self.cultivar}'{label}"


@dataclass
class Line:
    """One entry: `text` with its count in it, `plain` the same without.

    `steps` is set where an entry only moves plants on, so that without it none is unaccounted for;
    `begins` where it begins a batch. `standing` is what the batch had in each place afterwards.
    """

    day: date
    text: str
    plain: str
    batch: int
    steps: bool = False
    begins: bool = False
    shows: bool = False
    plants: bool = False
    standing: dict[str, int] = field(default_factory=dict)


class Season:
    """A made-up season; the same seed gives the same one."""

    def __init__(self, seed: int):
        self.chance = Random(seed)
        self.truths: list[Truth] = []
        self.lines: list[Line] = []
        for crop, cultivar, verb in self.chance.sample(RAISED, 4):
            for label in ("first", "second") if crop == "lettuce" else ("",):
                self.raise_one(crop, cultivar, verb, label)
        self.sow_in_place(*self.chance.choice(DIRECT))
        self.plant_sets(*self.chance.choice(SETS))
        self.lines.sort(key=lambda line: line.day)

    # ------------------------------------------------------------ how a batch goes

    def raise_one(self, crop: str, cultivar: str, verb: str, label: str) -> None:
        """Sown in trays, raised, planted out, cropped and perhaps cleared."""
        self.begin(crop, cultivar, label, date(2025, 3, 1) + self.days(0, 40))
        self.put("sown", self.chance.randint(6, 60), "in modules in Tunnel", "Tunnel")
        if self.happens(0.15):
            self.lose("Tunnel")
        self.come_up("Tunnel")
        if self.truth.alive and self.happens(0.5):
            self.prick_out()
        place = "Tunnel"
        if self.happens(0.3):
            self.step("pot on", "potted_on", place, place, "into 9 cm pots in")
        if self.happens(0.3):
            self.lose(place)
        if self.happens(0.4):
            self.step("harden off", "", place, "Frame", "in")
            place = "Frame"
        beds = self.chance.sample(BEDS, self.chance.choice((1, 1, 2)))
        for bed in beds:
            self.plant_out(place, bed, last=bed == beds[-1])
        self.grow(beds, place, verb)

    def sow_in_place(self, crop: str, cultivar: str, verb: str) -> None:
        """Sown by number where it is to grow."""
        bed = self.chance.choice(BEDS)
        self.begin(crop, cultivar, "", date(2025, 4, 1) + self.days(0, 30))
        self.put("sown", self.chance.randint(6, 40), f"in {bed}", bed)
        self.come_up(bed)
        self.grow([bed], bed, verb)

    def plant_sets(self, crop: str, cultivar: str, verb: str) -> None:
        """Planted by number: cloves and sets."""
        bed = self.chance.choice(BEDS)
        self.begin(crop, cultivar, "", date(2025, 3, 1) + self.days(0, 30))
        self.put("planted", self.chance.randint(6, 60), f"in {bed}", bed)
        self.grow([bed], bed, verb)

    def grow(self, beds: list[str], nursery: str, verb: str) -> None:
        """Losses, counts and pickings in the beds, and perhaps a clearing of each place."""
        for _ in range(self.chance.randint(0, 3)):
            bed = self.chance.choice(beds)
            if self.happens(0.5):
                self.lose(bed)
            else:
                self.count(bed)
        for _ in range(self.chance.randint(0, 4)):
            self.pick(self.chance.choice(beds), verb)
        for place in {*beds, nursery}:
            if self.happens(0.5):
                self.clear(place)

    # ------------------------------------------------------------ one entry each

    @property
    def truth(self) -> Truth:
        return self.truths[-1]

    def begin(self, crop: str, cultivar: str, label: str, day: date) -> None:
        self.truths.append(Truth(crop, cultivar, label))
        self.day = day

    def put(self, how: str, count: int, where: str, place: str) -> None:
        verb = {"sown": "sow", "planted": "plant"}[how]
        self.truth.reached[how] = count
        self.truth.standing[place] = count
        self.write(f"{verb} {{}}{self.truth.words} {where}", count, begins=True)

    def come_up(self, place: str) -> None:
        """In one go or, now and then, some later than the rest."""
        self.day += self.days(6, 20)
        truth, seeds = self.truth, self.truth.standing[place]
        if not seeds:
            return
        shown = self.chance.randint(seeds // 2, seeds)
        if shown and self.happens(0.2):
            early = self.chance.randint(1, shown)
            truth.fates["not_up"] += seeds - early
            truth.reached["up"], truth.standing[place] = early, early
            self.write(f"up {{}}{truth.words} in {place}", early, shows=True)
            truth.fates["not_up"] -= seeds - early
            self.day += self.days(3, 6)
        truth.fates["not_up"] += seeds - shown
        truth.reached["up"], truth.standing[place] = shown, shown
        of = truth.reached["sown"]
        form = f"up {{}}of {of} {truth.words} in {place}"
        plain = f"up {truth.words} in {place}"
        self.write(form, shown, plain=plain if shown else form.format("0 "), shows=True)

    def prick_out(self) -> None:
        self.day += self.days(5, 12)
        truth, there = self.truth, self.truth.standing["Tunnel"]
        kept = self.chance.randint(1, there)
        truth.reached["pricked_out"] = kept
        truth.fates["discarded"] += there - kept
        truth.standing["Tunnel"] = kept
        self.write(f"prick out {{}}{truth.words} into modules in Tunnel", kept)

    def step(self, verb: str, column: str, place: str, to: str, joint: str) -> None:
        """All of them go on: potted on, or hardened off in another place."""
        self.day += self.days(5, 14)
        truth, there = self.truth, self.truth.standing.pop(place)
        truth.standing[to] = there
        if not there:
            return
        if column:
            truth.reached[column] = there
        self.write(f"{verb} {{}}{truth.words} {joint} {to}", there, steps=True)

    def plant_out(self, place: str, bed: str, last: bool) -> None:
        self.day += self.days(4, 15)
        truth, there = self.truth, self.truth.standing[place]
        some = there if last and self.happens(0.5) else self.chance.randint(0, there)
        if not some:
            return
        truth.standing[place] -= some
        truth.standing[bed] = truth.standing.get(bed, 0) + some
        truth.reached["planted"] = truth.reached.get("planted", 0) + some
        form = f"plant out {{}}{truth.words} from {place} to {bed}"
        # without a number all are meant, so that one may be left out where none stayed behind
        whole = form.format("" if some == there else f"{some} ")
        self.write(form, some, plain=whole, plants=True)

    def lose(self, place: str) -> None:
        self.day += self.days(3, 15)
        there = self.truth.standing.get(place, 0)
        if there:
            gone = self.chance.randint(1, there)
            self.take(place, gone, "lost")
            self.write(f"lose {{}}{self.truth.words} in {place} to slugs", gone)

    def count(self, place: str) -> None:
        """Some went without a line; the count tells."""
        self.day += self.days(3, 15)
        there = self.truth.standing.get(place, 0)
        if there:
            self.take(place, self.chance.randint(0, there - 1), "lost")
            left = self.truth.standing[place]
            self.write(f"count {left} {self.truth.words} in {place}", None)

    def pick(self, place: str, verb: str) -> None:
        """By number where the plant is taken with it, by weight where it is not."""
        self.day += self.days(3, 12)
        there = self.truth.standing.get(place, 0)
        if not there:
            return
        words = f"{self.truth.words} from {place}"
        if verb not in WHOLE:
            self.write(f"{verb} 400 g {words}", None)
            return
        taken = self.chance.randint(1, there)
        self.take(place, taken, "harvested")
        self.write(f"{verb} {{}}{words}", taken, plain=f"{verb} 900 g {words}")

    def clear(self, place: str) -> None:
        self.day += self.days(1, 10)
        there = self.truth.standing.get(place, 0)
        if there:
            self.take(place, there, "cleared")
            self.write(f"clear {self.truth.words} from {place}", None)

    def take(self, place: str, count: int, fate: str) -> None:
        self.truth.standing[place] -= count
        self.truth.fates[fate] += count

    def write(
        self, form: str, count: int | None, *, plain: str | None = None, **kind: bool
    ) -> None:
        text = form if count is None else form.format(f"{count} ")
        bare = plain or (text if count in (None, 0) else form.format(""))
        standing = {place: left for place, left in self.truth.standing.items() if left}
        batch = len(self.truths) - 1
        self.lines.append(Line(self.day, text, bare, batch, standing=standing, **kind))

    def happens(self, chance: float) -> bool:
        return self.chance.random() < chance

    def days(self, least: int, most: int) -> timedelta:
        return timedelta(days=self.chance.randint(least, most))

    # ------------------------------------------------------------ the diaries of it

    def whole(self) -> str:
        """Every entry with its count."""
        return page((line.day, line.text) for line in self.lines)

    def blurred(self) -> str:
        """Counts left out here and there, and steps on the way; nothing that took plants is."""
        kept = []
        for line in self.lines:
            if line.steps and self.happens(0.4):
                continue
            text = line.plain if not line.begins and self.happens(0.35) else line.text
            kept.append((line.day, text))
        return page(kept)

    def holed(self) -> str:
        """Entries missing at random, and counts; only what put plants somewhere is whole."""
        kept = []
        for line in self.lines:
            whole = line.begins or line.shows or line.plants
            if whole or not self.happens(0.3):
                text = line.text if whole or not self.happens(0.2) else line.plain
                kept.append((line.day, text))
        return page(kept)

    def standing_on(self, batch: int, day: date) -> dict[str, int] | None:
        """What a batch had in each place at the end of a day; None before it began."""
        past = [line for line in self.lines if line.batch == batch and line.day <= day]
        return past[-1].standing if past else None


def page(entries: object) -> str:
    """Day lines with their entries below."""
    lines: list[str] = []
    last = None
    for day, text in entries:  # type: ignore[attr-defined]
        if day != last:
            lines += ["", day.isoformat()]
            last = day
        lines.append(f"- {text}")
    return "\n".join(lines) + "\n"
