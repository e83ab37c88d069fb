"""Families on the ground year by year, return intervals, and where a crop can go next.

The published years are those of `shared/rotation_years.csv`, each with its source there.
"""

from datetime import date

import pandas as pd
import pytest

from journal.diary import Diary
from journal.reading import read_sources
from journal.source import Source
from journal.studies.ground import ground, ground_notes, is_root
from journal.studies.ground_next import ground_next, usual_day, where_next
from journal.studies.rotation import advice
from journal.tables.schema import check_frame

SHEET = "- bed Long 1, 1.2 x 4.8 m\n- bed Long 2, 1.2 x 4.8 m\n"
TODAY = date(2026, 3, 1)


def diary(text: str, today: date = TODAY, sheet: str = SHEET) -> Diary:
    reading = read_sources([Source("2020.txt", text), Source("plot.txt", sheet)], today)
    assert not reading.has_errors
    return Diary(reading, today)


def stood(crop: str, came: str, went: str, place: str = "Long 1") -> str:
    return f"{came}\n- plant {crop} in {place}\n\n{went}\n- clear {crop} from {place}\n\n"


def family_rows(text: str, family: str, place: str = "Long 1") -> dict[int, dict[str, object]]:
    frame = ground(diary(text))
    check_frame(frame, "ground")
    own = frame[(frame["family"] == family) & (frame["place"] == place)]
    return {int(row["year"]): row for row in own.to_dict("records")}


# ------------------------------------------------------------ what is published


def test_the_sources_on_brassicas_differ_and_their_range_says_so():
    # University of Connecticut IPM: 7 years without for clubroot, 3 to 4 blackleg, 2 to 3 black
    # rot. Rotations of 3 (Ministry of Agriculture 1945, RHS) and 4 years (RHS): 2 and 3 without.
    found = advice(["cabbage"])
    assert (found.low, found.high) == (2, 7)
    for word in ("clubroot", "blackleg", "Connecticut", "Ministry of Agriculture", "Royal"):
        assert word in found.words


def test_a_rotation_of_three_years_is_two_without():
    found = advice(["lettuce"])
    # Connecticut IPM: 3 years without for bottom rot; rotations of 3 and 4 years
    assert (found.low, found.high) == (2, 3)
    assert any("length of rotation 3 years" in who for who in found.enough(2.0))
    assert any("length of rotation 4 years" in who for who in found.too_soon(2.0))


def test_how_long_a_trouble_lives_and_the_law_on_seed_potatoes_advise_no_garden():
    found = advice(["potato"])
    # Farmers Weekly: one year in ten or more on land with eelworm, so nine without
    assert (found.low, found.high) == (2, 9)
    assert "10 years or more" in found.words and "Seed Potatoes (England)" in found.words
    assert advice(["onion"]).high == 3  # white rot lives 15 to 20 years


def test_whole_rotations_are_for_annuals():
    assert advice(["rhubarb"]).figures == ()
    assert advice(["asparagus"]).low is None
    assert "without end" in advice(["asparagus"]).words


# ------------------------------------------------------------ what stood where


def test_a_family_stands_in_every_year_that_it_stood_in():
    rows = family_rows(stood("leek", "4 July 2024", "8 March 2025"), "Amaryllidaceae")
    assert list(rows) == [2024, 2025]
    assert rows[2024]["arrived"] and not rows[2025]["arrived"]
    assert (rows[2025]["since"], rows[2025]["until"]) == (
        pd.Timestamp("2025-01-01"),
        pd.Timestamp("2025-03-08"),
    )
    assert "stands on" in str(rows[2025]["why"])


def test_the_return_interval_is_from_the_last_day_there_to_the_next_arrival():
    # 1 September 2022 to 1 April 2025: 943 days
    text = stood("potato", "1 April 2022", "1 September 2022")
    text += stood("tomato", "1 April 2025", "1 October 2025")
    row = family_rows(text, "Solanaceae")[2025]
    assert row["years_without"] == pytest.approx(943 / 365.2425)
    assert row["last_before"] == pd.Timestamp("2022-09-01")
    assert row["crops"] == "tomato"


