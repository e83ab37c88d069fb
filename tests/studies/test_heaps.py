"""The bays, worked by hand: what they hold, how old it is, its mix, its heat, and when it is ready.

A bay of 2 m x 1 m x 1.5 m holds 3 m3, and a bed of 1.2 m x 4.8 m covered 5 cm deep takes 288 l:
common practice, no published source, and plain arithmetic.
"""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened

from journal.events.model import PlaceDeclared
from journal.reading import read_sources
from journal.source import Source
from journal.studies.heaps import heaps, heaps_log, heaps_notes, heaps_past
from journal.studies.products import cover_litres
from journal.tables.schema import check_frame


def bay(name: str) -> PlaceDeclared:
    return PlaceDeclared(None, "bay", name, (), 2.0, 1.0, 1.5, 2.0, 3000.0)


BAYS = (bay("Bay A"), bay("Bay B"), bed("Long 1", 5.76))


def fill(when: str, material: str, litres: float | None = None, **columns: Any) -> dict[str, Any]:
    words = {"place": "Bay A", "material": material, "volume_l": litres} | columns
    return happened("heap", "fill", when, **words)


def level(when: str, litres: float, place: str = "Bay A") -> dict[str, Any]:
    return happened("heap", "level", when, place=place, volume_l=litres)


def move(when: str, litres: float | None, **columns: Any) -> dict[str, Any]:
    words = {"place": "Bay B", "place_from": "Bay A", "material": "compost"} | columns
    return happened("heap", "move", when, volume_l=litres, **words)


def probe(when: str, heat: float) -> dict[str, Any]:
    return happened("heap", "probe", when, place="Bay A", temperature_c=heat)


def spread(when: str, litres: float | None = None, **columns: Any) -> dict[str, Any]:
    words = {"place": "Long 1", "place_from": "Bay A", "material": "compost"} | columns
    return happened("dressing", "spread", when, volume_l=litres, **words)


EMPTY = happened("heap", "empty", "2025-01-01", place="Bay A")


def standing(*events: dict[str, Any], **of_diary: Any) -> dict[str, dict[str, Any]]:
    frame = heaps(diary(list(events), **({"places": BAYS} | of_diary)))
    check_frame(frame, "heaps")
    return {str(row["place"]): dict(row) for _, row in frame.iterrows()}


# ------------------------------------------------------------ what a bay holds


def test_a_bay_of_2_by_1_by_1_5_m_holds_3_m3():
    sheet = read_sources(
        [Source("plot.txt", "- bay Bay A, 2 x 1 x 1.5 m\n")], date(2026, 3, 1)
    ).sheet
    row = standing(fill("2025-05-01", "straw", 100.0), places=sheet.places)["Bay A"]
    assert row["size_l"] == pytest.approx(3000)


def test_a_bed_covered_5_cm_deep_takes_288_l():
    assert cover_litres(1.2 * 4.8, 0.05) == pytest.approx(288)


def test_so_much_compost_covers_so_much_ground():
    row = standing(EMPTY, fill("2025-05-01", "straw", 288.0))["Bay A"]
    assert row["covers_m2"] == pytest.approx(5.76)


def test_fillings_moves_and_takings_are_counted_since_the_bay_was_measured():
    # measured 1000 l; 300 in, 240 out to Bay B, 160 onto a bed: 900 l, 30 % of 3000
    rows = standing(
        fill("2025-01-01", "straw", 5000.0),
        level("2025-02-01", 1000.0),
        fill("2025-05-01", "straw", 300.0),
        move("2025-08-01", 240.0),
        spread("2025-09-01", 160.0),
    )
    row = rows["Bay A"]
    assert (row["held_l_low"], row["held_l_high"]) == (900, 900)
    assert row["full_pct"] == pytest.approx(30)
    assert row["measured"] == pd.Timestamp("2025-02-01")
    assert (rows["Bay B"]["held_l_low"], rows["Bay B"]["held_l_high"] is pd.NA) == (240, True)


def test_a_depth_is_measured_over_the_ground_of_the_bay():
    # 50 cm on 2 m2 are 1000 l
    event = happened("heap", "level", "2025-02-01", place="Bay A", depth_m=0.5)
    assert standing(event)["Bay A"]["held_l_low"] == pytest.approx(1000)


