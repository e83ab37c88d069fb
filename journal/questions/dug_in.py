"""Nutrients that beds and crops were given, and the days between raw manure and the picking."""

from typing import Any

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import evidence_of, record_words, surely_in, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.saying import capital, counted, crop_said, figure, listed
from journal.questions.spans import take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.feeding import feeding
from journal.studies.manure_interval import manure_interval
from journal.studies.nutrients_given import Given, grams_given

_NUTRIENTS = {"nitrogen": "N", "potash": "K2O", "potassium": "K", "phosphate": "P2O5",
              "phosphates": "P2O5", "phosphorus": "P"}  # fmt: skip
_SAID = {"N": "nitrogen", "K2O": "potash", "K": "potassium", "P2O5": "phosphate", "P": "phosphorus"}


def answer_nutrients(asked: Asked) -> Answer:
    """`how much nitrogen did Platform 3 get in 2025`: what labels and analyses tell, in grams."""
    part = asked.need("kind", "nutrient")
    asked.need("head", "how_much", "what", "how_many")
    asked.take("unit", "gram", "kg")
    asked.take("kind", "weight")
    asked.pass_over("did", "was", "have", "get", "come", "do", "take")
    asked.take("act", "give", "feed", "spread", "dig_in", "go", "go_in", "put")
    asked.take_all("preposition", "in", "on", "to", "from")
    word = asked.words(part).lower()
    nutrient = _NUTRIENTS.get(word)
    if nutrient is None:
        raise RefusedError(
            f"`{asked.words(part)}` is several; ask for nitrogen, phosphate or potash"
        )
    topic = take_topic(asked, "feed", batches=False)
    period = take_period(asked)
    asked.done()
    frame = feeding(asked.diary)
    own = frame[(frame["nutrient"] == nutrient)].assign(place_from="", kind="dressing", label="")
    rows = topic.rows(own)
    rows = surely_in(rows[rows["date"].notna()], period)
    said = f" {period.said}" if period else ""
    what = topic.what if topic.said else listed([place.said for place in topic.places])
    if rows.empty:
        return nothing(
            f"Nothing is written of {what or 'anything'} being fed or manured{said}; "
            f"{record_words(asked.diary)}."
        )
    given = grams_given(rows)
    blank = f"; {given.why}" if given.why else ""
    if given.low is None:
        times = counted(len(rows), "dressing")
        return nothing(
            f"The {_SAID[nutrient]} of {times} to {what or 'the plot'}{said} is not known{blank}."
        )
    return _given(asked, topic, rows, given, (nutrient, f"{what or 'the plot'}", said))


def _given(
    asked: Asked, topic: Topic, rows: pd.DataFrame, given: Given, words: tuple[str, str, str]
) -> Answer:
    nutrient, what, said = words
    exact = given.high is not None and round(given.low or 0, 3) == round(given.high, 3)
    one = topic.singular if topic.said else len(topic.places) < 2
    known = int(rows["event"].nunique()) - given.unknown
    fed = counted(known, "feed or dressing", "feeds and dressings")
    events = asked.diary.events
    lack = ""
    if given.unknown:
        be = "is" if given.unknown == 1 else "are"
        lack = f"{counted(given.unknown, 'dressing')} {be} not in it: {given.why}"
    return Answer(
        True,
        capital(
            f"{what} {'was' if one else 'were'} given {figure_of(given.low or 0, given.high)} of "
            f"{_SAID[nutrient]}{said}, by the labels and analyses of {fed}."
        ),
        value=round((given.low or 0) / 1000, 6) if exact else None,
        unit="kg" if exact else None,
        rows=table_rows(rows[list(_COLUMNS)]),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(rows["event"]))]),
        caveats=(lack,) if lack else (),
    )


_COLUMNS = (
    "date", "place", "crop", "material", "nutrient", "g_low", "g_high", "analysis", "why",
)  # fmt: skip


