"""Where a crop stood, where something was done, and what stood in a place, then or today."""

from dataclasses import replace
from typing import Any

import pandas as pd

from journal.questions.acting import act_events, past, settled_act, take_act
from journal.questions.acts import Act
from journal.questions.asked import Asked, NotThisKindError
from journal.questions.evidence import (
    dated,
    day,
    event_rows,
    evidence_of,
    record_words,
    table_rows,
)
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import Period, day_words, one_day, year_period
from journal.questions.saying import capital, crop_said, figure, is_one, listed, placed
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.stays import GLASS, stays, stood

# beyond so many crops only their names are said
_MOST_IN_FULL = 8
_COLUMNS = ["crop", "cultivar", "label", "place", "stage", "since_first", "since_last"]
_STOOD = [*_COLUMNS, "until_first", "until_last"]
_ALIVE = [*_COLUMNS, "alive", "alive_low", "alive_high"]


def answer_where_done(asked: Asked) -> Answer:
    """`where did I sow the carrots last year`, `where did the manure go`."""
    _take_where(asked)
    asked.pass_over("did", "was", "have")
    if asked.has("aux", "grow"):
        raise NotThisKindError
    act = take_act(asked)
    topic = take_topic(asked, act.name)
    period = take_period(asked)
    asked.done()
    act = settled_act(act, topic)
    span = span_of(dated(act_events(asked, act, topic, whole=True)), period)
    what = topic.what or "anything"
    if act.name == "buy":
        return _bought(asked, what, topic, span)
    rows = span.rows[span.rows["place"] != ""]
    if rows.empty:
        return nothing(
            f"No place is written for {what} being {act.past}{span.said}; "
            f"{record_words(asked.diary)}.",
            span.doubts,
        )
    latest = rows
    if period is None and not topic.places:
        latest = rows[rows["date"].dt.year == rows["date"].dt.year.max()]
    places = list(dict.fromkeys(latest["place"]))
    year = "" if period or topic.places else f" in {int(latest['date'].dt.year.max())}"
    one = topic.singular or not topic.said
    return Answer(
        True,
        capital(f"{_done_there(what, act, topic, latest, one=one)}{span.said}{year}."),
        value=places[0] if len(places) == 1 else None,
        rows=event_rows(latest),
        evidence=evidence_of(asked.diary, latest),
        caveats=(*topic.notes, *span.doubts),
    )


# done to the ground itself, where no crop or goods are named
_OF_GROUND = ("manure", "lime", "mulch", "weed", "hoe", "dig", "fork", "rake", "water", "feed")


def _done_there(what: str, act: Act, topic: Topic, rows: pd.DataFrame, *, one: bool) -> str:
    """`leeks were planted out in Platform 1`, `Signal bed and Coal yard were manured`."""
    places = list(dict.fromkeys(rows["place"]))
    if act.name in _OF_GROUND and not topic.things:
        return f"{listed(places)} {'was' if len(places) == 1 else 'were'} {act.past}"
    done = placed(past(act, rows), f"{_in(act)} {listed(places)}")
    return f"{what} {'was' if one else 'were'} {done}"


def _bought(asked: Asked, what: str, topic: Topic, span: Span) -> Answer:
    """Where something was bought is from whom."""
    rows = span.rows[span.rows["party"] != ""]
    if rows.empty:
        return nothing(
            f"No seller is written for {what}{span.said}; {record_words(asked.diary)}.",
            span.doubts,
        )
    sellers = listed(list(dict.fromkeys(rows["party"])))
    return Answer(
        True,
        capital(f"{what} {'was' if topic.singular else 'were'} bought from {sellers}{span.said}."),
        rows=event_rows(rows),
        evidence=evidence_of(asked.diary, rows),
        caveats=(*topic.notes, *span.doubts),
    )


def _in(act: Act) -> str:
    return {"harvest": "from", "lose": "in", "spread": "on", "mulch": "on", "fit": "on"}.get(
        act.name, "in"
    )


