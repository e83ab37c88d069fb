"""Marks the verb, the known names and the dates of an entry, so that one lexer serves every diary.

A name of n letters becomes one letter of a private-use block that says which kinds of name it is,
and n - 1 fillers: places in the text stay what they are, and the lexer's patterns stay small. (With
the names themselves in the patterns, each of lark's sixty lexer states took 0.2 s to compile.)
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache, lru_cache
from itertools import pairwise, product

from journal.syntax.moments import MOMENTS, moment_at
from journal.syntax.verbs import BY_FORM, INTENTIONS, STATES
from journal.syntax.words import Words

# What a name may be. The first five combine freely (a person may be called like a crop); the last
# four are fixed lists of which few pairs share a word.
_FREE = ("CROP", "PLACE", "PLACE_N", "MATERIAL", "PERSON", "CULTIVAR_KNOWN")
_FIXED = ("MEASURE", "VESSEL", "FORM", "COVER")
# One letter each: a verb, and the words of time, are nothing else besides.
_ALONE = ("VERB", "PLAN", "STATE", *MOMENTS)
_BIT = {kind: 1 << at for at, kind in enumerate((*_FIXED, *reversed(_FREE)))}
# Planes 15 and 16 are for private use: no diary means anything by them.
_BASE = 0xF0000
_MARKS = 1 << len(_BIT)
_ALONE_MARK = {kind: chr(_BASE + _MARKS + at) for at, kind in enumerate(_ALONE)}
FILLER = chr(_BASE + _MARKS + len(_ALONE))
_FORMS = (
    "plug plugs set sets packet packets pkt pkts seed seeds seedling seedlings plant plants tuber "
    "tubers crown crowns slip slips runner runners corm corms clove cloves bulb bulbs head heads "
    "heart hearts cob cobs spear spears stem stems stalk stalks fruit fruits root roots cutting "
    "cuttings canes bush bushes tree trees clump clumps"
).split()
_FORMS += ["plug plant", "plug plants"]
_COVERS = "fleece glass net nets netting mesh cloche cloches polythene plastic hoops lights".split()
_COVERS += ["bell jar", "bell jars"]
_MEASURES = (
    "trug trugs handful handfuls bag bags bowl bowls basket basketful baskets bunch bunches box "
    "boxes crate crates bucket buckets barrow barrows barrowful barrowfuls punnet punnets colander "
    "colanders armful armfuls can cans jar jars jug jugs load loads tub tubs sack sacks pan pans "
    "spade spades shovel shovels fork forkful forkfuls trailer trailers sheet sheets roll rolls "
    "bottle bottles dozen pinch wheelbarrow wheelbarrows"
).split()
_MEASURES += ["carrier bag", "carrier bags", "watering can", "watering cans", "seed tray"]
_MEASURES += "tsp tbsp teaspoon teaspoons tablespoon tablespoons cup cups sprig sprigs".split()
_VESSELS = (
    "module modules tray trays cells pot pots sack sacks bag bags rootrainers gutter guttering "
    "tubes propagator pan pans tub tubs trough troughs bucket buckets crate crates box boxes "
    "basket baskets plugs growbag growbags saucer saucers jar jars bottle bottles"
).split()
_VESSELS += ["module tray", "module trays", "seed tray", "seed trays", "half tray", "half trays"]
_VESSELS += ["cell tray", "cell trays", "root trainer", "root trainers", "toilet roll tubes"]
_VESSELS += ["loo rolls", "grow bag", "grow bags"]
VESSELS = frozenset(_VESSELS)
FORMS = frozenset(_FORMS)
# `in Onion bed`, `into compost bin`: the crop or material is part of a place's name.
_PLACE_NOUNS = frozenset(
    "bed beds patch patches border borders cage plot house ground corner fence shed heap heaps "
    "bin bins bay bays store field".split()
)
_SKIPPED = (
    r"\((?:[^()\n]|\([^()\n]*\))*\)|\[[^\[\]\n]*\]"
    r"|(?<![^\W_])['‘](?![\s'’])(?:[^'‘’\n]|['’](?=[^\W_])){1,80}['’](?![^\W_])|“[^“”\n]+”|[`´](?=\S)[^`´\n]{1,80}[`´'’]"
)
_WORD = r"[^\W_]+(?:['’-][^\W_]+)*"
_TOKEN = re.compile(rf"(?P<skip>{_SKIPPED})|(?P<word>{_WORD})")
_PIECE = re.compile(_WORD)


def _fixed_lists() -> dict[str, list[str]]:
    return {"MEASURE": _MEASURES, "VESSEL": _VESSELS, "FORM": _FORMS, "COVER": _COVERS}


def _combinations() -> list[int]:
    """Every set of kinds that one name may have, as a number."""
    fixed: set[int] = {0}
    for names in _fixed_lists().values():
        for name in names:
            fixed.add(sum(_BIT[kind] for kind, own in _fixed_lists().items() if name in own))
    places = (0, _BIT["PLACE"], _BIT["PLACE_N"])
    single = [(0, _BIT[kind]) for kind in ("CROP", "MATERIAL", "PERSON", "CULTIVAR_KNOWN")]
    return sorted(
        crop | place | material | person | cultivar | rest
        for crop, material, person, cultivar in product(*single)
        for place in places
        for rest in fixed
    )[1:]


@cache
def _letters() -> dict[int, str]:
    """The letter of each set of kinds; sets that share a kind lie together."""
    return {mask: chr(_BASE + at) for at, mask in enumerate(_combinations())}


def mark_class(*kinds: str) -> str:
    """The pattern of one mark that is of any of these kinds."""
    if kinds[0] in _ALONE:
        return "[" + "".join(_ALONE_MARK[kind] for kind in kinds) + f"]{FILLER}*"
    wanted = sum(_BIT[kind] for kind in kinds)
    return f"[{_ranges([ord(c) for mask, c in _letters().items() if mask & wanted])}]{FILLER}*"


def moment_letters() -> str:
    """The marks of dates and spans, as they stand in a class of letters."""
    return "".join(_ALONE_MARK[kind] for kind in MOMENTS)


def any_mark() -> str:
    """The pattern of a mark of any kind of name."""
    return f"[{_ranges([ord(letter) for letter in _letters().values()])}]{FILLER}*"


def _ranges(letters: list[int]) -> str:
    pieces: list[str] = []
    start = before = letters[0]
    for at in [*letters[1:], -1]:
        if at != before + 1:
            pieces.append(chr(start) if start == before else f"{chr(start)}-{chr(before)}")
            start = at
        before = at
    return "".join(pieces)


@dataclass(slots=True)
class _Names:
    """The known names that begin with one word, by their words and what stands between them."""

    longest: int = 0
    masks: dict[tuple[tuple[str, ...], tuple[str, ...]], int] = field(default_factory=dict)


@lru_cache(maxsize=8192)
def _plain(word: str) -> str:
    return word.lower().replace("'", "").replace("’", "")


def _gap(text: str) -> str:
    return " ".join(text.split()) or " "


def _cut(name: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """A name's words and the gaps between them."""
    pieces = list(_PIECE.finditer(name))
    words = tuple(_plain(piece[0]) for piece in pieces)
    gaps = tuple(_gap(name[one.end() : two.start()]) for one, two in pairwise(pieces))
    return words, gaps


