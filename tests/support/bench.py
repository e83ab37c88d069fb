"""What reading costs, as ratios within one run: cold beside a bare parse, warm beside pandas.

Run by `make bench`. Processor time is what counts, since a machine may be busy with other things;
the clock stands beside it. No test: a measurement.
"""

import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from statistics import median

from lark import Transformer

from journal.cache.shelf import VARIABLE
from journal.events.names import known_names, words_of
from journal.reading import read_folder
from journal.reference.load import load
from journal.reference.units import unit_table
from journal.syntax.grammar import build_parser
from journal.syntax.marks import Marker

ENTRIES = 20_000
TIMES_AS_LONG = 10
A_DAY = 8
TODAY = date(2026, 11, 25)
PLACES = [*(f"Long {n}" for n in range(1, 13)), "Top bed", "Frame", "Tunnel"]
CROPS = ["leek", "kale", "carrot", "runner bean", "potato", "courgette", "tomato", "broad bean"]
CULTIVARS = ["Porbella", "Eskimo", "Enorma", "Charlotte", "Nero di Toscana", "Bleu de Solaise"]
SHAPES = [
    "pick {kg} kg {crop} from {place}, {g} g {crop2}",
    "pick {crop} '{cultivar}' {g} g from {place}",
    "sow {crop} '{cultivar}' in {place}, {rows} rows of 4 m, 2 cm deep",
    "sow {n} {crop} in modules in {place}",
    "plant out {n} {crop} '{cultivar}' to {place}, 30 x 45 cm",
    "weed {place} and {place2} {min} min",
    "water {place} {n} l",
    "spread {rows} barrows manure on {place}",
    "feed {crop} in {place} with chicken pellets {n} g per m2",
    "buy {n} {crop} plugs £{rows}.20",
    "lose {rows} {crop} in {place} to slugs",
    "weather {rows} to {n} C, rain {kg} mm",
]
REMARKS = (
    "before the rain after late first last of all still rather wet dry windy again at dusk".split()
)
QUESTION = "When did I last sow leeks?"
MOST = {"cold": 2.5, "warm": 3.0, "long": 1.15, "memory": 600.0}


