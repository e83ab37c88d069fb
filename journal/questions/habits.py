"""What is usually sown, planted or first picked in a month, by the diary's own years."""

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import table_rows
from journal.questions.model import Answer, nothing
from journal.questions.outlook import SAID, USUAL_COLUMNS, planned_what, years_evidence
from journal.questions.periods import MONTHS, Period
from journal.questions.saying import capital, counted, crop_said, listed
from journal.questions.topic import take_topic
from journal.studies.ahead import ahead


def answer_habits(asked: Asked) -> Answer:
    """`what do I usually sow in April`, `what wants sowing in March`, `what can I sow now`."""
    asked.need("head", "what", "which")
    asked.take("noun", "crops", "seeds", "entries", "plants")
    usual = asked.take("ahead", "usually")
    ought = asked.take("aux", "need", "can", "will")
    asked.take("ahead", "in_time")
    habit = asked.take("aux", "do", "is")
    if not (usual or ought) or not asked.has("act"):
        raise NotThisKindError
    asked.pass_over("do", "is", "did", "get", "was", "have")
    asked.take_all("preposition", "to", "for")
    asked.take("state", "in_ground")
    what = planned_what(asked)
    topic = take_topic(asked, batches=False)
    part = asked.need("period")
    asked.done()
    if topic.places or topic.things:
        raise NotThisKindError
    del habit
    month = _month_of(asked, part.period)
    frame = ahead(asked.diary)
    middle = pd.Timestamp("2001-01-01") + pd.to_timedelta(frame["usual"].fillna(0) - 1, unit="D")
    mine = frame["usual"].notna() & (frame["cultivar"] == "") & (middle.dt.month == month)
    rows = frame[mine & frame["what"].isin(what)].sort_values("usual")
    name = MONTHS[month - 1].title()
    if rows.empty:
        done = listed([SAID[each] for each in what], "or")
        return nothing(f"By this diary's own years nothing is usually {done} in {name}.")
    told = []
    for each in what:
        crops = rows.loc[rows["what"] == each, "crop"]
        if len(crops):
            names = [crop_said(str(crop)) for crop in dict.fromkeys(crops)]
            told.append(f"{listed(names)} are usually {SAID[each]}")
    years = counted(int(rows["years"].max()), "year")
    return Answer(
        True,
        capital(f"{'; '.join(told)} in {name}, by the middle of your own years."),
        rows=table_rows(rows[USUAL_COLUMNS]),
        evidence=years_evidence(asked, rows),
        caveats=(f"by up to {years} of this diary; other crops can be right then too",),
    )


def _month_of(asked: Asked, period: Period | None) -> int:
    """The month asked about, or today's; RefusedError for a stretch that is no one month."""
    if period is None or period.first is None or period.last is None:
        raise RefusedError("ask for a month")
    if period.first.month != period.last.month or (period.last - period.first).days > 31:
        raise RefusedError("ask for one month")
    return period.first.month
