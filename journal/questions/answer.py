"""A question in plain words to its answer, or to a refusal that says what it could not read."""

from dataclasses import replace
from weakref import WeakKeyDictionary

from lark.exceptions import UnexpectedInput

from journal.diary import Diary
from journal.questions.asked import Asked, LeftoverError, NotThisKindError, RefusedError
from journal.questions.care import with_cautions
from journal.questions.kinds import KINDS
from journal.questions.lexer import Tokens, tokens
from journal.questions.model import Answer, Evidence
from journal.questions.names import Names, question_names
from journal.questions.periods import Clock, NoPeriodError
from journal.questions.read import read_parts
from journal.questions.refusal import left_over, not_asked, offers, refuse, stopped, unread_words
from journal.questions.saying import capital

__all__ = ["Answer", "Evidence", "ask", "names_of"]

_NAMES: WeakKeyDictionary[Diary, Names] = WeakKeyDictionary()


def names_of(diary: Diary) -> Names:
    """The names of a diary, gathered once."""
    if diary not in _NAMES:
        _NAMES[diary] = question_names(diary)
    return _NAMES[diary]


def ask(diary: Diary, text: str) -> Answer:
    """The answer to a question, with its evidence; `understood` is false for a refusal.

    Every word of the question is accounted for, or the question is refused and the word named.
    """
    names = names_of(diary)
    found = tokens(text, names)
    answer = _answer(diary, names, found)
    said = tuple(f"reading '{each.written}' as '{each.name}'" for each in found.corrections)
    return replace(answer, caveats=said + answer.caveats) if said else answer


def _answer(diary: Diary, names: Names, found: Tokens) -> Answer:
    clock = Clock(diary.today, (diary.plot.latitude or 0) < 0, diary.plot.month_first)
    answer = _read_answer(diary, names, clock, found)
    if isinstance(answer, str):
        return refuse(answer, offers(diary, names, clock, found))
    return answer


def _read_answer(diary: Diary, names: Names, clock: Clock, found: Tokens) -> Answer | str:
    """The answer, or the sentence that says why there is none."""
    if not found.tokens:
        return "There is no question to read."
    try:
        parts = read_parts(found, clock)
    except UnexpectedInput as stop:
        return stopped(found, getattr(getattr(stop, "token", None), "start_pos", None))
    except NoPeriodError as stop:
        return f"{capital(str(stop))}."
    prose = any(part.kind == "prose" for part in parts)
    if not prose and any(part.kind == "unread" for part in parts):
        return unread_words(found, parts, names)
    return _first_answer(Asked(diary, names, clock, found.text, parts), found)


def _first_answer(question: Asked, found: Tokens) -> Answer | str:
    """The first kind that uses every part; else a refusal by the kind that came nearest."""
    nearest: LeftoverError | None = None
    for kind in KINDS:
        asked = replace(question, used=set(), joint_lent=False)
        try:
            return with_cautions(asked, kind(asked))
        except NotThisKindError:
            continue
        except LeftoverError as over:
            if nearest is None or len(over.parts) < len(nearest.parts):
                nearest = over
        except (RefusedError, NoPeriodError) as why:
            return f"{capital(str(why))}."
    if nearest is not None:
        return left_over(found, nearest.parts)
    return not_asked(found, question.parts)
