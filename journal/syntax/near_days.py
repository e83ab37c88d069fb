"""Lines of prose that open like a day line to what to write instead; all other prose to None.

Entries below such a line would go to the day before it, so that it is told, with a line that reads.
"""

import re
from difflib import get_close_matches
from unicodedata import normalize

from journal.source import Span
from journal.syntax.days import MONTH_NAMES, parse_date
from journal.syntax.nodes import Near

_MARKS = r"[\s#>*_~“\"'(\[]*"
_OPENS = re.compile(
    _MARKS
    + r"(?:[\dIlO]|(?:the|week|wk|w/?[ce]|weekend|just|after|before|since|from|by|about|early|mid"
    r"|late|mon|tue|wed|thu|fri|sat|sun|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)(?!\w*['’]))",
    re.IGNORECASE,
)
_EDGES = " \t\u00a0#>*_~“”\"'()[].,;:?!-–—…|/"
_LONGEST = 60
_WEEKDAY = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?\.?"
# possessive, so that a long run of blanks is looked at once
_DATE_AND_DASH = re.compile(r"[\s#]*+(?P<date>[^\n–—-]{3,40}?)\s++[–—-]\s+\S")
_DATE_AND_COMMA = re.compile(r"[\s#]*+(?P<date>[^\n,]{3,40}?(?:,?\s\d{4})?),\s+[a-z]")
_DATE_AND_BRACKET = re.compile(r"[\s#]*+(?P<date>[^\n(]{3,40}?)\s++\([^\n]*\)\s*$")
_DATE_AND_CLOCK = re.compile(
    r"[\s#]*+(?P<date>[^\n]{3,40}?)\s++(?:at\s+)?\d{1,2}(?:[:.]\d\d)?\s*+(?:[ap]m|h|o['’]clock)?\s*$",
    re.IGNORECASE,
)
_DATE_AND_WORDS = re.compile(
    rf"[\s#]*+(?P<date>(?:{_WEEKDAY},?\s+)?\d{{1,2}}(?:st|nd|rd|th)?\s+[A-Za-z]{{3,9}}(?:\s+\d{{4}})?)"
    r"\s+(?!(?:was|is|were|are|has|had|will|would|and|or|to|until|till|the|when|came|saw|brought)\b)"
    r"[^\W\d_]",
    re.IGNORECASE,
)
_PERIOD = re.compile(
    r"(?:(?:the\s+)?(?:week|wk|weekend|w/?[ce])\.?(?:\s+(?:of|from|beginning|commencing|starting|ending"
    r"|to|before|after))?|(?:just\s+|some\s+time\s+)?(?:after|before|since|by))\s+(?:the\s+)?",
    re.IGNORECASE,
)
_NO_MONTH = re.compile(
    rf"(?:{_WEEKDAY},?\s+(?:the\s+)?\d{{1,2}}(?:st|nd|rd|th)?|(?:the\s+)?\d{{1,2}}(?:st|nd|rd|th))$",
    re.IGNORECASE,
)
_ALONE = re.compile(rf"(?:last\s+|this\s+)?{_WEEKDAY}$", re.IGNORECASE)
_YEAR_FIRST = re.compile(r"(\d{4})[/.\s](\d{1,2})[/.\s](\d{1,2})$")
_FIGURES = re.compile(r"(\d{1,2})[.\s\\-](\d{1,2})(?:[.\s\\-](\d{4}))?$")
_STRANGE_YEAR = re.compile(r"(?P<date>.*[^\W\d_]),?\s+(?:\d{3}|\d{5,6})$")
_MONTH = re.compile(
    rf"(?:{_WEEKDAY},?\s+)?(?:\d{{1,2}}(?:st|nd|rd|th)?\.?\s+(?:of\s+)?(?P<a>[^\W\d_]{{3,10}})"
    r"|(?P<b>[^\W\d_]{3,10})\s+\d{1,2}(?:st|nd|rd|th)?),?(?:\s+\d{4})?$",
    re.IGNORECASE,
)
_FIGURE_SLIP = str.maketrans({"l": "1", "I": "1", "O": "0", "o": "0"})


