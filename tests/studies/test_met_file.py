"""A diary and its met file: the diary's own reading wins, and the difference is told."""

from pathlib import Path

import pytest
from support.weather import beside_met_file, weather_diary

from journal.studies.climate import climate
from journal.studies.met_file import met_file, met_file_notes
from journal.studies.weather_days import weather_days

MET = """date,t_min,t_max,rain
2026-01-05,-1.0,5.0,2.0
2026-01-06,0.5,6.0,3.0
2026-01-07,1.0,,4.0
"""
PAGE = "5 January 2026\n- weather -2 to 4 C\n\n6 January 2026\n- rain 6.5 mm\n"


@pytest.fixture
def diary(tmp_path: Path):
    return beside_met_file(tmp_path, PAGE, MET)


def test_the_diary_wins_by_day_and_by_variable(diary):
    days = weather_days(diary)
    assert days["t_min"].tolist() == [-2.0, 0.5, 1.0]
    assert days["rain"].tolist() == [2.0, 6.5, 4.0]
    frame = climate(diary).set_index("measure")
    assert frame.loc["rain", "value"] == 12.5
    assert frame.loc["frost days", "value"] == 1


def test_the_difference_is_told_with_the_day_of_the_largest(diary):
    frame = met_file(diary).set_index("variable")
    rain = frame.loc["rain"]
    assert (rain["source"], rain["days_read"], rain["days_used"], rain["days_both"]) == (
        "met.csv",
        3,
        2,
        1,
    )
    assert rain["mean_difference"] == rain["largest_difference"] == -3.5
    assert f"{rain['date']:%Y-%m-%d}" == "2026-01-06"
    assert frame.loc["t_min", "mean_difference"] == 1.0
    assert frame.loc["t_max", "days_read"] == 2


def test_a_note_says_where_the_two_are_far_apart(diary):
    (note,) = met_file_notes(diary)
    assert note.subject == "rain of met.csv"
    assert "-3.5 on 6 January 2026" in note.reason


def test_of_two_met_files_the_first_on_the_sheet_counts(tmp_path: Path):
    (tmp_path / "other.csv").write_text("date,rain\n2026-01-07,9\n2026-01-08,9\n", "utf-8")
    sheet = "- plot Home\n- met file met.csv\n- met file other.csv"
    days = weather_days(beside_met_file(tmp_path, PAGE, MET, sheet))
    assert days["rain"].tolist() == [2.0, 6.5, 4.0, 9.0]


def test_without_a_met_file_there_is_nothing_to_compare():
    assert met_file(weather_diary(PAGE)).empty
    assert met_file_notes(weather_diary(PAGE)) == []