def _take_where(asked: Asked) -> None:
    """`where`, or `which bed`, which may end in a lone `in`."""
    if asked.take("head", "where"):
        return
    asked.need("head", "which", "what")
    asked.need("noun", "beds", "places")
    asked.take_all("preposition", "in", "on")


def answer_where_stood(asked: Asked) -> Answer:
    """`where were the brassicas in 2023`, `where are the leeks`."""
    _take_where(asked)
    now = asked.take("aux", "is") is not None
    asked.pass_over("did", "was", "have", "grow", "do")
    asked.take_all("state", "still", "in_ground")
    each = asked.take("each", "years")
    topic = take_topic(asked)
    if not topic.crops or topic.places:
        raise NotThisKindError
    period = take_period(asked)
    asked.done()
    frame = _of_topic(stays(asked.diary), topic)
    if now and period is None:
        frame = _standing(frame)
    sure, perhaps = _in_days(frame, period)
    grown = sure[(sure["place"] != "") & ~sure["raised"].astype(bool)]
    if each is not None and len(grown):
        return _each_year(asked, topic, grown, _doubts(perhaps, ""))
    if period is None and not now and len(grown):
        grown, period = _latest_year(asked, grown)
    said = f" {period.said}" if period else " now" if now else ""
    if grown.empty and len(sure) and now:
        grown = sure[sure["place"] != ""]
    if grown.empty:
        return nothing(
            f"The diary places no {topic.said}{said}; {record_words(asked.diary)}.",
            _doubts(perhaps, said),
        )
    places = list(dict.fromkeys(grown["place"]))
    details = [_who(grown[grown["place"] == place], topic) for place in places]
    spots = [f"{place}{who}" for place, who in zip(places, details, strict=True)]
    verb = ("is" if topic.singular else "are") if now else ("was" if topic.singular else "were")
    return Answer(
        True,
        capital(f"{topic.said} {verb} in {listed(spots)}{said}."),
        value=places[0] if len(places) == 1 else None,
        rows=table_rows(grown[_STOOD]),
        evidence=_evidence(asked, grown),
        caveats=(*_raised(sure), *_doubts(perhaps, said)),
    )


def _each_year(asked: Asked, topic: Topic, grown: pd.DataFrame, doubts: tuple[str, ...]) -> Answer:
    """`where has garlic been each year`: place by place, from when to when."""
    order = grown.sort_values(["since_first", "place"])
    spots = [
        f"{row['place']}{_crop_of(row, topic)} {_from_to(row['since_first'], row['until_last'])}"
        for row in order.to_dict("records")
    ]
    verb = "was" if topic.singular else "were"
    return Answer(
        True,
        capital(f"{topic.said} {verb} in {'; '.join(dict.fromkeys(spots))}."),
        rows=table_rows(order[_STOOD]),
        evidence=_evidence(asked, order),
        caveats=(*topic.notes, *doubts),
    )


def _crop_of(row: dict[Any, Any], topic: Topic) -> str:
    return f" ({crop_said(str(row['crop']))})" if len(topic.crops) > 1 else ""


def _from_to(first: pd.Timestamp, last: pd.Timestamp) -> str:
    """`from October 2023 to July 2024`, `since October 2025`."""
    if pd.isna(last):
        return f"since {first:%B %Y}"
    same = (first.year, first.month) == (last.year, last.month)
    return f"in {first:%B %Y}" if same else f"from {first:%B %Y} to {last:%B %Y}"


def _who(rows: pd.DataFrame, topic: Topic) -> str:
    """Which crops of a group, or cultivars of a crop, stood there."""
    if len(topic.crops) > 1:
        words = [crop_said(crop) for crop in dict.fromkeys(rows["crop"])]
    else:
        named = any(thing.cultivar for thing in topic.things)
        words = [] if named else [f"'{name}'" for name in dict.fromkeys(rows["cultivar"]) if name]
    return f" ({listed(words, most=5)})" if words else ""


def _latest_year(asked: Asked, rows: pd.DataFrame) -> tuple[pd.DataFrame, Period]:
    """Of a crop asked for without a year, where it stands or last stood."""
    end = rows["until_last"].fillna(pd.Timestamp(asked.clock.today))
    year = int(end.dt.year.max())
    return rows[end.dt.year == year], year_period(year, asked.clock.today)


