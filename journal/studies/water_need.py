"""The water of each bed and pot, day by day: what the crop used, what came, and what is lacking.

FAO-56 (1998) chapters 7 and 8 on the diary's own weather and waterings. Where a day was not read
the lack is a range, and a soaking makes it a figure again.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from math import inf
from typing import Any

import numpy as np
import pandas as pd

from journal.diary import Diary
from journal.studies.crop_coefficient import STAGES, crop_coefficients, stage_at
from journal.studies.et0 import et0, et0_notes, mean_wind
from journal.studies.notes import Note
from journal.studies.once import once_a_diary
from journal.studies.shaping import shaped
from journal.studies.soil_water import Bounds, Day, adjusted_fraction, depletions
from journal.studies.stands import Stand, Unreckoned, stands
from journal.studies.waterings import Brought, brought_to, waterings
from journal.studies.weather_days import weather_days

# the ground before a crop is reckoned as bare for so long, to learn how wet it was
RUN_IN_DAYS = 90
# a crop that stands on past the printed stages is followed for so long
AFTER_DAYS = 60
# weather older than this says nothing of today
STALE_DAYS = 7
ENOUGH, MAY_NEED, NEEDS = "enough", "may need water", "needs water"


@once_a_diary
def water_need(diary: Diary) -> pd.DataFrame:
    """One row a day, place and crop, at the day's end: the columns of the table `water_need`.

    Of several sowings of a crop in a place the thirstiest speaks.

    - `kc`: the crop's coefficient (1998 tables, single, lines between stages, eq. 66), counted from
      sowing or planting there; its middle and end adjusted for the air (eq. 62) only where a
      met file has the wind and the least humidity of every day read since the middle stage
      began. `crop_mm` = kc x et0_mm.
    - `watered_mm`: waterings and liquid feeds of the place, in litres over its area; blank where
      one was not measured.
    - `total_mm` (TAW, eq. 82): water that the root zone can give: in a bed the middle of the
      soil's printed range (Table 19) times the lesser rooting depth (Table 22); in a pot 0.43 of
      its volume. `readily_mm` (RAW, eq. 83): p x TAW with p for the day's use (Table 22); in a
      pot 0.11 of its volume, what bark gives up easily (peat gives more).
    - `depletion_mm` (Dr, eqs. 84 to 88): what is lacking; blank where a day not read leaves a
      range, from `depletion_low_mm` to `depletion_high_mm`. It begins 90 days before the crop,
      wholly open, on bare ground; rain that fills the zone whatever it held makes it a figure.
    - `state`: `needs water` where even the least is past RAW, `may need water` where the most
      is, else `enough`. `past_l` litres past RAW and `fill_l` litres to fill the zone, both by
      the least depletion and the place's area; blank without an area.

    A day without rain read may have had any; one without temperatures used from nothing to 0.408
    Ra x kc. No runoff and no water from below. A pot's plant that is wider than the pot drinks
    more, so a pot's figures are at least that. Blank (no row) where the sheet gives no latitude,
    the bed no soil, or the tables no coefficient or stages; `water_notes` says which.
    """
    return _reckoned(diary, [each for each in stands(diary) if isinstance(each, Stand)])


def _reckoned(diary: Diary, found: Iterable[Stand]) -> pd.DataFrame:
    """The rows of `water_need` for some of the diary's stands."""
    need = et0(diary)
    if need.empty:
        return shaped("water_need", [])
    weather = _Weather(diary, need)
    frame = shaped(
        "water_need", [row for stand in found for row in _balance(stand, weather, diary)]
    )
    thirst = frame.assign(past=_past(frame)).sort_values("past", ascending=False, kind="stable")
    one = thirst.drop_duplicates(["date", "place", "crop"]).drop(columns="past")
    return shaped("water_need", one.sort_values(["date", "place", "crop"]))


@dataclass(frozen=True, slots=True)
class _Air:
    """One day's weather; None where it was not read."""

    rain: float | None = None
    et0: float | None = None
    most: float = inf
    method: str = ""


