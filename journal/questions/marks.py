"""The marks that cultivars were given: which got full marks, what a cultivar scored."""

import re
from typing import Any

import pandas as pd

from journal.questions.acting import done_events
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import dated, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, crop_said, figure, listed
from journal.questions.spans import span_of, take_period
from journal.questions.topic import take_topic

_COLUMNS = ["date", "crop", "cultivar", "score", "remark"]


def answer_marks(asked: Asked) -> Answer:
    """`which tomatoes got full marks last year`, `what score did I give Sungold`."""
    marks = asked.take("noun", "marks")
    rated = asked.take("act", "rate")
    if marks is None and rated is None:
        raise NotThisKindError
    if asked.take("head", "what", "which", "how_well", "how", "how_many", "how_much") is None:
        raise NotThisKindError
    full = marks is not None and asked.words(marks).lower().startswith("full")
    best = asked.take("superlative", "best", "most", "worst", "least")
    asked.take("noun", "varieties", "crops", "plants", "marks")
    asked.pass_over("did", "was", "have", "get", "is", "do")
    asked.take("act", "give")
    asked.take_all("preposition", "to", "for", "out")
    topic = take_topic(asked)
    period = take_period(asked)
    asked.done()
    events = done_events(asked.diary)
    events = topic.rows(events[(events["kind"] == "verdict") & events["score"].notna()])
    span = span_of(dated(events), period)
    rows = span.rows
    if full:
        rows = rows[rows["score"] == 1]
    if rows.empty:
        of = f" to {topic.said}" if topic.said else ""
        which = "full marks" if full else "marks"
        return nothing(f"No {which} are written{of}{span.said}; {record_words(asked.diary)}.")
    if best is not None:
        least = best.name in ("worst", "least")
        edge = rows["score"].min() if least else rows["score"].max()
        rows = rows[rows["score"] == edge]
    return _answer(asked, rows, span.said, span.doubts)


def _answer(asked: Asked, rows: pd.DataFrame, said: str, doubts: tuple[str, ...]) -> Answer:
    order = rows.sort_values(["date", "event"], ascending=[False, True])
    years = rows["date"].dt.year.nunique() > 1
    words = [_mark(asked, row, years=years) for row in order.to_dict("records")]
    one = len(order) == 1
    return Answer(
        True,
        capital(f"{listed(words, most=12)}{said}."),
        value=float(order["score"].iloc[0]) if one else None,
        rows=table_rows(order[_COLUMNS]),
        evidence=evidence_of(asked.diary, order),
        caveats=doubts,
    )


def _mark(asked: Asked, row: dict[Any, Any], *, years: bool) -> str:
    name = f"'{row['cultivar']}' {crop_said(row['crop'])}" if row["cultivar"] else row["crop"]
    remark = re.sub(r"\s+", " ", str(row["remark"] or "")).strip("() ")
    when = f" in {row['date'].year}" if years else ""
    note = f" ({remark})" if remark else ""
    return f"{name} got {_as_written(asked, row)}{when}{note}"


def _as_written(asked: Asked, row: dict[Any, Any]) -> str:
    """`4/5` as the line has it, else the score in per cent."""
    line = asked.diary.line(str(row["file"]), int(row["line"]))
    found = re.findall(r"\b(\d+(?:\.\d+)?/\d+)\b", line)
    return found[0] if len(found) == 1 else f"{figure(100 * float(row['score']), 0)} %"
