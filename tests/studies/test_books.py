"""The diary beside the books: its own figures worked by hand, the published ones by source."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened, picked

from journal.studies.books import books, books_notes
from journal.tables.schema import check_frame

LONG_2 = {"place": "Long 2"}


def sown(crop: str, when: str, **columns: Any) -> dict[str, Any]:
    return happened("sowing", "sow", when, **({"crop": crop} | LONG_2 | columns))


def rows_of(*events: dict[str, Any], measure: str, **of_diary: Any) -> list[dict[str, Any]]:
    frame = books(diary(list(events), **of_diary))
    check_frame(frame, "books")
    return [dict(row) for _, row in frame[frame["measure"] == measure].iterrows()]


def test_a_yield_a_metre_stands_beside_every_source_that_counts_by_the_row():
    # 9 kg from 12 m of row are 0.75 kg a m. Kansas State University MF-315 and the University of
    # Maine both print about 1.49 kg a m for carrots (100 lb in 100 ft, 10 lb in 10 ft).
    rows = rows_of(
        sown("carrot", "2025-04-01", length_m=12.0, row_spacing_m=0.3),
        picked("carrot", "2025-08-01", 9.0, **LONG_2),
        measure="yield",
    )
    by_row = [row for row in rows if row["unit"] == "kg per m"]
    assert {row["source"].split(",")[0] for row in by_row} == {
        "Kansas State University MF-315",
        "University of Maine Extension",
    }
    for row in by_row:
        assert row["value"] == pytest.approx(0.75)
        assert row["published_low"] == pytest.approx(1.49, abs=0.005)
    assert by_row[0]["events"] == "2" and by_row[0]["year"] == 2025


def test_sources_that_differ_on_peas_stand_in_rows_of_their_own():
    # 20 lb in 100 ft (Kansas) against 10 lb in 10 ft (Maine)
    rows = rows_of(
        sown("pea", "2025-04-01", length_m=5.0),
        picked("pea", "2025-07-01", 4.0, **LONG_2),
        measure="yield",
    )
    assert [row["printed"] for row in rows if row["unit"] == "kg per m"] == [
        "20 lb/100 ft row",
        "10 lb/10 ft row",
    ]


def test_a_yield_a_square_metre_and_a_plant():
    # 12 kg of garlic from a bed of 6 m2 alone that year: 2 kg a m2
    garlic = rows_of(
        happened("planting", "plant", "2024-10-01", crop="garlic", place="Long 1"),
        picked("garlic", "2025-07-01", 12.0, place="Long 1"),
        measure="yield",
        places=(bed("Long 1", 6.0),),
    )
    assert [row["value"] for row in garlic if row["unit"] == "kg per m2"] == [pytest.approx(2)]
    # 24 kg of tomatoes from 6 plants: 4 kg a plant, beside Maine's 8 lb
    tomato = rows_of(
        happened("planting", "plant", "2025-05-01", crop="tomato", count=6.0, place="Long 1"),
        picked("tomato", "2025-08-01", 24.0, place="Long 1"),
        measure="yield",
    )
    (row,) = [row for row in tomato if row["unit"] == "kg per plant"]
    assert (row["value"], row["printed"]) == (pytest.approx(4), "8 lb/plant")


def test_pickings_that_were_not_weighed_leave_at_least_so_much():
    rows = rows_of(
        sown("carrot", "2025-04-01", length_m=12.0),
        picked("carrot", "2025-08-01", 9.0, **LONG_2),
        picked("carrot", "2025-08-08", **LONG_2),
        measure="yield",
    )
    assert rows[0]["why"] == "at least: 1 picking not weighed"


def test_an_open_year_says_that_it_is_not_over():
    rows = rows_of(
        sown("carrot", "2025-04-01", length_m=12.0),
        picked("carrot", "2025-08-01", 9.0, **LONG_2),
        measure="yield",
        today=date(2025, 9, 1),
    )
    assert rows[0]["why"] == "the year is not over"


def test_days_from_sowing_are_the_median_of_the_batches_of_a_year():
    # 90, 100 and 140 days; North Dakota State University H-912 prints 60 to 85 from sowing
    events: list[dict[str, Any]] = []
    for label, days in (("first", 90), ("second", 100), ("third", 140)):
        when = pd.Timestamp("2025-03-01") + pd.Timedelta(days=days)
        events += [
            sown("carrot", "2025-03-01", label=label),
            picked("carrot", f"{when:%Y-%m-%d}", 1.0, label=label, **LONG_2),
        ]
    (row,) = rows_of(*events, measure="days to harvest")
    assert (row["value"], row["value_low"], row["value_high"]) == (100, 90, 140)
    assert (row["published_low"], row["published_high"]) == (60, 85)
    assert row["what"] == "sowing to harvest" and "North Dakota" in row["source"]
    assert row["of"] == 3 and row["events"] == "1, 3, 5"


def test_a_planted_crop_counts_from_planting_and_a_raised_one_from_planting_out():
    potato = rows_of(
        happened("planting", "plant", "2025-04-01", crop="potato", **LONG_2),
        picked("potato", "2025-07-10", 5.0, **LONG_2),
        measure="days to harvest",
    )
    assert {row["what"] for row in potato} == {"planting to harvest"}
    assert {row["value"] for row in potato} == {100.0}
    tomato = rows_of(
        sown("tomato", "2025-03-01", place="Tunnel"),
        happened("planting", "plant out", "2025-05-20", crop="tomato", place="Long 2"),
        picked("tomato", "2025-07-29", 1.0, **LONG_2),
        measure="days to harvest",
    )
    spans = {row["what"]: row["value"] for row in tomato}
    assert spans["transplanting to harvest"] == 70


def test_per_cent_up_stands_beside_the_least_that_seed_law_allows():
    # US 7 CFR 201.31: leek 60 per cent, in a laboratory
    rows = rows_of(
        sown("leek", "2025-03-01", count=40.0),
        happened("raising", "up", "2025-03-20", crop="leek", count=30.0, **LONG_2),
        measure="per cent up",
    )
    (row,) = [row for row in rows if row["source"] == "US 7 CFR 201.31"]
    assert (row["value"], row["published_low"]) == (pytest.approx(75), 60)
    assert "laboratory" in row["why"]


def test_nothing_says_whether_a_figure_is_good_or_bad():
    frame = books(diary([sown("carrot", "2025-04-01"), picked("carrot", "2025-08-01", 1.0)]))
    assert not {"better", "worse", "verdict", "score"} & set(frame.columns)


def test_a_crop_that_no_source_names_has_no_row_and_is_told():
    own = diary([sown("mizuna", "2025-04-01", length_m=4.0), picked("mizuna", "2025-08-01", 1.0)])
    assert books(own).empty
    assert [str(note) for note in books_notes(own)] == ["mizuna: no published yield"]


def test_a_diary_without_plants_has_no_rows():
    assert books(diary([])).empty
