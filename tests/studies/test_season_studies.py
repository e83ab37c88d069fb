"""The studies of the season page, each on a small diary worked out by hand beside its test."""

from datetime import date

import pandas as pd
import pytest
from support.garden import garden
from support.hand_made import bed, diary, happened, picked

from journal.events.model import GroundChange, PlaceDeclared
from journal.studies.beds import beds
from journal.studies.beside import beside, years_beside
from journal.studies.cumulative import by_month, cumulative
from journal.studies.harvest import harvest
from journal.studies.labour import labour
from journal.studies.occupancy import days_in_use, occupancy
from journal.studies.part_of_year import Part, part_of_year
from journal.studies.plan import overlaps, plan, plan_on
from journal.studies.verdicts import verdicts
from journal.studies.years import years


def rows(frame: pd.DataFrame, **columns: object) -> pd.DataFrame:
    for name, value in columns.items():
        frame = frame[frame[name] == value]
    return frame


# ---------------------------------------------------------------- years side by side


@pytest.mark.parametrize("measure", ["kg", "first picking", "last picking"])
def test_the_year_before_reads_as_in_the_study_of_years(measure: str) -> None:
    one = garden(7)
    mine = rows(beside(one), year=2025, other=2024, measure=measure)
    theirs = rows(years(one), year=2025, measure=measure, cultivar="", place="")
    both = mine.merge(theirs, on="crop", suffixes=("", "_years"))
    both = both[(both["crop"] != "") | (measure == "kg")]
    assert len(both) >= 4
    for column in ("value", "before", "change", "mean_before", "low_before", "years_before"):
        assert both[column].tolist() == both[f"{column}_years"].tolist(), column


def test_a_year_is_set_beside_every_earlier_one() -> None:
    # 3 kg beside 2 kg of 2024 is half as much again, beside 6 kg of 2022 half
    one = diary(
        [
            picked("kale", f"{year}-07-01", kg)
            for year, kg in ((2022, 6.0), (2024, 2.0), (2025, 3.0))
        ]
    )
    kale = rows(beside(one), year=2025, measure="kg", crop="kale").set_index("other")
    assert kale["change_pct"].to_dict() == {2022: -50.0, 2024: 50.0}
    assert kale["mean_before"].tolist() == [4.0, 4.0]
    assert years_beside(one, 2025) == [2022, 2024]


def test_an_open_year_is_set_beside_earlier_ones_to_the_same_day() -> None:
    events = [
        picked("kale", "2025-01-10", 1.0),
        picked("kale", "2025-12-01", 9.0),
        picked("kale", "2026-02-01", 2.0),
    ]
    kale = rows(beside(diary(events, today=date(2026, 3, 1))), year=2026, crop="kale")
    assert rows(kale, measure="kg")["before"].tolist() == [1.0]
    assert rows(kale, measure="last picking").empty


# ---------------------------------------------------------------- the harvest mounting up


def test_the_harvest_mounts_up_to_the_years_own_total() -> None:
    one = garden(9)
    total = rows(harvest(one), year=2025)["kg"].sum()
    mounting = rows(cumulative(one), year=2025)
    assert mounting["kg"].iloc[-1] == pytest.approx(total)
    assert mounting["kg"].is_monotonic_increasing
    assert mounting["kg_of_day"].sum() == pytest.approx(total)


def test_a_picking_of_some_day_counts_on_the_last_it_can_have_been() -> None:
    one = diary(
        [picked("kale", "2025-03-01", 1.0, until="2025-03-20"), picked("leek", "2025-03-10", 2.0)]
    )
    found = cumulative(one)
    assert found["kg"].tolist() == [2.0, 3.0]
    assert found["day_of_year"].tolist() == [69, 79]


def test_a_month_without_a_picking_has_what_the_one_before_had() -> None:
    one = diary([picked("kale", "2025-02-01", 1.0), picked("kale", "2025-04-01", 2.0)])
    months = by_month(cumulative(one))
    assert months[["month", "kg"]].to_numpy().tolist() == [[2, 1.0], [3, 1.0], [4, 3.0]]


