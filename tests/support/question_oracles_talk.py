"""What the meanings that came in by everyday wordings come to, by plain pandas over the tables.

As in `question_oracles`, nothing here goes through the studies or through `journal.questions`.
"""

from collections.abc import Callable

import pandas as pd
from support.question_oracles import TODAY, Tables, crops, first, kg, last, on, spent, top, worked
from support.questions import amount

Oracle = Callable[[Tables], str]
HARVEST = {"kind": "harvest"}


def picked(t: Tables, **columns: object) -> pd.DataFrame:
    """Harvest events with these cells."""
    return t.ever(**HARVEST, **columns)


def weight(t: Tables, year: int, **columns: object) -> float:
    """Kilograms picked in a year."""
    return float(t.year(year, **HARVEST, **columns)["mass_kg"].sum())


def gap(one: float, other: float, unit: str = "kg") -> str:
    """The difference of two figures."""
    return amount(round(one - other, 6), unit)


def cold(t: Tables, first_day: str, last_day: str) -> int:
    """Nights below 0 C."""
    return int((t.days("t_min", first_day, last_day) < 0).sum())


def day_number(rows: pd.DataFrame) -> "pd.Series[int]":
    """The day of the year of certain days, counted as in a year without 29 February."""
    days = rows.loc[rows["date"] == rows["date_end"], "date"]
    return days.dt.day_of_year - (days.dt.is_leap_year & (days.dt.month > 2)).astype(int)


def earliest(rows: pd.DataFrame) -> str:
    """The day that came earliest in its year."""
    numbers = day_number(rows)
    return rows.loc[numbers.idxmin(), "date"].date().isoformat()


def mean_days(t: Tables, year: int) -> float:
    """Degree days above 10 C of a year: the mean of each day's extremes, less 10, above 0."""
    low = t.days("t_min", f"{year}-01-01", f"{year}-12-31")
    high = t.days("t_max", f"{year}-01-01", f"{year}-12-31")
    return float(((low + high) / 2 - 10).clip(lower=0).sum())


def usual(rows: pd.DataFrame) -> str:
    """The median of each earlier year's first day, as a day of 2026."""
    certain = rows[(rows["date"] == rows["date_end"]) & (rows["date"].dt.year < 2026)]
    numbers = day_number(certain).groupby(certain["date"].dt.year).min()
    day = pd.Timestamp("2026-01-01") + pd.Timedelta(days=round(numbers.median()) - 1)
    return day.date().isoformat()


def in_window(t: Tables, rows: pd.DataFrame) -> bool:
    """Whether 1 March lies between the first and last day of the year of these events."""
    numbers = day_number(rows[rows["date"].dt.year < 2026])
    return bool(numbers.min() <= 60 <= numbers.max())


def broad_beans_up(t: Tables) -> str:
    """The best of the broad beans sown in 2025 whose seeds and seedlings were counted."""
    sown = t.year(2025, verb="sow", crop="broad bean").groupby("cultivar")["count"].sum()
    up = t.year(2025, verb="up", crop="broad bean").groupby("cultivar")["count"].sum()
    return top((100 * up / sown).dropna().round(6), "")


def full_marks(t: Tables) -> str:
    """The first tomato with 5/5 in 2025, in the order of the diary."""
    rated = t.year(2025, kind="verdict", crop="tomato")
    return str(rated[rated["score"] == 1]["cultivar"].iloc[0])


def glass(t: Tables, variable: str) -> pd.DataFrame:
    """All readings of the Waiting room, those of several days on their last one."""
    w = t.diary.weather
    rows = w[(w["place"] == "Waiting room") & (w["variable"] == variable) & w["value"].notna()]
    return rows.astype({"value": float})


def driest(t: Tables) -> str:
    """The month of 2025 with the least rain, of those read whole."""
    rain = t.days("rain", "2025-01-01", "2025-12-31")
    months = rain.groupby(rain.index.to_period("M")).agg(["sum", "count"])
    whole = months[months["count"] == months.index.days_in_month]["sum"]
    month = whole.idxmin()
    return f"{amount(float(whole[month]), 'mm')} on {month.start_time.date()}.." + str(
        month.end_time.date()
    )


