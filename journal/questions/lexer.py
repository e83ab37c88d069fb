"""A question as tokens: the longest word of the grammar or name of the diary at each place.

A misspelt name is read as the one name that it is near, and said so; what is near to nothing stays
a WORD, which the grammar calls unread.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from lark import Lark, Token
from lark.lexer import Lexer

from journal.questions.names import Names, Sense, name_words
from journal.questions.typed import as_spelled
from journal.resources import grammar_folder

# token types that a terminal's first word gives: ACT_SOW is an ACT, `sow`
CLASSES = (
    "HEAD", "AUX", "ACT", "ORDER", "SUPERLATIVE", "COMPARE", "NOUN", "KIND", "STATE", "UNIT",
    "AHEAD", "SELF", "OF_YEAR", "SPAN",
)  # fmt: skip
_IGNORED = ("FILLER", "LEAD")
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_QUOTED = re.compile(r"(?<![\w])['‘\"“](?=\S)([^'‘’\"“”]+(?:['’]\w[^'‘’\"“”]*)*)['’\"”](?!\w)")
# words that are no slip for a name, however near (`best` is no beetroot, `leak` no leek)
NO_SLIPS = frozenset(
    "arrow barely basic basics basis beads beams bears beats berets brackets braille bushels "
    "carries charm chart cheaper cheery cheese chime circus cloves commits cores corms corns "
    "courts crosses cubes current daily dairy deeper defense defenses diary forecast funnel "
    "gaelic garbage grade graph grave heavier hotter later lattice leaks leans lecture "
    "lighter longer maize means medians minds mines minus narrow narrows parties peaks pearl "
    "peels peers plume poach preamble puppy racket radio rocked roofs rooms rotates shallow "
    "shift shifts ships shorter skips slips sockets specials storage straw straws studies "
    "sweden swish tallies theme thinks times tulips union vanishes variant variants years "
    "yells zombies".split()
)
# a shorter word is too near to too many names: `beer` is no beet
_LEAST_LETTERS = 5


class Ready(Lexer):
    """Hands on tokens that were made before."""

    def __init__(self, lexer_conf: object) -> None:
        """Needs nothing of lark's own lexer."""

    def lex(self, data: list[Token]) -> Iterator[Token]:  # type: ignore[override]
        """The tokens as they are."""
        return iter(data)


class _Kept:
    """Keeps the terminals that only stand for their class."""

    def __init__(self, text: str) -> None:
        pattern = rf"^((?:{'|'.join(CLASSES)})_\w+)(?:\.\d+)?:"
        self.always_accept = tuple(re.findall(pattern, text, re.MULTILINE))

    def process(self, stream: Iterator[Token]) -> Iterator[Token]:
        return stream


@cache
def question_parser() -> Lark:
    """The parser of `question.lark` and `question_words.lark`, over tokens of `tokens`."""
    text = _grammar_text()
    return Lark(text, parser="lalr", lexer=Ready, postlex=_Kept(text))


@cache
def _grammar_text() -> str:
    """The two files as one grammar: what stands first in them wins over what is as long."""
    files = ("question.lark", "question_words.lark")
    return "\n".join((grammar_folder() / name).read_text(encoding="utf-8") for name in files)


@dataclass(frozen=True, slots=True)
class Correction:
    """A name read for another spelling: `Charlote` as `Charlotte`."""

    written: str
    name: str


