"""`haulm table events` on 20,000 entries, beside a bare parse of the same entries by lark alone.

Run by `make bench`; prints the median of three of each and their ratio. No test: a measurement.
"""

import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

from lark import Transformer

from journal.events.names import known_names, words_of
from journal.reading import read_folder
from journal.reference.load import load
from journal.reference.units import unit_table
from journal.syntax.grammar import build_parser
from journal.syntax.marks import Marker

ENTRIES = 20_000
A_DAY = 8
TODAY = date(2026, 11, 25)
PLACES = [*(f"Long {n}" for n in range(1, 13)), "Top bed", "Frame", "Tunnel"]
CROPS = ["leek", "kale", "carrot", "runner bean", "potato", "courgette", "tomato", "broad bean"]
CULTIVARS = ["Porbella", "Eskimo", "Enorma", "Charlotte", "Nero di Toscana", "Bleu de Solaise"]
SHAPES = [
    "pick {kg} kg {crop} from {place}, {g} g {crop2}",
    "pick {crop} '{cultivar}' {g} g from {place} (before the rain)",
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


def write_diary(folder: Path) -> list[str]:
    """A made-up diary of `ENTRIES` entries over some years; the entries as they are written."""
    dice = random.Random(1)
    beds = "".join(f"- bed {place}, 1.2 x 4.8 m\n" for place in PLACES)
    sheet = f"{beds}- material chicken pellets, 4-2-1\n- measure barrow, 85 l\n"
    (folder / "plot.txt").write_text(sheet, encoding="utf-8")
    entries = []
    for _ in range(ENTRIES):
        place, place2 = dice.sample(PLACES, 2)
        crop, crop2 = dice.sample(CROPS, 2)
        words = {"place": place, "place2": place2, "crop": crop, "crop2": crop2}
        words |= {"cultivar": dice.choice(CULTIVARS), "kg": dice.randint(1, 99) / 10}
        words |= {"g": dice.randint(50, 950), "n": dice.randint(9, 60), "rows": dice.randint(2, 9)}
        words["min"] = dice.randint(5, 240)
        entries.append(dice.choice(SHAPES).format_map(words))
    lines = []
    for first in range(0, ENTRIES, A_DAY):
        day = date(2019, 1, 1) + timedelta(days=first // A_DAY)
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


def seconds(run: Callable[[], object], times: int = 3) -> float:
    """The median time of a run."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main() -> None:
    """Writes the diary, times both, prints what came out."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        entries = write_diary(folder)
        marked = marked_entries(folder, entries)
        units = frozenset(unit_table())

        def bare() -> None:
            entry = build_parser("diary.lark", "entry", units, Transformer(), {})
            weather = build_parser("weather.lark", "weather", units, Transformer(), {})
            for text, mark in zip(entries, marked, strict=True):
                (weather if text.startswith("weather") else entry).parse(mark)

        out = folder / "events.csv"
        command = [sys.executable, "-m", "journal", "table", "events", "-d", name]
        command += ["--today", str(TODAY), "--out", str(out)]

        def table() -> None:
            subprocess.run(command, check=True, capture_output=True)

        whole, parse = seconds(table), seconds(bare)
        rows = out.read_text(encoding="utf-8").count("\n") - 1
    print(f"{ENTRIES:,} entries, {len(set(entries)):,} of them different, {rows:,} events")
    print(f"haulm table events  {whole:6.2f} s  (a process of its own, start to file)")
    print(f"bare lark parse     {parse:6.2f} s  (parsers built and run, no tree looked at)")
    print(f"ratio               {whole / parse:6.2f}")


if __name__ == "__main__":
    main()
