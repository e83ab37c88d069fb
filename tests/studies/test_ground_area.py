"""From which ground a crop was picked, and when the diary does not tell."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened, picked

from journal.events.model import GroundChange
from journal.studies.harvest import harvest, harvest_notes

WIDE = {"spacing_m": 0.5, "row_spacing_m": 0.5}


def planted(crop: str, when: str, **columns: Any) -> dict[str, Any]:
    return happened(
        "planting", "plant", when, crop=crop, place=columns.pop("place", "A"), **columns
    )


def area(events: list[dict[str, Any]], year: int = 2025, crop: str = "leek", **more: Any) -> Any:
    frame = harvest(diary(events, more.pop("places", ()), **more))
    rows = frame[(frame["year"] == year) & (frame["crop"] == crop)]
    assert len(rows) == 1
    return rows["area_m2"].iloc[0]


def reasons(events: list[dict[str, Any]], **more: Any) -> list[str]:
    notes = harvest_notes(diary(events, more.pop("places", ())))
    return [note.reason for note in notes if note.lack == "ground"]


def test_plants_without_a_row_spacing_stand_on_squares() -> None:
    # 10 plants 30 cm apart: 10 x 0.3 x 0.3 = 0.9 m2
    events = [
        planted("leek", "2025-05-01", count=10.0, spacing_m=0.3),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(0.9)


def test_successive_plantings_of_a_year_add_up() -> None:
    events = [
        planted("leek", "2025-05-01", count=10.0, **WIDE),
        planted("leek", "2025-06-01", count=6.0, **WIDE),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(16 * 0.25)


def test_one_planting_without_a_spacing_leaves_the_sum_blank() -> None:
    events = [
        planted("leek", "2025-05-01", count=10.0, **WIDE),
        planted("leek", "2025-06-01", count=6.0),
        planted("kale", "2025-06-01", count=6.0),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert pd.isna(area(events, places=[bed("A", 5.0)]))


def test_what_was_sown_in_autumn_is_picked_next_year() -> None:
    events = [
        planted("garlic", "2024-10-20", count=40.0, spacing_m=0.15, row_spacing_m=0.3),
        picked("garlic", "2025-07-10", 2.0, place="A"),
        planted("garlic", "2025-10-15", count=99.0, spacing_m=0.15, row_spacing_m=0.3),
    ]
    assert area(events, crop="garlic") == pytest.approx(40 * 0.045)


def test_autumn_and_spring_sowings_of_one_crop_add_up() -> None:
    events = [
        planted("broad bean", "2024-11-05", count=20.0, **WIDE),
        planted("broad bean", "2025-03-05", count=10.0, **WIDE),
        picked("broad bean", "2025-06-10", 2.0, place="A"),
    ]
    assert area(events, crop="broad bean") == pytest.approx(30 * 0.25)


def test_last_years_plants_do_not_count_when_they_were_picked_and_new_ones_planted() -> None:
    events = [
        planted("leek", "2024-05-01", count=10.0, **WIDE),
        picked("leek", "2024-09-01", 1.0, place="A"),
        planted("leek", "2025-05-01", count=8.0, **WIDE),
        picked("leek", "2025-09-01", 1.0, place="A"),
    ]
    assert area(events, 2024) == pytest.approx(2.5)
    assert area(events, 2025) == pytest.approx(2.0)


def test_plants_that_stood_over_the_winter_are_picked_before_new_ones() -> None:
    events = [
        planted("leek", "2024-05-01", count=10.0, **WIDE),
        picked("leek", "2025-02-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(2.5)


def test_what_was_cleared_before_the_first_picking_does_not_count() -> None:
    events = [
        planted("leek", "2025-03-01", count=10.0, **WIDE),
        happened("end", "clear", "2025-04-01", place="A"),
        planted("leek", "2025-05-01", count=8.0, **WIDE),
        picked("leek", "2025-09-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(2.0)


def test_clearing_another_crop_of_the_bed_changes_nothing() -> None:
    events = [
        planted("leek", "2025-03-01", count=10.0, **WIDE),
        happened("end", "clear", "2025-04-01", crop="kale", place="A"),
        picked("leek", "2025-09-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(2.5)


def test_a_perennial_is_picked_from_plants_of_any_year() -> None:
    # asparagus is a perennial of the reference tables
    events = [
        planted("asparagus", "2019-04-01", count=10.0, **WIDE),
        planted("asparagus", "2024-04-01", count=4.0, **WIDE),
        picked("asparagus", "2025-05-01", 1.0, place="A"),
    ]
    assert area(events, crop="asparagus") == pytest.approx(14 * 0.25)


def test_each_cultivar_has_its_own_ground() -> None:
    events = [
        planted("leek", "2025-05-01", cultivar="Porbella", count=10.0, **WIDE),
        planted("leek", "2025-05-01", cultivar="Oarsman", count=4.0, **WIDE),
        picked("leek", "2025-10-01", 1.0, cultivar="Porbella", place="A"),
        picked("leek", "2025-10-01", 1.0, cultivar="Oarsman", place="A"),
    ]
    frame = harvest(diary(events)).set_index("cultivar")
    assert frame["area_m2"].to_dict() == {
        "Oarsman": pytest.approx(1.0),
        "Porbella": pytest.approx(2.5),
    }


def test_a_picking_without_its_cultivar_joins_the_only_planting() -> None:
    events = [
        planted("leek", "2025-05-01", cultivar="Porbella", count=10.0, **WIDE),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(2.5)


def test_a_picking_without_its_cultivar_claims_no_ground_beside_named_ones() -> None:
    events = [
        planted("leek", "2025-05-01", cultivar="Porbella", count=10.0, **WIDE),
        picked("leek", "2025-10-01", 1.0, cultivar="Porbella", place="A"),
        picked("leek", "2025-11-01", 1.0, place="A"),
    ]
    frame = harvest(diary(events)).set_index("cultivar")
    assert frame.loc["Porbella", "area_m2"] == pytest.approx(2.5)
    assert pd.isna(frame.loc["", "area_m2"])


def test_a_sowing_in_modules_takes_no_ground() -> None:
    events = [
        happened(
            "sowing",
            "sow",
            "2025-03-01",
            crop="leek",
            count=40.0,
            place="A",
            vessel="modules",
            **WIDE,
        ),
        planted("leek", "2025-05-01", count=10.0, **WIDE),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert area(events) == pytest.approx(2.5)


def test_seeds_sown_are_not_counted_as_plants() -> None:
    events = [
        happened("sowing", "sow", "2025-03-01", crop="leek", count=40.0, place="A", **WIDE),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    row = harvest(diary(events)).iloc[0]
    assert row["area_m2"] == pytest.approx(10.0)
    assert pd.isna(row["plants"]) and pd.isna(row["kg_per_plant"])


def test_a_crop_alone_in_its_bed_has_the_whole_bed() -> None:
    events = [planted("leek", "2025-05-01"), picked("leek", "2025-10-01", 1.0, place="A")]
    assert area(events, places=[bed("A", 5.76)]) == 5.76


def test_a_crop_that_shared_its_bed_has_not_the_whole_bed() -> None:
    events = [
        planted("leek", "2025-05-01"),
        planted("kale", "2025-05-01"),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert pd.isna(area(events, places=[bed("A", 5.76)]))
    assert reasons(events, places=[bed("A", 5.76)]) == [
        "no ground known: no rows or spacing written, and it had not the bed alone"
    ]


def test_two_cultivars_do_not_both_have_the_whole_bed() -> None:
    events = [
        picked("leek", "2025-10-01", 1.0, cultivar="Porbella", place="A"),
        picked("leek", "2025-10-01", 1.0, cultivar="Oarsman", place="A"),
    ]
    assert harvest(diary(events, [bed("A", 5.76)]))["area_m2"].isna().all()


def sown(crop: str, when: str, **columns: Any) -> dict[str, Any]:
    return happened("sowing", "sow", when, crop=crop, place="A", **columns)


def failed(crop: str, when: str, **columns: Any) -> dict[str, Any]:
    return happened("loss", "fail", when, crop=crop, **columns)


DRILLS = {"length_m": 12.0, "row_spacing_m": 0.25}


@pytest.mark.parametrize("where", [{"place": "A"}, {}])
def test_a_sowing_that_failed_and_was_sown_again_is_one_ground(where: dict[str, str]) -> None:
    # 3 rows of 4 m, 25 cm apart: 12 x 0.25 = 3 m2, sown twice
    events = [
        sown("carrot", "2025-04-01", **DRILLS),
        failed("carrot", "2025-04-28", **where),
        sown("carrot", "2025-05-01", **DRILLS),
        picked("carrot", "2025-08-20", 6.0, place="A"),
    ]
    assert area(events, crop="carrot") == pytest.approx(3.0)


def test_of_two_sowings_only_the_older_failed() -> None:
    events = [
        sown("carrot", "2025-04-01", **DRILLS),
        sown("carrot", "2025-05-01", length_m=4.0, row_spacing_m=0.25),
        failed("carrot", "2025-05-05", place="A"),
        picked("carrot", "2025-08-20", 6.0, place="A"),
    ]
    assert area(events, crop="carrot") == pytest.approx(1.0)


def test_some_plants_of_a_sowing_that_failed_leave_its_ground() -> None:
    events = [
        sown("carrot", "2025-04-01", **DRILLS),
        failed("carrot", "2025-04-28", place="A", count=5.0),
        picked("carrot", "2025-08-20", 6.0, place="A"),
    ]
    assert area(events, crop="carrot") == pytest.approx(3.0)


def test_what_stood_on_from_the_autumn_shared_the_bed() -> None:
    # garlic and broad beans of the autumn before; the beans were lost and never picked
    events = [
        planted("garlic", "2024-10-20"),
        sown("broad bean", "2024-11-01"),
        picked("garlic", "2025-07-01", 3.0, place="A"),
    ]
    assert pd.isna(area(events, crop="garlic", places=[bed("A", 10.0)]))
    cleared = happened("end", "clear", "2024-12-01", crop="broad bean", place="A")
    assert area([*events, cleared], crop="garlic", places=[bed("A", 10.0)]) == 10.0


def test_what_was_picked_the_year_before_does_not_share_the_bed() -> None:
    events = [
        sown("lettuce", "2024-06-01"),
        picked("lettuce", "2024-08-01", 1.0, place="A"),
        planted("potato", "2025-04-01"),
        picked("potato", "2025-07-01", 3.0, place="A"),
    ]
    assert area(events, crop="potato", places=[bed("A", 10.0)]) == 10.0


def test_the_bed_counts_as_large_as_it_was_that_year() -> None:
    places = [bed("A", 6.0), bed("A", 4.0, since="2025-01-10")]
    events = [
        picked("leek", "2024-10-01", 1.0, place="A"),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert area(events, 2024, places=places) == 6.0
    assert area(events, 2025, places=places) == 4.0


def test_a_bed_that_changed_size_between_the_pickings_has_no_figure() -> None:
    places = [bed("A", 6.0), bed("A", 4.0, since="2025-09-10")]
    events = [
        picked("leek", "2025-09-01", 1.0, place="A"),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert pd.isna(area(events, places=places))
    assert reasons(events, places=places)[0].endswith("the bed changed size that year")


@pytest.mark.parametrize(
    ("event", "reason"),
    [
        (picked("leek", "2025-10-01", 1.0), "no place was written"),
        (picked("leek", None, 1.0, place="A"), "the year is not certain"),
        (picked("leek", "2025-10-01", 1.0, place="B"), "the bed has no size on the sheet"),
    ],
)
def test_each_blank_has_its_reason(event: dict[str, Any], reason: str) -> None:
    (told,) = reasons([event], places=[bed("A", 5.76)])
    assert told.endswith(reason)


def test_plants_in_sacks_do_not_have_the_whole_yard() -> None:
    events = [
        planted("potato", "2025-04-01", vessel="2 sacks", count=6.0),
        picked("potato", "2025-07-01", 3.0, place="A"),
    ]
    frame = harvest(diary(events, [bed("A", 20.0)]))
    assert pd.isna(frame["area_m2"].iloc[0])
    assert frame["kg_per_plant"].iloc[0] == pytest.approx(0.5)
    assert reasons(events, places=[bed("A", 20.0)]) == [
        "no ground known: it grew in pots, trays or sacks"
    ]


def test_a_renamed_bed_keeps_its_plants() -> None:
    renamed = GroundChange(date(2025, 6, 1), "rename", "Top bed", (("A", None),))
    events = [
        planted("leek", "2025-05-01", place="Top bed", count=10.0, **WIDE),
        picked("leek", "2025-10-01", 1.0, place="A"),
    ]
    assert area(events, changes=(renamed,)) == pytest.approx(2.5)
