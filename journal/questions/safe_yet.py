"""Whether it is too late, time or safe yet: today against the diary's own years and frosts."""

import re
from dataclasses import dataclass
from datetime import date

import pandas as pd

from journal.questions.acting import GLASS, act_events, past, take_act
from journal.questions.acts import ACTS
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import day, event_rows, evidence_of, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.outlook import (
    SAID,
    USUAL_COLUMNS,
    day_of_year,
    planned_what,
    too_little,
    usual_rows,
    years_evidence,
)
from journal.questions.periods import day_words
from journal.questions.saying import capital, counted, listed
from journal.questions.topic import Topic, take_topic
from journal.questions.windows import Window, windows_of
from journal.studies.ahead import ENOUGH_YEARS
from journal.studies.climate import climate
from journal.studies.seasons import season_day

_STILL = re.compile(r"still|in time|not too late|enough|chance")


# what is done to a crop that is sown in one place and planted in another
_RAISED = ("prick_out", "plant_out")


@dataclass(frozen=True, slots=True)
class Sought:
    """What is asked of today for an act on a topic.

    `too_late`, `too_early`, `in_time` (within the usual days), or `still` (not too late).
    """

    asks: str
    topic: Topic
    outside: bool


def answer_too_late(asked: Asked) -> Answer:
    """`is it too late to sow carrots`, `can I still sow leeks`: today against the own years."""
    asks = _take_asks(asked)
    asked.pass_over("is", "have", "can", "do", "will")
    asked.take_all("self", "it")
    asked.take_all("preposition", "to", "for")
    asked.take_all("state", "yet", "still", "left")
    outside = asked.take("state", "in_ground") is not None
    # `is it too late for garlic`: for putting it in
    bare = not asked.has("act") and any(part.name == "for" for part in asked.left)
    act = ACTS["go_in"] if bare else take_act(asked)
    topic = take_topic(asked, act.name)
    _take_today(asked)
    asked.done()
    if not topic.crops or topic.places:
        raise RefusedError("say of which crop, without a place")
    if bare and not all(act_events(asked, ACTS[name], topic).empty for name in _RAISED):
        raise RefusedError(f"say whether it is for sowing {topic.said} or for planting them out")
    rows = act_events(asked, act, topic)
    rows = rows[(rows["date"] == rows["date_end"]).fillna(False)]
    rows = _in_the_open(asked, rows) if outside else rows
    before = rows[rows["date"].dt.year < asked.clock.today.year]
    years = int(before["date"].dt.year.nunique())
    if years < ENOUGH_YEARS:
        have = f"only {counted(years, 'year')}" if years else "no year"
        return nothing(
            f"The diary has {have} of {topic.said} being {act.past} to tell it by; "
            f"{record_words(asked.diary)}."
        )
    return _against_own_days(asked, Sought(asks, topic, outside), before)


def _take_asks(asked: Asked) -> str:
    part = asked.take("ahead", "too_late", "too_early", "in_time")
    if part is not None and part.name == "in_time":
        words = asked.words(part).lower()
        return "still" if asked.has("state", "still") or _STILL.search(words) else "in_time"
    if part is not None:
        return part.name
    opens = asked.parts[0].kind == "aux" and asked.parts[0].name == "is"
    if opens and asked.has("act") and asked.take("noun", "times"):
        # `is it time to sow leeks`
        return "in_time"
    # `can I still sow carrots`, `should I be sowing leeks yet`
    opened = asked.parts[0].kind == "aux" and asked.parts[0].name == "can"
    if not opened or not asked.has("act"):
        raise NotThisKindError
    if not (asked.has("state", "still", "yet") or asked.has("period")):
        raise NotThisKindError
    return "still" if asked.has("state", "still") else "in_time"


def _take_today(asked: Asked) -> None:
    today = asked.clock.today
    part = asked.take("period")
    if part is None:
        return
    period = part.period
    running = period is not None and period.first is not None and period.last is not None
    if not running or not period.holds(today):  # type: ignore[union-attr]
        raise RefusedError("it is told of today only")


def _in_the_open(asked: Asked, rows: pd.DataFrame) -> pd.DataFrame:
    glass = {place.name for place in asked.diary.sheet.places if place.kind in GLASS}
    open_ground = ~rows["place"].isin(glass) & rows["vessel"].eq("")
    kept: pd.DataFrame = rows[open_ground]
    return kept


