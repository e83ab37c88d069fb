"""One question that may be offered in place of a refused one, and what is the worth of it."""

from collections.abc import Sequence
from dataclasses import dataclass

import pandas as pd

from journal.questions.acting import all_going_in
from journal.questions.acts import ACTS, Act
from journal.questions.heard import Heard

# what it is worth that an offer holds a word that was understood
WORTH = {
    "name": 4, "kind": 4, "act": 3, "superlative": 3, "compare": 3, "ahead": 3, "state": 3,
    "prose": 3, "head": 2, "order": 1, "days": 1,
}  # fmt: skip
# what is not first thought of where only a name was understood
_MINOR = 0.5
_MINOR_WAYS = ("often", "where", "count", "usual", "year", "compare", "best", "did", "up", "long")
# an answer in these ways does not go back to the year before
_STRICT_WAYS = ("stood", "up", "long", "kilos")
MANY = ("how_much", "how_many")
# acts of which nothing is asked in the passive: nothing is `come up`
NO_PASSIVE = ("up", "bolt", "fail")


@dataclass(frozen=True, slots=True)
class Offer:
    """A question: of what name, in what way, and how much of what was understood it holds."""

    text: str
    about: str
    way: str
    worth: float


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes offers about one name, act or subject, and reckons what each is worth."""

    heard: Heard
    about: str
    base: float

    def offer(
        self,
        way: str,
        text: str,
        heads: Sequence[str],
        rows: pd.DataFrame,
        more: Sequence[str] = (),
    ) -> Offer:
        """An offer; `{days}` in it stands for the days asked about, or the rows' last year."""
        days, asked = "", False
        if "{days}" in text:
            days, asked = self.heard.when(rows, strict=way in _STRICT_WAYS)
        worth = self.base + sum(WORTH[word] for word in more)
        if self.heard.head in heads:
            worth += WORTH["head"]
        elif way in _MINOR_WAYS and not more:
            worth -= _MINOR
        worth += WORTH["days"] if asked else 0
        return Offer(text.replace("{days}", days), self.about, way, worth)

    def acted(self, *acts: str) -> tuple[str, ...]:
        """What it adds that one of these acts was in the question."""
        return ("act",) if set(acts) & set(self.heard.acts) else ()


def acts_of(heard: Heard, rows: pd.DataFrame, usual: Sequence[str]) -> list[Act]:
    """The acts of the question that rows hold, else those of the usual ones."""
    asked = [ACTS[name] for name in heard.acts if len(done_of(heard, ACTS[name], rows))]
    return asked or [ACTS[name] for name in usual if len(done_of(heard, ACTS[name], rows))]


def done_of(heard: Heard, act: Act, rows: pd.DataFrame) -> pd.DataFrame:
    """The rows that are this act."""
    if act.name == "go_in":
        put_in = all_going_in(heard.diary)
        kept: pd.DataFrame = rows[rows["event"].isin(put_in["event"])]
        return kept
    return act.rows(rows)


def past_of(act: Act, rows: pd.DataFrame) -> str:
    """How an act is said in the passive: what went in was planted, or sown where all was."""
    if act.name != "go_in":
        return act.past
    return "sown" if set(rows["verb"]) == {"sow"} else "planted"


def weighed_of(rows: pd.DataFrame) -> pd.DataFrame:
    """The pickings among rows that were weighed."""
    kept: pd.DataFrame = rows[(rows["kind"] == "harvest") & rows["mass_kg"].notna()]
    return kept
