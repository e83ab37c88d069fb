"""Problems as pictures: what a person sees, case by awkward case.

Widths are those of Unicode's East Asian Width property (UAX #11, by the standard library).
"""

import json
from textwrap import dedent

import pytest

from journal.problems.codes import CODES, Code, Severity
from journal.problems.model import Problem, Related, sort_problems
from journal.problems.render import (
    display_width,
    problem_record,
    render_full,
    render_json,
    render_short,
    visible,
)
from journal.source import Source, Span


@pytest.fixture(autouse=True)
def codes(monkeypatch: pytest.MonkeyPatch) -> None:
    for code, severity in (("J901", "error"), ("J902", "warning"), ("J903", "hint")):
        row = Code(
            code=code,
            name="a-fault",
            severity=Severity(severity),
            title="A fault",
            message="",
            mend="",
            explanation="Said here only.",
            failing="",
            cure="",
        )
        monkeypatch.setitem(CODES, code, row)


def fault(
    text: str,
    word: str,
    message: str = "`it` is wrong",
    *,
    mend: str | None = None,
    code: str = "J901",
    path: str = "march.txt",
    related: tuple[Related, ...] = (),
) -> Problem:
    """A problem at the first `word` of a text."""
    start = text.index(word)
    return Problem(code, Source(path, text), Span(start, start + len(word)), message, mend, related)


def picture(problem: Problem) -> str:
    return render_full(problem) + "\n"


def drawn(text: str) -> str:
    return dedent(text).lstrip("\n")


def test_a_wrong_word_has_the_caret_under_it_and_the_mend_below():
    text = "14 March 2026\n- pick 1.2 kgs purple sprouting from Top bed\n"
    problem = fault(text, "kgs", "`kgs` is not a unit", mend="write `kg`", path="2026/march.txt")
    assert picture(problem) == drawn("""
        error[J901]: `kgs` is not a unit
         --> 2026/march.txt:2:12
          |
        2 | - pick 1.2 kgs purple sprouting from Top bed
          |            ^^^
          = mend: write `kg`
        """)


def test_an_emoji_before_the_end_of_the_line_moves_the_caret_by_two_columns():
    text = "14 March 2026\n\n- sow 🫘 24 leek in\n"
    end = text.index("in\n") + 2
    problem = Problem(
        "J901",
        Source("2026/march.txt", text),
        Span(end, end),
        "`in` names no place",
        "write the place after it, for example `in Frame`",
    )
    assert picture(problem) == drawn("""
        error[J901]: `in` names no place
         --> 2026/march.txt:3:19
          |
        3 | - sow 🫘 24 leek in
          |                    ^
          = mend: write the place after it, for example `in Frame`
        """)


def test_a_related_place_is_shown_with_its_label_under_dashes():
    text = "# 2026\n1 March\n\n- clear Long 2\n\n8 March\n- lift 3 kg parsnip from Long 2\n"
    source = Source("2026/march.txt", text)
    start = text.index("Long 2\n", text.index("lift"))
    clearing = text.index("clear Long 2")
    problem = Problem(
        "J902",
        source,
        Span(start, start + 6),
        "no parsnip stood in `Long 2` on 8 March 2026",
        "correct the place, or the day of the clearing",
        (Related(source, Span(clearing, clearing + 12), "cleared a week before"),),
    )
    assert picture(problem) == drawn("""
        warning[J902]: no parsnip stood in `Long 2` on 8 March 2026
         --> 2026/march.txt:7:26
          |
        7 | - lift 3 kg parsnip from Long 2
          |                          ^^^^^^
         ::: 2026/march.txt:4:3
          |
        4 | - clear Long 2
          |   ------------ cleared a week before
          = mend: correct the place, or the day of the clearing
        """)


