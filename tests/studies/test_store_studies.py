"""Every study of ground and stores keeps to its table, whatever the diary, and changes nothing."""

from datetime import date

import pandas as pd
import pytest
from support.full_diary import full_diary
from support.hand_made import diary, happened

from journal.diary import Diary
from journal.reading import Reading
from journal.studies.catalog import NOTES, STUDIES
from journal.tables.schema import check_frame
from journal.tables.store_columns import STORE_TABLES

MINE = [table.name for table in STORE_TABLES]
SAMPLE_DAY = date(2026, 3, 1)
UNDATED = [
    happened(kind, verb, None, place="Long 1", crop="leek", material="horse manure", cost=1.0)
    for kind, verb in (
        ("sowing", "sow"),
        ("planting", "plant"),
        ("harvest", "pick"),
        ("feed", "feed"),
        ("dressing", "spread"),
        ("heap", "fill"),
        ("structure", "fit"),
        ("purchase", "buy"),
    )
]


def test_every_table_of_the_stores_is_a_study_that_can_be_printed():
    assert set(MINE) <= set(STUDIES)


@pytest.fixture(scope="module")
def sample_diary(sample: Reading) -> Diary:
    return Diary(sample, SAMPLE_DAY)


@pytest.mark.parametrize("name", MINE)
def test_a_study_of_the_sample_keeps_to_its_table_and_is_not_empty(name: str, sample_diary: Diary):
    frame = STUDIES[name](sample_diary)
    check_frame(frame, name)
    assert len(frame)


@pytest.mark.parametrize("name", MINE)
@pytest.mark.parametrize(
    "one", [diary([]), diary(UNDATED), full_diary()], ids=["empty", "undated", "full"]
)
def test_a_study_of_a_strange_diary_keeps_to_its_table(name: str, one: Diary):
    check_frame(STUDIES[name](one), name)


@pytest.mark.parametrize("name", MINE)
def test_a_study_comes_out_the_same_twice(name: str, sample: Reading):
    once, again = (STUDIES[name](Diary(sample, SAMPLE_DAY)) for _ in range(2))
    pd.testing.assert_frame_equal(once, again)


@pytest.mark.parametrize("name", [name for name in MINE if name in NOTES])
def test_a_note_says_what_is_blank_and_why(name: str, sample_diary: Diary):
    for note in NOTES[name](sample_diary):
        assert note.study == name and note.subject and note.reason
        assert not note.reason.endswith(".")


@pytest.mark.parametrize("name", MINE)
def test_the_evidence_is_events_of_the_diary(name: str, sample_diary: Diary):
    frame = STUDIES[name](sample_diary)
    known = set(sample_diary.events["event"])
    column = next((name for name in ("events", "event") if name in frame.columns), None)
    if column is None:
        assert name == "money years"  # a sum of two studies that have theirs
        return
    told = [word for words in frame[column].astype("string") for word in words.split(", ") if word]
    assert told and {int(word) for word in told} <= known
