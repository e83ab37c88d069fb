"""What each act of the grammar is in the diary: its verbs or kinds of event, and how it is said."""

from dataclasses import dataclass

import pandas as pd


@dataclass(frozen=True, slots=True)
class Act:
    """Events of these verbs, or of these kinds; `past` says it of a thing: `was picked`.

    `noun` is the doing of it, `after` what stands behind `past` (`was put in store`).
    """

    name: str
    past: str
    noun: str
    verbs: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()

    def rows(self, events: pd.DataFrame) -> pd.DataFrame:
        """The events that are this act."""
        mine = events["verb"].isin(self.verbs) | events["kind"].isin(self.kinds)
        kept: pd.DataFrame = events[mine & (events["kind"] != "intention")]
        return kept


def _act(name: str, past: str, noun: str, *verbs: str, kinds: tuple[str, ...] = ()) -> Act:
    return Act(name, past, noun, verbs if verbs or kinds else (name.replace("_", " "),), kinds)


_ACTS = (
    # which events put a crop into its growing place is decided in going_in.py
    _act("go_in", "put in", "planting", "sow", "plant", "plant out", "heel in"),
    _act("plant_out", "planted out", "planting out", "plant out"),
    _act("sow", "sown", "sowing"),
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
    _act("mow", "mown", "mowing"),
    _act("edge", "edged", "edging"),
    _act("tidy", "tidied", "tidying"),
    _act("clean", "cleaned", "cleaning"),
    _act("open", "opened", "opening"),
    _act("shut", "shut", "shutting"),
    _act("shade", "shaded", "shading"),
    _act("pinch", "pinched", "pinching"),
    _act("train", "trained", "training"),
    _act("saw_up", "sawn up", "sawing up"),
    _act("burn", "burnt", "burning"),
    _act("sieve", "sieved", "sieving"),
    _act("turn", "turned", "turning"),
    _act("shred", "shredded", "shredding"),
    _act("build", "built", "building"),
    _act("mend", "mended", "mending"),
    _act("paint", "painted", "painting"),
    _act("take_down", "taken down", "taking down"),
    _act("fetch", "fetched", "fetching"),
    _act("fill", "filled", "filling"),
    _act("empty", "emptied", "emptying"),
    _act("level", "levelled", "levelling"),
    _act("probe", "probed", "probing"),
    _act("fit", "fitted", "fitting", "fit", "replace"),
    _act("replace", "replaced", "replacing"),
    _act("see", "seen", "sighting"),
    _act("store", "stored", "storing"),
    _act("use", "used", "using"),
    _act("freeze", "frozen", "freezing"),
    _act("dry", "dried", "drying"),
    _act("bottle", "bottled", "bottling"),
    _act("give", "given away", "giving away"),
    _act("sell", "sold", "selling"),
    _act("swap", "swapped", "swapping"),
    _act("waste", "thrown away", "throwing away"),
    _act("save", "saved", "saving"),
    _act("buy", "bought", "buying"),
    _act("pay", "paid", "payment"),
    _act("rate", "rated", "rating"),
    _act("up", "come up", "coming up"),
)

ACTS: dict[str, Act] = {act.name: act for act in _ACTS}
# words of one act that are another's here
SAME_ACT = {"harvest_noun": "harvest", "plant": "go_in", "put": "go_in", "go": "go_in"}
