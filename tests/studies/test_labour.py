"""Where the time went, and what it earned: small cases worked by hand."""

from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened, picked

from journal.studies.labour import labour, labour_notes, labour_totals, labour_worth
from journal.tables.schema import check_frame


def worked(verb: str, when: str | None, minutes: float | None, **columns: Any) -> dict[str, Any]:
    return happened("job", verb, when, columns.pop("until", None), minutes=minutes, **columns)


def test_time_is_summed_by_year_month_place_verb_and_crop() -> None:
    year = diary(
        [
            worked("weed", "2025-05-01", 30.0, place="Long 1"),
            worked("weed", "2025-05-20", 45.0, place="Long 1"),
            worked("weed", "2025-06-01", 15.0, place="Long 1"),
            worked("hoe", "2025-05-01", 10.0, place="Long 1", crop="leek"),
            picked("leek", "2025-05-01", 1.0, place="Long 1", minutes=20.0),
        ]
    )
    rows = labour(year).to_dict("split")["data"]
    assert rows == [
        [2025, 5, "Long 1", "hoe", "leek", 10.0],
        [2025, 5, "Long 1", "pick", "leek", 20.0],
        [2025, 5, "Long 1", "weed", "", 75.0],
        [2025, 6, "Long 1", "weed", "", 15.0],
    ]


def test_work_without_a_time_is_in_no_row_and_told() -> None:
    year = diary(
        [
            worked("weed", "2025-05-01", None),
            worked("weed", "2025-05-02", 10.0),
            worked("mow", "2025-05-03", None),
            worked("mow", "2025-05-04", None),
        ]
    )
    assert labour(year)["minutes"].tolist() == [10.0]
    assert [str(note) for note in labour_notes(year)] == [
        "mow: 2 jobs not timed",
        "weed: 1 job of 2 not timed",
    ]


def test_a_month_that_is_not_certain_is_blank_and_told() -> None:
    year = diary([worked("dig", "2025-05-28", 60.0, until="2025-06-03")])
    row = labour(year).iloc[0]
    assert row["year"] == 2025 and pd.isna(row["month"])
    (note,) = labour_notes(year)
    assert (note.lack, note.subject, note.year) == ("day", "60 minutes", 2025)


def test_a_year_that_is_not_certain_is_blank_and_told() -> None:
    year = diary([worked("dig", "2025-12-28", 60.0, until="2026-01-03"), worked("dig", None, 5.0)])
    assert labour(year)["year"].isna().all()
    assert labour(year)["minutes"].sum() == 65.0
    (note,) = labour_notes(year)
    assert (note.subject, note.year) == ("65 minutes", None)


def test_totals_put_the_most_first_and_say_hours() -> None:
    year = diary([worked("weed", "2025-05-01", 30.0), worked("dig", "2025-06-01", 90.0)])
    totals = labour_totals(labour(year), ["verb"])
    assert totals["verb"].tolist() == ["dig", "weed"]
    assert totals["hours"].tolist() == [1.5, 0.5]


def test_hours_a_kilogram_worked_by_hand() -> None:
    # Potatoes had Long 3 (6 m2) alone: 60 min planting and 30 min weeding the bed are 1.5 h for
    # 12 kg, 0.125 h a kg, and 1.5 / 6 = 0.25 h a m2.
    year = diary(
        [
            happened(
                "planting", "plant", "2025-04-10", crop="potato", place="Long 3", minutes=60.0
            ),
            worked("weed", "2025-05-05", 30.0, place="Long 3"),
            picked("potato", "2025-08-01", 12.0, place="Long 3"),
        ],
        [bed("Long 3", 6.0)],
    )
    (row,) = labour_worth(year).to_dict("records")
    assert (row["year"], row["place"], row["crop"]) == (2025, "Long 3", "potato")
    assert (row["hours"], row["kg"], row["area_m2"]) == (1.5, 12.0, 6.0)
    assert row["hours_per_kg"] == pytest.approx(0.125)
    assert row["hours_per_m2"] == pytest.approx(0.25)


def test_a_shared_beds_own_work_goes_to_no_crop() -> None:
    year = diary(
        [
            worked("weed", "2025-05-05", 30.0, place="Long 3"),
            picked("potato", "2025-08-01", 12.0, place="Long 3"),
            happened("sowing", "sow", "2025-08-20", crop="turnip", place="Long 3"),
        ],
        [bed("Long 3", 6.0)],
    )
    frame = labour_worth(year).set_index("crop")
    assert frame.loc["", "hours"] == 0.5
    assert frame.loc["", "hours_per_m2"] == pytest.approx(0.5 / 6)
    assert pd.isna(frame.loc["potato", "hours"]) and pd.isna(frame.loc["potato", "hours_per_kg"])


def test_a_weight_of_several_crops_is_not_what_the_beds_work_earned() -> None:
    entry = [picked(crop, "2025-08-01", entry=1, place="A") for crop in ("tomato", "bean")]
    together = picked("", "2025-08-01", 2.5, entry=1, place="A")
    year = diary([*entry, together, worked("weed", "2025-05-05", 30.0, place="A", entry=2)])
    row = labour_worth(year).set_index("crop").loc[""]
    assert (row["hours"], row["kg"]) == (0.5, 2.5)
    assert pd.isna(row["hours_per_kg"])


def test_nothing_is_divided_by_nothing() -> None:
    year = diary(
        [worked("weed", "2025-05-05", 30.0, place="A"), picked("pea", "2025-06-01", 0.0, place="A")]
    )
    (row,) = labour_worth(year).to_dict("records")
    assert (row["crop"], row["hours"], row["kg"]) == ("pea", 0.5, 0.0)
    assert pd.isna(row["hours_per_kg"])


def test_a_diary_without_work_gives_the_columns_and_no_row() -> None:
    for study, name in ((labour, "labour"), (labour_worth, "labour worth")):
        frame = study(diary([]))
        check_frame(frame, name)
        assert frame.empty
