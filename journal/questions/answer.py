"""A question in plain words to its answer, or to a refusal that says what it could not read."""

from dataclasses import replace
from weakref import WeakKeyDictionary

from lark.exceptions import UnexpectedInput

from journal.diary import Diary
from journal.questions.asked import Asked, LeftoverError, NotThisKindError, RefusedError
from journal.questions.kinds import KINDS
from journal.questions.lexer import Tokens, question_parser, tokens
from journal.questions.model import Answer, Evidence
from journal.questions.names import Names, question_names
from journal.questions.parts import Part, parts_of
from journal.questions.periods import Clock, NoPeriodError
from journal.questions.refusal import left_over, offers, refuse, unread_words
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
    if not found.tokens:
        return refuse("There is no question to read.", offers(diary, (), names))
    try:
        parts = read_parts(found, clock)
    except UnexpectedInput as stop:
        return refuse(_stopped(found, stop), offers(diary, (), names))
    except NoPeriodError as stop:
        return refuse(f"{capital(str(stop))}.", offers(diary, (), names))
    prose = any(part.kind == "prose" for part in parts)
    if not prose and any(part.kind == "unread" for part in parts):
        return refuse(unread_words(found, parts, names), offers(diary, parts, names))
    return _first_answer(Asked(diary, names, clock, found.text, parts), found)


def read_parts(found: Tokens, clock: Clock) -> tuple[Part, ...]:
    """The parts; UnexpectedInput where a phrase breaks off, NoPeriodError for no such days."""
    tree = question_parser().parse(found.tokens)
    return tuple(parts_of(tree, found, clock))


def _stopped(found: Tokens, stop: UnexpectedInput) -> str:
    """The phrase that breaks off, named by the word after it, or by the last one."""
    at = getattr(getattr(stop, "token", None), "start_pos", None)
    later = [token for token in found.tokens if at is not None and token.start_pos == at]
    token = later[0] if later else found.tokens[-1]
    return f"I cannot read on at `{found.text[token.start_pos : token.end_pos]}`."


def _first_answer(question: Asked, found: Tokens) -> Answer:
    """The first kind that uses every part; else a refusal by the kind that came nearest."""
    nearest: LeftoverError | None = None
    for kind in KINDS:
        asked = replace(question, used=set(), joint_lent=False)
        try:
            return kind(asked)
        except NotThisKindError:
            continue
        except LeftoverError as over:
            if nearest is None or len(over.parts) < len(nearest.parts):
                nearest = over
        except (RefusedError, NoPeriodError) as why:
            return refuse(f"{capital(str(why))}.", _offers(question))
    if nearest is not None:
        return refuse(left_over(found, nearest.parts), _offers(question))
    return refuse("I cannot tell what that asks of the diary.", _offers(question))


def _offers(question: Asked) -> list[str]:
    return offers(question.diary, question.parts, question.names)
