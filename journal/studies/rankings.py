"""What did best: harvest, time or amounts by cultivar, crop, place or year, the most first."""

from collections.abc import Sequence

import pandas as pd

from journal.diary import Diary
from journal.studies.bed_size import bed_size
from journal.studies.harvest import KEYS, RATES, harvest, per
from journal.studies.pickings import pickings, sum_pickings
from journal.studies.seasons import certain_month, certain_year
from journal.studies.tallies import tally_by


def with_days(events: pd.DataFrame) -> pd.DataFrame:
    """Events with their `year`, `month` (`July 2025`) and `day`, each missing where not certain.

    `work` is the verb, or the words of a `job`.
    """
    month = events["date"].dt.strftime("%B %Y").where(certain_month(events).notna())
    day = events["date"].where(events["date"] == events["date_end"])
    work = events["verb"].where(events["verb"] != "job", events["task"])
    return events.assign(year=certain_year(events), month=month, day=day, work=work)


def yield_ranking(diary: Diary, events: pd.DataFrame, by: Sequence[str]) -> pd.DataFrame:
    """Harvest of these events by `by`, the heaviest first.

    kg, count, pickings, unweighed and kg_per_m2, kg_per_plant, kg_per_m: kg by ground over the
    rows of the harvest study that were weighed, blank unless each of them knows its ground and
    is here with all its pickings. A group that is not named (no cultivar written) is left out.
    No published source.
    """
    picked = with_days(pickings(events))
    sums = sum_pickings(_named(picked, by), by)[[*by, "kg", "count", "pickings", "unweighed"]]
    if not set(by) & {"month", "day"}:
        sums = sums.merge(_rates(diary, picked, by), on=list(by), how="left")
    return sums.sort_values("kg", ascending=False, kind="stable", ignore_index=True)


def bed_yield_ranking(diary: Diary, events: pd.DataFrame) -> pd.DataFrame:
    """Harvest of these events by place as `yield_ranking` has it, but by the whole place.

    `kg_per_m2` = kg / the size of the place on the last of these days; blank where nothing was
    weighed or the sheet gives no size. No published source.
    """
    table = yield_ranking(diary, events, ["place"])
    last = pd.Series(events["date_end"].max(), index=table.index)
    return table.assign(kg_per_m2=per(table["kg"], bed_size(table["place"], last, diary.sheet)))


def _named(rows: pd.DataFrame, by: Sequence[str]) -> pd.DataFrame:
    known = rows[list(by)].notna() & (rows[list(by)] != "").fillna(False)
    kept: pd.DataFrame = rows[known.all(axis=1)]
    return kept


def _rates(diary: Diary, picked: pd.DataFrame, by: Sequence[str]) -> pd.DataFrame:
    here = picked.groupby(list(KEYS), dropna=False)["pickings"].sum().rename("here").reset_index()
    rows = harvest(diary).merge(here, on=list(KEYS))
    rows = rows[rows["kg"].notna()]
    rows[list(RATES.values())] = rows[list(RATES.values())].where(rows["here"] == rows["pickings"])
    groups = rows.groupby(list(by), dropna=False)
    size = groups.size()
    rates = {
        rate: per(groups["kg"].sum(), groups[ground].sum().where(groups[ground].count() == size))
        for rate, ground in RATES.items()
    }
    return pd.DataFrame(rates, index=size.index).reset_index()


def amount_ranking(events: pd.DataFrame, column: str, by: Sequence[str]) -> pd.DataFrame:
    """The sum of a column of these events by `by`, the most first; unnamed groups left out."""
    named = _named(with_days(events), by)
    return tally_by(named, column, by).dropna(subset=column).reset_index(drop=True)


def occasions(events: pd.DataFrame) -> int:
    """How many times something was done: entries, one that says `twice` as two.

    The several crops or cultivars of an entry are one occasion.
    """
    if events.empty:
        return 0
    same = ["entry", "crop", "cultivar", "label", "place", "material", "subject"]
    twice = events.groupby(same, dropna=False).size()
    return int(twice.groupby("entry").max().sum())


def occasion_ranking(events: pd.DataFrame, by: Sequence[str]) -> pd.DataFrame:
    """How many times by `by`, the most first: column `times`."""
    named = _named(with_days(events), by)
    counts = {key: occasions(group) for key, group in named.groupby(list(by))}
    index = pd.MultiIndex.from_tuples(list(counts), names=list(by)) if counts else None
    if index is None:
        return pd.DataFrame(columns=[*by, "times"])
    table = pd.Series(list(counts.values()), index=index, name="times").reset_index()
    return table.sort_values("times", ascending=False, kind="stable", ignore_index=True)
