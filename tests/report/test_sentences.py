"""The year in sentences: written from the figures, silent where there are none."""

from datetime import date

from support.hand_made import diary, happened, picked

from journal.report.sentences import year_in_sentences


def test_a_year_is_told_in_its_own_figures() -> None:
    one = diary(
        [
            picked("kale", "2024-07-01", 4.0),
            picked("kale", "2025-07-01", 3.0),
            picked("leek", "2025-07-02", 1.0),
            picked("leek", "2025-07-03"),
            happened("job", "weed", "2025-05-01", minutes=90.0, place="A"),
            happened("job", "dig", "2025-02-01", minutes=30.0, place="B"),
        ]
    )
    assert year_in_sentences(one, 2025, 2024) == [
        "At least 4 kg came in, in 3 pickings of 2 crops; kale gave most, 3 kg.",
        "That is as much by weight as in 2024 (4 kg): kale fell furthest (by 1 kg).",
        "The work that was timed came to 2 h, May the busiest month; A took most of any place, "
        "1 h 30 min.",
    ]


def test_what_was_lost_is_told_with_its_reason() -> None:
    names = {"crop": "leek", "cultivar": "A", "place": "Bed"}
    one = diary(
        [
            happened("planting", "plant", "2025-04-01", count=9.0, **names),
            happened("loss", "lose", "2025-06-01", count=4.0, subject="slugs", **names),
        ]
    )
    assert year_in_sentences(one, 2025, 2024) == ["4 leek ‘A’ to slugs were lost."]


def test_a_year_without_figures_is_not_told() -> None:
    assert year_in_sentences(diary([happened("sighting", "see", "2025-01-01")]), 2025, 2024) == []


def test_an_open_year_is_told_to_the_same_day() -> None:
    events = [picked("kale", "2025-01-10", 1.0), picked("kale", "2026-01-10", 2.0)]
    told = year_in_sentences(diary(events, today=date(2026, 3, 1)), 2026, 2025)
    assert told[1].startswith("That is 100 % more by weight than by the same day of 2025 (1 kg)")


def test_no_month_is_the_busiest_where_undated_work_could_make_another_one_so() -> None:
    jobs = [
        happened("job", "weed", "2025-05-01", minutes=90.0),
        happened("job", "dig", "2025-02-01", minutes=30.0),
    ]
    winter = happened("job", "prune", "2025-10-01", "2025-12-20", minutes=120.0)
    assert year_in_sentences(diary([*jobs, winter]), 2025, 2024) == [
        "The work that was timed came to 4 h."
    ]
    assert "May the busiest" in year_in_sentences(diary(jobs), 2025, 2024)[0]
