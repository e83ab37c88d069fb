"""The registry of codes: each kind of problem once, with a failing example and its cure."""

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
    """One kind of problem. `failing` is a diary that has it once, `cure` the same diary mended."""

    code: str
    name: str
    severity: Severity
    title: str
    explanation: str
    failing: str
    cure: str


def _registry(*codes: Code) -> dict[str, Code]:
    return {code.code: code for code in codes}


CODES: dict[str, Code] = _registry()