@dataclass(slots=True)
class Marker:
    """Marks the names of one diary."""

    words: Words
    names: dict[str, _Names] = field(default_factory=dict)
    verbs: re.Pattern[str] = field(init=False)
    states: re.Pattern[str] = field(init=False)

    def __post_init__(self) -> None:
        """Puts the names together by their first words."""
        words = self.words
        numbered = {name for name in words.places if name[-1:].isdigit()}
        numbered |= {re.sub(r"(\w)(\s*\d+)$", r"\1s\2", name) for name in numbered}
        found: dict[tuple[tuple[str, ...], tuple[str, ...]], int] = {}
        for kind, names in (
            ("PLACE", {name for name in words.places if not name[-1:].isdigit()}),
            ("PLACE_N", numbered),
            ("CROP", words.crops),
            ("MATERIAL", words.materials),
            ("PERSON", words.persons),
            ("CULTIVAR_KNOWN", words.cultivars),
            ("MEASURE", words.measures),
            *_fixed_lists().items(),
        ):
            _add(found, kind, names)
        for (cut, gaps), mask in found.items():
            same = self.names.setdefault(cut[0], _Names())
            same.longest = max(same.longest, len(cut))
            same.masks[cut, gaps] = mask
        self.verbs = _alternatives(BY_FORM)
        self.states = _alternatives(STATES)

    def mark(self, text: str) -> str | None:
        """The entry with its verb and names marked; None when it does not open with a verb.

        A verb may follow a crop (`lettuce bolted`), and an intention's own verb follows `plan`.
        """
        marked = list(text)
        at = self._verb(text, 0, marked)
        if at is None:
            at = self._lead(text, marked)
        if at is None:
            return None
        self._names(text, at, len(text), marked)
        return "".join(marked)

    def _verb(self, text: str, at: int, marked: list[str]) -> int | None:
        """Marks the verb at a place and returns where the parts begin."""
        match = self.verbs.match(text, at)
        if match is None:
            return None
        form = " ".join(match[0].lower().split())
        verb = BY_FORM[form]
        if at and verb.name in INTENTIONS:
            return None
        end = match.end()
        if form.endswith(" in") and form[:-3] in BY_FORM and self._place_at(text, end):
            end = at + re.search(r"\s+in$", match[0], re.IGNORECASE).start()  # type: ignore[union-attr]
        plan = verb.name in INTENTIONS
        _set(marked, at, end, _ALONE_MARK["PLAN" if plan else "VERB"])
        if plan and at == 0:
            to = _TO.match(text, end)  # `plan to sow`
            inner = to.end() if to else end + len(text[end:]) - len(text[end:].lstrip())
            found = self._verb(text, inner, marked)
            if found is not None:
                _set(marked, at, inner, _ALONE_MARK["PLAN"])
            return found or end
        return end

    def crop_end(self, text: str) -> int:
        """Where the crop that opens a text ends, with its cultivar; 0 when no crop does."""
        found = self._find(text, 0)
        if found is None or not found[1] & _BIT["CROP"]:
            return 0
        cultivar = _CULTIVAR_NEXT.match(text, found[0])
        return cultivar.end() if cultivar else found[0]

    def _place_at(self, text: str, at: int) -> bool:
        """Whether a known place stands right after `dig in`."""
        lead = re.compile(r"\s+(?:the\s+)?").match(text, at)
        if lead is None:
            return False
        found = self._find(text, lead.end())
        return found is not None and bool(found[1] & (_BIT["PLACE"] | _BIT["PLACE_N"]))

    def _lead(self, text: str, marked: list[str]) -> int | None:
        """A crop (with cultivar and label) and then a verb or a word of state."""
        at, seen = 0, False
        while True:
            found = self._find(text, at)
            token = _TOKEN.match(text, at)
            if not seen and (found is None or not found[1] & _BIT["CROP"]):
                return None
            if seen:
                end = self._verb(text, at, marked)
                if end is not None:
                    return end
                state = self.states.match(text, at)
                if state is not None:
                    _set(marked, at, state.end(), _ALONE_MARK["STATE"])
                    return state.end()
            if found is not None and (not seen or found[1] & _BIT["CULTIVAR_KNOWN"]):
                _set(marked, at, found[0], _letters()[found[1]])
                at = found[0]
            elif token is not None and token["skip"] and token["skip"][0] != "(":
                at = token.end()
            else:
                return None
            seen = True
            at += len(text[at:]) - len(text[at:].lstrip())

    def _find(self, text: str, at: int) -> tuple[int, int] | None:
        """The longest known name at a place: where it ends, and its kinds."""
        first = _PIECE.match(text, at)
        return self._longest(text, first[0], first.end()) if first is not None else None

    def _longest(self, text: str, word: str, end: int) -> tuple[int, int] | None:
        """The longest known name that begins with `word`, which ends at `end`."""
        first = _plain(word)
        known = self.names.get(first)
        if known is None:
            return None
        words, gaps, stops = [first], list[str](), [end]
        while len(words) < known.longest and (piece := _PIECE.search(text, end)):
            words.append(_plain(piece[0]))
            gaps.append(_gap(text[end : piece.start()]))
            end = piece.end()
            stops.append(end)
        for count in range(len(words), 0, -1):
            mask = known.masks.get((tuple(words[:count]), tuple(gaps[: count - 1])))
            if mask is not None:
                return stops[count - 1], mask
        return None

    def _names(self, text: str, at: int, end: int, marked: list[str]) -> None:
        while at < end:
            token = _TOKEN.search(text, at)
            if token is None:
                return
            at = token.end()
            if token["skip"]:
                continue
            moment = moment_at(text, token.start(), token["word"])
            if moment is not None:
                kind, at = moment
                _set(marked, token.start(), at, _ALONE_MARK[kind])
                continue
            found = self._longest(text, token["word"], at)
            if found is None:
                continue
            stop, mask = found
            if mask & (_BIT["CROP"] | _BIT["MATERIAL"]) and _place_noun(text, stop):
                mask &= ~(_BIT["CROP"] | _BIT["MATERIAL"])
            if mask:
                _set(marked, token.start(), stop, _letters()[mask])
                at = stop


