"""A draft's share of the amounts to the columns of its event: rows, doses, packets, ranges."""

from typing import Any

from journal.events.amounts import Amount, tidy
from journal.events.dates import Days
from journal.events.drafts import Draft
from journal.events.settle import Settler
from journal.events.sums import Figures

COLUMNS = {
    "count": "count",
    "mass": "mass_kg",
    "volume": "volume_l",
    "length": "length_m",
    "area": "area_m2",
    "packets": "packets",
}
# The dimension whose range fills `low` and `high` when several are approximate.
_MAIN = ("mass", "count", "volume", "packets", "length", "area", "time")


class DoseSettler(Settler):
    """Finishes the amounts of an entry's drafts."""

    def _finish_amounts(self, draft: Draft, kind: str, days: Days | None) -> None:
        figures = draft.item.figures
        self._rows(draft, figures, days)
        columns: dict[str, Any] = dict(figures.fixed)
        for dimension, amount in draft.amounts.items():
            columns[COLUMNS[dimension]] = amount.value
        self._doses(draft, figures, columns, days)
        self._bought(draft, columns)
        amounts = draft.amounts or ({"time": draft.minutes} if draft.minutes else {})
        columns |= hedges(amounts, figures)
        draft.extra = columns

    def _rows(self, draft: Draft, figures: Figures, days: Days | None) -> None:
        """Rows without a length run the length of the bed and are approximate."""
        if figures.rows is None:
            return
        if figures.per_row is not None and "count" not in draft.amounts:
            draft.amounts["count"] = figures.per_row.times(figures.rows.value)
        if "length" in draft.amounts:
            return
        declared = self.known.sheet.place_on(draft.place, days.first if days else None)
        length = declared.length_m if declared else None
        if length:
            metres = tidy(figures.rows.value * length)
            draft.amounts["length"] = Amount("length", metres, metres, metres, True)

    def _doses(
        self, draft: Draft, figures: Figures, columns: dict[str, Any], days: Days | None
    ) -> None:
        area = self._area(draft.place, days) if draft.place else None
        for rate in figures.rates:
            if area is None:
                self._tell_no_area(draft)
            elif rate.dimension in {"mass", "volume"}:
                total = tidy(rate.value * area)
                unit = "kg" if rate.dimension == "mass" else "l"
                columns[f"dose_{unit}"] = total
                if rate.dimension == "mass":
                    columns["mass_kg"] = total
                elif self.verb.kind not in {"feed", "treatment"}:
                    columns["volume_l"] = total
        if self.verb.kind in {"feed", "treatment"}:
            self._diluted(draft, figures, columns)

    def _tell_no_area(self, draft: Draft) -> None:
        held = self.known.sheet.place_on(draft.place, None)
        if not draft.place:
            cure = "write the place, for example `in North bed`"
        else:
            kind = held.kind if held else "bed"
            cure = f"give its size on the plot sheet: `- {kind} {draft.place}, 1.2 x 4.8 m`"
        span = draft.item.figures.rate_span
        self.complain("J404", span, word=draft.place or "no place", cure=cure)

    def _diluted(self, draft: Draft, figures: Figures, columns: dict[str, Any]) -> None:
        volume = draft.amounts.get("volume")
        if figures.dilution is not None and volume is not None:
            stuff, water = figures.dilution
            applied = volume.value
            unit = "kg" if stuff.dimension == "mass" else "l"
            columns[f"dose_{unit}"] = tidy(applied * stuff.value / water.value)
            return
        strength = figures.ratio
        if strength is None and volume is not None:
            strength = self._usual_dilution(draft.item.material)
        if strength is not None and volume is not None:
            columns["dose_l"] = tidy(volume.value * strength)
        mass = draft.amounts.get("mass")
        if mass is not None:
            columns.setdefault("dose_kg", mass.value)

    def _usual_dilution(self, material: str) -> float | None:
        own = [m for m in self.known.sheet.materials if m.name == material]
        return own[-1].dilution if own else None

    def _bought(self, draft: Draft, columns: dict[str, Any]) -> None:
        """A purchase of a crop with no count is one packet."""
        if self.verb.name != "buy" or self.entry.verb != "buy" or not draft.item.crop:
            return
        if draft.amounts or draft.item.figures.texts:
            return
        if draft.item.form.rstrip("s") in {"", "packet", "pkt", "seed"}:
            columns["packets"] = 1.0


def hedges(amounts: dict[str, Amount], figures: Figures) -> dict[str, Any]:
    """`approximate`, and the range of the main amount where one was written."""
    hedged = [amounts[name] for name in _MAIN if name in amounts and amounts[name].approximate]
    approximate = bool(hedged) or figures.approximate
    ranged = [amount for amount in hedged if amount.low != amount.high]
    if not ranged:
        return {"approximate": approximate}
    return {"approximate": approximate, "low": ranged[0].low, "high": ranged[0].high}
