"""Builds the lark parsers of entries, weather, declarations and day lines from `grammar/`.

The `.lark` files hold the rules; here their placeholders (VERB, CROP, PLACE, UNIT ...) become the
patterns of marked names and dates (marks.py) and of units. One lexer serves every diary.
"""

from collections.abc import Callable, Iterable
from typing import Any

from lark import Lark, Transformer
from lark.lexer import PatternRE, TerminalDef

from journal.resources import grammar_folder
from journal.syntax.marks import any_mark, mark_class, moment_letters
from journal.syntax.moments import MOMENTS
from journal.syntax.quick import PLUGINS

_END = r"(?:(?![\w²³])|(?=x\d))"
_NUMBER_WORDS = "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
_HEDGES = (
    r"(?:just|well|a\s+(?:bit|little))\s+(?:over|under)|over|more\s+than|less\s+than|at\s+least|up\s+to"
    r"|about|around|approximately|approx\.?|roughly|nearly|almost|maybe|perhaps|say|circa|ca?\.|~"
)
_SMALL_PLACES = "in|into|on|by|at|from|to|with|for|under"
_CURRENCIES = "GBP|EUR|USD|CAD|AUD|NZD|CHF|SEK|NOK|DKK|PLN|CZK|JPY|ZAR|INR|ISK|HUF"
_MONEY = (
    r"[£$€]\s?\d{1,3}(?:,\d{3})+(?:\.\d{1,2})?(?!\d)|[£$€]\s?\d+(?:\.\d{1,2})?(?!\d)"
    rf"|\d+(?:\.\d{{1,2}})?\s?(?:{_CURRENCIES}|p|pence|euros?)(?!\w)|(?:{_CURRENCIES})\s?\d+(?:\.\d{{1,2}})?(?!\d)"
    r"|\d+(?:\.\d{1,2})?\s?[£€](?!\s?\d)"
)
_MAJOR = (
    (r"lbs?|pounds?", r"oz|ounces?"),
    (r"st|stones?", r"lbs?|pounds?"),
    (r"ft|foot|feet|['′’]", r"inch(?:es)?|[\"″”]"),
    (r"h|hrs?|hours?", r"min(?:ute)?s?"),
    (r"kg|kilos?", r"g|grams?|grammes?"),
    (r"gal(?:lon)?s?", r"pints?|pts?"),
)


def _names(names: Iterable[str]) -> str:
    """Names as one alternation, longest first; of no name, a pattern that never matches."""
    ordered = sorted(names, key=lambda name: (-len(name), name))
    if not ordered:
        return "(?!.)."  # lark refuses a terminal that could match nothing
    return "(?:" + "|".join(_escaped(name) for name in ordered) + ")" + _END


_SIGNS = ".^$*+?{}[]\\|()/"


def _escaped(name: str) -> str:
    # `re.escape` would also escape letters beyond ASCII in some versions of lark's own reader.
    escaped = ("\\" + letter if letter in _SIGNS else letter for letter in name)
    return "".join(escaped).replace(" ", r"\s+")


def _number(units: frozenset[str]) -> str:
    counted = mark_class("MEASURE", "CROP", "VESSEL", "FORM")
    countable = rf"{counted}|(?:rows?|drills?|dozen)(?!\w)|{_names(units)}"
    article = rf"an?(?=\s+(?:(?:new|good|big|small|full)\s+)?(?:{countable}))"
    return (
        r"\d+\s+and\s+a\s+half(?!\w)|(?:\d+\s?)?[½¼¾⅓⅔⅛⅜⅝⅞]|\d+\s\d{1,2}/\d{1,2}(?![\d/])|\d+(?:\.\d)?/\d+(?![\d/])"
        r"|\d{1,3}(?:,\d{3})+(?![\d,])|\d+(?:\.\d+)?(?:e\+?\d+)?|\.\d+"
        r"|half\s+an?(?!\w)|(?:a\s+)?half(?=\s+(?!the\b|of\b|my\b|our\b))"
        rf"|(?:an?\s+|three\s+)?quarters?(?:\s+of\s+an?(?=\s)|(?=\s+{_names(units)}))"
        r"|a\s+couple(?:\s+of)?(?!\w)|(?:a|one)\s+dozen(?!\w)"
        rf"|(?:{_NUMBER_WORDS})(?!\w)|{article}"
    )