def given_most(t: Tables) -> str:
    """Who was given something in most entries."""
    given = t.ever(verb="give").query("party != ''").groupby("party")["entry"].nunique()
    return f"{amount(float(given.max()))} on {given.idxmax()}"


def helped(t: Tables) -> pd.DataFrame:
    """The work that names Tam."""
    rows = t.ever(party="Tam")
    return rows[~rows["verb"].isin(["give", "sell", "swap", "buy", "pay"])]


def seed_spent(t: Tables, year: int) -> float:
    """Pounds paid for packets of seed."""
    bought = t.year(year, verb="buy", currency="GBP")
    seed = bought[bought["count"].isna() & bought["crop"].ne("") & bought["mass_kg"].isna()]
    return float(seed["cost"].sum())


def to_date(t: Tables, crop: str, year: int) -> float:
    """Kilograms picked to 1 March of a year."""
    return float(t.of(f"{year}-01-01", f"{year}-03-01", **HARVEST, crop=crop)["mass_kg"].sum())


def season_rain(t: Tables, year: int) -> float:
    """Millimetres of rain in a summer."""
    return float(t.days("rain", f"{year}-06-01", f"{year}-08-31").sum())


def sarpo(t: Tables) -> str:
    """From the planting to the last lifting of Sarpo Mira in 2025."""
    rows = t.year(2025, cultivar="Sarpo Mira")
    begins = rows[rows["kind"] == "planting"]["date"].min()
    ends = rows[rows["kind"] == "harvest"]["date_end"].max()
    return f"{(ends - begins).days} days on {begins.date()}..{ends.date()}"


def white_lady(t: Tables) -> str:
    """From the first sowing to the first picking of White Lady in 2025."""
    rows = t.year(2025, cultivar="White Lady")
    sown = rows[rows["verb"] == "sow"]["date"].min()
    picking = rows[rows["kind"] == "harvest"]["date"].min()
    return f"{(picking - sown).days} days"


def boards_life(t: Tables) -> str:
    """Years from the first boards of Platform 1 to those that replaced them."""
    days = t.ever(kind="structure", place="Platform 1")["date"].sort_values()
    return amount(round((days.iloc[1] - days.iloc[0]).days / 365.25, 2), "years")


def hottest(t: Tables, place: str) -> str:
    """The highest maximum of a place or the open air, and the days it was written for."""
    w = t.diary.weather
    w = w[(w["variable"] == "t_max") & (w["place"] == place) & w["value"].notna()]
    best = w.loc[w["value"].astype(float).idxmax()]
    days = f"{best['date'].date()}..{best['date_end'].date()}"
    return f"{amount(float(best['value']), 'C')} on {days}"


def still_stored(t: Tables, cultivar: str, crop: str) -> str:
    """The last autumn's store of a cultivar less what is written out of it, and out of its crop."""
    since = t.of("2025-08-01", "2026-03-01", crop=crop)
    out = since[since["verb"].isin(["use", "waste", "give", "sell", "swap"])]
    put = since[(since["verb"] == "store") & (since["cultivar"] == cultivar)]
    out = out[out["date"] >= put["date"].min()]
    high = put["mass_kg"].sum() - out.loc[out["cultivar"] == cultivar, "mass_kg"].sum()
    unsaid = out.loc[out["cultivar"] == "", "mass_kg"].sum()
    low = max(0.0, high - unsaid)
    if not unsaid:
        return f"{crop} {amount(round(high, 6), 'kg')}"
    return f"{crop} {round(low, 6):g}..{round(high, 6):g}"


def spent_on_sales(t: Tables, year: int) -> str:
    """What sales brought in, as the events have it."""
    return spent(t.year(year, verb="sell"))


