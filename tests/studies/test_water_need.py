"""The water of beds and pots: by hand on a few days, by its books, and where it must stay silent.

Figures of soil and crop: FAO-56 (1998), Tables 11, 12, 19 and 22. The formulas themselves are held
to the paper's examples in test_evapotranspiration.py and test_soil_water.py.
"""

from collections.abc import Iterable
from datetime import date, timedelta
from math import pi
from pathlib import Path

import pandas as pd
import pytest
import refet
from support.weather import beside_met_file, weather_diary

from journal.diary import Diary, read
from journal.studies import evapotranspiration as fao
from journal.studies.crop_coefficient import adjusted_mid
from journal.studies.et0 import et0, et0_notes
from journal.studies.water_need import (
    thirsty,
    water_need,
    water_notes,
    water_now,
)
from journal.tables.schema import check_frame

SHEET = "- plot Home, latitude 52\n- bed Long 1, 1.2 x 5 m, soil sandy loam\n- pot Sack, 40 l"
START = date(2025, 6, 1)
SOAKED = 200.0


def days_of(
    count: int,
    rain: dict[int, float | None] | None = None,
    entries: dict[int, str] | None = None,
    first: date = START,
) -> str:
    """Days of 10 to 20 C; the first soaks the ground, the others are dry but for `rain`."""
    rain, entries = {0: SOAKED} | (rain or {}), entries or {}
    lines = []
    for at in range(count):
        lines.append(f"{first + timedelta(days=at)}")
        mm = rain.get(at, 0.0)
        lines.append("- weather 10 to 20 C" + ("" if mm is None else f", rain {mm} mm"))
        lines += [entries[at]] if at in entries else []
        lines.append("")
    return "\n".join(lines)


def diary_of(*args, sheet: str = SHEET, **kwargs) -> Diary:
    page = days_of(*args, **kwargs)
    return weather_diary(page, sheet, START + timedelta(days=args[0] - 1))


def column(diary: Diary, name: str, crop: str = "potato") -> list:
    rows = water_need(diary)
    return rows.loc[rows["crop"] == crop, name].tolist()


PLANTED = {0: "- plant 6 potato in Long 1"}


def test_a_soaked_bed_lacks_what_the_crop_used_since():
    diary = diary_of(4, entries=PLANTED)
    # Hargreaves for 52 N; potato begins at 0.5
    need = [
        0.5 * float(fao.hargreaves(10, 20, fao.extraterrestrial(52, day)))
        for day in range(152, 156)
    ]
    assert column(diary, "kc") == [0.5] * 4
    assert column(diary, "crop_mm") == pytest.approx(need, abs=1e-3)
    assert column(diary, "depletion_mm") == pytest.approx(
        [0.0, need[1], need[1] + need[2], sum(need[1:])], abs=2e-3
    )
    assert column(diary, "method") == ["hargreaves"] * 4


def test_the_root_zone_is_soil_times_root_and_the_easy_part_follows_the_days_use():
    # sandy loam 0.11 to 0.15, potato 0.4 m: 1000 x 0.13 x 0.4 = 52 mm; p = 0.35 + 0.04 (5 - ETc)
    diary = diary_of(2, entries=PLANTED)
    assert column(diary, "total_mm") == pytest.approx([52.0, 52.0])
    use = column(diary, "crop_mm")[1]
    assert column(diary, "readily_mm")[1] == pytest.approx((0.35 + 0.04 * (5 - use)) * 52, abs=2e-3)


def test_a_watering_and_a_liquid_feed_count_in_litres_over_the_bed():
    entries = PLANTED | {2: "- water Long 1 12 l", 3: "- feed Long 1 with nettle tea, 6 l"}
    dry, wet = diary_of(4, entries=PLANTED), diary_of(4, entries=entries)
    # 12 l and 6 l over 6 m2 are 2 and 1 mm
    assert column(wet, "watered_mm") == [0.0, 0.0, 2.0, 1.0]
    lack = [max(mm, 0) for mm in (column(dry, "depletion_mm")[2] - 2, 0)]
    assert column(wet, "depletion_mm")[2] == pytest.approx(lack[0], abs=2e-3)


