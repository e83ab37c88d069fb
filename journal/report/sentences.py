"""The year in up to five sentences: what was good, failed and changed, the hours, the weather.

Each is written from the studies' figures, and is left out where the diary has none for it.
"""

from collections.abc import Iterator
from datetime import date

import pandas as pd

from journal.charts.words import MONTHS, crop_name, duration, kilograms, listed, number, running
from journal.diary import Diary
from journal.studies.beside import beside
from journal.studies.climate import climate, climate_gaps
from journal.studies.harvest import harvest, harvest_totals
from journal.studies.labour import labour, labour_totals
from journal.studies.notes import counted
from journal.studies.part_of_year import Part
from journal.studies.plants import losses
from journal.studies.seasons import certain_year

A_FEW = 3
A_DRY_RUN = 15  # days, the length that the British Rainfall definitions begin at
MANY_DAYS = 36  # a tenth of the year
MARKED_KG = 0.05  # a change below this many kg is not worth a word


def year_in_sentences(diary: Diary, year: int, against: int, part: Part | None = None) -> list[str]:
    """The sentences that the diary supports, in order of reading.

    `part` is the part of the year that the diary was narrowed to; weather is told of whole years.
    """
    tellers = [
        _good(harvest(diary), year),
        _failed(_within(losses(diary), part), year),
        _changed(beside(diary), year, against, year == diary.today.year),
        _hours(labour(diary), year),
        _weather(climate(diary), climate_gaps(diary), year, diary.today) if part is None else "",
    ]
    return [sentence for sentence in tellers if sentence]


def _good(picked: pd.DataFrame, year: int) -> str:
    rows = picked[picked["year"] == year]
    crops = harvest_totals(rows[rows["crop"] != ""], ["crop"]).dropna(subset="kg")
    if crops.empty:
        return ""
    total = harvest_totals(rows, ["year"]).iloc[0]
    most = crops.sort_values("kg", ascending=False, kind="stable").iloc[0]
    at_least = "At least " if total["unweighed"] else ""
    pickings = counted(int(total["pickings"]), "picking")
    kinds = counted(rows.loc[rows["crop"] != "", "crop"].nunique(), "crop")
    words = f"{at_least}{kilograms(total['kg'])} came in, in {pickings} of {kinds}"
    if len(crops) > 1:
        words += f"; {most['crop']} gave most, {kilograms(most['kg'])}"
    ground = rows.dropna(subset="kg_per_m2")
    if len(ground) > 1:
        best = ground.sort_values("kg_per_m2", ascending=False, kind="stable").iloc[0]
        name = crop_name(best["crop"], best["cultivar"])
        words += f", and {name} earned its ground best, {number(best['kg_per_m2'])} kg a m²"
    return f"{words}."


def _within(rows: pd.DataFrame, part: Part | None) -> pd.DataFrame:
    """The rows whose days lie in the part."""
    if part is None:
        return rows
    days = zip(rows["date"], rows["date_end"], strict=True)
    return rows[pd.Series([part.holds(*ends) for ends in days], rows.index, dtype=bool)]


def _failed(gone: pd.DataFrame, year: int) -> str:
    rows = gone[certain_year(gone) == year].drop_duplicates(["event", "batch"])
    if rows.empty:
        return ""
    failed = [
        f"{crop_name(*words)} sown in {place}" if place else f"the sowing of {crop_name(*words)}"
        for *words, place in _names(rows[rows["what"] == "failed"])
    ]
    lost = rows[(rows["what"] == "lost") & rows["count"].notna()]
    counts = lost.groupby(["crop", "cultivar", "reason"])["count"].sum().reset_index()
    counts = counts.sort_values(["count", "crop"], ascending=[False, True])
    losses_said = [
        f"{number(count)} {crop_name(crop, cultivar)}" + (f" to {reason}" if reason else "")
        for crop, cultivar, reason, count in counts.to_numpy()
    ]
    parts = []
    if failed:
        parts.append(f"{_some(failed)} came to nothing")
    if losses_said:
        one = len(losses_said) == 1 and counts["count"].iloc[0] == 1
        parts.append(f"{_some(losses_said)} {'was' if one else 'were'} lost")
    return f"{_capital('; '.join(parts))}." if parts else ""


def _names(rows: pd.DataFrame) -> Iterator[tuple[str, ...]]:
    found = rows[["crop", "cultivar", "place"]].drop_duplicates()
    return found.itertuples(index=False, name=None)


def _some(words: list[str]) -> str:
    """The first few, and how many more."""
    rest = len(words) - A_FEW
    return listed([*words[:A_FEW], f"{rest} more"] if rest > 0 else words)