def test_two_related_places_in_two_files_share_one_gutter():
    sheet = Source("plot.txt", "- bed Long 1, 14 m2\n" * 12)
    page = Source("2025.md", "x\n- rename Long 1 to L\n")
    bed = sheet.starts[9] + 6
    problem = fault(
        "- weed Long 1\n",
        "Long 1",
        "`Long 1` is two places",
        related=(
            Related(sheet, Span(bed, bed + 6), "declared here"),
            Related(page, Span(11, 17), "renamed here"),
        ),
    )
    assert picture(problem) == drawn("""
        error[J901]: `Long 1` is two places
          --> march.txt:1:8
           |
         1 | - weed Long 1
           |        ^^^^^^
          ::: plot.txt:10:7
           |
        10 | - bed Long 1, 14 m2
           |       ------ declared here
          ::: 2025.md:2:10
           |
         2 | - rename Long 1 to L
           |          ------ renamed here
        """)


def test_a_tab_before_the_word_is_drawn_as_four_spaces():
    assert picture(fault("-\tpick\t3 kgs kale", "kgs")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:1:10
          |
        1 | -    pick    3 kgs kale
          |                ^^^
        """)


def test_wide_characters_take_two_columns_before_and_under_the_caret():
    assert picture(fault("- sow 大根 蕪 now", "蕪")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:1:10
          |
        1 | - sow 大根 蕪 now
          |            ^^
        """)


def test_a_combining_mark_takes_no_column():
    text = "- sow ne\u0301flier kgs"
    assert picture(fault(text, "kgs")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:1:16
          |
        1 | - sow ne\u0301flier kgs
          |               ^^^
        """)


def test_a_span_of_zero_width_marks_alone_is_still_one_caret():
    assert picture(fault("- sow\u200b leek", "\u200b")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:1:6
          |
        1 | - sow\u200b leek
          |      ^
        """)


def test_an_empty_span_at_the_end_of_the_file_is_one_caret_after_the_text():
    text = "- weed Long 1\n- pick kale from"
    problem = Problem("J901", Source("a.txt", text), Span(len(text), len(text)), "`from` ends")
    assert picture(problem) == drawn("""
        error[J901]: `from` ends
         --> a.txt:2:17
          |
        2 | - pick kale from
          |                 ^
        """)


def test_a_problem_of_an_empty_file_has_an_empty_first_line():
    problem = Problem("J903", Source("a.txt", ""), Span(0, 0), "the file is empty")
    assert picture(problem) == drawn("""
        hint[J903]: the file is empty
         --> a.txt:1:1
          |
        1 |
          | ^
        """)


def test_a_line_that_ends_as_windows_ends_it_shows_no_carriage_return():
    text = "14 March 2026\r\n- pick 3 kgs\r\n"
    assert picture(fault(text, "kgs")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:2:10
          |
        2 | - pick 3 kgs
          |          ^^^
        """)


def test_a_span_that_ends_with_its_line_end_stays_on_its_line():
    text = "14 March 2026\r\n- pick 3 kgs\r\nprose\n"
    assert picture(fault(text, "kgs\r\n")) == picture(fault(text, "kgs"))


def test_a_span_over_two_lines_is_drawn_under_both():
    text = "- weed Long 1\n    bindweed all\n    along\n"
    assert picture(fault(text, "Long 1\n    bindweed")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:1:8
          |
        1 | - weed Long 1
          |        ^^^^^^
        2 |     bindweed all
          |     ^^^^^^^^
        """)


def test_a_span_over_many_lines_shows_the_first_and_the_last():
    text = "- weed Long 1\n    one\n    two\n    three\n"
    assert picture(fault(text, "Long 1\n    one\n    two\n    three")) == drawn("""
        error[J901]: `it` is wrong
         --> march.txt:1:8
          |
        1 | - weed Long 1
          |        ^^^^^^
          :
        4 |     three
          |     ^^^^^
        """)


