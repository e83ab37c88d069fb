"""What stands today, and whether its time has come: small diaries worked by hand."""

from datetime import date
from typing import Any

import pytest
from support.written import SHEET, written

from journal.studies.standing import empty_beds, outlook, standing, waiting
from journal.tables.schema import check_frame


def rows(page: str, today: date, sheet: str = SHEET) -> list[dict[str, Any]]:
    return outlook(written(page, today, sheet)).to_dict("records")


def only(page: str, today: date, sheet: str = SHEET) -> dict[str, Any]:
    (row,) = rows(page, today, sheet)
    return row


# three springs of radishes sown on 1 April and first pulled 30, 34 and 40 days later
THREE_YEARS = "".join(
    f"{year}-04-01\n- sow radish in Long 1, 2 rows of 1 m\n"
    f"{year}-05-{day:02}\n- pull 300 g radish from Long 1\n"
    f"{year}-06-01\n- clear radish from Long 1\n"
    for year, day in ((2023, 1), (2024, 5), (2025, 11))
)


def test_the_frame_is_the_table_standing():
    check_frame(standing(written(THREE_YEARS, date(2025, 5, 20))), "standing")


@pytest.mark.parametrize(
    ("today", "state"),
    [
        (date(2026, 4, 30), "growing"),
        (date(2026, 5, 1), "ready"),
        (date(2026, 5, 11), "ready"),
        (date(2026, 5, 12), "forgotten"),
    ],
)
def test_a_crop_is_ready_within_its_own_usual_days_and_then_forgotten(today: date, state: str):
    page = THREE_YEARS + "2026-04-01\n- sow radish in Long 1, 2 rows of 1 m\n"
    row = only(page, today)
    assert row["state"] == state
    assert row["due"].date() == date(2026, 5, 5)
    assert (row["source"], row["own"]) == ("this diary, 3 batches", True)


def test_with_fewer_than_two_of_its_own_the_published_days_are_used_and_named():
    row = only("2026-04-01\n- sow radish in Long 1, 2 rows of 1 m\n", date(2026, 6, 1))
    assert row["state"] == "forgotten"
    assert row["source"] == "North Dakota State University H-912 (2010)"


def test_what_nothing_tells_the_time_of_is_growing():
    row = only("2025-10-10\n- plant 20 shallot in Long 1\n", date(2026, 8, 1))
    assert (row["state"], row["source"]) == ("growing", "")


def test_what_is_being_picked_is_ready_and_past_its_time_after_the_longest_of_before():
    # picked last 35 and 45 days after its sowing
    page = "".join(
        f"{year}-04-01\n- sow radish in Long 1, 2 rows of 1 m\n"
        f"{year}-05-{day:02}\n- pull 300 g radish from Long 1\n- clear radish from Long 1\n"
        for year, day in ((2024, 6), (2025, 16))
    )
    page += "2026-04-01\n- sow radish in Long 1, 2 rows of 1 m\n2026-05-02\n- pull 100 g radish\n"
    assert only(page, date(2026, 5, 16))["state"] == "ready"
    assert only(page, date(2026, 5, 17))["state"] == "past its time"


def test_young_plants_are_past_their_time_when_others_were_planted_by_then():
    page = "".join(
        f"{year}-03-01\n- sow 10 leek in modules in Tunnel\n{year}-03-15\n- up 10 leek\n"
        f"{year}-06-{day}\n- plant out 10 leek in Long 1\n{year}-12-01\n- clear leek\n"
        for year, day in ((2024, 10), (2025, 20))
    )
    page += "2026-03-01\n- sow 10 leek in modules in Tunnel\n2026-03-15\n- up 10 leek\n"
    row = only(page, date(2026, 6, 20))
    assert (row["next"], row["state"], row["due"].date()) == (
        "planted",
        "growing",
        date(2026, 6, 15),
    )
    assert only(page, date(2026, 6, 21))["state"] == "past its time"


def test_a_perennial_is_ready_in_the_season_of_its_other_years():
    page = "2020-03-01\n- plant 2 rhubarb in Long 1\n" + "".join(
        f"{year}-03-{first:02}\n- pick 500 g rhubarb\n{year}-06-{last:02}\n- pick 500 g rhubarb\n"
        for year, first, last in ((2023, 10, 1), (2024, 20, 11), (2025, 30, 21))
    )
    assert only(page, date(2026, 3, 19))["state"] == "growing"
    assert only(page, date(2026, 3, 20))["state"] == "ready"
    assert only(page, date(2026, 6, 11))["state"] == "ready"
    assert only(page, date(2026, 6, 12))["state"] == "growing"


def test_each_place_and_stage_of_a_batch_has_its_row():
    page = """\
2026-03-01
- sow 10 leek in modules in Tunnel
2026-03-15
- up 10 leek
2026-06-01
- plant out 8 leek from Tunnel to Long 1
"""
    told = [(row["place"], row["stage"], row["alive"]) for row in rows(page, date(2026, 6, 11))]
    assert told == [("Tunnel", "up", 2), ("Long 1", "planted", 8)]
    assert [row["days"] for row in rows(page, date(2026, 6, 11))] == [88, 10]


def test_what_may_be_left_of_uncounted_seedlings_is_not_said_to_stand():
    page = (
        "2026-03-01\n- sow 10 leek in modules in Tunnel\n2026-06-01\n- plant out 8 leek in Long 1\n"
    )
    one = written(page, date(2026, 6, 11))
    assert standing(one)["place"].tolist() == ["Long 1"]
    assert outlook(one)["may_be_left"].tolist() == [True, False]


def test_what_stood_in_a_renamed_bed_is_told_by_its_new_name():
    sheet = SHEET + "\n2026-06-01\n- rename Long 1 to Orchard end\n"
    row = only("2026-05-01\n- plant 9 leek in Long 1\n", date(2026, 7, 1), sheet)
    assert row["place"] == "Orchard end"


def test_young_plants_wait_since_they_were_last_potted_fed_or_moved():
    page = """\
2026-03-01
- sow 10 leek in modules in Tunnel
- sow 10 tomato in modules in Tunnel
2026-03-15
- up 10 leek, 10 tomato in Tunnel
2026-04-01
- pot on 10 tomato into 9 cm pots in Tunnel
2026-04-20
- feed tomato in Tunnel with seaweed feed 5 l
"""
    frame = waiting(written(page, date(2026, 5, 1)))
    assert frame[["crop", "tended_days"]].to_numpy().tolist() == [["leek", 61], ["tomato", 11]]
    assert waiting(written(page, date(2026, 5, 1)), 40)["crop"].tolist() == ["leek"]


def test_beds_in_which_nothing_stands_are_empty():
    page = """\
2026-05-01
- plant 9 leek in Long 1
- plant 9 potato in Long 2
2026-08-01
- clear Long 2
"""
    frame = empty_beds(written(page, date(2026, 9, 1)))
    since = [None if day is None else day.date() for day in frame["since"].astype(object)[:1]]
    assert (frame["place"].tolist(), since) == (["Long 2", "Long 3"], [date(2026, 8, 1)])


def test_a_bed_that_is_picked_of_what_was_never_planted_is_not_known_to_be_empty():
    page = "2026-07-01\n- pick 500 g raspberry from Long 3\n"
    assert empty_beds(written(page, date(2026, 9, 1)))["place"].tolist() == ["Long 1", "Long 2"]
