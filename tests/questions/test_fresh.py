"""A hundred wordings written without the grammar at hand: what became of them, then and now.

`before` is what happened when they were first asked, before anything was mended for them; a
`wrong` one was read as something else and answered that nothing was recorded.
"""

from collections import Counter

import pytest
from support.questions import FOLDER, gist

from journal.diary import Diary
from journal.questions.answer import ask

LINES = (FOLDER / "fresh.tsv").read_text(encoding="utf-8").splitlines()[1:]
FRESH = [line.split("\t") for line in LINES]


@pytest.mark.parametrize(("kind", "question", "before", "now"), FRESH, ids=[f[1] for f in FRESH])
def test_a_fresh_wording_answers_as_it_was_found_to(
    sample_diary: Diary, kind: str, question: str, before: str, now: str
):
    assert gist(ask(sample_diary, question), kind) == now


def test_what_was_right_at_first_is_still_understood():
    assert [row[1] for row in FRESH if row[2] == "right" and row[3] == "refused"] == []


def test_the_first_count_stands_as_it_was():
    assert Counter(row[2] for row in FRESH) == {"right": 32, "refused": 60, "wrong": 8}