def test_what_was_there_before_the_diary_leaves_at_least_so_much():
    row = standing(fill("2025-05-01", "straw", 100.0))["Bay A"]
    assert row["held_l_low"] == 100 and pd.isna(row["held_l_high"])
    assert "to begin with" in row["why"]
    row = standing(EMPTY, fill("2025-05-01", "straw", 100.0))["Bay A"]
    assert (row["held_l_low"], row["held_l_high"]) == (100, 100)


def test_a_bed_covered_from_a_bay_takes_its_depth():
    # 5.76 m2 covered 5 cm deep take 288 l of 1000
    event = spread("2025-09-01", depth_m=0.05)
    assert standing(level("2025-02-01", 1000.0), event)["Bay A"]["held_l_low"] == pytest.approx(712)


def test_a_filling_that_was_not_measured_leaves_at_least_the_rest_until_it_is_measured():
    events = [EMPTY, fill("2025-05-01", "straw"), fill("2025-06-01", "leaves", 100.0)]
    row = standing(*events)["Bay A"]
    assert row["held_l_low"] == 100 and pd.isna(row["held_l_high"])
    # it was emptied before, so that nothing is older than the diary
    assert "to begin with" not in row["why"] and "not all" in row["why"]
    assert row["oldest"] == pd.Timestamp("2025-05-01")
    row = standing(*events, level("2025-07-01", 900.0))["Bay A"]
    assert (row["held_l_low"], row["held_l_high"]) == (900, 900)
    assert row["oldest"] == pd.Timestamp("2025-05-01") and "not all" not in row["why"]
    # the straw was 800 of the 900, so that 700 taken leave some of it
    row = standing(*events, level("2025-07-01", 900.0), spread("2025-08-01", 700.0))["Bay A"]
    assert row["oldest"] == pd.Timestamp("2025-05-01")


def test_a_bay_taken_from_before_anything_was_filled_may_hold_older_stuff():
    row = standing(spread("2025-02-01", 200.0), fill("2025-05-01", "straw", 100.0))["Bay A"]
    assert row["held_l_low"] == 100 and pd.isna(row["held_l_high"])
    assert "some may be older" in row["why"]


def test_a_bay_of_unknown_content_moved_whole_leaves_at_least_that_in_the_other():
    to_b = happened("heap", "turn", "2025-06-01", place="Bay B", place_from="Bay A")
    emptied = happened("heap", "empty", "2025-01-01", place="Bay B")
    rows = standing(emptied, fill("2025-05-01", "straw", 100.0), to_b)
    row = rows["Bay B"]
    assert row["held_l_low"] == 100 and pd.isna(row["held_l_high"])
    rows = standing(EMPTY, emptied, fill("2025-05-01", "straw", 100.0), to_b)
    assert rows["Bay B"]["held_l_high"] == 100


def test_a_taking_that_was_not_measured_leaves_a_range():
    row = standing(level("2025-02-01", 1000.0), spread("2025-09-01"))["Bay A"]
    assert (row["held_l_low"], row["held_l_high"]) == (0, 1000)
    assert "not all" in row["why"]


def test_a_bay_moved_without_an_amount_is_moved_whole():
    rows = standing(level("2025-02-01", 1000.0), move("2025-08-01", None))
    assert rows["Bay A"]["held_l_high"] == 0
    assert rows["Bay B"]["held_l_low"] == 1000


def test_more_than_a_bay_holds_is_said_to_have_settled():
    row = standing(EMPTY, fill("2025-05-01", "straw", 3500.0))["Bay A"]
    assert "settled" in row["why"]


def test_tanks_and_pots_are_no_bays():
    tank = PlaceDeclared(None, "tank", "Butt", volume_l=210.0)
    pot = PlaceDeclared(None, "pot", "Sack 1", volume_l=40.0)
    frame = heaps(
        diary(
            [
                happened("heap", "level", "2025-02-01", place="Butt", volume_l=120.0),
                happened("heap", "fill", "2025-02-01", place="Sack 1", material="compost"),
            ],
            (tank, pot),
        )
    )
    assert frame.empty


