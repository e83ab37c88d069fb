"""The sums that answers rest on, worked by hand on small diaries."""

from datetime import date

import pytest

from journal.diary import Diary
from journal.questions.answer import ask
from journal.reading import read_sources
from journal.source import Source
from journal.studies.intervals import longest_gap
from journal.studies.lost import lost
from journal.studies.rankings import occasions
from journal.studies.season_shift import season_shift
from journal.studies.store_room import left_in_store

TODAY = date(2026, 3, 1)


def diary(text: str) -> Diary:
    return Diary(read_sources([Source("page.txt", text)], TODAY), TODAY)


def test_what_a_stock_check_misses_is_lost_beside_what_was_written():
    read = diary(
        "1 May 2025\n- plant out 20 leek in Top bed\n\n1 June 2025\n- lose 3 leek in Top bed\n\n"
        "1 July 2025\n- count 12 leek in Top bed\n"
    )
    # 20 planted, 3 lost, so 17 should stand; 12 do, so 5 more are lost
    assert list(lost(read)["count"]) == [3, 5]
    assert ask(read, "How many leeks did I lose?").value == 8


def test_what_is_left_in_store_is_a_range_where_a_gift_may_have_come_from_elsewhere():
    read = diary(
        "- store Shed\n\n1 Sept 2025\n- store 10 kg potato in Shed\n\n"
        "5 Sept 2025\n- lift 2 kg potato from Top bed\n\n"
        "10 Sept 2025\n- give 1 kg potato to Edie\n\n1 Oct 2025\n- use 3 kg potato from Shed\n"
    )
    left = left_in_store(read.events, "potato", {"Shed"})
    # 10 - 3 used; the gift of 10 September may have been of what was lifted since
    assert left is not None
    assert (left.low, left.high) == (6, 7)


def test_twice_is_two_times_and_two_cultivars_are_one():
    read = diary(
        "1 July 2025\n- pick 1 kg bean 'Cobra', 2 kg bean 'Blauhilde'\n- water Top bed twice\n"
    )
    events = read.events
    assert occasions(events[events["verb"] == "pick"]) == 1
    assert occasions(events[events["verb"] == "water"]) == 2


def test_the_longest_gap_is_between_two_days_that_are_certain():
    read = diary(
        "1 July 2025\n- water Top bed\n\n5 July 2025\n- water Top bed\n\n20 July 2025\n"
        "- water Top bed\n\nabout 20 Sept 2025\n- water Top bed\n"
    )
    found = longest_gap(read.events)
    assert found is not None
    assert found[0] == 15


@pytest.mark.parametrize("question", ["How many kilos of beans did we pick?", "bean harvest"])
def test_a_weight_of_several_crops_together_is_no_crops_own(question: str):
    read = diary("1 July 2025\n- pick tomato, bean and courgette 2.5 kg altogether\n")
    assert ask(read, question).value is None
    assert ask(read, "How much did we pick in 2025?").value == 2.5


def test_two_first_pickings_are_compared_by_the_warmth_of_their_years_too(sample_diary: Diary):
    answer = ask(sample_diary, "Were the first tomatoes earlier in 2025 than in 2024?")
    shift = season_shift(sample_diary).set_index(["crop", "cultivar", "year"])
    apart = shift.loc[("tomato", "", 2025), "change_low"]
    assert answer.value == shift.loc[("tomato", "", 2025), "change_days"]
    assert f"{apart:.0f} degree days more, over 10 C" in " ".join(answer.caveats)


def test_first_sowings_are_compared_by_the_calendar_alone(sample_diary: Diary):
    answer = ask(sample_diary, "Were leeks sown earlier in 2025 than in 2024?")
    assert answer.value == -1
    assert "degree days" not in " ".join(answer.caveats)
