"""What each feed and dressing gave, nutrient by nutrient, and how long each crop has gone without.

The label governs: figures are the sheet's, or a publication's where it is silent.
"""

from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.bed_size import bed_size
from journal.studies.fed_crops import stood_there
from journal.studies.notes import Note, crop_words
from journal.studies.nutrients import NUTRIENTS, Label, grams_by_mass, grams_by_volume, mg_per_l
from journal.studies.once import once_a_diary
from journal.studies.parcels import by_parcel
from journal.studies.products import (
    AT_LEAST,
    NO_LABEL,
    NO_MATERIAL,
    Product,
    fed_events,
    labels,
    origin,
    product,
)
from journal.studies.seasons import certain_year
from journal.tables.schema import TABLES, make_frame

NOT_ON_LABEL = "the label or analysis does not say"
NO_AREA = "the place has no area on the sheet"
NO_PLACE = "not written where"
AS_WRITTEN, CROPS_ROWS, WHOLE_PLACE = "as written", "the crop's rows", "the whole place"
BY_VOLUME = "the label is by volume and the amount by weight"

Range = tuple[float | None, float | None]
NOTHING: Range = (None, None)


@once_a_diary
def feeding(diary: Diary) -> pd.DataFrame:
    """Nutrients of each feed and dressing, one row an event and nutrient: the table `feeding`.

    - N, P2O5 and K2O by the label on the sheet (`4-3-8`), P = 0.4364 P2O5, K = 0.8301 K2O. A
      manure without a label has the published analyses of `manures.csv`; where two differ,
      `g_low` to `g_high` spans both and `analysis` names them.
    - By weight: g = kg x 1000 x per cent / 100. By a label w/v: g = litres x 1000 x per cent /
      100. A label w/w, or of unknown basis, with a volume of concentrate needs its density: the
      sheet's (`density 1.1`), else `g_low` reckons with water's 1 kg/l and `g_high` is empty,
      for concentrates are heavier.
    - Product is the weight, the dose by dilution or rate, or for loose stuff its volume (or
      depth x area) by the sheet's density, else by the published bulk densities of
      `heap_stuff.csv`, which are those of loose material and only near the truth.
    - `area_m2` is as written, else the ground that the crop was sown or planted on by its rows or
      spacing (not for a rate, `60 g per m2`, which is of the whole place), else the whole place
      as the sheet sizes it that day; `area_of` says which. `plants` is the count that the entry
      gives, else the plants of the crop there that day: those planted less those lost. The water
      of a dilution changes mg/l, never g/m2.

    Formulas: mass balance on the two kinds of label; factors as `studies.nutrients` cites them.
    `why` says what left a figure empty: no label, no amount, no dilution, no density, a feed that
    does not say what it was.
    """
    events = fed_events(diary)
    beds = bed_size(events["place"], events["date"], diary.sheet)
    rows = [
        {**row, "bed_m2": None if pd.isna(bed) else float(bed)}
        for row, bed in zip(events.to_dict("records"), beds, strict=True)
    ]
    found = [line for row in rows for line in _lines(row, diary)]
    names = TABLES["feeding"].column_names
    return make_frame("feeding", {name: [line[name] for line in found] for name in names})


def _lines(row: dict[Any, Any], diary: Diary) -> list[dict[str, Any]]:
    """The five lines of one event."""
    day = None if pd.isna(row["date"]) else row["date"].date()
    known = labels(row["material"], day, diary.sheet)
    used = product(row, diary.sheet, row["bed_m2"])
    plants, own_ground = _crop_there(row, day, diary)
    area, area_of = _ground_of(row, own_ground)
    same = {
        **{name: row[name] for name in _AS_WRITTEN},
        **{name: None if pd.isna(row[name]) else row[name] for name in ("date", "date_end")},
        "origin": origin(row["material"], diary.sheet),
        "product_kg_low": min(used.kg, default=None),
        "product_kg_high": max(used.kg, default=None),
        "product_l": used.litres,
        "area_m2": area,
        "area_of": area_of,
        "plants": plants,
        "analysis": "; ".join([*dict.fromkeys(one.said_by for one in known), used.how]).strip("; "),
    }
    lines = []
    for nutrient in NUTRIENTS:
        grams, why = _grams(known, used, nutrient) if row["material"] else (NOTHING, NO_MATERIAL)
        rates = {
            "g": grams,
            "g_per_m2": _over(grams, area),
            "g_per_plant": _over(grams, plants),
            "mg_per_l": _strength(grams, row),
        }
        ends = {f"{name}_{end}": value[at] for name, value in rates.items() for at, end in _ENDS}
        if grams[0] is not None and area is None:
            why = "; ".join(filter(None, [why, NO_AREA if row["place"] else NO_PLACE]))
        lines.append({**same, **ends, "nutrient": nutrient, "why": why})
    return lines


def _crop_there(
    row: dict[Any, Any], day: date | None, diary: Diary
) -> tuple[float | None, float | None]:
    """Plants that were fed, and the ground that their crop stood on."""
    seeds = row["kind"] == "sowing"
    counted = None if pd.isna(row["count"]) or seeds else float(row["count"])
    if not row["crop"] or not row["place"] or day is None:
        return counted, None
    plants, ground = stood_there(diary, row["crop"], row["cultivar"], row["place"], day)
    return (counted if counted is not None else plants), ground