def test_a_pot_filled_from_a_bay_takes_from_it():
    pot = PlaceDeclared(None, "pot", "Sack 1", volume_l=40.0)
    rows = standing(
        level("2025-02-01", 1000.0),
        fill("2025-03-01", "compost", 40.0, place="Sack 1", place_from="Bay A"),
        places=(*BAYS, pot),
    )
    assert list(rows) == ["Bay A"] and rows["Bay A"]["held_l_low"] == 960


# ------------------------------------------------------------ how old it is


def test_the_oldest_goes_out_first():
    row = standing(
        EMPTY,
        fill("2025-03-01", "straw", 100.0),
        fill("2025-06-01", "straw", 100.0),
        move("2025-09-01", 150.0, material="straw"),
        today=date(2025, 10, 1),
    )
    # 100 l of March and 50 of June went; 50 of June are left: 122 days to 1 October
    assert row["Bay A"]["oldest"] == pd.Timestamp("2025-06-01")
    assert (row["Bay A"]["oldest_days"], row["Bay A"]["newest_days"]) == (122, 122)
    assert row["Bay B"]["oldest"] == pd.Timestamp("2025-03-01")
    assert row["Bay B"]["newest"] == pd.Timestamp("2025-06-01")


def test_settling_ages_nothing_and_loses_nothing():
    row = standing(
        EMPTY,
        fill("2025-03-01", "straw", 100.0),
        fill("2025-06-01", "straw", 100.0),
        level("2025-08-01", 80.0),
        move("2025-09-01", 39.0, material="straw"),
    )["Bay A"]
    # each filling settled from 100 to 40 l, so that 39 leave 1 l of March
    assert row["oldest"] == pd.Timestamp("2025-03-01")
    assert row["held_l_low"] == pytest.approx(41)


def test_an_uncertain_day_makes_the_oldest_at_most_and_the_newest_at_least_so_old():
    event = fill("2025-03-01", "straw", 100.0) | {"date_end": date(2025, 3, 31)}
    row = standing(EMPTY, event, today=date(2025, 4, 10))["Bay A"]
    assert (row["oldest_days"], row["newest_days"]) == (40, 10)


def test_stuff_from_before_the_diary_has_no_age():
    row = standing(level("2025-02-01", 1000.0), fill("2025-05-01", "straw", 100.0))["Bay A"]
    assert pd.isna(row["oldest"]) and row["newest"] == pd.Timestamp("2025-05-01")
    assert "before the diary" in row["why"]


# ------------------------------------------------------------ what it is made of


def test_the_mix_is_that_of_the_heap_in_the_making():
    # 10 kg cattle manure and 2 kg straw: C:N 31.98, moisture 69.5 % (see test_compost_mix)
    row = standing(
        fill("2024-05-01", "sawdust", 500.0),
        spread("2025-01-01", 100.0),
        fill("2025-05-01", "cow manure", mass_kg=10.0),
        fill("2025-05-01", "straw", mass_kg=2.0),
    )["Bay A"]
    assert row["materials"] == "cow manure, straw"
    assert row["c_to_n_low"] == pytest.approx(31.98, abs=0.006)
    assert row["moisture_pct_high"] == pytest.approx(69.5, abs=0.006)
    assert row["manure"]


def test_a_material_without_a_figure_leaves_no_mix_and_is_named():
    row = standing(fill("2025-05-01", "straw", 100.0), fill("2025-05-02", "nettles", 80.0))["Bay A"]
    assert pd.isna(row["c_to_n_low"]) and "nettles" in row["why"]


def test_days_at_55_c_are_those_on_which_it_was_read():
    rows = standing(
        fill("2025-05-01", "cow manure", 100.0),
        probe("2025-05-10", 54.9),
        probe("2025-05-11", 55.0),
        probe("2025-05-11", 61.0),
        probe("2025-05-14", 58.0),
        probe("2025-06-14", 30.0),
        happened("job", "turn", "2025-05-12", place="Bay A"),
    )
    row = rows["Bay A"]
    assert (row["hot_days"], row["hottest_c"], row["turns"]) == (2, 61, 1)
    assert (row["probed"], row["temperature_c"]) == (pd.Timestamp("2025-06-14"), 30)


