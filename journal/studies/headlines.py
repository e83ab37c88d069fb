"""A year in a handful of figures: the top of the season page and of the command line.

Quotes the studies and adds counts of events; a figure that the diary cannot support is left out.
"""

from dataclasses import dataclass

import pandas as pd

from journal.diary import Diary
from journal.studies.beside import beside
from journal.studies.harvest import harvest, harvest_totals
from journal.studies.labour import labour, labour_totals
from journal.studies.notes import counted, crop_words
from journal.studies.part_of_year import Part
from journal.studies.seasons import certain_year

A_GRAM = 0.001


@dataclass(frozen=True, slots=True)
class Headline:
    """One figure: its name, value and unit (kg, kg/m2, min, % or none), and what stands behind."""

    name: str
    value: float
    unit: str
    about: str


def years_written(diary: Diary) -> list[int]:
    """The years in which something surely happened or was written, in order."""
    years_held = certain_year(_written(diary)).dropna().sort_values().unique()
    return [int(year) for year in years_held]


def _written(diary: Diary) -> pd.DataFrame:
    """The days of all that the diary itself holds; a met file is not written by its keeper."""
    weather = diary.weather[diary.weather["source"] == "diary"]
    days = ["date", "date_end"]
    return pd.concat([frame[days] for frame in (diary.events, weather, diary.prose)])


def headlines(
    diary: Diary, year: int, against: int | None = None, part: Part | None = None
) -> list[Headline]:
    """The figures of one calendar year; none where nothing is written of it.

    `against` is the earlier year that its weight is set beside: the year before unless said;
    `part` is the part of the year that the diary was narrowed to.
    """
    picked = harvest(diary)
    picked = picked[picked["year"] == year]
    return [
        *_picked(picked),
        *_heaviest(picked),
        *_densest(picked),
        *_against(diary, year, year - 1 if against is None else against),
        *_time(diary, year),
        *_days(diary, year, part),
    ]


def _picked(picked: pd.DataFrame) -> list[Headline]:
    if picked.empty:
        return []
    total = harvest_totals(picked, ["year"]).iloc[0]
    crops = picked.loc[picked["crop"] != "", "crop"].nunique()
    pickings, unweighed = int(total["pickings"]), int(total["unweighed"])
    of_crops = f"of {counted(crops, 'crop')}"
    if pd.isna(total["kg"]):
        return [Headline("pickings", float(pickings), "", f"{of_crops}, none of them weighed")]
    about = f"{counted(pickings, 'picking')} {of_crops}"
    if unweighed:
        about += f", {unweighed} of them not weighed"
    return [Headline("picked", float(total["kg"]), "kg", about)]


def _heaviest(picked: pd.DataFrame) -> list[Headline]:
    crops = harvest_totals(picked[picked["crop"] != ""], ["crop"]).dropna(subset="kg")
    if crops.empty:
        return []
    order = crops.sort_values("kg", ascending=False, kind="stable")
    top = order.iloc[0]
    about = f"{top['crop']}, in {counted(int(top['pickings']), 'picking')}"
    alike = order.loc[(top["kg"] - order["kg"]) < A_GRAM, "crop"].tolist()[1:]
    if alike:
        about += f", and as much {' and '.join(alike)}"
    return [Headline("heaviest crop", float(top["kg"]), "kg", about)]


def _densest(picked: pd.DataFrame) -> list[Headline]:
    known = picked.dropna(subset="kg_per_m2")
    if known.empty:
        return []
    top = known.sort_values("kg_per_m2", ascending=False, kind="stable").iloc[0]
    about = crop_words(top["crop"], top["cultivar"], top["place"])
    return [Headline("most from its ground", float(top["kg_per_m2"]), "kg/m2", about)]


def _against(diary: Diary, year: int, other: int) -> list[Headline]:
    pairs = beside(diary)
    own = (pairs["year"] == year) & (pairs["other"] == other) & (pairs["crop"] == "")
    rows = pairs[own & (pairs["measure"] == "kg")].dropna(subset="change_pct")
    if rows.empty:
        return []
    row = rows.iloc[0]
    to_date = " to the same day" if year == diary.today.year else ""
    about = f"in weight, from {row['before']:.1f} kg{to_date}"
    return [Headline(f"against {other}", float(row["change_pct"]), "%", about)]


def _time(diary: Diary, year: int) -> list[Headline]:
    timed = labour(diary)
    timed = timed[timed["year"] == year]
    if timed.empty:
        return []
    total = labour_totals(timed, ["year"]).iloc[0]
    jobs = diary.events[(diary.events["kind"] == "job") & (certain_year(diary.events) == year)]
    untimed = int(jobs["minutes"].isna().sum())
    about = f"timed; {counted(untimed, 'more job')} not" if untimed else "every job timed"
    return [Headline("work", float(total["minutes"]), "min", about)]


def _days(diary: Diary, year: int, part: Part | None) -> list[Headline]:
    written = _told(_written(diary), year, part)
    if written.empty:
        return []
    days = int(written["date"].nunique())
    entries = int(_told(diary.events, year, part)["entry"].nunique())
    return [
        Headline("days written", float(days), "", f"with {counted(entries, 'entry', 'entries')}")
    ]


def _told(rows: pd.DataFrame, year: int, part: Part | None) -> pd.DataFrame:
    """Rows whose days surely lie in the year, and in the part of it."""
    own = rows[certain_year(rows) == year]
    if part is None:
        return own
    days = zip(own["date"], own["date_end"], strict=True)
    return own[pd.Series([part.holds(*ends) for ends in days], own.index, dtype=bool)]
