"""Arithmetic of feeds: a label and an amount to grams of N, P2O5, P, K2O and K.

Formulas with their sources; which figures a diary supports is decided by the studies.
"""

from dataclasses import dataclass

NUTRIENTS = ("N", "P2O5", "P", "K2O", "K")

# The oxides that labels print, as the elements: P2O5 to P by the IFA table
# (http://www.fertilizer.sgs.com/conversion-tables.htm), K2O to K by Virginia Tech SPES-201NP
# (https://turf.spes.vt.edu/content/pubs_ext_vt_edu/en/SPES/SPES-201/SPES-201.html).
P_IN_P2O5 = 0.4364
K_IN_K2O = 0.8301

M2_PER_HA = 10_000


@dataclass(frozen=True, slots=True)
class Label:
    """What a product holds, in per cent; None where nobody says.

    `basis` is "w/w" (g in 100 g), "w/v" (g in 100 ml) or "" where it is not told; `said_by` is
    the sheet or a publication.
    """

    n_pct: float | None
    p2o5_pct: float | None
    k2o_pct: float | None
    basis: str
    said_by: str

    def pct(self, nutrient: str) -> float | None:
        """Per cent of a nutrient; those of P and K follow from the oxides that labels print."""
        of_label = {"N": self.n_pct, "P2O5": self.p2o5_pct, "K2O": self.k2o_pct}
        oxide, part = {"P": ("P2O5", P_IN_P2O5), "K": ("K2O", K_IN_K2O)}.get(
            nutrient, (nutrient, 1.0)
        )
        printed = of_label[oxide]
        return None if printed is None else printed * part


def grams_by_mass(kg: float, pct: float) -> float:
    """g of a nutrient in `kg` of product of `pct` per cent by mass."""
    return kg * 1000 * pct / 100


def grams_by_volume(litres: float, pct: float) -> float:
    """g of a nutrient in `litres` of a liquid of `pct` g in 100 ml (a label w/v)."""
    return litres * 1000 * pct / 100


def mg_per_l(grams: float, litres: float) -> float:
    """Strength of a diluted feed in mg a litre, which growers call ppm: 10 x per cent x g a l."""
    return 1000 * grams / litres


def kg_per_ha(g_per_m2: float) -> float:
    """g a m2 as kg a hectare: 10 kg/ha are 1 g/m2."""
    return g_per_m2 * M2_PER_HA / 1000
