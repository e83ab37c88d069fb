"""A diary's year to the sections of its season page: which studies, in which order, in what words.

A section is shown only when the diary holds something for it. Adding one is a function from a
diary and a year to a `Section` or None, and its name in `SECTIONS`.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import groupby

import pandas as pd

from journal.charts.catalog import CHARTS
from journal.charts.theme import AnyChart
from journal.charts.years import whole_crops
from journal.diary import Diary
from journal.report.page_tables import FIRSTS, HARVEST, WEIGHTS, WORTH, PageTable, page_table
from journal.studies.catalog import NOTES, STUDIES
from journal.studies.ground_area import NO_GROUND
from journal.studies.notes import Note

LACKS = {
    "weight": "Not weighed",
    "time": "Not timed",
    "day": "Day not certain",
    "ground": "Ground not known, so no weight per m²",
}


@dataclass(frozen=True, slots=True)
class Section:
    """One part of the page; `caution` is the one line that stands where work can hurt."""

    name: str
    title: str
    words: str
    chart: AnyChart | None = None
    tables: tuple[PageTable, ...] = ()
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Gap:
    """One kind of thing that the year's pages do not tell, with the notes that say where."""

    title: str
    notes: tuple[str, ...]


def of_year(frame: pd.DataFrame, year: int) -> pd.DataFrame:
    """The rows of a study that belong to one year."""
    return frame[frame["year"] == year]


def harvest_section(diary: Diary, year: int) -> Section | None:
    """What was picked, each crop, cultivar and place."""
    rows = of_year(STUDIES["harvest"](diary), year)
    if rows.empty:
        return None
    words = (
        "Weight is what was put on the scales: ≥ marks a crop of which some pickings were not. "
        "Weight per m² counts the ground that the crop was sown or planted on."
    )
    table = page_table(rows.sort_values(["crop", "cultivar", "place"]), f"Harvest {year}", HARVEST)
    return Section("harvest", "The harvest", words, CHARTS["harvest"].draw(rows), (table,))


def labour_section(diary: Diary, year: int) -> Section | None:
    """Where the time went."""
    rows = of_year(STUDIES["labour"](diary), year)
    if rows.empty:
        return None
    words = (
        "Person-hours as the diary times them; work that was not timed is not here. The table "
        "gives a bed's own work to the crop that had the bed alone."
    )
    worth = of_year(STUDIES["labour worth"](diary), year)
    worth = worth[worth["hours"].notna()].sort_values(["place", "crop"])
    table = page_table(worth, f"Time and what it earned, {year}", WORTH)
    return Section("labour", "The work", words, CHARTS["labour"].draw(rows), (table,))


def years_section(diary: Diary, year: int) -> Section | None:
    """The year beside the earlier ones; nothing in a diary's first year."""
    rows = of_year(STUDIES["years"](diary), year)
    if rows["years_before"].fillna(0).eq(0).all():
        return None
    words = f"Each crop of {year} beside {year - 1} and beside all years before. "
    words += "A year in which a crop was not picked is left out, not counted as nothing."
    if year == diary.today.year:
        words += " The year is open: earlier years count to the same day."
    weights = whole_crops(rows, "kg").sort_values("crop")
    firsts = whole_crops(rows, "first picking").sort_values("crop")
    tables = (
        page_table(weights, f"Weight in {year} and before", WEIGHTS),
        page_table(firsts, f"First picking in {year} and before", FIRSTS),
    )
    kept = tuple(table for table in tables if table.rows)
    return Section("years", "Beside other years", words, CHARTS["years"].draw(rows), kept)


SECTIONS: tuple[Callable[[Diary, int], Section | None], ...] = (
    harvest_section,
    labour_section,
    years_section,
)


def season_sections(diary: Diary, year: int) -> list[Section]:
    """The sections that the diary holds something for, in the page's order."""
    made = (make(diary, year) for make in SECTIONS)
    return [section for section in made if section is not None]


def season_gaps(diary: Diary, year: int) -> list[Gap]:
    """What was not weighed, not timed, not surely dated, or has no known ground."""
    notes = [
        note
        for study, tell in NOTES.items()
        if study != "years"  # the harvest's notes say the same of each cultivar and place
        for note in tell(diary)
        if note.year in (year, None)
    ]
    found = [(title, _told(notes, lack)) for lack, title in LACKS.items()]
    return [Gap(title, told) for title, told in found if told]


def _told(notes: Iterable[Note], lack: str) -> tuple[str, ...]:
    """Notes of one kind, those of one reason said together, the greatest number first."""
    mine = sorted((note for note in notes if note.lack == lack), key=_by_number)
    return tuple(
        f"{reason.removeprefix(NO_GROUND)}: {_subjects(same)}"
        for reason, same in groupby(mine, key=lambda note: note.reason)
    )


def _by_number(note: Note) -> tuple[int, str]:
    number = note.reason.split(" ", 1)[0]
    return (-int(number) if number.isdigit() else 0, note.reason)


def _subjects(notes: Iterable[Note]) -> str:
    return "; ".join(dict.fromkeys(note.subject for note in notes))
