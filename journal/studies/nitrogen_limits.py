"""Nitrogen of organic manures over twelve months and calendar years, against published limits.

The limits bind farms in a nitrate vulnerable zone of England; for a plot they are a yardstick.
"""

from bisect import bisect_left
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.bed_size import bed_size
from journal.studies.feeding import feeding
from journal.studies.harvest import per
from journal.studies.nutrients import M2_PER_HA, kg_per_ha
from journal.studies.once import once_a_diary
from journal.studies.parcels import by_parcel
from journal.studies.plot_area import plot_area
from journal.tables.schema import TABLES, make_frame

ORGANIC = ("livestock", "plant or animal")
PER_HECTARE = 250
PER_HOLDING = 170
TWELVE_MONTHS = "SI 2015/668 reg 8(1): organic manure on any hectare in any twelve months"
CALENDAR_YEAR = "SI 2015/668 reg 7: livestock manure on the whole holding in a calendar year"
NO_BED = "the place has no area on the sheet"
NO_AREA = "the plot and its beds have no size on the sheet"


@once_a_diary
def feeding_limits(diary: Diary) -> pd.DataFrame:
    """Nitrogen from organic manures against two limits: the table `feeding limits`.

    - Any twelve months, a bed: kg/ha = 10 x g/m2 of every organic manure on the whole bed, summed
      over the twelve months that end on each day of spreading (the sum of any other twelve
      months is no greater). Against 250 kg/ha: SI 2015/668 reg 8(1), read:
      https://www.legislation.gov.uk/uksi/2015/668/part/3/made.
    - A calendar year, the whole plot, only where the sheet says `nitrate zone`: kg of livestock
      manure / area, against 170 kg/ha, reg 7. The area is the sheet's for the plot, else the sum
      of its beds.

    `limit_kg` = limit x area / 10,000: the kg of nitrogen that so much ground may have.
    Organic manure is what `feed_origins.csv` lists as livestock, plant or animal. A manure spread
    on a day that is not certain counts where it may lie. `unknown` counts those without a known
    figure, so that a sum beside them reads "at least" and its `n_kg_per_ha_high` is empty.
    Certified compost has exceptions of its own (reg 8(2) to (5)) that are not reckoned here.
    """
    rows = [*_twelve_months(diary), *_calendar_years(diary)]
    names = TABLES["feeding limits"].column_names
    return make_frame("feeding limits", {name: [row[name] for row in rows] for name in names})


def _organic(diary: Diary, origins: tuple[str, ...]) -> pd.DataFrame:
    """Nitrogen of organic manures, with `rate_low` and `rate_high` in g a m2 of the whole place."""
    frame = feeding(diary)
    mine = (frame["nutrient"] == "N") & frame["origin"].isin(origins) & frame["date"].notna()
    frame = frame[mine]
    beds = bed_size(frame["place"], frame["date"], diary.sheet)
    no_bed = beds.isna() & frame["g_low"].notna()
    return frame.assign(
        rate_low=per(frame["g_low"], beds),
        rate_high=per(frame["g_high"], beds),
        why=frame["why"].mask(no_bed, NO_BED),
    )


def _twelve_months(diary: Diary) -> list[dict[str, Any]]:
    spread = _organic(diary, ORGANIC)
    grounds = by_parcel(spread[spread["place"] != ""], diary.sheet)
    rows = []
    for ground, own in grounds.sort_values(["date_end", "event"]).groupby("ground", sort=True):
        spreadings = own.to_dict("records")
        ends = [one["date_end"] for one in spreadings]
        for until in dict.fromkeys(ends):
            since = until - pd.DateOffset(years=1) + pd.Timedelta(days=1)
            later = spreadings[bisect_left(ends, since) :]
            within = [one for one in later if one["date"] <= until]
            declared = diary.sheet.place_on(str(ground), until.date())
            area = declared.area_m2 if declared is not None else None
            rows.append(
                {"rule": TWELVE_MONTHS, "place": ground, "since": since, "until": until}
                | _limit(PER_HECTARE, area)
                | _sums(within, "rate", 1.0)
            )
    return rows


def _calendar_years(diary: Diary) -> list[dict[str, Any]]:
    if not diary.plot.nitrate_zone:
        return []
    spread = _organic(diary, ("livestock",))
    rows = []
    for year in sorted({*spread["date"].dt.year, *spread["date_end"].dt.year}):
        since, until = pd.Timestamp(year, 1, 1), pd.Timestamp(year, 12, 31)
        within = spread[(spread["date_end"] >= since) & (spread["date"] <= until)].to_dict(
            "records"
        )
        area = plot_area(diary, until)
        rows.append(
            {"rule": CALENDAR_YEAR, "place": "", "since": since, "until": until}
            | _limit(PER_HOLDING, area)
            | _sums(within, "g", area)
        )
    return rows


def _limit(kg_per_hectare: float, area_m2: float | None) -> dict[str, Any]:
    allowed = None if area_m2 is None else limit_kg(kg_per_hectare, area_m2)
    return {"limit_kg_per_ha": kg_per_hectare, "area_m2": area_m2, "limit_kg": allowed}


def _sums(within: list[dict[Any, Any]], column: str, area: float | None) -> dict[str, Any]:
    """kg/ha of what is known, least and most; no most where one of them has none."""
    low = [one[f"{column}_low"] for one in within]
    high = [one[f"{column}_high"] for one in within]
    reasons = [one["why"] for one in within if pd.isna(one[f"{column}_low"])]
    if area is None:
        reasons = [NO_AREA]
    known = [grams for grams in low if not pd.isna(grams)]
    whole = not any(pd.isna(grams) for grams in high)
    return {
        "n_kg_per_ha_low": _rate(known, area),
        "n_kg_per_ha_high": _rate(high if whole else [], area),
        "dressings": len(within),
        "unknown": len(within) if area is None else len(low) - len(known),
        "events": ", ".join(str(one["event"]) for one in within),
        "why": "; ".join(dict.fromkeys(reason for reason in reasons if reason)),
    }


def _rate(grams: list[float], area: float | None) -> float | None:
    return kg_per_ha(float(sum(grams)) / area) if grams and area is not None else None


def limit_kg(limit_kg_per_ha: float, area_m2: float) -> float:
    """Nitrogen that a limit allows on so much ground: kg = limit x m2 / 10,000."""
    return limit_kg_per_ha * area_m2 / M2_PER_HA
