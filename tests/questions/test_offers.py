"""What a refusal offers is near to what was asked, and is answered when it is typed."""

import random

import pytest
from support.questions import FOLDER

from journal.diary import Diary
from journal.questions.answer import Answer, ask, names_of

OFFER = "you can ask: "
REFUSALS = [
    line.split("\t")[0]
    for line in (FOLDER / "refusals.tsv").read_text(encoding="utf-8").splitlines()[1:]
]
FRESH = [
    line.split("\t")[1]
    for line in (FOLDER / "fresh.tsv").read_text(encoding="utf-8").splitlines()[1:]
]
SALADS = 200
HEADS = (
    "when", "how much", "how many", "how long", "which", "what", "where", "how often", "how cold",
    "who", "did", "is", "best", "first", "last", "most",
)  # fmt: skip
ACTS = (
    "picked", "sown", "planted", "weeding", "lost", "watered", "go in", "fed", "given", "turned",
    "bought", "spread", "came up", "cost", "rain", "frost", "worth", "ready", "in store", "left",
)  # fmt: skip
TAILS = (
    "last year", "in 2024", "in July", "since May 2025", "usually", "against", "per square metre",
    "and", "we", "to", "from", "with", "the", "each year", "more", "kilos", "beds", "never", "tall",
    "this spring", "on 14 July 2025", "next year", "between March and May 2025",
)  # fmt: skip


ASKED: dict[str, Answer] = {}


def asked(diary: Diary, question: str) -> Answer:
    """The answer on the sample diary, worked out once."""
    if question not in ASKED:
        ASKED[question] = ask(diary, question)
    return ASKED[question]


def offers(diary: Diary, question: str) -> list[str]:
    answer = asked(diary, question)
    if answer.understood:
        return []
    return [c.removeprefix(OFFER) for c in answer.caveats if c.startswith(OFFER)]


def salads(diary: Diary) -> list[str]:
    """Known words in no order; the same ones in every run."""
    dice = random.Random(20250314)
    names = sorted(" ".join(words) for words in names_of(diary).senses)
    found = []
    for _ in range(SALADS):
        words = [*dice.sample(HEADS, 1), *dice.sample(ACTS, 1), *dice.sample(TAILS, 2)]
        words += dice.sample(names, dice.randint(0, 2))
        dice.shuffle(words)
        found.append(" ".join(words))
    return found


def not_answered(diary: Diary, questions: list[str]) -> dict[str, str]:
    """Offers that are refused themselves, and the question that they were offered for."""
    offered = {offer: question for question in questions for offer in offers(diary, question)}
    assert len(offered) > 5
    return {o: question for o, question in offered.items() if not asked(diary, o).understood}


@pytest.mark.parametrize(
    "questions",
    [REFUSALS[::3], REFUSALS[1::3], REFUSALS[2::3], FRESH[::2], FRESH[1::2]],
    ids=["refusals 1", "refusals 2", "refusals 3", "fresh 1", "fresh 2"],
)
def test_what_is_offered_for_a_wording_of_a_person_is_answered(
    sample_diary: Diary, questions: list[str]
):
    assert not_answered(sample_diary, questions) == {}


@pytest.mark.parametrize("fourth", range(4))
def test_what_is_offered_for_a_salad_of_known_words_is_answered(sample_diary: Diary, fourth: int):
    assert not_answered(sample_diary, salads(sample_diary)[fourth::4]) == {}


def test_most_of_the_salads_are_refused_so_that_their_offers_are_tried(sample_diary: Diary):
    refused = [salad for salad in salads(sample_diary)[:60] if offers(sample_diary, salad)]
    assert len(refused) > 40


def test_what_is_offered_is_recorded_but_for_a_handful(sample_diary: Diary):
    offered = {offer for question in REFUSALS for offer in offers(sample_diary, question)}
    empty = [offer for offer in offered if not asked(sample_diary, offer).found]
    assert len(empty) <= 0.03 * len(offered)


@pytest.mark.parametrize(
    ("question", "first"),
    [
        ("how tall are the leeks", "When did the leeks go in?"),
        ("how many red tomatoes did we pick", "How many tomatoes did we pick?"),
        ("when did I almost plant potatoes", "When did I plant potatoes?"),
        ("when did Lachlan weed Platform 1", "When was Platform 1 last weeded?"),
        ("how did slugs behave", "What did we lose to slugs?"),
        ("how wobbly was the rain in 2024", "How much rain fell in 2024?"),
        ("what did Odette grumble about", "What did we give Odette in 2025?"),
        ("how purple is Bunker 1", "How much compost is in Bunker 1?"),
        ("how sad was the weeding in 2024", "How long did weeding take in 2024?"),
        ("was the storm purple", "What did we write about storm?"),
    ],
)
def test_the_nearest_question_is_of_the_words_that_were_understood(
    sample_diary: Diary, question: str, first: str
):
    assert offers(sample_diary, question)[0] == first


def test_every_offer_holds_the_crop_and_the_act_that_were_understood(sample_diary: Diary):
    offered = offers(sample_diary, "how greenly were the carrots sown in 2024")
    assert len(offered) == 3
    assert all("carrots" in offer and "sow" in offer for offer in offered)


def test_the_days_that_were_asked_about_are_kept_where_there_are_entries_in_them(
    sample_diary: Diary,
):
    assert "How many kilos of leeks did we pick in 2024?" in offers(
        sample_diary, "how many fat kilos of leeks did the neighbours pick in 2024"
    )
    # none was grown before the diary: the latest year stands instead
    offered = offers(sample_diary, "how many fat kilos of leeks did the neighbours pick in 1999")
    assert "How many kilos of leeks did we pick in 2025?" in offered


def test_an_unknown_name_is_told_with_the_names_that_are_near_it(sample_diary: Diary):
    said = asked(sample_diary, "How much did I pick from Platform 9 last year?").answer
    assert said == (
        "Nothing and nobody here is called `Platform 9`; near it are Platform 1, Platform 2, "
        "Platform 3 and Platform 4."
    )
    said = asked(sample_diary, "What did I give Mildred?").answer
    assert said == "Nothing and nobody here is called `Mildred`."


def test_a_word_that_turns_the_question_is_not_left_out_of_an_offer(sample_diary: Diary):
    assert "How much did I pick tomatoes?" not in offers(
        sample_diary, "how much did I pick except tomatoes"
    )
    assert "What did I give?" not in offers(sample_diary, "What did I give Mildred?")