def test_a_watering_over_two_days_is_shared_out_to_them():
    page = days_of(4, entries=PLANTED) + "\n2 to 3 June 2025\n- water Long 1 12 l\n"
    diary = weather_diary(page, SHEET, date(2025, 6, 4))
    assert column(diary, "watered_mm") == [0.0, 1.0, 1.0, 0.0]


def test_a_watering_of_a_doubtful_day_may_have_been_on_any_of_them():
    page = days_of(60, entries=PLANTED) + "\nabout 20 July 2025\n- water Long 1 600 l\n"
    diary = weather_diary(page, SHEET, date(2025, 7, 30))
    low, high = column(diary, "depletion_low_mm"), column(diary, "depletion_high_mm")
    dry = column(diary_of(60, entries=PLANTED), "depletion_mm")
    # 13 to 27 July are the days 42 to 56
    assert [low[at] for at in (42, 49, 56)] == [0.0, 0.0, 0.0] and low[41] > 0
    assert high == pytest.approx(dry)


def test_water_is_neither_made_nor_lost():
    """Over any days: what came less what was used and what drained is what the lack shrank by."""
    rain = {5: 4.0, 9: 60.0, 10: 8.0, 20: 13.0, 27: 13.0, 34: 15.0}
    diary = diary_of(40, rain=rain, entries=PLANTED | {15: "- water Long 1 30 l"})
    rows = water_need(diary)
    before = rows["depletion_mm"].shift()
    came = rows["rain_mm"] + rows["watered_mm"]
    # below RAW a crop uses all that it wants, so that only a soaking can leave a difference
    assert (before.iloc[1:] <= rows["readily_mm"].iloc[1:]).all()
    drained = came - rows["crop_mm"] - (before - rows["depletion_mm"])
    assert (drained.iloc[1:] > -2e-3).all()
    assert drained[drained > 2e-3].index.tolist() == [9, 10]
    assert (rows["depletion_mm"] <= rows["total_mm"]).all()


def test_past_readily_available_water_a_bed_needs_water_by_so_many_litres():
    diary = diary_of(60, entries=PLANTED)
    rows = water_need(diary)
    thirst = rows[rows["state"] == "needs water"]
    assert not thirst.empty and (thirst["depletion_mm"] > thirst["readily_mm"]).all()
    assert (rows.loc[rows["state"] == "enough", "depletion_mm"] <= 52).all()
    last = rows.iloc[-1]
    assert last["past_l"] == pytest.approx(
        (last["depletion_mm"] - last["readily_mm"]) * 6, abs=1e-2
    )
    assert last["fill_l"] == pytest.approx(last["depletion_mm"] * 6, abs=1e-2)
    named = thirsty(diary)
    assert named[["place", "crops"]].to_numpy().tolist() == [["Long 1", "potato"]]
    assert named["past_l"].iloc[0] == last["past_l"]


def test_a_watered_bed_is_not_named():
    diary = diary_of(60, entries=PLANTED | {59: "- water Long 1 400 l"})
    assert thirsty(diary).empty
    assert water_now(diary)["state"].tolist() == ["enough"]


def test_a_day_of_rain_not_read_leaves_a_range_until_a_soaking():
    diary = diary_of(8, rain={3: None, 6: SOAKED}, entries=PLANTED)
    exact = [not isinstance(mm, float) for mm in column(diary, "depletion_mm")]
    assert exact == [False, False, False, True, True, True, False, False]
    low, high = column(diary, "depletion_low_mm"), column(diary, "depletion_high_mm")
    assert low[3] == 0.0 and high[3] > 0
    assert pd.isna(column(diary, "rain_mm")[3])


def test_a_dry_looking_year_with_rain_not_read_never_names_a_bed():
    rain = {at: None for at in range(1, 60, 7)}
    diary = diary_of(60, rain=rain, entries=PLANTED)
    assert thirsty(diary).empty
    assert water_now(diary)["state"].tolist() == ["may need water"]


