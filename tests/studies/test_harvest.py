"""What was picked, per year, crop, cultivar and place: small cases worked by hand."""

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened, picked

from journal.studies.harvest import harvest, harvest_notes, harvest_totals
from journal.tables.schema import check_frame

CHARLOTTE = {"cultivar": "Charlotte", "place": "Long 3"}


def one_row(frame: pd.DataFrame) -> dict[str, object]:
    assert len(frame) == 1
    return frame.iloc[0].to_dict()


def test_a_season_of_potatoes_worked_by_hand() -> None:
    # 20 tubers at 30 x 60 cm stand on 20 x 0.3 x 0.6 = 3.6 m2. Lifted: 5 + 7 = 12 kg and once
    # unweighed, so 12 / 3.6 = 3.333 kg a m2 and 12 / 20 = 0.6 kg a plant. From 1 July to
    # 1 August are 31 + 1 = 32 days, both counted.
    year = diary(
        [
            happened(
                "planting",
                "plant",
                "2025-04-10",
                crop="potato",
                count=20.0,
                spacing_m=0.3,
                row_spacing_m=0.6,
                **CHARLOTTE,
            ),
            picked("potato", "2025-07-01", 5.0, **CHARLOTTE),
            picked("potato", "2025-07-15", **CHARLOTTE),
            picked("potato", "2025-08-01", 7.0, **CHARLOTTE),
        ]
    )
    row = one_row(harvest(year))
    assert (row["year"], row["crop"], row["cultivar"]) == (2025, "potato", "Charlotte")
    assert (row["kg"], row["pickings"], row["unweighed"]) == (12.0, 3, 1)
    assert row["first"] == pd.Timestamp("2025-07-01")
    assert row["last"] == pd.Timestamp("2025-08-01")
    assert row["days"] == 32
    assert row["area_m2"] == pytest.approx(3.6)
    assert row["kg_per_m2"] == pytest.approx(12 / 3.6)
    assert row["plants"] == 20
    assert row["kg_per_plant"] == pytest.approx(0.6)
    assert pd.isna(row["row_m"]) and pd.isna(row["kg_per_m"])


def test_rows_tell_the_ground_and_the_length_of_row() -> None:
    # 3 rows of 4 m, 30 cm between rows: 12 m of row on 12 x 0.3 = 3.6 m2; 9 kg are 0.75 kg a m.
    year = diary(
        [
            happened(
                "sowing",
                "sow",
                "2025-04-01",
                crop="carrot",
                place="Long 2",
                length_m=12.0,
                row_spacing_m=0.3,
            ),
            picked("carrot", "2025-08-01", 9.0, place="Long 2"),
        ]
    )
    row = one_row(harvest(year))
    assert (row["area_m2"], row["row_m"]) == (pytest.approx(3.6), 12.0)
    assert row["kg_per_m2"] == pytest.approx(2.5)
    assert row["kg_per_m"] == pytest.approx(0.75)
    assert pd.isna(row["plants"])


def test_a_crop_that_was_only_counted_has_no_weight() -> None:
    row = one_row(harvest(diary([picked("lettuce", "2025-06-01", count=3.0)])))
    assert pd.isna(row["kg"])
    assert (row["count"], row["pickings"], row["unweighed"]) == (3.0, 1, 1)


def test_a_weight_of_several_crops_together_is_no_crops_own() -> None:
    # `pick tomato, bean and courgette 2.5 kg altogether`: three pickings, one weight
    entry = [picked(crop, "2025-08-01", entry=1) for crop in ("tomato", "bean", "courgette")]
    year = diary([*entry, picked("", "2025-08-01", 2.5, entry=1)])
    frame = harvest(year).set_index("crop")
    assert frame.loc["", "kg"] == 2.5
    assert frame.loc["", "pickings"] == 0
    assert frame.loc[["tomato", "bean", "courgette"], "kg"].isna().all()
    assert frame.loc[["tomato", "bean", "courgette"], "unweighed"].tolist() == [1, 1, 1]
    total = harvest_totals(harvest(year), ["year"]).iloc[0]
    assert (total["kg"], total["pickings"], total["unweighed"]) == (2.5, 3, 3)
    notes = [str(note) for note in harvest_notes(year)]
    assert "bean: 1 picking not weighed, 1 of them weighed with other crops" in notes


def test_a_picking_that_names_no_crop_is_still_a_picking() -> None:
    row = one_row(harvest(diary([picked("", "2025-08-01", 2.5, place="Top bed")])))
    assert (row["kg"], row["pickings"], row["unweighed"]) == (2.5, 1, 0)


def test_a_day_that_may_lie_in_two_years_counts_in_neither() -> None:
    year = diary(
        [
            picked("kale", "2025-12-28", 1.0, until="2026-01-03"),
            picked("kale", "2025-12-01", 2.0),
            picked("kale", None, 4.0),
        ]
    )
    frame = harvest(year)
    assert frame["year"].fillna(0).tolist() == [2025, 0]
    assert frame["kg"].tolist() == [2.0, 5.0]
    assert frame["kg"].sum() == 7.0
    reasons = [note for note in harvest_notes(year) if note.lack == "day"]
    assert [note.year for note in reasons] == [None]
    assert "two years" in reasons[0].reason


def test_a_first_picking_on_an_uncertain_day_is_left_blank_and_told() -> None:
    year = diary([picked("pea", "2025-06-01", until="2025-06-10"), picked("pea", "2025-07-01")])
    row = one_row(harvest(year))
    assert pd.isna(row["first"]) and pd.isna(row["days"])
    assert row["last"] == pd.Timestamp("2025-07-01")
    assert "first picking some day from 1 June to 10 June 2025" in [
        note.reason for note in harvest_notes(year)
    ]


def test_an_uncertain_day_after_a_certain_first_picking_leaves_it_certain() -> None:
    year = diary([picked("pea", "2025-06-01"), picked("pea", "2025-06-05", until="2025-06-30")])
    row = one_row(harvest(year))
    assert row["first"] == pd.Timestamp("2025-06-01")
    assert pd.isna(row["last"])


def test_days_that_a_picking_went_on_over_are_no_doubt() -> None:
    row = one_row(harvest(diary([picked("pea", "2025-06-03", until="2025-06-05", spread=True)])))
    assert row["first"] == pd.Timestamp("2025-06-03")
    assert row["last"] == pd.Timestamp("2025-06-05")
    assert row["days"] == 3


def test_what_was_only_bought_or_stored_is_no_harvest() -> None:
    events = [
        happened("purchase", "buy", "2025-08-01", crop="potato", mass_kg=2.0),
        happened("kitchen", "store", "2025-08-01", crop="potato", mass_kg=2.0),
    ]
    assert harvest(diary(events)).empty


def test_a_diary_without_a_picking_gives_the_columns_and_no_row() -> None:
    frame = harvest(diary([]))
    check_frame(frame, "harvest")
    assert frame.empty
    assert harvest_notes(diary([])) == []


def test_the_frame_keeps_the_contract() -> None:
    year = diary([picked("pea", "2025-06-01", 1.0, place="A"), picked("", None)], [bed("A", 5)])
    check_frame(harvest(year), "harvest")
