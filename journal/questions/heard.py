"""The parts of a question that could not be answered to what was understood of it all the same."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, cast

import pandas as pd
from lark import Token
from lark.exceptions import UnexpectedInput

from journal.diary import Diary
from journal.questions.acting import done_events
from journal.questions.acts import ACTS, SAME_ACT
from journal.questions.asked import Asked, LeftoverError, NotThisKindError, RefusedError
from journal.questions.kinds import KINDS
from journal.questions.lexer import Tokens, tokens
from journal.questions.names import Names, Sense
from journal.questions.parts import Part
from journal.questions.periods import Clock, NoPeriodError, Period
from journal.questions.read import read_parts
from journal.questions.saying import crop_said, is_one
from journal.questions.spans import span_of
from journal.studies.once import once_a_diary

_MOST_PASSED = 4
# no act of work in the garden, or one of which nothing can be asked by itself
_NO_ACTS = ("happen", "plan", "order", "pot")


class _ReadError(Exception):
    """A kind has taken every part and turns to the diary: the question is understood."""


class _ClosedDiary:
    """Stands for a diary when a question has been read; looking into it ends the trial."""

    def __getattr__(self, name: str) -> Any:
        raise _ReadError


class _DryAsked(Asked):
    def done(self) -> None:
        super().done()
        # what a kind still refuses without the diary is refused here too
        self.diary = cast(Diary, _ClosedDiary())


@dataclass(frozen=True, slots=True)
class Name:
    """Something that was named: how it is said, its events, and whether it is spoken of as one."""

    kind: str
    said: str
    rows: pd.DataFrame
    one: bool = True
    crop: str = ""

    @property
    def was(self) -> str:
        """`was` or `were`."""
        return "was" if self.one else "were"


@dataclass(frozen=True, slots=True)
class Heard:
    """What was understood of a question; `words` holds its other words by their kind of part."""

    diary: Diary
    named: tuple[Name, ...]
    acts: tuple[str, ...]
    words: frozenset[tuple[str, str]]
    head: str
    period: Period | None
    days: str
    unread: tuple[str, ...]

    def has(self, kind: str, *names: str) -> bool:
        """Whether it holds such a part, by one of these words."""
        return any(kind == each and (not names or name in names) for each, name in self.words)

    def of_kind(self, *kinds: str) -> list[Name]:
        """The names of these kinds."""
        return [name for name in self.named if name.kind in kinds]

    def when(self, rows: pd.DataFrame, *, strict: bool = False) -> tuple[str, bool]:
        """` last year` where that was asked and rows lie in it; else ` in` their latest year.

        The latest is that before today's, where there is one; and whether it was asked for.
        `strict` takes no month of the year before for one that has only begun.
        """
        if self.period is not None and self.days:
            asked = replace(self.period, before=None) if strict else self.period
            if len(span_of(rows, asked).rows):
                return f" {self.days}", True
        years = rows["date"].dt.year.dropna()
        before = years[years < self.diary.today.year]
        if years.empty:
            return "", False
        return f" in {int(before.max() if len(before) else years.max())}", False


def readable_parts(found: Tokens, clock: Clock) -> tuple[Part, ...]:
    """The parts of what can be read, without the phrases that break off or name no days."""
    left = list(found.tokens)
    for _ in range(_MOST_PASSED):
        try:
            return read_parts(replace(found, tokens=left), clock)
        except UnexpectedInput as stop:
            left = _without(left, getattr(getattr(stop, "token", None), "start_pos", None))
        except NoPeriodError:
            left = [each for each in left if each.type not in _DAYS]
    return ()


_DAYS = ("YEAR", "OF_YEAR", "SPAN", "MONTH", "SEASON", "PART_OF", "NUMBER", "ORDINAL", "BETWEEN")


def _without(left: list[Token], start: int | None) -> list[Token]:
    kept = [token for token in left if token.start_pos != start]
    return kept if len(kept) < len(left) else left[:-1]


def is_read(diary: Diary, names: Names, clock: Clock, text: str) -> bool:
    """Whether a question is understood, every word of it; no answer is worked out."""
    return left_of(diary, names, clock, tokens(text, names)) == ()


def left_of(diary: Diary, names: Names, clock: Clock, found: Tokens) -> tuple[Part, ...] | None:
    """What no kind of question takes: nothing where it is read, None where it is past reading."""
    try:
        parts = read_parts(found, clock)
    except (UnexpectedInput, NoPeriodError):
        return None
    if found.corrections:
        return None
    prose = any(part.kind == "prose" for part in parts)
    unread = tuple(part for part in parts if part.kind == "unread")
    if unread and not prose:
        return unread
    return _left_by_kinds(_DryAsked(diary, names, clock, found.text, parts))


def _left_by_kinds(question: Asked) -> tuple[Part, ...] | None:
    nearest: tuple[Part, ...] | None = None
    for kind in KINDS:
        try:
            kind(replace(question, used=set(), joint_lent=False))
        except NotThisKindError:
            continue
        except LeftoverError as over:
            if nearest is None or len(over.parts) < len(nearest):
                nearest = over.parts
        except (RefusedError, NoPeriodError):
            return None
        except _ReadError:
            return ()
        else:
            return ()
    return nearest


def heard(diary: Diary, found: Tokens, parts: Sequence[Part], names: Names) -> Heard:
    """What the parts say: names of this diary that it has events of, acts, days, and the rest."""
    periods = [part for part in parts if part.kind == "period" and part.period]
    asked = periods[0] if len(periods) == 1 else None
    period = asked.period if asked and asked.period and not asked.period.ahead else None
    acts = [SAME_ACT.get(part.name, part.name) for part in parts if part.kind == "act"]
    return Heard(
        diary,
        tuple(_names(diary, found, parts, names)),
        tuple(act for act in dict.fromkeys(acts) if act in ACTS and act not in _NO_ACTS),
        frozenset((part.kind, part.name) for part in parts),
        next((part.name for part in parts if part.kind == "head"), ""),
        period,
        _days(found.text[asked.start : asked.end], period) if asked and period else "",
        tuple(found.text[part.start : part.end] for part in parts if part.kind == "unread"),
    )


# an edge like `after March` is not put into another sentence
_AS_TYPED = re.compile(r"(?:in|on|during|over|last|this|since|between|yesterday|today)\b", re.I)
_FROM_SAID = re.compile(r"(?:so far )?((?:in|on) .*)")


def _days(typed: str, period: Period) -> str:
    """The days as they follow in another sentence: as typed, or with the `in` that they lack."""
    if _AS_TYPED.match(typed):
        return " ".join(typed.split())
    said = _FROM_SAID.fullmatch(period.said)
    return said[1] if said else ""


def _names(diary: Diary, found: Tokens, parts: Sequence[Part], names: Names) -> list[Name]:
    named = [name for part in parts if (name := _name(diary, found, part, names)) is not None]
    # `Oarsman leeks` names the leek once
    narrower = {name.crop for name in named if name.kind == "cultivar"}
    kept = [name for name in named if name.kind != "crop" or name.crop not in narrower]
    return list({name.said: name for name in kept}.values())


def _name(diary: Diary, found: Tokens, part: Part, names: Names) -> Name | None:
    """What a part names that the diary has dated events of, its likeliest meaning first."""
    done = asked_events(diary)
    for kind in _ORDER:
        senses = [sense for sense in part.senses if sense.kind == kind]
        if senses:
            name = _meant(done, senses, bare_name(found.text, part), names)
            if len(name.rows):
                return name
    return None


# a cultivar is meant before its crop, a crop before a bird of the same name
_ORDER = (
    "cultivar", "crop", "group", "narrow", "place", "places", "person", "material", "subject",
)  # fmt: skip


def _meant(done: pd.DataFrame, senses: Sequence[Sense], written: str, names: Names) -> Name:
    sense = senses[0]
    if sense.kind == "cultivar":
        rows = done[(done["crop"] == sense.crop) & (done["cultivar"] == sense.name)]
        said = f"{sense.name} {crop_said(sense.crop)}"
        return Name("cultivar", said, rows, is_one(sense.crop), sense.crop)
    if sense.kind in ("crop", "narrow", "group"):
        crops = names.members(sense.name) if sense.kind == "group" else (sense.name,)
        kind = "group" if sense.kind == "group" else "crop"
        rows = done[done["crop"].isin(crops)]
        return Name(kind, crop_said(sense.name), rows, is_one(sense.name), sense.name)
    if sense.kind in ("place", "places"):
        mine = (done["place"] == sense.name) | (done["place_from"] == sense.name)
        return Name("place", sense.name, done[mine])
    column = {"person": "party"}.get(sense.kind, sense.kind)
    said = sense.name if sense.kind == "person" else written.lower()
    rows = done[done[column].isin([each.name for each in senses])]
    return Name(sense.kind, said, rows, not said.endswith("s"))


# few columns, since so many small tables are cut from it
_COLUMNS = (
    "event", "date", "date_end", "spread", "kind", "verb", "crop", "cultivar", "place",
    "place_from", "party", "material", "subject", "count", "mass_kg", "volume_l", "minutes",
    "cost", "temperature_c",
)  # fmt: skip


@once_a_diary
def asked_events(diary: Diary) -> pd.DataFrame:
    """What happened on known days, in the columns that an offered question can turn on."""
    done = done_events(diary)
    kept: pd.DataFrame = done.loc[done["date"].notna(), list(_COLUMNS)]
    return kept


def bare_name(text: str, part: Part) -> str:
    """A named part as it was written, without the preposition and article before it."""
    words = text[part.start : part.end]
    if part.name:
        words = re.sub(r"^(?:out of|\w+)\s+", "", words, flags=re.IGNORECASE)
    return re.sub(r"^(?:the|my|our|a|an)\s+", "", words, flags=re.IGNORECASE)
