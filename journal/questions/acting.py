"""The act of a question and the events that are that act on its topic."""

import pandas as pd

from journal.diary import Diary
from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.going_in import going_in
from journal.questions.parts import PartKind
from journal.questions.saying import listed
from journal.questions.topic import Topic
from journal.reference.load import load
from journal.studies.lost import lost
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings

GLASS = ("frame", "house")
_PUT_THERE = ("fit", "replace", "spread", "mulch", "dig in", "lime", "fill")
_PAST = {
    "sow": "sown", "plant": "planted", "plant out": "planted out", "heel in": "heeled in",
    "pick": "picked", "cut": "cut", "lift": "lifted", "pull": "pulled", "dig up": "dug up",
    "harvest": "harvested", "gather": "gathered", "fit": "fitted", "replace": "replaced",
    "spread": "spread", "mulch": "mulched", "dig in": "dug in", "lime": "limed", "fill": "put in",
}  # fmt: skip
_PARTED: tuple[tuple[str, PartKind, str, str], ...] = (
    ("plant", "particle", "out", "plant_out"),
    ("plant", "preposition", "in", "go_in"),
    ("put", "preposition", "in", "go_in"),
    ("put", "particle", "out", "plant_out"),
    ("go", "preposition", "in", "go_in"),
    ("go", "preposition", "on", "go_in"),
    ("go", "particle", "out", "plant_out"),
    ("pot", "preposition", "on", "pot_on"),
    ("pot", "particle", "up", "pot_up"),
    ("prick", "particle", "out", "prick_out"),
    ("harden", "preposition", "from", "harden_off"),
    ("dig", "particle", "up", "harvest"),
    ("dig", "preposition", "in", "dig_in"),
    ("harvest", "particle", "up", "harvest"),
    ("cut", "particle", "back", "cut_back"),
    ("cut", "particle", "down", "cut_down"),
    ("tie", "preposition", "in", "tie_in"),
    ("earth", "particle", "up", "earth_up"),
    ("pinch", "particle", "out", "pinch"),
)
_MANURE = r"\bmanure\b"
_GRASS = r"\b(?:grass|lawn)"
_WHOLE = {"prick": "prick_out", "harden": "harden_off", "tie": "tie_in", "earth": "earth_up"}
# what stands in the events table and did not happen in the garden
_NOT_DONE = ("intention", "sheet", "weather")


@once_a_diary
def done_events(diary: Diary) -> pd.DataFrame:
    """The events that happened: no plans, no lines of the sheet, no weather."""
    kept: pd.DataFrame = diary.events[~diary.events["kind"].isin(_NOT_DONE)]
    return kept


@once_a_diary
def all_pickings(diary: Diary) -> pd.DataFrame:
    """The harvest events as `pickings` has them."""
    return pickings(diary.events)


def take_act(asked: Asked) -> Act:
    """The one act of the question with its particle; NotThisKindError where it has none or two."""
    if not asked.has("act") and asked.take("aux", "grow"):
        return ACTS["go_in"]
    if not asked.has("act") and asked.has("aux", "take") and asked.has("particle", "down"):
        asked.take("aux", "take")
        asked.take("particle", "down")
        return ACTS["take_down"]
    name = _with_particle(asked, asked.need("act").name)
    if asked.has("act"):
        raise NotThisKindError
    return ACTS[SAME_ACT.get(name, name)]


def _with_particle(asked: Asked, name: str) -> str:
    """`plant the leeks out`, `dug the leeks up`: the act with the word that follows later."""
    for verb, kind, word, joined in _PARTED:
        if verb == name and asked.take(kind, word):
            return joined
    if name == "pot":
        raise RefusedError("say whether it was potted on or potted up")
    return _WHOLE.get(name, name)


def settled_act(act: Act, topic: Topic) -> Act:
    """The act as its topic makes it: potatoes are dug up, a bed is dug."""
    if act.name in ("dig", "cut") and topic.crops:
        return ACTS["harvest"]
    if act.name == "see" and topic.crops and all(t.kind == "crop" for t in topic.things):
        # `when did we see the first strawberries`
        return ACTS["harvest"]
    if act.name == "use" and topic.things and _of_goods(topic) and not topic.crops:
        goods = listed([thing.said for thing in topic.things])
        raise RefusedError(f"say what was done with {goods}: spread, fetched, dug in")
    if act.name == "dig_in" and topic.crops and not _of_goods(topic):
        # `how many potatoes did we dig in 2024`
        return ACTS["harvest"]
    if act.name == "up" and topic.things and {t.kind for t in topic.things} == {"subject"}:
        return ACTS["see"]
    if act.name == "dig" and any(thing.kind == "material" for thing in topic.things):
        return ACTS["dig_in"]
    return act


def _on_the_place(asked: Asked, topic: Topic) -> bool:
    """`what went into Bunker 1`, `what did I put on Platform 3`: goods, where no crop is named."""
    bays = {place.name for place in asked.diary.sheet.places if place.kind == "bay"}
    return (
        bool(topic.places)
        and not topic.things
        and all(place.said in bays or place.preposition == "on" for place in topic.places)
    )


def _of_goods(topic: Topic) -> bool:
    return any(thing.kind == "material" for thing in topic.things)


def act_events(asked: Asked, act: Act, topic: Topic, *, whole: bool = False) -> pd.DataFrame:
    """The events of an act on its topic, whenever they were.

    RefusedError where the topic names a job and the act is none: `sow in pots`, `feed the panes`.
    """
    events = done_events(asked.diary)
    act = settled_act(act, topic)
    tasks = [thing.said for thing in topic.things if thing.kind == "task"]
    for told, column in ((tasks, "task"), ([topic.label] if topic.label else [], "label")):
        if told and not act.rows(events)[column].ne("").any():
            raise RefusedError(f"I cannot tell what `{listed(told)}` narrows it to")
    if act.name == "lose":
        return topic.rows(lost(asked.diary), whole=whole)
    if act.name == "manure":
        own = act.rows(events)
        return topic.rows(own[own["material"].str.contains(_MANURE)], whole=whole)
    if act.name == "mow":
        # grass is mown or cut
        cut = events["verb"].eq("cut") & events["task"].str.contains(_GRASS)
        return topic.rows(events[events["verb"].eq("mow") | cut], whole=whole)
    if act.name != "go_in":
        return topic.rows(act.rows(events), whole=whole)
    if any(thing.kind == "material" for thing in topic.things) or _on_the_place(asked, topic):
        return topic.rows(events[events["verb"].isin(_PUT_THERE)], whole=whole)
    return topic.rows(all_going_in(asked.diary), whole=whole)


@once_a_diary
def all_going_in(diary: Diary) -> pd.DataFrame:
    """The sowings and plantings that put a crop into its growing place."""
    glass = {place.name for place in diary.sheet.places if place.kind in GLASS}
    return going_in(done_events(diary), load(), glass)


def past(act: Act, rows: pd.DataFrame) -> str:
    """How the act is said of these events: what went in was sown or planted."""
    if act.name not in ("go_in", "harvest"):
        return act.past
    verbs = list(dict.fromkeys(rows["verb"]))
    if len(verbs) != 1:
        return act.past
    verb = str(verbs[0])
    return _PAST.get(verb, verb)
