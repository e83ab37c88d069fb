"""The order of reading of the season page: every section, in the one place that arranges them.

A section is a function from a diary and a year to a `Section`, or to None where the diary holds
nothing for it. Adding one is its name in `SECTIONS`, where a reader would look for it.
"""

from journal.diary import Diary
from journal.report.section import Make, Section
from journal.report.year_sections import harvest_section, labour_section, years_section

SECTIONS: tuple[Make, ...] = (
    harvest_section,
    labour_section,
    years_section,
)


def season_sections(diary: Diary, year: int) -> list[Section]:
    """The sections that the diary holds something for, in the page's order."""
    made = (make(diary, year) for make in SECTIONS)
    return [section for section in made if section is not None]
