"""Each caution is one line with its source, and stands where it belongs and nowhere else."""

from datetime import date
from typing import Any

import pytest
from support.hand_made import diary, happened
from support.written import written

from journal.questions.answer import ask
from journal.report.now import glance
from journal.studies.cautions import CAUTIONS, caution_words, cautions_for, cautions_of

HARMLESS = ("harvest", "labour", "labour worth", "years", "money", "seed", "books", "structures")


@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.name)
def test_a_caution_is_a_line_with_a_source_and_a_place(caution):
    assert "\n" not in caution.text and caution.text.endswith(".")
    assert "read: http" in caution.source or "no published source" in caution.source
    assert caution.belongs


@pytest.mark.parametrize("study", HARMLESS)
def test_a_study_that_hurts_nobody_has_no_caution(study: str):
    assert cautions_of(study) == ()
    assert caution_words(study) == ""


@pytest.mark.parametrize(
    ("topic", "words"),
    [
        ("manure_interval", "local rules"),
        ("feeding", "the label governs"),
        ("treatment", "the label governs"),
        ("rain_store", "not for drinking"),
        ("heaps", "gloves"),
        ("heaps", "legionella"),
        ("heaps", "tetanus"),
        ("heaps", "barrows"),
        ("potato store", "Green potatoes"),
        ("hedge", "nest"),
    ],
)
def test_where_work_can_hurt_somebody_it_is_said(topic: str, words: str):
    assert words in caution_words(topic)


def test_the_rule_on_raw_manure_is_shown_beside_what_another_country_asks():
    (manure,) = cautions_of("manure_interval")
    assert "120 and 90 days" in manure.text and "six months" in manure.text


def test_every_place_of_a_caution_is_a_study_a_kind_of_event_or_a_task():
    studies = {"manure_interval", "feeding", "rain_store", "heaps"}
    kinds = {"feed", "treatment", "dressing", "heap"}
    tasks = {"potato store", "hedge", "nest"}
    belongs = set().union(*(caution.belongs for caution in CAUTIONS))
    assert belongs == studies | kinds | tasks


def names_for(*events: dict[str, Any]) -> set[str]:
    return {caution.name for caution in cautions_for(diary(list(events)).events)}


@pytest.mark.parametrize(
    ("event", "expected"),
    [
        (happened("feed", "feed", "2025-07-01", material="tomato feed"), {"feeds"}),
        (happened("treatment", "spray", "2025-07-01", material="soft soap"), {"sprays"}),
        (
            happened("dressing", "dig in", "2025-02-01", material="horse manure"),
            {"manure", "compost", "tetanus"},
        ),
        (
            happened("planting", "plant", "2025-04-01", crop="potato", material="horse manure"),
            {"manure", "compost", "tetanus"},
        ),
        (
            happened("job", "dig", "2025-02-01", material="horse manure", place="Long 1"),
            {"manure", "compost", "tetanus"},
        ),
        (
            happened("dressing", "spread", "2025-02-01", material="garden compost"),
            {"compost", "tetanus"},
        ),
        (
            happened("heap", "fill", "2025-02-01", material="straw", place="Bay A"),
            {"compost", "tetanus", "lifting"},
        ),
        (happened("job", "cut", "2025-02-01", task="hedge"), {"nests"}),
        (happened("sighting", "see", "2025-02-01", subject="wren nest"), {"nests"}),
        (
            happened("kitchen", "waste", "2025-04-01", crop="potato", remark="green, from light"),
            {"green potatoes"},
        ),
        (happened("store", "store", "2025-09-01", crop="potato"), {"green potatoes"}),
    ],
)
def test_an_entry_that_can_hurt_brings_its_caution(event: dict[str, Any], expected: set[str]):
    assert names_for(event) == expected