def worth_by_crop(t: Tables, year: int) -> "pd.Series[float]":
    """The weighed harvest of each crop at the sheet's price a kg."""
    prices = t.diary.prices.set_index("crop")["per_kg"]
    rows = t.year(year, kind="harvest")
    worth = (rows["mass_kg"] * rows["crop"].map(prices)).astype(float)
    return worth.groupby(rows["crop"]).sum().round(6)


def old_seed(t: Tables, crop: str, years: float) -> str:
    """The crop, where its seed was bought or saved longer ago than these years, each cultivar's."""
    got = t.ever(verb=["buy", "save"], crop=crop).groupby("cultivar")["date"].max()
    ages = (TODAY - got).dt.days / 365.2425
    return crop if (ages > years).all() else "none"


TALK_ORACLES: dict[str, Oracle] = {
    "crop worth most 2025": lambda t: top(worth_by_crop(t, 2025), "GBP"),
    "manured 2025": lambda t: ", ".join(
        sorted(set(t.year(2025, material="horse manure", verb=["dig in", "spread"])["place"]))
    ),
    "parsnip seed too old": lambda t: old_seed(t, "parsnip", years=3),
    "garlic lifted 2024": lambda t: first(t.year(2024, **HARVEST, crop="garlic")),
    "times courgettes picked 2025": lambda t: amount(
        t.year(2025, **HARVEST, crop="courgette")["date"].nunique()
    ),
    "leeks January 2026": lambda t: kg(t.of("2026-01-01", "2026-01-31", **HARVEST, crop="leek")),
    "Sarpo Mira 2022": lambda t: kg(t.year(2022, **HARVEST, cultivar="Sarpo Mira")),
    "better runner bean 2025": lambda t: top(
        t.year(2025, **HARVEST, crop="runner bean").groupby("cultivar")["mass_kg"].sum(), "kg"
    ),
    "hottest day ever": lambda t: hottest(t, ""),
    "Platform 1 against 2 in 2025": lambda t: gap(
        weight(t, 2025, place="Platform 1"), weight(t, 2025, place="Platform 2")
    ),
    "peas 2024 against 2025": lambda t: gap(
        weight(t, 2024, crop="pea"), weight(t, 2025, crop="pea")
    ),
    "garlic each year": lambda t: crops(t.ever(verb="plant", crop="garlic")),
    "autumn king left": lambda t: still_stored(t, "Autumn King", "carrot").removeprefix("carrot "),
    "centurion left": lambda t: still_stored(t, "Centurion", "onion"),
    "glass 2023": lambda t: spent(t.year(2023, material="glass", place="Waiting room")),
    "sold 2025": lambda t: spent_on_sales(t, 2025),
    "Tam's grandmother": lambda t: str(t.written("tam's", "grandmother")) + " rows",
    "potatoes had blight": lambda t: first(t.ever(subject="blight", crop="potato")),
    "cabbages had club root": lambda t: first(t.ever(subject="club root", crop="cabbage")),
    "earliest strawberries in any year": lambda t: earliest(picked(t, crop="strawberry")),
    "net over the Fruit dock": lambda t: first(t.ever(kind="structure", material="net")),
    "last cutting of the grass": lambda t: (
        f"{(TODAY - t.ever(verb='cut', task='grass')['date'].max()).days} days on "
        f"{last(t.ever(verb='cut', task='grass'))}"
    ),
    "potatoes 2024": lambda t: kg(t.year(2024, **HARVEST, crop="potato")),
    "slugs 2024": lambda t: amount(t.year(2024, verb="patrol", subject="slugs")["count"].sum()),
    "degree days 2025": lambda t: amount(mean_days(t, 2025)),
    "manure fetched 2025": lambda t: amount(
        t.year(2025, verb="fetch", material="horse manure")["volume_l"].sum(), "l"
    ),
    "manure on the ground 2025": lambda t: amount(
        t.year(2025, verb=["spread", "mulch", "dig in", "lime", "fill"], material="horse manure")[
            "volume_l"
        ].sum(),
        "l",
    ),
    "carrots off Siding west": lambda t: kg(picked(t, crop="carrot", place="Siding west")),
    "courgettes a year on average": lambda t: amount(
        sum(weight(t, year, crop="courgette") for year in (2022, 2023, 2024, 2025)) / 4, "kg"
    ),
    "potato varieties grown": lambda t: amount(
        t.ever(kind="planting", crop="potato").query("cultivar != ''")["cultivar"].nunique()
    ),
    "crops picked 2024": lambda t: amount(
        t.year(2024, **HARVEST).query("crop != ''")["crop"].nunique()
    ),
    "hours on the Siding 2023": lambda t: worked(t.year(2023, place="Siding"), hours=True),
    "lifting potatoes 2024": lambda t: worked(t.year(2024, **HARVEST, crop="potato")),
    "White Lady 2025": white_lady,
    "Sarpo Mira in the ground 2025": sarpo,
    "boards life on Platform 1": boards_life,
    "work in February 2026": lambda t: worked(t.of("2026-02-01", "2026-02-28")),
    "worst courgette year": lambda t: top(
        pd.Series({year: weight(t, year, crop="courgette") for year in (2022, 2023, 2024, 2025)}),
        "kg",
        least=True,
    ),
    "broad bean up best 2025": broad_beans_up,
    "first tomato to ripen 2025": lambda t: first(t.year(2025, **HARVEST, crop="tomato")),
    "tomatoes with full marks 2025": full_marks,
    "most given to": given_most,
    "driest month 2025": driest,
    "hottest reading in the Waiting room": lambda t: hottest(t, "Waiting room"),
    "done this day last year": lambda t: crops(t.of("2025-03-01", "2025-03-01")),
    "first week of June 2024": lambda t: crops(t.of("2024-06-01", "2024-06-07")),
    "Boxing Day 2025": lambda t: crops(t.of("2025-12-26", "2025-12-26")) or "nothing",
    "sown in April 2025": lambda t: crops(t.of("2025-04-01", "2025-04-30", verb="sow")),
    "tomatoes grown 2024": lambda t: crops(t.year(2024, kind="planting", crop="tomato")),
    "Sungold and Harbinger 2025": lambda t: gap(
        weight(t, 2025, cultivar="Sungold"), weight(t, 2025, cultivar="Harbinger")
    ),
    "Oarsman and Musselburgh": lambda t: gap(
        float(picked(t, cultivar="Oarsman")["mass_kg"].sum()),
        float(picked(t, cultivar="Musselburgh")["mass_kg"].sum()),
    ),
    "first tomatoes 2025 2024": lambda t: amount(
        day_number(t.year(2025, **HARVEST, crop="tomato")).min()
        - day_number(t.year(2024, **HARVEST, crop="tomato")).min(),
        "days",
    ),
    "wet summers 2024 2025": lambda t: gap(season_rain(t, 2024), season_rain(t, 2025), "mm"),
    "frosts last winter and before": lambda t: gap(
        cold(t, "2025-12-01", "2026-02-28"), cold(t, "2024-12-01", "2025-02-28"), "days"
    ),
    "rhubarb to date": lambda t: gap(to_date(t, "rhubarb", 2026), to_date(t, "rhubarb", 2025)),
    "seed money 2025 2024": lambda t: gap(seed_spent(t, 2025), seed_spent(t, 2024), "GBP"),
    "potatoes 2022 2025": lambda t: gap(
        weight(t, 2022, crop="potato"), weight(t, 2025, crop="potato")
    ),
    "leeks usually sown": lambda t: usual(t.ever(verb="sow", crop="leek")),
    "courgettes usually first picked": lambda t: usual(picked(t, crop="courgette")),
    "rent 2025": lambda t: spent(t.year(2025, task="rent")),
    "rent now": lambda t: amount(t.ever(task="rent").sort_values("date")["cost"].iloc[-1], "GBP"),
    "boards for Platform 3": lambda t: spent(t.ever(material="larch planks", place="Platform 3")),
    "spent since 2022": lambda t: spent(
        t.of("2022-01-01", "2026-03-01").query("cost.notna() and verb != 'sell'")
    ),
    "lost to mice": lambda t: crops(t.ever(kind="loss", subject="mice")),
    "what killed the cabbages": lambda t: crops(
        t.ever(kind="loss", crop="cabbage").query("subject != ''")
    ),
    "Tam helped 2025": lambda t: crops(helped(t)[helped(t)["date"].dt.year == 2025]),
    "times Tam helped": lambda t: amount(len(helped(t)[["file", "line"]].drop_duplicates())),
    "rhubarb given to whom": lambda t: crops(t.ever(verb="give", crop="rhubarb")),
    "fed with": lambda t: crops(t.year(2025, verb="feed", material="tomato food")),
    "wasted 2025": lambda t: crops(t.year(2025, verb="waste")),
    "waiting room over 40": lambda t: f"{(glass(t, 't_max')['value'] > 40).sum()} rows",
    "waiting room ever coldest": lambda t: on(
        amount(glass(t, "t_min")["value"].min(), "C"),
        glass(t, "t_min").set_index("date_end")["value"].idxmin(),
    ),
    "Bunker 1 heat June 2025": lambda t: on(
        amount(t.of("2025-06-01", "2025-06-30", place="Bunker 1")["temperature_c"].max(), "C"),
        t.of("2025-06-01", "2025-06-30", place="Bunker 1")
        .set_index("date")["temperature_c"]
        .astype(float)
        .idxmax(),
    ),
    "garlic too late": lambda t: (
        "no" if in_window(t, t.ever(kind="planting", crop="garlic")) else "yes"
    ),
    "garlic still": lambda t: (
        "yes" if in_window(t, t.ever(kind="planting", crop="garlic")) else "no"
    ),
    "leeks in time": lambda t: "yes" if in_window(t, t.ever(verb="sow", crop="leek")) else "no",
    "carrots safe yet": lambda t: (
        "yes" if day_number(t.ever(verb="sow", crop="carrot")).min() <= 60 else "no"
    ),
    "badgers": lambda t: "nothing" if not t.written("badger") else "some",
    "eclipse": lambda t: (
        t.diary.prose[t.diary.prose["text"].str.contains("eclipse")]["date"]
        .iloc[0]
        .date()
        .isoformat()
        if t.written("eclipse")
        and not t.diary.prose.empty
        and t.diary.prose["text"].str.contains("eclipse").any()
        else first(t.ever(subject="partial eclipse"))
    ),
    "rain yesterday": lambda t: (
        "yes on 2026-02-28" if t.days("rain", "2026-02-28", "2026-02-28").sum() > 0 else "no"
    ),
    "frost since Christmas": lambda t: "yes" if cold(t, "2025-12-25", "2026-03-01") > 1 else "no",
    "blight 2024": lambda t: f"yes on {last(t.year(2024, verb='see', subject='blight'))}",
    "broad beans up": lambda t: f"yes on {last(t.year(2026, verb='up', crop='broad bean'))}",
    "rhubarb yet": lambda t: f"yes on {last(t.year(2026, **HARVEST, crop='rhubarb'))}",
    "freezing last week": lambda t: "yes" if cold(t, "2026-02-16", "2026-02-22") > 1 else "no",
    "snow January 2026": lambda t: (
        "yes on "
        + t.air[(t.air["variable"] == "snow") & t.air["date"].between("2026-01-01", "2026-01-31")][
            "date"
        ]
        .max()
        .date()
        .isoformat()
    ),
}

# held to independent figures in the tests of their own studies
TALK_BY_STUDIES = frozenset(
    {
        "hours per kilo of potatoes 2024", "manure to the first carrots 2025", "empty beds",
        "due today", "due this month", "due", "usually sown in April", "ready now",
        "boards on Platform 4 due", "spent on feed 2025", "potatoes left",
        "leeks next season", "cabbages beside the books", "seed too old", "Bunker 2 ready",
        "water tower lasts", "worth per m2 2024",
    }
)  # fmt: skip