def test_manure_in_a_heap_stands_beside_what_the_rule_asks_for():
    # 7 CFR 205.203(c)(2), read: http://www.omri.org/simple-gml-search/
    row = standing(fill("2025-05-01", "cow manure", 100.0), probe("2025-05-11", 60.0))["Bay A"]
    assert "3 days in a vessel" in row["why"] and "15 days and 5 turns" in row["why"]
    assert "1 day and 0 turns are noted" in row["why"]
    row = standing(fill("2025-05-01", "straw", 100.0), probe("2025-05-11", 60.0))["Bay A"]
    assert "205.203" not in row["why"]


# ------------------------------------------------------------ when it is ready


def heap_of(began: str, taken: str) -> list[dict[str, Any]]:
    return [fill(began, "straw", 100.0), spread(taken, 50.0)]


def test_a_heap_is_likely_ready_when_the_bays_own_past_heaps_were():
    # 200, 220 and 300 days before: usually 220, between 200 and 300
    row = standing(
        *heap_of("2022-01-01", "2022-07-20"),
        *heap_of("2023-01-01", "2023-08-09"),
        *heap_of("2024-01-01", "2024-10-27"),
        fill("2025-01-01", "straw", 100.0),
    )["Bay A"]
    assert row["heaps_before"] == 3
    assert row["ready_low"] == pd.Timestamp("2025-07-20")
    assert row["ready"] == pd.Timestamp("2025-08-09")
    assert row["ready_high"] == pd.Timestamp("2025-10-28")


def test_a_first_heap_has_no_day_and_says_why():
    row = standing(fill("2025-01-01", "straw", 100.0))["Bay A"]
    assert pd.isna(row["ready"]) and row["heaps_before"] == 0
    assert "nothing says when" in row["why"]


def test_a_second_taking_of_the_same_heap_is_no_heap_of_its_own():
    frame = heaps_past(
        diary([*heap_of("2024-01-01", "2024-07-01"), spread("2024-08-01", 20.0)], BAYS)
    )
    check_frame(frame, "heaps past")
    assert list(frame["days_low"]) == [182]
    assert frame["events"].iloc[0] == "1, 2"


def test_compost_moved_in_goes_out_before_the_bays_own_heap():
    own = fill("2025-01-01", "leaves", 200.0, place="Bay B")
    frame = heaps_past(
        diary(
            [
                level("2025-01-01", 1000.0),
                own,
                move("2025-02-01", 300.0),
                spread("2025-03-01", 300.0, place_from="Bay B"),
                spread("2025-12-01", 100.0, place_from="Bay B"),
            ],
            BAYS,
        )
    )
    assert list(frame["taken"]) == [pd.Timestamp("2025-12-01")]


def test_a_heap_turned_into_the_next_bay_goes_on_there():
    rows = standing(
        EMPTY,
        fill("2025-01-01", "straw", 100.0),
        happened("heap", "turn", "2025-03-01", place="Bay B", place_from="Bay A"),
    )
    assert rows["Bay B"]["started"] == pd.Timestamp("2025-01-01")
    assert rows["Bay B"]["turns"] == 1
    assert pd.isna(rows["Bay A"]["started"])


# ------------------------------------------------------------ the log


def test_the_log_has_a_line_for_each_thing_done():
    frame = heaps_log(
        diary(
            [
                EMPTY,
                fill("2025-03-01", "straw", 100.0),
                probe("2025-04-01", 40.0),
                move("2025-05-01", 60.0),
            ],
            BAYS,
        )
    )
    check_frame(frame, "heaps log")
    own = frame[frame["place"] == "Bay A"]
    assert list(own["what"]) == ["emptied", "filled", "probed", "moved out"]
    assert list(own["held_l_low"]) == [0, 100, 100, 40]
    assert list(own["change_l"])[-1] == -60
    assert list(frame[frame["place"] == "Bay B"]["what"]) == ["moved in"]


def test_what_is_not_known_of_a_bay_is_told():
    notes = heaps_notes(diary([fill("2025-05-01", "nettles", 80.0)], BAYS))
    assert any("nettles" in str(note) for note in notes)
    assert all(str(note).startswith("Bay A: ") for note in notes)


def test_what_happens_after_today_has_not_happened():
    rows = standing(EMPTY, fill("2025-05-01", "straw", 100.0), today=date(2025, 4, 1))
    assert rows["Bay A"]["held_l_low"] == 0
