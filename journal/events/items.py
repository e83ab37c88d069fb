"""Items: what one entry says, by crop or place, as values that grouping.py fills."""

from dataclasses import dataclass, field

from journal.source import Span
from journal.syntax import nodes as n

AmountNode = n.Quantity | n.Product | n.PartOf | n.Rows | n.Vague | n.Ratio


@dataclass(frozen=True, slots=True)
class Measured:
    """An amount with the words that say what it is (`deep`, `apart`, `each`).

    `own` is false for what was said after its item's head, so that it may serve every item.
    """

    node: AmountNode
    tails: frozenset[str]
    span: Span
    own: bool = True
    used: bool = False
    # the square metres that a rate is for, 0 where it is none
    ground: float = 0.0


@dataclass(frozen=True, slots=True)
class Words:
    """A run of words that no rule claims, as written."""

    text: str
    span: Span


@dataclass(slots=True)
class Item:
    """What one event (or one for each of its places) is made from; filled while grouping."""

    crop: n.Crop | None = None
    undeclared: Words | None = None
    cultivar: n.Cultivar | None = None
    label: str = ""
    amounts: list[Measured] = field(default_factory=list)
    places: list[n.PlaceName] = field(default_factory=list)
    sources: list[n.PlaceName] = field(default_factory=list)
    place_preposition: str = ""
    times: list[Measured] = field(default_factory=list)
    money: list[tuple[n.Money, bool]] = field(default_factory=list)
    with_: n.With | None = None
    material: Words | None = None
    vessel: str = ""
    # how many vessels, where their number was said
    vessels: float | None = None
    cover: str = ""
    party: str = ""
    subject: list[Words] = field(default_factory=list)
    form: str = ""
    dilution: tuple[n.Quantity, n.Quantity] | None = None

    @property
    def headed(self) -> bool:
        """Whether a crop, cultivar or place has been said."""
        named = self.crop or self.undeclared or self.cultivar
        return bool(named or self.places or self.material or self.subject)


@dataclass(slots=True)
class Grouped:
    """An entry's items with what belongs to the whole of it."""

    items: list[Item] = field(default_factory=list)
    moments: list[n.Moment] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    task: list[Span] = field(default_factory=list)
    helpers: list[str] = field(default_factory=list)
    repeat: int = 1
    people: int = 1
    altogether: Measured | None = None
    # code, span, words for the message
    faults: list[tuple[str, Span, dict[str, object]]] = field(default_factory=list)
