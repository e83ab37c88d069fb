"""What a mend tells one to type, typed: the problem is gone, and no other error comes for it."""

import re
from pathlib import Path

import pytest
from support.corpus import Case, read_corpus

from journal.problems.model import Problem
from journal.reading import Reading, read_sources
from journal.source import Source

CORPUS = Path(__file__).parents[1] / "corpus"
CASES = [
    case
    for file in sorted(CORPUS.glob("*.md"))
    for case in read_corpus(file)
    if "diary" in case.blocks
]
SHEET = re.compile(r"(?:add|give its size on the plot sheet:) `([^`]+)`")
BRACKETS = "put it in (brackets)"
QUOTED = re.compile(r"`([^`]+)`")
# What only the writer knows: which of two figures, which day, which row to take away.
UNKNOWN = re.compile(
    r"correct|leave|take|start the line|write the figure that|write what follows|"
    r"write the crop after|write the place|write it before its crop|save|"
    r"write it as a figure|write the amount after|write its new name"
)


def read_with(case: Case, page: str, sheet: str = "") -> Reading:
    sources = [*case.sheet, Source("added.txt", sheet), Source(case.page.path, page)]
    return read_sources([s for s in sources if s.text or s.path == case.page.path], case.today)


def over(text: str, start: int, end: int, typed: str) -> str:
    """`text` with `typed` in place of a span, where its ends may repeat what stands beside it."""
    for cut in range(len(typed), 0, -1):
        if text[:start].endswith(typed[:cut]) and cut < len(typed):
            typed = typed[cut:]
            break
    for cut in range(len(typed)):
        if cut and text[end:].startswith(typed[cut:]):
            typed = typed[:cut]
            break
    return text[:start] + typed + text[end:]


def own_line(text: str, start: int, typed: str) -> str:
    """The line ends before its second verb, and what followed is a line below."""
    head = re.sub(r"(?:,|\s+and|\s*&|\s+then)\s*$", "", text[:start].rstrip())
    tail = text[start:].partition("\n")[2]
    return f"{head}\n{typed}\n{tail}"


def above(text: str, start: int, typed: str) -> str:
    line = text.rfind("\n", 0, start) + 1
    return f"{text[:line]}{typed}\n\n{text[line:]}"


def whole_line(text: str, start: int, typed: str) -> str:
    line = text.rfind("\n", 0, start) + 1
    end = text.find("\n", start)
    return text[:line] + typed + (text[end:] if end >= 0 else "")


def typed(problem: Problem, page: str) -> tuple[str, str] | None:
    """The page and the added sheet once the mend is typed; None where only the writer knows."""
    mend, start, end = problem.mend or "", problem.span.start, problem.span.end
    if not mend or UNKNOWN.match(mend):
        return None
    added = SHEET.match(mend)
    if added:
        return page, added[1] + "\n"
    if mend.startswith(BRACKETS):
        return f"{page[:start]}({page[start:end]}){page[end:]}", ""
    if mend.startswith("put `)`"):
        close = page.find("\n", start)
        return (page[:close] + ")" + page[close:] if close >= 0 else page + ")"), ""
    words = QUOTED.findall(mend)[0]
    if "line of its own" in mend:
        return own_line(page, start, words), ""
    if " above it" in mend:
        return above(page, start, words), ""
    if words.startswith("- "):
        return whole_line(page, start, words), ""
    return over(page, start, end, words), ""


TOLD = [
    (case, problem)
    for case in CASES
    for problem in case.read().problems
    if problem.source.path == case.page.path
    and problem.mend is not None
    and not UNKNOWN.match(problem.mend)
]


def test_most_mends_can_be_typed():
    assert len(TOLD) > 60
    assert len({problem.code for _, problem in TOLD}) > 20


@pytest.mark.parametrize(
    ("case", "problem"),
    TOLD,
    ids=[f"{case.name} {problem.code}:{problem.span.start}" for case, problem in TOLD],
)
def test_a_mend_that_is_typed_takes_its_problem_away(case: Case, problem: Problem):
    made = typed(problem, case.page.text)
    assert made is not None
    page, sheet = made
    reading = read_with(case, page, sheet)
    still = [(other.code, other.message) for other in reading.problems]
    assert still.count((problem.code, problem.message)) < sum(
        (other.code, other.message) == (problem.code, problem.message)
        for other in case.read().problems
    ), page
    before = sum(other.severity.value == "error" for other in case.read().problems)
    after = sum(other.severity.value == "error" for other in reading.problems)
    assert after <= before - (problem.severity.value == "error"), [
        str(other.message) for other in reading.problems
    ]


def test_typing_over_repeats_nothing_that_stands_there():
    assert over("sow pea, 9 in apart", 11, 13, "9 inch apart") == "sow pea, 9 inch apart"
    assert over("pick 1.2 kgs kale", 9, 12, "kg") == "pick 1.2 kg kale"
