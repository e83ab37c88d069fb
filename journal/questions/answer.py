"""A question in plain words to its answer, or to a refusal that says what it could not read."""

from collections.abc import Callable
from weakref import WeakKeyDictionary

from lark.exceptions import UnexpectedInput

from journal.diary import Diary
from journal.questions.ages import answer_age, answer_life
from journal.questions.amounts import answer_amount
from journal.questions.asked import Asked, Leftover, NotThisKind, Refused
from journal.questions.between import answer_between, answer_without
from journal.questions.compare import answer_compare
from journal.questions.counts import answer_alive, answer_came_up, answer_in_store
from journal.questions.days import answer_days
from journal.questions.heaps import answer_bay, answer_heat, answer_tank
from journal.questions.how_long import answer_how_long
from journal.questions.how_often import answer_how_often
from journal.questions.lexer import Tokens, question_parser, tokens
from journal.questions.listing import answer_list
from journal.questions.model import Answer, Evidence
from journal.questions.money import answer_money, answer_worth
from journal.questions.names import Names, question_names
from journal.questions.outlook import (
    answer_due,
    answer_forgotten,
    answer_ready,
    answer_safe,
    answer_too_late,
    answer_usual,
)
from journal.questions.parts import Part, parts_of
from journal.questions.periods import Clock, NoPeriod
from journal.questions.prose import answer_prose
from journal.questions.weather import answer_weather
from journal.questions.when import answer_when
from journal.questions.where import answer_what_stood, answer_where_done, answer_where_stood
from journal.questions.which import answer_which
from journal.questions.yes_no import answer_yes_no

__all__ = ["Answer", "Evidence", "ask"]

KINDS: tuple[Callable[[Asked], Answer], ...] = (
    answer_prose,
    answer_too_late,
    answer_safe,
    answer_due,
    answer_forgotten,
    answer_ready,
    answer_usual,
    answer_compare,
    answer_bay,
    answer_heat,
    answer_tank,
    answer_weather,
    answer_money,
    answer_worth,
    answer_in_store,
    answer_came_up,
    answer_alive,
    answer_which,
    answer_how_often,
    answer_when,
    answer_without,
    answer_between,
    answer_life,
    answer_age,
    answer_how_long,
    answer_amount,
    answer_list,
    answer_days,
    answer_where_done,
    answer_where_stood,
    answer_what_stood,
    answer_yes_no,
)

_NAMES: WeakKeyDictionary[Diary, Names] = WeakKeyDictionary()


def names_of(diary: Diary) -> Names:
    """The names of a diary, gathered once."""
    if diary not in _NAMES:
        _NAMES[diary] = question_names(diary)
    return _NAMES[diary]


def ask(diary: Diary, text: str) -> Answer:
    """The answer to a question, with its evidence; `understood` is false for a refusal."""
    names = names_of(diary)
    plot = diary.plot
    clock = Clock(diary.today, (plot.latitude or 0) < 0, plot.month_first)
    found = tokens(text, names)
    try:
        parts = read_parts(found, clock)
    except UnexpectedInput as stop:
        return Answer(False, f"I cannot read {stop}")
    except NoPeriod as stop:
        return Answer(False, f"{stop}")
    unread = [part for part in parts if part.kind == "unread"]
    if unread and not any(part.kind == "prose" for part in parts):
        return Answer(False, f"I cannot read {[found.text[p.start : p.end] for p in unread]}")
    return _first_answer(diary, names, clock, found, parts)


def read_parts(found: Tokens, clock: Clock) -> tuple[Part, ...]:
    tree = question_parser().parse(found.tokens)  # type: ignore[arg-type]
    return tuple(parts_of(tree, found, clock))


def _first_answer(
    diary: Diary, names: Names, clock: Clock, found: Tokens, parts: tuple[Part, ...]
) -> Answer:
    for kind in KINDS:
        asked = Asked(diary, names, clock, found.text, parts)
        try:
            return kind(asked)
        except NotThisKind:
            continue
        except Leftover as over:
            print("   left over", kind.__name__, [asked.words(p) for p in over.parts])
            continue
        except Refused as why:
            return Answer(False, str(why))
    return Answer(False, "not a kind")