def figure_of(low: float, high: float | None) -> str:
    """`between 300 g and 420 g`, `at least 300 g`, `300 g`."""
    if high is None:
        return f"at least {_grams(low)}"
    if round(low, 1) == round(high, 1):
        return _grams(low)
    return f"between {_grams(low)} and {_grams(high)}"


def _grams(value: float) -> str:
    return f"{figure(value / 1000)} kg" if value >= 1000 else f"{figure(value, 1)} g"


def answer_manure_wait(asked: Asked) -> Answer:
    """`how many days between manure and the carrots`: raw manure to the first picking after it."""
    if not asked.take("head", "how_long"):
        asked.need("head", "how_many")
        asked.need("noun", "days", "weeks")
    things = [part for part in asked.left if part.kind == "thing"]
    raw = [p for p in things if any(s.kind == "material" and "manure" in s.name for s in p.senses)]
    if not raw:
        raise NotThisKindError
    between = asked.take("preposition", "between", "from", "after", "to") is not None
    between = between or any(part.name in ("from", "to") for part in things)
    interval = asked.take("interval")
    if not between and interval is None and not asked.has("aux", "have", "was"):
        raise NotThisKindError
    asked.take_all("act", "spread", "dig_in", "harvest", "put", "go_in", "dig", "go")
    asked.pass_over("did", "was", "is", "have", "get")
    asked.take_all("self", "it")
    asked.take_all("preposition", "between", "from", "to", "in", "on")
    asked.take("order", "first")
    topic = take_topic(asked, batches=False)
    asked.take_all("joint")
    period = take_period(asked)
    asked.done()
    if not topic.crops:
        raise RefusedError("say until which crop was picked")
    frame = manure_interval(asked.diary)
    crops = frame["crop"].isin(topic.crops) & frame["harvested"].notna()
    rows = frame[crops]
    cultivars = [thing.cultivar for thing in topic.things if thing.cultivar]
    if cultivars:
        rows = rows[rows["cultivar"].isin(cultivars)]
    if topic.places:
        names = {name for place in topic.places for name in (*place.names, place.said)}
        rows = rows[rows["place"].isin(names)]
    rows = surely_in(rows.assign(date=rows["harvested"], date_end=rows["harvested_end"]), period)
    return _wait(asked, topic, rows, f" {period.said}" if period else "")


def _wait(asked: Asked, topic: Topic, rows: Any, said: str) -> Answer:
    crops = listed([thing.said for thing in topic.things if thing.kind == "crop"])
    if rows.empty:
        return nothing(
            f"No {crops} were picked from manured ground{said}; {record_words(asked.diary)}."
        )
    order = rows.sort_values("harvested")
    words = [_wait_words(row) for row in order.to_dict("records")]
    one = len(order) == 1 and order["days_low"].iloc[0] == order["days_high"].iloc[0]
    wanted = {int(each) for cell in order["events"] for each in str(cell).split(", ") if each}
    events = asked.diary.events
    return Answer(
        True,
        capital(f"{listed(words)}."),
        value=int(order["days_low"].iloc[0]) if one else None,
        unit="days" if one else None,
        rows=table_rows(order.drop(columns=["events"])),
        evidence=evidence_of(asked.diary, events[events["event"].isin(wanted)]),
        caveats=(
            "raw manure can carry what makes people ill; the wait asked for is 7 CFR 205.203",
        ),
    )


def _wait_words(row: dict[Any, Any]) -> str:
    low, high = int(row["days_low"]), int(row["days_high"])
    days = counted(high, "day") if low == high else f"between {low} and {high} days"
    who = (
        f"'{row['cultivar']}' {crop_said(row['crop'])}"
        if row["cultivar"]
        else crop_said(row["crop"])
    )
    applied, picked = row["applied"], row["harvested"]
    return (
        f"{days} in {row['place']}, from {row['material']} on "
        f"{day_words(applied.date())} to the first {who} on {day_words(picked.date())}"
    )
