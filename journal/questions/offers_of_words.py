"""Acts, weather, money, time and prose that were asked about no name to questions about them."""

from collections.abc import Iterator, Sequence

from journal.questions.acts import ACTS
from journal.questions.heard import Heard, Name, asked_events
from journal.questions.offer import (
    MANY,
    NO_PASSIVE,
    WORTH,
    Maker,
    Offer,
    done_of,
    past_of,
    weighed_of,
)
from journal.questions.offers_of_crops import offers_of_crop
from journal.questions.offers_of_names import offers_of_place
from journal.questions.saying import crop_said, is_one

_BASE = {"harvest": "pick", "go_in": "plant"}
# these are asked of something, never by themselves
_OF_SOMETHING = ("lose", "see", "give", "buy", "sell", "swap", "use", "waste", "store", "rate")


def offers_of_words(heard: Heard) -> Iterator[Offer]:
    """Of each act, and of what else was asked about."""
    for name in heard.acts:
        if name not in NO_PASSIVE:
            yield from _of_act(heard, name)
    yield from _of_weather(heard)
    yield from _of_money(heard)
    yield from _of_state(heard)
    yield from _of_prose(heard)


def _of_act(heard: Heard, name: str) -> Iterator[Offer]:
    act = ACTS[name]
    rows = done_of(heard, act, asked_events(heard.diary))
    if rows.empty:
        return
    make = Maker(heard, act.noun, WORTH["act"])
    timed = rows[rows["minutes"].notna()]
    if len(timed) and name not in _BASE:
        yield make.offer("hours", f"How long did {act.noun} take{{days}}?", ("how_long",), timed)
    weighed = weighed_of(rows)
    if len(weighed):
        yield make.offer("kilos", "How much did we pick{days}?", MANY, weighed)
    text = f"What was {past_of(act, rows)}{{days}}?"
    yield make.offer("what", text, ("what", "which"), rows)
    if name not in _OF_SOMETHING:
        base = _BASE.get(name, name.replace("_", " "))
        yield make.offer("when", f"When did we last {base}?", ("when",), rows)


def _of_money(heard: Heard) -> Iterator[Offer]:
    """Of what was spent, of worth, and of weights and hours."""
    done = asked_events(heard.diary)
    make = Maker(heard, "", WORTH["kind"])
    spent = done[done["cost"].notna()]
    if len(spent) and (heard.has("kind", "cost") or heard.has("aux", "spend")):
        yield make.offer("spent", "How much did we spend{days}?", MANY, spent)
    weighed = weighed_of(done)
    if (
        len(weighed)
        and heard.has("kind", "worth", "earn")
        and heard.diary.sheet.prices
        and _yearly(heard)
    ):
        yield make.offer("worth", "What was the harvest worth{days}?", ("what",), weighed)
    if len(weighed) and heard.has("kind", "weight"):
        yield make.offer("kilos", "How much did we pick{days}?", MANY, weighed)
    timed = done[done["minutes"].notna()]
    if len(timed) and heard.has("noun", "jobs", "beds", "places"):
        what = "job" if heard.has("noun", "jobs") else "bed"
        text = f"Which {what} took the most time{{days}}?"
        yield make.offer("most", text, ("which", "what"), timed)


def _yearly(heard: Heard) -> bool:
    """Whether a whole year was asked about, or no days."""
    return heard.period is None or heard.period.year is not None


def _of_state(heard: Heard) -> Iterator[Offer]:
    make = Maker(heard, "", WORTH["state"])
    done = asked_events(heard.diary)
    if heard.has("state", "in_ground", "still", "alive"):
        yield make.offer("stands", "What is still in the ground?", ("what",), done)
    if heard.has("state", "due", "overdue", "to_do") or heard.has("ahead", "due_soon"):
        yield make.offer("due", "What is due this week?", ("what",), done)


def _of_weather(heard: Heard) -> Iterator[Offer]:
    weather = heard.diary.weather
    air = weather[(weather["place"] == "") & weather["date"].notna()]
    make = Maker(heard, "", WORTH["kind"])
    rain = air[air["variable"] == "rain"]
    if len(rain) and _asked(heard, "rain", ("how_wet",), ("wettest", "driest")):
        yield make.offer("rain", "How much rain fell{days}?", MANY, rain)
        if _yearly(heard):
            yield make.offer("wettest", "Which month was wettest{days}?", ("which",), rain)
    cold = air[air["variable"] == "t_min"]
    frosts = cold[cold["value"] <= 0]
    if len(frosts) and heard.has("kind", "frost", "last_spring_frost", "first_autumn_frost"):
        order = "first" if heard.has("order", "first") else "last"
        yield make.offer("frost", f"When was the {order} frost{{days}}?", ("when", "what"), frosts)
    heads = ("how_cold", "how_warm")
    if len(cold) and _asked(heard, "temperature", heads, ("coldest", "warmest")):
        yield make.offer("cold", "How cold did it get{days}?", heads, cold)


def _asked(heard: Heard, kind: str, heads: Sequence[str], superlatives: Sequence[str]) -> bool:
    asked = heard.has("kind", kind) or heard.head in heads
    return asked or heard.has("superlative", *superlatives)


# a shorter word stands in too many places to be looked for
_LEAST_LETTERS = 4
_SMALL = frozenset(
    "again almost also another away back because been before both come could each edit else "
    "enough ever every from give have help here into just know like list look made make many more "
    "much must near nearly need never next only other over quite same seem should show since some "
    "still such sure tell than that their them they think this those through together under until "
    "upon very want were what when where which while with without would your".split()
)


def _of_prose(heard: Heard) -> Iterator[Offer]:
    """A word that is unread and stands in the prose can be looked for there."""
    written = heard.diary.prose["text"].str.lower()
    for word in (each.lower() for each in heard.unread):
        if len(word) < _LEAST_LETTERS or not word.isalpha() or word in _SMALL:
            continue
        if written.str.contains(rf"\b{word}\b", regex=True).any():
            yield Offer(f"What did we write about {word}?", word, "prose", WORTH["prose"])


def stock(heard: Heard) -> Iterator[Offer]:
    """Of the crop and the place that are picked most often, where little was understood."""
    done = asked_events(heard.diary)
    of_crops = done[done["crop"] != ""]
    picked = of_crops[of_crops["kind"] == "harvest"]
    counts = (picked if len(picked) else of_crops)["crop"].value_counts()
    if len(counts):
        crop = str(counts.index[0])
        rows = done[done["crop"] == crop]
        yield from offers_of_crop(heard, Name("crop", crop_said(crop), rows, is_one(crop), crop), 0)
    places = picked.loc[picked["place"] != "", "place"].value_counts()
    if len(places):
        place = str(places.index[0])
        yield from offers_of_place(heard, Name("place", place, done[done["place"] == place]), 0)
    make = Maker(heard, "", 0)
    timed = done[(done["verb"] == "weed") & done["minutes"].notna()]
    if len(timed):
        yield make.offer("long", "How long did weeding take{days}?", ("how_long",), timed)
    for text in ("What is still in the ground?", "What was done this year?"):
        yield Offer(text, "", text, -1)
