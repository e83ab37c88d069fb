"""Packets bought, sown and left, their age against published life, and orders, worked by hand."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import diary, happened

from journal.studies.seed import seed, seed_notes
from journal.tables.schema import check_frame

IN_WINTER = date(2026, 1, 15)


def bought(when: str, packets: float | None = 1.0, **columns: Any) -> dict[str, Any]:
    return happened("purchase", "buy", when, **({"crop": "carrot", "packets": packets} | columns))


def sown(when: str, **columns: Any) -> dict[str, Any]:
    return happened("sowing", "sow", when, **({"crop": "carrot"} | columns))


def planted(when: str, count: float | None, **columns: Any) -> dict[str, Any]:
    return happened("planting", "plant", when, **({"crop": "garlic", "count": count} | columns))


def rows_of(*events: dict[str, Any], today: date = IN_WINTER) -> list[dict[str, Any]]:
    frame = seed(diary(list(events), today=today))
    check_frame(frame, "seed")
    return [dict(row) for _, row in frame.iterrows()]


def one_row(*events: dict[str, Any], today: date = IN_WINTER) -> dict[str, Any]:
    (row,) = rows_of(*events, today=today)
    return row


# ------------------------------------------------------------ age and life


@pytest.mark.parametrize(
    ("crop", "when", "past"),
    [
        # Iowa State University Extension after Knott's Handbook: leek 2 years; Watts: 3
        ("leek", "2024-06-01", "no"),
        ("leek", "2023-06-01", "by some sources"),
        ("leek", "2022-06-01", "yes"),
        # parsnip 1 year by both
        ("parsnip", "2025-06-01", "no"),
        ("parsnip", "2024-06-01", "yes"),
    ],
)
def test_a_packet_is_past_its_life_by_no_some_or_all_sources(crop: str, when: str, past: str):
    row = one_row(bought(when, crop=crop))
    assert row["past"] == past
    assert "Iowa State" in row["life_sources"] and "Watts" in row["life_sources"]


def test_sources_that_differ_are_both_shown():
    row = one_row(bought("2025-01-01", crop="leek"))
    assert (row["life_years_low"], row["life_years_high"]) == (2, 3)


def test_a_crop_that_no_source_names_has_no_life():
    row = one_row(bought("2020-01-01", crop="oddity"))
    assert row["past"] == "" and row["life_sources"] == "" and pd.isna(row["life_years_low"])


def test_the_age_is_that_of_the_youngest_packet():
    # 15 January 2025 to 15 January 2026 are 365 days
    row = one_row(bought("2020-01-15"), bought("2025-01-15"))
    assert row["age_years_low"] == row["age_years_high"] == pytest.approx(365 / 365.2425)
    assert row["bought"] == 2


def test_seed_saved_later_is_younger():
    saved = happened("kitchen", "save", "2025-10-01", crop="carrot", mass_kg=0.1)
    row = one_row(bought("2020-01-15"), saved)
    assert row["age_years_high"] < 0.3
    assert row["saved_last"] == pd.Timestamp("2025-10-01")


# ------------------------------------------------------------ left


def test_packets_bought_after_the_last_sowing_are_left():
    row = one_row(bought("2024-02-01"), sown("2025-04-01"), bought("2025-11-01", 2.0))
    assert (row["left"], row["bought"], row["sown_times"]) == (2, 3, 1)


def test_a_packet_once_sown_from_is_neither_full_nor_empty():
    assert pd.isna(one_row(bought("2025-02-01"), sown("2025-04-01"))["left"])


# ------------------------------------------------------------ what to order


def test_packets_are_ordered_by_how_far_they_went():
    # three packets sowed 24 m in two years, a packet 8 m; 16 m in 2025 took two
    row = one_row(
        bought("2024-02-01"),
        sown("2024-04-01", length_m=8.0),
        bought("2025-02-01", 2.0),
        sown("2025-04-01", length_m=16.0),
    )
    assert (row["year"], row["sown_m"], row["order"]) == (2025, 16, 2)
    assert row["events"] == "1, 3, 4"


def test_what_is_left_need_not_be_ordered_unless_it_is_too_old():
    events = [bought("2025-02-01", 2.0), sown("2025-04-01", length_m=16.0)]
    assert one_row(*events, bought("2025-12-01"))["order"] == 1
    parsnips = [{**event, "crop": "parsnip"} for event in (*events, bought("2025-05-01"))]
    # sown in 2025 and bought since: one year on from May 2025 its life is over by both sources
    row = one_row(*parsnips, today=date(2026, 8, 1))
    assert row["past"] == "yes" and row["order"] == 2


def test_a_part_of_a_packet_is_a_whole_one():
    row = one_row(
        bought("2024-02-01"),
        sown("2024-04-01", length_m=10.0),
        sown("2025-04-01", length_m=2.0),
    )
    assert row["order"] == 1


def test_seeds_are_counted_where_no_rows_are_written_and_else_sowings():
    # 60 seeds of three packets, 40 of them in 2025: two packets
    counted = one_row(
        bought("2024-02-01", 3.0), sown("2024-04-01", count=20.0), sown("2025-04-01", count=40.0)
    )
    assert counted["order"] == 2
    # one packet for four sowings, three of them in 2025
    often = one_row(
        bought("2024-02-01", 2.0),
        sown("2024-04-01"),
        sown("2025-04-01"),
        sown("2025-05-01"),
        sown("2025-06-01"),
    )
    assert often["order"] == 2


def test_plants_are_ordered_by_how_many_were_planted():
    events = [bought("2025-09-01", None, crop="garlic", count=40.0), planted("2025-10-01", 30.0)]
    row = one_row(*events)
    assert (row["unit"], row["order"], row["bought"]) == ("plants", 30, 40)
    assert pd.isna(row["age_years_low"])


def test_tubers_that_lie_ready_need_not_be_ordered():
    potato = {"crop": "potato"}
    row = one_row(
        bought("2025-02-01", None, count=16.0, **potato),
        planted("2025-04-01", 16.0, **potato),
        bought("2026-01-10", None, count=12.0, **potato),
    )
    assert (row["left"], row["order"]) == (12, 4)


def test_plants_of_ones_own_raising_are_no_bought_ones():
    leek = {"crop": "leek", "cultivar": "Oarsman"}
    rows = rows_of(
        bought("2024-06-01", None, count=12.0, material="plugs", **leek),
        planted("2024-06-02", 12.0, place="Long 2", **leek),
        happened("end", "clear", "2024-12-01", place="Long 2", **leek),
        bought("2025-02-01", **leek),
        sown("2025-03-01", count=60.0, place="Frame", **leek),
        planted("2025-07-01", 40.0, place="Long 1", place_from="Frame", **leek),
    )
    by_unit = {row["unit"]: row for row in rows}
    assert by_unit["packets"]["order"] == 1
    assert pd.isna(by_unit["plants"]["order"]) and by_unit["plants"]["sown_times"] == 1


def test_a_perennial_stands_on():
    row = one_row(
        bought("2025-08-01", None, crop="strawberry", count=12.0),
        planted("2025-08-02", 12.0, crop="strawberry"),
    )
    assert row["order"] == 0 and "perennial" in row["why"]


@pytest.mark.parametrize(
    ("events", "reason"),
    [
        ([bought("2023-02-01"), sown("2023-04-01")], "not sown or planted in 2025"),
        (
            [happened("kitchen", "save", "2024-10-01", crop="carrot"), sown("2025-04-01")],
            "never bought by the packet",
        ),
        ([bought("2025-02-01", None, material="seed"), sown("2025-04-01")], "not always written"),
        (
            [
                bought("2025-09-01", None, crop="garlic", count=40.0),
                planted("2025-10-01", None),
            ],
            "how many were set in 2025 is not written",
        ),
    ],
)
def test_where_nothing_says_what_to_order_the_reason_stands(
    events: list[dict[str, Any]], reason: str
):
    row = one_row(*events)
    assert pd.isna(row["order"]) and reason in row["why"]


def test_a_row_sown_again_this_year_needs_no_order_now():
    row = one_row(
        bought("2025-02-01"), sown("2025-04-01"), sown("2026-02-01"), today=date(2026, 3, 1)
    )
    assert row["order"] == 0 and "since 2025" in row["why"]


def test_from_september_on_the_year_in_hand_is_the_one_to_grow_again():
    events = [bought("2025-02-01"), sown("2025-04-01")]
    assert one_row(*events, today=date(2025, 8, 31))["year"] == 2024
    assert one_row(*events, today=date(2025, 9, 1))["order"] == 1


def test_what_cannot_be_ordered_by_the_diary_is_told():
    saved = happened("kitchen", "save", "2024-10-01", crop="carrot")
    notes = seed_notes(diary([saved, sown("2025-04-01")], today=IN_WINTER))
    assert [str(note) for note in notes] == [
        "carrot: never bought by the packet, so nothing says how far one goes"
    ]
