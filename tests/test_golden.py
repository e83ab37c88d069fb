"""The contract's tables and studies of two diaries, held to the text that they gave when last read.

A golden file that only our own code has produced proves stability, not truth: the truth of each
figure is checked in tests/studies and tests/external. `--update-corpus` writes the files anew and
fails the run, so that the difference is read before it counts.
"""

from datetime import date
from pathlib import Path

import pandas as pd
import pytest

from journal import Diary, read
from journal.studies.catalog import STUDIES
from journal.tables.files import file_name, to_csv

GOLDEN = Path(__file__).parent / "golden"
CHECKOUT = Path(__file__).parent.parent
TABLES = ("events", "weather", "places", "crops", "materials", "prices", "prose", "problems")
CONTRACT = ("harvest", "labour", "labour worth", "years", "climate", "plants", "standing")
SEASON = ("beds", "beside", "cumulative", "occupancy", "plan", "verdicts")
CASES = {
    "sample": (CHECKOUT / "sample_journal", date(2026, 3, 1)),
    "mill_reach": (GOLDEN / "mill_reach" / "diary", date(2025, 10, 1)),
    # what its files hold is worked out by hand in worked.md beside them
    "two_beds": (GOLDEN / "two_beds" / "diary", date(2026, 3, 1)),
}
HELD = {
    "sample": (*TABLES, *CONTRACT),
    "mill_reach": (*TABLES, *CONTRACT),
    "two_beds": SEASON,
}


@pytest.fixture(scope="module")
def diaries() -> dict[str, Diary]:
    return {case: read(path, today=today) for case, (path, today) in CASES.items()}


def frame_of(diary: Diary, name: str) -> pd.DataFrame:
    return STUDIES[name](diary) if name in STUDIES else getattr(diary, name)


@pytest.mark.parametrize(
    ("case", "name"), [(case, name) for case, names in HELD.items() for name in names]
)
def test_a_table_reads_as_it_did(
    case: str, name: str, diaries: dict[str, Diary], request: pytest.FixtureRequest
):
    file = GOLDEN / case / f"{file_name(name)}.csv"
    found = to_csv(frame_of(diaries[case], name), name).decode("utf-8")
    if request.config.getoption("--update-corpus") and (
        not file.exists() or file.read_text(encoding="utf-8") != found
    ):
        file.write_bytes(found.encode("utf-8"))
        pytest.fail(f"rewritten: {file.name}; read the difference before it counts")
    assert found == file.read_text(encoding="utf-8")


def test_no_golden_file_stands_for_a_table_that_is_gone():
    for case, held in HELD.items():
        names = {f"{file_name(name)}.csv" for name in held}
        assert {file.name for file in (GOLDEN / case).glob("*.csv")} == names
