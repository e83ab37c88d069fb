"""What a question comes to: an `Answer` with the diary lines that it rests on."""

import datetime as dt
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import pandas as pd


@dataclass(frozen=True, slots=True)
class Evidence:
    """A line of the diary that an answer rests on, as written; `line` counts from 1."""

    file: str
    line: int
    text: str


@dataclass(frozen=True, slots=True)
class Answer:
    """One sentence, the figures behind it, and the diary lines that both rest on.

    `unit` is kg, l, m, m2, mm, C, min, h, days, years or a currency code. `understood` is false
    for a refusal; an answer without `found` was understood, and the diary holds nothing on it.
    """

    understood: bool
    answer: str
    value: float | int | str | bool | None = None
    unit: str | None = None
    date: dt.date | None = None
    date_end: dt.date | None = None
    rows: tuple[dict[str, Any], ...] = ()
    evidence: tuple[Evidence, ...] = ()
    caveats: tuple[str, ...] = ()
    found: bool = True

    def to_json(self) -> str:
        """The answer for programs: one JSON object, days as ISO 8601."""
        fields = {
            "understood": self.understood,
            "answer": self.answer,
            "value": self.value,
            "unit": self.unit,
            "date": self.date.isoformat() if self.date else None,
            "date_end": self.date_end.isoformat() if self.date_end else None,
            "rows": [{key: plain(cell) for key, cell in row.items()} for row in self.rows],
            "evidence": [
                {"file": line.file, "line": line.line, "text": line.text} for line in self.evidence
            ],
            "caveats": list(self.caveats),
        }
        return json.dumps(fields, ensure_ascii=False)


def plain(cell: Any) -> Any:
    """A cell of a frame as JSON has it: a day as ISO 8601, a missing one as null."""
    if isinstance(cell, (str, bool)) or cell is None:
        return cell
    if pd.isna(cell):
        return None
    if isinstance(cell, (pd.Timestamp, dt.date)):
        return cell.strftime("%Y-%m-%d")
    return cell.item() if hasattr(cell, "item") else cell


def nothing(sentence: str, caveats: Sequence[str] = ()) -> Answer:
    """Understood, and the diary holds nothing on it."""
    return Answer(True, sentence, caveats=tuple(caveats), found=False)
