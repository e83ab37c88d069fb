"""Money spent, taken and grown, worked by hand; two currencies are never added together."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.hand_made import bed, diary, happened, picked

from journal.events.model import MeasureDeclared, PriceDeclared
from journal.studies.money import money, money_notes, money_totals
from journal.studies.money_worth import money_worth, money_worth_notes, money_years
from journal.tables.schema import check_frame


def bought(cost: float | None, when: str = "2025-02-01", **columns: Any) -> dict[str, Any]:
    words = {"cost": cost, "currency": "GBP"} | columns
    return happened("purchase", "buy", when, **words)


def price(crop: str, amount: float, per: str = "kg", **columns: Any) -> PriceDeclared:
    per_kg = amount if per == "kg" else None
    words = {"date": None, "cultivar": "", "currency": "GBP"} | columns
    return PriceDeclared(crop=crop, price=amount, per=per, per_kg=per_kg, **words)


def kinds(*events: dict[str, Any]) -> dict[str, float]:
    frame = money(diary(list(events)))
    check_frame(frame, "money")
    return dict(zip(frame["kind"], frame["spent"].fillna(frame["earned"]), strict=True))


# ------------------------------------------------------------ spent and taken


@pytest.mark.parametrize(
    ("event", "kind"),
    [
        (bought(2.4, crop="carrot", packets=1.0), "seed"),
        (bought(2.4, crop="broad bean", mass_kg=0.5, material="seed"), "seed"),
        (bought(4.0, material="seed"), "seed"),
        (bought(4.0, material="seeds"), "seed"),
        (bought(4.0, packets=3.0), "seed"),
        (bought(8.0, crop="garlic", count=24.0), "plants"),
        (bought(4.1, crop="onion", material="sets"), "plants"),
        (bought(14.0, material="bone meal"), "feeds and dressings"),
        (bought(3.0, material="nematodes"), "treatments"),
        (bought(17.0, material="net"), "structures"),
        (bought(58.0, material="boards", count=12.0), "structures"),
        (bought(9.0, material="a hat"), "other"),
        (happened("purchase", "pay", "2025-02-01", cost=60.0, task="rent"), "rent"),
        (happened("structure", "fit", "2025-02-01", cost=54.0, material="glass"), "structures"),
        (happened("job", "mend", "2025-02-01", cost=7.0), "jobs"),
        (happened("treatment", "treat", "2025-02-01", cost=13.0), "treatments"),
        (happened("dressing", "lime", "2025-02-01", cost=11.0), "feeds and dressings"),
        (happened("kitchen", "sell", "2025-02-01", cost=5.0, crop="onion"), "sales"),
    ],
)
def test_what_money_went_on_is_told_by_the_entry(event: dict[str, Any], kind: str):
    assert kinds(event) == {kind: event["cost"]}


def test_seed_of_a_year_is_the_sum_of_its_packets():
    frame = money(
        diary(
            [
                bought(2.4, crop="carrot", packets=1.0),
                bought(3.1, crop="carrot", packets=1.0),
                bought(5.0, "2024-02-01", crop="carrot", packets=1.0),
            ]
        )
    )
    rows = frame[["year", "crop", "spent", "times", "events"]].to_dict("list")
    assert rows["spent"] == [5.0, pytest.approx(5.5)]
    assert (rows["year"], rows["times"]) == ([2024, 2025], [1, 2])
    assert rows["events"] == ["3", "1, 2"]


def test_two_currencies_stand_in_two_rows_and_are_never_added():
    events = [
        bought(2.0, crop="kale", packets=1.0),
        bought(3.95, crop="kale", packets=1.0, currency="EUR"),
        bought(1.0, crop="leek", packets=1.0),
    ]
    totals = money_totals(money(diary(events)), ["year", "kind"])
    assert totals[["currency", "spent"]].to_dict("list") == {
        "currency": ["EUR", "GBP"],
        "spent": [3.95, 3.0],
    }
    by_year = money_years(diary(events))
    check_frame(by_year, "money years")
    assert list(by_year["currency"]) == ["EUR", "GBP"]


def test_money_of_an_uncertain_year_is_in_no_year():
    event = bought(2.0, "2024-12-25", crop="kale") | {"date_end": date(2025, 1, 5)}
    assert money(diary([event]))["year"].isna().all()
    assert [note.lack for note in money_notes(diary([event]))] == ["day"]


def test_what_was_bought_without_a_price_was_not_free():
    own = diary([bought(None, crop="kale", packets=1.0)])
    assert money(own).empty
    assert [str(note) for note in money_notes(own)] == ["kale: not written what it cost"]


# ------------------------------------------------------------ what the harvest was worth


def worth(*events: dict[str, Any], **of_diary: Any) -> dict[str, Any]:
    frame = money_worth(diary(list(events), **of_diary))
    check_frame(frame, "money worth")
    assert len(frame) == 1
    return dict(frame.iloc[0])


def test_weight_times_the_price_a_kilogram():
    row = worth(picked("potato", "2025-07-01", 5.0), prices=(price("potato", 1.2),))
    assert row["worth"] == pytest.approx(6.0)
    assert (row["unpriced"], row["why"], row["events"]) == (0, "", "1")


def test_the_price_of_the_day_and_of_the_cultivar_goes_first():
    prices = (
        price("potato", 1.0),
        price("potato", 2.0, date=date(2025, 7, 10)),
        price("potato", 5.0, cultivar="Ratte"),
    )
    row = worth(
        picked("potato", "2025-07-01", 1.0),
        picked("potato", "2025-07-10", 1.0),
        picked("potato", "2025-07-10", 1.0, cultivar="Ratte"),
        prices=prices,
    )
    assert row["worth"] == pytest.approx(1 + 2 + 5)


def test_a_price_for_each_needs_a_count():
    prices = (price("lettuce", 0.8, "each"),)
    counted = worth(picked("lettuce", "2025-07-01", count=3.0), prices=prices)
    assert counted["worth"] == pytest.approx(2.4)
    weighed = worth(picked("lettuce", "2025-07-01", 0.5), prices=prices)
    assert pd.isna(weighed["worth"]) and "not counted" in weighed["why"]


def test_a_price_by_the_punnet_needs_what_the_punnet_holds():
    prices = (price("strawberry", 2.2, "punnet"),)
    event = picked("strawberry", "2025-07-01", 1.1)
    measures = (MeasureDeclared(None, "punnet", "strawberry", 0.22),)
    # 1.1 kg are five punnets of 220 g
    assert worth(event, prices=prices, measures=measures)["worth"] == pytest.approx(11.0)
    assert "does not say what" in worth(event, prices=prices)["why"]


@pytest.mark.parametrize(
    ("per", "expected"),
    [
        ("200 g", 3.0),  # 600 g are three times 200 g
        ("0.5 kg", 1.2),
        ("2 lb", 0.6 / (2 * 0.45359237)),  # NIST SP 811, B.8
    ],
)
def test_a_price_for_so_many_grams_is_one_by_weight(per: str, expected: float):
    event = picked("kale", "2025-07-01", 0.6)
    assert worth(event, prices=(price("kale", 1.0, per),))["worth"] == pytest.approx(expected)


@pytest.mark.parametrize("per", ["0 g", "200 bunch", "3 l"])
def test_a_price_for_what_is_no_weight_has_no_worth(per: str):
    row = worth(picked("kale", "2025-07-01", 0.6), prices=(price("kale", 1.0, per),))
    assert pd.isna(row["worth"]) and "does not say what" in row["why"]


def test_what_was_not_weighed_leaves_at_least_the_rest():
    row = worth(
        picked("potato", "2025-07-01", 5.0),
        picked("potato", "2025-07-02"),
        prices=(price("potato", 1.2),),
    )
    assert (row["worth"], row["pickings"], row["unpriced"]) == (pytest.approx(6), 2, 1)
    assert "not weighed" in row["why"]


def test_a_crop_without_a_price_is_worth_nothing_that_can_be_said():
    own = diary([picked("kale", "2025-07-01", 1.0)])
    assert pd.isna(money_worth(own)["worth"].iloc[0])
    assert [str(note) for note in money_worth_notes(own)] == ["kale: the sheet has no price for it"]


def test_worth_a_square_metre_and_an_hour():
    # 10 kg at 1.20 are 12.00; on 6 m2 alone that year 2.00 a m2; 90 minutes: 8.00 an hour
    row = worth(
        picked("potato", "2025-07-01", 10.0, place="Long 1"),
        happened("planting", "plant", "2025-04-01", crop="potato", place="Long 1"),
        happened("job", "earth up", "2025-05-01", crop="potato", place="Long 1", minutes=90.0),
        prices=(price("potato", 1.2),),
        places=(bed("Long 1", 6.0),),
    )
    assert row["worth_per_m2"] == pytest.approx(2.0)
    assert row["worth_per_hour"] == pytest.approx(8.0)


def test_a_year_beside_all_of_its_hours_and_ground():
    # 12.00 grown, 2.40 spent, 5.00 taken; 3 hours in all and 10 m2 of beds
    frame = money_years(
        diary(
            [
                picked("potato", "2025-07-01", 10.0, place="Long 1"),
                bought(2.4, crop="carrot", packets=1.0),
                happened("kitchen", "sell", "2025-08-01", crop="potato", cost=5.0, currency="GBP"),
                happened("job", "weed", "2025-05-01", minutes=180.0),
            ],
            (bed("Long 1", 6.0), bed("Long 2", 4.0)),
            prices=(price("potato", 1.2),),
        )
    )
    row = frame.iloc[0]
    assert (row["spent"], row["earned"], row["worth"]) == (2.4, 5.0, pytest.approx(12.0))
    assert row["worth_per_hour"] == pytest.approx(4.0)
    assert row["worth_per_m2"] == pytest.approx(1.2)