def near_day(line: str, start: int, running: bool) -> Near | None:
    """A line of prose that was probably meant as a day line; `start` is where it begins.

    `running` says that it goes on with a paragraph, where a date at its head is likely prose.
    """
    if not _OPENS.match(line):
        return None
    patterns = [_DATE_AND_DASH, _DATE_AND_BRACKET, _DATE_AND_COMMA, _DATE_AND_CLOCK]
    for pattern in patterns if running else [*patterns, _DATE_AND_WORDS]:
        match = pattern.match(line)
        date = parse_date(match["date"]) if match else None
        if match is None or date is None:
            continue
        # Before words only a full date or one with its weekday is likely to be meant as a day.
        loose = pattern in (_DATE_AND_COMMA, _DATE_AND_WORDS)
        if not loose or date.weekday is not None or date.year is not None:
            return Near("J210", Span(start + match.start("date"), start + match.end("date")))
    return _whole(line, start)


def _whole(line: str, start: int) -> Near | None:
    """A line that is nothing but something like a date."""
    text = line.strip(_EDGES)
    if not text or len(text) > _LONGEST:
        return None
    at = start + len(line) - len(line.lstrip())
    mend = _mend(" ".join(text.split()))
    return Near("J210", Span(at, at + len(line.strip())), mend) if mend else None


def _mend(text: str) -> str:
    if parse_date(text) is not None:
        return f"write `{text}`"
    if _NO_MONTH.match(text) or _ALONE.match(text):
        return "start the line with day and month, for example `14 March`"
    for meant in (_in_figures(text), _spaced(text), _spaced(_unslipped(text)), _month(text)):
        if meant and parse_date(meant) is not None:
            return f"write `{meant}`"
    period = _PERIOD.match(text)
    if period and parse_date(text[period.end() :]) is not None:
        return f"write `about {text[period.end() :]}`"
    strange = _STRANGE_YEAR.match(text)
    if strange and parse_date(strange["date"]) is not None:
        return "correct the year, which has four figures"
    return ""


def _in_figures(text: str) -> str:
    """`2026/03/14` and `14.3` in the order and with the signs that are read."""
    first = _YEAR_FIRST.match(text)
    if first:
        return f"{first[1]}-{int(first[2]):02d}-{int(first[3]):02d}"
    figures = _FIGURES.match(text)
    if figures is None or not 1 <= int(figures[1]) <= 31 or not 1 <= int(figures[2]) <= 31:
        return ""
    return "/".join(figure for figure in figures.groups() if figure)


def _spaced(text: str) -> str:
    """`14March2026` with its spaces."""
    apart = re.sub(r"(\d(?:st|nd|rd|th)?)(?!st|nd|rd|th)([^\W\d_]{3,})", r"\1 \2", text)
    return re.sub(r"([^\W\d_]{3,})(\d)", r"\1 \2", apart)


def _unslipped(text: str) -> str:
    """`l4 March 2O26`: letters that were meant as figures."""
    return re.sub(
        r"(?<!\w)(?=[\dlIOo]*\d)[\dlIOo]+(?=(?:st|nd|rd|th)?(?!\w))",
        lambda word: word[0].translate(_FIGURE_SLIP),
        text,
    )


def _month(text: str) -> str:
    """`14 Mrach`, `14. März 2026` with the month that is near."""
    match = _MONTH.match(text)
    if match is None:
        return ""
    group = "a" if match["a"] else "b"
    near = get_close_matches(_plain(match[group]).capitalize(), MONTH_NAMES, 1, 0.66)
    if not near:
        return ""
    return (text[: match.start(group)] + near[0] + text[match.end(group) :]).replace(". ", " ")


def _plain(word: str) -> str:
    """A word without its accents."""
    return "".join(letter for letter in normalize("NFD", word) if letter.isascii())