def _of_topic(frame: pd.DataFrame, topic: Topic) -> pd.DataFrame:
    """The stays of a topic; a place holds what stood on any of its ground."""
    for_crops = replace(topic, places=())
    rows = for_crops.rows(frame)
    if topic.places:
        wanted = {name for place in topic.places for name in (*place.names, *place.wholes)}
        rows = rows[rows["place"].isin(wanted)]
    return rows


def _standing(frame: pd.DataFrame) -> pd.DataFrame:
    """What stands today: nothing says that it ended, and it is more than what may be left."""
    alive = frame["alive_high"].isna() | (frame["alive_high"] > 0)
    alive &= ~frame["may_be_left"].astype(bool)
    kept = frame[frame["until_first"].isna() & frame["until_last"].isna() & alive]
    return kept.assign(place=kept["ground"])


def _in_days(frame: pd.DataFrame, period: Period | None) -> tuple[pd.DataFrame, pd.DataFrame]:
    if period is None:
        return frame, frame.iloc[0:0]
    first = pd.Timestamp(period.first) if period.first else None
    last = pd.Timestamp(period.last) if period.last else None
    return stood(frame, first, last)


def _raised(sure: pd.DataFrame) -> tuple[str, ...]:
    places = list(dict.fromkeys(sure.loc[sure["raised"].astype(bool), "place"]))
    return (f"raised before that in {listed(places)}",) if places else ()


def _doubts(perhaps: pd.DataFrame, said: str) -> tuple[str, ...]:
    if perhaps.empty:
        return ()
    words = list(
        dict.fromkeys(
            f"{crop_said(row['crop'])} in {row['place']}"
            for row in perhaps.to_dict("records")
            if row["place"]
        )
    )
    return (
        (f"the diary leaves open whether {listed(words, most=6)} still stood{said}",)
        if words
        else ()
    )


def _evidence(asked: Asked, rows: pd.DataFrame) -> tuple[Evidence, ...]:
    events = asked.diary.events
    wanted = [int(event) for event in rows["event"].dropna()]
    return evidence_of(asked.diary, events[events["event"].isin(wanted)])


# ---------------------------------------------------------------- what stood in a place


def answer_what_stood(asked: Asked) -> Answer:
    """`what was in North 2 in 2024`, `what is still in the ground`, `what is in the frame`."""
    asked.need("head", "what", "which")
    asked.take("noun", "crops", "plants", "varieties")
    now = asked.take("aux", "is") is not None
    grew = asked.take("aux", "grow") is not None
    if now and asked.has("place"):
        # `what is planted in the Siding`
        asked.take("act", "go_in", "plant", "sow", "plant_out")
    if asked.has("aux", "have") and asked.has("aux", "get"):
        now = True
    asked.pass_over("did", "was", "have", "get", "do", "grow", "done")
    states = {part.name for part in asked.take_all("state", "in_ground", "still", "under_cover")}
    topic = take_topic(asked)
    period = take_period(asked)
    if not (topic.places or states & {"in_ground", "under_cover"} or grew):
        raise NotThisKindError
    if topic.places and any(
        place.preposition not in ("in", "under", "on", "at", "") for place in topic.places
    ):
        raise NotThisKindError
    asked.done()
    if period is None and (now or states or not grew):
        now, period = True, one_day(asked.clock.today)
    frame = _of_topic(stays(asked.diary), topic)
    if states & {"in_ground"} or (grew and not topic.places and not topic.crops and not states):
        frame = _by_glass(asked, frame, glass=False)
    if "under_cover" in states:
        frame = _by_glass(asked, frame, glass=True)
    if now and period == one_day(asked.clock.today):
        return _what_stands(asked, topic, states, _standing(frame))
    sure, perhaps = _in_days(frame, period)
    under = next((said for state, said in _STATES.items() if state in states), "")
    return _what_stood(asked, topic, period, (sure, perhaps), under)


