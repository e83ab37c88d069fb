"""What each act of the grammar is in the diary: its verbs or kinds of event, and how it is said."""

from dataclasses import dataclass

import pandas as pd


@dataclass(frozen=True, slots=True)
class Act:
    """Events of these verbs, or of these kinds; `past` says it of a thing: `was picked`.

    `noun` is the doing of it, `did` what the keeper did: `saw` where `past` is `seen`.
    """

    name: str
    past: str
    noun: str
    verbs: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    did: str = ""

    def rows(self, events: pd.DataFrame) -> pd.DataFrame:
        """The events that are this act."""
        mine = events["verb"].isin(self.verbs) | events["kind"].isin(self.kinds)
        kept: pd.DataFrame = events[mine & (events["kind"] != "intention")]
        return kept


def _act(
    name: str, past: str, noun: str, *verbs: str, kinds: tuple[str, ...] = (), did: str = ""
) -> Act:
    own = verbs if verbs or kinds else (name.replace("_", " "),)
    return Act(name, past, noun, own, kinds, did or past)


_ACTS = (
    # which events put a crop into its growing place is decided in going_in.py
    _act("go_in", "put in", "planting", "sow", "plant", "plant out", "heel in"),
    _act("plant_out", "planted out", "planting out", "plant out"),
    _act("sow", "sown", "sowing", did="sowed"),
    _act("pot_on", "potted on", "potting on"),
    _act("pot_up", "potted up", "potting up"),
    _act("prick_out", "pricked out", "pricking out"),
    _act("harden_off", "hardened off", "hardening off"),
    _act("thin", "thinned", "thinning"),
    _act("heel_in", "heeled in", "heeling in"),
    _act("move", "moved", "moving"),
    _act("harvest", "picked", "picking", kinds=("harvest",)),
    _act("cut", "cut", "cutting"),
    _act("cut_back", "cut back", "cutting back", "cut back", "cut down"),
    _act("cut_down", "cut down", "cutting down"),
    _act("dig_in", "dug in", "digging in"),
    _act("dig", "dug", "digging"),
    _act("pick_off", "picked off", "picking off"),
    _act("pull_up", "pulled up", "pulling up"),
    _act("lose", "lost", "loss", kinds=("loss",)),
    _act("bolt", "bolted", "bolting"),
    _act("fail", "failed", "failure"),
    _act("clear", "cleared", "clearing"),
    _act("feed", "fed", "feeding"),
    _act("water", "watered", "watering"),
    _act("spread", "spread", "spreading"),
    _act("mulch", "mulched", "mulching"),
    _act("manure", "manured", "manuring", "spread", "dig in", "mulch"),
    _act("lime", "limed", "liming"),
    _act("spray", "sprayed", "spraying"),
    _act("treat", "treated", "treatment", "treat", "spray"),
    _act("patrol", "patrolled", "patrolling"),
    _act("weed", "weeded", "weeding"),
    _act("hoe", "hoed", "hoeing"),
    _act("fork", "forked", "forking"),
    _act("rake", "raked", "raking"),
    _act("prune", "pruned", "pruning"),
    _act("stake", "staked", "staking"),
    _act("tie_in", "tied in", "tying in"),
    _act("earth_up", "earthed up", "earthing up"),
    _act("net", "netted", "netting"),
    _act("uncover", "uncovered", "uncovering"),
    _act("cover", "covered", "covering"),
    _act("mow", "mown", "mowing", did="mowed"),
    _act("edge", "edged", "edging"),
    _act("tidy", "tidied", "tidying"),
    _act("clean", "cleaned", "cleaning"),
    _act("open", "opened", "opening"),
    _act("shut", "shut", "shutting"),
    _act("shade", "shaded", "shading"),
    _act("pinch", "pinched", "pinching"),
    _act("train", "trained", "training"),
    _act("saw_up", "sawn up", "sawing up", did="sawed up"),
    _act("burn", "burnt", "burning"),
    _act("sieve", "sieved", "sieving"),
    _act("turn", "turned", "turning"),
    _act("shred", "shredded", "shredding"),
    _act("build", "built", "building"),
    _act("mend", "mended", "mending"),
    _act("paint", "painted", "painting"),
    _act("take_down", "taken down", "taking down", did="took down"),
    _act("fetch", "fetched", "fetching"),
    _act("fill", "filled", "filling"),
    _act("empty", "emptied", "emptying"),
    _act("level", "levelled", "levelling"),
    _act("probe", "probed", "probing"),
    _act("fit", "fitted", "fitting", "fit", "replace"),
    _act("replace", "replaced", "replacing"),
    _act("see", "seen", "sighting", did="saw"),
    # a crop had blight: seen on it, or lost to it
    _act("ail", "written of", "ailing", "see", kinds=("loss",)),
    _act("store", "stored", "storing"),
    _act("use", "used", "using"),
    _act("freeze", "frozen", "freezing", did="froze"),
    _act("dry", "dried", "drying"),
    _act("bottle", "bottled", "bottling"),
    _act("give", "given away", "giving away", did="gave away"),
    _act("sell", "sold", "selling"),
    _act("swap", "swapped", "swapping"),
    _act("waste", "thrown away", "throwing away", did="threw away"),
    _act("save", "saved", "saving"),
    _act("buy", "bought", "buying"),
    _act("order", "ordered", "ordering", kinds=("none",)),
    _act("pay", "paid", "payment"),
    _act("rate", "rated", "rating"),
    _act("up", "come up", "coming up", did="came up"),
    _act("help", "helped with", "helping", kinds=("none",)),
    _act("happen", "done", "doing", kinds=("none",)),
    _act("plan", "planned", "planning", kinds=("none",)),
)

ACTS: dict[str, Act] = {act.name: act for act in _ACTS}
# each verb of the diary as the keeper did it
DID = {
    "pick": "picked", "lift": "lifted", "pull": "pulled", "dig up": "dug up", "gather": "gathered",
    "harvest": "harvested", "plant": "planted", "count": "counted", "job": "",
    "harden off": "hardened off", "level": "read the level of", "abandon": "gave up", "done": "did",
} | {act.verbs[0]: act.did for act in reversed(_ACTS) if act.verbs}  # fmt: skip
DID |= {"lose": "lost", "sow": "sowed", "fit": "fitted", "treat": "treated", "cut back": "cut back"}
# words of one act that are another's here
SAME_ACT = {"harvest_noun": "harvest", "plant": "go_in", "put": "go_in", "go": "go_in"}
