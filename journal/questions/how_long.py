"""How long work took: person-minutes on a job, a place or a crop in a period."""

from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, one_period
from journal.questions.evidence import evidence_of, perhaps_in, record_words, surely_in
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, counted, duration
from journal.questions.topic import take_topic
from journal.studies.tallies import tally, tally_by


def answer_how_long(asked: Asked) -> Answer:
    """`how long did weeding take last year`, `how many hours on Long 1 in 2025`."""
    unit = None
    if not asked.take("head", "how_long"):
        asked.need("head", "how_many", "how_much")
        unit = asked.need("unit", "hour", "minute")
    asked.pass_over("did", "take", "spend", "have", "was")
    asked.take("noun", "jobs")
    act = _act(asked)
    asked.take("preposition", "on")
    topic = take_topic(asked, act.name if act else "")
    period = one_period(asked)
    asked.done()
    events = topic.rows(act.rows(asked.diary.events) if act else asked.diary.events)
    timed = surely_in(events[events["minutes"].notna()], period)
    what = " ".join(filter(None, [act.noun if act else "work on", topic.said, topic.there]))
    said = f" {period.said}" if period else ""
    if timed.empty:
        return nothing(f"No time is written for {what}{said}; {record_words(asked.diary)}.")
    total = tally(timed, "minutes").total or 0.0
    jobs = surely_in(events[events["kind"].eq("job") & events["minutes"].isna()], period)
    caveats = [f"{counted(len(jobs), 'more job')} not timed"] if len(jobs) else []
    doubtful = perhaps_in(events[events["minutes"].notna()], period)
    if len(doubtful):
        caveats.append(
            f"{counted(len(doubtful), 'more entry', 'more entries')} may lie in it or not"
        )
    hours = unit is not None and unit.name == "hour"
    return Answer(
        True,
        capital(f"{what} took {duration(total)}{said}."),
        value=total / 60 if hours else total,
        unit="h" if hours else "min",
        rows=tuple(tally_by(timed, "minutes", ["verb", "place", "crop"]).to_dict("records")),
        evidence=evidence_of(asked.diary, timed, len(timed)),
        caveats=tuple(caveats),
    )


def _act(asked: Asked) -> Act | None:
    part = asked.take("act")
    return ACTS[SAME_ACT.get(part.name, part.name)] if part else None
