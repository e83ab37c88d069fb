"""How many plants: came up, are alive, were lost; and what is left in store."""

from dataclasses import replace
from typing import Any

import pandas as pd

from journal.questions.acting import done_events
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import evidence_of, record_words, surely_in, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.saying import capital, counted, crop_said, figure, kilograms, listed
from journal.questions.spans import take_period
from journal.questions.topic import Thing, Topic, take_topic
from journal.studies.plants import batches, plant_events
from journal.studies.stays import stays
from journal.studies.store_room import Left, left_in_store
from journal.studies.tallies import tally, tally_by

# as the study of the store room has them
_TAKEN = ("use", "waste", "give", "sell", "swap")
_ROW = ["crop", "cultivar", "label", "started", "sown", "up", "pct_up"]


def answer_came_up(asked: Asked) -> Answer:
    """`how many leeks came up`: seedlings counted, of the seeds that they are known to be of."""
    if asked.parts[0].kind == "aux":
        raise NotThisKindError
    share = asked.take("kind", "per_cent") is not None
    if not asked.take("head", "how_many"):
        asked.take("head", "what", "how_much", "how_well")
        if not share and not asked.has("act", "up"):
            raise NotThisKindError
    if asked.has("aux", "is", "was") and asked.take("particle", "up"):
        asked.take("aux", "is", "was")
    elif not share:
        asked.need("act", "up")
    else:
        asked.take("act", "up")
        asked.take_all("preposition", "for")
    asked.take("act", "sow")
    asked.pass_over("did", "was", "have", "get", "do")
    asked.take("noun", "seeds", "plants")
    topic = take_topic(asked)
    period = take_period(asked)
    asked.done()
    frame = batches(asked.diary)
    frame = frame[frame["how_started"] == "sow"].assign(
        date=frame["started"], date_end=frame["started"]
    )
    rows = surely_in(_of(topic, frame), period)
    if rows.empty and period is not None and period.before is not None:
        period = period.before
        rows = surely_in(_of(topic, frame), period)
    said = f" of those sown {period.said}" if period else ""
    counted_up = rows[rows["up"].notna()]
    if counted_up.empty:
        what = topic.what or "seedlings"
        return nothing(
            f"No number of {what} coming up is written{said}; {record_words(asked.diary)}."
        )
    return _came_up(asked, topic, rows, counted_up, said, share)


def _of(topic: Topic, frame: pd.DataFrame) -> pd.DataFrame:
    if topic.places:
        raise RefusedError("a batch is not counted up by place; ask without the place")
    return topic.rows(frame)


def _came_up(
    asked: Asked, topic: Topic, rows: pd.DataFrame, up: pd.DataFrame, said: str, share: bool
) -> Answer:
    total = tally(up, "up").total or 0.0
    known = up[up["sown"].notna()]
    sown = tally(known, "sown").total or 0.0
    per_cent = 100 * (tally(known, "up").total or 0.0) / sown if sown else None
    of_sown = f" of {figure(sown)}" if len(known) == len(up) else ""
    rate = f", {per_cent:.0f} %" if per_cent is not None and of_sown else ""
    years = tally_by(up.assign(year=up["started"].dt.year), "up", ["year"]).sort_values("year")
    each = [f"{figure(float(row['up']))} in {int(row['year'])}" for row in years.to_dict("records")]
    parts = f": {listed(each)}" if len(each) > 1 else ""
    left = len(rows) - len(up)
    if share and not of_sown:
        return nothing(f"Not all sowings of {topic.said} say how many seeds, so no per cent.")
    return Answer(
        True,
        capital(f"{figure(total)}{of_sown} {topic.said or 'seeds'} came up{said}{rate}{parts}."),
        value=round(per_cent, 6) if share and per_cent is not None else total,
        rows=table_rows(up[_ROW]),
        evidence=_evidence(asked, up),
        caveats=(f"{counted(left, 'sowing')} with no count of what came up",) if left else (),
    )


def _evidence(asked: Asked, frame: pd.DataFrame) -> Any:
    """The sowings and the lines that count what came up."""
    joined = plant_events(asked.diary)
    wanted = joined[joined["batch"].isin(list(frame["batch"])) & joined["stage"].eq("up")]
    events = asked.diary.events
    mine = {*frame["event"], *wanted["event"]}
    return evidence_of(asked.diary, events[events["event"].isin(mine)])


def answer_alive(asked: Asked) -> Answer:
    """`how many leeks are alive`, `how many tomatoes have I got`: what stands today."""
    asked.need("head", "how_many")
    asked.take("noun", "plants")
    alive = asked.take_all("state", "alive", "in_ground", "still", "left", "under_cover")
    now = asked.take("aux", "is")
    have = asked.take("aux", "have")
    got = asked.take("aux", "get")
    if not alive and not now and not (have and got):
        raise NotThisKindError
    asked.pass_over("do")
    topic = take_topic(asked)
    today = asked.take("period")
    asked.done()
    if today is not None and (today.period is None or today.period.first != asked.clock.today):
        raise RefusedError("how many stand is told of today only")
    if not topic.crops and not topic.places:
        raise NotThisKindError
    if {part.name for part in alive} == {"left"} and _in_store(asked, topic):
        return _left(asked, topic)
    frame = topic.anywhere().rows(stays(asked.diary))
    if topic.places:
        names = {name for place in topic.places for name in (*place.names, place.said)}
        frame = frame[frame["ground"].isin(names) | frame["place"].isin(names)]
    living = frame["alive_high"].isna() | (frame["alive_high"] > 0)
    rows = frame[frame["until_first"].isna() & living]
    today_said = day_words(asked.clock.today)
    if rows.empty:
        return nothing(f"By the diary no {topic.what} stands on {today_said}.")
    return _alive(asked, topic, rows, today_said)


