"""The tokens of a question to its parts; a phrase that breaks off or names no days is refused."""

from journal.questions.lexer import Tokens, question_parser
from journal.questions.parts import Part, parts_of
from journal.questions.periods import Clock
from journal.questions.smoothing import smoothed


def read_parts(found: Tokens, clock: Clock) -> tuple[Part, ...]:
    """The parts; UnexpectedInput where a phrase breaks off, NoPeriodError for no such days."""
    tree = question_parser().parse(found.tokens)
    return smoothed(parts_of(tree, found, clock), found.text)