# ---------------------------------------------------------------- the beds


def test_a_bed_stands_in_every_year_that_its_crop_did() -> None:
    one = diary(
        [
            happened("planting", "plant", "2024-10-01", crop="garlic", place="A", count=9.0),
            happened("end", "clear", "2025-07-10", place="A"),
            happened("planting", "plant", "2025-07-20", crop="leek", place="A", count=9.0),
        ]
    )
    found = occupancy(one)
    spans = [
        (row["year"], row["crop"], row["begins"].date(), row["ends"].date())
        for row in found.to_dict("records")
    ]
    assert spans == [
        (2024, "garlic", date(2024, 10, 1), date(2024, 12, 31)),
        (2025, "garlic", date(2025, 1, 1), date(2025, 7, 10)),
        (2025, "leek", date(2025, 7, 20), date(2025, 12, 31)),
        (2026, "leek", date(2026, 1, 1), date(2026, 3, 1)),
    ]
    # 1 January to 10 July are 191 days, 20 July to 31 December 165
    assert days_in_use(rows(found, year=2025)).to_dict() == {"A": 356}


def test_days_on_which_two_crops_stood_count_once() -> None:
    frame = pd.DataFrame(
        {
            "place": ["A", "A", "A"],
            "begins": pd.to_datetime(["2025-01-01", "2025-01-05", "2025-01-20"]),
            "ends": pd.to_datetime(["2025-01-10", "2025-01-12", "2025-01-20"]),
        }
    )
    assert days_in_use(frame).to_dict() == {"A": 13}


def test_a_bed_earns_what_the_harvest_says_and_costs_what_the_work_says() -> None:
    one = garden(9)
    found = rows(beds(one), year=2025)
    assert found["kg"].sum() == pytest.approx(rows(harvest(one), year=2025)["kg"].sum())
    assert found["hours"].sum() * 60 == pytest.approx(rows(labour(one), year=2025)["minutes"].sum())


def test_a_bed_without_a_size_has_no_rate_by_it() -> None:
    one = diary(
        [
            picked("kale", "2025-07-01", 3.0, place="A"),
            picked("kale", "2025-07-01", 3.0, place="B"),
            happened("job", "weed", "2025-07-01", minutes=90.0, place="B"),
        ],
        [bed("A", None), bed("B", 6.0)],
    )
    a, b = beds(one).to_dict("records")
    assert pd.isna(a["kg_per_m2"]) and pd.isna(a["hours"])
    assert (b["kg_per_m2"], b["hours_per_kg"], b["hours_per_m2"]) == (0.5, 0.5, 0.25)


# ---------------------------------------------------------------- the plan


def placed(name: str, width: float | None, length: float | None, **more: object) -> PlaceDeclared:
    return PlaceDeclared(None, "bed", name, width_m=width, length_m=length, **more)  # type: ignore[arg-type]


def test_a_bed_lies_as_its_sides_are_written() -> None:
    sheet = [
        placed("A", 1.0, 4.0, x_m=0.0, y_m=0.0),
        placed("B", 1.0, 4.0, x_m=2.0, y_m=1.0, long_across=True),
    ]
    found = plan(diary([], sheet))[["x_m", "y_m", "across_m", "down_m"]].to_numpy().tolist()
    assert found == [[0.0, 0.0, 1.0, 4.0], [2.0, 1.0, 4.0, 1.0]]


def test_what_has_no_sides_or_no_corner_is_not_drawn_and_says_why() -> None:
    sheet = [placed("A", None, None, area_m2=6.0, x_m=0.0, y_m=0.0), placed("B", 1.0, 4.0)]
    assert plan(diary([], sheet))["why"].tolist() == [
        "the sheet gives it no sides",
        "the sheet does not say where",
    ]


