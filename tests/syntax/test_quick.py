"""The quick loops and lark's own make the same tree of every text, and refuse the same ones."""

from functools import cache

import pytest
from conftest import CHECKOUT
from hypothesis import given, settings
from hypothesis import strategies as st
from lark import Lark, Token, Transformer, Tree
from lark.exceptions import UnexpectedInput

from journal.reference.units import unit_table
from journal.syntax.grammar import build_parser
from journal.syntax.marks import mark_class
from journal.syntax.quick import PLUGINS

UNITS = frozenset(unit_table())
_PIECES = [
    *("2", "kg", "1.5", "to", "x", "30", "cm", "in", "from", "with", "and", ",", "(", ")", "(dry)"),
    *("each", "rows of", "£3.20", "1:200", "'Eskimo'", "[late]", "wordy", "about", "for", "2 h"),
    *("-1", "rain", "mm", "fog", "SW", "½", "!", "@", " ", "  ", "%", "36 of 40", "Long", "=", "é"),
]


@cache
def both(grammar: str) -> tuple[Lark, Lark]:
    start = {"diary": "entry", "weather": "weather", "sheet": "field"}[grammar]
    quick, own = (
        build_parser(f"{grammar}.lark", start, UNITS, Transformer(), plugins)
        for plugins in (PLUGINS, {})
    )
    return quick, own


def shape(tree: Tree | Token) -> object:
    if isinstance(tree, Token):
        return (tree.type, tree.value, tree.start_pos, tree.end_pos)
    return (tree.data, [shape(child) for child in tree.children])


def outcome(parser: Lark, text: str) -> object:
    try:
        return shape(parser.parse(text))
    except UnexpectedInput as refused:
        # its words list what was expected in the order of a set, which differs from run to run
        return (type(refused), refused.pos_in_stream, refused.line, refused.column)


def _marks() -> list[str]:
    kinds = ("CROP", "PLACE", "PLACE_N", "MATERIAL", "PERSON", "CULTIVAR_KNOWN", "MEASURE")
    return [mark_class(kind)[1] for kind in (*kinds, "VESSEL", "FORM", "COVER")]


marked_texts = st.lists(st.sampled_from([*_PIECES, *_marks()]), max_size=14).map(" ".join)
VERB = mark_class("VERB")[1]


@pytest.mark.parametrize("grammar", ["diary", "weather"])
def test_the_texts_tried_here_are_entries(grammar: str):
    quick, _ = both(grammar)
    assert isinstance(quick.parse(f"{VERB} 2 wordy"), Tree)


@settings(max_examples=400, deadline=None)
@given(text=marked_texts, grammar=st.sampled_from(["diary", "weather"]))
def test_every_text_of_pieces_has_one_tree(text: str, grammar: str):
    quick, own = both(grammar)
    assert outcome(quick, f"{VERB} {text}") == outcome(own, f"{VERB} {text}")


@settings(max_examples=200, deadline=None)
@given(text=st.text(max_size=40), grammar=st.sampled_from(["diary", "weather"]))
def test_every_text_is_parsed_or_refused_alike(text: str, grammar: str):
    quick, own = both(grammar)
    assert outcome(quick, text) == outcome(own, text)


def test_every_field_of_the_sample_sheet_has_one_tree():
    quick, own = both("sheet")
    sheet = (CHECKOUT / "sample_journal" / "plot.txt").read_text(encoding="utf-8").splitlines()
    fields = [field for line in sheet for field in line.split(", ")[1:]]
    assert len(fields) > 40
    assert [outcome(quick, field) for field in fields] == [outcome(own, field) for field in fields]
