"""A year in a handful of figures."""

from datetime import date
from pathlib import Path

from support.hand_made import diary, happened, picked

import journal
from journal.studies.headlines import Headline, headlines, years_written


def test_a_year_in_figures_worked_by_hand() -> None:
    # 2025: 6 + 2 kg of potatoes and an unweighed picking of kale; 2024: 4 kg. 8 against 4 kg is
    # 100 % more. One job of 90 min was timed, one was not.
    events = [
        picked("potato", "2024-08-01", 4.0),
        picked("potato", "2025-08-01", 6.0),
        picked("potato", "2025-08-09", 2.0),
        picked("kale", "2025-08-09"),
        happened("job", "weed", "2025-05-01", minutes=90.0),
        happened("job", "weed", "2025-05-02"),
    ]
    assert headlines(diary(events), 2025) == [
        Headline("picked", 8.0, "kg", "3 pickings of 2 crops, 1 of them not weighed"),
        Headline("heaviest crop", 8.0, "kg", "potato, in 2 pickings"),
        Headline("against 2024", 100.0, "%", "in weight, from 4.0 kg"),
        Headline("work", 90.0, "min", "timed; 1 more job not"),
        Headline("days written", 4.0, "", "with 5 entries"),
    ]


def test_crops_of_the_same_weight_are_both_told() -> None:
    # 0.1 + 0.2 kg are no exact 0.3 in binary
    events = [
        picked("carrot", "2025-08-01", 0.1),
        picked("carrot", "2025-08-02", 0.2),
        picked("parsnip", "2025-08-03", 0.3),
        picked("kale", "2025-08-03", 0.2),
    ]
    (told,) = [each for each in headlines(diary(events), 2025) if each.name == "heaviest crop"]
    assert told.about == "carrot, in 2 pickings, and as much parsnip"


def test_a_year_without_a_weight_says_its_pickings() -> None:
    (pickings, _) = headlines(diary([picked("kale", "2025-08-09")]), 2025)
    assert pickings == Headline("pickings", 1.0, "", "of 1 crop, none of them weighed")


def test_an_open_year_is_held_to_the_same_day() -> None:
    events = [picked("kale", "2025-01-09", 2.0), picked("kale", "2026-01-09", 1.0)]
    figures = headlines(diary(events, today=date(2026, 3, 1)), 2026)
    assert figures[2] == Headline(
        "against 2025", -50.0, "%", "in weight, from 2.0 kg to the same day"
    )


def test_a_year_without_a_word_has_no_figures() -> None:
    assert headlines(diary([picked("kale", "2025-08-09", 1.0)]), 2019) == []


def test_the_years_written_are_those_that_are_certain() -> None:
    events = [
        picked("kale", "2025-08-09"),
        picked("kale", "2022-12-30", until="2023-01-02"),
        picked("kale", None),
        happened("job", "weed", "2021-05-01"),
    ]
    assert years_written(diary(events)) == [2021, 2025]


def test_a_met_file_is_not_the_keepers_writing(tmp_path: Path) -> None:
    (tmp_path / "met.csv").write_text("date,rain mm\n2024-05-01,1.5\n2025-05-01,2.5\n")
    (tmp_path / "plot.txt").write_text("- met file met.csv\n\n1 June 2025\n- pick 1 kg kale\n")
    one = journal.read(tmp_path, today=date(2026, 3, 1))
    assert len(one.weather) == 2
    assert years_written(one) == [2025]
    assert Headline("days written", 1.0, "", "with 1 entry") in headlines(one, 2025)
