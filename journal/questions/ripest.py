"""Which cultivar or crop came first, and which came up best."""

from typing import Any

import pandas as pd

from journal.questions.acting import act_events, past, settled_act, take_act
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import dated, day, evidence_of, record_words, surely_in, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.saying import capital, crop_said, figure, listed
from journal.questions.spans import span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.plants import batches

_BY = {"varieties": "cultivar", "crops": "crop", "beds": "place", "places": "place"}


def answer_first_of(asked: Asked) -> Answer:
    """`which tomato was first to ripen in 2025`, `which crop did we pick last`."""
    head = asked.need("head", "which", "what")
    order = asked.take("order", "first", "last") or asked.take("superlative", "earliest", "latest")
    if order is None or asked.has("noun", "days", "weeks", "months", "years", "times"):
        raise NotThisKindError
    noun = asked.take("noun", *_BY)
    if head.name == "what" and noun is None:
        raise NotThisKindError
    asked.pass_over("did", "was", "have", "get", "is", "do")
    asked.take_all("preposition", "to", "in")
    come = asked.take("aux", "come")
    asked.take("state", "ready")
    act = take_act(asked) if asked.has("act") else ACTS["harvest"]
    del come
    topic = take_topic(asked, act.name)
    period = take_period(asked)
    asked.done()
    by = _BY[noun.name] if noun else "cultivar"
    if by == "cultivar" and not topic.crops:
        raise NotThisKindError
    act = settled_act(act, topic)
    span = span_of(dated(act_events(asked, act, topic)), period)
    rows = span.rows[(span.rows[by] != "") & (span.rows["date"] == span.rows["date_end"])]
    if period is None and len(rows):
        raise RefusedError("say in which year")
    if rows.empty:
        return nothing(
            f"Nothing is written of {topic.being(act.name, act.past, act.noun)}{span.said}; "
            f"{record_words(asked.diary)}."
        )
    late = order.name in ("last", "latest")
    keys = ["crop", "cultivar"] if by == "cultivar" else [by]
    edges = rows.groupby(keys)["date"]
    days = (edges.max() if late else edges.min()).reset_index()
    days = days.sort_values("date", ascending=not late, kind="stable")
    edge = days[days["date"] == days["date"].iloc[0]]
    stamp = day(days["date"].iloc[0])
    winner = listed([_name(row, by, topic) for row in edge.to_dict("records")])
    rest = days.iloc[len(edge) :]
    after = ""
    if len(rest):
        row = {str(key): cell for key, cell in rest.iloc[0].items()}
        after = f"; next {_name(row, by, topic)}, on {day_words(day(row['date']))}"
    verb = "were" if len(edge) > 1 or by == "crop" else "was"
    end = "last" if late else "first"
    hit = rows.merge(edge[[*keys, "date"]], on=[*keys, "date"])
    return Answer(
        True,
        capital(
            f"{winner} {verb} the {end} to be {past(act, hit)}{span.said}, on "
            f"{day_words(stamp, weekday=True)}{after}."
        ),
        date=stamp,
        date_end=stamp,
        rows=table_rows(days),
        evidence=evidence_of(asked.diary, hit),
        caveats=(*topic.notes, *span.doubts),
    )


def _name(row: dict[Any, Any], by: str, topic: Topic) -> str:
    if by == "cultivar":
        crop = f" {crop_said(row['crop'])}" if len(topic.crops) > 1 else ""
        return f"'{row['cultivar']}'{crop}"
    return crop_said(row["crop"]) if by == "crop" else str(row[by])


def answer_up_best(asked: Asked) -> Answer:
    """`which broad bean came up best in 2025`: per cent of the seeds that came up, by cultivar."""
    asked.need("head", "which", "what")
    share = asked.take("kind", "per_cent") is not None
    if not share:
        asked.need("act", "up")
    else:
        asked.take("act", "up")
    end = asked.need("superlative", "best", "worst", "most", "least")
    asked.take("noun", "varieties", "seeds", "crops")
    asked.pass_over("did", "was", "have")
    topic = take_topic(asked)
    period = take_period(asked)
    asked.done()
    if topic.places:
        raise RefusedError("a batch is not counted up by place; ask without the place")
    frame = batches(asked.diary)
    frame = frame[frame["how_started"] == "sow"].assign(
        date=frame["started"], date_end=frame["started"]
    )
    rows = surely_in(topic.rows(frame), period)
    rows = rows[rows["up"].notna() & rows["sown"].notna() & (rows["sown"] > 0)]
    said = f" {period.said}" if period else ""
    if rows.empty:
        what = topic.what or "seedlings"
        return nothing(
            f"No number of {what} coming up is written{said}; {record_words(asked.diary)}."
        )
    sums = rows.groupby(["crop", "cultivar"], as_index=False)[["up", "sown"]].sum()
    sums = sums.assign(pct_up=100 * sums["up"] / sums["sown"])
    least = end.name in ("worst", "least")
    order = sums.sort_values("pct_up", ascending=least, kind="stable")
    return _up(asked, topic, order, rows, said, least=least)


def _up(
    asked: Asked, topic: Topic, order: pd.DataFrame, rows: pd.DataFrame, said: str, *, least: bool
) -> Answer:
    cells = order.to_dict("records")
    words = [_up_words(row, topic) for row in cells[:2]]
    then = f"; next {words[1]}" if len(words) > 1 else ""
    events = asked.diary.events
    return Answer(
        True,
        capital(f"{words[0]} came up {'worst' if least else 'best'} of those sown{said}{then}."),
        value=round(float(cells[0]["pct_up"]), 6),
        rows=table_rows(order),
        evidence=evidence_of(asked.diary, events[events["event"].isin(list(rows["event"]))]),
        caveats=("of the sowings whose seeds and seedlings were counted",),
    )


def _up_words(row: dict[Any, Any], topic: Topic) -> str:
    name = f"'{row['cultivar']}'" if row["cultivar"] else crop_said(row["crop"])
    if len(topic.crops) != 1 and row["cultivar"]:
        name += f" {crop_said(row['crop'])}"
    count = f"{figure(float(row['up']))} of {figure(float(row['sown']))}"
    return f"{name} ({count}, {row['pct_up']:.0f} %)"
