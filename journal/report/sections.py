"""The order of reading of the season page: every section, in the one place that arranges them.

A section is a function from a diary and a year to a `Section`, or to None where the diary holds
nothing for it. Adding one is its name in `CHAPTERS`, where a reader would look for it.
"""

from dataclasses import replace
from functools import partial

from journal.diary import Diary
from journal.report.bed_sections import beds_section, calendar_section, plan_section
from journal.report.ground_sections import GROUND_SECTIONS
from journal.report.plant_sections import lives_section, survival_section, usual_days_section
from journal.report.section import Make, Section
from journal.report.store_sections import (
    books_section,
    money_section,
    seed_section,
    structures_section,
    worth_section,
)
from journal.report.variety_sections import verdicts_section
from journal.report.weather_sections import (
    rain_store_section,
    warmth_section,
    water_section,
    weather_section,
)
from journal.report.year_sections import (
    cumulative_section,
    harvest_section,
    labour_section,
    years_section,
)

CHAPTERS: dict[str, tuple[Make, ...]] = {
    "Beds and work": (beds_section, labour_section),
    "The crops": (
        harvest_section,
        cumulative_section,
        verdicts_section,
        books_section,
        survival_section,
        lives_section,
    ),
    "The ground through the year": (calendar_section, plan_section),
    "Beside other years": (years_section, usual_days_section),
    "Weather and water": (weather_section, warmth_section, water_section),
    "The ground for next year": GROUND_SECTIONS,
    "Stores and purse": (
        rain_store_section,
        structures_section,
        seed_section,
        money_section,
        worth_section,
    ),
}
SECTIONS: tuple[Make, ...] = tuple(make for makes in CHAPTERS.values() for make in makes)
# those that set the year beside an earlier one, which they take as `against`
COMPARING = (cumulative_section, years_section)
# those that stay true of a part of the year
OF_A_PART: tuple[Make, ...] = (
    beds_section,
    harvest_section,
    cumulative_section,
    labour_section,
    years_section,
)


def season_sections(
    diary: Diary, year: int, against: int | None = None, *, part: bool = False
) -> list[Section]:
    """The sections that the diary holds something for, in the page's order."""
    made = []
    for chapter, make in ((name, make) for name, makes in CHAPTERS.items() for make in makes):
        if part and make not in OF_A_PART:
            continue
        comparing = next((each for each in COMPARING if each is make), None)
        ready = make if comparing is None else partial(comparing, against=against)
        section = ready(diary, year)
        if section is not None:
            made.append(replace(section, chapter=chapter))
    return made
