"""The tanks' books: litres from roofs by the standard's formula, drawings, overflow, and ranges.

Yield: BS EN 16941-1:2024, Table 2 (0.80 for a rough pitched roof); examples are in tests/external.
"""

from datetime import date

import pandas as pd
import pytest
from support.weather import weather_diary

from journal.diary import Diary
from journal.studies.cautions import caution_words
from journal.studies.rain_store import rain_store, rain_store_notes, roof_yield
from journal.studies.rain_store_now import last_summer, rain_store_now, rain_store_years
from journal.tables.schema import check_frame

SHEET = "- tank Butt, 200 l\n- roof Shed, 12 m2, to Butt\n- bed Long 1, 6 m2"
START = "2025-06-01\n- level Butt 150 l\n- rain 0 mm\n\n"


def diary_of(page: str, sheet: str = SHEET, today: date = date(2025, 6, 4)) -> Diary:
    return weather_diary(page, sheet, today)


def last(diary: Diary, name: str):
    return rain_store(diary)[name].iloc[-1]


def test_a_storm_fills_the_tank_and_the_rest_runs_over():
    # 12 m2 x 8.5 mm x 0.80 = 81.6 l onto 150 of 200 l: full, and 31.6 l run over
    diary = diary_of(START + "2025-06-02\n- rain 8.5 mm\n", today=date(2025, 6, 2))
    assert last(diary, "in_l") == pytest.approx(81.6)
    assert (last(diary, "level_l"), last(diary, "overflow_l")) == (200.0, pytest.approx(31.6))
    # the same with the filter of the worked example: 73.44 l, 23.44 over
    assert roof_yield(12, 8.5, 0.8, 0.9) == pytest.approx(73.44)


def test_overflow_is_reckoned_each_day_and_not_on_the_months_sum():
    page = START + "2025-06-02\n- rain 10 mm\n- water Long 1 100 l from Butt\n\n"
    page += "2025-06-03\n- rain 5 mm\n"
    diary = diary_of(page, today=date(2025, 6, 3))
    rows = rain_store(diary)
    # 150 + 96 = 246: 46 over, 200 - 100 = 100; + 48 = 148
    assert rows["overflow_l"].tolist()[1:] == [46.0, 0.0]
    assert last(diary, "level_l") == pytest.approx(148.0)


@pytest.mark.parametrize(
    ("surface", "coefficient"),
    [(", pitched smooth", 0.9), (", flat with gravel", 0.7), (", green", 0.5), ("", 0.8)],
)
def test_the_sheet_says_what_the_roof_is_made_of(surface: str, coefficient: float):
    sheet = SHEET.replace("12 m2", f"12 m2{surface}")
    diary = diary_of(START + "2025-06-02\n- rain 1 mm\n", sheet, date(2025, 6, 2))
    assert last(diary, "in_l") == pytest.approx(12 * coefficient)
    assert diary.problems.empty


def test_two_roofs_lead_to_one_tank_by_its_other_name_too():
    sheet = SHEET.replace("200 l", "200 l, also blue butt") + "\n- roof House, 8 m2, to Blue butt"
    diary = diary_of(START + "2025-06-02\n- rain 1 mm\n", sheet, date(2025, 6, 2))
    assert last(diary, "in_l") == pytest.approx(20 * 0.8)


def test_rain_not_read_leaves_a_range_and_a_reading_ends_it():
    page = START + "2025-06-02\n- water Long 1 30 l from Butt\n\n2025-06-04\n- level Butt 190 l\n"
    rows = rain_store(diary_of(page))
    assert rows["level_low_l"].tolist()[1:3] == [120.0, 120.0]
    assert rows["level_high_l"].tolist()[1:3] == [170.0, 200.0]
    assert rows["level_l"].isna().tolist() == [False, True, True, False]
    assert rows["in_l"].isna().tolist() == [False, True, True, True]
    assert rows["overflow_l"].isna().tolist()[1:3] == [True, True]
    assert (rows["read_l"].iloc[3], rows["off_l"].iloc[3]) == (190.0, 0.0)


def test_a_reading_outside_what_was_reckoned_tells_by_how_much():
    page = START + "2025-06-02\n- rain 0 mm\n- level Butt 110 l\n"
    diary = diary_of(page, today=date(2025, 6, 2))
    assert last(diary, "off_l") == -40.0
    assert last(diary, "level_l") == 110.0


