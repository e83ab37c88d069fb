"""A made-up garden of some years, as values: enough of everything for charts and pages."""

from collections.abc import Sequence
from datetime import date
from itertools import cycle, islice

from support.hand_made import bed, diary, happened, picked

from journal.diary import Diary

CROPS = (
    ("potato", "Charlotte"),
    ("leek", "Bleu de Solaise"),
    ("kale", ""),
    ("purple sprouting broccoli", "Early Purple Sprouting Improved of the Valley"),
)
BEDS = ("Long 1", "Long 2", "the old bed behind the second water butt")


def garden(
    varieties: int = 4, years: Sequence[int] = (2023, 2024, 2025), today: date = date(2026, 3, 1)
) -> Diary:
    """A harvest, a planting and a job of every variety in every year; some are not weighed."""
    events = []
    for number, (crop, cultivar) in enumerate(islice(cycle(CROPS), varieties)):
        names = {
            "crop": crop,
            "cultivar": f"{cultivar} {number}".strip(),
            "place": BEDS[number % 3],
        }
        for year in years:
            events += [
                happened(
                    "planting",
                    "plant",
                    f"{year}-04-0{1 + number % 9}",
                    count=8.0,
                    spacing_m=0.5,
                    **names,
                ),
                happened(
                    "job",
                    "weed",
                    f"{year}-0{1 + number % 9}-07",
                    minutes=20.0 + number,
                    place=names["place"],
                ),
                picked(
                    kg=1.5 + number + (year - 2023) / 4,
                    when=f"{year}-07-{1 + number % 28:02d}",
                    **names,
                ),
            ]
            if number % 3 == 0:
                events.append(picked(when=f"{year}-08-01", **names))
    return diary(events, [bed(name, 6.0) for name in BEDS], today)
