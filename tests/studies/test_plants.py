"""What becomes of the plants: small diaries, each worked by hand."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import diary, happened
from support.written import SHEET, written

from journal.studies.plants import (
    batches,
    books_of,
    books_on,
    losses,
    plant_events,
    plants,
    plants_notes,
    unplaced,
)
from journal.studies.stood import stood_on
from journal.tables.schema import check_frame

TODAY = date(2026, 11, 25)
FATES = ["not_up", "discarded", "lost", "harvested", "cleared", "unknown"]


def only(page: str, today: date = TODAY, sheet: str = SHEET) -> dict[str, Any]:
    """The only batch of a page."""
    frame = batches(written(page, today, sheet))
    assert len(frame) == 1
    return known(frame.iloc[0])


def known(row: "pd.Series[Any]") -> dict[str, Any]:
    """A row's figures that are not blank, whole ones as they are written."""
    return {str(name): value for name, value in row.items() if not pd.isna(value)}


def stood(page: str, today: date = TODAY, sheet: str = SHEET) -> dict[tuple[str, str], Any]:
    """How many are at each stage and place: a number, or (at least, at most)."""
    found: dict[tuple[str, str], Any] = {}
    for batch in books_of(written(page, today, sheet)).batches:
        for part in batch.parts:
            exact = part.alive.exact
            alive = (part.alive.low, part.alive.high) if exact is None else exact
            found[part.stage, part.place] = alive
    return found


LEEKS = """\
2026-03-01
- sow 24 leek 'Porbella' in modules in Tunnel
2026-03-15
- up 21 of 24 leek 'Porbella' in Tunnel
2026-04-01
- prick out 18 leek 'Porbella' into 9 cm pots in Tunnel
2026-04-20
- lose 2 leek 'Porbella' in Tunnel to slugs
2026-05-10
- harden off 16 leek 'Porbella' in Frame
2026-05-20
- plant out 15 leek 'Porbella' from Frame to Long 1
2026-07-01
- count 13 leek 'Porbella' in Long 1
2026-10-01
- dig up 4 leek 'Porbella' from Long 1
2026-11-01
- clear leek from Long 1
"""


def test_a_batch_is_followed_from_seed_to_clearing():
    # 24 seeds: 3 not up, 3 left at pricking out, 2 to slugs and 2 missing at the count, 4 dug,
    # 9 cleared from the bed, 1 left in the frame: 3 + 3 + 4 + 4 + 9 + 1 = 24
    leek = only(LEEKS)
    assert (leek["sown"], leek["up"], leek["pricked_out"], leek["planted"]) == (24, 21, 18, 15)
    assert [leek[fate] for fate in FATES] == [3, 3, 4, 4, 9, 0]
    assert leek["alive"] == 1
    assert (leek["pct_up"], leek["pct_planted"]) == (87.5, 62.5)
    assert (leek["days_to_up"], leek["days_to_planted"], leek["days_to_picking"]) == (14, 80, 214)


def test_the_table_has_a_row_for_each_stage_with_the_counts_as_they_stood_when_it_was_left():
    rows = plants(written(LEEKS, TODAY))
    told = rows[["stage", "place", "alive", "lost", "days_in_stage"]].astype(object)
    assert told.where(told.notna(), None).to_numpy().tolist() == [
        ["sown", "Tunnel", 24, 0, 14],
        ["up", "Tunnel", 21, 0, 17],
        ["pricked out", "Tunnel", 16, 2, 39],
        ["hardened off", "Frame", 1, 4, 199],
        ["planted", "Long 1", 13, 4, 134],
        ["cropping", "Long 1", 9, 4, 31],
        ["ended", "Long 1", 0, 4, None],
    ]
    assert set(rows["ended"]) == {""}


def test_on_any_day_the_ledger_tells_what_stood_where():
    leeks = written(LEEKS, TODAY)
    (batch,) = books_on(leeks, date(2026, 6, 1)).batches
    assert {part.place: part.alive.exact for part in batch.parts} == {"Frame": 1, "Long 1": 15}
    assert books_on(leeks, date(2026, 2, 28)).batches == []


def test_what_may_have_happened_by_a_day_leaves_a_range():
    page = "2026-05-01\n- plant 9 leek in Long 1\nabout 20 May 2026\n- lose 2 leek in Long 1\n"
    leeks = written(page, TODAY)

    def alive(day: int) -> list[Any]:
        frame = stood_on(leeks, date(2026, 5, day))
        return [frame[name].iloc[0] for name in ("alive_low", "alive_high")]

    assert [alive(12), alive(20), alive(27)] == [[9, 9], [7, 9], [7, 7]]
    assert stood_on(leeks, date(2026, 4, 30)).empty


