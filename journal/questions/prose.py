"""What was written: the paragraphs and entries that hold all the words of a search."""

import re
from dataclasses import dataclass

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, record_words, surely_in
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import Period, both, day_words, stretch_words
from journal.questions.saying import ago, times
from journal.reference.crops import plural

_SMALL = frozenset(
    "the a an my our of on about any anything in with and to for some that this there is was "
    "were be being".split()
)
_IS_NOUN = re.compile(
    r"notes?|records?|mention|noted|recorded|mentioned|(?:any|some|every)thing|nothing|much|a word"
    r"|(?:in|from) (?:the|my) |the ",
    re.IGNORECASE,
)
_LEAST_OWNER = 3
_HEADS = ("what", "when", "where", "how_often", "how_many", "which")


@dataclass(frozen=True, slots=True)
class _Search:
    """The words that a place must hold, each in any of its forms, and how they were said."""

    said: str
    forms: tuple[frozenset[str], ...]

    def finds(self, text: str) -> bool:
        """Whether a text holds all the words."""
        words = set(_words(text))
        return all(words & forms for forms in self.forms)


def answer_prose(asked: Asked) -> Answer:
    """`what did I write about blackfly`: the words after the verb are searched for."""
    prose = asked.need("prose")
    if prose.start == asked.parts[0].start and not _IS_NOUN.match(asked.words(prose)):
        # `write me a poem` is an order, `notes on slugs` asks for them
        raise RefusedError("the diary is only read; ask what was written about something")
    head = _before(asked, prose.start)
    search, period = _after(asked, prose.end)
    places = _places(asked, search, period)
    said = f" {period.said}" if period else ""
    if places.empty:
        return nothing(f"Nothing is written of `{search.said}`{said}; {record_words(asked.diary)}.")
    order = places.sort_values(["date", "file", "line"], na_position="last", kind="stable")
    return Answer(
        True,
        f"You wrote of {search.said} {times(len(order))}{said}{_days(asked, order)}.",
        value=len(order) if head == "how_often" else None,
        date=day(order["date"].iloc[0])
        if len(order) == 1 and order["date"].notna().all()
        else None,
        date_end=day(order["date_end"].iloc[0])
        if len(order) == 1 and order["date"].notna().all()
        else None,
        rows=tuple(
            {"date": row["date"], "date_end": row["date_end"], "text": row["text"]}
            for row in order.to_dict("records")
        ),
        evidence=tuple(line for lines in order["evidence"] for line in lines),
    )


def _before(asked: Asked, start: int) -> str:
    """What stands before the verb may only ask for what was written, or when or how often."""
    head = ""
    for part in [each for each in asked.left if each.start < start]:
        if part.kind == "head" and part.name in _HEADS and not head:
            head = part.name
        elif part.kind not in ("aux", "self", "state") and part.name != "entries":
            raise RefusedError(f"I cannot read `{asked.words(part)}` before what to search for")
    return head


def _after(asked: Asked, end: int) -> tuple[_Search, Period | None]:
    """The words searched for, and the period that the question ends with."""
    parts = [part for part in asked.left if part.start >= end]
    period: Period | None = None
    last = len(asked.text)
    while parts and parts[-1].kind == "period":
        found = parts.pop()
        assert found.period is not None
        last = found.start
        period = found.period if period is None else both(period, found.period)
    said = asked.text[end:last].strip(" ?.!,'\"")
    said = re.sub(r"\s+(?:lately|recently|anywhere|at all|before|yet|ever)$", "", said)
    words = [word for word in _words(said) if word not in _SMALL]
    if not words:
        raise NotThisKindError
    said = re.sub(rf"^(?:(?:{'|'.join(_SMALL)})\s+)+", "", said, flags=re.IGNORECASE)
    return _Search(said, tuple(_forms(word) for word in words)), period


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W_]+(?:'[^\W_]+)?", text.lower().replace("’", "'"))


def _forms(word: str) -> frozenset[str]:
    """A word with its singular and plural: `heron`, `herons`."""
    forms = {word, plural(word), f"{word}'s"}
    if word.endswith("s") and len(word) > _LEAST_OWNER:
        # `tams grandmother`, typed without the apostrophe
        forms.add(f"{word[:-1]}'s")
    for ending, instead in (("ies", "y"), ("es", ""), ("s", "")):
        if word.endswith(ending) and len(word) > len(ending) + 2:
            forms.add(word.removesuffix(ending) + instead)
    return frozenset(forms)


def _places(asked: Asked, search: _Search, period: Period | None) -> pd.DataFrame:
    """The paragraphs and the entries of a period that hold the words."""
    diary = asked.diary
    prose = surely_in(diary.prose, period)
    found = [
        {
            "date": row["date"],
            "date_end": row["date_end"],
            "file": row["file"],
            "line": row["line"],
            "text": row["text"],
            "evidence": _lines(asked, str(row["file"]), int(row["line"]), str(row["text"]), search),
        }
        for row in prose.to_dict("records")
        if search.finds(row["text"])
    ]
    events = surely_in(diary.events[diary.events["kind"] != "sheet"], period)
    # few of its many columns, for rows that may be as many as the diary has lines
    lines = events[["date", "date_end", "file", "line", "remark"]]
    for row in lines.drop_duplicates(["file", "line"]).to_dict("records"):
        file, line = str(row["file"]), int(row["line"])
        text = diary.line(file, line)
        if search.finds(f"{text} {row['remark']}"):
            found.append(
                {name: row[name] for name in ("date", "date_end", "file", "line")}
                | {"text": text, "evidence": (Evidence(file, line, text),)}
            )
    return pd.DataFrame(found, columns=["date", "date_end", "file", "line", "text", "evidence"])


def _lines(asked: Asked, file: str, line: int, text: str, search: _Search) -> tuple[Evidence, ...]:
    """The lines of a paragraph that hold one of the words, else its first."""
    count = text.count("\n") + 1
    lines = [Evidence(file, at, asked.diary.line(file, at)) for at in range(line, line + count)]
    kept = [each for each in lines if any(set(_words(each.text)) & f for f in search.forms)]
    return tuple(kept or lines[:1])


def _days(asked: Asked, order: pd.DataFrame) -> str:
    known = order[order["date"].notna()]
    if known.empty:
        return ""
    last = known.iloc[-1]
    first = known.iloc[0]
    if len(known) == 1:
        return f", {_one(first)}, {ago(day(first['date']), asked.clock.today)}"
    return f", first {_one(first)} and last {_one(last)}"


def _one(row: "pd.Series[pd.Timestamp]") -> str:
    first, last = day(row["date"]), day(row["date_end"])
    if first == last:
        return f"on {day_words(first, weekday=True)}"
    return f"some day from {stretch_words(first, last)}"
