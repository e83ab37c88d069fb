"""One year against the year before and against all earlier ones, for every measure of a garden.

Quotes the sums of the harvest and labour studies and compares them; it fills in no missing year.
"""

import pandas as pd

from journal.diary import Diary
from journal.studies.carried_over import first_pickings
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
_WORDS = ["crop", "cultivar", "place"]
_KEYS = ["year", *_WORDS]
_WHAT = ["measure", *_WORDS]


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
    - A first picking that goes on from a crop first picked in the year before (kale picked on past
      New Year) is none of the new year's: `carried_over` says which. Its weight is.
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
    timed = events[events["minutes"].notna()]
    tables = [
        _sums(_at_every_grain(pickings(events)), diary),
        _rates(_at_every_grain(harvest_of(diary, events))),
        _minutes(_at_every_grain(timed.assign(year=certain_year(timed)))),
    ]
    return pd.concat(tables, ignore_index=True)


def _at_every_grain(rows: pd.DataFrame) -> pd.DataFrame:
    """Rows of a certain year, once for each grain whose words they have; other words blank.

    A group of the result is of one grain, because its own words are not blank.
    """
    sure = rows[rows["year"].notna()]
    copies = []
    for grain in GRAINS:
        written = (sure[list(grain)] != "").all(axis=1)
        others = {word: "" for word in _WORDS if word not in grain}
        copies.append(sure[written].assign(**others).astype(dict.fromkeys(_WORDS, "string")))
    return pd.concat(copies, ignore_index=True)


def _sums(picked: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    sums = sum_pickings(picked, _KEYS).drop(columns="first")
    sums = sums.merge(first_pickings(picked, _KEYS, diary), on=_KEYS, how="left")
    sums["first picking"] = season_day(sums["first"])
    sums["last picking"] = season_day(sums["last"])
    return _tidy(sums)


def _rates(rows: pd.DataFrame) -> pd.DataFrame:
    """kg by ground over the weighed rows of a crop, where each of them knows its ground.

    Not without a crop: ground that carried several in a year would count more than once.
    """
    groups = rows[rows["kg"].notna() & (rows["crop"] != "")].groupby(_KEYS)
    size = groups.size()
    rates = {
        rate: per(groups["kg"].sum(), groups[ground].sum().where(groups[ground].count() == size))
        for rate, ground in RATES.items()
    }
    return _tidy(pd.DataFrame(rates, index=size.index).reset_index())


def _minutes(timed: pd.DataFrame) -> pd.DataFrame:
    return _tidy(timed.groupby(_KEYS)["minutes"].sum().reset_index())


def _tidy(table: pd.DataFrame) -> pd.DataFrame:
    """One row a figure."""
    measures = [measure for measure in UNITS if measure in table.columns]
    long = table.melt(_KEYS, measures, "measure", "value").dropna(subset="value")
    return long.astype({"value": "Float64", "measure": "string"})


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
    picked = pickings(diary.events)
    sums = sum_pickings(picked[picked["year"].notna()], ["year", "crop"])
    sums = sums[sums["crop"] != ""]
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