def test_a_family_that_was_never_there_before_has_no_interval_and_says_why():
    row = family_rows(stood("potato", "1 April 2022", "1 September 2022"), "Solanaceae")[2022]
    assert pd.isna(row["years_without"]) and "from 2022" in str(row["why"])


def test_another_bed_of_the_same_family_is_no_return():
    text = stood("potato", "1 April 2022", "1 September 2022", "Long 2")
    text += stood("potato", "1 April 2023", "1 September 2023")
    assert pd.isna(family_rows(text, "Solanaceae")[2023]["years_without"])


def test_a_rename_takes_the_history_with_it():
    text = stood("potato", "1 April 2022", "1 September 2022")
    text += "1 February 2023\n- rename Long 1 to Top bed\n\n"
    text += stood("potato", "1 April 2023", "1 September 2023", "Top bed")
    rows = family_rows(text, "Solanaceae", "Top bed")
    assert list(rows) == [2022, 2023] and rows[2023]["years_without"] < 1


def test_manure_within_the_year_before_roots_is_told():
    # roots on fresh manure may fork: common practice, no published source
    text = "8 February 2025\n- dig in 3 barrows horse manure in Long 1\n\n"
    text += "1 October 2024\n- spread 3 barrows compost on Long 1\n\n"
    text += "1 April 2025\n- sow carrot in Long 1, 3 rows of 4 m\n"
    row = family_rows(text, "Apiaceae")[2025]
    assert row["roots"] and row["manured"] == pd.Timestamp("2025-02-08")
    assert row["composted"] == pd.Timestamp("2024-10-01")
    assert "common practice, no published source" in str(row["why"])
    beans = family_rows(text.replace("carrot", "pea"), "Fabaceae")[2025]
    assert not beans["roots"] and "common practice" not in str(beans["why"])


def test_manure_of_more_than_a_year_before_is_none_of_it():
    text = "30 March 2024\n- dig in 3 barrows horse manure in Long 1\n\n"
    text += "1 April 2025\n- sow carrot in Long 1, 3 rows of 4 m\n"
    assert pd.isna(family_rows(text, "Apiaceae")[2025]["manured"])


@pytest.mark.parametrize(
    ("crop", "root"), [("carrot", True), ("beetroot", True), ("parsley", False), ("potato", False)]
)
def test_roots_are_what_is_eaten_from_under_the_ground(crop: str, root: bool):
    assert is_root(crop) is root


def test_a_crop_without_a_family_rotates_by_itself_and_is_told():
    own = diary("1 April 2025\n- plant 6 oddity in Long 1\n")
    assert set(ground(own)["family"]) == {""}
    assert [note.subject for note in ground_notes(own)] == ["oddity"]


# ------------------------------------------------------------ where it can go next


def beds(text: str, crop: str, year: int, sheet: str = SHEET) -> dict[str, dict[str, object]]:
    frame = where_next(diary(text, sheet=sheet), crop, year)
    check_frame(frame, "ground next")
    return {str(row["place"]): row for row in frame.to_dict("records")}


ONIONS = stood("onion", "1 April 2023", "1 August 2023")
PEAS = stood("pea", "1 April 2021", "1 August 2021", "Long 2")


@pytest.mark.parametrize(
    ("year", "fits"),
    [
        # 1 August 2023 to 1 April: 1.7, 2.7 and 3.7 years; rotations of 3 and 4 years, RHS 2 to 3
        (2025, "no"),
        (2026, "by some sources"),
        (2027, "yes"),
    ],
)
def test_onions_go_back_when_the_sources_say_so(year: int, fits: str):
    row = beds(ONIONS, "onion", year)["Long 1"]
    assert row["fits"] == fits
    reasons = f"{row['reasons_for']} / {row['reasons_against']}"
    assert "onion there until 1 August 2023" in reasons
    if fits == "by some sources":
        assert "enough for" in str(row["reasons_for"])
        assert "too soon for" in str(row["reasons_against"])


def test_leeks_are_of_the_onions_family():
    row = beds(ONIONS, "leek", 2024)["Long 1"]
    assert row["fits"] == "no" and row["events"] == "1"


