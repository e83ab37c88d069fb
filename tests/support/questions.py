"""The question corpora: their files, and an answer in a few words for comparing."""

from dataclasses import dataclass
from pathlib import Path

from journal.questions.answer import Answer

FOLDER = Path(__file__).parent.parent / "questions"
_LABELS = ("cultivar", "place", "year", "month", "day", "work", "crop", "party", "side", "date")


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a corpus: what kind of question, what it means, as asked, and its answer."""

    kind: str
    meaning: str
    question: str
    answer: str


def read_corpus(name: str) -> list[Row]:
    """The rows of a corpus; a line of another shape is an error."""
    lines = (FOLDER / name).read_text(encoding="utf-8").splitlines()
    assert lines[0].split("\t") == ["kind", "meaning", "question", "answer"]
    return [Row(*line.split("\t")) for line in lines[1:]]


def gist(answer: Answer, kind: str = "") -> str:
    """What an answer comes to: its figure, its days, or the names in its rows."""
    if not answer.understood:
        return "refused"
    if not answer.found:
        return "nothing"
    parts = [*_value(answer), *_days(answer)]
    if kind.startswith("which") and not _days(answer) and answer.rows:
        parts.append(_label(answer.rows[0]))
    return " on ".join(parts[:2]) if parts else _names(answer)


def _value(answer: Answer) -> list[str]:
    value = answer.value
    if isinstance(value, bool):
        return ["yes" if value else "no"]
    if value is None:
        return []
    return [value if isinstance(value, str) else amount(value, answer.unit)]


def amount(value: float, unit: str | None = None) -> str:
    """A figure to six digits with its unit."""
    return f"{value:.6g} {unit or ''}".strip()


def _days(answer: Answer) -> list[str]:
    if answer.date is None:
        return []
    if answer.date == answer.date_end:
        return [answer.date.isoformat()]
    return [f"{answer.date.isoformat()}..{answer.date_end}"]


def _label(row: dict[str, object]) -> str:
    return next(str(row[name]) for name in _LABELS if row.get(name))


def _names(answer: Answer) -> str:
    """Money by currency, what is left, the crops of the rows, their places, or how many."""
    first = answer.rows[0] if answer.rows else {}
    if "currency" in first and {"spent", "earned"} & set(first):
        return _money(answer)
    if "left_low" in first:
        return ", ".join(f"{r['crop']} {r['left_low']:g}..{r['left_high']:g}" for r in answer.rows)
    for name in ("crop", "place"):
        found = sorted({str(row[name]) for row in answer.rows if row.get(name)})
        if found:
            return ", ".join(found)
    return f"{len(answer.rows)} rows"


def _money(answer: Answer) -> str:
    column = "spent" if "spent" in answer.rows[0] else "earned"
    totals: dict[str, float] = {}
    for row in answer.rows:
        totals[str(row["currency"])] = totals.get(str(row["currency"]), 0.0) + float(row[column])
    return ", ".join(amount(round(totals[name], 2), name) for name in sorted(totals))
