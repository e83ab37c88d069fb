"""Every study of diaries that say very little, or odd things, keeps to its columns."""

from datetime import date

import pytest
from support.written import written

from journal.diary import Diary
from journal.studies.catalog import NOTES, STUDIES
from journal.tables.schema import check_frame

# each verb with as little behind it as it takes, and what no one would write twice
BARE = """\
2026-05-01
- sow carrot
- sow 0 bean in A
- plant potato in A
- up 0 of 20 cabbage in A
- feed
- feed carrot
- water A
- buy seed
- buy net 5 EUR
- fit net
- replace net
- fill B
- level B
- probe B
- turn B
- move B to C
- dig in horse manure
- spread compost from B
- pick carrot
- lose carrot
- count 3 carrot
- clear A
- plan sow pea
- rain 3 mm
- weather frost
- level T
- take down net
- weed 1h
- treat carrot
- sell 1 kg potato 2 EUR
"""
BARE_SHEET = "- bed A\n- bay B\n- bay C\n- pot P\n- tank T\n"

# south of the equator, a leap day, a bed that shrank, two currencies, days that are not certain
ODD = """\
2023-12-01
- dig in 30 kg horse manure in A
2024-02-29
- spread 30 kg horse manure on A
- pick 2 lettuce from A
Spring 2024
- sow carrot in C
about 1 September 2024
- plant 10 potato in A
- sow oca in B
2024-12-20
- pick 3 kg potato from A
31 December 2024 to 2 January 2025
- buy compost £6
- rain 12 mm
2025-02-01
- spread 200 l compost from Heap on A
- fill Heap with 100 l grass clippings
- fit boards on A $50
2025-06-10
- clear potato from C
- count 30 potato in A
- water A 20 l from Butt
"""
ODD_SHEET = """\
- plot Edge, latitude -41.3, currency NZD, nitrate zone
- bed A, 1.2 x 5 m, soil sandy loam
- bed B, 6 m2, soil clay loam
- bed C
- bay Heap, 2 x 1 x 1.5 m
- tank Butt, 200 l
- roof Shed, 12 m2, to Butt
- worth potato, $2 per kg

2025-01-01
- bed A, 1.2 x 2.5 m
"""


@pytest.fixture(scope="module")
def diaries() -> dict[str, Diary]:
    return {
        "bare": written(BARE, date(2026, 6, 1), BARE_SHEET),
        "odd": written(ODD, date(2026, 2, 28), ODD_SHEET),
        "before its first day": written(ODD, date(2023, 1, 1), ODD_SHEET),
        "empty": written("", date(2026, 6, 1), ""),
    }


CASES = ("bare", "odd", "before its first day", "empty")


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("study", STUDIES)
def test_its_columns_are_as_said(diaries: dict[str, Diary], case: str, study: str):
    check_frame(STUDIES[study](diaries[case]), study)


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("study", NOTES)
def test_its_notes_are_told(diaries: dict[str, Diary], case: str, study: str):
    for note in NOTES[study](diaries[case]):
        assert note.reason and not str(note).startswith(":")
