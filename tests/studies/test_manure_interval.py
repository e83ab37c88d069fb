"""Raw manure to harvest against 7 CFR 205.203(c)(1): 120 days touching the soil, 90 clear of it.

The rule was read at https://tilth.org/help-center/manure/ and
https://fsi.colostate.edu/faq/the-90-120-day-rule/; the worked days count the day of spreading
as day 0.
"""

from datetime import date, timedelta
from typing import Any

import pandas as pd
import pytest
from support.hand_made import diary, happened, picked
from support.written import written

from journal.events.model import GroundChange
from journal.reference.load import Reference
from journal.report.now import glance
from journal.studies.manure_interval import manure_interval, manure_notes, still_waiting
from journal.tables.schema import check_frame


def spread(material: str, when: str | None, until: str | None = None, **columns: Any):
    words = {"material": material, "place": "Long 1"} | columns
    return happened("dressing", "dig in", when, until, **words)


def one_row(*events: dict[str, Any], **of_diary: Any) -> dict[str, Any]:
    frame = manure_interval(diary(list(events), **of_diary))
    check_frame(frame, "manure_interval")
    assert len(frame) == 1
    return dict(frame.iloc[0])


@pytest.mark.parametrize(
    ("crop", "applied", "expected"),
    [
        # Calendar arithmetic on the rule as read: regression cases, not printed anywhere.
        ("carrot", "2026-03-01", "2026-06-29"),
        ("sweetcorn", "2026-03-01", "2026-05-30"),
        ("lettuce", "2027-12-01", "2028-03-30"),  # over 29 February 2028
        ("lettuce", "2026-12-01", "2027-03-31"),  # and over a year without one
    ],
)
def test_the_first_day_of_picking_counts_leap_years_right(crop: str, applied: str, expected: str):
    on_the_day = one_row(spread("horse manure", applied), picked(crop, expected, place="Long 1"))
    day_before = (date.fromisoformat(expected) - timedelta(days=1)).isoformat()
    a_day_early = one_row(spread("horse manure", applied), picked(crop, day_before, place="Long 1"))
    assert on_the_day["allowed_from"] == pd.Timestamp(expected)
    assert on_the_day["days_low"] == on_the_day["days_high"] == on_the_day["needed_days"]
    assert on_the_day["held"] and not a_day_early["held"]


@pytest.mark.parametrize(
    ("crop", "days"),
    [
        # Read as examples: https://blogs.mcall.com/master_gardeners/2009/04/ (strawberry,
        # lettuce, melon; staked tomato and pepper, sweet corn)
        ("strawberry", 120),
        ("lettuce", 120),
        ("melon", 120),
        ("tomato", 90),
        ("pepper", 90),
        ("sweetcorn", 90),
        # follows from the wording: root crops
        ("carrot", 120),
        ("potato", 120),
    ],
)
def test_the_wait_is_that_of_the_edible_part(crop: str, days: int):
    row = one_row(spread("manure", "2026-03-01"), picked(crop, "2026-07-15", place="Long 1"))
    assert row["needed_days"] == days


def test_a_crop_that_nobody_knows_waits_the_longer_time_and_says_so():
    row = one_row(spread("manure", "2026-03-01"), picked("oddity", "2026-07-15", place="Long 1"))
    assert row["needed_days"] == 120
    assert "not known whether" in row["why"]


@pytest.mark.parametrize("material", ["compost", "composted manure", "chicken pellets", "lime"])
def test_what_is_no_raw_manure_has_no_wait(material: str):
    picking = picked("lettuce", "2026-03-20", place="Long 1")
    assert manure_interval(diary([spread(material, "2026-03-01"), picking])).empty


def test_a_name_of_the_sheet_that_means_manure_counts(reference: Reference):
    from journal.events.model import MaterialDeclared

    sheet = {"materials": (MaterialDeclared(None, "material", "muck heap", ("horse manure",)),)}
    lettuce = picked("lettuce", "2026-03-20", place="Long 1")
    assert len(manure_interval(diary([spread("muck heap", "2026-02-01"), lettuce], **sheet))) == 1


def test_an_uncertain_day_leaves_a_range_and_no_verdict():
    # 1 to 31 December to 14 April: 104 to 134 days, on both sides of 120.
    row = one_row(
        spread("manure", "2025-12-01", "2025-12-31"),
        picked("lettuce", "2026-04-14", place="Long 1"),
    )
    assert (row["days_low"], row["days_high"]) == (104, 134)
    assert pd.isna(row["held"]) and row["why"]
    assert row["allowed_from"] == pd.Timestamp("2026-04-30")


def test_spreading_that_went_on_over_days_counts_from_its_last():
    row = one_row(
        spread("manure", "2025-12-01", "2025-12-10", spread=True),
        picked("lettuce", "2026-04-09", place="Long 1"),
    )
    assert (row["days_low"], row["days_high"], row["held"]) == (120, 120, True)


def test_only_the_first_picking_of_a_crop_counts_and_one_before_does_not():
    row = one_row(
        spread("manure", "2026-03-01"),
        picked("lettuce", "2026-02-20", place="Long 1"),
        picked("lettuce", "2026-03-01", place="Long 1"),
        picked("lettuce", "2026-08-01", place="Long 1"),
        picked("lettuce", "2026-07-01", place="Long 1"),
    )
    assert row["harvested"] == pd.Timestamp("2026-07-01")
    assert row["events"] == "1, 5"


