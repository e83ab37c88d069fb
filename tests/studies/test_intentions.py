"""Plans, and what became of them."""

from datetime import date

import pandas as pd
import pytest
from support.written import SHEET, written

from journal.studies.intentions import intentions

TODAY = date(2026, 6, 30)


def states(page: str, today: date = TODAY, sheet: str = SHEET) -> list[str]:
    return intentions(written(page, today, sheet))["state"].tolist()


@pytest.mark.parametrize(
    ("today", "state", "days"),
    [(date(2026, 5, 17), "open", None), (date(2026, 5, 18), "overdue", 1)],
)
def test_a_plan_is_overdue_the_day_after_it_is_due(today: date, state: str, days: int | None):
    page = "2026-05-03\n- plan sow beetroot in Long 3 in 2 weeks\n"
    (row,) = intentions(written(page, today)).to_dict("records")
    late = None if pd.isna(row["overdue_days"]) else row["overdue_days"]
    assert (row["state"], late) == (state, days)


@pytest.mark.parametrize(
    ("plan", "entry", "state"),
    [
        ("sow beetroot in Long 3", "sow beetroot 'Boltardy' in Long 3", "closed"),
        ("sow beetroot", "sow beetroot in Long 1", "closed"),
        ("sow beetroot in Long 3", "sow beetroot in Long 1", "overdue"),
        ("sow beetroot 'Boltardy'", "sow beetroot", "overdue"),
        ("sow beetroot", "sow carrot", "overdue"),
        ("plant leek in Long 1", "plant out leek in Long 1", "closed"),
        ("lift potato", "dig up 3 kg potato from Long 1", "closed"),
        ("pick tomato", "sow tomato", "overdue"),
        ("clear Long 1", "clear potato from Long 1", "closed"),
        ("weed Long 1", "weed Long 1 30 min", "closed"),
        ("sow brassicas", "sow kale in Long 1", "closed"),
        ("job order manure", "job order manure", "closed"),
        ("job order manure", "job sweep the path", "overdue"),
        ("order manure", "done order manure", "done"),
        ("sow beetroot in Long 3", "done sow beetroot in Long 3", "done"),
        ("sow beetroot in Long 3", "done beetroot", "done"),
        ("sow beetroot in Long 3", "done sow carrot", "overdue"),
        ("sow beetroot in Long 3", "abandon sow beetroot", "abandoned"),
    ],
)
def test_a_plan_is_closed_by_the_entry_that_does_it(plan: str, entry: str, state: str):
    page = f"2026-05-03\n- plan {plan} by 20 May\n2026-05-10\n- {entry}\n"
    assert states(page) == [state]


def test_an_entry_before_the_plan_does_not_close_it():
    page = "2026-05-01\n- sow beetroot\n2026-05-03\n- plan sow beetroot by 20 May\n"
    assert states(page) == ["overdue"]


def test_an_entry_closes_one_occasion_of_a_succession():
    # due on 15 and 29 May, 12 and 26 June
    page = """\
2026-05-01
- plan sow lettuce in Long 1 every 2 weeks until July
2026-05-16
- sow lettuce in Long 1
2026-06-01
- sow lettuce in Long 1
"""
    assert states(page, date(2026, 6, 20)) == ["closed", "closed", "overdue", "open"]


def test_an_entry_with_two_items_closes_one_occasion():
    page = """\
2026-05-01
- plan sow lettuce every 2 weeks until July
2026-05-16
- sow lettuce 'Little Gem', lettuce 'Webb' in Long 1
"""
    assert states(page, date(2026, 5, 20)) == ["closed", "open", "open", "open"]


def test_abandoning_drops_all_that_is_left_of_a_succession():
    page = """\
2026-05-01
- plan sow lettuce every 2 weeks until July
2026-05-16
- sow lettuce in Long 1
2026-05-20
- abandon sow lettuce
"""
    assert states(page) == ["closed", "abandoned", "abandoned", "abandoned"]


def test_a_plan_without_a_day_stays_open():
    assert states("2026-05-01\n- plan sow beetroot in Long 1\n") == ["open"]


def test_a_plan_for_a_bed_is_closed_under_its_new_name():
    sheet = SHEET + "\n2026-05-10\n- rename Long 3 to Orchard end\n"
    page = "2026-05-03\n- plan sow beetroot in Long 3 by 20 May\n"
    page += "2026-05-18\n- sow beetroot in Orchard end\n"
    assert states(page, sheet=sheet) == ["closed"]


def test_both_lines_are_told():
    page = "2026-05-03\n- plan sow beetroot by 20 May\n2026-05-10\n- sow beetroot in Long 1\n"
    (row,) = intentions(written(page, TODAY)).to_dict("records")
    assert (row["line"], row["closed_line"], row["closed"].date()) == (2, 4, date(2026, 5, 10))


def test_what_is_read_later_than_today_has_not_happened():
    page = "2026-05-03\n- plan sow beetroot by 20 May\n2026-05-10\n- sow beetroot in Long 1\n"
    assert states(page, date(2026, 5, 5)) == ["open"]