def test_what_stood_on_a_day_rests_on_the_line_of_its_beginning():
    frame = stood_on(written(LEEKS, TODAY), date(2026, 6, 1))
    assert frame[["place", "stage", "alive", "line"]].to_numpy().tolist() == [
        ["Frame", "hardened off", 1, 2],
        ["Long 1", "planted", 15, 2],
    ]


def test_losses_are_told_by_reason_stage_and_place():
    # the shortfall at a count is lost too, but no entry of its own gives a reason
    (row,) = losses(written(LEEKS, TODAY)).to_dict("records")
    assert (row["reason"], row["stage"], row["place"], row["count"]) == (
        "slugs",
        "pricked out",
        "Tunnel",
        2,
    )
    assert (row["file"], row["line"]) == ("page.txt", 8)


def test_every_figure_rests_on_entries_with_their_lines():
    events = plant_events(written(LEEKS, TODAY))
    assert events["line"].tolist() == [2, 4, 6, 8, 10, 12, 14, 16, 18]
    assert events["what"].tolist() == [
        "sown",
        "up",
        "pricked out",
        "lost",
        "hardened off",
        "planted",
        "counted",
        "harvested",
        "cleared",
    ]


# ---------------------------------------------------------------- joining


def test_an_event_joins_the_oldest_living_batch():
    page = """\
2026-03-01
- sow 10 leek 'Porbella' in modules in Tunnel
2026-03-20
- sow 20 leek 'Porbella' in modules in Tunnel
2026-04-10
- up 8 leek 'Porbella' in Tunnel
"""
    assert batches(written(page, TODAY))["up"].fillna(0).tolist() == [8, 0]


def test_a_blank_cultivar_label_or_place_matches_any():
    page = """\
2026-03-01
- sow 10 leek 'Porbella' [early] in modules in Tunnel
2026-03-20
- up 8 leek
2026-05-20
- plant out 7 leek in Long 1
"""
    leek = only(page)
    assert (leek["up"], leek["planted"]) == (8, 7)


def test_a_batch_of_the_very_name_goes_before_an_older_one_without():
    page = """\
2026-03-01
- sow 10 leek in modules in Tunnel
2026-03-20
- sow 20 leek 'Porbella' in modules in Tunnel
2026-04-10
- up 8 leek 'Porbella' in Tunnel
"""
    assert batches(written(page, TODAY))["up"].fillna(0).tolist() == [0, 8]


def test_an_entry_that_says_of_how_many_joins_the_sowing_of_so_many():
    page = """\
2026-03-01
- sow 30 leek 'Porbella' in modules in Tunnel
- sow 20 leek 'Porbella' in modules in Tunnel
2026-03-20
- up 8 of 20 leek 'Porbella' in Tunnel
"""
    assert batches(written(page, TODAY))["up"].fillna(0).tolist() == [0, 8]


def test_a_group_of_crops_stands_for_each_of_them():
    page = """\
2026-05-01
- plant 6 cabbage in Long 1
- plant 6 leek in Long 1
2026-09-01
- clear brassicas from Long 1
"""
    assert batches(written(page, TODAY))["ended"].tolist() == ["cleared", ""]


def test_a_kind_of_a_crop_is_that_crop_and_a_namesake_is_not():
    page = """\
2026-05-01
- plant 6 spring cabbage in Long 1
- plant 6 sweet potato in Long 1
2026-09-01
- clear cabbage from Long 1
- clear potato from Long 1
"""
    assert batches(written(page, TODAY))["ended"].tolist() == ["cleared", ""]


def test_a_loss_without_a_place_is_of_those_farthest_on():
    page = """\
2026-03-01
- sow 12 leek in modules in Tunnel
2026-03-20
- up 12 leek in Tunnel
2026-06-01
- plant out 8 leek from Tunnel to Long 1
2026-06-10
- lose 3 leek to rabbits
"""
    assert stood(page) == {("up", "Tunnel"): 4, ("planted", "Long 1"): 5}