def _changed(pairs: pd.DataFrame, year: int, against: int, is_open: bool) -> str:
    rows = pairs[(pairs["year"] == year) & (pairs["other"] == against) & (pairs["measure"] == "kg")]
    whole = rows[(rows["crop"] == "") & rows["change_pct"].notna()]
    crops = rows[(rows["crop"] != "") & rows["change"].notna()].sort_values("change")
    if whole.empty:
        return ""
    total = whole.iloc[0]
    per_cent = round(abs(total["change_pct"]))
    more = f"{per_cent} % {'more' if total['change'] > 0 else 'less'}" if per_cent else "as much"
    than = "than" if per_cent else "as"
    when = f"by the same day of {against}" if is_open else f"in {against}"
    words = f"That is {more} by weight {than} {when} ({kilograms(total['before'])})"
    moved = []
    if len(crops) and crops["change"].iloc[-1] > MARKED_KG:
        most = crops.iloc[-1]
        moved.append(f"{most['crop']} gained most ({kilograms(most['change'])})")
    if len(crops) and crops["change"].iloc[0] < -MARKED_KG:
        least = crops.iloc[0]
        moved.append(f"{least['crop']} fell furthest (by {kilograms(-least['change'])})")
    return f"{words}: {listed(moved)}." if moved else f"{words}."


def _hours(timed: pd.DataFrame, year: int) -> str:
    rows = timed[timed["year"] == year]
    if rows.empty:
        return ""
    total = duration(labour_totals(rows, ["year"])["minutes"].iloc[0])
    words = f"The work that was timed came to {total}"
    months = labour_totals(rows[rows["month"].notna()], ["month"])
    undated = rows.loc[rows["month"].isna(), "minutes"].sum()
    # time of no certain month could make another month the busiest
    if len(months) > 1 and months["minutes"].iloc[0] - undated >= months["minutes"].iloc[1]:
        words += f", {_month(int(months['month'].iloc[0]))} the busiest month"
    places = labour_totals(rows[rows["place"] != ""], ["place"])
    if len(places) > 1:
        first = places.iloc[0]
        words += f"; {first['place']} took most of any place, {duration(first['minutes'])}"
        jobs = labour_totals(rows[rows["place"] == first["place"]], ["verb"])
        if len(jobs) > 1:
            job = jobs.iloc[0]
            what = "on odd jobs" if job["verb"] == "job" else running(job["verb"])
            words += f", {duration(job['minutes'])} of it spent {what}"
    return f"{words}."


def _month(month: int) -> str:
    return f"{pd.Timestamp(2001, month, 1):%B}" if 1 <= month <= len(MONTHS) else ""


def _weather(figures: pd.DataFrame, gaps: pd.DataFrame, year: int, today: date) -> str:
    own = figures[(figures["year"] == year) & figures["value"].notna()]
    found = dict(zip(own["measure"], own["value"].astype(float), strict=True))
    days = dict(zip(own["measure"], own["date"], strict=True))
    unread = gaps[gaps["year"] == year].set_index("variable")[["days_read", "days_unread"]]
    parts = _rain(found, unread)
    # in an open year a later frost may still come
    ends = {"last spring frost": ("the last", "spring")} if today >= date(year, 7, 1) else {}
    ends["first autumn frost"] = ("the first", "autumn")
    # a day or two that was not read is told below, where the weather is
    read = " that was read" if unread["days_unread"].get("t_min", 0) > MANY_DAYS else ""
    # south of the equator the autumn comes first
    for day, which, season in sorted((days[end], *ends[end]) for end in ends if end in days):
        frost = "" if "frost" in "".join(parts) else " frost"
        parts.append(f"{which}{frost} of {season}{read} was on {_day(day)}")
    run = found.get("longest run under 1 mm", 0)
    if run >= A_DRY_RUN:
        since = _day(days["longest run under 1 mm"])
        parts.append(f"the longest run without 1 mm was {round(run)} days, from {since}")
    return _capital(f"{'; '.join(parts)}.") if parts else ""


def _rain(found: dict[str, float], unread: pd.DataFrame) -> list[str]:
    """The year's rain, and on how many days it was read if not on all."""
    if "rain" not in found or "rain days" not in found:
        return []
    on = ""
    if unread["days_unread"].get("rain", 0):
        on = f" on the {counted(int(unread['days_read']['rain']), 'day')} that were read"
    wet = counted(round(found["rain days"]), "day")
    return [f"{number(found['rain'], 0)} mm of rain fell{on}, 1 mm or more on {wet}"]


def _day(day: pd.Timestamp) -> str:
    return f"{day.day} {day:%B}"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
