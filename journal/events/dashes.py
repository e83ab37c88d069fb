"""A dash line that opens with no verb to its problem, with the line that was probably meant.

The line itself stays prose; nothing of it is read.
"""

import re

from journal.problems.model import Problem, make
from journal.reference.crops import nearest
from journal.source import Source
from journal.syntax.days import parse_date
from journal.syntax.nodes import Prose
from journal.syntax.verbs import BY_FORM, SHEET_WORDS, verb_at

# What people call a thing of the plot, and the sheet's word for it.
_KINDS = {
    "house": "greenhouse glasshouse polytunnel tunnel conservatory",
    "frame": "coldframe",
    "pot": "container tub planter growbag trough",
    "tank": "butt barrel cistern",
    "bay": "bin heap",
    "bed": "border patch",
    "store": "shed cellar larder",
    "worth": "price value",
    "material": "fertiliser fertilizer manure compost",
    "person": "helper",
}
_WORD_FOR = {said: word for word, names in _KINDS.items() for said in names.split()}
_TIME = re.compile(r"\b\d+\s*(?:h|hr|hrs|hours?|min|mins|minutes?)\b|\b\d+h\d+\b", re.IGNORECASE)
_WEATHER = re.compile(
    r"(?:snow|wind|sun|sunny|fog|foggy|mist|misty|hail|sleet|thunder|dry|wet|warm|hot|cold|mild|gale"
    r"|gales|drizzle|showers?|overcast|cloudy|dull|min|max|temp)$"
)
_FIGURE = re.compile(r"\s+(?=[\d£$€½¼¾])")


def no_verb(line: Prose, source: Source) -> list[Problem]:
    """What to tell of a dash line without a verb; nothing of any other prose."""
    if not line.dash_word:
        return []
    word = line.dash_word.lower()
    written = source.slice(line.span).partition("\n")[0]
    rest = " ".join(written.partition(line.dash_word)[2].split())
    meant = _meant(word, rest)
    if parse_date(_line(written)) is not None:
        meant = f"take its dash away: `{_line(written)}`"
    bare = _line(written).lstrip("[]xX_*+>·. ")
    if bare != written.lstrip()[1:].strip() and verb_at(bare, 0):
        meant = f"write `- {bare}`"
    if meant is None and _WEATHER.match(word):
        meant = f"write `- weather {_line(written)}`"
    if meant is None:
        verbs = [form for form in BY_FORM if " " not in form]
        likely = nearest(word, [*verbs, *sorted(SHEET_WORDS)], 1)
        meant = f"write `{likely[0]}`" if likely else _as_job(word, written)
    return [make("J103", source, line.dash_span, mend=meant, word=line.dash_word)]


def _as_job(word: str, written: str) -> str | None:
    """`fix the gate 20 min` took time, so that it was work: any work is a `job`."""
    line = _line(written)
    if not _TIME.search(line) or not word.isalpha():
        return None
    return f"write `- job {line}`"


def _line(written: str) -> str:
    return written.lstrip("-–• \t").strip()


def _meant(word: str, rest: str) -> str | None:
    """A declaration short of its comma, or by another name than the sheet's."""
    if word == "split" and rest:
        return f"write what it becomes: `- split {rest} into {rest}a, {rest}b`"
    if word == "rename" and rest:
        return f"write its new name: `- rename {rest} to NAME`"
    kind = word if word in SHEET_WORDS else _WORD_FOR.get(word)
    name = rest.removeprefix("of ").removeprefix("for ").rstrip(" .;:")
    proper = name[:1].isupper() or kind == "worth" or word in SHEET_WORDS
    if kind is None or not name or not proper:
        return None
    if "," not in name:
        name = _FIGURE.sub(", ", name, count=1)
    return f"write `- {kind} {name}`" if "," in name or word != kind else None
