"""A study computed once for a diary and kept as long as the diary is."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar
from weakref import WeakKeyDictionary

from journal.diary import Diary

Result = TypeVar("Result")


def once_a_diary(study: Callable[[Diary], Result]) -> Callable[[Diary], Result]:
    """The same study; what it gives is kept, so take a copy of a frame before changing one."""
    kept: WeakKeyDictionary[Diary, Result] = WeakKeyDictionary()

    @wraps(study)
    def kept_study(diary: Diary) -> Result:
        if diary not in kept:
            kept[diary] = study(diary)
        return kept[diary]

    return kept_study
