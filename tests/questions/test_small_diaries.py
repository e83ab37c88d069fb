"""Every meaning of the corpus asked of diaries that hold next to nothing: never a fault."""

from datetime import date

import pytest
from support.questions import read_corpus

from journal import reading
from journal.diary import Diary
from journal.questions.answer import ask
from journal.source import Source

# one wording of each meaning
QUESTIONS = list({row.meaning: row.question for row in read_corpus("corpus.tsv")}.values())
PAGES = {
    "empty": "",
    "prose": "# 2025\n\n14 March\nThe river came up in the night.\n",
    "one sowing": "# 2025\n\n14 March\n- sow 24 leek 'Porbella' in modules in Frame\n",
    "one picking": "# 2025\n\n14 July 2025\n- pick courgette\n",
    "vague days": "autumn 2024\n- pick 2 kg potato from Platform 1\n- weather frost\n"
    "- fit boards in Platform 1\n- water Platform 1\n- lose tomato to slugs\n",
    "a sheet only": "- bed Platform 1, 1.2 x 5 m\n- bed Platform 2, 3 m2\n"
    "- frame Lamp frame, 1 m2\n"
    "- bay Bunker 1, 1 x 1 x 1 m\n- tank Water tower, 100 l\n- person Odette\n",
}


@pytest.mark.parametrize("name", PAGES)
def test_no_question_breaks_on_a_small_diary(name: str):
    day = date(2026, 3, 1)
    diary = Diary(reading.read_sources([Source("page.txt", PAGES[name])], day), day)
    for question in QUESTIONS:
        answer = ask(diary, question)
        assert answer.answer, question
        assert answer.to_json()