def test_moving_some_splits_a_batch():
    page = """\
2026-03-01
- sow 12 leek in modules in Tunnel
2026-03-20
- up 12 leek in Tunnel
2026-04-01
- move 5 leek from Tunnel to Frame
"""
    assert stood(page) == {("up", "Tunnel"): 7, ("up", "Frame"): 5}
    assert len(batches(written(page, TODAY))) == 1


def test_the_same_bed_planted_in_two_goes_is_one_row():
    page = """\
2026-03-01
- sow 12 leek in modules in Tunnel
2026-03-20
- up 12 leek in Tunnel
2026-06-01
- plant out 5 leek from Tunnel to Long 1
2026-06-05
- plant out 6 leek from Tunnel to Long 1
"""
    assert stood(page) == {("up", "Tunnel"): 1, ("planted", "Long 1"): 11}


@pytest.mark.parametrize(
    ("entry", "place", "alive"),
    [
        ("prick out 8 leek into pots in Frame", "Frame", 8),
        ("lose 2 leek in Frame to slugs", "Frame", 8),
        ("count 9 leek in Frame", "Frame", 9),
    ],
)
def test_raising_a_loss_or_a_count_in_another_place_moves_the_batch_there(entry, place, alive):
    page = f"2026-03-01\n- sow 10 leek in modules in Tunnel\n2026-03-20\n- up 10 leek\n- {entry}\n"
    assert {where: many for (_, where), many in stood(page).items()} == {place: alive}


def test_planting_out_of_a_place_shows_that_the_batch_was_brought_there():
    page = """\
2026-03-01
- sow 10 leek in modules in Tunnel
2026-03-20
- up 10 leek in Tunnel
2026-06-01
- plant out 8 leek from Frame to Long 1
"""
    assert stood(page) == {("up", "Frame"): 2, ("planted", "Long 1"): 8}


def test_a_planting_that_no_batch_was_raised_for_begins_one():
    page = "2026-04-01\n- plant 30 onion 'Sturon' in Long 1\n"
    onion = only(page)
    assert (onion["how_started"], onion["planted"], onion["alive"]) == ("plant", 30, 30)


def test_a_planting_goes_to_a_batch_that_can_hold_it_before_an_older_remnant():
    page = """\
2025-03-01
- sow 10 leek in modules in Tunnel
2025-03-20
- up 10 leek in Tunnel
2025-06-01
- plant out 8 leek from Tunnel to Long 1
2026-03-01
- sow 30 leek in modules in Tunnel
2026-03-20
- up 30 leek in Tunnel
2026-06-01
- plant out 20 leek from Tunnel to Long 2
"""
    assert batches(written(page, TODAY))["planted"].tolist() == [8, 20]


def test_plants_planted_twice_are_counted_once():
    page = """\
2026-02-21
- plant 62 onion 'Sturon' in modules in Tunnel
2026-04-03
- plant out 60 onion 'Sturon' from Tunnel to Long 1
"""
    onion = only(page)
    assert (onion["planted"], onion["alive"]) == (62, 62)


# ---------------------------------------------------------------- coming up


def test_what_shows_later_is_counted_with_what_showed_first():
    page = """\
2026-03-01
- sow 20 leek in Long 1
2026-03-20
- up 12 of 20 leek in Long 1
2026-03-27
- up 17 of 20 leek in Long 1
"""
    leek = only(page)
    assert (leek["up"], leek["not_up"], leek["alive"]) == (17, 3, 17)


def test_more_pricked_out_than_had_shown_came_up_later():
    page = """\
2026-03-01
- sow 20 leek in modules in Tunnel
2026-03-20
- up 12 leek in Tunnel
2026-04-10
- prick out 14 leek in Tunnel
"""
    leek = only(page)
    assert (leek["up"], leek["not_up"], leek["pricked_out"], leek["alive"]) == (14, 6, 14, 14)


def test_seedlings_left_at_pricking_out_may_be_pricked_out_a_week_later():
    page = """\
2026-03-01
- sow 20 leek in a tray in Tunnel
2026-03-20
- up 18 leek in Tunnel
2026-04-10
- prick out 10 leek in Tunnel
2026-04-17
- prick out 5 leek in Tunnel
"""
    leek = only(page)
    assert (leek["pricked_out"], leek["discarded"], leek["alive"]) == (15, 3, 15)


def test_none_up_of_twelve_is_a_failed_sowing():
    page = "2026-03-01\n- sow 12 parsnip in Long 1\n2026-04-20\n- up 0 of 12 parsnip in Long 1\n"
    parsnip = only(page)
    assert (parsnip["not_up"], parsnip["alive"], parsnip["ended"]) == (12, 0, "failed")