def _add(
    found: dict[tuple[tuple[str, ...], tuple[str, ...]], int], kind: str, names: Iterable[str]
) -> None:
    for name in names:
        cut = _cut(name)
        if cut[0]:
            found[cut] = found.get(cut, 0) | _BIT[kind]


def _alternatives(forms: Iterable[str]) -> re.Pattern[str]:
    ordered = sorted(forms, key=lambda form: (-len(form), form))
    branches = "|".join(re.escape(form).replace(r"\ ", r"\s+") for form in ordered)
    return re.compile(rf"(?:{branches})(?![\w'’])", re.IGNORECASE)


_TO = re.compile(r"\s+(?:to|(?:the\s+)?plan(?:s|ned|ning)?(?:\s+to)?)\s+", re.IGNORECASE)
_CULTIVAR_NEXT = re.compile(rf"(?:\s+(?:{_SKIPPED}))+(?=\s)")
_NEXT_WORD = re.compile(r"\s+([^\W\d_]+)")


def _place_noun(text: str, at: int) -> bool:
    following = _NEXT_WORD.match(text, at)
    return following is not None and following[1].lower() in _PLACE_NOUNS


def _set(marked: list[str], start: int, end: int, letter: str) -> None:
    marked[start:end] = [letter, *(FILLER * (end - start - 1))]
