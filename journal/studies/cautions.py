"""The cautions, one line each with its source, and where each belongs: there and nowhere else.

Local rules, the label and licensed practice go before anything that this program says.
"""

from dataclasses import dataclass
from typing import Any

import pandas as pd

from journal.reference.load import load
from journal.reference.stuff import is_raw_manure
from journal.studies.put_on import puts_on

GENERAL = "common practice, no published source"


@dataclass(frozen=True, slots=True)
class Caution:
    """One line; `belongs` names the studies, kinds of event or tasks beside which it stands.

    `source` is who says so with the address where it was read, or that nobody published it.
    """

    name: str
    text: str
    source: str
    belongs: frozenset[str]


def _caution(name: str, text: str, source: str, *belongs: str) -> Caution:
    return Caution(name, text, source, frozenset(belongs))


CAUTIONS: tuple[Caution, ...] = (
    _caution(
        "manure",
        "Raw manure and food: local rules and your own buyers' rules go first. 120 and 90 days "
        "are the US organic rule; UK advice has asked for six months before crops eaten raw.",
        "7 CFR 205.203(c)(1), read: https://tilth.org/help-center/manure/; Food Standards Agency "
        "summary, read: http://adlib.everysite.co.uk/adlib/defra/content.aspx?"
        "id=000HK277ZW.0A7SQH0AYT4WOK",
        "manure_interval",
    ),
    _caution(
        "feeds",
        "Feeds and fertilisers: the label governs, its dose and dilution before any figure here.",
        GENERAL,
        "feeding",
        "feed",
    ),
    _caution(
        "sprays",
        "Sprays and treatments: the label governs. Whoever uses one answers for it, on an "
        "allotment too, and in Britain not keeping to the label is against the law.",
        "HSE, read: https://www.hse.gov.uk/pesticides/user-areas/garden-home.htm; Royal "
        "Horticultural Society, read: "
        "https://www.rhs.org.uk/prevention-protection/chemical-labels-explained",
        "treatment",
    ),
    _caution(
        "stored water",
        "Stored water is not for drinking; clean the butt every year, and do not spray from it "
        "when it is warmer than 20 °C (legionella).",
        "Royal Horticultural Society, read: "
        "http://www.rhs.org.uk/Gardening/News/Advice-on-potting-compost; not for drinking: "
        + GENERAL,
        "rain_store",
    ),
    _caution(
        "compost",
        "Compost and manure: gloves on, bags opened away from the face, dry stuff damped down "
        "first, hands washed after (dust, legionella).",
        "Royal Horticultural Society, read: "
        "http://www.rhs.org.uk/Gardening/News/Advice-on-potting-compost",
        "heaps",
        "dressing",
        "heap",
    ),
    _caution(
        "tetanus",
        "Soil and manure carry tetanus: ask for medical advice on a deep or dirty wound, or if "
        "your vaccination is not complete.",
        "NHS general practice, read: "
        "https://collingwoodsurgery.nhs.uk/jubilee-park/common-questions/...tetanus",
        "heaps",
        "dressing",
        "heap",
    ),
    _caution(
        "lifting",
        "Heavy barrows: no weight is safe by itself, so take less at a time and do not twist.",
        "HSE, read: https://www.hse.gov.uk/msd/manual-handling-risk-filters.htm",
        "heaps",
        "heap",
    ),
    _caution(
        "hot heaps",
        "A heap that held manure and has no record of its heat counts as raw manure.",
        "7 CFR 205.203(c)(2), read: http://www.omri.org/simple-gml-search/",
        "heaps",
    ),
    _caution(
        "green potatoes",
        "Green potatoes are not for eating, nor for animals.",
        GENERAL,
        "potato store",
    ),
    _caution(
        "nests",
        "Look for nests first: an active nest is not to be disturbed, and wild birds are "
        "protected by law in many places.",
        "Wildlife and Countryside Act 1981 s.1(1), read: "
        "https://legislation.gov.uk/ukpga/1981/69/section/1/2015-03-12",
        "hedge",
        "nest",
    ),
)


def cautions_of(topic: str) -> tuple[Caution, ...]:
    """The cautions that belong beside a study, a kind of event or a task; none elsewhere."""
    return tuple(caution for caution in CAUTIONS if topic in caution.belongs)


def caution_words(topic: str) -> str:
    """The same in one paragraph, for a page; "" where none belongs."""
    return " ".join(caution.text for caution in cautions_of(topic))


def cautions_for(events: pd.DataFrame, share: float = 0.0) -> tuple[Caution, ...]:
    """The cautions that belong beside some events of the diary, in the order of `CAUTIONS`.

    Feeds, treatments, manure and compost by the kind of entry and what was handled; heaps where
    something was carried; cut hedges, nests that were seen, potatoes that were stored or green.
    `share` is how much of the events one must belong to: with 0.5 a list of a whole season's work
    has none, and one of its sprayings has.
    """
    rows = [_topics(row) for row in events[list(_COLUMNS)].to_dict("records")]
    return tuple(caution for caution in CAUTIONS if _belongs(caution, rows, share))


def _belongs(caution: Caution, rows: list[set[str]], share: float) -> bool:
    own = sum(bool(caution.belongs & topics) for topics in rows)
    return own > 0 and own >= share * len(rows)


def cautions_for_plans(plans: pd.DataFrame) -> tuple[Caution, ...]:
    """The same for work that is planned: rows of the table `intentions`, by their verbs."""
    kinds = plans["verb"].map(_KINDS).fillna("job")
    # `plan trim the hedge` has words alone; in `plan cut hedge` the hedge stands for a crop
    task = plans["what"].where(plans["what"] != "", plans["crop"])
    return cautions_for(plans.assign(kind=kinds, task=task, subject="", remark=""))


_COLUMNS = ("kind", "verb", "material", "task", "subject", "crop", "remark")
# the kind of entry that a verb makes, for plans, which have none of their own
_KINDS = {
    "feed": "feed", "spray": "treatment", "treat": "treatment", "spread": "dressing",
    "mulch": "dressing", "dig in": "dressing", "fill": "heap", "move": "heap", "turn": "heap",
    "empty": "heap", "see": "sighting",
}  # fmt: skip


def _topics(row: dict[Any, Any]) -> set[str]:
    material = row["material"].lower()
    words = " ".join((row["task"], row["subject"], material)).lower()
    raw = is_raw_manure(material, load()) if material else False
    composted = any(word in material for word in ("compost", "manure", "leaf mould"))
    # pests that are picked off by hand meet no label
    found = {row["kind"]} & {"feed", "treatment"} if row["verb"] != "patrol" else set()
    if puts_on(row["kind"], row["verb"], material) and (raw or composted):
        found |= {"dressing", "manure_interval"} if raw else {"dressing"}
    if row["kind"] == "heap" and row["verb"] in {"fill", "move", "turn", "empty"} and material:
        found.add("heap")
    if row["kind"] == "job" and "hedge" in words.split():
        found.add("hedge")
    if row["kind"] == "sighting" and {"nest", "nests"} & set(words.split()):
        found.add("nest")
    if row["crop"] == "potato" and row["verb"] == "store":
        found.add("potato store")
    if row["crop"] == "potato" and "green" in row["remark"].lower().replace(",", " ").split():
        found.add("potato store")
    return found
