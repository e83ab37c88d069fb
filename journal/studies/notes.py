"""Why a study left something blank: a subject and a reason, for pages and answers to repeat."""

from dataclasses import dataclass
from typing import Literal

Lack = Literal[
    "weight",
    "ground",
    "time",
    "day",
    "place",
    "amount",
    "label",
    "price",
    "weather",
    "batch",
    "history",
    "family",
    "figure",
]


@dataclass(frozen=True, slots=True)
class Note:
    """One reason: `subject` names what is blank, `reason` says why in a few words.

    `lack` is what the diary does not tell; `year` is None where the year itself is not certain.
    """

    study: str
    lack: Lack
    subject: str
    reason: str
    year: int | None = None

    def __str__(self) -> str:
        """As a person would say it: `kale from Weir bed: 3 pickings not weighed`."""
        return f"{self.subject}: {self.reason}" if self.subject else self.reason


def crop_words(crop: str, cultivar: str = "", place: str = "") -> str:
    """A crop as a gardener writes it: `potato 'Charlotte' from North 3`."""
    words = crop or "several crops together"
    if cultivar:
        words += f" '{cultivar}'"
    return f"{words} from {place}" if place else words


def counted(count: int, one: str, many: str = "") -> str:
    """A number with its noun: `1 row`, `3 rows`; `many` where the plural is no plain one."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"
