"""Coverage-guided fuzzing of everything that reads: pages, plot sheets, met files and questions.

Run it in an environment of its own, since atheris is no dependency:

    python3.11 -m venv /tmp/fuzz && /tmp/fuzz/bin/pip install . atheris
    PYTHONPATH=.:tests /tmp/fuzz/bin/python tests/support/fuzz.py FOLDER -max_total_time=1800

FOLDER is made and holds `seeds/` (from the corpus and the sample, made when missing), `grown/`
(what atheris adds) and `finds/`: an input and its story for every broken promise, one for each
place where it breaks, so that a run goes on after a find. Flags after FOLDER are libFuzzer's own.
`fuzz.py FOLDER FILE ...` tries single inputs. An input's first letter says what the rest is.
"""

import hashlib
import sys
import tempfile
import traceback
import zlib
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from time import process_time

try:
    import atheris
except ImportError:
    sys.exit("atheris is not here; the head of this file says how to run it")

CHECKOUT = Path(__file__).parent.parent.parent
TODAY = date(2026, 11, 25)
SECONDS = 5.0
# one input in so many is made into tables, and one through every study: they take the most time
TABLED = 50
STUDIED = 3000
MET_SHEET = "- plot Rise, latitude 53.8, dates day first, units metric\n- met file met.csv{}\n"
MET_WAYS = (
    "",
    ", temperatures F, rain inch",
    ", t_max from 2, rain from Rain mm",
    ", wind km/h, wind at 2 m",
)

# Only what reads is watched for new ways through it; the studies run at full speed.
with atheris.instrument_imports(include=["journal"]):
    from journal.reading import read_folder

from journal.diary import Diary  # noqa: E402
from journal.studies.catalog import STUDIES  # noqa: E402
from journal.tables.files import to_csv  # noqa: E402
from journal.tables.schema import DIARY_TABLES  # noqa: E402

with atheris.instrument_imports(include=["journal"]):
    from journal.questions.answer import ask

from support.corpus import read_corpus  # noqa: E402
from support.invariants import reading_faults  # noqa: E402
from support.strategies import SHEET  # noqa: E402


class BrokenPromiseError(AssertionError):
    """What came out is not what must hold of every reading."""


def read_files(files: dict[str, bytes], scratch: Path, lot: int) -> None:
    """Reads a folder of these files and holds the reading to its promises; `lot` says how far."""
    for old in scratch.iterdir():
        old.unlink()
    for name, content in files.items():
        (scratch / name).write_bytes(content)
    reading = read_folder(scratch, TODAY)
    for fault in reading_faults(reading):
        raise BrokenPromiseError(fault.partition(":")[0])
    diary = Diary(reading, TODAY)
    if lot % TABLED == 0:
        for name in DIARY_TABLES:
            to_csv(getattr(diary, name), name)
    if lot % STUDIED == 0:
        for name, study in STUDIES.items():
            to_csv(study(diary), name)


class Target:
    """Tries one input after another and keeps what breaks."""

    def __init__(self, home: Path, scratch: Path) -> None:
        self.finds = home / "finds"
        self.scratch = scratch
        self.sample = Diary(read_folder(CHECKOUT / "sample_journal", TODAY), TODAY)
        self.tried = 0

    def __call__(self, content: bytes) -> None:
        self.tried += 1
        began = process_time()
        try:
            self.read(content)
            if process_time() - began > SECONDS + len(content) / 1000:
                raise BrokenPromiseError("a short text takes a short time")
        except Exception as found:
            self.keep(content, found)

    def read(self, content: bytes) -> None:
        kind, rest = content[:1], content[1:]
        lot = zlib.crc32(content)
        if kind == b"q":
            answer = ask(self.sample, rest.decode("utf-8", "replace"))
            if not answer.answer:
                raise BrokenPromiseError("an answer or a refusal says something")
        elif kind == b"m":
            way, _, rows = rest.partition(b"\n")
            sheet = MET_SHEET.format(MET_WAYS[len(way) % len(MET_WAYS)])
            read_files({"plot.txt": sheet.encode(), "met.csv": rows}, self.scratch, lot)
        elif kind == b"s":
            read_files({"plot.txt": rest}, self.scratch, lot)
        else:
            files = {"plot.txt": SHEET.encode(), "page.txt": rest}
            read_files(files, self.scratch, lot)

    def keep(self, content: bytes, found: Exception) -> None:
        """Writes the input down unless one that broke at the same place is there and shorter."""
        frames = [
            f"{Path(frame.filename).name}:{frame.lineno}"
            for frame in traceback.extract_tb(found.__traceback__)
            if "/journal/" in frame.filename
        ]
        place = f"{type(found).__name__} {frames[-2:]} {str(found) if not frames else ''}"
        name = hashlib.sha1(place.encode()).hexdigest()[:10]
        kept = self.finds / name
        if kept.exists() and len(kept.read_bytes()) <= len(content):
            return
        kept.write_bytes(content)
        story = "".join(traceback.format_exception(found))
        kept.with_suffix(".story").write_text(f"{place}\n{story}", encoding="utf-8")
        print(f"FIND {name} {place}", file=sys.stderr, flush=True)


