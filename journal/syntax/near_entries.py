"""Lines of prose that read like an entry without its dash to what to write; other prose to None."""

import re

from journal.source import Span
from journal.syntax.nodes import Near
from journal.syntax.verbs import verb_at

_LONGEST = 100
_BULLET = re.compile(r"(?:[·+>]|\d{1,2}[.)])\s+")
# What a sentence of prose seldom has after its first word.
_AMOUNT = re.compile(
    r"(?<![\w.])[\d.½¼¾]+\s?(?:kg|g|lbs?|oz|l|ml|mins?|minutes?|h|hrs?|hours?|rows?|barrows?|m2)(?!\w)"
    r"|\d+h\d+|[£$€]\s?\d|(?<!\w)['‘][^\W\d_][^'‘’\n]{1,40}['’](?!\w)"
)
_SENTENCE = re.compile(r"[.!?](?:\s|$)|\s(?:took|was|were|is|are|had)\s")


def near_entry(line: str, start: int) -> Near | None:
    """`pick 1.2 kg kale`, where the dash was forgotten; `start` is where the line begins."""
    if len(line) > _LONGEST:
        return None
    bullet = _BULLET.match(line)
    at = bullet.end() if bullet else 0
    form = verb_at(line, at)
    if not form or form.lower().endswith("ing") or _SENTENCE.search(line):
        return None
    if not _AMOUNT.search(line, at + len(form)):
        return None
    verb = Span(start + at, start + at + len(form))
    return Near("J113", verb, f"write `- {line[at:].rstrip()}`")
