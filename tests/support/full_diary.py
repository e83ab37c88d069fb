"""A diary made from values in which every table has rows, with words that are hard on files."""

from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import (
    CropDeclared,
    Event,
    MaterialDeclared,
    MetFileDeclared,
    Paragraph,
    PlaceDeclared,
    Plot,
    PriceDeclared,
    Sheet,
    WeatherReading,
)
from journal.problems.model import Problem
from journal.reading import Reading
from journal.source import Source, Span

TODAY = date(2026, 3, 20)
PAGE = Source(
    "2026/march.txt",
    "14 March 2026\n- pick 1.2 kg kale from Top bed\n"
    "  - plan sow leek by 28 March\nFog, =SUM(A1)\n",
)
SHEET = Source("plot.txt", "- bed Long 1, 1.2 x 4.8 m, also L1\n- worth kale, £1.10 per kg\n")
MET = Source("weather/met.csv", "date,rain\n2026-03-14,2.5\n")
HARD_WORDS = (
    "=1+1",
    "+44 is no number",
    "-2 C on the grass",
    "@noon",
    "\tindented",
    "\rcarriage",
    "'=quoted already",
    "''=twice",
    "'Eskimo' is plain",
    'a "quoted", word',
    "two\nlines",
    "old\rline end",
    "½ barrow 🥕 − ﻿",
    "line\u2028separator",
    "",
    " ",
    "NA",
    "null",
    "true",
    "007",
)
SUM_OF_TENTHS = 0.1 + 0.2


def span_of(words: str, source: Source = PAGE) -> Span:
    start = source.text.index(words)
    return Span(start, start + len(words))


def happening(event: int, **columns: Any) -> Event:
    """A picking of kale on line 2 of the page, but for the columns given."""
    known: dict[str, Any] = {
        "entry": event,
        "date": date(2026, 3, 14),
        "date_end": date(2026, 3, 14),
        "kind": "harvest",
        "verb": "pick",
        "crop": "kale",
        "source": PAGE,
        "span": span_of("- pick 1.2 kg kale from Top bed"),
    }
    return Event(event=event, **(known | columns))


def _events() -> tuple[Event, ...]:
    awkward = [happening(at, remark=words) for at, words in enumerate(HARD_WORDS, 3)]
    first = happening(1, mass_kg=SUM_OF_TENTHS, place="Top bed", approximate=True, low=0.25, high=3)
    plan = happening(
        2,
        date=None,
        date_end=None,
        kind="intention",
        verb="sow",
        crop="leek",
        count=24,
        due=date(2026, 3, 28),
        due_end=date(2026, 3, 28),
        temperature_c=-2.5,
        cost=0.0,
        span=span_of("- plan sow leek by 28 March"),
    )
    return (first, plan, *awkward)


def full_reading(*problems: Problem) -> Reading:
    """A reading with rows in every table; problems are handed in, as their codes are others'."""
    sheet = Sheet(
        plot=Plot(name="Cutler's Rise"),
        places=(
            PlaceDeclared(None, "bed", "Long 1", ("L1", "One"), 4.8, 1.2, source=SHEET),
            PlaceDeclared(None, "roof", "Shed", area_m2=5.5, feeds="Butt", source=SHEET),
            PlaceDeclared(
                date(2026, 3, 1),
                "bed",
                "Long 1",
                ended=True,
                became=("Long 1a", "Long 1b"),
                source=SHEET,
            ),
        ),
        crops=(CropDeclared(None, "oca", ("ocas",), "Oxalidaceae", ("roots",), source=SHEET),),
        materials=(
            MaterialDeclared(None, "feed", "tomato feed", (), 4, 3, 8, "w/w", 0.004, source=SHEET),
        ),
        prices=(
            PriceDeclared(
                None, "kale", "", 1.1, "GBP", "kg", 1.1, SHEET, span_of("- worth", SHEET)
            ),
        ),
        mets=(MetFileDeclared("met.csv"),),
    )
    day = date(2026, 3, 14)
    return Reading(
        sources=(PAGE, SHEET),
        sheet=sheet,
        events=_events(),
        weather=(
            WeatherReading(
                day, day, "", "rain", 2.5, "mm", source=MET, span=span_of("2026-03-14", MET)
            ),
            WeatherReading(day, day, "", "fog", None, "", source=PAGE, span=span_of("Fog")),
        ),
        prose=(Paragraph(day, day, "Fog, =SUM(A1)", PAGE, span_of("Fog, =SUM(A1)")),),
        problems=problems,
    )


def full_diary(*problems: Problem) -> Diary:
    return Diary(full_reading(*problems), TODAY)


def plain_rows(frame: pd.DataFrame) -> list[dict[str, Any]]:
    """The rows of a frame as plain values, days as dates and None for what is missing."""
    return [
        {str(name): _plain(value) for name, value in row.items()}
        for row in frame.to_dict("records")
    ]


def _plain(value: Any) -> Any:
    if pd.isna(value):
        return None
    return value.date() if isinstance(value, pd.Timestamp) else value
