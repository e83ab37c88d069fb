"""Items to drafts of events: places filled in, and what is said once shared out.

A draft is an event's columns before it has its number, day and source.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from journal.events.amounts import Amount
from journal.events.sums import SHARED, Figures

Area = Callable[[str], float | None]


@dataclass(slots=True)
class Settled:
    """An item with its names settled; `figures` are still those of the whole item."""

    crop: str = ""
    cultivar: str = ""
    label: str = ""
    places: list[str] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)
    vessel: str = ""
    cover: str = ""
    party: str = ""
    material: str = ""
    form: str = ""
    subject: str = ""
    figures: Figures = field(default_factory=Figures)
    minutes: Amount | None = None
    minutes_text: str = ""
    cost: float | None = None
    cost_each: float | None = None
    # prices for an amount: the money, and one of its unit
    prices: list[tuple[float, Amount]] = field(default_factory=list)
    currency: str = ""
    # Whether the time is each place's or crop's.
    each_time: bool = False
    # Whether the time or money stood before the item's head, so that it is its own.
    own_time: bool = False
    own_money: bool = False

    @property
    def priced(self) -> bool:
        """Whether money was said of it."""
        return self.cost is not None or self.cost_each is not None or bool(self.prices)


@dataclass(slots=True)
class Draft:
    """One event in the making: its item, its place, and its share of the amounts."""

    item: Settled
    place: str = ""
    place_from: str = ""
    amounts: dict[str, Amount] = field(default_factory=dict)
    minutes: Amount | None = None
    cost: float | None = None
    currency: str = ""
    extra: dict[str, Any] = field(default_factory=dict)


def fill(items: list[Settled]) -> None:
    """Spreads what serves more than its own item.

    A place serves the later items until another is said, and the earlier ones if none came before;
    so do vessel, cover, party, subject and what it was done with. Depths and spacings said in the
    last item alone serve all.
    """
    if len(items) == 1:
        return
    for name in ("places", "sources", "vessel", "cover", "party", "subject", "material"):
        _spread(items, name)
    last = items[-1].figures
    for column, value in last.fixed.items():
        if column in {"depth_m", "spacing_m", "row_spacing_m"}:
            for item in items[:-1]:
                item.figures.fixed.setdefault(column, value)
    _spread_rates(items)
    _spread_rows(items)


def _spread(items: list[Settled], name: str) -> None:
    held: Any = None
    first: Any = None
    for item in items:
        said = getattr(item, name)
        if name == "material" and said == item.form:
            continue  # the sets of `onion sets` are no other crop's
        if said:
            held = said
            first = first or said
        elif held:
            setattr(item, name, held)
    for item in items:
        if first and not getattr(item, name):
            setattr(item, name, first)


def _spread_rows(items: list[Settled]) -> None:
    """`carrot and parsnip, 3 rows`: rows said last are shared out, as amounts are."""
    last = items[-1].figures
    alone = sum(item.figures.rows is not None for item in items) == 1
    if last.rows is None or not alone or not last.rows_serve or "length" in last.totals:
        return
    rows = last.rows if last.rows_each else last.rows.times(1 / len(items))
    for item in items:
        item.figures.rows = rows


def _spread_rates(items: list[Settled]) -> None:
    """A rate or a dilution said once holds for each item."""
    said = [item.figures for item in items if _has_rate(item.figures)]
    if len(said) != 1:
        return
    for item in items:
        figures = item.figures
        if not _has_rate(figures):
            figures.rates, figures.ratio = said[0].rates, said[0].ratio
            figures.rate_span = said[0].rate_span
            figures.dilution = said[0].dilution


def _has_rate(figures: Figures) -> bool:
    return bool(figures.rates) or figures.ratio is not None or figures.dilution is not None


def expand(items: list[Settled]) -> list[Draft]:
    """One draft for each item and each of its places."""
    drafts = []
    for item in items:
        source = item.sources[0] if item.sources else ""
        for place in item.places or [""]:
            drafts.append(Draft(item, place, source))
    return drafts


def share(items: list[Settled], drafts: list[Draft], area: Area) -> bool:
    """Gives each draft its share; returns whether a total was shared between several crops.

    Time and money are shared out equally, a total amount by area where the area of every place is
    known, else equally, so that sums stay true. `each` holds for every draft.
    """
    last = items[-1]
    shared = False
    for dimension in SHARED:
        holders = [item for item in items if dimension in item.figures.totals]
        if len(items) > 1 and len(holders) == 1 and _serves_all(holders[0], last, dimension):
            figures = holders[0].figures
            amount = figures.totals[dimension]
            _share_amount(drafts, dimension, amount, figures, area)
            for item in items:
                item.figures.texts = item.figures.texts or figures.texts
            if dimension not in figures.each and len({item.crop for item in items}) > 1:
                shared = True
            continue
        for item in holders:
            own = [draft for draft in drafts if draft.item is item]
            _share_amount(own, dimension, item.figures.totals[dimension], item.figures, area)
    _share_minutes(items, drafts)
    _share_cost(items, drafts)
    return shared


def _serves_all(holder: Settled, last: Settled, dimension: str) -> bool:
    """Said after the last item, or of each (`1 kg each kale and leek`)."""
    figures = holder.figures
    return dimension in figures.each or (holder is last and dimension in figures.serves_all)


def _share_amount(
    drafts: list[Draft], dimension: str, amount: Amount, figures: Figures, area: Area
) -> None:
    if dimension in figures.each:
        for draft in drafts:
            draft.amounts[dimension] = amount.times(_each_of(draft, dimension))
        return
    for draft, part in zip(drafts, _parts(drafts, area), strict=True):
        draft.amounts[dimension] = amount.times(part) if part != 1 else amount


def _each_of(draft: Draft, dimension: str) -> float:
    """Of how many an event's `each` is: `6 courgettes 200 g each`, `2 kg each to Ines and Tom`.

    Where an item has several places, `each` is of them and not of what was counted.
    """
    count = draft.item.figures.totals.get("count")
    counted = count is not None and "count" not in draft.item.figures.each
    if counted and dimension in {"mass", "volume"} and len(draft.item.places) < 2:
        return count.value if count else 1
    return len(draft.item.party.split(", ")) if draft.item.party else 1


def _parts(drafts: list[Draft], area: Area) -> list[float]:
    areas = [area(draft.place) if draft.place else None for draft in drafts]
    known = [size for size in areas if size]
    if len(known) == len(drafts) and len({draft.place for draft in drafts}) > 1:
        whole = sum(known)
        return [size / whole for size in known]
    return [1 / len(drafts)] * len(drafts)


def _share_minutes(items: list[Settled], drafts: list[Draft]) -> None:
    holders = [item for item in items if item.minutes is not None]
    last = items[-1]
    if holders == [last] and not last.own_time:
        _even(drafts, last)
        return
    for item in holders:
        _even([draft for draft in drafts if draft.item is item], item)


def _even(drafts: list[Draft], item: Settled) -> None:
    assert item.minutes is not None
    for draft in drafts:
        draft.minutes = item.minutes.times(1 if item.each_time else 1 / len(drafts))


def _share_cost(items: list[Settled], drafts: list[Draft]) -> None:
    holders = [item for item in items if item.priced]
    last = items[-1]
    if holders == [last] and not last.own_money:
        _cost(drafts, last)
        return
    for item in holders:
        _cost([draft for draft in drafts if draft.item is item], item)


def _cost(drafts: list[Draft], item: Settled) -> None:
    for draft in drafts:
        draft.currency = item.currency
        if item.cost is not None:
            draft.cost = item.cost / len(drafts)
        if item.cost_each is not None:
            draft.cost = (draft.cost or 0) + item.cost_each * _number(draft)
        for value, one in item.prices:
            amount = _amount_of(draft, one.dimension)
            if amount is not None:
                draft.cost = (draft.cost or 0) + value * amount / one.value


def _number(draft: Draft) -> float:
    """How many things a price of each is for: plants, packets, bags, punnets."""
    number = draft.amounts.get("count") or draft.amounts.get("packets")
    figures = draft.item.figures
    return number.value if number else figures.loose or figures.measured or 1


def _amount_of(draft: Draft, dimension: str) -> float | None:
    if dimension == "loose":
        return draft.item.figures.loose
    amount = draft.amounts.get(dimension)
    return amount.value if amount else None
