"""Two sides of a comparison as values, and the sentence that sets them against each other."""

from dataclasses import dataclass
from datetime import date

import pandas as pd

from journal.questions.acts import Act
from journal.questions.periods import Period, day_words
from journal.questions.saying import (
    capital,
    counted,
    duration,
    figure,
    kilograms,
    money,
    times,
)
from journal.questions.topic import Topic

RATE_WORDS = {
    "kg_per_m2": "kg per square metre",
    "kg_per_plant": "kg per plant",
    "kg_per_m": "kg per metre of row",
}


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a comparison and how it is named."""

    said: str
    topic: Topic
    period: Period | None


@dataclass(frozen=True, slots=True)
class Found:
    """What a side comes to: its value, its events, and how many of them lack a figure."""

    value: float | None
    rows: pd.DataFrame
    missing: int = 0
    whole: str = ""


@dataclass(frozen=True, slots=True)
class Sought:
    """What is compared: the act and the measure, and which way the question leans."""

    act: Act | None
    measure: str
    lean: str
    yes_or_no: bool
    to_day: date | None = None
    currency: str = ""


LESS = ("less", "worse", "earlier")


def bare_period(period: Period) -> str:
    """A period without its preposition: `2025`, `June 2025`."""
    return period.said.removeprefix("in ").removeprefix("so far in ")


def comparison(
    sought: Sought, sides: tuple[Side, Side], values: tuple[float, float], found: list[Found]
) -> str:
    """The two sides and their difference in one sentence, with yes or no where that is asked."""
    gap = values[0] - values[1]
    reply = ""
    if sought.yes_or_no:
        yes = gap < 0 if sought.lean in LESS else gap > 0
        reply = "yes, " if yes else "no, "
    if sought.measure == "days":
        told = _first_said(sought, sides, found, gap)
    else:
        to_day = f" by {sought.to_day.day} {sought.to_day:%B}" if sought.to_day else ""
        difference = _difference(sought, gap, values[1])
        told = f"{_told(sought, sides, values)}{to_day}: {difference}"
    return capital(f"{reply}{told}.")


def _told(sought: Sought, sides: tuple[Side, Side], values: tuple[float, float]) -> str:
    """`courgettes came to 45.2 kg in 2025 against 9.4 kg in 2024`."""
    one, other = sides
    said = [side_amount(sought, value) for value in values]
    across_periods = one.topic == other.topic
    verb = _VERBS.get(sought.measure, "came to")
    if sought.measure in ("spent", "seed", "earned"):
        return _money_told(sought, sides, said)
    if sought.measure == "count":
        return _number_told(sought, sides, said)
    if sought.measure in ("rain", "frost", "sun"):
        return f"{verb} {said[0]} in {one.said} against {said[1]} in {other.said}"
    job = sought.act.noun if sought.act and sought.measure in _OF_ACTS else ""
    work = job or ("work" if sought.measure == "minutes" else "")
    if across_periods:
        what = " ".join(filter(None, [work, one.topic.what])) or "the harvest"
        return f"{what} {verb} {said[0]} in {one.said} against {said[1]} in {other.said}"
    period = f" {one.period.said}" if one.period else ""
    names = [_name(side, work) for side in sides]
    return f"{names[0]} {verb} {said[0]} against {said[1]} for {names[1]}{period}"


_VERBS = {
    "minutes": "took", "times": "was done", "rain": "there was", "frost": "there were",
    "sun": "there were",
}  # fmt: skip


_OF_ACTS = ("minutes", "times")


def _number_told(sought: Sought, sides: tuple[Side, Side], said: list[str]) -> str:
    """`82 leeks were planted in 2024 against 94 onions`."""
    one, other = sides
    done = f"were {sought.act.past if sought.act else 'written'}"
    period = f" {one.period.said}" if one.period else ""
    if one.topic == other.topic:
        return f"{said[0]} {one.topic.what} {done} in {one.said} against {said[1]} in {other.said}"
    return f"{said[0]} {one.topic.what} {done} against {said[1]} {other.topic.what}{period}"


def _money_told(sought: Sought, sides: tuple[Side, Side], said: list[str]) -> str:
    """`£51.55 was spent on seed in 2025 against £48 in 2024`."""
    one, other = sides
    done = "earned" if sought.measure == "earned" else "spent"
    link = "with" if done == "earned" else "on"
    seed = " on seed" if sought.measure == "seed" else ""
    period = f" {one.period.said}" if one.period else ""
    if one.topic == other.topic:
        what = f" {link} {one.topic.what}" if one.topic.what else seed
        return f"{said[0]} was {done}{what} in {one.said} against {said[1]} in {other.said}"
    names = [side.topic.what or side.said for side in sides]
    return f"{said[0]} was {done} {link} {names[0]} against {said[1]} {link} {names[1]}{period}"


def _name(side: Side, work: str) -> str:
    """The side as the subject of a sentence: `peas`, `Platform 1`, `weeding in Platform 1`."""
    if work or side.topic.said:
        return " ".join(filter(None, [work, side.topic.what]))
    return side.said


def _first_said(sought: Sought, sides: tuple[Side, Side], found: list[Found], gap: float) -> str:
    one, other = sides
    days = [day_words(_day_of(each)) for each in found]
    done = f"first {sought.act.past if sought.act else 'picked'}"
    way = f"{counted(abs(gap), 'day')} {'later' if gap > 0 else 'earlier'} in its year"
    end = way if gap else "the same day of the year"
    be = "was" if one.topic.singular else "were"
    if one.topic == other.topic:
        return f"{one.topic.what} {be} {done} on {days[0]} against {days[1]}: {end}"
    return f"{one.topic.what} {be} {done} on {days[0]}, {other.topic.what} on {days[1]}: {end}"


def _day_of(found: Found) -> date:
    stamp = found.rows["date"].iloc[0]
    return date(stamp.year, stamp.month, stamp.day)


def side_amount(sought: Sought, value: float) -> str:
    """One side's figure as it is spoken."""
    if sought.measure in RATE_WORDS:
        return f"{figure(value)} {RATE_WORDS[sought.measure]}"
    if sought.measure == "kg":
        return kilograms(value)
    if sought.measure == "minutes":
        return duration(value)
    if sought.measure in ("spent", "seed", "earned"):
        return money(value, sought.currency)
    if sought.measure == "sun":
        return f"{figure(value)} hours of sun"
    if sought.measure == "rain":
        return f"{figure(value)} mm of rain"
    if sought.measure == "frost":
        return counted(value, "night with frost", "nights with frost")
    return figure(value) if sought.measure == "count" else times(round(value))


def _difference(sought: Sought, gap: float, base: float) -> str:
    if not gap:
        return "the same"
    per_cent = f" ({100 * gap / base:+.0f} %)" if base else ""
    if sought.measure == "times":
        return f"{counted(abs(gap), 'time')} {'more' if gap > 0 else 'fewer'}{per_cent}"
    if sought.measure in ("frost", "count"):
        return f"{abs(gap):.0f} {'more' if gap > 0 else 'fewer'}{per_cent}"
    amount = side_amount(sought, abs(gap)).removesuffix(" of rain").removesuffix(" of sun")
    return f"{amount} {'more' if gap > 0 else 'less'}{per_cent}"
