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
CASES = {
    "sample": (CHECKOUT / "sample_journal", date(2026, 3, 1)),
    "mill_reach": (GOLDEN / "mill_reach" / "diary", date(2025, 10, 1)),
}


@pytest.fixture(scope="module")
def diaries() -> dict[str, Diary]:
    return {case: read(path, today=today) for case, (path, today) in CASES.items()}


def frame_of(diary: Diary, name: str) -> pd.DataFrame:
    return STUDIES[name](diary) if name in STUDIES else getattr(diary, name)


@pytest.mark.parametrize("name", [*TABLES, *CONTRACT])
@pytest.mark.parametrize("case", CASES)
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
    names = {f"{file_name(name)}.csv" for name in (*TABLES, *CONTRACT)}
    for case in CASES:
        assert {file.name for file in (GOLDEN / case).glob("*.csv")} == names
