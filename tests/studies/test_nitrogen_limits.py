"""Organic nitrogen against SI 2015/668, read at
https://www.legislation.gov.uk/uksi/2015/668/part/3/made: 250 kg/ha in any twelve months on any
hectare (reg 8(1)), 170 kg/ha on the holding in a calendar year (reg 7).
"""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened

from journal.events.model import GroundChange, PlaceDeclared, Plot
from journal.studies.nitrogen_limits import (
    PER_HECTARE,
    PER_HOLDING,
    feeding_limits,
    limit_kg,
)
from journal.studies.plot_area import plot_area
from journal.tables.schema import check_frame

LONG_1 = bed("Long 1", 10.0)


def manured(kg: float | None, when: str, material: str = "cow manure", **columns: Any):
    words = {"material": material, "place": "Long 1", "mass_kg": kg} | columns
    return happened("dressing", "spread", when, **words)


def limits(*events: dict[str, Any], **of_diary: Any) -> pd.DataFrame:
    frame = feeding_limits(diary(list(events), **({"places": (LONG_1,)} | of_diary)))
    check_frame(frame, "feeding limits")
    return frame


def test_the_limits_on_a_ten_rod_plot():
    # Regression case: ten rods are 252.928 526 4 m2 (NIST Handbook 44); 6.323 and 4.300 kg N.
    assert limit_kg(PER_HECTARE, 252.9285264) == pytest.approx(6.323, abs=0.001)
    assert limit_kg(PER_HOLDING, 252.9285264) == pytest.approx(4.300, abs=0.001)


def test_the_cattle_manure_that_reaches_the_limit_of_a_hectare():
    # Regression case: at RB209's 6.0 kg N a tonne 250 kg/ha are 41.67 t/ha, 4.167 kg a m2.
    row = limits(manured(41.6666667, "2025-03-01")).iloc[0]
    assert row["n_kg_per_ha_low"] == pytest.approx(row["limit_kg_per_ha"], abs=1e-4)
    # 250 kg/ha on 10 m2 are 0.25 kg
    assert (row["limit_kg_per_ha"], row["limit_kg"]) == (250, pytest.approx(0.25))


def test_twelve_months_roll_and_are_no_calendar_year():
    # 10 kg on 10 m2 are 6 g N a m2, 60 kg/ha. From 1 March 2025 to 28 February 2026 is a year;
    # 1 March 2026 is the first day of the next.
    frame = limits(
        manured(10.0, "2025-03-01"), manured(10.0, "2026-02-28"), manured(10.0, "2026-03-01")
    )
    assert list(frame["n_kg_per_ha_low"]) == pytest.approx([60, 120, 120])
    assert list(frame["since"]) == [
        pd.Timestamp("2024-03-02"),
        pd.Timestamp("2025-03-01"),
        pd.Timestamp("2025-03-02"),
    ]
    assert list(frame["events"]) == ["1", "1, 2", "2, 3"]


def test_29_february_ends_a_year_of_its_own():
    frame = limits(manured(10.0, "2023-03-01"), manured(10.0, "2024-02-29"))
    assert frame["since"].iloc[1] == pd.Timestamp("2023-03-01")
    assert frame["n_kg_per_ha_low"].iloc[1] == pytest.approx(120)


def test_a_mineral_feed_is_no_organic_manure():
    assert limits(manured(1.0, "2025-03-01", "growmore")).empty


def test_what_is_not_known_leaves_at_least_the_rest():
    frame = limits(
        manured(10.0, "2025-03-01"), manured(None, "2025-04-01", "compost", volume_l=80.0)
    )
    row = frame.iloc[1]
    assert row["n_kg_per_ha_low"] == pytest.approx(60) and pd.isna(row["n_kg_per_ha_high"])
    assert (row["dressings"], row["unknown"]) == (2, 1)
    assert "no label" in row["why"]


def test_two_editions_leave_a_range():
    # horse manure: RB209 5.0 kg/t and an older edition 7.0, so 50 to 70 kg/ha of 1 kg a m2
    row = limits(manured(10.0, "2025-03-01", "horse manure")).iloc[0]
    assert (row["n_kg_per_ha_low"], row["n_kg_per_ha_high"]) == (
        pytest.approx(50),
        pytest.approx(70),
    )


def test_nitrogen_stays_with_the_ground_that_was_split():
    changes = (
        GroundChange(date(2025, 6, 1), "split", "Long 1", (("Long 1a", 2.0), ("Long 1b", 2.0))),
    )
    frame = limits(
        manured(10.0, "2025-03-01"),
        manured(5.0, "2025-10-01", place="Long 1a"),
        places=(LONG_1, bed("Long 1a", 5.0, "2025-06-01"), bed("Long 1b", 5.0, "2025-06-01")),
        changes=changes,
    )
    held = {place: list(own["n_kg_per_ha_low"].round(6)) for place, own in frame.groupby("place")}
    assert held == {"Long 1a": [60, 120], "Long 1b": [60]}


def test_the_calendar_year_is_reckoned_only_where_the_sheet_asks():
    # 10 kg of cattle manure hold 60 g N; on a plot of 100 m2 that is 6 kg/ha.
    event = manured(10.0, "2025-03-01")
    assert set(limits(event)["limit_kg_per_ha"]) == {250}
    plot = Plot("Here", area_m2=100.0, nitrate_zone=True)
    row = limits(event, manured(1.0, "2025-04-01", "bone meal"), plot=plot).iloc[-1]
    assert (row["limit_kg_per_ha"], row["place"], row["area_m2"]) == (170, "", 100)
    assert row["n_kg_per_ha_low"] == pytest.approx(6)
    assert row["since"] == pd.Timestamp("2025-01-01")
    # bone meal is organic manure, but not of livestock
    assert row["events"] == "1"


def test_the_plots_area_is_the_sheets_or_else_that_of_its_beds():
    day = pd.Timestamp("2025-12-31")
    beds = (bed("Long 1", 10.0), bed("Long 2", 6.0), bed("Long 2", 4.0, "2025-06-01"))
    assert plot_area(diary([], beds), day) == pytest.approx(14)
    assert plot_area(diary([], beds, plot=Plot("Here", area_m2=250.0)), day) == 250
    assert plot_area(diary([], (*beds, bed("Edge", None))), day) is None


def test_ground_under_two_names_counts_once():
    beds = (
        bed("Long 1", 10.0),
        PlaceDeclared(date(2025, 6, 1), "bed", "Top bed", area_m2=10.0),
        PlaceDeclared(date(2025, 6, 1), "bed", "Long 1", area_m2=10.0, ended=True),
    )
    for when in ("2024-12-31", "2025-12-31"):
        assert plot_area(diary([], beds), pd.Timestamp(when)) == 10


def test_a_plot_without_a_size_has_no_rate_and_says_so():
    row = limits(
        manured(10.0, "2025-03-01"),
        places=(bed("Long 1", None),),
        plot=Plot("Here", nitrate_zone=True),
    ).iloc[-1]
    assert pd.isna(row["n_kg_per_ha_low"]) and "no size" in row["why"]