def test_a_sowing_given_up_too_soon_is_taken_up_again():
    page = """\
2026-03-01
- sow 12 parsnip in Long 1
2026-03-25
- up 0 of 12 parsnip in Long 1
2026-04-10
- up 7 of 12 parsnip in Long 1
"""
    parsnip = only(page)
    assert (parsnip["up"], parsnip["not_up"], parsnip["alive"], parsnip["ended"]) == (7, 5, 7, "")


def test_failing_after_none_came_up_says_the_same_once():
    page = """\
2026-03-01
- sow 12 parsnip in Long 1
2026-04-20
- up 0 of 12 parsnip in Long 1
- fail parsnip in Long 1
"""
    assert unplaced(written(page, TODAY)).empty
    assert only(page)["not_up"] == 12


def test_seeds_are_alive_until_they_should_have_shown():
    page = "2026-03-01\n- sow 24 leek in modules in Tunnel\n"
    assert stood(page, today=date(2026, 3, 30)) == {("sown", "Tunnel"): 24}
    assert stood(page, today=date(2026, 6, 30)) == {("sown", "Tunnel"): (0, 24)}


def test_how_many_were_sown_is_learnt_from_how_many_came_up_of_them():
    page = """\
2026-03-01
- sow carrot in Long 1, 2 rows of 1.2 m
2026-04-20
- up 150 of 250 carrot in Long 1
"""
    carrot = only(page)
    assert (carrot["sown"], carrot["up"], carrot["not_up"], carrot["pct_up"]) == (250, 150, 100, 60)


# ---------------------------------------------------------------- at least, at most


def test_what_nobody_counts_has_no_number():
    page = (
        "2026-04-01\n- sow carrot in Long 1, 2 rows of 1.2 m\n2026-04-20\n- up carrot in Long 1\n"
    )
    carrot = only(page)
    assert "alive" not in carrot and "alive_high" not in carrot and "unknown" not in carrot
    assert carrot["alive_low"] == 1


@pytest.mark.parametrize(
    ("entries", "alive"),
    [
        ("up leek in Tunnel", (1, 24)),
        ("prick out leek in Tunnel", (1, 24)),
        ("plant out leek from Tunnel to Long 1", (1, 24)),
        ("up 5 or 6 leek in Tunnel", (5, 6)),
        ("lose leek in Tunnel to slugs", (0, 24)),
        ("lose 3 to 5 leek in Tunnel to slugs", (19, 21)),
        ("move leek to Frame", 24),
    ],
)
def test_an_uncounted_entry_leaves_a_range(entries: str, alive: Any):
    page = f"2026-03-01\n- sow 24 leek in modules in Tunnel\n2026-04-10\n- {entries}\n"
    assert list(stood(page, today=date(2026, 4, 11)).values()) == [alive]


def test_planting_some_of_what_nobody_saw_come_up_leaves_at_most_the_rest():
    page = """\
2026-03-01
- sow 24 leek in modules in Tunnel
2026-05-20
- plant out 20 leek from Tunnel to Long 1
"""
    assert stood(page) == {("sown", "Tunnel"): (0, 4), ("planted", "Long 1"): 20}
    assert only(page)["unknown"] == 4


def test_digging_by_weight_leaves_at_most_what_stood():
    page = """\
2026-05-20
- plant 20 leek in Long 1
2026-10-01
- dig up 2 kg leek from Long 1
"""
    assert stood(page) == {("cropping", "Long 1"): (0, 20)}


def test_picking_beans_leaves_the_plants():
    page = "2026-05-20\n- plant 9 runner bean in Long 1\n2026-08-01\n- pick 2 kg runner bean\n"
    assert stood(page) == {("cropping", "Long 1"): 9}


def test_a_count_of_fruits_is_no_count_of_plants():
    page = "2026-05-20\n- plant 2 courgette in Long 1\n2026-08-01\n- pick 5 courgette from Long 1\n"
    assert stood(page) == {("cropping", "Long 1"): 2}


def test_a_count_settles_a_range():
    page = """\
2026-05-20
- plant 20 leek in Long 1
2026-10-01
- dig up 2 kg leek from Long 1
2026-11-01
- count 11 leek in Long 1
"""
    leek = only(page)
    assert (leek["alive"], leek["lost"], leek["unknown"]) == (11, 0, 9)


