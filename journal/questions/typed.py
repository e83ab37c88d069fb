"""A question as typed on a phone to the spelling that the grammar reads: `howmany`, `'24`, `yr`.

Two figures are a year only where nothing else can be meant by them; else they stay as they are.
"""

import re

_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|"
    r"sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
_SEASON = r"(?:spring|summer|autumn|winter)"
_STRAIGHT = str.maketrans("’‘“”", "''\"\"")
_SPELLED = tuple(
    (re.compile(pattern, re.IGNORECASE), spelled)
    for pattern, spelled in (
        (r"\b(what|where|when|who|how|it|that)'s\b", r"\1 is"),
        (
            r"\b(it|that|what|when|where)s(?= (?:ever|been|got|the|my|our|still|in|due|left)\b)",
            r"\1 is",
        ),
        (r"\b(when|what|where|how)'?d(?= (?:i|we|you|the|my|our)\b)", r"\1 did"),
        (r"\b(i|we|what)'ve\b", r"\1 have"),
        (r"\bhow(many|much|long|often|old)\b", r"how \1"),
        (r"\b(?:hw|hoe)(?= (?:many|much|long|often|old)\b)", "how"),
        (r"\b(last|this|next|per|each|every|a|the) yr\b", r"\1 year"),
        (r"\byrs\b", "years"),
        (r"\b(last|this|next|per|each|every|a|the) wk\b", r"\1 week"),
        (r"\ba fortnight (?=ago|back)", "two weeks "),
        (r"\b(last|past|next|coming) fortnight\b", r"\1 two weeks"),
        (r"\b(?:pls|plz)\b", "please"),
        (r" & ", " and "),
        (r"^(?:give|show) me (?:everything|all)(?: that)? (?=(?:i|we) )", "what did "),
        (r"^((?:this time|this day) last year|\w+ years? ago today)(?=\W*$)", r"what did I do \1"),
        (r"^find (?:me )?(?:where|what|when|everything) (?=i (?:wrote|said|noted))", "what did "),
        (r"\bfrom (?=(?:\S+ ){0,3}\S+ on(?:wards?)?\W*$)(.*) on(?:wards?)?\b", r"since \1"),
    )
)
# `'24`; `12 june 24`; `summer 24`; `in 24`, before the end or a word that a year stands before
_SHORT_YEAR = tuple(
    re.compile(pattern, re.IGNORECASE)
    for pattern in (
        r"(?<![\w'])'(?P<year>\d\d)(?![\w'])",
        rf"\b\d{{1,2}}(?:st|nd|rd|th)? (?:of )?{_MONTH} (?P<year>\d\d)(?=\W*(?:$|[?,.]))",
        rf"\b{_SEASON} (?P<year>\d\d)(?!\w| ?(?:%|kg|mm|degrees))",
        r"(?:(?<=\bin )|(?<=[a-z] of )|(?<=\bsince )|(?<=\bvs )|(?<=\bv )|(?<=\bagainst )"
        r"|(?<=\bthan )|(?<=\bor )|(?<=\band )|(?<=\byear )|(?<=\bbefore )|(?<=\bafter ))"
        r"(?P<year>\d\d)"
        r"(?=\W*$|[?,]| (?:and|or|vs?|versus|against|than|compared|did|was|were|we|i)\b)",
    )
)


def as_spelled(text: str, first_year: int, last_year: int) -> str:
    """The question with its short forms written out; years only within these two."""
    plain = text.translate(_STRAIGHT)
    for pattern, spelled in _SPELLED:
        plain = pattern.sub(spelled, plain)
    for pattern in _SHORT_YEAR:
        plain = pattern.sub(lambda found: _in_full(found, first_year, last_year), plain)
    return plain


def _in_full(found: "re.Match[str]", first_year: int, last_year: int) -> str:
    year = 2000 + int(found["year"])
    if not first_year <= year <= last_year:
        return found[0]
    return found[0].removesuffix(found["year"]).removesuffix("'") + str(year)