def test_water_of_no_said_source_may_have_come_from_the_tank():
    page = START + "2025-06-02\n- rain 0 mm\n- water Long 1 50 l\n- water Long 1 10 l from Butt\n"
    diary = diary_of(page, today=date(2025, 6, 2))
    assert (last(diary, "drawn_l"), last(diary, "unsaid_l")) == (10.0, 50.0)
    assert (last(diary, "level_low_l"), last(diary, "level_high_l")) == (90.0, 140.0)
    assert pd.isna(last(diary, "level_l"))
    assert [note.reason for note in rain_store_notes(diary)] == [
        "1 watering without a source, which may be theirs"
    ]


def test_a_can_that_was_not_measured_may_have_emptied_it():
    diary = diary_of(
        START + "2025-06-02\n- rain 0 mm\n- water Long 1 from Butt\n", today=date(2025, 6, 2)
    )
    assert (last(diary, "level_low_l"), last(diary, "level_high_l")) == (0.0, 150.0)
    assert pd.isna(last(diary, "drawn_l"))


def june(extra: str, rain: dict[int, float] | None = None) -> pd.DataFrame:
    """The tank's days of a June that begins with 150 l in it, dry but for some days."""
    mm = rain or {}
    page = START + "".join(f"2025-06-{at:02}\n- rain {mm.get(at, 0)} mm\n\n" for at in range(2, 31))
    rows = rain_store(diary_of(page + extra, today=date(2025, 6, 30)))
    return rows.set_index(rows["date"].dt.day)


@pytest.mark.parametrize("source", [" from Butt", ""])
def test_a_can_of_an_uncertain_day_counts_once_and_leaves_its_days_open(source: str):
    # about 15 June may be any day from the 8th to the 22nd
    rows = june(f"about 15 June 2025\n- water Long 1 30 l{source}\n")
    column = rows["drawn_l" if source else "unsaid_l"]
    assert column[column.isna()].index.tolist() == list(range(8, 23))
    assert (rows["level_low_l"][7], rows["level_high_l"][7]) == (150.0, 150.0)
    assert (rows["level_low_l"][30], rows["level_high_l"][30]) == (120.0, 150.0)


def test_a_can_of_an_uncertain_day_may_have_been_drawn_after_the_rain():
    # 10 mm bring 96 l and fill it on the 10th: drawn before, it is full; after, it lacks 30 l
    rows = june("about 15 June 2025\n- water Long 1 30 l from Butt\n", {10: 10})
    assert (rows["level_low_l"][30], rows["level_high_l"][30]) == (170.0, 200.0)


def test_a_watering_over_several_days_is_shared_out_among_them():
    rows = june("10 to 12 June 2025\n- water Long 1 30 l from Butt\n- water Long 1 9 l\n")
    assert rows["drawn_l"].sum() == pytest.approx(30)
    assert rows["unsaid_l"].sum() == pytest.approx(9)
    assert (rows["level_low_l"][30], rows["level_high_l"][30]) == (111.0, 120.0)


# 12 m2 x 5 mm x 0.8 = 48 l of rain, which came before the reading of the day
@pytest.mark.parametrize(
    ("entries", "low", "high", "off"),
    [
        ("- level Butt 100 l\n- water Long 1 30 l from Butt", 70.0, 70.0, -98.0),
        ("- water Long 1 30 l from Butt\n- level Butt 100 l", 100.0, 100.0, -68.0),
        ("- level Butt 100 l\n- water Long 1 30 l", 70.0, 100.0, -98.0),
        ("- level Butt 100 l\n- water Long 1 from Butt", 0.0, 100.0, -98.0),
        ("- level Butt 100 l\n- fill Butt with 20 l", 120.0, 120.0, -98.0),
        ("- empty Butt\n- fill Butt with 20 l", 20.0, 20.0, None),
    ],
)
def test_what_is_written_below_a_level_came_after_it(
    entries: str, low: float, high: float, off: float | None
):
    page = START + f"2025-06-02\n- rain 5 mm\n{entries}\n"
    row = rain_store(diary_of(page, today=date(2025, 6, 2))).iloc[-1]
    assert (row["level_low_l"], row["level_high_l"]) == (low, high)
    assert (None if pd.isna(row["off_l"]) else row["off_l"]) == off


def test_a_summer_begun_late_tells_no_use_a_day():
    # 46 l drawn in the 31 days of August alone would pose as half a litre a day of the summer
    days = [f"{day:%Y-%m-%d}\n- rain 0 mm\n" for day in pd.date_range("2025-08-01", "2025-09-01")]
    page = "\n".join([days[0] + "- level Butt 200 l\n- water Long 1 46 l from Butt\n", *days[1:]])
    (row,) = rain_store_now(diary_of(page, today=date(2025, 9, 1))).to_dict("records")
    assert row["summer"] == 2025 and pd.isna(row["use_low_l"]) and pd.isna(row["days_high"])