def test_clearing_what_was_dug_by_weight_leaves_them_unaccounted_for():
    page = """\
2026-05-20
- plant 20 leek in Long 1
2026-10-01
- dig up 2 kg leek from Long 1
2026-11-01
- clear leek from Long 1
"""
    leek = only(page)
    assert (leek["cleared"], leek["unknown"], leek["alive"]) == (0, 20, 0)


def test_young_plants_that_may_have_been_given_away_leave_a_range():
    page = """\
2026-03-01
- sow 12 tomato in modules in Tunnel
2026-03-20
- up 12 tomato in Tunnel
2026-05-10
- give 4 tomato to Edie
"""
    assert stood(page) == {("up", "Tunnel"): (8, 12)}


# ---------------------------------------------------------------- contradictions


def test_a_count_above_the_ledger_is_shown_with_both_lines_and_changes_nothing():
    page = "2026-05-20\n- plant 20 leek in Long 1\n2026-07-01\n- count 23 leek in Long 1\n"
    (row,) = unplaced(written(page, TODAY)).to_dict("records")
    assert (row["count"], row["line"], row["other_line"]) == (3, 4, 2)
    assert stood(page) == {("planted", "Long 1"): 20}
    (note,) = plants_notes(written(page, TODAY))
    assert str(note) == (
        "count leek from Long 1: more than the diary accounts for (page.txt:4, against page.txt:2)"
    )


def test_the_other_line_is_the_one_that_last_counted_them():
    page = """\
2026-05-20
- plant 20 bean in Long 1
2026-07-01
- pick 1 kg bean from Long 1
2026-07-08
- count 23 bean in Long 1
"""
    (row,) = unplaced(written(page, TODAY)).to_dict("records")
    assert (row["count"], row["line"], row["other_line"]) == (3, 6, 2)


@pytest.mark.parametrize("entry", ["sow 0 bean in Long 1", "plant 0 leek in Long 1"])
def test_a_sowing_of_none_begins_no_batch_and_is_listed(entry: str):
    page = f"2026-05-20\n- {entry}\n"
    assert stood(page) == {}
    (row,) = unplaced(written(page, TODAY)).to_dict("records")
    assert (row["count"], row["reason"]) == (0, "none were sown or planted")


def test_more_planted_out_than_were_sown_is_a_contradiction():
    page = """\
2026-03-01
- sow 10 leek in modules in Tunnel
2026-05-20
- plant out 12 leek from Tunnel to Long 1
"""
    (row,) = unplaced(written(page, TODAY)).to_dict("records")
    assert (row["count"], row["reason"]) == (2, "more than the diary accounts for")
    assert only(page)["planted"] == 10


def test_a_picking_of_what_never_stood_there_is_listed_and_not_forced():
    page = "2026-05-20\n- plant 20 leek in Long 1\n2026-10-01\n- dig up 3 leek from Long 2\n"
    assert unplaced(written(page, TODAY))["reason"].tolist() == ["none of it stood there"]
    assert stood(page) == {("planted", "Long 1"): 20}


def test_a_picking_after_the_clearing_is_listed_beside_it():
    page = """\
2026-05-20
- plant 20 leek in Long 1
2026-10-01
- clear Long 1
2026-10-08
- dig up 3 leek from Long 1
"""
    (row,) = unplaced(written(page, TODAY)).to_dict("records")
    assert (row["line"], row["other_line"]) == (6, 4)


def test_a_picking_that_may_have_been_before_the_clearing_is_no_contradiction():
    page = """\
2026-05-20
- plant 9 pea in Long 1
2026-07-18
- clear pea from Long 1
mid July 2026
- pick 400 g pea from Long 1
"""
    assert unplaced(written(page, TODAY)).empty


def test_an_entry_without_a_day_is_listed():
    undated = happened("sowing", "sow", None, crop="leek", count=10.0)
    assert unplaced(diary([undated]))["reason"].tolist() == ["it has no day"]


# ---------------------------------------------------------------- how a batch ends


@pytest.mark.parametrize(
    ("entries", "ended"),
    [
        ("clear Long 1", "cleared"),
        ("clear lettuce from Long 1", "cleared"),
        ("cut 6 lettuce from Long 1", "harvested"),
        ("lose 6 lettuce in Long 1 to slugs", "lost"),
        ("fail lettuce in Long 1", "failed"),
        ("count 5 lettuce in Long 1", ""),
    ],
)
def test_a_batch_ends_by_what_ends_it(entries: str, ended: str):
    page = f"2026-05-01\n- plant 6 lettuce in Long 1\n2026-06-20\n- {entries}\n"
    assert only(page)["ended"] == ended


