"""What a year's pages do not tell: the studies' notes, each kind under its own heading."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from journal.charts.words import curly, duration
from journal.diary import Diary
from journal.studies.catalog import NOTES
from journal.studies.ground_area import NO_GROUND
from journal.studies.notes import Note

LACKS = {
    "weight": "Not weighed",
    "time": "Not timed",
    "day": "Day not certain",
    "ground": "Ground not known, so no weight per m²",
    "weather": "Weather not read, or water not reckoned",
    "place": "Place not written, or not on the sheet",
    "amount": "Amount not written",
    "label": "What a feed or manure holds is not known",
    "price": "Price not known",
    "batch": "Does not fit the sowings, plantings and counts written",
    "family": "Botanical family not known",
    "figure": "No published figure to set beside it",
    "history": "Too few years to tell what is usual",
}
_LINES = re.compile(r" \([^()]*:\d+[^()]*\)$")
_MINUTES = re.compile(r"([\d,]+) minutes?")
SHARED = frozenset({"water", "degree days", "first picking", "sowing", "planting"})
MOST_SUBJECTS = 20  # of one reason: a page is for reading


@dataclass(frozen=True, slots=True)
class Gap:
    """One kind of thing that the year's pages do not tell, with the notes that say where."""

    title: str
    notes: tuple[str, ...]


def season_gaps(diary: Diary, year: int) -> list[Gap]:
    """What the studies left blank for the year, by what the diary does not tell."""
    # the harvest's notes say the same of each row, and who keeps no prices lacks none
    unwanted = {"years"} if diary.sheet.prices else {"years", "money worth"}
    notes = [
        note
        for study, tell in NOTES.items()
        if study not in unwanted
        for note in tell(diary)
        if note.year in (year, None)
    ]
    found = [(title, _told(notes, lack)) for lack, title in LACKS.items()]
    return [Gap(title, told) for title, told in found if told]


def _told(notes: Iterable[Note], lack: str) -> tuple[str, ...]:
    """Notes of one kind, those of one reason said together, the greatest number first."""
    mine = sorted((note for note in notes if note.lack == lack), key=_by_number)
    return tuple(
        curly(f"{reason[:1].upper()}{reason[1:]}: {_subjects(same)}")
        for reason, same in groupby(mine, key=_reason)
    )


def _reason(note: Note) -> str:
    """Without the line where it stands, which would set every note apart from the others."""
    if ", against " in note.reason:
        # the two lines that contradict each other are the point
        return note.reason
    return _LINES.sub("", note.reason.removeprefix(NO_GROUND))


def _by_number(note: Note) -> tuple[int, str]:
    number = note.reason.split(" ", 1)[0]
    return (-int(number) if number.isdigit() else 0, _reason(note))


def _subjects(notes: Iterable[Note]) -> str:
    named = list(dict.fromkeys(note.subject for note in notes))
    more = len(named) - MOST_SUBJECTS
    if more > 1:
        named = named[:MOST_SUBJECTS]
    said = [_together(head, list(own)) for head, own in groupby(sorted(named, key=_head), _head)]
    return "; ".join([*said, f"and {more} more"] if more > 1 else said)


def _head(subject: str) -> str:
    """What a subject is about, where several are about the same: `first picking of `."""
    head, of, _ = subject.partition(" of ")
    return head + of if head in SHARED else ""


def _together(head: str, subjects: list[str]) -> str:
    """`sowing of leek, onion`: what they share is said once."""
    if not head:
        return "; ".join(_said(subject) for subject in subjects)
    return head + ", ".join(subject.removeprefix(head) for subject in subjects)


def _said(subject: str) -> str:
    minutes = _MINUTES.fullmatch(subject)
    return duration(float(minutes[1].replace(",", ""))) if minutes else subject
