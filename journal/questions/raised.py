"""What was begun only to be raised, beside an answer that nothing went in: onions in modules."""

from journal.questions.acting import done_events
from journal.questions.acts import Act
from journal.questions.asked import Asked
from journal.questions.evidence import dated, day, surely_in
from journal.questions.going_in import raised
from journal.questions.periods import Period, stretch_words
from journal.questions.saying import crop_said, is_one, listed
from journal.questions.topic import Topic

_MOST = 4


def raised_then(asked: Asked, act: Act, topic: Topic, period: Period | None) -> tuple[str, ...]:
    """`onions were planted in modules on 21 February 2026, to be raised`, for each such crop."""
    if act.name != "go_in":
        return ()
    events = done_events(asked.diary)
    begun = events[events["kind"].isin(["planting", "sowing"]) & raised(events)]
    rows = surely_in(dated(topic.rows(begun)), period)
    rows = rows[rows["crop"] != ""]
    told = []
    for crop, own in rows.groupby("crop", sort=False):
        first = own.sort_values("date").iloc[-1]
        done = "planted" if first["kind"] == "planting" else "sown"
        vessels = listed(list(dict.fromkeys(own["vessel"])))
        on = stretch_words(day(first["date"]), day(first["date_end"]))
        be = "was" if is_one(str(crop)) else "were"
        told.append(f"{crop_said(str(crop))} {be} {done} in {vessels} ({on}), to be raised")
    more = (f"{len(told) - _MOST} more crops were raised so",) if len(told) > _MOST else ()
    return (*told[:_MOST], *more)
