"""History follows the ground: a written place leads to the names that its ground has today."""

from datetime import date

import pandas as pd

from journal.events.model import Sheet
from journal.reading import read_sources
from journal.source import Source
from journal.studies.parcels import by_parcel

TODAY = date(2026, 3, 1)


def sheet(text: str) -> Sheet:
    return read_sources([Source("plot.txt", text)], TODAY).sheet


def parcels(place: str, day: date | None, of: Sheet) -> tuple[str, ...]:
    days = pd.array([pd.NaT if day is None else pd.Timestamp(day)], dtype="datetime64[s]")
    return tuple(by_parcel(pd.DataFrame({"place": [place], "date": days}), of)["ground"])


SPLIT = """
- bed Siding, 1.2 x 10 m

2 March 2024
- split Siding into Siding east 4 m, Siding west
"""


def test_a_split_bed_leads_to_both_of_its_parts():
    assert parcels("Siding", date(2023, 6, 1), sheet(SPLIT)) == ("Siding east", "Siding west")


def test_a_part_is_itself():
    assert parcels("Siding east", date(2025, 6, 1), sheet(SPLIT)) == ("Siding east",)


def test_the_old_name_written_after_the_split_still_means_the_same_ground():
    assert parcels("Siding", date(2025, 6, 1), sheet(SPLIT)) == ("Siding east", "Siding west")


def test_a_rename_after_a_split_is_followed_too():
    text = SPLIT + "\n1 February 2025\n- rename Siding west to Orchard end\n"
    assert parcels("Siding", date(2023, 6, 1), sheet(text)) == ("Orchard end", "Siding east")


def test_a_name_given_to_new_ground_is_that_ground_from_then_on():
    text = """
- bed Top bed, 14 m2

1 February 2025
- rename Top bed to Orchard end

1 March 2025
- bed Top bed, 4 m2
"""
    old, new = date(2024, 6, 1), date(2025, 6, 1)
    assert parcels("Top bed", old, sheet(text)) == ("Orchard end",)
    assert parcels("Top bed", new, sheet(text)) == ("Top bed",)


def test_a_name_that_goes_away_and_comes_back_is_one_ground():
    text = """
- bed Top bed, 14 m2

1 February 2024
- rename Top bed to Orchard end

1 February 2025
- rename Orchard end to Top bed
"""
    for day in (date(2023, 6, 1), date(2024, 6, 1), date(2025, 6, 1)):
        name = "Orchard end" if day.year == 2024 else "Top bed"
        assert parcels(name, day, sheet(text)) == ("Top bed",)


def test_a_place_that_the_sheet_does_not_know_is_itself():
    assert parcels("window box", None, sheet(SPLIT)) == ("window box",)
