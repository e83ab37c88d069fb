"""Three lists of wordings written without the grammar at hand: what became of them, then and now.

`before` is what happened when they were first asked, before anything was mended for them; a
`wrong` one was read as something else, or answered that nothing was recorded where it was.
"""

from collections import Counter

import pytest
from support.questions import FOLDER, gist

from journal.diary import Diary
from journal.questions.answer import ask


def _rows(name: str) -> list[list[str]]:
    lines = (FOLDER / name).read_text(encoding="utf-8").splitlines()[1:]
    return [line.split("\t") for line in lines]


FIRST, SECOND = _rows("fresh.tsv"), _rows("fresh_second.tsv")
THIRD = _rows("fresh_third.tsv")
FRESH = [*FIRST, *SECOND, *THIRD]


@pytest.mark.parametrize(("kind", "question", "before", "now"), FRESH, ids=[f[1] for f in FRESH])
def test_a_fresh_wording_answers_as_it_was_found_to(
    sample_diary: Diary, kind: str, question: str, before: str, now: str
):
    assert gist(ask(sample_diary, question), kind) == now


def test_what_was_right_at_first_is_still_understood():
    lost = [row[1] for row in [*FIRST, *SECOND] if row[2] == "right" and row[3] == "refused"]
    # a loss is no price, and the diary does not tell early potatoes from others
    assert lost == [
        "How much did club root cost us?",
        "Is it too early to plant the first earlies?",
    ]


def test_of_the_third_list_what_was_rightly_refused_is_known():
    right = [row for row in THIRD if row[0] != "refusals" and row[2] == "right"]
    assert [row[1] for row in right if row[3] == "refused"] == [
        "When did I turn the heap last?",
        "when did we not have any rain for two weeks",
        "what birds have I seen this year",
        "did we make a profit in 2024",
    ]


def test_the_first_counts_stand_as_they_were():
    assert Counter(row[2] for row in FIRST) == {"right": 32, "refused": 60, "wrong": 8}
    assert Counter(row[2] for row in SECOND) == {"right": 37, "refused": 70, "wrong": 5}
    assert Counter(row[2] for row in THIRD) == {"right": 85, "refused": 29, "wrong": 4}
