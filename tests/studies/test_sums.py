"""Whatever is grouped adds up to the events, for any diary."""

from datetime import date, timedelta
from typing import Any

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.hand_made import bed, diary

from journal.studies.catalog import NOTES, STUDIES
from journal.studies.harvest import harvest, harvest_totals
from journal.studies.labour import labour, labour_worth
from journal.studies.years import years
from journal.tables.schema import check_frame

FIRST = date(2023, 1, 1)
FEW = settings(max_examples=15, deadline=None)
AMOUNT = st.one_of(st.none(), st.integers(0, 4000).map(lambda grams: grams / 8))


@st.composite
def events(draw: st.DrawFn) -> dict[str, Any]:
    start = draw(
        st.one_of(st.none(), st.integers(0, 1500).map(lambda days: FIRST + timedelta(days)))
    )
    width = draw(st.sampled_from([0, 0, 0, 6, 40]))
    kind, verb = draw(
        st.sampled_from(
            [
                ("harvest", "pick"),
                ("planting", "plant"),
                ("sowing", "sow"),
                ("job", "weed"),
                ("end", "clear"),
            ]
        )
    )
    return {
        "kind": kind,
        "verb": verb,
        "date": start,
        "date_end": start and start + timedelta(width),
        "crop": draw(st.sampled_from(["", "leek", "kale", "asparagus"])),
        "cultivar": draw(st.sampled_from(["", "Porbella", "Oarsman"])),
        "place": draw(st.sampled_from(["", "A", "B"])),
        "entry": draw(st.integers(1, 8)),
        "spread": draw(st.booleans()),
        "mass_kg": draw(AMOUNT),
        "count": draw(AMOUNT),
        "minutes": draw(AMOUNT),
        "spacing_m": draw(st.sampled_from([None, 0.5])),
        "length_m": draw(st.sampled_from([None, 4.0])),
        "row_spacing_m": draw(st.sampled_from([None, 0.5])),
    }


DIARIES = st.lists(events(), max_size=14).map(
    lambda rows: diary(rows, [bed("A", 6.0)], date(2026, 3, 1))
)
GROUPINGS = [["year"], ["crop"], ["place"], ["year", "place"], ["crop", "cultivar"]]


@FEW
@given(DIARIES, st.sampled_from(GROUPINGS))
def test_any_grouping_of_the_harvest_adds_up_to_the_events(one: Any, grouping: list[str]) -> None:
    picked = one.events[one.events["kind"] == "harvest"]
    totals = harvest_totals(harvest(one), grouping)
    assert totals["kg"].sum() == pytest.approx(picked["mass_kg"].sum())
    assert totals["count"].sum() == pytest.approx(picked["count"].sum())
    assert totals["pickings"].sum() == harvest(one)["pickings"].sum() <= len(picked)
    assert totals["unweighed"].sum() <= picked["mass_kg"].isna().sum()


@FEW
@given(DIARIES, st.sampled_from([["year"], ["month"], ["place"], ["verb"], ["crop", "year"]]))
def test_any_grouping_of_the_time_adds_up_to_the_events(one: Any, grouping: list[str]) -> None:
    total = one.events["minutes"].sum()
    frame = labour(one)
    assert frame.groupby(grouping, dropna=False)["minutes"].sum().sum() == pytest.approx(total)
    assert labour_worth(one)["hours"].sum() == pytest.approx(total / 60)


@FEW
@given(DIARIES)
def test_the_years_quote_the_harvest(one: Any) -> None:
    frame = years(one)
    whole = frame[
        (frame["measure"] == "kg") & (frame[["crop", "cultivar", "place"]] == "").all(axis=1)
    ]
    sure = harvest_totals(harvest(one).dropna(subset="year"), ["year"]).dropna(subset="kg")
    assert dict(zip(whole["year"], whole["value"], strict=True)) == pytest.approx(
        dict(zip(sure["year"], sure["kg"], strict=True))
    )


@FEW
@given(DIARIES)
def test_every_study_keeps_its_contract(one: Any) -> None:
    for name, study in STUDIES.items():
        check_frame(study(one), name)
        assert study(one) is study(one)


@FEW
@given(DIARIES)
def test_no_blank_is_left_without_a_reason(one: Any) -> None:
    frame = harvest(one)
    notes = NOTES["harvest"](one)
    blank = frame[(frame["crop"] != "") & frame["area_m2"].isna()]
    assert len(blank) == sum(note.lack == "ground" for note in notes)
    assert (frame["unweighed"] > 0).sum() == sum(note.lack == "weight" for note in notes)


@FEW
@given(DIARIES)
def test_a_wider_day_never_gives_a_narrower_season(one: Any) -> None:
    frame = harvest(one).dropna(subset=["first", "last"])
    assert (frame["first"] <= frame["last"]).all()
    assert (frame["days"] >= 1).all()
    assert not pd.isna(frame["days"]).any()
