"""Which sections a year has, and what its pages do not tell."""

from datetime import date
from typing import get_args

import pytest
from support.garden import garden
from support.hand_made import diary, happened, picked

from journal.report.gaps import LACKS, MOST_SUBJECTS, Gap, season_gaps
from journal.report.sections import COMPARING, OF_A_PART, SECTIONS, season_sections
from journal.studies.notes import Lack


def names(sections: list) -> list[str]:
    return [section.name for section in sections]


def test_a_year_with_everything_has_every_section_in_order() -> None:
    sections = season_sections(garden(), 2025)
    assert names(sections) == [
        "beds",
        "labour",
        "harvest",
        "cumulative",
        "verdicts",
        "books",
        "lives",
        "calendar",
        "years",
        "usual-days",
        "ground",
    ]
    for section in sections:
        assert section.words
        assert section.chart is not None or section.tables or section.plot is not None


def test_no_section_stands_twice_and_each_comparing_one_is_in_the_order() -> None:
    assert len(set(SECTIONS)) == len(SECTIONS)
    assert {*COMPARING, *OF_A_PART} <= set(SECTIONS)


@pytest.mark.parametrize(
    ("events", "expected"),
    [
        ([picked("kale", "2025-01-01", 1.0)], ["harvest", "cumulative"]),
        ([happened("job", "weed", "2025-01-01", minutes=5.0)], ["labour"]),
        ([happened("sighting", "see", "2025-01-01")], []),
        ([picked("kale", "2024-01-01", 1.0), happened("job", "weed", "2025-01-01")], []),
        (
            [picked("kale", "2024-01-01", 1.0), picked("kale", "2025-01-01", 1.0)],
            ["harvest", "cumulative", "years"],
        ),
    ],
)
def test_a_section_is_there_only_when_the_year_holds_something(
    events: list, expected: list[str]
) -> None:
    assert names(season_sections(diary(events), 2025)) == expected


def test_an_open_year_says_that_it_is_open() -> None:
    events = [picked("kale", "2025-01-01", 1.0), picked("kale", "2026-01-01", 1.0)]
    (*_, beside) = season_sections(diary(events, today=date(2026, 3, 1)), 2026)
    assert "The year is open" in beside.words
    (*_, beside) = season_sections(diary(events, today=date(2027, 3, 1)), 2026)
    assert "The year is open" not in beside.words


def test_what_is_not_told_stands_by_kind_with_the_most_first() -> None:
    events = [
        picked("kale", "2025-01-01", place="A"),
        picked("leek", "2025-01-01", place="B"),
        *(picked("chard", "2025-02-01", place="C") for _ in range(11)),
        picked("chard", "2024-02-01", place="C"),
        happened("job", "weed", "2025-01-01"),
    ]
    assert season_gaps(diary(events), 2025) == [
        Gap(
            "Not weighed",
            (
                "11 pickings not weighed: chard from C",
                "1 picking not weighed: kale from A; leek from B",
            ),
        ),
        Gap("Not timed", ("1 job not timed: weed",)),
        Gap(
            "Ground not known, so no weight per m²",
            (
                "No rows or spacing written, and the bed has no size on the sheet: "
                "chard from C; kale from A; leek from B",
            ),
        ),
        Gap(
            "Does not fit the sowings, plantings and counts written",
            ("None of it stood there: pick chard from C; pick kale from A; pick leek from B",),
        ),
    ]


def test_what_has_no_certain_year_is_told_in_every_year() -> None:
    events = [picked("kale", "2025-12-28", 1.0, until="2026-01-03")]
    titles = [gap.title for gap in season_gaps(diary(events), 2019)]
    assert "Day not certain" in titles


def test_everything_that_a_study_can_lack_has_a_title() -> None:
    assert set(LACKS) == set(get_args(Lack))
    assert len(set(LACKS.values())) == len(LACKS)


def test_a_long_list_of_one_reason_is_cut_and_counted() -> None:
    events = [
        picked(f"crop {at:02}", "2025-01-01", 1.0, place="A") for at in range(MOST_SUBJECTS + 5)
    ]
    (ground,) = (g for g in season_gaps(diary(events), 2025) if g.title.startswith("Ground"))
    assert ground.notes[0].endswith("crop 19 from A; and 5 more")


def test_only_some_sections_go_on_the_wall() -> None:
    pinned = [section.name for section in season_sections(garden(), 2025) if section.on_the_wall]
    assert pinned == ["beds", "verdicts", "calendar", "ground"]


@pytest.mark.parametrize(
    ("event", "section", "words"),
    [
        (
            happened("treatment", "treat", "2025-05-01", material="soap", minutes=5.0),
            "labour",
            "Sprays",
        ),
        (happened("job", "job", "2025-06-01", task="cut the hedge", minutes=5.0), "labour", "Look"),
        (picked("potato", "2025-08-01", 1.0, remark="some green"), "harvest", "Green potatoes"),
        (happened("job", "dig", "2025-06-01", minutes=5.0), "labour", ""),
        (picked("potato", "2025-08-01", 1.0), "harvest", ""),
        (picked("pea", "2025-08-01", 1.0, remark="still green"), "harvest", ""),
    ],
)
def test_a_caution_stands_where_it_belongs_and_nowhere_else(
    event: dict, section: str, words: str
) -> None:
    sections = season_sections(diary([event]), 2025)
    found = {each.name: each.caution for each in sections if each.caution}
    assert list(found) == ([section] if words else [])
    assert found.get(section, "").startswith(words)
