"""Each caution is one line with its source, and stands where it belongs and nowhere else."""

import pytest

from journal.studies.cautions import CAUTIONS, caution_words, cautions_of

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
