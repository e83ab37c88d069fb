"""What the written amounts of one item come to, before places and sharing are known."""

from dataclasses import dataclass, field

from journal.events.amounts import Amount
from journal.source import Span
from journal.syntax import nodes as n

# Dimensions of which an entry's total is shared out between its events.
SHARED = ("count", "mass", "volume", "length", "area", "packets")


@dataclass(slots=True)
class Figures:
    """What an item's amounts come to, before places and sharing are known.

    `totals` by dimension, with whether each may serve all items; `fixed` are depths, spacings,
    scores and temperatures by column; `rates` are amounts a square metre.
    """

    totals: dict[str, Amount] = field(default_factory=dict)
    serves_all: set[str] = field(default_factory=set)
    each: set[str] = field(default_factory=set)
    # how many of a measure that nobody has weighed: `2 bags`
    loose: float | None = None
    # how many of a measure that the sheet weighs: `6 punnets`
    measured: float | None = None
    fixed: dict[str, float] = field(default_factory=dict)
    rates: list[Amount] = field(default_factory=list)
    rate_span: Span = n.NOWHERE
    ratio: float | None = None
    dilution: tuple[Amount, Amount] | None = None
    rows: Amount | None = None
    # whether rows without a length are those of every item
    rows_serve: bool = False
    rows_each: bool = False
    per_row: Amount | None = None
    per_vessel: Amount | None = None
    texts: list[str] = field(default_factory=list)
    approximate: bool = False

    def add(self, amount: Amount, serves_all: bool, each: bool) -> None:
        """Adds an amount of a shared dimension; one said twice adds up."""
        held = self.totals.get(amount.dimension)
        if held is not None:
            amount = Amount(
                amount.dimension,
                held.value + amount.value,
                held.low + amount.low,
                held.high + amount.high,
                held.approximate or amount.approximate,
            )
        self.totals[amount.dimension] = amount
        if serves_all:
            self.serves_all.add(amount.dimension)
        if each:
            self.each.add(amount.dimension)