def write_diary(folder: Path, count: int = ENTRIES) -> list[str]:
    """A made-up diary of so many entries over some years, a third of them with a remark of its own.

    Returns the entries as they are written.
    """
    dice = random.Random(1)
    beds = "".join(f"- bed {place}, 1.2 x 4.8 m\n" for place in PLACES)
    sheet = f"{beds}- material chicken pellets, 4-2-1\n- measure barrow, 85 l\n"
    (folder / "plot.txt").write_text(sheet, encoding="utf-8")
    entries = []
    for _ in range(count):
        place, place2 = dice.sample(PLACES, 2)
        crop, crop2 = dice.sample(CROPS, 2)
        words = {"place": place, "place2": place2, "crop": crop, "crop2": crop2}
        words |= {"cultivar": dice.choice(CULTIVARS), "kg": dice.randint(1, 99) / 10}
        words |= {"g": dice.randint(50, 950), "n": dice.randint(9, 60), "rows": dice.randint(2, 9)}
        words["min"] = dice.randint(5, 240)
        remark = f" ({' '.join(dice.choices(REMARKS, k=5))})" if dice.random() < 1 / 3 else ""
        entries.append(dice.choice(SHAPES).format_map(words) + remark)
    lines = []
    for first in range(0, count, A_DAY):
        # a hundred years of entries are ten years of fuller days, so that none is still to come
        day = date(2019, 1, 1) + timedelta(days=first // A_DAY % 2800)
        lines += [f"{day}", *(f"- {entry}" for entry in entries[first : first + A_DAY]), ""]
    (folder / "pages.txt").write_text("\n".join(lines), encoding="utf-8")
    return entries


def marked_entries(folder: Path, entries: list[str]) -> list[str]:
    """The entries as they are handed to lark, their names marked."""
    sheet = read_folder(folder / "plot.txt", TODAY).sheet
    cultivars = frozenset(name.lower() for name in CULTIVARS)
    words = words_of(sheet, known_names(sheet, load()), frozenset(unit_table()), cultivars)
    marker = Marker(words)
    return [marker.mark(text) or text for text in entries]


@dataclass(frozen=True, slots=True)
class Cost:
    """Processor seconds, seconds by the clock, and the most memory in MB."""

    work: float
    clock: float
    memory: float = 0.0

    def __str__(self) -> str:
        memory = f", {self.memory:4.0f} MB at most" if self.memory else ""
        return f"{self.work:6.2f} s ({self.clock:6.2f} s by the clock{memory})"


def of_process(words: Sequence[str], cache: Path | None = None) -> Cost:
    """A Python process of its own, from its start to its end."""
    environment = {**os.environ, **({VARIABLE: str(cache)} if cache else {})}
    start = time.perf_counter()
    run = subprocess.Popen(
        [sys.executable, *words], env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
    )
    assert run.stderr is not None
    told = run.stderr.read()
    _, status, used = os.wait4(run.pid, 0)
    run.returncode = os.waitstatus_to_exitcode(status)
    clock = time.perf_counter() - start
    if run.returncode:
        raise SystemExit(f"`{' '.join(words)}` left with {run.returncode}: {told.decode()}")
    return Cost(used.ru_utime + used.ru_stime, clock, used.ru_maxrss / 1024)


def of_parse(entries: list[str], marked: list[str]) -> Cost:
    """lark alone: the parsers built and run with lark's own loops, no tree looked at."""
    units = frozenset(unit_table())
    start, worked = time.perf_counter(), time.process_time()
    entry = build_parser("diary.lark", "entry", units, Transformer(), {})
    weather = build_parser("weather.lark", "weather", units, Transformer(), {})
    for text, mark in zip(entries, marked, strict=True):
        (weather if text.startswith("weather") else entry).parse(mark)
    return Cost(time.process_time() - worked, time.perf_counter() - start)


def typical(costs: Sequence[Cost]) -> Cost:
    """The medians."""
    memory = max(cost.memory for cost in costs)
    return Cost(median(cost.work for cost in costs), median(cost.clock for cost in costs), memory)


def in_turn(*runs: Callable[[], Cost], times: int = 3) -> list[Cost]:
    """Each run's typical cost, the runs taken in turn so that a busy spell meets all of them."""
    rounds = [[run() for run in runs] for _ in range(times)]
    return [typical(costs) for costs in zip(*rounds, strict=True)]


def haulm(folder: Path, *words: str) -> list[str]:
    """The words of a command on a diary, on the one day."""
    return ["-m", "journal", *words, "-d", str(folder), "--today", str(TODAY)]


def table(folder: Path, *words: str) -> Cost:
    """`haulm table events` to a file, with a cache of its own that was empty."""
    with tempfile.TemporaryDirectory() as aside:
        out = ["--out", str(Path(aside) / "events.csv")]
        return of_process(haulm(folder, "table", "events", *out, *words), Path(aside) / "cache")


def say(name: str, ratio: float, what: str) -> None:
    """A ratio and its bound."""
    print(f"ratio {ratio:35.2f}  (to be at most {MOST[name]:g} {what})\n")


def short(folder: Path) -> Cost:
    """Cold beside a bare parse, warm beside pandas; returns the cold cost."""
    entries = write_diary(folder)
    marked = marked_entries(folder, entries)
    print(f"{ENTRIES:,} entries, {len(set(entries)):,} of them different\n")
    cold, parse = in_turn(partial(table, folder), partial(of_parse, entries, marked))
    print(f"haulm table events, cold  {cold}\nbare lark parse           {parse}")
    say("cold", cold.work / parse.work, "times the parse")
    with tempfile.TemporaryDirectory() as aside:
        cache = Path(aside)
        ask = partial(of_process, haulm(folder, "ask", QUESTION), cache)
        again = partial(of_process, haulm(folder, "table", "events"), cache)
        ask()
        warm, rows, pandas = in_turn(
            ask, again, partial(of_process, ["-c", "import pandas"]), times=5
        )
    print(f"haulm ask, warm           {warm}\nhaulm table events, warm  {rows}")
    print(f"import pandas             {pandas}")
    say("warm", warm.work / pandas.work, "times the import")
    return cold


def long(folder: Path, cold: Cost) -> None:
    """Ten times as much, beside ten times the time."""
    write_diary(folder, ENTRIES * TIMES_AS_LONG)
    much = table(folder)
    print(f"{ENTRIES * TIMES_AS_LONG:,} entries\n\nhaulm table events, cold  {much}")
    print(f"of the ten times shorter  {cold}")
    say("long", much.work / cold.work / TIMES_AS_LONG, "of in proportion")
    print(f"memory {much.memory:34.0f}  (to be at most {MOST['memory']:g} MB)")


def main() -> None:
    """Writes the diaries, runs the commands, prints what came out."""
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as ten:
        long(Path(ten), short(Path(one)))


if __name__ == "__main__":
    main()
