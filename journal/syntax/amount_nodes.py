"""What an entry says of how much, how long, when and for how much money, as frozen values.

Spans count from the start of the entry's text and are left out of equality.
"""

from dataclasses import dataclass, field

from journal.source import Span

NOWHERE = Span(0, 0)


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as written: `low` and `high` differ for `2-3` and `5 or 6`."""

    low: float
    high: float
    approximate: bool = False

    @property
    def middle(self) -> float:
        """The figure itself, or the middle of its range."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Quantity:
    """`24`, `1.2 kg`, `2 lb 4 oz`, `about 3 barrows`, `a trug`: a figure with its unit as written.

    `unit` is lower case, "" for a bare number; `minor` and `minor_unit` are the `4 oz`.
    """

    figure: Figure
    unit: str = ""
    minor: Figure | None = None
    minor_unit: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Product:
    """`15 x 30 cm`, `2 x 500 g`, `1h30 x 2`, `1.2 x 1.2 x 1 m`."""

    factors: tuple[Quantity, ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PartOf:
    """`36 of 40`."""

    part: Quantity
    whole: Quantity
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Rows:
    """`3 rows`, `3 rows of 4 m`; without a number, the word `rows` alone."""

    count: Figure | None
    length: Quantity | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Ratio:
    """`1:200`: `one` part to `water` parts of water."""

    one: float
    water: float
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Money:
    """`£4.50`, `50p`, `4.50 EUR`, `£1.20 each`, `£3 per kg`; `currency` is an ISO 4217 code.

    It is `$` where that sign was written: whose dollar is for the plot sheet to say.
    `per` is the unit that a price is for, "" for a total or a price of each.
    """

    value: float
    currency: str
    each: bool = False
    per: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Tail:
    """A word that says what the amount before it is.

    `kind`: deep, apart, each_way, between_rows, per_area, per_row, per_vessel, each, altogether,
    or_so. `ground` is the area in square metres that a rate is for, 0 for any other kind.
    """

    kind: str
    text: str
    ground: float = 0.0
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Form:
    """What a bought or counted thing is: plugs, sets, packets, seed, plants."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Vague:
    """`a few`, `all morning`: an amount that stays as written."""

    text: str
    time: bool
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Moment:
    """`on 5 Nov`, `by 28 March`, `in 2 weeks`, `every 2 weeks`, `until August`, `in April`.

    `kind`: on, by, within, after, every, until; `text` is what stands after the small word.
    """

    kind: str
    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Times:
    """`twice`, `3 times`; with `people`, so many pairs of hands."""

    count: int
    people: bool = False
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Duration:
    """`for 2 hours`."""

    quantity: Quantity
    span: Span = field(default=NOWHERE, compare=False)
