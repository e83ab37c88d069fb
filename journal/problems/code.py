"""What a code is: one kind of problem, its words, a failing example and its cure."""

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a problem costs the tables.

    error: an entry, or a part of it, is not in the tables; warning: it is there and probably not
    what was meant; hint: it is there and right as far as can be known, worth a look.
    """

    ERROR = "error"
    WARNING = "warning"
    HINT = "hint"


@dataclass(frozen=True, slots=True)
class Code:
    """One kind of problem.

    `message` and `mend` are its words, with places for what was written; `failing` is a diary that
    has it once, `cure` the same diary mended.
    """

    code: str
    name: str
    severity: Severity
    title: str
    message: str
    mend: str
    explanation: str
    failing: str
    cure: str