class _Weather:
    """The air and the waterings by day, as plain values."""

    def __init__(self, diary: Diary, need: pd.DataFrame) -> None:
        days = weather_days(diary)
        columns = (need["date"], days["rain"], need["et0_mm"], need["most_mm"], need["method"])
        self.air = {
            day.date(): _Air(
                None if pd.isna(rain) else float(rain),
                None if pd.isna(et) else float(et),
                float(most),
                str(method),
            )
            for day, rain, et, most, method in zip(*columns, strict=True)
        }
        air = pd.DataFrame({"wind": mean_wind(diary), "rh_min": days["rh_min"]})
        self.damp = air.reindex(days.index)
        self.waterings = waterings(diary)

    def given(self, stand: Stand) -> dict[date, Brought]:
        """What the can brought to a stand's place by day."""
        return brought_to(stand.ground, stand.crop.crop, self.waterings)

    def air_of(self, stand: Stand, last: date) -> tuple[float | None, float | None]:
        """Mean wind at 2 m and least humidity since the middle stage began, None unless whole."""
        assert stand.crop.stages is not None
        middle = stand.begins + timedelta(days=int(sum(stand.crop.stages[:2])))
        stretch = self.damp.loc[pd.Timestamp(middle) : pd.Timestamp(last)]
        if stretch.empty or stretch.isna().to_numpy().any():
            return None, None
        return float(stretch["wind"].mean()), float(stretch["rh_min"].mean())


def _balance(stand: Stand, weather: _Weather, diary: Diary) -> Iterable[dict[str, Any]]:
    """The rows of one stand, from the day it went in to its end or today."""
    assert stand.crop.stages is not None
    last = min(
        stand.ends or diary.today,
        diary.today,
        stand.begins + timedelta(days=int(sum(stand.crop.stages)) + AFTER_DAYS),
    )
    first = stand.begins - timedelta(days=RUN_IN_DAYS)
    if last < stand.begins or not any(stand.begins <= day <= last for day in weather.air):
        return []
    span = [first + timedelta(days=at) for at in range((last - first).days + 1)]
    ages = np.array([(day - stand.begins).days + 1 for day in span])
    kcs = crop_coefficients(stand.crop, ages, *weather.air_of(stand, last))
    stages = stage_at(ages, stand.crop.stages)
    cans = weather.given(stand)
    days = [
        _day(stand, weather.air.get(day, _Air()), cans.get(day, Brought()), float(kc))
        for day, kc in zip(span, kcs, strict=True)
    ]
    total = stand.water.total_mm
    bounds = depletions(Bounds(0.0, total), total, days)
    whole = zip(span, kcs, stages, days, bounds, strict=True)
    return [
        _row(stand, day, weather.air.get(day, _Air()), cans.get(day, Brought()), STAGES[stage])
        | _water(stand, float(kc), brought, bound)
        for day, kc, stage, brought, bound in whole
        if day >= stand.begins
    ]


def _day(stand: Stand, air: _Air, can: Brought, kc: float) -> Day:
    most = min(kc * air.most, stand.water.total_mm)
    used = (kc * air.et0, kc * air.et0) if air.et0 is not None else (0.0, most)
    area = stand.water.area_m2
    # a can over an area that is not known may have been any depth of water
    low, high = (can.low / area, can.high / area) if area else (0.0, inf if can.given else 0.0)
    rain_low, rain_high = (0.0, inf) if air.rain is None else (air.rain, air.rain)
    return Day(used, (low + rain_low, high + rain_high), _readily(stand, used))


def _readily(stand: Stand, used: tuple[float, float]) -> float:
    if stand.water.readily_mm is not None:
        return stand.water.readily_mm
    fraction = stand.crop.depletion
    if used[0] == used[1]:
        fraction = adjusted_fraction(fraction, used[0])
    return fraction * stand.water.total_mm


