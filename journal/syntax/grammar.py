"""Builds the lark parsers of entries, weather and day lines, with the diary's words in the lexer.

The `.lark` files hold the rules; here their placeholders (VERB, CROP, PLACE, UNIT ...) become
patterns of names, longest first, case-blind, closed by a look-ahead.
"""

import re
from collections.abc import Callable, Iterable
from functools import lru_cache

from lark import Lark, Transformer
from lark.lexer import PatternRE, TerminalDef

from journal.resources import grammar_folder
from journal.syntax.verbs import BY_FORM, INTENTIONS, STATES, WEATHER_VERBS
from journal.syntax.words import Words

_END = r"(?![\w²³])"
_NEVER = r"(?!.)."  # lark refuses a terminal that could match nothing
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)(?!\w)"
)
_WEEKDAY = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?(?!\w)"
_SEASON = r"(?:spring|summer|autumn|winter)(?!\w)"
_DAY = r"\d{1,2}(?:st|nd|rd|th)?(?!\w)"
_YEAR = r"(?:,?\s+\d{4}(?!\d))?"
_EXACT = (
    rf"(?:{_WEEKDAY},?\s+)?(?:\d{{4}}-\d{{1,2}}-\d{{1,2}}(?!\d)|{_DAY}\s+(?:of\s+)?{_MONTH}{_YEAR}"
    rf"|{_MONTH}\s+{_DAY}{_YEAR}|\d{{1,2}}[/.]\d{{1,2}}(?:[/.](?:\d{{4}}|\d{{2}}))?(?![\d/]))"
)
_VAGUE_DATE = rf"(?:(?:early|mid|late)[\s-]+)?{_MONTH}{_YEAR}|{_SEASON}{_YEAR}"
_COUNT = r"(?:\d{1,3}|an?|one|two|three|four|five|six|eight|ten|twelve|a\s+couple\s+of)"
_SPAN = r"(?:days?|weeks?|fortnights?|months?|years?)(?!\w)"
_NUMBER_WORDS = "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
LOOSE_MEASURES = (
    "trug trugs handful handfuls bag bags bowl bowls basket basketful baskets bunch bunches box "
    "boxes crate crates bucket buckets barrow barrows barrowful barrowfuls punnet punnets colander "
    "colanders armful armfuls can cans jar jars jug jugs load loads tub tubs sack sacks pan pans "
    "spade spades shovel shovels fork forkful trailer trailers sheet sheets roll rolls bottle "
    "bottles dozen pinch row rows"
).split()
PHRASED_MEASURES = ("carrier bag", "carrier bags", "watering can", "watering cans", "wheelbarrow")
VESSELS = (
    "module modules|module tray|module trays|tray trays|seed tray|seed trays|half tray|half trays"
    "|cell tray|cell trays|cells|pot pots|sack sacks|bag bags|root trainer|root trainers"
    "|rootrainers|gutter|guttering|toilet roll tubes|loo rolls|tubes|propagator|pan pans|tub tubs"
    "|trough troughs|bucket buckets|crate crates|box boxes|basket baskets|plugs|grow bag|grow bags"
    "|growbag|growbags|saucer saucers|jar jars|bottle bottles"
)
_DATE_TERMINALS = {
    "ON_DATE": rf"(?:on\s+(?:about\s+)?(?:{_EXACT}|(?:the\s+)?\d{{1,2}}(?:st|nd|rd|th)(?!\w)"
    rf"|{_WEEKDAY}|last\s+{_WEEKDAY})|yesterday(?!\w))",
    "BY_DATE": rf"(?:by|before)\s+(?:the\s+end\s+of\s+)?(?:{_EXACT}|{_VAGUE_DATE}|{_WEEKDAY})",
    "IN_SPAN": rf"(?:in|within)\s+(?:{_COUNT}\s+)?{_SPAN}",
    "IN_MONTH": rf"(?:in|during)\s+(?:{_VAGUE_DATE})",
    "EVERY": rf"(?:every\s+(?:{_COUNT}\s+|other\s+)?{_SPAN}|(?:weekly|fortnightly|monthly)(?!\w))",
    "UNTIL": rf"(?:until|till|up\s+to)\s+(?:the\s+end\s+of\s+)?(?:{_EXACT}|{_VAGUE_DATE})",
    "NEXT": rf"(?:next\s+(?:week|month|weekend|year|{_SEASON}|{_MONTH}|{_WEEKDAY})|tomorrow"
    r"|this\s+(?:week|weekend|month))(?!\w)",
}
_CURRENCIES = "GBP|EUR|USD|CAD|AUD|NZD|CHF|SEK|NOK|DKK|PLN|CZK|JPY|ZAR|INR|ISK|HUF"
_MONEY = (
    r"[£$€]\s?\d{1,3}(?:,\d{3})+(?:\.\d{1,2})?(?!\d)|[£$€]\s?\d+(?:\.\d{1,2})?(?!\d)"
    rf"|\d+(?:\.\d{{1,2}})?\s?(?:{_CURRENCIES}|p|pence|euros?)(?!\w)"
)
_MAJOR = (
    (r"lbs?|pounds?", r"oz|ounces?"),
    (r"st|stones?", r"lbs?|pounds?"),
    (r"ft|foot|feet|['′]", r"inch(?:es)?|[\"″]"),
    (r"h|hrs?|hours?", r"min(?:ute)?s?"),
    (r"kg|kilos?", r"g|grams?|grammes?"),
    (r"gal(?:lon)?s?", r"pints?|pts?"),
)
# `in Onion bed`, `into compost bin`: the crop or material is part of a place's name.
_PLACE_NOUN = (
    r"(?!\s+(?:bed|patch|border|cage|plot|house|ground|corner|fence|shed|heap|bin|bay|store|field)"
    r"s?(?!\w))"
)