def test_the_parts_of_a_split_lie_one_after_the_other() -> None:
    day = date(2025, 1, 1)
    parts = [
        PlaceDeclared(day, "bed", name, width_m=1.0, length_m=size, x_m=3.0, y_m=2.0)
        for name, size in (("upper", 4.0), ("lower", 6.0))
    ]
    sheet = [
        placed("Long", 1.0, 10.0, x_m=3.0, y_m=2.0),
        PlaceDeclared(day, "bed", "Long", ended=True),
        *parts,
    ]
    change = GroundChange(day, "split", "Long", (("upper", 4.0), ("lower", None)))
    one = diary([], sheet, changes=(change,))
    found = plan(one)
    assert found[["place", "y_m", "down_m"]].to_numpy().tolist() == [
        ["upper", 2.0, 4.0],
        ["lower", 6.0, 6.0],
    ]
    assert overlaps(found) == []
    assert plan_on(one, date(2024, 6, 1))["place"].tolist() == ["Long"]


def test_beds_that_lie_on_one_another_are_found() -> None:
    sheet = [
        placed("A", 2.0, 2.0, x_m=0.0, y_m=0.0),
        placed("B", 2.0, 2.0, x_m=1.0, y_m=1.0),
        placed("C", 2.0, 2.0, x_m=3.0, y_m=0.0),
    ]
    assert overlaps(plan(diary([], sheet))) == [("A", "B")]


# ---------------------------------------------------------------- a part of the year


def test_a_part_of_the_year_counts_only_its_own_days_in_every_year() -> None:
    events = [
        picked("kale", f"{year}-{month:02d}-10", 1.0)
        for year in (2024, 2025)
        for month in (3, 4, 8)
    ]
    part = part_of_year(diary(events), Part((4, 1), (6, 30)))
    assert harvest(part)[["year", "kg"]].to_numpy().tolist() == [[2024, 1.0], [2025, 1.0]]


def test_what_was_planted_before_the_part_still_gives_its_ground() -> None:
    events = [
        happened(
            "planting", "plant", "2025-03-01", crop="kale", place="A",
            count=4.0, spacing_m=0.5, minutes=60.0,
        ),
        picked("kale", "2025-05-01", 2.0, place="A"),
    ]  # fmt: skip
    part = part_of_year(diary(events, [bed("A", 6.0)]), Part((4, 1), (6, 30)))
    assert harvest(part)["area_m2"].tolist() == [1.0]
    assert labour(part).empty


def test_a_picking_that_may_lie_outside_the_part_is_left_out() -> None:
    one = diary([picked("kale", "2025-06-25", 1.0, until="2025-07-02"), picked("pea", None, 1.0)])
    assert harvest(part_of_year(one, Part((4, 1), (6, 30)))).empty


# ---------------------------------------------------------------- for and against


def variety(cultivar: str, kg: float, year: int = 2025, **more: object) -> list[dict[str, object]]:
    names = {"crop": "leek", "cultivar": cultivar, "place": f"bed of {cultivar}"}
    return [
        happened("planting", "plant", f"{year}-04-01", count=4.0, spacing_m=0.5, **names),
        picked(kg=kg, when=f"{year}-08-01", **names, **more),
    ]


def test_the_best_by_its_ground_is_told_from_the_worst() -> None:
    # 1 m2 each: 3 kg a m2 beats 2 and 1
    one = diary([*variety("A", 3.0), *variety("B", 2.0), *variety("C", 1.0)])
    found = verdicts(one).set_index("cultivar")
    assert found["rank"].to_dict() == {"A": 1, "B": 2, "C": 3}
    assert found["keep"].to_dict() == {"A": "most per m² of 3 cultivars", "B": "", "C": ""}
    assert found["drop"].to_dict() == {"A": "", "B": "", "C": "least per m² of 3 cultivars"}


