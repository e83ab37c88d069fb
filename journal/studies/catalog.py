"""Every study by the name that `haulm table` and `haulm chart` know it by."""

from collections.abc import Callable

import pandas as pd

from journal.diary import Diary
from journal.studies.harvest import harvest, harvest_notes
from journal.studies.notes import Note

STUDIES: dict[str, Callable[[Diary], pd.DataFrame]] = {
    "harvest": harvest,
}

NOTES: dict[str, Callable[[Diary], list[Note]]] = {
    "harvest": harvest_notes,
}
