"""What a year's pages do not tell: the studies' notes, each kind under its own heading."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

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
}


@dataclass(frozen=True, slots=True)
class Gap:
    """One kind of thing that the year's pages do not tell, with the notes that say where."""

    title: str
    notes: tuple[str, ...]


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