def _alive(asked: Asked, topic: Topic, rows: pd.DataFrame, today: str) -> Answer:
    low = tally(rows, "alive_low").total or 0.0
    bounded = rows["alive_high"].notna().all()
    high = tally(rows, "alive_high").total if bounded else None
    exact = high is not None and low == high
    if exact:
        number = figure(low)
    elif high is None:
        number = f"at least {figure(low)}" if low else "an unknown number of"
    else:
        number = (
            f"at most {figure(high)}" if not low else f"between {figure(low)} and {figure(high)}"
        )
    events = asked.diary.events
    uncounted = () if exact else ("some were picked or taken without a count",)
    return Answer(
        True,
        capital(
            f"{number} {topic.said or 'plants'} stand{f' {topic.there}' if topic.there else ''} "
            f"by the diary on {today}."
        ),
        value=low if exact else None,
        rows=table_rows(
            rows[["crop", "cultivar", "place", "stage", "alive", "alive_low", "alive_high"]]
        ),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(rows["event"]))]),
        caveats=uncounted,
    )


# ---------------------------------------------------------------- in store


def answer_in_store(asked: Asked) -> Answer:
    """`how many onions are left in store`, `what is left in store`."""
    if not asked.take("head", "how_many", "how_much", "what") and not (
        asked.parts[0].kind in ("aux", "thing") and asked.has("thing")
    ):
        raise NotThisKindError
    asked.take("unit", "kg")
    asked.take("kind", "weight")
    asked.pass_over("is", "have", "get", "do")
    states = asked.take_all("state", "left", "in_store", "still")
    if not states and not asked.has("place"):
        raise NotThisKindError
    topic = take_topic(asked)
    asked.done()
    stores = _stores(asked)
    in_stores = bool(topic.places) and all(place.said in stores for place in topic.places)
    if not ({part.name for part in states} & {"left", "in_store"} or in_stores):
        raise NotThisKindError
    if any(place.said not in stores for place in topic.places):
        raise NotThisKindError
    return _left(asked, topic)


def _stores(asked: Asked) -> set[str]:
    return {place.name for place in asked.diary.sheet.places if place.kind == "store"}


def _in_store(asked: Asked, topic: Topic) -> bool:
    rows = topic.anywhere().rows(done_events(asked.diary))
    return bool((rows["verb"] == "store").any())


def _left(asked: Asked, topic: Topic) -> Answer:
    cultivars = [thing for thing in topic.things if thing.cultivar]
    if cultivars and len(topic.things) > 1:
        raise RefusedError("the store is told of one cultivar at a time")
    events = done_events(asked.diary)
    events = events[events["date"] <= pd.Timestamp(asked.clock.today)]
    crops = topic.crops or tuple(dict.fromkeys(events.loc[events["verb"] == "store", "crop"]))
    places = {place.said for place in topic.places}
    found = [left for crop in crops if (left := left_in_store(events, crop, _stores(asked)))]
    if cultivars:
        found = _of_cultivar(asked, events, cultivars[0])
    if places:
        found = [left for left in found if set(left.rows["place"]) & places]
    if not topic.crops:
        found = [left for left in found if left.high > 0 and _recent(asked, left)]
    if not found:
        what = topic.said or "anything"
        return nothing(
            f"Nothing is written of {what} being put in store; {record_words(asked.diary)}."
        )
    said = [_left_words(left, topic.said if cultivars else "") for left in found]
    one = found[0] if len(found) == 1 else None
    rows = pd.concat([left.rows for left in found])
    exact = one is not None and one.low == one.high
    return Answer(
        True,
        f"There is {listed(said)} left in store, of what went in since {_since(found)}.",
        value=one.low if one is not None and exact else None,
        unit="kg" if one is not None and exact and one.column == "mass_kg" else None,
        rows=tuple(
            {
                "crop": left.crop,
                "stored": left.stored,
                "left_low": left.low,
                "left_high": left.high,
                "unit": "kg" if left.column == "mass_kg" else "",
            }
            for left in found
        ),
        evidence=evidence_of(asked.diary, rows),
        caveats=("by what was written in and out; what was used unwritten is not known",),
    )


def _recent(asked: Asked, left: Left) -> bool:
    return (pd.Timestamp(asked.clock.today) - left.since).days < 366


def _since(found: list[Left]) -> str:
    first = min(left.since for left in found)
    return f"{first:%B %Y}"


def _of_cultivar(asked: Asked, events: pd.DataFrame, thing: Thing) -> list[Left]:
    """The balance of one cultivar; what was taken of its crop with none named may be of it."""
    crop = thing.crops[0]
    own = events[events["crop"].eq(crop)]
    left = left_in_store(own[own["cultivar"].eq(thing.cultivar)], crop, _stores(asked))
    if left is None:
        return []
    unsaid = own[own["cultivar"].eq("") & own["verb"].isin(_TAKEN) & own["date"].notna()]
    unsaid = unsaid[unsaid["date_end"] >= left.since]
    perhaps = tally(unsaid, left.column).total or 0.0
    rows = pd.concat([left.rows, unsaid]).sort_values(["date", "event"])
    return [replace(left, low=max(0.0, round(left.low - perhaps, 6)), rows=rows)]


def _left_words(left: Left, said: str) -> str:
    amount = kilograms if left.column == "mass_kg" else figure
    number = (
        amount(left.low)
        if left.low == left.high
        else f"between {amount(left.low)} and {amount(left.high)}"
    )
    of = " of" if left.column == "mass_kg" else ""
    return f"{number}{of} {said or crop_said(left.crop)}"
