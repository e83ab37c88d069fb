"""A crop, group or cultivar that was understood to questions that its entries can answer."""

from collections.abc import Iterator, Sequence

import pandas as pd

from journal.questions.acting import settled_act
from journal.questions.acts import Act
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
from journal.questions.saying import capital
from journal.questions.topic import Thing, Topic

# fewer years tell no usual day
_YEARS = 3
# what was put in earlier than this is not waited for
_GROWING_DAYS = 300


def offers_of_crop(heard: Heard, crop: Name, worth: float) -> Iterator[Offer]:
    """When it was sown or picked, how much, where, how often; what is usual, ready or left."""
    make = Maker(heard, crop.said, worth)
    for written in acts_of(heard, crop.rows, ("go_in", "harvest")):
        act = settled_act(written, Topic((Thing("crop", crop.said, (crop.crop,)),)))
        rows = done_of(heard, act, crop.rows)
        if act.name not in NO_PASSIVE and len(rows):
            yield from _of_act(make, crop, act, rows, make.acted(written.name))
    yield from _of_weights(make, crop)
    yield from _of_years(make, crop)
    yield from _ahead(make, crop)
    up = crop.rows[(crop.rows["verb"] == "up") & crop.rows["count"].notna()]
    if len(up):
        yield make.offer("up", f"How many {crop.said} came up{{days}}?", MANY, up, make.acted("up"))


def _the(name: Name) -> str:
    return name.said if name.kind == "cultivar" else f"the {name.said}"


def _of_act(
    make: Maker, crop: Name, act: Act, rows: pd.DataFrame, more: Sequence[str]
) -> Iterator[Offer]:
    the, past = _the(crop), past_of(act, rows)
    yield from _when(make, crop, act, rows, more)
    often = f"How many times {crop.was} {the} {past}{{days}}?"
    yield make.offer("often", often, ("how_often", "on_how_many_days"), rows, more)
    counted = rows[rows["count"].notna()]
    if "sow" in act.verbs and len(counted) and not crop.one:
        yield make.offer("count", f"How many {crop.said} were {past}{{days}}?", MANY, counted, more)
    placed = rows[rows["place"] != ""]
    if len(placed):
        where = f"Where {crop.was} {the} {past}{{days}}?"
        yield make.offer("where", where, ("where",), placed, more)


def _when(
    make: Maker, crop: Name, act: Act, rows: pd.DataFrame, more: Sequence[str]
) -> Iterator[Offer]:
    heard, the, past = make.heard, _the(crop), past_of(act, rows)
    asks = ("when", "how_long_ago")
    ordered = heard.has("order", "first", "last")
    if heard.when(rows)[1]:
        first = "first " if heard.has("order", "first") else ""
        text = f"When {crop.was} {the} {first}{past}{{days}}?"
        yield make.offer("when", text, asks, rows, (*more, "order") if first else more)
    if act.name == "go_in" and not ordered:
        yield make.offer("when", f"When did {the} go in?", asks, rows, more)
    else:
        order = "first" if heard.has("order", "first") else "last"
        text = f"When {crop.was} {the} {order} {past}?"
        yield make.offer("when", text, asks, rows, (*more, "order") if ordered else more)


def _of_weights(make: Maker, crop: Name) -> Iterator[Offer]:
    weighed = weighed_of(crop.rows)
    if weighed.empty:
        return
    heard = make.heard
    text = f"How many kilos of {crop.said} did we pick{{days}}?"
    yield make.offer("kilos", text, MANY, weighed, make.acted("harvest"))
    named = weighed[weighed["cultivar"] != ""]
    if crop.kind == "crop" and named["cultivar"].nunique() > 1:
        more = ("superlative",) if heard.has("superlative", "best", "most") else ()
        yield make.offer("best", f"Which {crop.crop} did best{{days}}?", ("which",), named, more)
    stored = crop.rows[crop.rows["verb"] == "store"]
    if len(stored) and crop.kind == "crop":
        more = ("state",) if heard.has("state", "left", "in_store") else ()
        text = f"How many kilos of {crop.said} are left in store?"
        yield make.offer("count", text, MANY, stored, more)


def _of_years(make: Maker, crop: Name) -> Iterator[Offer]:
    """Of the years that it was weighed in; the running one is not compared."""
    heard, weighed = make.heard, weighed_of(crop.rows)
    years = sorted({int(year) for year in weighed["date"].dt.year} - {heard.diary.today.year})
    if len(years) < 2:
        return
    more = ("superlative",) if heard.has("superlative", "best", "worst", "most", "least") else ()
    best = "worst" if heard.has("superlative", "worst", "least") else "best"
    text = f"Which year was {best} for {crop.said}?"
    yield make.offer("year", text, ("which", "what"), weighed, more)
    compared = ("compare",) if heard.has("compare") else ()
    text = f"{capital(crop.said)} in {years[-2]} against {years[-1]}?"
    yield make.offer("compare", text, (), weighed, compared)


def _ahead(make: Maker, crop: Name) -> Iterator[Offer]:
    """What is usual, of what has been done in years enough; and when what grows will be ready."""
    heard = make.heard
    asked = heard.has("ahead", "usually") or heard.has("aux", "will", "can")
    for kind, verb, act in (("sowing", "sow", "sow"), ("harvest", "pick", "harvest")):
        rows = crop.rows[crop.rows["kind"] == kind]
        if crop.kind != "group" and rows["date"].dt.year.nunique() >= _YEARS:
            more = (*make.acted(act), "ahead") if asked else make.acted(act)
            text = f"When do we usually {verb} {crop.said}?"
            yield make.offer("usual", text, ("when",) if asked else (), rows, more)
    since = pd.Timestamp(heard.diary.today) - pd.Timedelta(days=_GROWING_DAYS)
    grown = crop.rows[crop.rows["kind"].isin(("sowing", "planting")) & (crop.rows["date"] > since)]
    if len(grown) and heard.has("state", "ready"):
        text = f"When will {_the(crop)} be ready?"
        yield make.offer("ready", text, ("when",), grown, ("state",))


def offers_of_crop_there(heard: Heard, crop: Name, place: Name) -> Iterator[Offer]:
    """Of a crop in a place, where the diary has it there."""
    rows = crop.rows[crop.rows["event"].isin(place.rows["event"])]
    if rows.empty:
        return
    make = Maker(heard, f"{crop.said} {place.said}", 2 * WORTH["name"])
    weighed = weighed_of(rows[rows["place"] == place.said])
    if len(weighed):
        text = f"How many kilos of {crop.said} were picked from {place.said}{{days}}?"
        yield make.offer("kilos", text, MANY, weighed, make.acted("harvest"))
    for act in acts_of(heard, rows, ("go_in", "harvest")):
        done = done_of(heard, act, rows)
        if act.name not in NO_PASSIVE:
            text = f"When {crop.was} {_the(crop)} in {place.said} last {past_of(act, done)}?"
            yield make.offer("when", text, ("when",), done, make.acted(act.name))


def offers_of_two(heard: Heard, one: Name, other: Name) -> Iterator[Offer]:
    """Of two crops or cultivars side by side, in a year that both were weighed in."""
    first, second = weighed_of(one.rows), weighed_of(other.rows)
    shared = first[first["date"].dt.year.isin(second["date"].dt.year)]
    if shared.empty:
        return
    make = Maker(heard, f"{one.said} {other.said}", 2 * WORTH["name"])
    more = ("compare",) if heard.has("compare") else ()
    text = f"{capital(one.said)} against {other.said}{{days}}?"
    yield make.offer("compare", text, ("which",), shared, more)
