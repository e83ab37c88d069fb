"""How large the whole plot is on a day: as the sheet says, else its beds together."""

import pandas as pd

from journal.diary import Diary
from journal.events.model import PlaceDeclared
from journal.studies.bed_size import bed_size
