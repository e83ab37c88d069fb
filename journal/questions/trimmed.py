"""A refused question without the words that could not be read, where the rest is a question."""

import re
from collections.abc import Sequence

from journal.diary import Diary
from journal.questions.heard import left_of
from journal.questions.lexer import Tokens, tokens
from journal.questions.names import Names
from journal.questions.parts import Part
from journal.questions.periods import Clock
from journal.questions.saying import capital

# beyond so many words, or half of them, it would be another question
_MOST_DROPPED = 3
_ROUNDS = 3
_OPENINGS = ("HEAD", "AUX", "SUPERLATIVE", "ORDER")
_NAMED = ("THING", "PLACE", "PERSON")
# these need a name after them, and would be left hanging
_HANGING = frozenset(
    "the a an my our of some any in on from to under at with for by and or about per than".split()
)


def trimmed(diary: Diary, names: Names, clock: Clock, found: Tokens) -> str:
    """The question without its unread words, or "" where that leaves no sentence of its own.

    `Is it safe to sow carrots outside yet?` without `outside`.
    """
    if not found.tokens or found.tokens[0].type not in _OPENINGS:
        return ""
    whole, dropped = len(found.tokens), 0
    for _ in range(_ROUNDS):
        left = left_of(diary, names, clock, found)
        if left is None:
            return ""
        if not left:
            break
        dropped += len(left)
        if dropped > min(_MOST_DROPPED, whole // 3) or not _may_go(found, left):
            return ""
        found = tokens(_without(found.text, left), names)
        if not found.tokens:
            return ""
    else:
        return ""
    if not dropped or not _is_sentence(found):
        return ""
    text = re.sub(r"\bi\b", "I", found.text.strip().rstrip("?.! "))
    return f"{capital(text)}?"


def _may_go(found: Tokens, left: Sequence[Part]) -> bool:
    """Only words that say nothing known go, and none that the rest of the sentence leans on."""
    return all(_is_loose(found, part) for part in left)


# `ever`, `yet` and the like
_LOOSE_STATES = ("ever", "yet", "still", "together")
_JOINING = frozenset("except but besides beside near nor unless than if because while".split())


def _is_loose(found: Tokens, part: Part) -> bool:
    """`red` of `the red tomatoes`, `outside` of `sow carrots outside`: the rest stands without.

    Not the first word, the noun of `how many worms`, or what an article stands before.
    """
    if part.kind != "unread" and not (part.kind == "state" and part.name in _LOOSE_STATES):
        return False
    word = found.text[part.start : part.end].lower()
    before = [token for token in found.tokens if (token.end_pos or 0) <= part.start]
    after = [token for token in found.tokens if (token.start_pos or 0) >= part.end]
    if not before or word in _JOINING or _is_of_a_name(found.text[part.start : part.end]):
        return False
    follows = after[0].type if after else ""
    written = found.text[: part.start].split()
    if written[-1].lower() in _HANGING or before[-1].type == "HEAD":
        return follows in (*_NAMED, "UNIT")
    if before[-1].type in ("AUX", "SUPERLATIVE", "ORDER"):
        # a verb without the one who does it
        return follows not in ("ACT", "AUX", "")
    return before[-1].type not in ("ACT", "KIND") or follows in _NAMED


def _is_of_a_name(word: str) -> bool:
    """`Walter`, the `9` of `Platform 9`: without it something else is named."""
    return word[:1].isdigit() or word[:1].isupper()


def _is_sentence(found: Tokens) -> bool:
    """It asks of something known; a `did` still has its verb, and `what` has one too."""
    kinds = [token.type for token in found.tokens]
    verbs = [token for token in found.tokens if token.type in ("ACT", "AUX", "STATE")]
    auxiliary = any(str(token) in ("did", "do") for token in verbs if token.type == "AUX")
    asks = any(kind in (*_NAMED, "ACT", "KIND") for kind in kinds)
    bare = kinds[0] == "HEAD" and not verbs
    return asks and not bare and (not auxiliary or len(verbs) > 1) and not _CUT.search(found.text)


# an article, or a year, that lost the noun it stood before
_CUT = re.compile(
    r"\b(?:the|a|an|my|our)\s+(?:(?:19|20)\d\d|of|in|on|for|from|to|with|at|by|and|or|is|was|did|i|we)\b",
    re.IGNORECASE,
)


def _without(text: str, left: Sequence[Part]) -> str:
    for part in sorted(left, key=lambda each: -each.start):
        text = text[: part.start] + text[part.end :]
    return " ".join(text.split())