def test_where_the_family_never_was_the_years_of_the_diary_count():
    # told of Long 2 from April 2021: five years by April 2026, of Long 1 from 2023: three
    rows = beds(ONIONS + PEAS, "carrot", 2026)
    assert rows["Long 2"]["fits"] == "yes"
    assert rows["Long 1"]["fits"] == "as far as the diary goes" or (rows["Long 1"]["fits"] == "yes")
    assert "no Apiaceae there in this diary" in str(rows["Long 2"]["reasons_for"])
    # clubroot asks for seven years, and nothing is written of the time before
    assert beds(ONIONS + PEAS, "cabbage", 2026)["Long 2"]["fits"] == "as far as the diary goes"


def test_a_bed_of_which_nothing_is_written_says_so():
    row = beds(ONIONS, "carrot", 2026)["Long 2"]
    assert row["fits"] == "as far as the diary goes" and "nothing is written" in str(row["why"])


def test_a_perennial_is_in_the_way():
    text = "14 March 2020\n- plant 3 rhubarb in Long 1\n"
    row = beds(text, "onion", 2026)["Long 1"]
    assert row["fits"] == "no" and "rhubarb stands there" in str(row["reasons_against"])
    assert row["standing"] == "rhubarb"


def test_practice_is_named_as_such():
    # all of it common practice, no published source
    text = ONIONS + PEAS + "8 February 2026\n- dig in 3 barrows horse manure in Long 1\n"
    text += "- lime Long 2 200 g per m2\n"
    text += stood("broad bean", "1 March 2025", "1 July 2025", "Long 2")
    carrots = beds(text, "carrot", 2026)["Long 1"]
    potatoes = beds(text, "potato", 2026)
    cabbages = beds(text, "cabbage", 2026)["Long 2"]
    assert "manured on 8 February 2026" in str(carrots["reasons_against"])
    assert "manured on 8 February 2026" in str(potatoes["Long 1"]["reasons_for"])
    assert "limed on 8 February 2026" in str(potatoes["Long 2"]["reasons_against"])
    assert "limed on 8 February 2026" in str(cabbages["reasons_for"])
    assert "peas or beans there in 2025" in str(cabbages["reasons_for"])
    assert "common practice, no published source" in str(cabbages["reasons_for"])


def test_the_best_bed_stands_first():
    frame = where_next(diary(ONIONS + PEAS), "onion", 2025)
    assert list(frame["place"]) == ["Long 2", "Long 1"]


def test_a_year_to_come_leaves_open_what_goes_in_before():
    assert "before 2027" in str(beds(ONIONS, "onion", 2027)["Long 1"]["why"])
    assert beds(ONIONS, "onion", 2026)["Long 1"]["why"] == ""


def test_a_crop_goes_in_when_it_usually_did():
    text = "".join(
        stood("onion", f"{day} April {year}", f"1 August {year}")
        for day, year in ((1, 2022), (11, 2023), (5, 2025))
    )
    assert usual_day(diary(text), "onion", 2026) == date(2026, 4, 5)
    assert usual_day(diary(text), "carrot", 2026) == date(2026, 4, 1)


def test_a_bed_that_is_gone_is_no_choice():
    text = ONIONS + "2 March 2024\n- split Long 1 into Long 1a 2 m, Long 1b\n"
    assert set(beds(text, "carrot", 2026)) == {"Long 1a", "Long 1b", "Long 2"}


def test_every_annual_of_the_diary_is_tried_on_every_bed():
    text = ONIONS + PEAS + "14 March 2020\n- plant 3 rhubarb in Long 1\n"
    frame = ground_next(diary(text))
    check_frame(frame, "ground next")
    assert set(frame["crop"]) == {"onion", "pea"} and len(frame) == 4
    assert set(frame["year"]) == {2026}
    assert set(ground_next(diary(text, today=date(2026, 9, 1)))["year"]) == {2027}


def test_a_diary_without_plants_has_no_rows():
    assert ground(diary("")).empty and ground_next(diary("")).empty
