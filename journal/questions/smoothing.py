"""Parts of a question without the small words that say nothing beside the others.

What could narrow or turn the question stays; whatever no answer takes is refused later on.
"""

from collections.abc import Sequence

from journal.questions.parts import Part

# `did the onions get planted`, `what have I got coming up`: the act says it all
_BARE_ACTS = ("harvest_noun",)
# `what day it was`: the `it` stands at most so far from the first word
_NEAR_THE_HEAD = 3
_GIVERS = ("beds", "places", "crops", "varieties", "years")


def smoothed(parts: Sequence[Part], text: str) -> tuple[Part, ...]:
    """The parts that have a bearing on the answer, in their order."""
    kept = [part for at, part in enumerate(parts) if not _is_idle(at, part, parts, text)]
    return tuple(kept)


def _is_idle(at: int, part: Part, parts: Sequence[Part], text: str) -> bool:
    after = parts[at + 1] if at + 1 < len(parts) else None
    if part.kind == "state":
        return part.name == "ever"
    if part.kind in ("preposition", "self") and part.name in ("in", "it"):
        # `what did Platform 2 have in it`
        pair = parts[at : at + 2] if part.name == "in" else parts[max(at - 1, 0) : at + 1]
        if [each.name for each in pair] == ["in", "it"] and _any_place(parts):
            return True
    if part.kind == "preposition":
        # `is it time for sowing leeks`, `when is it safe to plant`
        return part.name in ("to", "for") and after is not None and after.kind == "act"
    if part.kind == "aux" and part.name == "get":
        return _has_act(parts) or _has(parts, "aux", "done")
    if part.kind == "act" and part.name in ("give", "see"):
        return _only_carries(part, parts, text)
    if part.kind == "self" and part.name == "me":
        return _is_given_by_the_garden(parts, text)
    if part.kind == "self" and part.name == "it":
        return _has_act(parts) and (_has(parts, "aux", "take") or _is_cleft(at, parts))
    return False


def _is_cleft(at: int, parts: Sequence[Part]) -> bool:
    """`what day it was that we lifted the garlic`: the act that follows is what is asked of."""
    headed = parts[0].kind == "head" and 0 < at <= _NEAR_THE_HEAD
    beside = [each for each in parts[max(at - 1, 0) : at + 2] if each.kind == "aux"]
    later = any(each.kind == "self" and each.name == "i" for each in parts[at + 1 :])
    return headed and later and any(each.name in ("was", "is") for each in beside)


def _only_carries(part: Part, parts: Sequence[Part], text: str) -> bool:
    """`give the tomatoes a feed` is to feed them, `see a frost` asks of the frost."""
    if part.name == "see":
        cold = _has(
            parts, "kind", "frost", "rain", "snow", "last_spring_frost", "first_autumn_frost"
        )
        return cold and not any(each.kind in ("thing", "place") for each in parts)
    later = [each for each in parts if each.kind == "act" and each.start > part.end]
    return any(text[: each.start].lower().rstrip().endswith((" a", " another")) for each in later)


def _any_place(parts: Sequence[Part]) -> bool:
    return any(part.kind == "place" for part in parts)


def _has(parts: Sequence[Part], kind: str, *names: str) -> bool:
    return any(part.kind == kind and part.name in names for part in parts)


def _has_act(parts: Sequence[Part]) -> bool:
    return any(part.kind == "act" and part.name not in _BARE_ACTS for part in parts)


def _is_given_by_the_garden(parts: Sequence[Part], text: str) -> bool:
    """`which bed gave me most`: a place or a crop gave it; `what did Odette give me` did not."""
    if any(part.kind == "person" for part in parts) or _has(parts, "head", "who"):
        return False
    gives = [part for part in parts if part.kind == "act" and part.name == "give"]
    others = _has(parts, "aux", "come", "take", "spend") or _has(parts, "kind", "cost", "earn")
    passive = any(text[part.start : part.end].lower() == "given" for part in gives) and _has(
        parts, "aux", "was", "is"
    )
    giver = any(part.kind in ("place", "thing") for part in parts) or _has(parts, "noun", *_GIVERS)
    return others or (bool(gives) and giver and not passive)
