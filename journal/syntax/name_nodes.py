"""What an entry says of what, where, with what and with whom, as frozen values.

Spans count from the start of the entry's text and are left out of equality.
"""

from dataclasses import dataclass, field

from journal.source import Span
from journal.syntax.amount_nodes import NOWHERE, Form, Quantity


@dataclass(frozen=True, slots=True)
class Crop:
    """A crop or group as written."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Cultivar:
    """`'Musselburgh'`, without its quotes; `quoted` is false for one known from elsewhere."""

    name: str
    quoted: bool = True
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Label:
    """`[second]`, without its brackets."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PlaceName:
    """One place as written; `known` when the plot sheet has it."""

    text: str
    known: bool
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Place:
    """`in North 2`, `from Frame`, `North 1, 2 and 4`; `preposition` is "" for a bare name.

    `from Bed 1 to 4` is a move or a row of beds, as the verb has it: `to` is where it would go and
    `row` all the beds from the first to the last.
    """

    preposition: str
    names: tuple[PlaceName, ...]
    to: tuple[PlaceName, ...] = ()
    row: tuple[PlaceName, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Inside:
    """`in 5 l`, `in 2 sacks`, `into 9 cm pots`, `in modules`."""

    preposition: str
    quantity: Quantity | None
    vessel: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Cover:
    """`under fleece`."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Companion:
    """`under sweetcorn`, `between leeks`: sown or planted among another crop.

    `on broad bean`, `to carrot fly` name the crop itself, or a part of what an entry was lost to;
    `crops` are its nodes, and `text` is the whole with its preposition.
    """

    text: str
    preposition: str = ""
    crops: tuple[Crop | Cultivar | Form, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Material:
    """A feed, dressing, product or thing as written."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class With:
    """`with NAME`: what follows it (amounts, a material) belongs to what was used.

    `kind` is "material", "person", "crop", "place", "vessel", "cover", "words" or "" when the name
    stands further on (`with 3 barrows compost`).
    """

    name: str
    kind: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Party:
    """`to Ines`, `from Walter`: a person of the sheet after a preposition."""

    preposition: str
    name: str
    span: Span = field(default=NOWHERE, compare=False)