def test_a_day_without_temperatures_used_at_most_what_the_sun_could_evaporate():
    first, last = days_of(2, entries=PLANTED), days_of(1, first=START + timedelta(days=3))
    page = f"{first}\n2025-06-03\n- rain 0 mm\n\n{last.replace('rain 200.0', 'rain 0')}"
    diary = weather_diary(page, SHEET, date(2025, 6, 4))
    before, low, high = (
        column(diary, name)[at]
        for name, at in (("depletion_mm", 1), ("depletion_low_mm", 2), ("depletion_high_mm", 2))
    )
    most = 0.408 * float(fao.extraterrestrial(52, 154))
    assert low == pytest.approx(before)
    assert high == pytest.approx(before + 0.5 * most, abs=2e-3)
    assert pd.isna(column(diary, "et0_mm")[2])


def test_a_can_that_was_not_measured_may_have_filled_the_bed():
    diary = diary_of(60, entries=PLANTED | {59: "- water Long 1"})
    row = water_need(diary).iloc[-1]
    assert row["depletion_low_mm"] == 0.0 and row["depletion_high_mm"] > row["readily_mm"]
    assert thirsty(diary).empty


def test_a_can_for_another_crop_of_the_bed_may_not_have_reached_this_one():
    entries = {
        0: "- plant 6 potato in Long 1\n- sow pea in Long 1",
        40: "- water pea in Long 1 600 l",
    }
    diary = diary_of(41, entries=entries)
    potato, pea = column(diary, "depletion_low_mm"), column(diary, "depletion_high_mm", "pea")
    assert potato[-1] == 0.0 and pea[-1] == pytest.approx(0.0)
    assert column(diary, "depletion_high_mm")[-1] > 10


def test_a_pot_is_reckoned_in_litres_of_its_volume():
    diary = diary_of(15, entries={0: "- plant 1 tomato in Sack"})
    rows = water_need(diary)
    width = (4 * 0.040 / pi) ** (1 / 3)
    area = pi * width**2 / 4
    row = rows.iloc[-1]
    assert row["kind"] == "pot" and row["area_m2"] == pytest.approx(area)
    # 0.43 of 40 l held after draining, 0.11 easily given up
    assert row["total_mm"] * area == pytest.approx(17.2, abs=1e-3)
    assert row["readily_mm"] * area == pytest.approx(4.4, abs=1e-4)
    used = rows["crop_mm"].iloc[1:].sum() * area
    assert 0 < used < 4.4 and thirsty(diary).empty
    assert row["fill_l"] == pytest.approx(used, abs=1e-3)
    later = diary_of(40, entries={0: "- plant 1 tomato in Sack"})
    assert thirsty(later)["place"].tolist() == ["Sack"]


def test_a_pot_with_its_size_on_the_sheet_is_reckoned_over_that():
    sheet = SHEET.replace("- pot Sack, 40 l", "- pot Sack, 40 l, 0.3 x 0.9 m")
    diary = diary_of(3, entries={0: "- plant 1 tomato in Sack"}, sheet=sheet)
    assert water_need(diary)["area_m2"].tolist() == pytest.approx([0.27] * 3)


def test_of_several_crops_the_thirstiest_speaks_for_the_bed():
    entries = {0: "- sow lettuce in Long 1\n- sow pea in Long 1"}
    diary = diary_of(60, entries=entries)
    past = {
        crop: column(diary, "depletion_mm", crop)[-1] - column(diary, "readily_mm", crop)[-1]
        for crop in ("lettuce", "pea")
    }
    (row,) = water_now(diary).to_dict("records")
    assert (row["place"], row["crops"]) == ("Long 1", "lettuce, pea")
    assert row["crop"] == max(past, key=past.__getitem__)
    assert row["past_l"] == pytest.approx(6 * max(past.values()), abs=1e-2)


def test_of_two_sowings_of_a_crop_a_day_has_one_row():
    diary = diary_of(60, entries={0: "- sow pea in Long 1", 30: "- sow pea in Long 1"})
    rows = water_need(diary)
    assert not rows.duplicated(["date", "place", "crop"]).any()
    # the first sowing is in its middle stage and drinks more than the second at its beginning
    assert rows["stage"].iloc[-1] == "middle"


