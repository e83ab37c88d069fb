"""What took up which soil and when: whole diaries read, so that the ledger speaks."""

from datetime import date

import pytest

from journal.diary import Diary
from journal.reading import read_sources
from journal.source import Source
from journal.studies.in_soil import in_soil

SHEET = """
- bed Long 1, 1.2 x 4.8 m
- bed Long 2, 1.2 x 4.8 m
- house Tunnel, 3 x 6 m
- frame Frame, 0.9 x 1.8 m
- pot Sack 1, 40 l
"""


def diary(text: str, today: date = date(2026, 3, 1), sheet: str = SHEET) -> Diary:
    reading = read_sources([Source("2020.txt", text), Source("plot.txt", sheet)], today)
    assert not reading.has_errors, [str(problem.message) for problem in reading.problems]
    return Diary(reading, today)


def spans(text: str, **of_diary: str) -> list[tuple[str, str, str, str]]:
    """Crop, ground and the first and last day of each."""
    return [
        (one.crop, one.ground, one.since.isoformat(), one.until.isoformat())
        for one in in_soil(diary(text, **of_diary))
    ]


def test_a_crop_stands_from_planting_to_clearing_and_not_only_on_its_planting_day():
    text = """
4 July 2024
- plant 40 leek in Long 1

8 March 2025
- clear Long 1
"""
    assert spans(text) == [("leek", "Long 1", "2024-07-04", "2025-03-08")]


def test_seedlings_raised_in_the_tunnel_take_up_the_bed_they_are_planted_in():
    text = """
14 March 2025
- sow 24 leek in modules in Tunnel

4 July 2025
- plant out 24 leek in Long 1 from Tunnel

1 December 2025
- clear leek from Long 1
"""
    assert spans(text) == [("leek", "Long 1", "2025-07-04", "2025-12-01")]


def test_what_crops_in_the_tunnel_takes_up_its_soil():
    text = """
14 March 2025
- sow 6 tomato in modules in Tunnel

15 May 2025
- plant 6 tomato in Tunnel

1 August 2025
- pick 1 kg tomato from Tunnel

1 October 2025
- clear tomato from Tunnel
"""
    assert spans(text) == [("tomato", "Tunnel", "2025-05-15", "2025-10-01")]


@pytest.mark.parametrize("where", ["in Sack 1", "in 9 cm pots in Long 1"])
def test_what_grows_in_pots_stands_on_no_ground(where: str):
    assert spans(f"1 April 2025\n- plant 2 potato {where}\n") == []


def test_a_bed_that_was_split_carried_the_crop_in_both_of_its_parts():
    text = """
1 April 2023
- plant 10 potato in Long 1

1 September 2023
- clear Long 1

2 March 2024
- split Long 1 into Long 1a 2 m, Long 1b
"""
    assert [row[1] for row in spans(text)] == ["Long 1a", "Long 1b"]


def test_an_annual_that_the_ledger_takes_to_be_over_ends_with_its_last_picking():
    text = """
1 May 2024
- sow runner bean in Long 1

1 August 2024
- pick 1 kg runner bean from Long 1

4 October 2024
- pick 200 g runner bean from Long 1
"""
    assert spans(text) == [("runner bean", "Long 1", "2024-05-01", "2024-10-04")]


def test_an_annual_of_which_nothing_was_written_for_a_year_is_over():
    assert spans("1 May 2023\n- sow radish in Long 1\n") == [
        ("radish", "Long 1", "2023-05-01", "2024-04-30")
    ]


def test_a_perennial_stands_until_it_is_cleared():
    (one,) = in_soil(diary("14 March 2020\n- plant 3 rhubarb in Long 1\n"))
    assert one.stands and one.perennial
    assert one.until == date(2026, 3, 1)
    assert one.years == range(2020, 2027)


def test_a_vague_day_leaves_the_widest_time():
    text = """
October 2024
- plant garlic in Long 1

July 2025
- clear Long 1
"""
    assert spans(text) == [("garlic", "Long 1", "2024-10-01", "2025-07-31")]


def test_a_family_of_the_sheet_is_known():
    sheet = SHEET + "- crop oca, also ocas, family Oxalidaceae, roots\n"
    (one,) = in_soil(diary("1 April 2025\n- plant 6 oca in Long 1\n", sheet=sheet))
    assert (one.family, one.kin) == ("Oxalidaceae", "Oxalidaceae")


def test_a_crop_without_a_family_is_its_own_kin():
    (one,) = in_soil(diary("1 April 2025\n- plant 6 oddity in Long 1\n"))
    assert (one.family, one.kin) == ("", "oddity")


def test_a_diary_without_plants_has_none():
    assert in_soil(diary("1 April 2025\n- weed Long 1 1h\n")) == ()