@pytest.mark.parametrize(
    ("entry", "level"),
    [
        ("- empty Butt", 0.0),
        ("- fill Butt", 200.0),
        ("- fill Butt with 20 l", 170.0),
    ],
)
def test_filling_and_emptying_set_the_level(entry: str, level: float):
    diary = diary_of(START + f"2025-06-02\n- rain 0 mm\n{entry}\n", today=date(2025, 6, 2))
    assert last(diary, "level_l") == level


def test_it_begins_wholly_open():
    rows = rain_store(diary_of("2025-06-01\n- rain 2 mm\n", today=date(2025, 6, 1)))
    # 12 x 2 x 0.8 = 19.2 l came into a tank that may have been empty or full
    assert (rows["level_low_l"].iloc[0], rows["level_high_l"].iloc[0]) == (19.2, 200.0)


def test_nothing_is_made_or_lost_where_all_is_certain():
    page = START + "".join(
        f"2025-06-{at:02}\n- rain {at % 7} mm\n- water Long 1 {at} l from Butt\n\n"
        for at in range(2, 30)
    )
    rows = rain_store(diary_of(page, today=date(2025, 6, 29)))
    change = rows["level_l"].diff().iloc[1:]
    moved = (rows["in_l"] - rows["drawn_l"] - rows["overflow_l"]).iloc[1:]
    # the tank never ran dry here, so that the books must close
    assert (rows["level_l"] > 0).all()
    assert change.tolist() == pytest.approx(moved.tolist(), abs=0.01)


def summer_page(extra: str = "") -> str:
    days = [f"2025-{day:%m-%d}\n- rain 0 mm\n" for day in pd.date_range("2025-06-01", "2025-09-01")]
    days[0] += "- level Butt 200 l\n"
    days[10] += "- water Long 1 46 l from Butt\n- fill Butt\n"
    days[20] += "- water Long 1 46 l from Butt\n- fill Butt\n" + extra
    return "\n".join(days)


def test_how_many_days_it_lasts_at_last_summers_use():
    diary = diary_of(summer_page(), today=date(2025, 9, 1))
    (row,) = rain_store_now(diary).to_dict("records")
    # 92 l in the 92 days of June to August is 1 l a day
    assert (row["summer"], row["use_low_l"], row["level_l"]) == (2025, 1.0, 200.0)
    assert (row["days_low"], row["days_high"]) == (200.0, 200.0)


def test_waterings_of_no_source_shorten_the_least_that_it_lasts():
    diary = diary_of(summer_page("- water Long 1 92 l\n- fill Butt\n"), today=date(2025, 9, 1))
    (row,) = rain_store_now(diary).to_dict("records")
    assert (row["use_low_l"], row["use_high_l"]) == (1.0, 2.0)
    assert (row["days_low"], row["days_high"]) == (100.0, 200.0)


def test_last_summer_is_the_one_that_has_ended():
    south = "- plot Home, latitude -33\n"
    cases = [
        ("", date(2026, 7, 1), "2025-06-01"),
        ("", date(2026, 9, 1), "2026-06-01"),
        (south, date(2026, 1, 1), "2024-12-01"),
        (south, date(2026, 3, 1), "2025-12-01"),
    ]
    for sheet, today, begins in cases:
        _, first, _ = last_summer(diary_of("", sheet + SHEET, today))
        assert f"{first:%Y-%m-%d}" == begins


def test_a_years_sums_are_those_of_its_days():
    diary = diary_of(summer_page(), today=date(2025, 9, 1))
    (row,) = rain_store_years(diary).to_dict("records")
    assert (row["year"], row["tank"], row["drawn_l"], row["days"]) == (2025, "Butt", 92.0, 93)


def test_a_tank_without_a_volume_has_no_row_and_a_note():
    diary = diary_of(START, SHEET.replace("tank Butt, 200 l", "tank Butt"))
    assert rain_store(diary).empty
    assert [str(note) for note in rain_store_notes(diary)] == ["Butt: the sheet gives it no volume"]


def test_a_tank_that_no_roof_leads_to_is_told():
    diary = diary_of(START, SHEET.replace(", to Butt", ""))
    assert "no roof" in str(rain_store_notes(diary)[0])
    assert last(diary, "level_l") == 150.0


def test_the_columns_are_as_said():
    for diary in (diary_of(summer_page(), today=date(2025, 9, 1)), diary_of("")):
        check_frame(rain_store(diary), "rain_store")
        check_frame(rain_store_now(diary), "rain_store_now")
        check_frame(rain_store_years(diary), "rain_store_years")


def test_the_caution_for_stored_water_belongs_here():
    assert "not for drinking" in caution_words("rain_store")
