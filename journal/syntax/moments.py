"""The words of time inside an entry: `on 5 Nov`, `by 28 March`, `every 2 weeks`, `until August`.

Finds them in a line; which days they are is settled in events/dates.py and events/due.py.
"""

import re

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
_PART_OF = r"(?:the\s+)?(?:(?:start|beginning|middle|end)\s+of\s+)?"
_COUNT = r"(?:\d{1,3}|an?|one|two|three|four|five|six|eight|ten|twelve|a\s+couple\s+of)"
_SPAN = r"(?:days?|weeks?|fortnights?|months?|years?)(?!\w)"
_PATTERNS = {
    "ON_DATE": rf"(?:on\s+(?:about\s+)?(?:{_EXACT}|(?:the\s+)?\d{{1,2}}(?:st|nd|rd|th)(?!\w)"
    rf"|{_WEEKDAY}|last\s+{_WEEKDAY})|yesterday(?!\w)|last\s+{_WEEKDAY}"
    rf"|about\s+{_DAY}\s+{_MONTH}{_YEAR}|{_DAY}\s+(?:of\s+)?{_MONTH}{_YEAR}"
    rf"|(?:about\s+)?{_COUNT}\s+{_SPAN}\s+ago(?!\w))",
    "BY_DATE": rf"(?:by|before)\s+{_PART_OF}(?:{_EXACT}|{_VAGUE_DATE}|{_WEEKDAY})",
    "IN_SPAN": rf"(?:in|within)\s+(?:{_COUNT}\s+)?{_SPAN}",
    "IN_MONTH": rf"(?:in|during)\s+(?:{_VAGUE_DATE})",
    "EVERY": rf"(?:every\s+(?:{_COUNT}\s+|other\s+)?{_SPAN}|(?:weekly|fortnightly|monthly)(?!\w))",
    "UNTIL": rf"(?:until|till|up\s+to)\s+{_PART_OF}(?:{_EXACT}|{_VAGUE_DATE})"
    rf"|to\s+{_DAY}\s+(?:of\s+)?{_MONTH}{_YEAR}",
    "NEXT": rf"(?:next\s+(?:week|month|weekend|year|{_SEASON}|{_MONTH}|{_WEEKDAY})|tomorrow"
    r"|this\s+(?:week|weekend|month))(?!\w)",
}
MOMENTS = tuple(_PATTERNS)
_MOMENT = re.compile(
    "|".join(f"(?P<{kind}>{pattern})" for kind, pattern in _PATTERNS.items()), re.IGNORECASE
)
_OPENERS = frozenset(
    "on by before in within during every weekly fortnightly monthly until till up next tomorrow "
    "this yesterday last about to a an one two three four five six eight ten twelve".split()
)


def moment_at(text: str, at: int, word: str) -> tuple[str, int] | None:
    """The kind of the moment that opens with `word` at a place of the text, and where it ends."""
    opener = word.lower()
    if opener not in _OPENERS and not word[0].isdigit():
        return None
    if opener == "to" and not text[at + 2 : at + 4].strip().isdigit():
        return None  # most of what a line goes on to is no day
    match = _MOMENT.match(text, at)
    return (str(match.lastgroup), match.end()) if match else None
