"""Every pattern of the package, and texts that are the worst for it: runs of its own pieces."""

import re
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from re import _constants as ops  # type: ignore[attr-defined]
from re import _parser as parser  # type: ignore[attr-defined]
from typing import Any

from journal.questions.lexer import question_parser
from journal.reference.units import unit_table
from journal.syntax.build import Build
from journal.syntax.build_weather import BuildWeather
from journal.syntax.grammar import build_parser

PACKAGE = Path(__file__).parent.parent.parent / "journal"
MOST_PIECES = 10
# members of each class of characters, the ASCII one first
_OF_CLASS = {
    "CATEGORY_DIGIT": "7",
    "CATEGORY_NOT_DIGIT": "a",
    "CATEGORY_SPACE": " ",
    "CATEGORY_NOT_SPACE": "a",
    "CATEGORY_WORD": "a",
    "CATEGORY_NOT_WORD": "-",
}


def package_patterns() -> Iterator[tuple[str, re.Pattern[str]]]:
    """Every compiled pattern that a module of the package holds, with its module and name."""
    for file in sorted(PACKAGE.rglob("*.py")):
        if file.name == "__main__.py":
            continue
        name = ".".join(file.relative_to(PACKAGE.parent).with_suffix("").parts)
        module = import_module(name.removesuffix(".__init__"))
        for key, value in vars(module).items():
            yield from ((f"{name}.{key}", found) for found in _patterns_in(value))


def _patterns_in(value: object) -> Iterator[re.Pattern[str]]:
    if isinstance(value, re.Pattern) and isinstance(value.pattern, str):
        yield value
    elif isinstance(value, dict):
        for inner in (*value, *value.values()):
            yield from _patterns_in(inner)
    elif isinstance(value, tuple | list):
        for inner in value:
            yield from _patterns_in(inner)


def terminals() -> Iterator[tuple[str, re.Pattern[str]]]:
    """Every terminal of every grammar, as its lexer has it."""
    units = frozenset(unit_table())
    made = {
        "diary": build_parser("diary.lark", "entry", units, Build()),
        "weather": build_parser("weather.lark", "weather", units, BuildWeather()),
        "question": question_parser(),
    }
    for grammar, lark in made.items():
        for terminal in lark.terminals:
            flags = re.IGNORECASE if "i" in terminal.pattern.flags else 0
            yield f"{grammar}.{terminal.name}", re.compile(terminal.pattern.to_regexp(), flags)


def pieces(pattern: re.Pattern[str]) -> list[str]:
    """Characters and words that the pattern is made of, a few of each."""
    found: dict[str, None] = {}
    for piece in _pieces(parser.parse(pattern.pattern, pattern.flags & ~re.DEBUG)):
        found.setdefault(piece)
    # what is short repeats most often; a blank and a letter stand for what may be between
    ordered = sorted({**found, " ": None, "a": None}, key=len)
    return ordered[: MOST_PIECES - 2] + ordered[len(ordered) - 2 :]


def _pieces(parsed: Any) -> Iterator[str]:
    word = ""
    for op, argument in parsed:
        if op is ops.LITERAL:
            word += chr(argument)
            continue
        if word:
            yield word
        word = ""
        yield from _of(op, argument)
    if word:
        yield word


def _of(op: Any, argument: Any) -> Iterator[str]:
    if op is ops.IN:
        yield from _members(argument)
    elif op is ops.BRANCH:
        for branch in argument[1]:
            yield from _pieces(branch)
    elif op in {ops.MAX_REPEAT, ops.MIN_REPEAT, ops.POSSESSIVE_REPEAT}:
        yield from _pieces(argument[2])
    elif op is ops.SUBPATTERN:
        yield from _pieces(argument[3])
    elif op in {ops.ASSERT, ops.ASSERT_NOT}:
        yield from _pieces(argument[1])
    elif op in {ops.ANY, ops.NOT_LITERAL}:
        yield "a"


def _members(items: list[Any]) -> Iterator[str]:
    if items[0][0] is ops.NEGATE:
        yield "a"
        return
    for op, argument in items:
        if op is ops.LITERAL:
            yield chr(argument)
        elif op is ops.RANGE:
            yield chr(argument[0])
        elif op is ops.CATEGORY:
            yield _OF_CLASS[str(argument).removeprefix("UNI_")]


def worst_texts(pattern: re.Pattern[str], length: int) -> Iterator[str]:
    """Runs of each piece, of each two by turns, and those behind each piece; none quite a match."""
    made = pieces(pattern)
    for first in made:
        yield first * (length // len(first)) + "\0"
        for second in made:
            if first != second:
                pair = first + second
                yield pair * (length // len(pair)) + "\0"
                yield first + second * (length // len(second)) + "\0"
