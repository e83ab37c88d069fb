"""What a feed or dressing was: its label on that day, how much product, and where it comes from.

A figure is the sheet's, else a publication's, else none with the reason why.
"""

from dataclasses import dataclass
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import MaterialDeclared, Sheet
from journal.reference.load import load
from journal.reference.stuff import Manure, is_raw_manure, load_stuff
from journal.studies.nutrients import Label
from journal.studies.put_on import put_on

NO_FEEDS = ("lime", "gypsum")

SHEET = "label on the sheet"
NO_MATERIAL = "not written what it was"
NO_LABEL = "no label on the sheet and no published analysis"
NO_AMOUNT = "not written how much"
NO_DILUTION = "no dilution written or on the sheet"
NOT_APART = "its weight is not told apart from the crop's"
NO_DENSITY = "only a volume is written, and no density is published"
AT_LEAST = "at least: the concentrate's density is not on the sheet, and is more than water's"


@dataclass(frozen=True, slots=True)
class Product:
    """How much product an event used: kg by each density that is published, or litres.

    `how` says where kg come from when they were not weighed; `lack` says why there is no amount.
    """

    kg: tuple[float, ...] = ()
    litres: float | None = None
    how: str = ""
    lack: str = ""


def known_name(material: str) -> str:
    """The name of `materials.csv` for a written material, or the words as written."""
    return load().material_spellings.get(material.lower(), material.lower())


def declared(material: str, day: date | None, sheet: Sheet) -> MaterialDeclared | None:
    """The declaration of a material that holds on the day; before the first, the first."""
    own = [one for one in sheet.materials if one.name == material]
    held = [one for one in own if one.date is None or day is None or one.date <= day]
    return held[-1] if held else own[0] if own else None


def labels(material: str, day: date | None, sheet: Sheet) -> tuple[Label, ...]:
    """The label on the sheet; without one, every published analysis of a manure; else none."""
    own = declared(material, day, sheet)
    if own is not None and own.n_pct is not None:
        return (Label(own.n_pct, own.p2o5_pct, own.k2o_pct, own.basis, SHEET),)
    return tuple(_published(one) for one in load_stuff().manures.get(known_name(material), ()))


def _published(one: Manure) -> Label:
    def pct(kg_per_t: float | None) -> float | None:
        return None if kg_per_t is None else kg_per_t / 10

    figures = (pct(one.n_kg_per_t), pct(one.p2o5_kg_per_t), pct(one.k2o_kg_per_t))
    return Label(*figures, "w/w", one.source)


def origin(material: str, sheet: Sheet) -> str:
    """Where its nitrogen comes from: livestock, plant or animal, mineral; "" where not known."""
    also = [word for one in sheet.materials if one.name == material for word in one.also]
    origins = load_stuff().origins
    for word in (material, *also):
        if known_name(word) in origins:
            return origins[known_name(word)]
    raw = any(is_raw_manure(word, load()) for word in (material, *also))
    return "livestock" if raw else ""


def product(row: dict[Any, Any], sheet: Sheet, bed_m2: float | None) -> Product:
    """How much product a feed or dressing used; `row` is its event, `bed_m2` its bed's area.

    A volume is weighed by the sheet's density; without one, loose stuff by every published
    density. A depth spread over a bed is depth x area. The weight of a sowing or planting is not
    told apart from the crop's own, unless it is a rate.
    """
    with_crop = row["kind"] in {"sowing", "planting"}
    kg = _given(row, "dose_kg") if with_crop else _given(row, "dose_kg", "mass_kg")
    if kg is not None:
        return Product(kg=(kg,))
    if row["kind"] == "feed":
        return _concentrate(row, sheet)
    litres = _given(row, "volume_l")
    if with_crop:
        lack = NO_AMOUNT if _given(row, "mass_kg") is None else NOT_APART
        return Product(lack=lack) if litres is None else _weighed(litres, row, sheet)
    depth, area = _given(row, "depth_m"), _given(row, "area_m2") or bed_m2
    if litres is None and depth is not None and area is not None:
        litres = cover_litres(area, depth)
    if litres is None:
        return Product(lack=NO_AMOUNT)
    return _weighed(litres, row, sheet)


def cover_litres(area_m2: float, depth_m: float) -> float:
    """Litres that cover an area so deep: 1 m2 a metre deep takes 1000 l."""
    return area_m2 * depth_m * 1000


def _concentrate(row: dict[Any, Any], sheet: Sheet) -> Product:
    litres = _given(row, "dose_l")
    if litres is None:
        return Product(lack=NO_AMOUNT if _given(row, "volume_l") is None else NO_DILUTION)
    return _by_own_density(litres, row, sheet) or Product(litres=litres)


def _by_own_density(litres: float, row: dict[Any, Any], sheet: Sheet) -> Product | None:
    """Litres weighed by the sheet's density; None without one, or where the label needs litres."""
    own = declared(row["material"], _day(row), sheet)
    if own is None or own.kg_per_l is None or own.basis == "w/v":
        return None
    how = f"{own.kg_per_l:g} kg a litre on the sheet"
    return Product(kg=(litres * own.kg_per_l,), litres=litres, how=how)


def _weighed(litres: float, row: dict[Any, Any], sheet: Sheet) -> Product:
    own = _by_own_density(litres, row, sheet)
    if own is not None:
        return own
    name = known_name(row["material"])
    found = [one for one in load_stuff().heap.get(name, ()) if one.kg_per_m3 is not None]
    if not found:
        return Product(litres=litres, lack=NO_DENSITY)
    densities = {one.kg_per_m3: one.source for one in found if one.kg_per_m3 is not None}
    how = "; ".join(f"{kg:g} kg/m3 loose ({source})" for kg, source in densities.items())
    return Product(kg=tuple(litres * kg / 1000 for kg in densities), litres=litres, how=how)


def _given(row: dict[Any, Any], *columns: str) -> float | None:
    return next((float(row[name]) for name in columns if not pd.isna(row[name])), None)


def _day(row: dict[Any, Any]) -> date | None:
    return None if pd.isna(row["date"]) else row["date"].date()


def fed_events(diary: Diary) -> pd.DataFrame:
    """The feeds, and the dressings that name a material; lime and gypsum are neither.

    What a crop was sown or planted with, or a bed dug with, counts where it is known to feed.
    """
    events = diary.events
    named = (events["kind"] == "dressing") & (events["material"] != "")
    beside = put_on(events) & ~named
    feeds = {word: _is_feed(word, diary.sheet) for word in events.loc[beside, "material"].unique()}
    beside &= events["material"].map(feeds).eq(True)
    fed = events[named | beside | (events["kind"] == "feed")]
    names = {material: known_name(material) for material in fed["material"].unique()}
    return fed[~fed["material"].map(names).isin(NO_FEEDS)]


def _is_feed(material: str, sheet: Sheet) -> bool:
    return bool(labels(material, None, sheet) or origin(material, sheet))