def _branch(names: Iterable[str]) -> str:
    """Names as one alternation, longest first, grouped by first letter so that few are tried."""
    groups: dict[str, list[str]] = {}
    for name in sorted(set(names), key=lambda name: (-len(name), name)):
        groups.setdefault(name[0], []).append(name)
    branches = [
        re.escape(first) + "(?:" + "|".join(_written(name[1:]) for name in group) + ")"
        for first, group in groups.items()
    ]
    return "(?:" + "|".join(branches) + ")"


def _written(name: str) -> str:
    """A name's pattern: any white space between its words, either apostrophe or none."""
    return re.sub("['’]", "['’]?", re.escape(name).replace(r"\ ", r"\s+"))


def _names(names: Iterable[str], end: str = _END) -> str:
    """The pattern of a set of names; of no name, one that never matches."""
    kept = [name for name in names if name]
    return rf"{_branch(kept)}{end}" if kept else _NEVER


def _longer_elsewhere(names: frozenset[str], *others: frozenset[str]) -> tuple[str, list[str]]:
    """Splits names into a plain pattern and guarded ones that a longer name of another kind beats.

    `tomato` must not be read out of `tomato feed`.
    """
    rest: dict[str, list[str]] = {}
    for other in others:
        for longer in other:
            words = longer.split()
            for cut in range(1, len(words)):
                head = " ".join(words[:cut])
                if head in names:
                    rest.setdefault(head, []).append(" ".join(words[cut:]))
    guarded = [
        rf"{_written(name)}{_END}(?!\s+{_names(tails)})"
        for name, tails in sorted(rest.items(), key=lambda item: -len(item[0]))
    ]
    return _names(names - rest.keys()), guarded


def _guarded(names: frozenset[str], *others: frozenset[str]) -> str:
    plain, guarded = _longer_elsewhere(names, *others)
    return "(?:" + "|".join([*_by_length(plain, guarded)]) + ")"


def _by_length(plain: str, guarded: list[str]) -> list[str]:
    # A guarded name is a whole name of its own, so a longer plain one (`tomato` in `tomato paste`)
    # must be tried before it.
    return [plain, *guarded]


def verb_pattern(words: Words, names: Iterable[str]) -> str:
    """The pattern of the verbs `names`; `dig in North 5` leaves `in` to a known place."""
    forms = {form for form, verb in BY_FORM.items() if verb.name in set(names)}
    before_place = [form for form in forms if form.endswith(" in") and form[:-3] in BY_FORM]
    branches = [_names(forms - set(before_place))]
    if before_place:
        places = _names(words.places)
        branches.insert(0, rf"{_names(before_place)}(?!\s+(?:the\s+)?{places})")
    return "(?:" + "|".join(branches) + ")"


def _number(words: Words) -> str:
    counted = {*words.units, *words.measures, *LOOSE_MEASURES, *PHRASED_MEASURES, *words.crops}
    vessels = {name for group in VESSELS.split("|") for name in _spread(group)}
    article = rf"an?(?=\s+(?:new\s+|good\s+|big\s+|small\s+)?{_names(counted | vessels)})"
    return (
        r"(?:\d+\s?)?[½¼¾⅓⅔⅛⅜⅝⅞]|\d+\s\d{1,2}/\d{1,2}(?![\d/])|\d+/\d+(?![\d/])"
        r"|\d{1,3}(?:,\d{3})+(?![\d,])|\d+(?:\.\d+)?|\.\d+"
        r"|half\s+an?(?!\w)|(?:a\s+)?half(?=\s)|a\s+quarter(?=\s+of\s+an?\s)"
        r"|a\s+couple(?:\s+of)?(?!\w)|(?:a|one)\s+dozen(?!\w)"
        rf"|(?:{_NUMBER_WORDS})(?!\w)|{article}"
    )


