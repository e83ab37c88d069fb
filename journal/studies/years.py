"""One year against the year before and against all earlier ones, for every measure of a garden.

Quotes the sums of the harvest and labour studies and compares them; it fills in no missing year.
"""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.harvest import RATES, harvest_of, per
from journal.studies.notes import Note, counted, crop_words
from journal.studies.once import once_a_diary
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.seasons import certain_year, season_day, to_day_of_season
from journal.tables.schema import TABLES, make_frame

GRAINS = (
    (),
    ("place",),
    ("crop",),
    ("crop", "place"),
    ("crop", "cultivar"),
    ("crop", "cultivar", "place"),
)
DAY = "day of year"
UNITS = {
    "kg": "kg",
    "count": "",
    "pickings": "",
    "first picking": DAY,
    "last picking": DAY,
    "days": "days",
    "kg_per_m2": "kg/m2",
    "kg_per_plant": "kg/plant",
    "kg_per_m": "kg/m",
    "minutes": "min",
}
# what an open year cannot know yet
NEEDS_A_WHOLE_YEAR = ("last picking", "days")
_WHAT = ["measure", "crop", "cultivar", "place"]


@once_a_diary
def years(diary: Diary) -> pd.DataFrame:
    """Each year beside the earlier ones, one row a measure, crop, cultivar, place and year.

    A blank crop, cultivar or place means all of them: `potato` alone is all potatoes wherever
    they were picked, all three blank the whole plot. Rates (`kg_per_m2` and its like) are kg by
    ground over the rows of the harvest study that know both.

    - `value`: that year's figure; `before`: the figure of the calendar year before; `change` =
      value - before; `change_pct` = 100 change / before, blank for days.
    - `mean_before`, `low_before`, `high_before`: over all earlier years that have a figure,
      `years_before` of them. A year without one is left out, never counted as nothing.
    - first and last picking are days of the year in `day of year`, so that their change is a
      shift in days; 29 February counts with 1 March, so that 14 July is 195 in every year. They
      are blank (no row) where the diary leaves a choice of days.
    - While a year is open (it is the diary's today's), the earlier years count only to the same
      day of theirs (a first picking counts whenever it was), and what needs a whole year (last
      picking, days) has no row.

    No published source: plain differences, means and ranges.
    """
    whole = _figures(diary, diary.events)
    open_year = diary.today.year
    closed = _against_earlier(whole[whole["year"] != open_year], whole)
    now = whole[(whole["year"] == open_year) & ~whole["measure"].isin(NEEDS_A_WHOLE_YEAR)]
    rows = pd.concat([closed, _against_earlier(now, _to_date(diary, whole))])
    rows = rows.sort_values([*_WHAT, "year"], ignore_index=True)
    rows["unit"] = rows["measure"].map(UNITS)
    return make_frame("years", {name: rows[name] for name in TABLES["years"].column_names})


def _to_date(diary: Diary, whole: pd.DataFrame) -> pd.DataFrame:
    """Figures to today's day of every year; a first picking is known from the day it happens."""
    today = diary.today
    if not (whole["year"] == today.year).any():
        return whole
    part = _figures(diary, to_day_of_season(diary.events, today.month, today.day))
    first = "first picking"
    return pd.concat([part[part["measure"] != first], whole[whole["measure"] == first]])


def _figures(diary: Diary, events: pd.DataFrame) -> pd.DataFrame:
    """All figures of these events: measure, crop, cultivar, place, year, value."""
    picked = pickings(events)
    timed = events.assign(year=certain_year(events))
    rows = harvest_of(diary, events)
    tables = []
    for grain in GRAINS:
        tables += [_sums(_naming(picked, grain), grain), _minutes(_naming(timed, grain), grain)]
        # without a crop, ground that carried several in a year would count more than once
        if "crop" in grain:
            tables.append(_rates(_naming(rows, grain), grain))
    return pd.concat(tables, ignore_index=True)


def _naming(rows: pd.DataFrame, grain: tuple[str, ...]) -> pd.DataFrame:
    """The rows of a certain year in which every word of the grain was written."""
    written = (rows[list(grain)] != "").all(axis=1)
    kept: pd.DataFrame = rows.loc[rows["year"].notna() & written]
    return kept


def _sums(picked: pd.DataFrame, grain: tuple[str, ...]) -> pd.DataFrame:
    sums = sum_pickings(picked, ["year", *grain])
    sums["first picking"] = season_day(sums["first"])
    sums["last picking"] = season_day(sums["last"])
    return _tidy(sums, grain)


def _rates(rows: pd.DataFrame, grain: tuple[str, ...]) -> pd.DataFrame:
    """kg by ground over the weighed rows, where each of them knows its ground."""
    groups = rows[rows["kg"].notna()].groupby(["year", *grain])
    size = groups.size()
    rates = {
        rate: per(groups["kg"].sum(), groups[ground].sum().where(groups[ground].count() == size))
        for rate, ground in RATES.items()
    }
    return _tidy(pd.DataFrame(rates, index=size.index).reset_index(), grain)


def _minutes(timed: pd.DataFrame, grain: tuple[str, ...]) -> pd.DataFrame:
    sums = timed.groupby(["year", *grain])["minutes"].sum(min_count=1)
    return _tidy(sums.reset_index(), grain)


def _tidy(table: pd.DataFrame, grain: tuple[str, ...]) -> pd.DataFrame:
    """One row a figure; the words that are not of the grain are blank."""
    measures = [measure for measure in UNITS if measure in table.columns]
    long = table.melt(["year", *grain], measures, "measure", "value")
    blank: dict[str, Any] = {word: "" for word in _WHAT[1:] if word not in grain}
    long = long.dropna(subset="value").assign(**blank)
    return long.astype({"value": "Float64", **dict.fromkeys(_WHAT, "string")})


def _against_earlier(rows: pd.DataFrame, figures: pd.DataFrame) -> pd.DataFrame:
    """`rows` with the figures of the year before and the mean and range of all earlier ones."""
    last_year = figures.assign(year=figures["year"] + 1).rename(columns={"value": "before"})
    compared = rows.merge(last_year, on=[*_WHAT, "year"], how="left")
    compared["change"] = compared["value"] - compared["before"]
    against = compared["before"].where(~compared["measure"].map(UNITS).eq(DAY))
    compared["change_pct"] = 100 * per(compared["change"], against)
    earlier = compared[[*_WHAT, "year"]].merge(
        figures.rename(columns={"year": "earlier"}), on=_WHAT, how="left"
    )
    earlier["value"] = earlier["value"].where(earlier["earlier"] < earlier["year"])
    spans = earlier.groupby([*_WHAT, "year"])["value"].agg(["mean", "min", "max", "count"])
    spans.columns = pd.Index(["mean_before", "low_before", "high_before", "years_before"])
    return compared.merge(spans.reset_index(), on=[*_WHAT, "year"])


def years_notes(diary: Diary) -> list[Note]:
    """Crops whose kg compare unfairly because pickings of that year were not weighed."""
    picked = _naming(pickings(diary.events), ("crop",))
    sums = sum_pickings(picked, ["year", "crop"])
    return [
        Note(
            "years",
            "weight",
            crop_words(row["crop"]),
            f"{counted(row['unweighed'], 'picking')} of {row['pickings']} not weighed, "
            "so its kg are at least that",
            int(row["year"]),
        )
        for row in sums[sums["kg"].notna() & (sums["unweighed"] > 0)].to_dict("records")
    ]
