"""`haulm season` on the diary of `bench.py`: reading it, telling its last whole year, the page.

Run by `make bench`; prints processor time, since a page and a reading are told apart in one
process, and the size of the page. No test: a measurement.
"""

import tempfile
import time
from pathlib import Path

from bench import ENTRIES, TODAY, write_diary

from journal.diary import read
from journal.report.html import page_of
from journal.report.told import Season, tell

YEAR = 2024
MOST = 4


def main() -> None:
    """Writes the diary, reads it, tells its year, prints what each took."""
    with tempfile.TemporaryDirectory() as name:
        write_diary(Path(name))
        start = time.process_time()
        diary = read(name, TODAY)
        reading = time.process_time() - start
        start = time.process_time()
        page = page_of(diary, tell(diary, Season(YEAR)))
        building = time.process_time() - start
    print(f"{ENTRIES:,} entries")
    print(f"reading             {reading:6.2f} s")
    print(f"season page         {building:6.2f} s, {len(page.encode()) / 1e6:.2f} MB")
    print(f"ratio               {building / reading:6.2f}  (to be at most {MOST})")


if __name__ == "__main__":
    main()