def _spread(group: str) -> list[str]:
    """`pot pots` is two names, `seed tray` one: a group of the vessel list."""
    words = group.split()
    two_forms = len(words) == 2 and words[1].startswith(words[0].removesuffix("x"))
    return words if two_forms else [group]


def _unit(words: Words) -> str:
    return rf"{_names(words.units)}|(?<=[\d½¼¾⅓⅔⅛])['′\"″](?!\w)"


def _major() -> str:
    return "|".join(
        rf"(?:{major})(?:\s+and)?(?=\s*[\d½¼¾][\d./½¼¾]*\s*(?:{minor})(?!\w))"
        for major, minor in _MAJOR
    )


def _entry_patterns(words: Words) -> dict[str, str]:
    numbered = frozenset(name for name in words.places if name[-1:].isdigit())
    plain = words.places - numbered
    vessels = {name for group in VESSELS.split("|") for name in _spread(group)}
    crops = _guarded(words.crops, words.materials, words.places)
    cultivars = words.cultivars - words.crops
    measures = {*words.measures, *LOOSE_MEASURES, *PHRASED_MEASURES}
    verbs = [verb.name for verb in BY_FORM.values() if verb.name not in INTENTIONS | WEATHER_VERBS]
    return {
        "VERB": verb_pattern(words, verbs),
        "PLAN": verb_pattern(words, INTENTIONS),
        "STATE": _names(STATES),
        "MONEY": _MONEY,
        "PLACE": _names(plain),
        "PLACE_N": _numbered(numbered),
        "CROP": crops + _PLACE_NOUN,
        "AFTER_CROP": _names(cultivars),
        "BEFORE_CROP": rf"{_names(cultivars)}(?=\s+{crops})",
        "MATERIAL": _guarded(words.materials, words.places) + _PLACE_NOUN,
        "PERSON": _names(words.persons),
        "AND_PERSON": rf"(?:,|and(?!\w)|&)\s*{_names(words.persons)}",
        "UNIT": _unit(words),
        "MAJOR": _major(),
        "MEASURE": _names(measures),
        "NUMBER": _number(words),
        "VESSEL": _names(vessels),
        **_DATE_TERMINALS,
    }


def _numbered(names: frozenset[str]) -> str:
    """Places that end in a number; `Beds 1` is also `Bed 1`, the plural before its fellows."""
    plural = {re.sub(r"(\w)(\s*\d+)$", r"\1s\2", name) for name in names}
    return _names(names | plural)


def _weather_patterns(words: Words) -> dict[str, str]:
    return {
        "VERB": verb_pattern(words, WEATHER_VERBS),
        "PLACE": _names(words.places),
        "ON_DATE": _DATE_TERMINALS["ON_DATE"],
    }


def _fill(patterns: dict[str, str]) -> Callable[[TerminalDef], None]:
    def edit(terminal: TerminalDef) -> None:
        # Imported terminals keep their own name, so the placeholder is found by it.
        if terminal.name in patterns:
            terminal.pattern = PatternRE(patterns[terminal.name], flags=("i",))

    return edit


def _open(
    file: str, start: str, patterns: dict[str, str], transformer: Transformer[object, object]
) -> Lark:
    return Lark.open(
        str(grammar_folder() / file),
        start=start,
        parser="lalr",
        lexer="contextual",
        transformer=transformer,
        edit_terminals=_fill(patterns),
    )


def entry_parser(words: Words, transformer: Transformer[object, object]) -> Lark:
    """The parser of one entry's text, for a diary with these words."""
    return _open("diary.lark", "entry", _entry_patterns(words), transformer)


def weather_parser(words: Words, transformer: Transformer[object, object]) -> Lark:
    """The parser of one weather entry's text."""
    return _open("weather.lark", "weather", _weather_patterns(words), transformer)


def sheet_parser(words: Words, transformer: Transformer[object, object]) -> Lark:
    """The parser of one piece of a declaration."""
    patterns = _entry_patterns(words)
    return _open("sheet.lark", "field", patterns, transformer)


def day_parser(transformer: Transformer[object, object]) -> Lark:
    """The parser of a day line without its marks."""
    return _open("day.lark", "start", {}, transformer)


@lru_cache(maxsize=8)
def opening(words: Words) -> re.Pattern[str]:
    """What opens an entry: a verb, or a crop with a verb or a word of state behind it."""
    verbs = "(?:" + "|".join([verb_pattern(words, {verb.name for verb in BY_FORM.values()})]) + ")"
    crop = _guarded(words.crops, words.materials, words.places)
    cultivar = rf"(?:\s*['‘][^\n]*?['’](?!\w)|\s+{_names(words.cultivars)})?"
    label = r"(?:\s*\[[^\[\]\n]*\])?"
    states = _names(STATES)
    return re.compile(
        rf"(?P<verb>{verbs})|(?P<crop>{crop}){cultivar}{label}\s+(?:{verbs}|{states})",
        re.IGNORECASE,
    )
