"""Figures and names as a chart says them."""

import pytest

from journal.charts.words import (
    crop_name,
    curly,
    day_of_year,
    duration,
    kilograms,
    listed,
    number,
    running,
)
from journal.syntax.verbs import VERBS, Verb


@pytest.mark.parametrize(
    ("kg", "said"),
    [
        (0.0, "0 g"),
        (0.0496, "50 g"),
        (0.9994, "999 g"),
        (0.9996, "1 kg"),
        (1.0, "1 kg"),
        (12.44, "12.4 kg"),
        (99.96, "100 kg"),
        (291.25, "291 kg"),
        (1234.0, "1,234 kg"),
    ],
)
def test_a_weight_is_said_in_grams_below_a_kilogram(kg: float, said: str) -> None:
    assert kilograms(kg) == said


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0.4, "0 min"),
        (45, "45 min"),
        (60, "1 h"),
        (90, "1 h 30 min"),
        (119.7, "2 h"),
        (6030, "100 h 30 min"),
    ],
)
def test_time_is_said_in_hours_and_minutes(minutes: float, said: str) -> None:
    assert duration(minutes) == said


def test_a_day_of_the_season_is_a_date_without_a_year() -> None:
    assert [day_of_year(day) for day in (1, 59, 60, 195, 365)] == [
        "1 January",
        "28 February",
        "1 March",
        "14 July",
        "31 December",
    ]


def test_names_say_only_what_is_known() -> None:
    assert crop_name("potato", "Charlotte", "Long 3") == "potato ‘Charlotte’ · Long 3"
    assert crop_name("kale") == "kale"
    assert crop_name("", "", "Top bed") == "several crops, weighed together · Top bed"


def test_lists_and_numbers_read_as_a_person_writes_them() -> None:
    assert [listed(words) for words in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]
    assert [number(value) for value in (1204.0, 12.44, 10.0, 0.0)] == ["1,204", "12.4", "10", "0"]


WORK = [verb for verb in VERBS if any("ing" in form for form in verb.forms)]


@pytest.mark.parametrize("verb", WORK, ids=lambda verb: verb.name)
def test_work_that_goes_on_is_said_as_the_diary_may_write_it(verb: Verb) -> None:
    assert running(verb.name) in verb.forms


def test_quotes_are_set_as_a_page_sets_them() -> None:
    assert curly("potato 'Sharpe's Express' from Bed 1") == "potato ‘Sharpe's Express’ from Bed 1"
    assert curly("the diary's own") == "the diary's own"
    assert curly("the soil `clay loam`") == "the soil ‘clay loam’"
