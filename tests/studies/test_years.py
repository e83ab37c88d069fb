"""One year beside the year before and all earlier ones: small cases worked by hand."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import diary, happened, picked

from journal.studies.seasons import season_day
from journal.studies.years import years, years_notes
from journal.tables.schema import check_frame


def found(
    frame: pd.DataFrame,
    measure: str,
    year: int,
    crop: str = "",
    cultivar: str = "",
    place: str = "",
) -> dict[str, Any]:
    mine = (frame["measure"] == measure) & (frame["year"] == year) & (frame["crop"] == crop)
    rows = frame[mine & (frame["cultivar"] == cultivar) & (frame["place"] == place)]
    assert len(rows) == 1
    return rows.iloc[0].to_dict()


def test_a_year_beside_three_earlier_ones_worked_by_hand() -> None:
    # 4, 10 and 7 kg before 14 kg: 14 - 7 = 7 more than the year before, 100 %; mean of the three
    # 7, lowest 4, highest 10.
    kilograms = {2022: 4.0, 2023: 10.0, 2024: 7.0, 2025: 14.0}
    frame = years(diary([picked("potato", f"{year}-08-01", kg) for year, kg in kilograms.items()]))
    row = found(frame, "kg", 2025, "potato")
    assert (row["value"], row["unit"], row["before"], row["change"]) == (14.0, "kg", 7.0, 7.0)
    assert row["change_pct"] == pytest.approx(100.0)
    assert (row["mean_before"], row["low_before"], row["high_before"]) == (7.0, 4.0, 10.0)
    assert row["years_before"] == 3


def test_a_first_year_has_nothing_beside_it() -> None:
    row = found(years(diary([picked("potato", "2025-08-01", 4.0)])), "kg", 2025, "potato")
    assert row["years_before"] == 0
    assert pd.isna(row["before"]) and pd.isna(row["mean_before"]) and pd.isna(row["change_pct"])


def test_a_year_without_the_crop_is_left_out_and_not_nothing() -> None:
    events = [
        picked("potato", "2022-08-01", 4.0),
        picked("potato", "2025-08-01", 6.0),
        picked("leek", "2024-01-01", 1.0),
    ]
    row = found(years(diary(events)), "kg", 2025, "potato")
    assert pd.isna(row["before"]) and pd.isna(row["change"])
    assert (row["mean_before"], row["low_before"], row["years_before"]) == (4.0, 4.0, 1)


def test_an_unweighed_year_is_left_out_and_not_nothing() -> None:
    events = [picked("potato", "2024-08-01"), picked("potato", "2025-08-01", 6.0)]
    row = found(years(diary(events)), "kg", 2025, "potato")
    assert pd.isna(row["before"])
    assert row["years_before"] == 0
    assert found(years(diary(events)), "pickings", 2025, "potato")["before"] == 1


def test_blank_words_mean_all_of_them() -> None:
    events = [
        picked("potato", "2025-08-01", 4.0, cultivar="Charlotte", place="A"),
        picked("potato", "2025-08-01", 3.0, cultivar="Rooster", place="B"),
        picked("kale", "2025-08-01", 2.0, place="B"),
        picked("", "2025-08-01", 1.0, place="B"),
    ]
    frame = years(diary(events))
    assert found(frame, "kg", 2025)["value"] == 10.0
    assert found(frame, "kg", 2025, place="B")["value"] == 6.0
    assert found(frame, "kg", 2025, "potato")["value"] == 7.0
    assert found(frame, "kg", 2025, "potato", place="B")["value"] == 3.0
    assert found(frame, "kg", 2025, "potato", "Charlotte")["value"] == 4.0
    assert found(frame, "kg", 2025, "potato", "Charlotte", "A")["value"] == 4.0
    assert not frame.duplicated(["measure", "crop", "cultivar", "place", "year"]).any()


def test_the_first_picking_shifts_in_days_over_a_leap_year() -> None:
    # 14 July of the leap year 2024 and 12 July 2025: two days earlier
    events = [picked("pea", "2024-07-14"), picked("pea", "2025-07-12")]
    row = found(years(diary(events)), "first picking", 2025, "pea")
    assert (row["value"], row["before"], row["change"]) == (193, 195, -2)
    assert row["unit"] == "day of year"
    assert pd.isna(row["change_pct"])


def test_the_day_of_the_season_agrees_with_the_calendar() -> None:
    days = pd.Series(
        pd.to_datetime(
            ["2025-03-01", "2024-03-01", "2024-02-29", "2024-02-28", "2024-12-31", "2025-12-31"]
        )
    )
    assert season_day(days).tolist() == [60, 60, 60, 59, 365, 365]


def test_minutes_compare_by_place() -> None:
    events = [
        happened("job", "weed", f"{year}-05-01", place="A", minutes=minutes)
        for year, minutes in ((2024, 60.0), (2025, 90.0))
    ]
    row = found(years(diary(events)), "minutes", 2025, place="A")
    assert (row["value"], row["unit"], row["change_pct"]) == (90.0, "min", pytest.approx(50.0))


def test_weight_by_ground_adds_kg_and_ground_over_the_beds() -> None:
    # 6 kg from 2 m2 and 2 kg from 6 m2 are 8 kg from 8 m2: 1 kg a m2, not the mean of 3 and 1/3
    grown = [
        happened(
            "planting",
            "plant",
            "2025-04-01",
            crop="kale",
            place=place,
            count=count,
            spacing_m=1.0,
            row_spacing_m=1.0,
        )
        for place, count in (("A", 2.0), ("B", 6.0))
    ]
    events = [
        *grown,
        picked("kale", "2025-09-01", 6.0, place="A"),
        picked("kale", "2025-09-01", 2.0, place="B"),
    ]
    frame = years(diary(events))
    assert found(frame, "kg_per_m2", 2025, "kale")["value"] == pytest.approx(1.0)
    assert found(frame, "kg_per_m2", 2025, "kale", place="A")["value"] == pytest.approx(3.0)


def test_a_bed_without_known_ground_leaves_the_crops_rate_out() -> None:
    grown = happened(
        "planting", "plant", "2025-04-01", crop="kale", place="A", count=2.0, spacing_m=1.0
    )
    events = [
        grown,
        picked("kale", "2025-09-01", 6.0, place="A"),
        picked("kale", "2025-09-01", 2.0),
    ]
    frame = years(diary(events))
    rates = frame[(frame["measure"] == "kg_per_m2") & (frame["place"] == "")]
    assert rates.empty


def test_an_open_year_is_held_to_the_same_day_of_the_season() -> None:
    # as of 15 July 2026: of 2025 only the 3 kg of June count, not the 20 of August
    events = [
        picked("pea", "2025-06-20", 3.0),
        picked("pea", "2025-08-20", 20.0),
        picked("pea", "2026-06-25", 4.0),
    ]
    frame = years(diary(events, today=date(2026, 7, 15)))
    row = found(frame, "kg", 2026, "pea")
    assert (row["value"], row["before"], row["change"]) == (4.0, 3.0, 1.0)
    assert found(frame, "kg", 2025, "pea")["value"] == 23.0


def test_a_year_that_has_ended_is_compared_whole() -> None:
    events = [
        picked("pea", "2025-06-20", 3.0),
        picked("pea", "2025-08-20", 20.0),
        picked("pea", "2026-06-25", 4.0),
    ]
    frame = years(diary(events, today=date(2027, 1, 1)))
    assert found(frame, "kg", 2026, "pea")["before"] == 23.0


def test_an_open_year_knows_its_first_picking_but_not_its_last() -> None:
    events = [picked("pea", "2025-08-01"), picked("pea", "2026-07-01")]
    frame = years(diary(events, today=date(2026, 7, 15)))
    assert found(frame, "first picking", 2026, "pea")["change"] == -31
    assert frame[(frame["year"] == 2026) & frame["measure"].isin(["last picking", "days"])].empty
    assert not frame[(frame["year"] == 2025) & (frame["measure"] == "last picking")].empty


def test_a_year_that_was_not_all_weighed_is_told() -> None:
    events = [
        picked("kale", "2025-01-01", 1.0),
        picked("kale", "2025-02-01"),
        picked("leek", "2025-02-01"),
    ]
    (note,) = years_notes(diary(events))
    assert str(note) == "kale: 1 picking of 2 not weighed, so its kg are at least that"
    assert note.year == 2025


def test_a_diary_without_anything_gives_the_columns_and_no_row() -> None:
    frame = years(diary([]))
    check_frame(frame, "years")
    assert frame.empty