def test_a_cleared_crop_needs_no_water():
    diary = diary_of(60, entries=PLANTED | {50: "- clear Long 1"})
    assert thirsty(diary).empty
    assert len(water_need(diary)) == 51


@pytest.mark.parametrize(
    ("sheet", "entry", "reason"),
    [
        (
            "- bed Long 1, 6 m2, soil clay loam",
            "- plant 6 potato in Long 1",
            "FAO-56 has no figures for the soil `clay loam`",
        ),
        ("- bed Long 1, 6 m2", "- plant 6 potato in Long 1", "the sheet gives no soil"),
        (
            "- bed Long 1, soil loam",
            "- plant 9 leek in Long 1",
            "FAO-56 (1998) prints no coefficient for it",
        ),
        (
            "- bed Long 1, soil loam",
            "- plant 9 strawberry in Long 1",
            "FAO-56 (1998) prints no lengths of its stages",
        ),
        ("- pot Churn", "- plant 1 tomato in Churn", "the sheet gives the pot no volume"),
        (
            "- house Tunnel, 3 x 6 m",
            "- plant 6 tomato in Tunnel",
            "it stands under cover, away from the weather that is read",
        ),
    ],
)
def test_what_cannot_be_reckoned_is_said_and_has_no_row(sheet: str, entry: str, reason: str):
    diary = diary_of(20, entries={0: entry}, sheet=f"- plot Home, latitude 52\n{sheet}")
    assert water_need(diary).empty
    assert [note.reason for note in water_notes(diary)] == [reason]


def test_without_a_latitude_nothing_is_reckoned():
    diary = diary_of(20, entries=PLANTED, sheet=SHEET.replace(", latitude 52", ""))
    assert et0(diary).empty and water_need(diary).empty
    assert "no latitude" in water_notes(diary)[0].reason


@pytest.mark.parametrize(("latitude", "said"), [(54.9, False), (57.1, True), (-56.0, True)])
def test_far_from_the_equator_the_caveat_stands_with_the_figures(latitude: float, said: bool):
    sheet = SHEET.replace("latitude 52", f"latitude {latitude}")
    diary = diary_of(20, entries=PLANTED, sheet=sheet)
    assert bool([note for note in et0_notes(diary) if "beyond 55 degrees" in note.reason]) == said
    assert not water_need(diary).empty


def met_rows(count: int, **cells: str) -> str:
    names = {"t_min": "12.3", "t_max": "21.5", "rain": "0"} | cells
    lines = [",".join(["date", *names])]
    lines += [
        ",".join([str(date(2025, 7, 6) + timedelta(days=at)), *names.values()])
        for at in range(count)
    ]
    return "\n".join(lines) + "\n"


UCCLE = {"rh_min": "63", "rh_max": "84", "sun": "9.25", "wind (km/h)": "10"}
UCCLE_SHEET = "- plot Uccle, latitude 50.8, altitude 100 m\n- bed Long 1, 6 m2, soil loam"


def uccle_diary(folder: Path, cells: dict[str, str], count: int = 3) -> Diary:
    page = "2025-07-06\n- plant 6 potato in Long 1\n"
    return beside_met_file(folder, page, met_rows(count, **cells), UCCLE_SHEET)


def test_where_humidity_wind_and_sun_are_measured_it_is_penman_monteith(tmp_path: Path):
    frame = et0(uccle_diary(tmp_path, UCCLE))
    # FAO-56 example 18, Uccle on 6 July: 3.9 mm (3.88)
    assert frame["method"].tolist() == ["penman-monteith"] * 3
    assert frame["et0_mm"].iloc[0] == pytest.approx(3.88, abs=0.005)


