"""What is not understood is refused: with the word named, and with questions that can be asked."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.questions import FOLDER, read_corpus

from journal import reading
from journal.diary import Diary
from journal.questions.answer import ask, names_of
from journal.questions.lexer import tokens

LINES = (FOLDER / "refusals.tsv").read_text(encoding="utf-8").splitlines()[1:]
REFUSALS = [line.split("\t") for line in LINES]
ASKED = [row.question for row in read_corpus("corpus.tsv")]
# what is searched for in prose may be any word
NOT_PROSE = [row.question for row in read_corpus("corpus.tsv") if row.kind != "prose"]
OFFER = "you can ask: "
READS = settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


@pytest.mark.parametrize(("question", "said"), REFUSALS, ids=[row[0] for row in REFUSALS])
def test_a_question_of_another_kind_is_refused_and_says_why(
    sample_diary: Diary, question: str, said: str
):
    answer = ask(sample_diary, question)
    assert not answer.understood
    assert answer.answer == said
    assert (answer.value, answer.date, answer.rows, answer.evidence) == (None, None, (), ())


def test_there_are_60_refusals():
    assert len(REFUSALS) >= 60


def test_every_question_that_a_refusal_offers_is_understood(sample_diary: Diary):
    offered = {
        caveat.removeprefix(OFFER)
        for question, _ in REFUSALS
        for caveat in ask(sample_diary, question).caveats
        if caveat.startswith(OFFER)
    }
    assert len(offered) > 20
    assert [offer for offer in offered if not ask(sample_diary, offer).understood] == []


def test_a_refusal_offers_two_or_three_questions(sample_diary: Diary):
    for question, _ in REFUSALS:
        offers = [c for c in ask(sample_diary, question).caveats if c.startswith(OFFER)]
        assert 2 <= len(offers) <= 3, question


@READS
@given(
    question=st.sampled_from(NOT_PROSE),
    word=st.text("bcdfghjklmnpqrstvwxz", min_size=6, max_size=9),
    at=st.integers(0, 12),
)
def test_a_word_that_means_nothing_never_changes_an_answer(
    sample_diary: Diary, question: str, word: str, at: int
):
    words = question.split()
    answer = ask(sample_diary, " ".join([*words[:at], word, *words[at:]]))
    assert not answer.understood


@READS
@given(question=st.sampled_from(ASKED))
def test_capitals_and_the_question_mark_do_not_matter(sample_diary: Diary, question: str):
    plain = ask(sample_diary, question)
    for other in (question.upper(), question.lower().rstrip("?"), f"  {question}  "):
        again = ask(sample_diary, other)
        assert (again.understood, again.found, again.value, again.date, len(again.rows)) == (
            plain.understood,
            plain.found,
            plain.value,
            plain.date,
            len(plain.rows),
        ), other


@READS
@given(text=st.text(max_size=80))
def test_any_text_at_all_gets_an_answer_or_a_refusal(sample_diary: Diary, text: str):
    assert ask(sample_diary, text).answer


def test_the_order_of_the_files_does_not_matter(sample: reading.Reading, sample_diary: Diary):
    # both without the weather station's file, which is no source of the diary's own
    straight, turned = (
        Diary(reading.read_sources(sources, sample_diary.today), sample_diary.today)
        for sources in (sample.sources, list(reversed(sample.sources)))
    )
    for question in ASKED[::40]:
        one, two = ask(straight, question), ask(turned, question)
        assert (one.value, one.date, len(one.rows)) == (two.value, two.date, len(two.rows)), (
            question
        )


def test_a_misspelt_name_is_read_and_said(sample_diary: Diary):
    answer = ask(sample_diary, "When did I sow Musselburh leeks?")
    assert answer.found
    assert answer.caveats[0] == "reading 'Musselburh' as 'musselburgh'"


def test_every_token_of_a_question_stands_in_it(sample_diary: Diary):
    names = names_of(sample_diary)
    for question in ASKED:
        found = tokens(question, names)
        ends = [token.end_pos for token in found.tokens]
        assert ends == sorted(ends)
        assert all(end is not None and end <= len(found.text) for end in ends)
