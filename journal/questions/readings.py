"""What the answers about the weather share: small words, lines of readings, days not read."""

from datetime import date
from typing import Any

import pandas as pd

from journal.questions.asked import Asked, RefusedError
from journal.questions.evidence import day, record_words, surely_in
from journal.questions.ground import Place, named_place
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.periods import Period, day_words, stretch_words
from journal.questions.saying import counted
from journal.questions.spans import take_period
from journal.studies import weather_spans as spans
from journal.studies.weather_days import rain_left_out, rain_over_days

_FEW = 2
_WHOLE = Period(None, None, "")
_PAST_AUX = ("did", "was", "have", "get", "come", "is", "do", "take", "run")


def small_words(asked: Asked) -> None:
    """Passes over the small words of a question about the weather."""
    asked.pass_over(*_PAST_AUX)
    asked.take_all("self", "it")
    asked.take("state", "together")


def asked_period(asked: Asked) -> Period:
    """The days asked about, or all of them."""
    return take_period(asked) or _WHOLE


def unread(read: int, unread: int, what: str) -> tuple[str, ...]:
    """How many days of a stretch were not read."""
    if not unread:
        return ()
    return (f"{what} was not read on {counted(unread, 'day')} of {read + unread}",)


def said_of(period: Period) -> str:
    """A period as it follows in a sentence."""
    return f" {period.said}" if period.said else ""


def silent(asked: Asked, what: str, period: Period) -> Answer:
    """Understood, and nothing was read."""
    return nothing(f"No {what} is written{said_of(period)}; {record_words(asked.diary)}.")


def glass_read(asked: Asked) -> Place:
    """The one house or frame whose temperatures the diary reads; RefusedError for several."""
    weather = asked.diary.weather
    read = sorted(set(weather.loc[weather["variable"].isin(["t_min", "t_max"]), "place"]) - {""})
    if len(read) != 1:
        raise RefusedError("say which house or frame: the diary reads each apart")
    return named_place(read[0], asked.diary.sheet)


def glass_days(
    asked: Asked, variable: str, period: Period, places: tuple[str, ...]
) -> "pd.Series[Any]":
    """The readings by day; a temperature that is of several days stands on the last of them."""
    days = spans.readings(asked.diary, variable, period.first, period.last, places).dropna()
    if variable == "rain":
        return days
    rows = surely_in(_of_several_days(asked, variable, places), period)
    if rows.empty:
        return days
    several = pd.Series(
        rows["value"].astype("float64").to_numpy(), index=pd.DatetimeIndex(rows["date_end"])
    )
    joined: pd.Series[Any] = pd.concat([days, several]).sort_index()
    return joined.groupby(level=0).agg("min" if variable == "t_min" else "max")


def _of_several_days(asked: Asked, variable: str, places: tuple[str, ...]) -> pd.DataFrame:
    """The readings of a variable that were written for more than one day."""
    weather = asked.diary.weather
    mine = weather["place"].isin(places or ("",)) & weather["variable"].eq(variable)
    mine &= weather["value"].notna() & (weather["date"] != weather["date_end"])
    return weather[mine.fillna(False)]


def days_read(
    asked: Asked, stamp: pd.Timestamp, value: float, variable: str, places: tuple[str, ...]
) -> tuple[date, date]:
    """The days that a value of `glass_days` is of: its own, or the several it was written for."""
    rows = _of_several_days(asked, variable, places)
    own = rows[(rows["date_end"] == stamp) & (rows["value"].astype("float64") == value)]
    return (day(own["date"].min()) if len(own) else day(stamp)), day(stamp)


def air_evidence(asked: Asked, days: Any, variables: tuple[str, ...]) -> tuple[Evidence, ...]:
    """The lines with the readings of these days; a met file's are named by file and line."""
    return weather_lines(asked, air_rows(asked, days, variables))


def air_rows(asked: Asked, days: Any, variables: tuple[str, ...]) -> pd.DataFrame:
    """The readings of these days in the open air, by day: rows of `weather`."""
    weather = asked.diary.weather
    mine = weather["date"].isin(list(days)) & weather["variable"].isin(variables)
    return weather[mine & (weather["place"] == "")].sort_values(["date", "file", "line"])