def _major() -> str:
    return "|".join(
        rf"(?:{major})(?:\s+and)?(?=\s*[\d½¼¾][\d./½¼¾]*\s*(?:{minor})(?!\w))"
        for major, minor in _MAJOR
    )


def _patterns(units: frozenset[str]) -> dict[str, str]:
    marked = {
        kind: mark_class(kind)
        for kind in ("VERB", "PLAN", "STATE", "PLACE", "PLACE_N", "CROP", "MATERIAL", "PERSON")
    }
    marked |= {kind: mark_class(kind) for kind in ("MEASURE", "VESSEL", "FORM")}
    article = r"(?:(?:an?|the)\s+)?"
    crop, cultivar = mark_class("CROP"), mark_class("CULTIVAR_KNOWN")
    return marked | {
        "COVER": article + mark_class("COVER"),
        "AFTER_CROP": cultivar,
        "BEFORE_CROP": rf"{cultivar}(?=\s+{crop})",
        "AND_PERSON": rf"(?:,|and(?!\w)|&)\s*{mark_class('PERSON')}",
        "MEASURE": mark_class("MEASURE") + r"|dozen(?!\w)",
        # A stretch of a day is a measure where the sheet says how long it is.
        "VAGUE_TIME": r"(?:all|most\s+of\s+the|half\s+the)\s+"
        rf"(?:morning|afternoon|day|evening|weekend|{mark_class('MEASURE')})(?!\w)",
        "MONEY": _MONEY,
        "UNIT": rf"{_names(units)}(?:\.(?=\s))?|(?<=[\d½¼¾⅓⅔⅛])['′’\"″”](?!\w)",
        "MAJOR": _major(),
        "PER_VESSEL": r"(?:per|to\s+(?:an?|the|each)|in\s+each)\s+"
        rf"(?:{mark_class('VESSEL')}|(?:station|hole|cell|clump)(?!\w))",
        "PER": rf"per(?!\w)|/|an?(?=\s+(?:{_names(units)}|{mark_class('MEASURE', 'FORM')}))",
        "DECIMAL_COMMA": rf"\d{{1,6}},\d{{1,2}}\s*(?:{_names(units)}|[£$€]|(?:{_CURRENCIES})(?!\w))"
        r"|[£$€]\s?\d+,\d{2}(?!\d)",
        "BAD_FIGURE": r"(?:\d+(?:\.\d+){2,}|\d+\.\.+\d+|\d{1,3}\s+0\d+"
        rf"|\d+\.\s+\d+(?=\s*{_names(units)}))(?:\s*{_names(units)})?|(?<!\w)(?:[lI][\dO]+|\d+O[\dO]*|O\d+)(?!\w)",
        "NUMBER": _number(units),
        # Only straight before a figure, so that `about` never stands alone.
        "APPROX": rf"(?:{_HEDGES})(?=\s*(?:{_number(units)}))",
        # As far as the next comma, small word of place or time, or date.
        "WHEN": r"(?:when|whenever|if|unless|while|whilst|once|as\s+soon\s+as|though|although)\s"
        rf"(?:(?!\s(?:{_SMALL_PLACES})\s)[^,;(\n{moment_letters()}])+",
        "WORD": rf"(?:[^\W\d_]|\ufffd)+(?:['’-]?(?:[^\W_]|\ufffd)+)*|{any_mark()}",
        **{kind: mark_class(kind) for kind in MOMENTS},
    }


def _fill(patterns: dict[str, str]) -> Callable[[TerminalDef], None]:
    def edit(terminal: TerminalDef) -> None:
        if terminal.name in patterns:
            terminal.pattern = PatternRE(patterns[terminal.name], flags=("i",))

    return edit


def build_parser(
    file: str,
    start: str,
    units: frozenset[str],
    transformer: Transformer[Any, Any],
    plugins: dict[str, Any] = PLUGINS,
) -> Lark:
    """The parser of one grammar file: `diary.lark`, `weather.lark`, `sheet.lark`, `day.lark`.

    Without `plugins` lark parses with its own loops, to the same end.
    """
    return Lark.open(
        str(grammar_folder() / file),
        start=start,
        parser="lalr",
        lexer="contextual",
        transformer=transformer,
        edit_terminals=_fill(_patterns(units)),
        _plugins=plugins,
    )
