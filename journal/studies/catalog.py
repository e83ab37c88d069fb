"""Every study by the name that `haulm table` knows it by, and what each left blank."""

from collections.abc import Callable

import pandas as pd

from journal.diary import Diary
from journal.studies.harvest import harvest, harvest_notes
from journal.studies.labour import labour, labour_notes, labour_worth
from journal.studies.manure_interval import manure_interval, manure_notes
from journal.studies.notes import Note
from journal.studies.years import years, years_notes

STUDIES: dict[str, Callable[[Diary], pd.DataFrame]] = {
    "harvest": harvest,
    "labour": labour,
    "labour worth": labour_worth,
    "years": years,
    "manure_interval": manure_interval,
}

NOTES: dict[str, Callable[[Diary], list[Note]]] = {
    "harvest": harvest_notes,
    "labour": labour_notes,
    "years": years_notes,
    "manure_interval": manure_notes,
}