def seeds() -> Iterator[bytes]:
    """Inputs to begin with: each corpus case, pieces of the sample, questions, met files."""
    for file in sorted((CHECKOUT / "tests" / "corpus").glob("*.md")):
        for case in read_corpus(file):
            if "diary" in case.blocks:
                yield b"p" + case.blocks["diary"].text.encode()
                yield b"s" + case.blocks["diary"].text.encode()
            yield from (
                b"p" + f"# 2026\n\n{row.written}\n- see rain\n".encode() for row in case.days
            )
    for file in sorted((CHECKOUT / "sample_journal").rglob("*")):
        if file.suffix in {".md", ".txt"}:
            for paragraph in file.read_bytes().split(b"\n\n")[::6]:
                yield b"p" + paragraph + b"\n"
    yield b"s" + (CHECKOUT / "sample_journal" / "plot.txt").read_bytes()
    for name in ("corpus.tsv", "fresh.tsv", "refusals.tsv"):
        rows = (CHECKOUT / "tests" / "questions" / name).read_bytes().split(b"\n")[1::3]
        for row in rows:
            yield b"q" + max(row.split(b"\t"), key=len)
    yield from (b"m" + b"x" * n + b"\n" + text for n in range(4) for text in _met_texts())


def _met_texts() -> Iterator[bytes]:
    station = (CHECKOUT / "sample_journal" / "ferry_pier.csv").read_bytes().split(b"\n")
    yield b"\n".join(station[:12])
    yield b"Date;Max temp (C);Min;Rain mm\n01/03/2026;12,5;3,1;0,2\n02/03/2026;;;tr\n"
    yield b'STATION,DATE,TMAX,TMAX_ATTRIBUTES,PRCP\nUSW00024233,2025-01-01,89,",,W",0\n'
    yield b"USW00024233,20250101,PRCP,25,,,W,2400\nUSW00024233,20250101,TMAX,89,,I,W,\n"
    yield b"USW00024233202501TMAX" + b"   89  W" * 31 + b"\n"
    yield b"year,month,day,tmax,wind speed (mph),sunshine\n2026,3,1,54F,12,3.5\n"


def main() -> None:
    """Makes the folder ready and fuzzes, or tries the files named."""
    home, *words = [Path(word) if not word.startswith("-") else word for word in sys.argv[1:]]
    for name in ("seeds", "grown", "finds"):
        (home / name).mkdir(parents=True, exist_ok=True)
    single = [word for word in words if isinstance(word, Path)]
    memory = "/dev/shm" if Path("/dev/shm").is_dir() else None
    with tempfile.TemporaryDirectory(dir=memory) as scratch:
        target = Target(home, Path(scratch))
        for file in single:
            target.read(file.read_bytes())
            print(f"{file}: all holds")
        if single:
            return
        for content in seeds():
            (home / "seeds" / hashlib.sha1(content).hexdigest()[:16]).write_bytes(content)
        flags = ["-timeout=120", "-max_len=4000", *words]
        atheris.Setup([sys.argv[0], *flags, str(home / "grown"), str(home / "seeds")], target)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
