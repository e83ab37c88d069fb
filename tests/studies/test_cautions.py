"""Each caution is one line with its source, and stands where it belongs and nowhere else."""

from typing import Any

import pytest
from support.hand_made import diary, happened

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
    ],
)
def test_an_entry_that_hurts_nobody_brings_none(event: dict[str, Any]):
    assert names_for(event) == set()