@pytest.mark.parametrize(
    ("heading", "cell"),
    [
        # Rs of example 18 is 22.07 MJ a m2 and day, which is a mean of 255.4 W
        ("solar radiation (MJ/m2)", "22.07"),
        ("Solar Rad (W/m²)", "255.4"),
        ("srad J/cm2", "2207"),
        ("solar kWh/m2", "6.131"),
    ],
)
def test_solar_radiation_serves_as_well_as_hours_of_sun(tmp_path: Path, heading: str, cell: str):
    cells = {name: given for name, given in UCCLE.items() if name != "sun"} | {heading: cell}
    frame = et0(uccle_diary(tmp_path, cells))
    assert frame["method"].tolist() == ["penman-monteith"] * 3
    assert frame["et0_mm"].iloc[0] == pytest.approx(3.88, abs=0.005)


def test_measured_radiation_counts_before_hours_of_sun_unless_it_cannot_be(tmp_path: Path):
    dull = et0(uccle_diary(tmp_path, UCCLE | {"solar (MJ/m2)": "5"}))["et0_mm"].iloc[0]
    # the same day of 5 MJ by another program; ea 1.409 kPa is printed in FAO-56 example 18
    theirs = refet.Daily(
        tmin=12.3, tmax=21.5, ea=1.409, rs=5.0, uz=10 / 3.6, zw=10, elev=100, lat=50.8, doy=187,
        method="asce",
    ).eto()  # fmt: skip
    assert dull == pytest.approx(float(theirs[0]), abs=0.005)
    # above the air over Uccle that day the sun brings 41.09 MJ (example 18), so 42 cannot be
    for cell in ("", "42"):
        bright = et0(uccle_diary(tmp_path, UCCLE | {"solar (MJ/m2)": cell}))["et0_mm"].iloc[0]
        assert bright == pytest.approx(3.88, abs=0.005)


@pytest.mark.parametrize("missing", UCCLE)
def test_without_one_of_them_it_is_hargreaves(tmp_path: Path, missing: str):
    cells = {name: cell for name, cell in UCCLE.items() if name != missing}
    assert et0(uccle_diary(tmp_path, cells))["method"].unique().tolist() == ["hargreaves"]


def test_a_wind_seen_from_the_shed_is_no_days_mean(tmp_path: Path):
    cells = {name: cell for name, cell in UCCLE.items() if not name.startswith("wind")}
    page = "2025-07-06\n- weather wind SW 3\n"
    frame = et0(beside_met_file(tmp_path, page, met_rows(3, **cells), UCCLE_SHEET))
    assert frame["method"].unique().tolist() == ["hargreaves"]


def test_in_measured_air_the_middle_coefficient_is_that_of_the_air(tmp_path: Path):
    rows = water_need(uccle_diary(tmp_path, UCCLE, 90))
    wind = float(fao.wind_at_2m(10 / 3.6, 10))
    middle = rows.loc[rows["stage"] == "middle", "kc"]
    assert middle.iloc[-1] == pytest.approx(adjusted_mid(1.15, wind, 63, 0.6), abs=1e-3)


def test_the_wind_gauges_height_is_the_sheets(tmp_path: Path):
    (tmp_path / "high").mkdir()
    high = uccle_diary(tmp_path / "high", UCCLE)
    (tmp_path / "low").mkdir()
    folder = tmp_path / "low"
    low = uccle_diary(folder, UCCLE)
    sheet = (folder / "plot.txt").read_text(encoding="utf-8")
    (folder / "plot.txt").write_text(sheet.replace("met.csv", "met.csv, wind at 2 m"), "utf-8")
    lower = read(folder, low.today)
    assert et0(lower)["et0_mm"].iloc[0] > et0(high)["et0_mm"].iloc[0]


def test_the_columns_are_as_said():
    diary = diary_of(60, entries=PLANTED)
    nothing = weather_diary("3 May 2025\n- weed Long 1 1h\n")
    for one in (diary, nothing):
        check_frame(et0(one), "et0")
        check_frame(water_need(one), "water_need")
        check_frame(water_now(one), "water_now")


def spans(rows: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(rows))


def test_the_stages_follow_each_other_as_printed():
    # potato, Europe: 30, 35, 50 and 30 days (Table 11)
    diary = diary_of(150, entries=PLANTED)
    stages = column(diary, "stage")
    assert spans(stages) == ["initial", "development", "middle", "late", "after"]
    assert [stages.count(stage) for stage in spans(stages)] == [30, 35, 50, 30, 5]
