"""Every chart by its name: the study that it draws and the function that draws it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

import pandas as pd

from journal.charts.ahead import ahead_chart
from journal.charts.beside import beside_chart
from journal.charts.books import books_chart
from journal.charts.climate import climate_chart
from journal.charts.cumulative import cumulative_chart
from journal.charts.feeding import feeding_chart
from journal.charts.ground import ground_chart
from journal.charts.harvest import harvest_chart
from journal.charts.heaps import heaps_chart
from journal.charts.labour import labour_chart
from journal.charts.money import money_chart, worth_chart
from journal.charts.occupancy import occupancy_chart
from journal.charts.plan import plan_chart
from journal.charts.plants import lives_chart
from journal.charts.rain_store import rain_store_chart
from journal.charts.survival import survival_chart
from journal.charts.theme import AnyChart
from journal.charts.water_need import water_need_chart
from journal.charts.years import years_chart
from journal.diary import Diary
from journal.studies.catalog import STUDIES


@dataclass(frozen=True, slots=True)
class Picture:
    """A study and how to draw its frame."""

    name: str
    study: Callable[[Diary], pd.DataFrame]
    draw: Callable[[pd.DataFrame], AnyChart]

    def drawn(self, frame: pd.DataFrame, year: int, today: date) -> AnyChart:
        """The chart of a year; the plan of the plot is of the day `today`."""
        rows = self.rows(frame, year)
        return plan_chart(rows, today) if self.name == "plan" else self.draw(rows)

    def rows(self, frame: pd.DataFrame, year: int) -> pd.DataFrame:
        """The rows to draw for a year: its own, or all up to it where earlier years stand beside.

        A study without a year is drawn whole.
        """
        if "year" not in frame:
            return frame
        if self.name in _WITH_EARLIER_YEARS:
            return frame[frame["year"] <= year]
        return frame[frame["year"] == year]


_WITH_EARLIER_YEARS = frozenset({"cumulative", "ground"})
CHARTS: dict[str, Picture] = {
    name: Picture(name, STUDIES[name], draw)
    for name, draw in {
        "harvest": harvest_chart,
        "labour": labour_chart,
        "years": years_chart,
        "beside": beside_chart,
        "books": books_chart,
        "cumulative": cumulative_chart,
        "occupancy": occupancy_chart,
        "plan": plan_chart,
        "plants lives": lives_chart,
        "plants survival": survival_chart,
        "ahead years": ahead_chart,
        "water_need": water_need_chart,
        "rain_store": rain_store_chart,
        "ground": ground_chart,
        "feeding": feeding_chart,
        "heaps log": heaps_chart,
        "money": money_chart,
        "money worth": worth_chart,
    }.items()
}
# a picture of the weather needs its days; the figures of the year are the table's
CHARTS["climate"] = Picture("climate", STUDIES["climate_days"], climate_chart)
