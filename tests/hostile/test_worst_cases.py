"""No text makes a pattern or a page run away: what a text costs grows about as its length does.

Nothing here is timed: a pattern that runs away takes hours at these lengths and meets the limit
that every test has.
"""

import re
from datetime import date
from itertools import product

import pytest
from support.worst_cases import package_patterns, terminals, worst_texts

from journal.events.names import known_names, words_of
from journal.events.sheet import SheetBuilder
from journal.reading import read_sources
from journal.reference.load import load
from journal.reference.units import unit_table
from journal.source import Source
from journal.syntax.parse import EntryParser, entry_parser

TODAY = date(2026, 11, 25)
PATTERNS = dict([*package_patterns(), *terminals()])


LONG = 20_000


@pytest.mark.parametrize("name", PATTERNS)
def test_a_pattern_meets_its_worst_texts(name: str):
    pattern: re.Pattern[str] = PATTERNS[name]
    for text in worst_texts(pattern, LONG):
        pattern.match(text)


PIECES = [
    "word ", "'a ", "' ", "(", "()", "[", "[a] ", "x", "9", "1.", "1,", "9 ", "and ", ", ", "from ",
    "Top bed ", "leek ", "2 kg ", "3 to 9 C, ", "rain ", "\u200f", "-", "- ", " ", "\t", "£1 ", "!",
    "every 2 weeks ", "in ", "1:", "\u201c", '"', "of 3 ", "rows of ", "half ", "about ", "twice ",
    "mon ", "2026-", "'s ", "\ufb01", "until ", "1h30 ", "x 30 cm ", "row 1: a, ", "#", "\0",
]  # fmt: skip
LEADS = ["", "- ", "- pick ", "- weather ", "- bed ", "- sow leek '", "14 March ", "# ", "- plan "]
WORST = {
    "words": "- pick {mon }",
    "one word": "- pick {\ufb01}",
    "prepositions": "- weather {in }",
    "figures": "- weather {2026-}",
    "quotes": "- sow leek '{'s }",
    "amounts": "- move {2 kg }",
    "no verb": "- {9}",
    "prose": "{word }",
    "blanks": "14 March { }",
    "declaration": "- bed {A, }",
}


def read(line: str) -> int:
    """How many signs of a page with this line are in its lines."""
    page = Source("page.txt", f"14 March 2026\n{line}\n- weed 5 min\n")
    reading = read_sources([page], TODAY)
    assert [event.kind for event in reading.events][-1] == "job"
    lines = reading.documents[0].lines
    assert sum(each.span.end - each.span.start for each in lines) == len(page.text)
    return len(page.text)


@pytest.mark.parametrize("lead", LEADS)
def test_a_line_of_a_thousand_signs_is_read(lead: str):
    for piece in PIECES:
        read(lead + piece * (1_000 // len(piece)))


@pytest.mark.parametrize("shape", WORST.values(), ids=WORST)
def test_a_line_of_a_megabyte_is_read(shape: str):
    lead, piece = shape.rstrip("}").split("{")
    assert read(lead + piece * (1_000_000 // len(piece))) > 990_000


@pytest.mark.parametrize(
    "line", ["x\n", "\n", "  more\n", "- weed 5 min\n  more\n", "- zzz\n", "1 March 2026\n"]
)
def test_a_file_of_ten_thousand_lines_is_read(line: str):
    page = Source("page.txt", "14 March 2026\n- weed 5 min\n" + line * 10_000)
    assert read_sources([page], TODAY).documents[0].source.line_count > 10_000


# Whatever stands after a verb has a tree: one piece of each kind of part, in every order of three.
OF_WEATHER = (
    "3", "-1 C", "1/2 inch", "½", "to", "-", "rain", "min:", "wind", "SW", "force", "trace", "nil",
    "no", "fog", "outside", "in", "Frame", "(a)", "on 1 May", "at 7", "light", "mm", ",", "and",
    "word", "Word", "!", "(",
)  # fmt: skip
OF_ENTRY = (
    "2", "2-3", "1:20", "2 kg", "x", "of", "rows", "pots", "in", "for", "with", "leek", "'A'",
    "[a]", "£1", "at", "each", "about", "apart", "per", "fleece", "word", ",", "and", "on 1 May",
)  # fmt: skip


@pytest.fixture(scope="module")
def parser() -> EntryParser:
    sheet = SheetBuilder(load()).sheet()
    units = frozenset(unit_table())
    return entry_parser(words_of(sheet, known_names(sheet, load()), units, frozenset()))


@pytest.mark.parametrize("first", OF_WEATHER)
def test_any_three_pieces_make_a_weather_entry(first: str, parser: EntryParser):
    for rest in product(OF_WEATHER, repeat=2):
        assert parser.parse(f"weather {' '.join((first, *rest))}") is not None


@pytest.mark.parametrize("first", OF_ENTRY)
def test_any_three_pieces_make_an_entry(first: str, parser: EntryParser):
    for rest in product(OF_ENTRY, repeat=2):
        assert parser.parse(f"sow {' '.join((first, *rest))}") is not None
