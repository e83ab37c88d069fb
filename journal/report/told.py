"""A season told: what is said of a year, for a page, a text or a program to show.

Chooses and words; every figure is a study's.
"""

from dataclasses import dataclass
from pathlib import Path

import pandas as pd

from journal.charts.words import duration, kilograms, number
from journal.diary import Diary
from journal.report.gaps import Gap, season_gaps
from journal.report.page_tables import signed, two_places
from journal.report.photographs import Photographs, photographs
from journal.report.section import Section
from journal.report.sections import season_sections
from journal.report.sentences import year_in_sentences
from journal.studies.beside import years_beside
from journal.studies.headlines import Headline, headlines
from journal.studies.part_of_year import Part, part_of_year

LAST_DAY = {month: pd.Timestamp(2001, month, 1).days_in_month for month in range(1, 13)}


@dataclass(frozen=True, slots=True)
class Season:
    """What to tell: a year, the earlier year it is set beside, and a part of it if not all.

    `folder` is the diary's, for its photographs, and `page` the file that a page of it will be.
    """

    year: int
    against: int | None = None
    part: Part | None = None
    folder: Path | None = None
    page: Path | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """A season in words, figures, pictures and tables, in order of reading.

    `others` are the earlier years that it can be set beside, the latest first, and `against` the
    one that it is; `span` the part of the year in words, empty for all of it.
    """

    year: int
    against: int
    others: tuple[int, ...]
    span: str
    plot: str
    sentences: tuple[str, ...]
    headlines: tuple[Headline, ...]
    sections: tuple[Section, ...]
    photographs: Photographs
    gaps: tuple[Gap, ...]


def tell(diary: Diary, season: Season) -> Told:
    """The season of a diary; what the diary does not hold is not in it."""
    year, part = season.year, season.part
    told_of = diary if part is None else part_of_year(diary, part)
    others = tuple(sorted(years_beside(told_of, year), reverse=True))
    against = season.against or max(others, default=year - 1)
    return Told(
        year,
        against,
        others,
        span_words(part),
        diary.plot.name,
        tuple(year_in_sentences(told_of, year, against, part)),
        tuple(headlines(told_of, year, against, part)),
        tuple(season_sections(told_of, year, against, part=part is not None)),
        photographs(told_of, year, season.folder, season.page),
        tuple(season_gaps(told_of, year)),
    )


def span_words(part: Part | None) -> str:
    """A part of the year in words: `1 April to 30 June`; empty for the whole year."""
    if part is None:
        return ""
    ends = [
        pd.Timestamp(2001, month, min(day, LAST_DAY[month]))
        for month, day in (part.first, part.last)
    ]
    return " to ".join(f"{day.day} {day:%B}" for day in ends)


def said(headline: Headline) -> str:
    """A headline's figure as a person says it: `123.4 kg`, `44 h`, `+12 %`."""
    value = headline.value
    match headline.unit:
        case "kg":
            return kilograms(value)
        case "kg/m2":
            return f"{two_places(value)} kg/m²"
        case "min":
            return duration(value)
        case "%":
            return signed(value)
        case _:
            return number(value, 0)