def test_a_variety_is_held_to_its_own_earlier_years() -> None:
    # the mean of 2 and 4 is 3: 6 is 100 % above it
    one = diary([*variety("A", 2.0, 2023), *variety("A", 4.0, 2024), *variety("A", 6.0)])
    last = rows(verdicts(one), year=2025).iloc[0]
    assert (last["mean_before"], last["years_before"]) == (3.0, 2)
    assert last["keep"] == "100 % above its own mean"


def test_an_open_year_is_held_to_earlier_ones_up_to_the_same_day() -> None:
    # 5 of the 6 kg of 2024 came after the first of March
    events = [
        picked("leek", "2024-02-01", 1.0, cultivar="A"),
        picked("leek", "2024-11-01", 5.0, cultivar="A"),
        picked("leek", "2025-02-01", 1.0, cultivar="A"),
    ]
    last = rows(verdicts(diary(events, today=date(2025, 3, 1))), year=2025).iloc[0]
    assert (last["mean_before"], last["years_before"], last["drop"]) == (1.0, 1, "")
    ended = rows(verdicts(diary(events, today=date(2026, 3, 1))), year=2025).iloc[0]
    assert (ended["mean_before"], ended["drop"]) == (6.0, "83 % below its own mean")


def test_less_than_its_mean_is_no_evidence_where_pickings_were_not_weighed() -> None:
    one = diary(
        [
            *variety("A", 6.0, 2024),
            *variety("A", 1.0),
            picked("leek", "2025-09-01", cultivar="A", place="bed of A"),
        ]
    )
    last = rows(verdicts(one), year=2025).iloc[0]
    assert (last["unweighed"], last["drop"]) == (1, "")
    assert pd.isna(last["kg_per_m2"])


def test_ratings_and_losses_are_evidence() -> None:
    names = {"crop": "leek", "cultivar": "A", "place": "bed of A"}
    one = diary(
        [
            *variety("A", 2.0),
            happened("loss", "lose", "2025-06-01", count=2.0, **names),
            happened("verdict", "rate", "2025-12-01", crop="leek", cultivar="A", score=0.2),
        ]
    )
    found = verdicts(one).iloc[0]
    assert (found["lost"], found["score"]) == (2.0, 0.2)
    assert found["drop"] == "2 plants lost, rated 1 of 5"


# ---------------------------------------------------------------- a winter's picking


def test_a_kale_picked_on_past_new_year_is_no_first_picking_of_it() -> None:
    # sown in 2024 and in 2025, each picked from autumn on: 20 October is day 293, 10 October 283
    events = [
        happened("planting", "plant", "2024-06-01", crop="kale", place="A", count=6.0),
        picked("kale", "2024-10-20", 1.0, place="A"),
        picked("kale", "2025-01-11", 1.0, place="A"),
        happened("end", "clear", "2025-03-01", crop="kale", place="A"),
        happened("planting", "plant", "2025-06-01", crop="kale", place="B", count=6.0),
        picked("kale", "2025-10-10", 1.0, place="B"),
    ]
    one = diary(events)
    first = rows(beside(one), year=2025, other=2024, measure="first picking", crop="kale")
    assert first[["value", "before", "change"]].to_numpy().tolist() == [[283, 293, -10]]
    # by weight the January picking is 2025's
    assert rows(beside(one), year=2025, measure="kg", crop="kale")["value"].tolist() == [2.0]
    # a year that only picked on has no first picking
    assert rows(years(diary(events[:3])), year=2025, measure="first picking").empty


def test_a_rhubarb_is_first_picked_in_every_year() -> None:
    events = [happened("planting", "plant", "2023-03-01", crop="rhubarb", place="A", count=2.0)]
    events += [picked("rhubarb", f"{year}-04-10", 1.0, place="A") for year in (2024, 2025)]
    first = rows(beside(diary(events)), year=2025, measure="first picking", crop="rhubarb")
    assert first["value"].tolist() == [100.0]
