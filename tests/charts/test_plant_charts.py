"""The charts of the plants: what they draw is the study's, and what they say is what it holds."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from support.written import written

from journal.charts.ahead import ahead_chart
from journal.charts.files import chart_spec
from journal.charts.plants import COLOURS, LEGEND, lives_chart
from journal.charts.survival import survival_chart
from journal.studies.ahead import ahead_years
from journal.studies.ledger.batches import STAGES
from journal.studies.lives import lives
from journal.studies.survival import survival

TODAY = date(2026, 11, 25)
PAGE = """\
2025-03-01
- sow 20 leek 'Porbella' in modules in Tunnel
2025-03-20
- up 18 of 20 leek 'Porbella' in Tunnel
2025-06-01
- plant out 15 leek 'Porbella' from Tunnel to Long 1
2025-06-02
- clear leek from Tunnel
2025-11-01
- clear leek from Long 1
2026-03-11
- sow 24 leek 'Porbella' in modules in Tunnel
2026-03-25
- up 21 of 24 leek 'Porbella' in Tunnel
2026-06-01
- plant out 15 leek 'Porbella' from Tunnel to Long 1
"""


@pytest.fixture(scope="module")
def diary():
    return written(PAGE, TODAY)


def datasets(spec: dict[str, Any]) -> list[pd.DataFrame]:
    return [pd.DataFrame(rows) for rows in spec["datasets"].values()]


def year(frame: pd.DataFrame, wanted: int = 2026) -> pd.DataFrame:
    return frame[frame["year"] == wanted]


def test_every_stage_has_a_colour_and_every_colour_a_place_in_the_key():
    assert set(COLOURS) == set(STAGES) - {"ended"}
    assert set(COLOURS.values()) == set(LEGEND.values())


def test_a_line_of_life_is_drawn_for_each_stage_of_the_study(diary):
    rows = year(lives(diary))
    drawn = pd.concat(
        frame for frame in datasets(chart_spec(lives_chart(rows))) if "says" not in frame.columns
    )
    assert sorted(drawn["stage"]) == sorted(rows["stage"])
    assert drawn["row"].nunique() == rows["batch"].nunique() == 1


def test_what_stands_and_what_was_cleared_is_said_beside_its_line(diary):
    def says(wanted: int) -> list[str]:
        frames = datasets(chart_spec(lives_chart(year(lives(diary), wanted))))
        return next(frame["says"].tolist() for frame in frames if "says" in frame.columns)

    assert (says(2025), says(2026)) == (["cleared · Long 1"], ["stands · Long 1"])


def test_survival_is_said_in_seeds_and_plants(diary):
    spec = chart_spec(survival_chart(year(survival(diary))))
    (rows,) = datasets(spec)
    assert rows["says"].tolist() == ["21 of 24 up; 15 planted"]
    assert rows["pct_up"].tolist() == [87.5]
    assert spec["description"].endswith("that came up and that were planted.")


def test_this_years_day_is_said_beside_the_usual_one(diary):
    spec = chart_spec(ahead_chart(year(ahead_years(diary))))
    told = {
        row["name"]: row["says"] for frame in datasets(spec) for row in frame.to_dict("records")
    }
    assert told == {"leek": "1 June, the usual day"}
    sown = next(frame for frame in datasets(spec) if frame["what"].iloc[0] == "sowing")
    assert sown["says"].tolist() == ["11 March, 10 days later"]


@pytest.mark.parametrize(
    ("draw", "study"),
    [(lives_chart, lives), (survival_chart, survival), (ahead_chart, ahead_years)],
)
def test_nothing_to_draw_is_said_in_a_sentence(draw, study):
    spec = chart_spec(draw(study(written("Prose alone.\n", TODAY))))
    assert spec["description"].endswith(".") and "vconcat" not in spec