@pytest.mark.parametrize(
    "event",
    [
        happened("dressing", "lime", "2025-02-01", material="lime"),
        happened("heap", "level", "2025-02-01", place="Butt", volume_l=100.0),
        happened("heap", "probe", "2025-02-01", place="Bay A", temperature_c=58.0),
        happened("job", "weed", "2025-02-01", task="the hedgehog house"),
        happened("harvest", "lift", "2025-07-01", crop="potato", remark="evergreen netting"),
        happened("harvest", "pick", "2025-07-01", crop="kale", remark="green"),
        happened("sowing", "sow", "2025-04-01", crop="carrot"),
        happened("store", "store", "2025-09-01", crop="onion"),
        happened("treatment", "patrol", "2025-06-01", subject="slugs", count=20.0),
    ],
)
def test_an_entry_that_hurts_nobody_brings_none(event: dict[str, Any]):
    assert names_for(event) == set()


# ---------------------------------------------------------------- beside answers and in the glance

TODAY = date(2026, 6, 10)
SHEET = """\
- bed Long 1, 1.2 x 4.8 m
- bay Bay A, 2 x 1 x 1.5 m
- tank Butt, 200 l
- store Shed
- feed tomato feed, 4-2-6 w/w, 20 ml in 5 l
- material horse manure, 0.7-0.3-0.6
"""
PAGE = """\
1 May 2026
- spread 100 l horse manure in Long 1
- feed tomato in Long 1 with tomato feed
- spray bean in Long 1 with soft soap
- fill Bay A with 80 l straw
- level Butt 100 l
- cut hedge
- see wren nest
- store 5 kg potato in Shed
- pick 2 kg kale from Long 1
- pick 1 kg bean from Long 1
- weed Long 1 30 min
- sow carrot in Long 1
- sow beetroot in Long 1
- store 5 kg onion in Shed
"""


def beside(question: str) -> set[str]:
    """The names of the cautions that an answer shows."""
    answer = ask(written(PAGE, TODAY, SHEET), question)
    assert answer.found, answer.answer
    return {caution.name for caution in CAUTIONS if caution.text in answer.caveats}


@pytest.mark.parametrize(
    ("question", "expected"),
    [
        ("When was horse manure last spread?", {"manure", "compost", "tetanus"}),
        ("When did I last feed the tomatoes?", {"feeds"}),
        ("When did I last spray the beans?", {"sprays"}),
        ("When was Bay A last filled?", {"compost", "tetanus", "lifting"}),
        ("How much water is in the butt?", {"stored water"}),
        ("When did I last see the wren nest?", {"nests"}),
        ("How many kilos of potatoes are left in store?", {"green potatoes"}),
    ],
)
def test_an_answer_about_work_that_can_hurt_ends_with_its_caution(
    question: str, expected: set[str]
):
    assert beside(question) == expected


@pytest.mark.parametrize(
    "question",
    [
        "How much kale did we pick?",
        "When did I last weed Long 1?",
        "When did the carrots go in?",
        "What did I do on 1 May 2026?",
        "How many kilos of onions are left in store?",
        "What did I write about manure?",
    ],
)
def test_an_answer_about_anything_else_has_none(question: str):
    assert beside(question) == set()


def planned(*plans: str) -> set[str]:
    page = "1 June 2026\n- sow kale in Long 1\n" + "".join(f"- plan {plan}\n" for plan in plans)
    told = glance(written(page, TODAY, SHEET)).cautions
    return {caution.name for caution in CAUTIONS if caution.text in told}


@pytest.mark.parametrize(
    ("plan", "expected"),
    [
        ("spray bean with soft soap by 20 June", {"sprays"}),
        ("feed tomato with tomato feed by 20 June", {"feeds"}),
        ("spread horse manure in Long 1 by 20 June", {"manure", "compost", "tetanus"}),
        ("cut hedge by 20 June", {"nests"}),
        ("trim the hedge by 20 June", {"nests"}),
        ("sow beetroot in Long 1 by 12 June", set()),
        ("weed Long 1 by 12 June", set()),
    ],
)
def test_what_is_planned_brings_its_caution_to_the_glance(plan: str, expected: set[str]):
    assert planned(plan) == expected


def test_work_that_is_done_or_given_up_brings_none_to_the_glance():
    page = "1 June 2026\n- plan spray bean with soft soap by 20 June\n\n5 June 2026\n"
    done = page + "- spray bean with soft soap\n"
    assert glance(written(page, TODAY, SHEET)).cautions != ()
    assert glance(written(done, TODAY, SHEET)).cautions == ()