def _against_own_days(asked: Asked, sought: Sought, rows: pd.DataFrame) -> Answer:
    days = season_day(rows["date"])
    found = windows_of([int(each) for each in days])
    today = _today_number(asked.clock.today)
    inside = any(window.holds(today) for window in found)
    after = min(found, key=lambda window: window.since(today))
    ahead = min(found, key=lambda window: window.ahead(today))
    # outside all of them the nearer one counts: after it is late, before it early
    late = not inside and after.since(today) < ahead.ahead(today)
    early = not inside and not late
    yes = {"too_late": late, "too_early": early, "in_time": inside, "still": not late}[sought.asks]
    topic = sought.topic
    verb = "was" if topic.singular else "were"
    spans = [f"between {day_of_year(one.first)} and {day_of_year(one.last)}" for one in found]
    edges = {one.first for one in found} | {one.last for one in found}
    years = counted(int(rows["date"].dt.year.nunique()), "year")
    outside = " in the open" if sought.outside else ""
    return Answer(
        True,
        f"{'Yes' if yes else 'No'}, by your own past: {topic.said} {verb} "
        f"{past(ACTS['go_in'], rows)}{outside} {listed(spans)}, and today is "
        f"{day_words(asked.clock.today)}{_rest(sought.asks, inside, late, ahead)}.",
        value=yes,
        rows=event_rows(rows.sort_values("date")),
        evidence=evidence_of(asked.diary, rows[days.isin(edges)]),
        caveats=(f"over {years} of this diary; the weather of this year may differ",),
    )


def _rest(asks: str, inside: bool, late: bool, ahead: Window) -> str:
    """What a bare yes or no would leave out."""
    if inside:
        return ""
    if late:
        told = "" if asks == "too_late" else "rather late; "
        return f": {told}the next such days begin on {day_of_year(ahead.first)}"
    early = "" if asks in ("too_early", "still") else "rather early, "
    return "" if asks == "too_early" else f": {early}from {day_of_year(ahead.first)} on"


def _today_number(today: date) -> int:
    return (
        date(2001, today.month, min(today.day, 28 if today.month == 2 else 31)).timetuple().tm_yday
    )


def answer_safe(asked: Asked) -> Answer:
    """`when is it safe to plant out tomatoes`, `is it safe to sow carrots yet`."""
    yet = asked.take("head", "when") is None
    if yet and not (asked.parts[0].kind == "aux" and asked.parts[0].name == "is"):
        raise NotThisKindError
    asked.need("ahead", "safe")
    asked.pass_over("is", "will")
    asked.take_all("self", "it")
    asked.take("preposition", "to", "for")
    asked.take_all("state", "yet", "in_ground", "still")
    if yet:
        _take_today(asked)
    what = planned_what(asked)
    topic = take_topic(asked)
    asked.done()
    rows = usual_rows(asked, topic, what)
    enough = rows[rows["usual"].notna()]
    frame = climate(asked.diary)
    frosts = frame[frame["measure"].eq("last spring frost") & frame["date"].notna()]
    frosts = frosts[frosts["year"] < asked.clock.today.year]
    if enough.empty and (frosts.empty or yet):
        return too_little(asked, topic, rows)
    answer = _safe(asked, topic, enough, frosts, yet=yet)
    return answer


def _safe(
    asked: Asked, topic: Topic, enough: pd.DataFrame, frosts: pd.DataFrame, *, yet: bool
) -> Answer:
    parts = []
    if len(frosts):
        days = sorted(_today_number(day(stamp)) for stamp in frosts["date"])
        parts.append(
            f"the last spring frost was between {day_of_year(days[0])} and "
            f"{day_of_year(days[-1])} over {counted(len(days), 'year')}"
        )
    if len(enough):
        verb = "was" if topic.singular else "were"
        parts.append(
            f"{topic.said} {verb} first {SAID[str(enough['what'].iloc[0])]} between "
            f"{day_of_year(min(enough['earliest']))} and {day_of_year(max(enough['latest']))}"
        )
    told = f"{'; '.join(parts)}. No day is safe for certain."
    begun = None
    if yet:
        begun = bool(_today_number(asked.clock.today) >= float(min(enough["earliest"])))
    if yet:
        reply = "others of your years had begun by today" if begun else "no year had begun by today"
        told = f"{'yes' if begun else 'no, not yet'}, by your own past: {reply}; {told}"
    return Answer(
        True,
        capital(told),
        value=begun,
        rows=(
            *table_rows(enough[USUAL_COLUMNS]),
            *table_rows(frosts[["year", "measure", "value", "date"]]),
        ),
        evidence=years_evidence(asked, enough) if len(enough) else (),
        caveats=("by this diary's own past; a later frost than any before may come",),
    )
