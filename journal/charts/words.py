"""Figures and names as a chart or a page says them: `12.4 kg`, `1 h 30`, `potato 'Charlotte'`.

Wording only; no figure is computed here.
"""

import re
from collections.abc import Sequence

import pandas as pd

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

# one short vowel and one consonant, or a last l: `dig`, `cut`, `patrol`
_DOUBLED = re.compile(r"[^aeiou]+[aeiou][bdgmnpt]|.*[^aeiou][aeiou]l")
_QUOTED = re.compile(r"(?<!\w)'(\S.*?)'(?!\w)|`([^`]+)`")


def number(value: float, places: int = 1) -> str:
    """A figure with its thousands apart and no idle noughts: `1,204`, `12.4`."""
    text = f"{value:,.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def kilograms(kg: float) -> str:
    """A weight as a gardener says it: `850 g` below a kilogram, `12.4 kg` above."""
    grams = round(kg * 1000)
    return f"{grams} g" if grams < 1000 else f"{number(kg, 1 if kg < 100 else 0)} kg"


def duration(minutes: float) -> str:
    """Person-time: `45 min`, `1 h 30 min`, and whole hours from ten on."""
    whole = round(minutes)
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{whole} min"
    return f"{hours:,} h {rest} min" if rest else f"{hours:,} h"


def crop_name(crop: str, cultivar: str = "", place: str = "") -> str:
    """A row's name: `potato 'Charlotte' · North 3`."""
    words = crop or "several crops, weighed together"
    if cultivar:
        words += f" ‘{cultivar}’"
    return f"{words} · {place}" if place else words


def listed(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def running(verb: str) -> str:
    """A verb of the diary as work that goes on: `weeding`, `digging`, `tying in`."""
    head, _, tail = verb.partition(" ")
    if head.endswith("ie"):
        head = f"{head[:-2]}y"
    elif head.endswith("e") and not head.endswith(("ee", "oe", "ye")):
        head = head[:-1]
    elif _DOUBLED.fullmatch(head):
        head += head[-1]
    return f"{head}ing {tail}".strip()


def curly(text: str) -> str:
    """Straight and backward quotes around words as a page sets them: ‘Sungold’."""
    return _QUOTED.sub(r"‘\1\2’", text)


def some(count: int) -> str:
    """A number within a sentence: `none`, `1`, `1,204`."""
    return f"{count:,}" if count else "none"


def day_of_year(value: float) -> str:
    """A day of the season as a date without a year: 195 is `14 July`."""
    day = pd.Timestamp(2001, 1, 1) + pd.Timedelta(days=round(value) - 1)
    return f"{day.day} {day:%B}"


def year_list(frame: pd.DataFrame) -> list[int]:
    """The years of a study's frame, in order."""
    return [int(year) for year in frame["year"].dropna().drop_duplicates().sort_values()]