def _ground_of(row: dict[Any, Any], own_ground: float | None) -> tuple[float | None, str]:
    if not pd.isna(row["area_m2"]):
        return float(row["area_m2"]), AS_WRITTEN
    if own_ground and not _is_rate(row["amount_text"]):
        return own_ground, CROPS_ROWS
    return row["bed_m2"], WHOLE_PLACE if row["bed_m2"] is not None else ""


def _is_rate(amount_text: str) -> bool:
    """Whether `60 g per m2` was written, which was given to the whole place."""
    return any(unit in amount_text.lower() for unit in ("m2", "m²", "sq", "yd2", "yd²"))


_AS_WRITTEN = ("event", "place", "crop", "cultivar", "material")
_ENDS = ((0, "low"), (1, "high"))


def _grams(known: tuple[Label, ...], used: Product, nutrient: str) -> tuple[Range, str]:
    """Least and most g of a nutrient, and why a figure is empty."""
    if not known:
        return NOTHING, NO_LABEL
    if used.lack:
        return NOTHING, used.lack
    held = [(label, pct) for label in known if (pct := label.pct(nutrient)) is not None]
    if not held:
        return NOTHING, NOT_ON_LABEL
    found = [grams for label, pct in held for grams in _of_label(label, pct, used)]
    if not found:
        return NOTHING, BY_VOLUME
    if not used.kg and any(label.basis != "w/v" for label, _ in held) and max(found) > 0:
        return (min(found), None), AT_LEAST
    return (min(found), max(found)), ""


def _of_label(label: Label, pct: float, used: Product) -> list[float]:
    if label.basis == "w/v" or not used.kg:
        return [] if used.litres is None else [grams_by_volume(used.litres, pct)]
    return [grams_by_mass(kg, pct) for kg in used.kg]


def _over(grams: Range, units: Any) -> Range:
    if pd.isna(units) or units <= 0:
        return NOTHING
    low, high = grams
    return (None if low is None else low / units, None if high is None else high / units)


def _strength(grams: Range, row: dict[Any, Any]) -> Range:
    """mg a litre of a feed that was diluted; a dressing has none."""
    litres = row["volume_l"]
    if row["kind"] != "feed" or pd.isna(litres) or litres <= 0:
        return NOTHING
    low, high = grams
    return (
        None if low is None else mg_per_l(low, litres),
        None if high is None else mg_per_l(high, litres),
    )


def feeding_totals(frame: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    """The feeding frame summed by `keys`: g a m2, how many events, and how many without a figure.

    `g_per_m2_low` sums what is known; `g_per_m2_high` is missing as soon as one of the events has
    none, so that the sum reads as "at least".
    """
    groups = frame.groupby(keys, dropna=False, sort=True)
    low = groups["g_per_m2_low"].sum(min_count=1)
    complete = groups["g_per_m2_high"].count() == groups.size()
    high = groups["g_per_m2_high"].sum(min_count=1).where(complete)
    unknown = groups.size() - groups["g_per_m2_low"].count()
    totals = pd.DataFrame({"g_per_m2_low": low, "g_per_m2_high": high})
    return totals.assign(events=groups.size(), unknown=unknown).reset_index()


@once_a_diary
def feeding_last(diary: Diary) -> pd.DataFrame:
    """The last feed or dressing of each crop and place: the table `feeding last`.

    `days_low` to `days_high` are whole days from its last and first possible day to the diary's
    today. A feed of a place that names no crop has a row with an empty crop. Places go by the
    names that their ground has today. `times` counts all feeds of the row. Events without a day,
    or after today, count in none. Plain differences, no published source.
    """
    fed = fed_events(diary)
    today = pd.Timestamp(diary.today)
    fed = by_parcel(fed[fed["date"].notna() & (fed["date"] <= today)], diary.sheet)
    fed = fed.sort_values(["date_end", "event"]).assign(place=fed["ground"])
    groups = fed.groupby(["crop", "place"], sort=True)
    rows = groups.tail(1).sort_values(["crop", "place"])
    rows = rows.assign(times=groups.size().to_numpy(), events=rows["event"].astype("string"))
    rows["days_low"] = (today - rows["date_end"]).dt.days.clip(lower=0)
    rows["days_high"] = (today - rows["date"]).dt.days
    names = TABLES["feeding last"].column_names
    return make_frame("feeding last", {name: rows[name] for name in names})


def feeding_notes(diary: Diary) -> list[Note]:
    """Feeds and dressings whose nitrogen is not known, each with the reason."""
    frame = feeding(diary)
    blank = frame[(frame["nutrient"] == "N") & frame["g_low"].isna()]
    blank = blank.assign(year=certain_year(blank))
    return [
        Note(
            "feeding",
            "label" if row["why"] in (NO_LABEL, NO_MATERIAL) else "amount",
            _what(row),
            row["why"],
            year,
        )
        for row in blank.to_dict("records")
        for year in [None if pd.isna(row["year"]) else int(row["year"])]
    ]


def _what(row: dict[Any, Any]) -> str:
    where = f" in {row['place']}" if row["place"] else ""
    to = f" to {crop_words(row['crop'])}" if row["crop"] else ""
    return f"{row['material'] or 'feed'}{to}{where}"
