"""What feeds and dressings gave, worked by hand on labels, dilutions, rates and volumes."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened

from journal.events.model import GroundChange, MaterialDeclared, PlaceDeclared
from journal.studies.feeding import feeding, feeding_last, feeding_notes, feeding_totals
from journal.tables.schema import check_frame

FEED = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/w")
LONG_1 = (bed("Long 1", 2.5),)


def fed(when: str = "2025-07-01", **columns: Any) -> dict[str, Any]:
    words = {"crop": "tomato", "place": "Long 1", "material": "tomato feed"} | columns
    return happened("feed", "feed", when, **words)


def dressed(material: str, when: str = "2025-03-01", **columns: Any) -> dict[str, Any]:
    words = {"place": "Long 1", "material": material} | columns
    return happened("dressing", "spread", when, **words)


def by_nutrient(*events: dict[str, Any], **sheet: Any) -> dict[str, dict[str, Any]]:
    frame = feeding(diary(list(events), **({"places": LONG_1} | sheet)))
    check_frame(frame, "feeding")
    return {str(row["nutrient"]): dict(row) for _, row in frame.iterrows()}


def test_a_feed_by_weight_on_its_bed():
    # Regression case, computed on the two definitions of a label: 50 ml of 4-3-8 w/w at 1.1 kg/l
    # are 55 g; 4 % of it 2.2 g N; on 2.5 m2 0.88 g N, 0.66 g P2O5 and 1.76 g K2O a m2.
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/w", None, 1.1)
    rows = by_nutrient(fed(dose_l=0.05, volume_l=10.0), materials=(label,))
    rates = [rows[name]["g_per_m2_low"] for name in ("N", "P2O5", "K2O")]
    assert rates == pytest.approx([0.88, 0.66, 1.76])
    assert [rows[name]["g_per_m2_high"] for name in ("N", "P2O5", "K2O")] == pytest.approx(rates)
    # 2.2 g in 10 l are 220 mg/l: the water enters the strength and nothing else
    assert rows["N"]["mg_per_l_low"] == pytest.approx(220)
    assert rows["P"]["g_low"] == pytest.approx(0.4364 * rows["P2O5"]["g_low"])
    assert rows["K"]["g_low"] == pytest.approx(0.8301 * rows["K2O"]["g_low"])


def test_a_feed_that_does_not_say_what_it_was_still_counts_as_the_last():
    year = diary([fed("2025-07-01", dose_l=0.05), fed("2025-07-20", material="")], LONG_1)
    rows = feeding(year)
    blank = rows[rows["event"] == 2]
    assert blank["g_low"].isna().all() and set(blank["why"]) == {"not written what it was"}
    (row,) = feeding_last(year).to_dict("records")
    assert (str(row["date"].date()), row["material"], row["times"]) == ("2025-07-20", "", 2)
    assert "feed to tomato in Long 1: not written what it was" in map(str, feeding_notes(year))


def test_a_label_by_volume_needs_no_density():
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")
    n = by_nutrient(fed(dose_l=0.05), materials=(label,))["N"]
    assert (n["g_low"], n["g_high"], n["why"]) == (pytest.approx(2), pytest.approx(2), "")


def test_a_label_by_weight_without_a_density_gives_at_least_so_much():
    n = by_nutrient(fed(dose_l=0.05), materials=(FEED,))["N"]
    assert n["g_low"] == pytest.approx(2) and pd.isna(n["g_high"])
    assert "at least" in n["why"] and "density" in n["why"]


def test_a_rate_of_pellets_by_the_square_metre():
    # 60 g a m2 on 2.5 m2 are 150 g, 4 % of it 6 g N, which is 2.4 g a m2.
    pellets = MaterialDeclared(None, "material", "chicken pellets", (), 4, 2, 1)
    n = by_nutrient(
        fed(material="chicken pellets", dose_kg=0.15, mass_kg=0.15), materials=(pellets,)
    )["N"]
    assert (n["g_low"], n["g_per_m2_low"]) == (pytest.approx(6), pytest.approx(2.4))
    assert n["origin"] == "livestock"
    assert pd.isna(n["mg_per_l_low"])


def test_a_count_of_plants_tells_the_grams_a_plant():
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")
    n = by_nutrient(fed(dose_l=0.05, count=8.0), materials=(label,))["N"]
    assert n["g_per_plant_low"] == pytest.approx(2 / 8)


def planted(when: str, count: float, **columns: Any) -> dict[str, Any]:
    words = {"crop": "tomato", "place": "Long 1", "spacing_m": 0.5} | columns
    return happened("planting", "plant", when, count=count, **words)


W_V = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")


def test_the_plants_and_the_ground_are_those_of_the_crop_there_that_day():
    # 8 planted at 50 x 50 cm stand on 2 m2; 2 are lost before the feed and 1 after; 2 g N
    lost = {"crop": "tomato", "place": "Long 1"}
    n = by_nutrient(
        planted("2025-05-01", 8.0),
        happened("loss", "lose", "2025-06-01", count=2.0, **lost),
        fed("2025-07-01", dose_l=0.05),
        happened("loss", "lose", "2025-08-01", count=1.0, **lost),
        materials=(W_V,),
    )["N"]
    assert (n["plants"], n["g_per_plant_low"]) == (6, pytest.approx(2 / 6))
    assert (n["area_m2"], n["area_of"]) == (pytest.approx(2), "the crop's rows")
    assert n["g_per_m2_low"] == pytest.approx(1)


def test_two_plantings_are_fed_together_and_one_that_is_cleared_is_not():
    events = [
        planted("2025-04-01", 4.0),
        happened("end", "clear", "2025-04-20", crop="tomato", place="Long 1"),
        planted("2025-05-01", 8.0, cultivar="Sungold"),
        planted("2025-05-08", 2.0, cultivar="Stupice"),
        fed("2025-07-01", dose_l=0.05),
    ]
    assert by_nutrient(*events, materials=(W_V,))["N"]["plants"] == 10


def test_a_crop_that_was_sown_in_rows_tells_its_ground_and_no_plants():
    rows = happened(
        "sowing",
        "sow",
        "2025-04-01",
        crop="carrot",
        place="Long 1",
        length_m=4.0,
        row_spacing_m=0.25,
    )
    n = by_nutrient(rows, fed(crop="carrot", dose_l=0.05), materials=(W_V,))["N"]
    assert n["area_m2"] == pytest.approx(1) and pd.isna(n["plants"])


def test_a_rate_was_given_to_the_whole_place():
    # 60 g a m2 of 4 % on the whole 2.5 m2, whatever the tomatoes stood on: 2.4 g N a m2
    pellets = MaterialDeclared(None, "material", "chicken pellets", (), 4, 2, 1)
    n = by_nutrient(
        planted("2025-05-01", 4.0),
        fed(material="chicken pellets", dose_kg=0.15, mass_kg=0.15, amount_text="60 g per m2"),
        materials=(pellets,),
    )["N"]
    assert (n["area_m2"], n["area_of"]) == (2.5, "the whole place")
    assert n["g_per_m2_low"] == pytest.approx(2.4)


def test_manure_without_a_label_has_every_published_analysis():
    # RB209: horse manure 5.0 kg N a tonne, an older edition 7.0. 100 kg hold 500 to 700 g.
    rows = by_nutrient(dressed("horse manure", mass_kg=100.0))
    assert (rows["N"]["g_low"], rows["N"]["g_high"]) == (pytest.approx(500), pytest.approx(700))
    assert rows["N"]["analysis"].count("RB209") == 2
    assert pd.isna(rows["K2O"]["g_low"]) and rows["K2O"]["why"]


def test_the_sheets_label_goes_before_what_is_published():
    own = MaterialDeclared(None, "material", "horse manure", (), 0.7, 0.3, 0.6)
    n = by_nutrient(dressed("horse manure", mass_kg=100.0), materials=(own,))["N"]
    assert n["g_low"] == n["g_high"] == pytest.approx(700)
    assert n["analysis"] == "label on the sheet"


def test_30_t_of_cattle_manure_on_a_hectare():
    # Regression case on RB209's 6.0, 3.2 and 9.4 kg/t: 3 kg a m2 are 18, 9.6 and 28.2 g a m2,
    # 180, 96 and 282 kg a hectare.
    rows = by_nutrient(dressed("cow manure", mass_kg=7.5))
    rates = [rows[name]["g_per_m2_low"] for name in ("N", "P2O5", "K2O")]
    assert rates == pytest.approx([18.0, 9.6, 28.2])


def test_barrows_are_weighed_by_the_published_density():
    # 200 l at 863 kg/m3 (Missouri S&T) are 172.6 kg, of which 0.6 % is 1035.6 g N.
    n = by_nutrient(dressed("cow manure", volume_l=200.0))["N"]
    assert n["product_kg_low"] == pytest.approx(172.6)
    assert n["g_low"] == pytest.approx(1035.6)
    assert "863 kg/m3" in n["analysis"] and "Missouri" in n["analysis"]


def test_a_depth_over_a_bed_is_a_volume():
    # 2.5 m2 covered 4 cm deep take 100 l: 86.3 kg of cattle manure.
    n = by_nutrient(dressed("cow manure", depth_m=0.04))["N"]
    assert n["product_l"] == pytest.approx(100)
    assert n["product_kg_low"] == pytest.approx(86.3)


@pytest.mark.parametrize(
    ("event", "reason"),
    [
        (dressed("compost", volume_l=240.0), "no label"),
        (dressed("pig manure"), "not written how much"),
        (dressed("pig manure", volume_l=80.0), "no density"),
        (fed(material="liquid feed", dose_l=0.05), "no label"),
        (fed(volume_l=10.0), "no dilution"),
        (fed(), "not written how much"),
    ],
)
def test_what_the_diary_cannot_support_is_blank_with_its_reason(event: Any, reason: str):
    rows = by_nutrient(event, materials=(FEED,))
    assert all(pd.isna(row["g_low"]) and pd.isna(row["g_high"]) for row in rows.values())
    assert reason in rows["N"]["why"]
    assert [note.reason for note in feeding_notes(diary([event], LONG_1, materials=(FEED,)))] == [
        rows["N"]["why"]
    ]


def test_a_place_without_a_size_has_no_rate_and_says_so():
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")
    n = by_nutrient(fed(dose_l=0.05), places=(bed("Long 1", None),), materials=(label,))["N"]
    assert n["g_low"] == pytest.approx(2) and pd.isna(n["g_per_m2_low"])
    assert "no area" in n["why"]


def test_lime_is_no_feed():
    frame = feeding(diary([happened("dressing", "lime", "2025-03-01", material="lime")]))
    assert frame.empty


def test_the_label_of_the_day_counts():
    labels = (
        MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v"),
        MaterialDeclared(date(2026, 1, 1), "feed", "tomato feed", (), 2, 3, 8, "w/v"),
    )
    before = by_nutrient(fed("2025-07-01", dose_l=0.1), materials=labels)["N"]
    after = by_nutrient(fed("2026-02-01", dose_l=0.1), materials=labels)["N"]
    assert (before["g_low"], after["g_low"]) == (pytest.approx(4), pytest.approx(2))


def test_sums_say_at_least_where_one_of_them_is_not_known():
    label = MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/v")
    frame = feeding(
        diary(
            [fed(dose_l=0.05), fed("2025-07-08", dose_l=0.05), dressed("compost", volume_l=80.0)],
            LONG_1,
            materials=(label,),
        )
    )
    totals = feeding_totals(frame[frame["nutrient"] == "N"], ["place"]).iloc[0]
    assert totals["g_per_m2_low"] == pytest.approx(1.6) and pd.isna(totals["g_per_m2_high"])
    assert (totals["events"], totals["unknown"]) == (3, 1)


def test_days_since_the_last_feed_of_a_crop():
    frame = feeding_last(
        diary(
            [
                fed("2025-07-01"),
                fed("2025-07-20"),
                fed("2025-07-10", crop="leek"),
                dressed("compost", "2025-06-01"),
                fed("2026-05-01"),
            ],
            today=date(2025, 8, 1),
        )
    )
    check_frame(frame, "feeding last")
    last = {row["crop"]: row for _, row in frame.iterrows()}
    # from 20 July to 1 August are 12 days; the feed after today is not yet one
    assert (last["tomato"]["days_low"], last["tomato"]["times"]) == (12, 2)
    assert last["leek"]["days_high"] == 22
    assert last[""]["material"] == "compost"


def test_an_uncertain_day_leaves_a_range_of_days_since():
    event = fed("2025-07-01") | {"date_end": date(2025, 7, 8)}
    row = feeding_last(diary([event], today=date(2025, 7, 11))).iloc[0]
    assert (row["days_low"], row["days_high"]) == (3, 10)


def test_the_last_feed_of_a_bed_stays_with_its_ground():
    sheet: dict[str, Any] = {
        "changes": (GroundChange(date(2025, 9, 1), "rename", "Long 1", (("Top bed", None),)),)
    }
    places = (PlaceDeclared(date(2025, 9, 1), "bed", "Top bed"),)
    frame = feeding_last(
        diary([fed("2025-07-01"), fed("2025-10-01", place="Top bed")], places, **sheet)
    )
    assert frame[["place", "times"]].to_dict("list") == {"place": ["Top bed"], "times": [2]}


MUCK = MaterialDeclared(None, "material", "muck", (), 0.6, 0.3, 0.9, "", None, 0.4)


def test_a_volume_of_loose_stuff_is_weighed_by_the_sheets_density():
    # 100 l at 0.4 kg/l are 40 kg; 0.6 % of it is 240 g N
    rows = by_nutrient(dressed("muck", volume_l=100.0), materials=(MUCK,))
    assert (rows["N"]["product_kg_low"], rows["N"]["g_low"]) == (40.0, pytest.approx(240.0))
    assert rows["N"]["why"] == ""


def test_the_sheets_density_goes_before_the_published_one():
    own = MaterialDeclared(None, "material", "horse manure", (), 0.7, None, None, "", None, 0.4)
    rows = by_nutrient(dressed("horse manure", volume_l=100.0), materials=(own,))
    # not 100 l at 815 kg/m3 (Missouri S&T), which would be 570.5 g
    assert rows["N"]["g_low"] == rows["N"]["g_high"] == pytest.approx(280.0)


def beside_crop(kind: str, verb: str, **columns: Any) -> dict[str, Any]:
    return happened(kind, verb, "2026-04-01", place="Long 1", material="muck", **columns)


@pytest.mark.parametrize(
    ("kind", "verb"), [("planting", "plant"), ("sowing", "sow"), ("job", "dig")]
)
def test_what_a_crop_was_planted_with_or_a_bed_dug_with_feeds_it(kind: str, verb: str):
    rows = by_nutrient(beside_crop(kind, verb, volume_l=100.0), materials=(MUCK,))
    assert rows["N"]["g_low"] == pytest.approx(240.0)


def test_the_weight_of_a_planting_is_not_taken_for_its_manures():
    # `plant 2 kg potato in Long 1 with muck`
    event = beside_crop("planting", "plant", crop="potato", mass_kg=2.0)
    rows = by_nutrient(event, materials=(MUCK,))
    assert pd.isna(rows["N"]["g_low"])
    assert rows["N"]["why"] == "its weight is not told apart from the crop's"


def test_seeds_sown_with_a_feed_are_no_plants():
    event = beside_crop("sowing", "sow", crop="pea", count=200.0, dose_kg=0.5)
    rows = by_nutrient(event, materials=(MUCK,))
    # 0.6 % of 500 g
    assert rows["N"]["g_low"] == pytest.approx(3.0) and pd.isna(rows["N"]["plants"])


def test_what_is_no_feed_is_none_beside_a_planting():
    event = happened("planting", "plant", "2026-04-01", crop="pea", material="hazel sticks")
    assert feeding(diary([event])).empty
