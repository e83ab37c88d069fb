"""The act of a question and the events that are that act on its topic."""

import pandas as pd

from journal.diary import Diary
from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, NotThisKind
from journal.questions.going_in import going_in
from journal.questions.saying import listed
from journal.questions.topic import Topic

GLASS = ("frame", "house")
_PUT_THERE = ("fit", "replace", "spread", "mulch", "dig in", "lime", "fill")
_PAST = {
    "sow": "sown", "plant": "planted", "plant out": "planted out", "heel in": "heeled in",
    "pick": "picked", "cut": "cut", "lift": "lifted", "pull": "pulled", "dig up": "dug up",
    "harvest": "harvested", "gather": "gathered", "fit": "fitted", "replace": "replaced",
    "spread": "spread", "mulch": "mulched", "dig in": "dug in", "lime": "limed", "fill": "put in",
}  # fmt: skip
# what stands in the events table and did not happen in the garden
_NOT_DONE = ("intention", "sheet", "weather")


def done_events(diary: Diary) -> pd.DataFrame:
    """The events that happened: no plans, no lines of the sheet, no weather."""
    kept: pd.DataFrame = diary.events[~diary.events["kind"].isin(_NOT_DONE)]
    return kept


def take_act(asked: Asked) -> Act:
    """The one act of the question, its particle with it; NotThisKind where there is none or two."""
    part = asked.need("act")
    if part.name in ("put", "go"):
        asked.take("preposition", "in")
    if asked.has("act"):
        raise NotThisKind
    return ACTS[SAME_ACT.get(part.name, part.name)]


def settled_act(act: Act, topic: Topic) -> Act:
    """The act as its topic makes it: potatoes are dug up, a bed is dug."""
    if act.name == "dig" and topic.crops:
        return ACTS["harvest"]
    return act


def act_events(asked: Asked, act: Act, topic: Topic, *, whole: bool = False) -> pd.DataFrame:
    """The events of an act on its topic, whenever they were."""
    events = done_events(asked.diary)
    act = settled_act(act, topic)
    if act.name != "go_in":
        return topic.rows(act.rows(events), whole=whole)
    if any(thing.kind == "material" for thing in topic.things):
        return topic.rows(events[events["verb"].isin(_PUT_THERE)], whole=whole)
    glass = {place.name for place in asked.diary.sheet.places if place.kind in GLASS}
    return topic.rows(going_in(events, asked.names.reference, glass), whole=whole)


def past(act: Act, rows: pd.DataFrame) -> str:
    """How the act is said of these events: what went in was sown or planted."""
    if act.name not in ("go_in", "harvest"):
        return act.past
    verbs = list(dict.fromkeys(rows["verb"]))
    if len(verbs) > 3:
        return act.past
    return listed([_PAST.get(verb, verb) for verb in verbs]) or act.past
