"""A place, person, material or sighting that was understood to questions about it."""

from collections.abc import Iterator

from journal.questions.acts import ACTS
from journal.questions.heard import Heard, Name
from journal.questions.offer import (
    MANY,
    NO_PASSIVE,
    WORTH,
    Maker,
    Offer,
    acts_of,
    done_of,
    past_of,
    weighed_of,
)

_DEALINGS = {"give": "", "buy": "from ", "sell": "to ", "swap": "with "}
_OF_MATERIALS = ("spread", "fit", "feed", "treat", "fetch", "buy", "dig_in", "mulch")
_OF_PLACES = ("weed", "water", "turn", "fill")
# what the crops of a place are put in and picked is asked by crop
_BY_CROP = ("go_in", "harvest")


def offers_of_place(heard: Heard, place: Name, worth: float) -> Iterator[Offer]:
    """What stood in it, what was picked from it and done in it, what it holds, how warm it was."""
    make = Maker(heard, place.said, worth)
    yield from _held(make, place)
    for act in acts_of(heard, place.rows, _OF_PLACES):
        if act.name in NO_PASSIVE:
            continue
        rows = done_of(heard, act, place.rows)
        more = make.acted(act.name)
        text = f"When was {place.said} last {past_of(act, rows)}?"
        yield make.offer("when", text, ("when", "how_long_ago"), rows, more)
        timed = rows[rows["minutes"].notna()]
        if len(timed) and act.name not in _BY_CROP:
            text = f"How long did {act.noun} {place.said} take{{days}}?"
            yield make.offer("long", text, ("how_long",), timed, more)
    yield from _warmth(make, place)
    weighed = weighed_of(place.rows[place.rows["place"] == place.said])
    if len(weighed):
        text = f"How much did we pick from {place.said}{{days}}?"
        yield make.offer("kilos", text, MANY, weighed, make.acted("harvest"))
    yield make.offer("did", f"What was done in {place.said}{{days}}?", ("what",), place.rows)


def _held(make: Maker, place: Name) -> Iterator[Offer]:
    """What a bay or a tank holds, and what stood in a bed."""
    declared = make.heard.diary.sheet.place_on(place.said, make.heard.diary.today)
    stuff = {"bay": "compost", "tank": "water"}.get(declared.kind if declared else "")
    put = place.rows[place.rows["kind"].isin(("planting", "sowing"))]
    if stuff:
        text = f"How much {stuff} is in {place.said}?"
        yield make.offer("held", text, ("how_full", *MANY), place.rows)
    elif len(put):
        text = f"What was in {place.said}{{days}}?"
        yield make.offer("stood", text, ("what", "where"), put)


def _warmth(make: Maker, place: Name) -> Iterator[Offer]:
    weather = make.heard.diary.weather
    there = weather[(weather["place"] == place.said) & weather["date"].notna()]
    asked = make.heard.head in ("how_cold", "how_warm") or make.heard.has("kind", "temperature")
    asked = asked or make.heard.has("superlative", "coldest", "warmest")
    warm = there[there["variable"].isin(("t_min", "t_max"))]
    if asked and len(warm):
        text = f"How cold did {place.said} get{{days}}?"
        yield make.offer("warmth", text, ("how_cold", "how_warm"), warm, ("kind",))
    probed = place.rows[place.rows["temperature_c"].notna()]
    if asked and len(probed):
        text = f"How hot did {place.said} get{{days}}?"
        yield make.offer("warmth", text, ("how_cold", "how_warm"), probed, ("kind",))


def offers_of_person(heard: Heard, person: Name) -> Iterator[Offer]:
    """What was given, sold, bought or swapped."""
    make = Maker(heard, person.said, WORTH["name"])
    for name, joint in _DEALINGS.items():
        rows = ACTS[name].rows(person.rows)
        if len(rows):
            text = f"What did we {name} {joint}{person.said}{{days}}?"
            yield make.offer(name, text, ("what",), rows, make.acted(name))


def offers_of_material(heard: Heard, material: Name) -> Iterator[Offer]:
    """When it was last handled, how much of it, and what it cost."""
    make = Maker(heard, material.said, WORTH["name"])
    for act in acts_of(heard, material.rows, _OF_MATERIALS):
        if act.name in (*NO_PASSIVE, "go_in"):
            continue
        rows = done_of(heard, act, material.rows)
        more = make.acted(act.name)
        text = f"When {material.was} {material.said} last {act.past}?"
        yield make.offer("when", text, ("when", "how_old", "how_long"), rows, more)
        measured = rows[rows["volume_l"].notna()]
        if len(measured):
            text = f"How much {material.said} was {act.past}{{days}}?"
            yield make.offer("amount", text, MANY, measured, more)
    cost = material.rows[material.rows["cost"].notna()]
    if len(cost):
        more = ("kind",) if heard.has("kind", "cost") or heard.has("aux", "spend") else ()
        text = f"How much did we spend on {material.said}{{days}}?"
        yield make.offer("spent", text, MANY, cost, more)


def offers_of_subject(heard: Heard, subject: Name) -> Iterator[Offer]:
    """When it was seen, and what was lost to it."""
    make = Maker(heard, subject.said, WORTH["name"])
    seen = ACTS["see"].rows(subject.rows)
    if len(seen):
        text = f"When did we last see {subject.said}?"
        yield make.offer("when", text, ("when",), seen, make.acted("see"))
    lost = ACTS["lose"].rows(subject.rows)
    if len(lost):
        text = f"What did we lose to {subject.said}?"
        yield make.offer("lost", text, ("what",), lost, make.acted("lose"))
