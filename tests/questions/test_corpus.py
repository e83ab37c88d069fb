"""Every phrasing of the corpus is read, and answers as plain pandas over the tables does."""

from collections import Counter

import pytest
from support.question_oracles import BY_THEIR_STUDIES, ORACLES, Tables
from support.question_oracles_talk import TALK_BY_STUDIES, TALK_ORACLES
from support.question_oracles_typed import TYPED_BY_STUDIES, TYPED_ORACLES
from support.questions import gist, read_corpus

from journal.diary import Diary
from journal.questions.answer import ask

ROWS = read_corpus("corpus.tsv")
# a nought against a nought
WITHOUT_LINES = frozenset(("courgettes this year against last",))
ALL_ORACLES = ORACLES | TALK_ORACLES | TYPED_ORACLES
ALL_BY_STUDIES = BY_THEIR_STUDIES | TALK_BY_STUDIES | TYPED_BY_STUDIES


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.question)
def test_a_phrasing_answers_as_the_corpus_says_and_cites_its_lines(sample_diary: Diary, row):
    answer = ask(sample_diary, row.question)
    assert gist(answer, row.kind) == row.answer
    assert answer.evidence or not answer.found or row.meaning in WITHOUT_LINES


@pytest.mark.parametrize("meaning", sorted(ALL_ORACLES))
def test_the_answer_to_a_meaning_is_what_the_tables_add_up_to(sample_diary: Diary, meaning: str):
    answers = {row.answer for row in ROWS if row.meaning == meaning}
    assert answers == {ALL_ORACLES[meaning](Tables(sample_diary))}


def test_every_meaning_is_checked_here_or_in_the_tests_of_its_study():
    assert {row.meaning for row in ROWS} == set(ALL_ORACLES) | ALL_BY_STUDIES


def test_there_are_250_phrasings_and_15_of_each_kind():
    kinds = Counter(row.kind for row in ROWS)
    assert len({row.question.lower() for row in ROWS}) >= 250
    assert min(count for kind, count in kinds.items() if kind != "yes or no") >= 15