def _row(stand: Stand, day: date, air: _Air, can: Brought, stage: str) -> dict[str, Any]:
    area = stand.water.area_m2
    known = can.given and not can.unmeasured and can.low == can.high and area
    return {
        "year": day.year,
        "date": day,
        "place": stand.place,
        "kind": stand.kind,
        "crop": stand.crop.crop,
        "stage": stage,
        "et0_mm": air.et0,
        "method": air.method,
        "rain_mm": air.rain,
        "watered_mm": can.low / area if known and area else None if can.given else 0.0,
        "area_m2": area,
    }


def _water(stand: Stand, kc: float, day: Day, bound: Bounds) -> dict[str, Any]:
    exact = bound.high - bound.low < 1e-6
    past = max(bound.low - day.readily, 0.0)
    state = NEEDS if past > 0 else MAY_NEED if bound.high > day.readily else ENOUGH
    area = stand.water.area_m2
    return {
        "kc": round(kc, 3),
        "crop_mm": round(day.crop_mm[0], 3) if day.crop_mm[0] == day.crop_mm[1] else None,
        "depletion_mm": round(bound.low, 3) if exact else None,
        "depletion_low_mm": round(bound.low, 3),
        "depletion_high_mm": round(bound.high, 3),
        "readily_mm": round(day.readily, 3),
        "total_mm": round(stand.water.total_mm, 3),
        "state": state,
        "past_l": round(past * area, 3) if area else None,
        "fill_l": round(bound.low * area, 3) if area else None,
    }


@once_a_diary
def water_now(diary: Diary) -> pd.DataFrame:
    """How each bed and pot with a crop stands for water: one row a place, the thirstiest first.

    The columns of `water_need` on the last day whose weather was read whole, at most 7 days before
    today, and `crops`, all the crops that stand there and can be reckoned. Of several crops in a
    place the thirstiest speaks. A place whose weather was not read of late has no row.
    """
    since = diary.today - timedelta(days=STALE_DAYS)
    found = [each for each in stands(diary) if isinstance(each, Stand)]
    frame = _reckoned(diary, [each for each in found if (each.ends or diary.today) >= since])
    recent = frame["date"] >= pd.Timestamp(diary.today) - pd.Timedelta(days=STALE_DAYS)
    read = frame["rain_mm"].notna() & frame["et0_mm"].notna()
    rows = frame[recent & read].assign(past=lambda rows: _past(rows))
    latest = rows[rows["date"] == rows.groupby(["place", "crop"])["date"].transform("max")]
    latest = latest[latest["date"] == latest["date"].max()] if len(latest) else latest
    crops = latest.groupby("place")["crop"].agg(lambda crops: ", ".join(sorted(set(crops))))
    first = latest.sort_values(["past", "place", "crop"], ascending=[False, True, True])
    first = first.drop_duplicates("place").assign(crops=lambda rows: rows["place"].map(crops))
    return shaped("water_now", first)


def _past(rows: pd.DataFrame) -> "pd.Series[Any]":
    past: pd.Series[Any] = rows["depletion_low_mm"] - rows["readily_mm"]
    return past


def thirsty(diary: Diary) -> pd.DataFrame:
    """The rows of `water_now` that are past readily available water, with their litres."""
    rows = water_now(diary)
    past: pd.DataFrame = rows.loc[rows["state"] == NEEDS]
    return past.reset_index(drop=True)


def water_notes(diary: Diary) -> list[Note]:
    """Crops in beds and pots whose water cannot be reckoned, and why; none without any weather."""
    if weather_days(diary).empty:
        return []
    left = [stand for stand in stands(diary) if isinstance(stand, Unreckoned)]
    notes = {
        Note(
            "water_need", "weather", f"water of {each.crop} in {each.place}", each.reason, each.year
        )
        for each in left
    }
    found = sorted(notes, key=lambda note: (note.year or 0, note.subject))
    return [*et0_notes(diary), *found]