@dataclass
class Tokens:
    """The tokens of one question, what its names mean, and the slips that were read over.

    `senses` goes by where a token starts; `unsure` holds a word and the names that it is near.
    """

    text: str
    tokens: list[Token] = field(default_factory=list)
    senses: dict[int, list[Sense]] = field(default_factory=dict)
    corrections: list[Correction] = field(default_factory=list)
    unsure: list[tuple[str, list[str]]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Match:
    end: int
    kind: str
    senses: tuple[Sense, ...] = ()


@dataclass(frozen=True, slots=True)
class _Word:
    """One alternative of a terminal; of equally long matches the lowest rank wins."""

    rank: int
    kind: str
    source: str

    @property
    def pattern(self) -> "re.Pattern[str]":
        """Compiled when a question first has a word with its letter: a few of a thousand."""
        return _compiled(self.source)


@cache
def _compiled(source: str) -> "re.Pattern[str]":
    return re.compile(source, re.IGNORECASE)


@cache
def _vocabulary() -> dict[str, tuple[_Word, ...]]:
    """Every alternative of every terminal, by its first letters ("" where they may be any).

    One by one, so that the longest of them is found, not the first. Ranks go by the order of the
    grammar file, which lark does not keep.
    """
    rank = {name: at for at, name in enumerate(re.findall(r"^([A-Z_]+):", _grammar_text(), re.M))}
    found: dict[str, list[_Word]] = {}
    for terminal in question_parser().terminals:
        if terminal.name not in rank or terminal.name == "WORD":
            continue
        for alternative in _alternatives(str(terminal.pattern.to_regexp())):
            source = f"(?:{alternative})(?!\\w)"
            word = _Word(rank[terminal.name], terminal.name, source)
            found.setdefault(_begins_with(alternative), []).append(word)
    return {letter: tuple(words) for letter, words in found.items()}


def _begins_with(pattern: str) -> str:
    """The two letters that every match begins with, or the one; "" where there is none."""
    found = _LETTERS.match(pattern)
    assert found is not None
    return found[0].lower()


# a letter that may be left out is not one that a match begins with
_LETTERS = re.compile(r"(?:[A-Za-z](?![?*{])){0,2}")


def _alternatives(pattern: str) -> list[str]:
    """The pattern parted at each `|` that stands in no bracket."""
    found, depth, start = [], 0, 0
    for at, letter in enumerate(pattern):
        escaped = at > 0 and pattern[at - 1] == "\\"
        if letter in "([" and not escaped:
            depth += 1
        elif letter in ")]" and not escaped:
            depth -= 1
        elif letter == "|" and not depth and not escaped:
            found.append(pattern[start:at])
            start = at + 1
    return [*found, pattern[start:]]


def tokens(text: str, names: Names) -> Tokens:
    """The tokens of a question; punctuation is passed over."""
    plain = as_spelled(text, names.first_year, names.diary.today.year)
    found = Tokens(plain)
    words = [match.span() for match in _WORD.finditer(plain)]
    quoted = [match.span(1) for match in _QUOTED.finditer(plain)]
    at = 0
    while at < len(words):
        start = words[at][0]
        inside = any(first <= start < last for first, last in quoted)
        match = _longest(plain, words, at, names, inside)
        if match is None:
            match = _near(plain, words, at, names, found)
        at = _keep(found, words, at, match, start)
    return found


def _keep(
    found: Tokens, words: list[tuple[int, int]], at: int, match: "_Match | None", start: int
) -> int:
    """Adds the token and gives the word to go on with."""
    end = match.end if match else words[at][1]
    kind = match.kind if match else "WORD"
    if kind not in _IGNORED:
        found.tokens.append(_token(kind, found.text, start, end))
        if match and match.senses:
            found.senses[start] = list(match.senses)
    after = at + 1
    while after < len(words) and words[after][0] < end:
        after += 1
    return after


def _token(kind: str, text: str, start: int, end: int) -> Token:
    for name in CLASSES:
        if kind.startswith(name + "_"):
            word = kind.removeprefix(name + "_").lower()
            return Token(name, word, start_pos=start, end_pos=end)
    return Token(kind, text[start:end], start_pos=start, end_pos=end)


def _longest(
    text: str, words: list[tuple[int, int]], at: int, names: Names, quoted: bool
) -> _Match | None:
    named = _named(text, words, at, names)
    if quoted:
        return named
    best = _longest_word(text, words[at][0])
    if named is None or best is None:
        return named or best
    if named.end != best.end:
        return named if named.end > best.end else best
    return named if named.kind == "PLACE" else best


def _longest_word(text: str, start: int) -> _Match | None:
    """The longest word of the grammar that begins at `start`."""
    vocabulary = _vocabulary()
    best: tuple[int, int, str] | None = None
    first = text[start : start + 2].lower()
    for word in (each for key in (first, first[:1], "") for each in vocabulary.get(key, ())):
        match = word.pattern.match(text, start)
        if match and (best is None or (match.end(), -word.rank) > best[:2]):
            best = (match.end(), -word.rank, word.kind)
    return _Match(best[0], best[2]) if best else None


def _named(text: str, words: list[tuple[int, int]], at: int, names: Names) -> _Match | None:
    for count in range(min(names.longest, len(words) - at), 0, -1):
        spans = words[at : at + count]
        for own in _forms([text[first:last].lower() for first, last in spans]):
            if own in names.senses:
                senses = tuple(names.senses[own])
                return _Match(spans[-1][1], _name_kind(senses), senses)
    return None


def _forms(words: list[str]) -> Iterator[tuple[str, ...]]:
    """The words as names have them, and without the possessive of the last."""
    yield tuple(word.replace("'", "") for word in words)
    last = words[-1]
    if last.endswith("'s"):
        yield tuple(word.replace("'", "") for word in (*words[:-1], last[:-2]))


def _name_kind(senses: tuple[Sense, ...]) -> str:
    kinds = {sense.kind for sense in senses}
    if kinds & {"place", "places", "every"}:
        return "PLACE"
    if "person" in kinds:
        return "PERSON"
    return "MEASURE" if "measure" in kinds else "THING"


def _in_short(text: str, span: tuple[int, int], names: Names, found: Tokens) -> _Match | None:
    """A cultivar by one word of its name: `Sarpo` for `Sarpo Mira`, said aloud."""
    written = text[span[0] : span[1]]
    name, *others = names.by_one_word(" ".join(name_words(written))) or [""]
    if not name or len(written) < _LEAST_LETTERS:
        return None
    if others:
        found.unsure.append((written, [" ".join(name_words(each)) for each in (name, *others)]))
        return None
    senses = tuple(names.senses[name_words(name)])
    found.corrections.append(Correction(written, name))
    return _Match(span[1], _name_kind(senses), senses)


def _near(
    text: str, words: list[tuple[int, int]], at: int, names: Names, found: Tokens
) -> _Match | None:
    """The one name that begins at this word with a slip of the pen; None where none is near."""
    for count in (3, 2, 1):
        if count == 1 and (short := _in_short(text, words[at], names, found)):
            return short
        spans = words[at : at + count]
        written = text[spans[0][0] : spans[-1][1]]
        if len(spans) < count or written.lower() in NO_SLIPS or len(written) < _LEAST_LETTERS:
            continue
        near = [name for name in names.near(written) if len(name.split()) == count]
        senses = {sense: name for name in near for sense in names.meant(name)}
        kept = {(sense.kind, sense.name) for sense in senses if names.is_own(sense)}
        if len(kept) == 1:
            found.corrections.append(Correction(written, near[0]))
            meant = tuple(senses)
            return _Match(spans[-1][1], _name_kind(meant), meant)
        if kept:
            found.unsure.append((written, near))
            return None
    return None