def test_a_picking_of_the_next_year_is_none_of_it():
    frame = manure_interval(
        diary([spread("manure", "2023-01-01"), picked("lettuce", "2024-01-02", place="Long 1")])
    )
    assert frame.empty


def test_another_bed_is_none_of_it_but_the_same_ground_under_a_new_name_is():
    sheet = {"changes": (GroundChange(date(2026, 4, 1), "rename", "Long 1", (("Top bed", None),)),)}
    row = one_row(
        spread("manure", "2026-03-01"),
        picked("lettuce", "2026-05-01", place="Long 2"),
        picked("lettuce", "2026-06-01", place="Top bed"),
        **sheet,
    )
    assert (row["place"], row["days_low"]) == ("Top bed", 92)


def test_ground_that_waits_is_shown_until_the_wait_is_over():
    # 120 days from 1 December 2025 end on 31 March 2026.
    put = spread("manure", "2025-12-01")
    row = one_row(put, today=date(2026, 3, 30))
    assert row["crop"] == "" and row["allowed_from"] == pd.Timestamp("2026-03-31")
    assert pd.isna(row["held"])
    assert manure_interval(diary([put], today=date(2026, 3, 31))).empty


def test_manure_without_a_place_is_told_and_not_counted():
    own = diary([spread("manure", "2026-03-01", place=""), picked("lettuce", "2026-04-01")])
    assert manure_interval(own).empty
    assert [str(note) for note in manure_notes(own)] == ["manure: not written where it went"]


@pytest.mark.parametrize(
    ("kind", "verb"),
    [
        ("dressing", "spread"),
        ("planting", "plant"),  # plant potato in Long 1 with 3 barrows horse manure
        ("sowing", "sow"),
        ("job", "dig"),  # dig 3 barrows horse manure into Long 1
        ("job", "fork"),
        ("feed", "feed"),
    ],
)
def test_manure_counts_by_whichever_verb_it_reached_the_ground(kind: str, verb: str):
    put = happened(kind, verb, "2026-03-01", material="horse manure", place="Long 1", crop="potato")
    row = one_row(put, picked("potato", "2026-06-28", place="Long 1"))
    # 30 days to the end of March, 30, 31 and 28: 119
    assert (row["days_low"], bool(row["held"])) == (119, False)


@pytest.mark.parametrize(
    ("kind", "verb", "columns"),
    [
        ("job", "fetch", {}),
        ("heap", "fill", {}),
        ("purchase", "buy", {}),
        ("sowing", "sow", {"vessel": "modules"}),
    ],
)
def test_manure_that_reached_no_ground_has_no_wait(kind: str, verb: str, columns: dict[str, str]):
    put = happened(kind, verb, "2026-03-01", material="manure", place="Long 1", **columns)
    own = diary([put, picked("lettuce", "2026-04-01", place="Long 1")])
    assert manure_interval(own).empty


def heap(verb: str, when: str, **columns: Any) -> dict[str, Any]:
    return happened("heap", verb, when, **columns)


def test_compost_of_a_heap_that_held_manure_is_told():
    taken = happened(
        "dressing", "spread", "2026-02-01", material="compost", place="Long 1", place_from="Bay B"
    )
    moved = heap("move", "2025-10-01", material="compost", place="Bay B", place_from="Bay A")
    emptied = heap("empty", "2025-12-01", place="Bay B")
    filled = heap("fill", "2025-06-01", material="horse manure", place="Bay A")
    leaves = heap("fill", "2025-06-01", material="leaves", place="Bay A")
    # 7 CFR 205.203(c)(2): compost with manure needs its heat to have been kept
    (note,) = manure_notes(diary([filled, moved, taken]))
    assert str(note).startswith("compost on Long 1: manure went into that heap")
    assert note.year == 2026
    assert manure_notes(diary([leaves, moved, taken])) == []
    assert manure_notes(diary([filled, moved, emptied, taken])) == []


BEDS = "- bed Alder, 10 m2\n- bed Birch, 6 m2\n"
MANURED = """\
2026-03-01
- spread 3 barrows horse manure on Alder
- spread 3 barrows horse manure on Birch
- spread 3 barrows compost on Birch

2026-04-20
- plant 10 lettuce in Alder
- plant 10 sweetcorn in Alder
"""


@pytest.mark.parametrize(
    ("today", "waiting"),
    [
        # 90 days from 1 March 2026 end on 30 May, 120 on 29 June
        (date(2026, 5, 29), ["lettuce", "sweetcorn"]),
        (date(2026, 5, 30), ["lettuce"]),
        (date(2026, 6, 28), ["lettuce"]),
        (date(2026, 6, 29), []),
    ],
)
def test_what_stands_on_raw_manure_waits_as_its_edible_part_asks(today: date, waiting: list[str]):
    frame = still_waiting(written(MANURED, today, BEDS))
    assert frame["crop"].tolist() == waiting
    assert set(frame["place"]) <= {"Alder"}


def test_haulm_now_says_what_stands_on_raw_manure_with_its_caution():
    found = {group.key: group for group in glance(written(MANURED, date(2026, 6, 1), BEDS)).groups}
    (line,) = found["on_manure"].lines
    assert line.subject == "lettuce · Alder"
    assert line.says == "horse manure on 1 March; 120 days end on 29 June"
    assert "local rules" in found["on_manure"].aside
    later = glance(written(MANURED, date(2026, 7, 1), BEDS))
    assert not [group for group in later.groups if group.key == "on_manure" and group.lines]
