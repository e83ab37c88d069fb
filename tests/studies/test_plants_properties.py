"""Whatever the entries say, the ledger's arithmetic holds: any events, in any order."""

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from support.hand_made import bed, diary

from journal.events.model import GroundChange
from journal.studies.plants import batches, books_of, plant_events, plants, unplaced
from journal.studies.standing import standing
from journal.tables.schema import check_frame

VERBS = {
    "sowing": ("sow",),
    "raising": ("up", "prick out", "pot on", "pot up", "harden off", "thin"),
    "planting": ("plant", "plant out", "heel in"),
    "moving": ("move",),
    "harvest": ("pick", "lift", "pull", "cut"),
    "loss": ("lose", "bolt", "fail"),
    "stock check": ("count",),
    "end": ("clear",),
    "kitchen": ("give",),
    "feed": ("feed",),
}
PLACES = ("", "Long 1", "Long 2", "Frame")
FIRST = date(2025, 3, 1)


@st.composite
def happenings(draw: st.DrawFn) -> dict[str, object]:
    kind = draw(st.sampled_from(sorted(VERBS)))
    day = FIRST + timedelta(days=draw(st.integers(0, 500)))
    crop = draw(st.sampled_from(("leek", "tomato", "kale", "rhubarb", "oca")))
    count = draw(st.none() | st.integers(0, 30))
    row: dict[str, object] = {
        "kind": kind,
        "verb": draw(st.sampled_from(VERBS[kind])),
        "crop": draw(st.sampled_from((crop, ""))) if kind in {"end", "feed"} else crop,
        "cultivar": draw(st.sampled_from(("", "A"))),
        "label": draw(st.sampled_from(("", "second"))),
        "place": draw(st.sampled_from(PLACES)),
        "place_from": draw(st.sampled_from(PLACES)),
        "vessel": draw(st.sampled_from(("", "modules"))),
        "date": day,
        "date_end": day + timedelta(days=draw(st.sampled_from((0, 0, 0, 10, 40)))),
        "count": count,
    }
    if count is not None and draw(st.booleans()):
        row |= {"low": max(0, count - 2), "high": count + 2, "approximate": True}
    if count is not None and kind in {"raising", "loss"} and draw(st.booleans()):
        row["count_of"] = count + draw(st.integers(0, 10))
    return row


SPLIT = GroundChange(date(2025, 6, 1), "split", "Long 1", (("Long 1a", 2.0), ("Long 1b", None)))


@settings(max_examples=120, deadline=None)
@given(st.lists(happenings(), max_size=25))
def test_every_plant_is_alive_gone_or_unaccounted_for(events: list[dict[str, object]]):
    one = diary(events, [bed("Long 1", 5.0), bed("Long 2", 5.0)], changes=(SPLIT,))
    for batch in books_of(one).batches:
        totals = batch.totals
        for part in batch.parts:
            assert part.alive.low >= 0
            assert part.alive.high is None or part.alive.low <= part.alive.high + 1e-9
        fates = (totals.not_up, totals.discarded, totals.lost, totals.harvested, totals.cleared)
        assert all(fate is None or fate >= 0 for fate in fates)
        if batch.unknown is not None and totals.entered is not None:
            alive = sum(part.alive.low for part in batch.parts if part.alive.high is not None)
            assert batch.unknown >= -1e-9
            assert abs(totals.entered - totals.gone - alive - batch.unknown) < 1e-6


@settings(max_examples=25, deadline=None)
@given(st.lists(happenings(), max_size=25))
def test_the_frames_are_their_tables_and_each_event_is_joined_or_left_out(
    events: list[dict[str, object]],
):
    one = diary(events)
    check_frame(plants(one), "plants")
    check_frame(standing(one), "standing")
    assert len(batches(one)) == len(books_of(one).batches)
    must = {"sowing", "raising", "planting", "moving", "loss", "stock check", "harvest"}
    booked = {*plant_events(one)["event"], *unplaced(one)["event"]}
    due = one.events[one.events["kind"].isin(must) & (one.events["date_end"] < "2026-01-01")]
    assert set(due["event"]) <= booked
