"""No text makes a pattern or a page run away: what a text costs grows about as its length does.

Nothing here is timed: a pattern that runs away takes hours at these lengths and meets the limit
that every test has.
"""

import re
from datetime import date

import pytest
from support.worst_cases import package_patterns, terminals, worst_texts

from journal.reading import read_sources
from journal.source import Source

TODAY = date(2026, 11, 25)
PATTERNS = dict([*package_patterns(), *terminals()])


@pytest.mark.parametrize("name", PATTERNS)
def test_a_pattern_meets_its_worst_texts(name: str):
    pattern: re.Pattern[str] = PATTERNS[name]
    for text in worst_texts(pattern, 2_000):
        pattern.match(text)


PIECES = [
    "word ", "'a ", "' ", "(", "()", "[", "[a] ", "x", "9", "1.", "1,", "9 ", "and ", ", ", "from ",
    "Top bed ", "leek ", "2 kg ", "3 to 9 C, ", "rain ", "\u200f", "-", "- ", " ", "\t", "£1 ", "!",
    "every 2 weeks ", "in ", "1:", "\u201c", '"', "of 3 ", "rows of ", "half ", "about ", "twice ",
]  # fmt: skip
LEADS = ["", "- ", "- pick ", "- weather ", "- bed ", "- sow leek '", "14 March ", "# ", "- plan "]


@pytest.mark.parametrize("lead", LEADS)
def test_a_line_of_thousands_of_signs_is_read(lead: str):
    lines = [f"{lead}{piece * (4_000 // len(piece))}\n" for piece in PIECES]
    page = Source("page.txt", "14 March 2026\n" + "\n".join(lines))
    reading = read_sources([page], TODAY)
    assert sum(line.span.end - line.span.start for line in reading.documents[0].lines) == len(
        page.text
    )


@pytest.mark.parametrize(
    "line", ["x\n", "\n", "  more\n", "- weed 5 min\n  more\n", "- zzz\n", "1 March 2026\n"]
)
def test_a_file_of_thousands_of_lines_is_read(line: str):
    page = Source("page.txt", "14 March 2026\n- weed 5 min\n" + line * 5_000)
    assert read_sources([page], TODAY).documents[0].source.line_count > 5_000