def test_an_annual_is_over_180_days_after_its_last_picking():
    # 1 May and 180 days are 28 October
    page = "2026-03-01\n- plant 6 lettuce in Long 1\n2026-05-01\n- cut 2 lettuce from Long 1\n"
    assert only(page, today=date(2026, 10, 28))["ended"] == ""
    over = only(page, today=date(2026, 10, 29))
    assert (over["ended"], over["alive"], over["unknown"]) == ("assumed", 0, 4)


def test_a_perennial_stands_until_it_is_cleared():
    page = "2020-03-01\n- plant 2 rhubarb in Long 1\n2021-05-01\n- pick 1 kg rhubarb from Long 1\n"
    assert only(page)["ended"] == ""


def test_clearing_one_crop_leaves_the_other():
    page = "2026-05-01\n- plant 6 kale, 9 leek in Long 1\n2026-06-01\n- clear kale from Long 1\n"
    assert stood(page) == {("planted", "Long 1"): 9}


def test_clearing_a_few_leaves_the_rest():
    page = "2026-05-01\n- plant 6 kale in Long 1\n2026-09-01\n- clear 2 kale from Long 1\n"
    assert stood(page) == {("planted", "Long 1"): 4}


def test_clearing_an_empty_bed_is_no_contradiction():
    assert unplaced(written("2026-05-01\n- clear Long 1\n", TODAY)).empty


# ---------------------------------------------------------------- days and ground


def test_an_uncertain_day_leaves_the_day_blank_and_the_counts_whole():
    page = "October 2025\n- plant 30 garlic in Long 1\n2026-07-01\n- lift 30 garlic from Long 1\n"
    garlic = only(page)
    assert "started" not in garlic and "days_to_picking" not in garlic
    assert (garlic["harvested"], garlic["ended"]) == (30, "harvested")


def test_a_sowing_of_an_uncertain_day_comes_before_what_may_be_earlier():
    page = "October 2025\n- sow 20 broad bean in Long 1\n2025-10-20\n- up 12 broad bean in Long 1\n"
    assert only(page)["up"] == 12


def test_the_order_of_the_pages_is_not_that_of_the_days():
    page = "2026-03-20\n- up 8 leek in Tunnel\n2026-03-01\n- sow 10 leek in modules in Tunnel\n"
    assert only(page)["up"] == 8


def test_what_stands_in_a_renamed_bed_is_found_by_the_new_name():
    sheet = SHEET + "\n2026-06-01\n- rename Long 1 to Orchard end\n"
    page = "2026-05-01\n- plant 9 leek in Long 1\n2026-10-01\n- dig up 4 leek from Orchard end\n"
    assert only(page, sheet=sheet)["alive"] == 5


def test_clearing_one_half_of_a_split_bed_leaves_what_may_be_in_the_other():
    sheet = SHEET + "\n2026-06-01\n- split Long 1 into Long 1a 2 m, Long 1b\n"
    page = "2026-05-01\n- plant 9 leek in Long 1\n2026-10-01\n- clear leek from Long 1a\n"
    assert stood(page, sheet=sheet) == {("planted", "Long 1"): (0, 9)}
    both = page + "- clear leek from Long 1b\n"
    assert only(both, sheet=sheet)["ended"] == "cleared"


def test_a_bed_sown_after_it_is_cleared_on_one_day_is_not_cleared_of_the_new():
    page = """\
2026-05-01
- plant 9 potato in Long 1
2026-08-01
- clear Long 1
- sow 20 turnip in Long 1
"""
    assert batches(written(page, TODAY))["ended"].tolist() == ["cleared", ""]


def test_the_frame_is_the_table_plants():
    check_frame(plants(written(LEEKS, TODAY)), "plants")


def test_an_annual_that_was_never_picked_is_over_two_years_after_its_sowing():
    page = "2024-03-01\n- plant 6 lettuce in Long 1\n"
    assert only(page, today=date(2026, 3, 1))["ended"] == ""
    assert only(page, today=date(2026, 3, 2))["ended"] == "assumed"


def test_an_empty_diary_has_no_plants():
    nothing = written("A page of prose.\n", TODAY)
    assert plants(nothing).empty and batches(nothing).empty and plants_notes(nothing) == []
