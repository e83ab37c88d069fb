"""A slip of the pen finds its word; a word of its own finds nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.reference.crops import nearest
from journal.reference.load import Reference


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("carot", "carrot"),
        ("leak", "leek"),
        ("parsnp", "parsnip"),
        ("onoin", "onion"),
        ("brocoli", "broccoli"),
        ("corgette", "courgette"),
        ("Beatroot", "beetroot"),
        ("rasberry", "raspberry"),
        ("rubarb", "rhubarb"),
        ("califlower", "cauliflower"),
        ("caulifower", "cauliflower"),
        ("aspargus", "asparagus"),
        ("cellery", "celery"),
        ("potatoe", "potato"),
        ("purple sproting", "purple sprouting"),
    ],
)
def test_a_slip_finds_the_crop(reference: Reference, written: str, meant: str):
    assert meant in nearest(written, reference.crop_spellings)


@pytest.mark.parametrize("written", ["Tunel", "tunnle", "TUNNEL"])
def test_a_slip_finds_the_place(written: str):
    assert nearest(written, ["Tunnel", "Top bed", "Long 1"]) == ["Tunnel"]


@pytest.mark.parametrize(
    "word", ["hammer", "xyzzy", "oca", "spuds", "tea", "a", "", "shed", "wheelbarrow", "gate"]
)
def test_an_unrelated_word_finds_nothing(reference: Reference, word: str):
    assert nearest(word, reference.crop_spellings) == []


def test_another_number_is_another_place_and_no_slip():
    assert nearest("Long 9", ["Long 1", "Long 2", "Long 19"]) == []
    assert nearest("Lnog 2", ["Long 1", "Long 2", "Long 12"]) == ["Long 2"]


def test_a_short_word_keeps_its_first_letter():
    assert nearest("beak", ["leek", "beat"]) == ["beat"]
    assert nearest("barrow", ["marrow", "yarrow"]) == []


def test_fewer_slips_leave_out_more():
    assert nearest("raspbery", ["raspberry", "raspberries"]) == ["raspberry"]


def test_the_best_stands_first_and_the_list_is_cut():
    names = ["parsnip a", "parsnip b", "parsnip c", "parsnip d"]
    assert nearest("parsnip x", names) == names[:3]
    assert nearest("parsnip x", names, limit=1) == names[:1]


def test_no_names_no_answer():
    assert nearest("carrot", []) == []


@given(st.text(max_size=12), st.lists(st.text(max_size=12), max_size=8))
def test_what_is_found_was_offered_and_a_known_word_finds_itself(word: str, names: list[str]):
    found = nearest(word, names)
    assert set(found) <= set(names)
    assert word not in names or found[0].casefold() == word.casefold()
