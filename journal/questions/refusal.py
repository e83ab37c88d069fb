"""What to say of a question that is not read: which part, what is near it, what can be asked."""

from collections.abc import Sequence
from difflib import get_close_matches

from journal.diary import Diary
from journal.questions.lexer import Tokens
from journal.questions.model import Answer
from journal.questions.names import Names
from journal.questions.parts import Part
from journal.questions.periods import Clock
from journal.questions.saying import listed

# so many unread words and it is no question about a garden
_NONSENSE = 4
# so many parts left over and nothing is gained by naming them
_MOST_LEFT = 3
# a name that is as like as this may be meant (a ratio of difflib)
_LIKE = 0.75
_NEAR = 4


def refuse(sentence: str, offers: Sequence[str]) -> Answer:
    """A refusal with the nearest questions that can be asked."""
    return Answer(False, sentence, caveats=tuple(f"you can ask: {offer}" for offer in offers))


def unread_words(found: Tokens, parts: Sequence[Part], names: Names) -> str:
    """The sentence that names the words which no part of the grammar takes."""
    unread = [part for part in parts if part.kind == "unread"]
    words = [found.text[part.start : part.end] for part in unread]
    unsure = {written: near for written, near in found.unsure}
    for word in words:
        near = next((each for written, each in unsure.items() if written.startswith(word)), None)
        if near:
            return f"I do not know `{word}`: did you mean {listed(_titled(near, names), 'or')}?"
    if len(words) >= _NONSENSE and len(words) > len(parts) - len(words):
        return "I cannot read that as a question about the diary."
    called = dict.fromkeys(_called(found, part) for part in unread)
    if len(called) == 1 and (name := next(iter(called))):
        near = _near_names(name, names)
        nearest = f"; near it are {listed(near)}" if near else ""
        return f"Nothing and nobody here is called `{name}`{nearest}."
    # `how tall` is unread as a whole, for want of the `tall`
    telling = [word for word in words if word.lower() != "how"] or words
    quoted = [f"`{word}`" for word in dict.fromkeys(telling)]
    return f"I do not know what {listed(quoted)} {'means' if len(quoted) == 1 else 'mean'} here."


def _called(found: Tokens, part: Part) -> str:
    """The words around an unread one that are written as one name: `Platform 9`, or ""."""
    words = found.text.split()
    # the word that it stands in, which may begin before it: the `x` of `0x`
    at = len(found.text[: part.start + 1].split()) - 1
    first = last = at
    while first > 1 and _is_name_word(words[first - 1]):
        first -= 1
    while last + 1 < len(words) and _is_name_word(words[last + 1]):
        last += 1
    if not _is_name_word(words[at]) or (first == at == 0):
        return ""
    return " ".join(words[first : last + 1]).strip("?.!,;'\"")


def _is_name_word(word: str) -> bool:
    plain = word.strip("?.!,;'\"")
    year = len(plain) == 4 and plain.isdigit()
    return (plain[:1].isupper() and plain.lower() not in _NO_NAMES) or (
        plain.isdigit() and not year
    )


_NO_NAMES = frozenset(
    "i january february march april may june july august september october november december "
    "monday tuesday wednesday thursday friday saturday sunday mondays tuesdays wednesdays "
    "thursdays fridays saturdays sundays".split()
)


def _near_names(called: str, names: Names) -> list[str]:
    """The diary's own names that begin alike or are spelt alike, the nearest first."""
    own: dict[str, str] = {}
    for words, senses in names.senses.items():
        sense = next((each for each in senses if names.is_own(each) or each.kind == "person"), None)
        if sense is not None and sense.kind != "crop":
            own.setdefault(" ".join(words), sense.name)
    plain = called.lower()
    first, _, rest = plain.partition(" ")
    alike = [own[name] for name in sorted(own) if rest and name.split()[0] == first]
    alike += [own[name] for name in get_close_matches(plain, own, _NEAR, _LIKE)]
    return sorted(list(dict.fromkeys(alike))[:_NEAR])


def _titled(near: Sequence[str], names: Names) -> list[str]:
    """Near spellings under the names that the diary keeps them by."""
    found = []
    for spelling in near:
        sense = names.meant(spelling)[0]
        found.append(f"'{sense.name}'" if sense.kind == "cultivar" else spelling)
    return list(dict.fromkeys(found))


def left_over(found: Tokens, parts: Sequence[Part]) -> str:
    """The sentence that names what does not go with the rest of the question."""
    words = [f"`{found.text[part.start : part.end]}`" for part in parts]
    if len(words) > _MOST_LEFT:
        return "I know the words of that, but not what they ask together."
    return f"I can follow all of that but {listed(words)}."


def not_asked(found: Tokens, parts: Sequence[Part]) -> str:
    """The sentence for names of which nothing is asked."""
    from journal.questions.heard import bare_name

    named = [bare_name(found.text, part) for part in parts if part.senses]
    if not named:
        return "I cannot tell what that asks of the diary."
    quoted = listed([f"`{word}`" for word in dict.fromkeys(named)])
    return f"I know {quoted}, but cannot tell what is asked."


def stopped(found: Tokens, start: int | None) -> str:
    """The phrase that breaks off, named by the word at `start`, or by the last one."""
    later = [token for token in found.tokens if start is not None and token.start_pos == start]
    token = later[0] if later else found.tokens[-1]
    return f"I lose the thread at `{found.text[token.start_pos : token.end_pos]}`."


def offers(diary: Diary, names: Names, clock: Clock, found: Tokens) -> list[str]:
    """Two or three questions of the words that were understood, the nearest first; all are read."""
    # an answer needs none of these
    from journal.questions.heard import heard, is_read, readable_parts
    from journal.questions.nearby import OFFERED, near_questions
    from journal.questions.trimmed import trimmed

    said = heard(diary, found, readable_parts(found, clock), names)
    without = trimmed(diary, names, clock, found)
    near = near_questions(said, lambda text: is_read(diary, names, clock, text))
    # `did I pick` and `did we pick` are one question
    told: dict[str, str] = {}
    for text in filter(None, [without, *near]):
        told.setdefault(text.replace(" we ", " I "), text)
    return list(told.values())[:OFFERED]
