"""Frames as tables that people read."""

from support.hand_made import diary, picked

from journal.report.page_tables import HARVEST, PageTable, page_table, shift, signed
from journal.studies.harvest import harvest


def test_a_column_that_says_nothing_is_left_out() -> None:
    one = diary([picked("kale", "2025-01-03", 1.25, place="A"), picked("leek", "2025-01-04", 0.4)])
    assert page_table(harvest(one), "Harvest", HARVEST) == PageTable(
        "Harvest",
        ("crop", "place", "weight", "pickings", "first", "last"),
        (False, False, True, True, True, True),
        (
            ("kale", "A", "1.2 kg", "1", "3 Jan", "3 Jan"),
            ("leek", "", "400 g", "1", "4 Jan", "4 Jan"),
        ),
    )


def test_pickings_that_were_all_weighed_leave_their_column_blank() -> None:
    one = diary([picked("kale", "2025-01-03", 1.0), picked("leek", "2025-01-04")])
    table = page_table(harvest(one), "Harvest", HARVEST)
    column = table.heads.index("not weighed")
    assert [row[column] for row in table.rows] == ["", "1"]


def test_a_frame_without_rows_is_a_table_without_rows() -> None:
    assert page_table(harvest(diary([])), "Harvest", HARVEST).rows == ()


def test_changes_are_said_with_their_sign() -> None:
    assert [signed(value) for value in (12.4, -7.6, 0.3, -0.3)] == ["+12 %", "−8 %", "±0 %", "±0 %"]
    assert [shift(days) for days in (3.0, -1.0, 0.0)] == ["3 later", "1 earlier", "the same"]


def test_a_column_is_long_where_one_of_its_cells_is_and_its_table_is_a_list_on_a_phone() -> None:
    reason = "a reason that takes more than twenty-eight letters"
    table = PageTable(
        "T",
        ("crop", "place", "kg", "why"),
        (False, False, True, False),
        (("pea", "A", "1", reason),),
    )
    assert (table.long, table.wordy) == ((False, False, False, True), True)
    short = PageTable("T", table.heads, table.figures, (("pea", "A", "1", "none"),))
    assert (short.long, short.wordy) == ((False,) * 4, False)
