"""What an answer says in words beside the study that it comes from, where that leaves a range."""

from datetime import date

from support.written import written

from journal.questions.answer import ask

TODAY = date(2026, 11, 25)
SHEET = """\
- plot Home, latitude 54
- bed Alder, 10 m2
- bay One, 2 x 1 x 1.5 m
- feed pellets, 4-2-1
"""


def test_a_bay_whose_content_is_a_range_is_no_per_cent_full():
    page = "1 July 2026\n- level One 50 cm\n\n2 July 2026\n- spread compost from One on Alder\n"
    answer = ask(written(page, TODAY, SHEET), "How much is in One?")
    assert "between 0 litres and 1,000 litres" in answer.answer
    assert "%" not in answer.answer


def test_a_bay_of_an_unknown_start_is_at_least_so_full():
    # 300 of 3,000 l
    page = "1 July 2026\n- fill One with 300 l leaves\n"
    answer = ask(written(page, TODAY, SHEET), "How much is in One?")
    assert "at least 10 % of what it can" in answer.answer


def test_nitrogen_rests_on_the_dressings_whose_strength_is_known():
    # 500 g of 4 per cent is 20 g
    page = "1 May 2026\n- feed Alder with pellets 500 g\n- feed Alder with seaweed 10 l\n"
    answer = ask(written(page, TODAY, SHEET), "How much nitrogen did Alder get in 2026?")
    assert "at least 20 g of nitrogen" in answer.answer
    assert "of 1 feed or dressing" in answer.answer
    assert any("1 dressing is not in it" in said for said in answer.caveats)


def test_a_picking_of_an_open_year_is_told_and_not_counted():
    page = "30 Dec 2025\n- lift 2 kg parsnip\n\nabout 31 Dec 2025\n- lift 1 kg parsnip\n"
    answer = ask(written(page, TODAY, SHEET), "How much parsnip in 2025?")
    assert answer.value == 2.0
    assert "1 more entry may be of another time, and is not counted" in answer.caveats


def test_an_end_that_no_line_tells_is_said_to_be_the_least():
    page = "1 April 2024\n- sow carrot in Alder\n\n1 August 2024\n- pull 4 kg carrot from Alder\n"
    assumed = ask(written(page, TODAY, SHEET), "What was in Alder in 2024?")
    assert "(April 2024 to August 2024 at least)" in assumed.answer
    told = ask(
        written(page + "\n9 August 2024\n- clear Alder\n", TODAY, SHEET),
        "What was in Alder in 2024?",
    )
    assert "(April 2024 to August 2024)" in told.answer
