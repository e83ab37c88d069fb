"""Age and life of what was fitted, in years and growing seasons, worked by hand."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import diary, happened

from journal.events.model import GroundChange, Plot
from journal.studies.structures import seasons, structures, structures_notes
from journal.tables.schema import check_frame

BOARDS = "scaffold boards"


def fit(when: str | None, until: str | None = None, **columns: Any) -> dict[str, Any]:
    words = {"material": BOARDS, "place": "Long 1"} | columns
    return happened("structure", "fit", when, until, **words)


def replace(when: str, until: str | None = None, **columns: Any) -> dict[str, Any]:
    words = {"material": BOARDS, "place": "Long 1"} | columns
    return happened("structure", "replace", when, until, **words)


def rows_of(*events: dict[str, Any], **of_diary: Any) -> list[dict[str, Any]]:
    frame = structures(diary(list(events), **of_diary))
    check_frame(frame, "structures")
    return [dict(row) for _, row in frame.iterrows()]


@pytest.mark.parametrize(
    ("first", "last", "count"),
    [
        ("2018-04-09", "2025-02-01", 7),  # the midsummers of 2018 to 2024
        ("2018-04-12", "2023-11-10", 6),
        ("2018-07-01", "2018-07-01", 1),
        ("2018-07-02", "2019-06-30", 0),
        ("2018-11-01", "2019-07-01", 1),
    ],
)
def test_a_growing_season_is_a_midsummer_stood_through(first: str, last: str, count: int):
    assert seasons(date.fromisoformat(first), date.fromisoformat(last)) == count


def test_midsummer_is_in_january_south_of_the_equator():
    assert seasons(date(2018, 12, 1), date(2019, 2, 1), south=True) == 1
    assert seasons(date(2018, 6, 1), date(2018, 9, 1), south=True) == 0
    row = rows_of(fit("2025-06-01"), plot=Plot("Here", latitude=-41.0))[0]
    assert row["seasons_low"] == 1


def test_boards_that_replaced_scaffold_boards_are_due_by_the_life_of_scaffold_boards():
    _, new = rows_of(fit("2018-04-09"), replace("2025-02-01", material="boards"))
    # 9 April 2018 to 1 February 2025 are 2490 days
    assert (new["thing"], new["lives"]) == ("boards", 1)
    assert new["due"] == pd.Timestamp("2025-02-01") + pd.Timedelta(days=2490)
    assert (new["usual_seasons_low"], new["usual_seasons_high"]) == (6, 7)


def test_another_thing_in_its_place_is_of_its_own_kind():
    _, new = rows_of(fit("2018-04-09"), replace("2025-02-01", material="larch boards"))
    assert new["lives"] == 0 and pd.isna(new["due"])


def test_scaffold_boards_have_the_life_that_is_said_of_them_beside_their_own():
    # six to seven seasons: common practice, no published source
    old, new = rows_of(fit("2018-04-09"), replace("2025-02-01"))
    assert (old["seasons_low"], old["how_ended"]) == (7, "replaced")
    assert old["usual_seasons_low"] <= old["seasons_low"] <= old["usual_seasons_high"]
    assert old["usual_basis"] == "common practice, no published source"
    # 9 April 2018 to 1 February 2025 are 2490 days, 6.82 years
    assert old["years_low"] == old["years_high"] == pytest.approx(2490 / 365.2425)
    assert new["how_ended"] == "" and pd.isna(new["ended"])


def test_the_next_is_due_by_the_keepers_own_replacements():
    # lives of 2000 and 1800 days: usually 1900
    rows = rows_of(
        fit("2015-01-01"),
        replace("2020-06-23"),
        fit("2015-01-01", place="Long 2"),
        replace("2019-12-06", place="Long 2"),
    )
    due = {row["place"]: row for row in rows if row["how_ended"] == ""}
    assert due["Long 1"]["lives"] == 2
    assert due["Long 1"]["due"] == pd.Timestamp("2020-06-23") + pd.Timedelta(days=1900)
    assert due["Long 1"]["due_low"] == pd.Timestamp("2020-06-23") + pd.Timedelta(days=1800)
    assert due["Long 1"]["due_high"] == pd.Timestamp("2020-06-23") + pd.Timedelta(days=2000)
    assert all(pd.isna(row["due"]) for row in rows if row["how_ended"])


def test_a_thing_never_replaced_has_no_due_day_and_says_why():
    (row,) = rows_of(fit("2020-03-01", material="pond liner"))
    assert pd.isna(row["due"]) and row["lives"] == 0
    assert "nothing says when" in row["why"]
    assert pd.isna(row["usual_seasons_low"])


def test_a_vague_day_leaves_an_age_that_is_a_range():
    # October 2024 to 1 March 2026: from 31 October 486 days, from 1 October 516; the midsummer
    # of 2025 lies between either way
    (row,) = rows_of(fit("2024-10-01", "2024-10-31"))
    assert row["years_low"] == pytest.approx(486 / 365.2425)
    assert row["years_high"] == pytest.approx(516 / 365.2425)
    assert (row["seasons_low"], row["seasons_high"]) == (1, 1)


def test_a_vague_summer_may_have_had_its_season_or_not():
    (row,) = rows_of(fit("2025-06-01", "2025-08-31"))
    assert (row["seasons_low"], row["seasons_high"]) == (0, 1)


def test_work_that_went_on_over_days_was_done_on_its_last():
    (row,) = rows_of(fit("2025-02-20", "2025-03-01", spread=True))
    assert row["years_low"] == row["years_high"] == pytest.approx(365 / 365.2425)


def test_boards_replaced_by_that_word_alone_are_the_scaffold_boards_there():
    old, new = rows_of(fit("2018-04-09"), replace("2025-02-01", material="boards"))
    assert old["how_ended"] == "replaced" and new["thing"] == "boards"


def test_a_thing_of_another_name_or_place_stands_on():
    rows = rows_of(
        fit("2018-04-09"),
        fit("2018-04-09", material="liner"),
        replace("2025-02-01", place="Long 2"),
    )
    assert [row["how_ended"] for row in rows] == ["", "", ""]


def test_taking_a_thing_down_ends_it_and_is_no_life_of_its_kind():
    rows = rows_of(
        fit("2018-04-09"),
        happened("job", "take down", "2019-05-01", place="Long 1", material=BOARDS),
        fit("2020-04-09"),
    )
    assert rows[0]["how_ended"] == "taken down"
    assert rows[1]["lives"] == 0


def test_a_few_boards_replaced_leave_the_rest_standing():
    old, new = rows_of(fit("2018-04-09", count=8.0), replace("2021-04-09", count=2.0))
    assert old["how_ended"] == "" and "the rest stand" in old["why"]
    assert old["events"] == "1, 2" and new["lives"] == 0


def test_boards_stay_with_their_ground_when_the_bed_gets_a_new_name():
    changes = (GroundChange(date(2024, 2, 1), "rename", "Long 1", (("Top bed", None),)),)
    rows = rows_of(fit("2018-04-09"), replace("2025-02-01", place="Top bed"), changes=changes)
    assert [(row["place"], row["how_ended"]) for row in rows] == [
        ("Top bed", "replaced"),
        ("Top bed", ""),
    ]


def test_the_cost_of_a_fitting_stands_beside_it():
    (row,) = rows_of(fit("2018-04-09", cost=54.0, currency="GBP"))
    assert (row["cost"], row["currency"]) == (54.0, "GBP")


def test_what_has_no_day_or_is_to_come_is_in_no_row():
    own = diary([fit(None), fit("2026-04-01")])
    assert structures(own).empty
    assert [str(note) for note in structures_notes(own)] == [
        "scaffold boards: when it was fitted is not written"
    ]
