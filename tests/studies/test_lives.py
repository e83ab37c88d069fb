"""Lines of life and survival from seed to plant: small diaries worked by hand."""

from datetime import date

import pandas as pd
from support.written import written

from journal.studies.lives import lives
from journal.studies.survival import survival

TODAY = date(2026, 11, 25)
BEANS = """\
2026-03-01
- sow 24 broad bean 'The Sutton' in modules in Tunnel
2026-03-15
- up 21 of 24 broad bean 'The Sutton' in Tunnel
2026-04-01
- plant out 20 broad bean 'The Sutton' from Tunnel to Long 1
2026-05-01
- clear broad bean from Tunnel
2026-06-10
- pick 2 kg broad bean from Long 1
2026-07-01
- clear Long 1
"""


def told(page: str) -> list[tuple[str, str, int, str, str]]:
    return [
        (row["stage"], row["place"], row["lane"], f"{row['begins']:%m-%d}", f"{row['ends']:%m-%d}")
        for row in lives(written(page, TODAY)).to_dict("records")
    ]


def test_a_line_of_life_runs_from_sowing_to_clearing_and_what_was_left_runs_beside_it():
    assert told(BEANS) == [
        ("sown", "Tunnel", 0, "03-01", "03-15"),
        ("up", "Tunnel", 0, "03-15", "04-01"),
        ("up", "Tunnel", 1, "04-01", "05-01"),
        ("planted", "Long 1", 0, "04-01", "06-10"),
        ("cropping", "Long 1", 0, "06-10", "07-01"),
    ]


def test_no_two_main_lines_of_a_batch_are_on_one_day():
    frame = lives(written(BEANS, TODAY))
    main = frame[frame["lane"] == 0].sort_values("begins")
    assert (main["ends"].iloc[:-1].to_numpy() <= main["begins"].iloc[1:].to_numpy()).all()


def test_what_stands_is_drawn_to_today():
    (row,) = lives(written("2026-05-01\n- plant 9 leek in Long 1\n", TODAY)).to_dict("records")
    assert (row["ends"].date(), row["ended"], row["year"]) == (TODAY, "", 2026)


def test_an_uncertain_day_is_drawn_from_the_last_it_can_be():
    page = "October 2025\n- plant 9 garlic in Long 1\n"
    (row,) = lives(written(page, TODAY)).to_dict("records")
    assert row["begins"].date() == date(2025, 10, 31)


def test_survival_is_a_ratio_of_sums_over_the_sowings_that_were_counted():
    # 30 of 50 and 10 of 10 up: 40 of 60; the third was never counted, and only the first planted
    page = """\
2026-03-01
- sow 50 leek 'Porbella' [a] in modules in Tunnel
- sow 10 leek 'Porbella' [b] in modules in Tunnel
- sow 20 leek 'Porbella' [c] in modules in Tunnel
2026-03-11
- up 30 leek 'Porbella' [a]
2026-03-21
- up 10 leek 'Porbella' [b]
2026-06-01
- lose 4 leek 'Porbella' [a] to slugs
- plant out 25 leek 'Porbella' [a] in Long 1
"""
    (row,) = survival(written(page, TODAY)).to_dict("records")
    assert (row["sowings"], row["sown"], row["up"]) == (3, 60, 40)
    assert round(row["pct_up"], 4) == 66.6667
    assert (row["sown_planted"], row["planted"], row["pct_planted"], row["lost"]) == (50, 25, 50, 4)
    assert row["days_to_up"] == 15


def test_a_sowing_by_the_row_is_no_count():
    page = "2026-03-01\n- sow carrot in Long 1, 2 rows of 1 m\n2026-03-20\n- up carrot in Long 1\n"
    assert survival(written(page, TODAY)).empty


def test_what_was_sown_and_never_told_of_again_has_no_per_cent():
    (row,) = survival(written("2026-03-01\n- sow 20 leek in Long 1\n", TODAY)).to_dict("records")
    assert pd.isna(row["pct_up"]) and pd.isna(row["pct_planted"]) and row["sowings"] == 1