def weather_lines(asked: Asked, rows: pd.DataFrame) -> tuple[Evidence, ...]:
    """The lines that readings stand on, each once."""
    found: dict[tuple[str, int], Evidence] = {}
    for row in rows.to_dict("records"):
        file, line = str(row["file"]), int(row["line"])
        if (file, line) not in found:
            found[file, line] = Evidence(file, line, text(asked, row))
    return tuple(found.values())


def text(asked: Asked, row: dict[Any, Any]) -> str:
    """The line as written; of a met file, which is not the diary's text, what it says."""
    if row["source"] == "diary":
        return asked.diary.line(str(row["file"]), int(row["line"]))
    return f"{day_words(day(row['date']))}: {row['variable']} {row['value']:g} {row['unit']}"


def gap_beside(asked: Asked, variable: str, period: Period) -> tuple[str, ...]:
    """How many days of a period a variable was not read on."""
    if variable == "snow":
        # nobody writes of every day that no snow fell
        return ()
    every = spans.readings(asked.diary, variable, period.first, period.last)
    read = int(every.notna().sum())
    noun = {"t_min": "the minimum", "rain": "rain"}.get(variable, variable)
    return unread(read, len(every) - read, noun)


def rain_together(asked: Asked, period: Period) -> tuple[tuple[str, ...], tuple[Evidence, ...]]:
    """What was written under several days of a period at once: told, with the lines of the sum."""
    over_days = rain_over_days(asked.diary)
    inside = _within(over_days, period, whole=True)
    across = _within(over_days, period, whole=False).drop(inside.index)
    # those over the end of a year are left out already
    across = across[across["date"].dt.year == across["date_end"].dt.year]
    out = pd.concat([across, _within(rain_left_out(asked.diary), period, whole=False)])
    lines = _of_several_days(asked, "rain", ()).merge(inside[["date", "date_end"]])
    told = (*_together(inside, "in the sum"), *_together(out, "not in the sum"))
    return told, weather_lines(asked, lines)


def _within(rows: pd.DataFrame, period: Period, *, whole: bool) -> pd.DataFrame:
    """Stretches of days that lie wholly or in part in a period."""
    starts, ends = ("date", "date_end") if whole else ("date_end", "date")
    if period.first is not None:
        rows = rows[rows[starts] >= pd.Timestamp(period.first)]
    if period.last is not None:
        rows = rows[rows[ends] <= pd.Timestamp(period.last)]
    return rows


def _together(rows: pd.DataFrame, where: str) -> list[str]:
    """Readings of several days, each by its days where they are few."""
    if len(rows) > _FEW:
        total = round(float(rows["value"].sum()), 6)
        return [f"{len(rows)} readings of several days, {total:g} mm together, are {where}"]
    stretches = [
        (f"{row['value']:g} mm", stretch_words(day(row["date"]), day(row["date_end"])))
        for row in rows.to_dict("records")
    ]
    return [f"{amount} of {days} together are {where}" for amount, days in stretches]


def glass_evidence(
    asked: Asked, days: Any, variable: str, places: tuple[str, ...]
) -> tuple[Evidence, ...]:
    """The lines of readings, of the open air or of `places`."""
    if not places:
        several = _of_several_days(asked, variable, ())
        own = several[several["date_end"].isin(list(days))]
        return (*air_evidence(asked, days, (variable,)), *weather_lines(asked, own))
    weather = asked.diary.weather
    mine = weather["date_end"].isin(list(days)) & weather["place"].isin(places)
    return weather_lines(asked, weather[mine & (weather["variable"] == variable)])


def gaps(asked: Asked, variable: str, period: Period, places: tuple[str, ...]) -> tuple[str, ...]:
    """How many days were not read, or, under glass, on how many it was."""
    every = spans.readings(asked.diary, variable, period.first, period.last, places)
    read = int(every.notna().sum())
    noun = {"rain": "rain", "t_min": "the minimum", "t_max": "the maximum"}[variable]
    if places:
        several = len(glass_days(asked, variable, period, places)) - read
        more = f" and {counted(several, 'stretch', 'stretches')} of days" if several > 0 else ""
        return (f"it is written on {counted(read, 'day')}{more} there",)
    return unread(read, len(every) - read, noun)
