"""What stood where: the ledger's stays, and the years that each bed was in use."""

from datetime import date

import pandas as pd
import pytest
from support.written import written

from journal.studies.occupancy import days_in_use, occupancy
from journal.studies.stays import stays, stood
from journal.tables.schema import check_frame

TODAY = date(2026, 3, 1)
# `up` counts none, so that of 20 sown 15 may be all that there were
LEEKS = """\
2023-03-01
- sow 20 leek in Tunnel
2023-04-01
- up leek in Tunnel
2023-06-01
- plant out 15 leek from Tunnel to Long 1
"""
CLEARED = LEEKS + "2023-12-01\n- clear leek from Long 1\n"


def test_what_may_be_left_behind_went_at_the_latest_when_the_rest_did():
    rows = occupancy(written(CLEARED, TODAY))
    check_frame(rows, "occupancy")
    by_place = rows.set_index("place")
    tunnel = by_place.loc["Tunnel"]
    assert (tunnel["until"], tunnel["until_end"]) == (
        pd.Timestamp("2023-06-01"),
        pd.Timestamp("2023-12-01"),
    )
    assert by_place["ended"].tolist() == ["cleared", "cleared"]
    assert rows["year"].tolist() == [2023, 2023]


@pytest.mark.parametrize("later", ["", "2025-04-01\n- sow 20 leek in Tunnel\n"])
def test_how_a_batch_ended_does_not_hang_on_what_is_written_later(later: str):
    rows = occupancy(written(CLEARED + later, TODAY))
    assert rows.loc[rows["batch"] == 1, "ended"].unique().tolist() == ["cleared"]


def test_what_may_be_left_is_not_certain_to_stand():
    diary = written(LEEKS, date(2023, 7, 1))
    frame = stays(diary)
    assert frame.set_index("place")["may_be_left"].to_dict() == {"Tunnel": True, "Long 1": False}
    today = pd.Timestamp("2023-07-01")
    sure, perhaps = stood(frame, today, today)
    assert (sure["place"].tolist(), perhaps["place"].tolist()) == (["Long 1"], ["Tunnel"])


def test_a_stay_over_new_year_is_in_use_in_both_years():
    page = "2024-10-20\n- plant 10 garlic in Long 1\n2025-07-01\n- clear Long 1\n"
    rows = occupancy(written(page, TODAY))
    spans = [(f"{row.begins:%Y-%m-%d}", f"{row.ends:%Y-%m-%d}") for row in rows.itertuples()]
    assert spans == [("2024-10-20", "2024-12-31"), ("2025-01-01", "2025-07-01")]
    # 12 days of October, 30 and 31
    assert days_in_use(rows[rows["year"] == 2024]).to_dict() == {"Long 1": 73}


def test_a_bed_under_two_names_is_one_ground():
    sheet = "- bed Long 1, 1.2 x 4.8 m\n\n2025-02-01\n- rename Long 1 to Top bed\n"
    page = "2024-10-20\n- plant 10 garlic in Long 1\n2025-07-01\n- clear Top bed\n"
    rows = occupancy(written(page, TODAY, sheet))
    assert rows["place"].unique().tolist() == ["Top bed"] and len(rows) == 2


def test_nothing_stood_in_an_empty_diary():
    rows = occupancy(written("2026-01-01\n- weed Long 1\n", TODAY))
    check_frame(rows, "occupancy")
    assert rows.empty