# where the beds and the glass stand apart
_STATES = {"under_cover": "under cover", "in_ground": "in the ground"}


def _by_glass(asked: Asked, frame: pd.DataFrame, *, glass: bool) -> pd.DataFrame:
    names = {place.name for place in asked.diary.sheet.places if place.kind in GLASS}
    under = frame["place"].isin(names)
    kept: pd.DataFrame = frame[under if glass else ~under & (frame["place"] != "")]
    return kept


def _what_stands(asked: Asked, topic: Topic, states: set[str], rows: pd.DataFrame) -> Answer:
    where = topic.there or ("in the ground" if "in_ground" in states else "under cover")
    today = day_words(asked.clock.today)
    if rows.empty:
        return nothing(f"By the diary nothing stands {where} on {today}.", topic.notes)
    order = rows.sort_values(["crop", "cultivar", "place"], kind="stable")
    items = [
        _standing_item(crop, order[order["crop"] == crop], topic)
        for crop in dict.fromkeys(order["crop"])
    ]
    return Answer(
        True,
        f"By the diary {listed(items)} {'stands' if _alone(items, order) else 'stand'} "
        f"{where} on {today}.",
        rows=table_rows(order[_ALIVE]),
        evidence=_evidence(asked, order),
        caveats=topic.notes,
    )


def _alone(items: list[str], rows: pd.DataFrame) -> bool:
    return len(items) == 1 and is_one(rows["crop"].iloc[0])


def _standing_item(crop: str, rows: pd.DataFrame, topic: Topic) -> str:
    names = [f"'{name}'" for name in dict.fromkeys(rows["cultivar"]) if name]
    places = [] if topic.places else [place for place in dict.fromkeys(rows["place"]) if place]
    low = float(rows["alive_low"].fillna(0).sum())
    exact = rows["alive"].notna().all()
    count = figure(low) if exact and low else ""
    details = " ".join(filter(None, [count, listed(names, most=4)]))
    where = f" in {listed(places, most=3)}" if places else ""
    return f"{crop_said(crop)}{f' ({details})' if details else ''}{where}"


def _what_stood(
    asked: Asked,
    topic: Topic,
    period: Period | None,
    stood: tuple[pd.DataFrame, pd.DataFrame],
    under: str,
) -> Answer:
    """`stood` surely and perhaps in these days; `under` is `under cover`, `in the ground` or ""."""
    sure, perhaps = stood
    said = f" {period.said}" if period else ""
    where = "".join(f" {words}" for words in (topic.there, under) if words)
    if sure.empty:
        return nothing(
            f"The diary puts nothing{where}{said}; {record_words(asked.diary)}.",
            (*topic.notes, *_doubts(perhaps, said)),
        )
    order = sure.sort_values(["since_first", "crop"], kind="stable")
    items = [
        _stay_item(crop, order[order["crop"] == crop]) for crop in dict.fromkeys(order["crop"])
    ]
    verb = "was" if len(items) == 1 and is_one(order["crop"].iloc[0]) else "were"
    return Answer(
        True,
        f"{capital(listed(items))} {verb}{where or ' grown'}{said}.",
        rows=table_rows(order[_STOOD]),
        evidence=_evidence(asked, order),
        caveats=(*topic.notes, *_doubts(perhaps, said)),
    )


def _stay_item(crop: str, rows: pd.DataFrame) -> str:
    names = [f"'{name}'" for name in dict.fromkeys(rows["cultivar"]) if name]
    since = rows["since_first"].min()
    # of an end that no line tells, only the first day that it may have been is told
    until = rows["until_last"].where(~rows["assumed"], rows["until_first"])
    least = " at least" if rows.loc[until == until.max(), "assumed"].all() else ""
    ends = "" if until.isna().any() else f" to {_month(until.max())}{least}"
    days = f"{_month(since)}{ends}" if ends else f"from {_month(since)}"
    details = listed(names, most=4)
    return f"{crop_said(crop)} ({f'{details}, ' if details else ''}{days})"


def _month(stamp: pd.Timestamp) -> str:
    return f"{day(stamp):%B %Y}"