def test_a_line_of_300_characters_is_shown_around_the_word():
    text = "- weed Long 1 (" + "bindweed " * 16 + "kgs " + "ground elder " * 11 + ")"
    assert len(text) > 300
    lines = render_full(fault(text, "kgs")).split("\n")
    shown, caret = lines[3], lines[4]
    assert shown.startswith("1 | …") and shown.endswith("…")
    assert len(shown) <= 100
    assert shown[caret.index("^") : caret.rindex("^") + 1] == "kgs"
    assert lines[1] == " --> march.txt:1:160"


@pytest.mark.parametrize("word", ["- weed", "END", "kgs " * 60])
def test_a_window_holds_the_beginning_the_end_and_a_word_longer_than_itself(word: str):
    text = "- weed " + "大根 " * 40 + "kgs " * 60 + "bindweed " * 20 + "END"
    lines = render_full(fault(text, word)).split("\n")
    shown, caret = lines[3], lines[4]
    assert display_width(shown) <= 100
    under = caret[4:].rstrip()
    start = display_width(under) - display_width(under.lstrip())
    assert _columns(shown[4:], start).startswith(word[:20])


def _columns(text: str, start: int) -> str:
    """The text from a terminal column on."""
    for index in range(len(text)):
        if display_width(text[:index]) == start:
            return text[index:]
    raise AssertionError(f"no character of {text!r} begins at column {start}")


def test_control_characters_are_shown_and_never_sent_to_the_terminal():
    text = "- weed \x1b[31mLong\x07 1 \u202e\x85"
    full = render_full(fault(text, "Long", "`\x1b[31mLong` is odd"))
    assert "1 | - weed ␛[31mLong␇ 1 ��" in full
    assert not set(full) & {"\x1b", "\x07", "\u202e", "\x85"}


def test_the_short_form_is_one_line_with_place_code_sentence_and_mend():
    text = "14 March 2026\n- pick 1.2 kgs kale\n"
    problem = fault(text, "kgs", "`kgs` is not a unit", mend="write `kg`")
    assert render_short(problem) == (
        "march.txt:2:12: error[J901]: `kgs` is not a unit (mend: write `kg`)"
    )
    assert "\n" not in render_short(fault("a\nb", "a\nb", "`a\nb` is odd"))


def test_the_json_form_has_the_columns_of_the_problems_table():
    text = "14 March 2026\n- pick 1.2 kgs kale «»\n"
    first = fault(text, "kgs", "`kgs` is not a unit", mend="write `kg`")
    second = fault(text, "«»", "`«»` has no meaning", code="J903")
    assert json.loads(render_json([first, second])) == [
        {
            "code": "J901",
            "severity": "error",
            "file": "march.txt",
            "line": 2,
            "column": 12,
            "column_end": 15,
            "message": "`kgs` is not a unit",
            "mend": "write `kg`",
        },
        {
            "code": "J903",
            "severity": "hint",
            "file": "march.txt",
            "line": 2,
            "column": 21,
            "column_end": 23,
            "message": "`«»` has no meaning",
            "mend": "",
        },
    ]
    assert json.loads(render_json([])) == []


def test_the_last_column_stays_on_the_first_line():
    assert problem_record(fault("ab\ncd", "b\ncd"))["column_end"] == 3
    empty = Problem("J901", Source("a.txt", "ab\n"), Span(2, 2), "ends")
    assert (problem_record(empty)["column"], problem_record(empty)["column_end"]) == (3, 3)


def test_problems_stand_in_reading_order_each_once():
    late = fault("kgs lbs", "lbs")
    early = fault("kgs lbs", "kgs")
    elsewhere = fault("kgs lbs", "kgs", path="a.txt")
    assert sort_problems([late, early, elsewhere, late]) == (elsewhere, early, late)


@pytest.mark.parametrize(
    ("text", "columns"),
    [("kale", 4), ("大根", 4), ("e\u0301", 1), ("🫘", 2), ("\u200b", 0), ("ﾀﾞ", 2)],
)
def test_width_is_counted_as_terminals_count_it(text: str, columns: int):
    assert display_width(text) == columns


def test_what_is_visible_has_no_tab():
    assert visible("a\tb\x00") == "a    b␀"
