"""The verbs of the shorthand: how each may be written, its kind, and what its words name.

A verb's *object* says what undeclared words right after it are: a crop (`pick oca`), a place
(`water the window box`), a material (`fit oak pegs`), a subject (`see robin`) or a task.
"""

import re
from dataclasses import dataclass
from typing import Literal

Object = Literal["crop", "place", "material", "subject", "task", "none"]


@dataclass(frozen=True, slots=True)
class Verb:
    """One verb: canonical name, kind of event, what its bare words name, and its written forms."""

    name: str
    kind: str
    object: Object
    forms: tuple[str, ...]


def _forms(base: str) -> tuple[str, ...]:
    """Regular present, past and running forms of one word: `weed`, `weeded`, `weeding`."""
    if base.endswith("e"):
        return (base, base + "d", base[:-1] + "ing")
    if base.endswith("y") and base[-2] not in "aeiou":
        return (base, base[:-1] + "ied", base + "ing")
    return (base, base + "ed", base + "ing")


def _verb(kind: str, target: Object, name: str, *others: str) -> Verb:
    """A verb whose first word bends regularly, or as `others` say (`sowed/sown/sowing`)."""
    head, _, tail = name.partition(" ")
    heads = tuple(dict.fromkeys((head, *others))) if others else _forms(head)
    return Verb(name, kind, target, tuple(f"{form} {tail}".strip() for form in heads))


def _kind(kind: str, target: Object, *names: str) -> tuple[Verb, ...]:
    """Several verbs of one kind; `dig/dug/digging` lists the forms that bend irregularly."""
    verbs = []
    for written in names:
        head, _, tail = written.partition(" ")
        first, *rest = head.split("/")
        verbs.append(_verb(kind, target, f"{first} {tail}".strip(), *rest))
    return tuple(verbs)


VERBS: tuple[Verb, ...] = (
    *_kind("sowing", "crop", "sow/sowed/sown/sowing"),
    *_kind("raising", "crop", "pot/potted/potting up", "up", "prick/pricked/pricking out"),
    *_kind("raising", "crop", "pot/potted/potting on", "harden/hardened/hardening off"),
    *_kind("raising", "crop", "thin/thinned/thinning"),
    *_kind("planting", "crop", "plant/planted/planting out", "plant/planted/planting"),
    *_kind("planting", "crop", "heel/heeled/heeling in"),
    *_kind("moving", "crop", "move"),
    *_kind("harvest", "crop", "pick", "cut/cutting", "lift", "pull", "harvest", "gather"),
    *_kind("harvest", "crop", "dig/dug/digging up"),
    *_kind("loss", "crop", "lose/lost/losing", "bolt", "fail"),
    *_kind("stock check", "crop", "count"),
    *_kind("end", "place", "clear"),
    *_kind("feed", "crop", "feed/fed/feeding"),
    # `water in 24 leek`: watering in what was planted is watering
    _verb("water", "place", "water", *_forms("water"), *(f"{form} in" for form in _forms("water"))),
    *_kind("dressing", "material", "spread/spreading", "mulch", "dig/dug/digging in", "lime"),
    *_kind("treatment", "subject", "spray", "treat", "patrol/patrolled/patrolling"),
    *_kind("job", "task", "weed", "hoe/hoed/hoeing", "dig/dug/digging", "fork", "rake", "prune"),
    *_kind("job", "task", "stake", "tie/tied/tying in", "earth up", "net/netted/netting"),
    *_kind("job", "task", "cover", "uncover", "mow/mowed/mown/mowing", "edge", "tidy", "clean"),
    *_kind("job", "task", "open", "shut/shutting", "shade", "cut/cutting back", "pinch", "train"),
    *_kind("job", "task", "saw/sawed/sawn/sawing up", "burn/burned/burnt/burning", "sieve"),
    *_kind("job", "task", "turn", "shred/shredded/shredding", "build/built/building", "mend"),
    *_kind("job", "task", "paint", "take/took/taken/taking down", "fetch", "job/job"),
    *_kind("job", "task", "cut/cutting down", "pick off", "pull up"),
    *_kind("heap", "material", "fill", "empty", "level/levelled/levelling", "probe"),
    *_kind("structure", "material", "fit/fitted/fitting", "replace"),
    *_kind("weather", "none", "weather/weather", "rain", "frost/frost"),
    *_kind("sighting", "subject", "see/saw/seen/seeing"),
    *_kind("kitchen", "crop", "store", "use", "freeze/froze/frozen/freezing", "dry", "bottle"),
    *_kind("kitchen", "crop", "give/gave/given/giving", "sell/sold/selling"),
    *_kind("kitchen", "crop", "swap/swapped/swapping", "waste", "save"),
    *_kind("purchase", "crop", "buy/bought/buying"),
    *_kind("purchase", "task", "pay/paid/paying"),
    *_kind("verdict", "crop", "rate"),
    *_kind("intention", "subject", "plan/planned/planning", "done/done", "abandon"),
)

BY_NAME: dict[str, Verb] = {verb.name: verb for verb in VERBS}
BY_FORM: dict[str, Verb] = {form: verb for verb in VERBS for form in verb.forms}

_ANY_FORM = re.compile(
    r"(?:"
    + "|".join(form.replace(" ", r"\s+") for form in sorted(BY_FORM, key=len, reverse=True))
    + r")(?![\w'’-])",
    re.IGNORECASE,
)


def verb_at(text: str, start: int) -> str:
    """The verb's form that stands at a place of a text, as written; "" for none."""
    match = _ANY_FORM.match(text, start)
    return match[0] if match else ""


# `lettuce bolted`, `tomato ripe`: a word of state after a crop reads as a sighting of it.
STATES: dict[str, str] = {
    "ripe": "see",
    "ready": "see",
    "in flower": "see",
    "flowering": "see",
    "showing": "up",
    "emerged": "up",
}

SHEET_WORDS: frozenset[str] = frozenset(
    "plot bed pot frame house bay tank roof feed material measure crop worth store person met "
    "split rename".split()
)

INTENTIONS: frozenset[str] = frozenset({"plan", "done", "abandon"})
WEATHER_VERBS: frozenset[str] = frozenset({"weather", "rain", "frost"})
# `to` and `from` after these name a person or a shop.
DEALINGS: frozenset[str] = frozenset({"give", "sell", "swap", "buy", "pay"})
# `cut grass`, `pull weeds`: not a harvest.
NOT_HARVEST = re.compile(
    r"\s+(?:(?:the|our|my|all|some|long|down)\s+){0,3}(?:grass|hedges?|weeds?|lawns?)(?![\w'’-])",
    re.IGNORECASE,
)
