"""A study computed once for a diary and kept as long as the diary is."""

from collections.abc import Callable
from functools import wraps
from weakref import WeakKeyDictionary

import pandas as pd

from journal.diary import Diary

Study = Callable[[Diary], pd.DataFrame]


def once_a_diary(study: Study) -> Study:
    """The same study; its frame is kept, so take a copy before changing one."""
    kept: WeakKeyDictionary[Diary, pd.DataFrame] = WeakKeyDictionary()

    @wraps(study)
    def kept_study(diary: Diary) -> pd.DataFrame:
        if diary not in kept:
            kept[diary] = study(diary)
        return kept[diary]

    return kept_study
