"""Questions as thumbs type them: short forms, short years, weekdays beside dates, part names."""

from datetime import date

import pytest
from support.question_oracles import Tables

from journal.diary import Diary
from journal.questions.answer import ask, names_of
from journal.questions.lexer import NO_SLIPS, tokens
from journal.questions.typed import as_spelled


@pytest.mark.parametrize(
    ("typed", "spelled"),
    [
        ("howmany leeks last yr", "how many leeks last year"),
        ("hw much rain in '24", "how much rain in 2024"),
        ("rain on 3 june 24", "rain on 3 june 2024"),
        ("peas in summer 23?", "peas in summer 2023?"),
        ("rain in 24 or 25", "rain in 2024 or 2025"),
        ("whats the last time Tam helped", "what is the last time Tam helped"),
        ("what is due in the next fortnight", "what is due in the next two weeks"),
        ("beans & peas", "beans and peas"),
        ("rain from May on", "rain since May"),
    ],
)
def test_short_forms_are_written_out(typed: str, spelled: str):
    assert as_spelled(typed, 2018, 2026) == spelled


@pytest.mark.parametrize(
    "typed",
    [
        "how many leeks came up of 24 sown", "water for 24 hours", "over 25 degrees in May",
        "plant in Platform 24", "16 of 20", "in 24 days", "on june 24", "in 31",
    ],
)  # fmt: skip
def test_two_figures_that_may_be_no_year_stay_as_they_are(typed: str):
    assert as_spelled(typed, 2018, 2026) == typed


def test_a_year_outside_the_record_is_not_made_of_two_figures():
    assert as_spelled("rain in 17", 2018, 2026) == "rain in 17"


@pytest.mark.parametrize("shift", range(7))
def test_a_weekday_beside_a_date_must_be_its_own(sample_diary: Diary, shift: int):
    names = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    day = date(2025, 6, 7)
    said = names[(day.weekday() + shift) % 7]
    answer = ask(sample_diary, f"what did we pick on {said} 7 June 2025")
    assert answer.understood == (shift == 0)
    assert shift == 0 or f"is a Saturday, not a {said}" in answer.answer


def test_a_weekday_is_held_to_the_latest_such_day_where_no_year_is_said(sample_diary: Diary):
    assert ask(sample_diary, "what did we pick on Saturday 7 June").understood
    assert not ask(sample_diary, "what did we pick on Friday 7 June").understood


def test_a_cultivar_goes_by_one_word_of_its_name_and_says_so(sample_diary: Diary):
    answer = ask(sample_diary, "how many kg of sarpo in 2024")
    assert answer.value == pytest.approx(27.6)
    assert "reading 'sarpo' as 'Sarpo Mira'" in answer.caveats


@pytest.mark.parametrize("word", ["special", "breakfast", "french", "lady", "crown", "express"])
def test_a_word_that_says_something_by_itself_is_no_cultivar(sample_diary: Diary, word: str):
    assert not ask(sample_diary, f"how many kilos of {word} potatoes in 2024").understood


def test_ordinary_words_are_no_slips_for_names(sample_diary: Diary):
    found = tokens(" ".join(sorted(NO_SLIPS)), names_of(sample_diary))
    assert found.corrections == []


def test_the_usual_last_frost_is_the_span_of_the_years(sample_diary: Diary):
    cold = Tables(sample_diary).days("t_min", "2022-01-01", "2025-12-31")
    cold = cold[(cold < 0) & (cold.index.month <= 6)]
    latest = cold.groupby(cold.index.year).apply(lambda days: days.index.max())
    days = sorted((stamp.month, stamp.day) for stamp in latest)
    answer = ask(sample_diary, "when is the last frost usually")
    assert [row["date"] for row in answer.rows] == list(latest)
    assert days[0] == (4, 28) and "between 28 April and 18 May over 4 years" in answer.answer
    assert days[-1] == (5, 18)


def test_a_frost_without_a_minimum_is_told_beside_the_first_of_autumn(sample_diary: Diary):
    answer = ask(sample_diary, "when was the first autumn frost in 2022")
    assert answer.date == date(2022, 12, 3)
    assert "a frost is also written without a minimum: 21 to 31 October 2022" in answer.caveats


def test_only_is_said_of_the_only_one(sample_diary: Diary):
    assert ask(sample_diary, "when did I lime").answer.startswith("The last liming was")
    assert ask(sample_diary, "when did I lime in 2023").answer.startswith("The only liming was")
