"""Packets and plants bought, sown and left; seed's age against published life; what to order."""

from math import ceil
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.reference.books import Published
from journal.reference.load import load
from journal.studies.money import SEED, priced_kind
from journal.studies.notes import Note, crop_words
from journal.studies.once import once_a_diary
from journal.studies.plants import batches
from journal.studies.seasons import certain_year
from journal.studies.structures import YEAR_DAYS
from journal.tables.schema import TABLES, make_frame

PACKETS = "packets"
PLANTS = "plants"
# from this month on a year's sowing is over, and the order is for its area
AUTUMN = 9

NOT_BOUGHT = "never bought by the packet, so nothing says how far one goes"
NOT_GROWN = "not sown or planted in {year}"
NOT_COUNTED = "how many were set in {year} is not written"
GROWN_SINCE = "already sown or planted since {year}"
PERENNIAL = "a perennial, which stands on"
NO_NUMBER = "how many were bought is not always written"


@once_a_diary
def seed(diary: Diary) -> pd.DataFrame:
    """Seed and bought plants, one row a crop, cultivar and unit: the columns of the table `seed`.

    - `bought` sums packets, or plants by number. `left` is what was bought after the last sowing
      or planting: nobody counts seeds, so a packet once sown from is neither full nor empty.
    - `age_years` = days since the last packet was bought (or seed saved, if later) / 365.2425, so
      "at least": seed may have been old when it was bought. `life_years` spans every row of
      `seed_viability.csv` for the crop; `past` is `by some sources` between them.
    - `order`, packets: packets bought up to the last sowing of `year` / metres of row sown since
      the first was bought (or seeds by number, or sowings, where not every sowing says), times
      what was sown in `year`, less `left` that is not past its life, rounded up. The diary's own
      rate, no published source.
    - `order`, plants: as many as were planted in `year`, less `left`; those of one's own raising
      do not count, and a perennial needs none.
    - `year` is the last full one, or from September on the present one. What was sown or planted
      since needs no order either.

    A cultivar that was not written is a row of its own. `why` says what is empty.
    """
    events = diary.events.loc[diary.events["date"].notna(), list(_COLUMNS)]
    events = events[(events["date"] <= pd.Timestamp(diary.today)) & (events["crop"] != "")]
    supplied = _supplied(events)
    # a planting that begins a batch is of plants bought or saved; any other is of one's own raising
    begun = events["event"].isin(batches(diary)["event"])
    grown = events[(events["kind"] == "sowing") | ((events["kind"] == "planting") & begun)]
    rows = [
        _row((str(crop), str(cultivar), str(unit)), own, grown, diary)
        for (crop, cultivar, unit), own in supplied.groupby(["crop", "cultivar", "unit"], sort=True)
    ]
    names = TABLES["seed"].column_names
    return make_frame("seed", {name: [row[name] for row in rows] for name in names})


_COLUMNS = (
    "event",
    "date",
    "date_end",
    "kind",
    "verb",
    "crop",
    "cultivar",
    "material",
    "task",
    "subject",
    "packets",
    "count",
    "length_m",
)


def _supplied(events: pd.DataFrame) -> pd.DataFrame:
    """What was bought or saved, with its unit and number."""
    mine = events[((events["kind"] == "purchase") & (events["verb"] == "buy")) | _saved(events)]
    saved = _saved(mine)
    bought_seed = pd.Series(
        [priced_kind(row) == SEED for row in mine.to_dict("records")], mine.index, dtype=bool
    )
    # what was saved is seed, unless the crop was only ever bought as plants: potato, garlic
    of_plants = set(mine.loc[~saved & ~bought_seed, "crop"]) - set(mine.loc[bought_seed, "crop"])
    packets = bought_seed | (saved & ~mine["crop"].isin(of_plants))
    unit = packets.map({True: PACKETS, False: PLANTS}).astype("string")
    number = mine["packets"].where(packets, mine["count"])
    return mine.assign(unit=unit, number=number, saved=saved)


def _saved(events: pd.DataFrame) -> "pd.Series[Any]":
    return (events["kind"] == "kitchen") & (events["verb"] == "save")


def _row(
    key: tuple[str, str, str], own: pd.DataFrame, grown: pd.DataFrame, diary: Diary
) -> dict[str, Any]:
    crop, cultivar, unit = key
    kind = "sowing" if unit == PACKETS else "planting"
    mine = (grown["crop"] == crop) & (grown["cultivar"] == cultivar) & (grown["kind"] == kind)
    sown = grown[mine]
    year = order_year(diary)
    of_year = sown[certain_year(sown) == year]
    bought = own[~own["saved"]]
    age = _age(own, diary) if unit == PACKETS else (None, None)
    life = _life(crop) if unit == PACKETS else _NO_LIFE
    left = _left(bought if unit == PACKETS else _of_a_year(bought, diary), sown)
    past = _past(age, life)
    order, why = _order(key, bought, sown, left if past != "yes" else 0.0, year)
    return {
        "crop": crop,
        "cultivar": cultivar,
        "unit": unit,
        "bought": _sum(bought["number"]),
        "bought_last": _last(bought),
        "saved_last": _last(own[own["saved"]]),
        "sown_times": len(sown),
        "sown_last": _last(sown),
        "year": year,
        "sown_m": _sum(of_year["length_m"]),
        "sown_count": _sum(of_year["count"]),
        "left": left,
        "age_years_low": age[0],
        "age_years_high": age[1],
        "life_years_low": life[0],
        "life_years_high": life[1],
        "life_sources": life[2],
        "past": past,
        "order": order,
        "events": ", ".join(str(event) for event in [*own["event"], *of_year["event"]]),
        "why": why,
    }


def order_year(diary: Diary) -> int:
    """The year whose area an order is for: the last full one, from September the present one."""
    return diary.today.year if diary.today.month >= AUTUMN else diary.today.year - 1


def _sum(values: "pd.Series[Any]") -> float | None:
    """The sum where every row has a figure and there is one."""
    return None if values.empty or values.isna().any() else float(values.sum())


def _last(rows: pd.DataFrame) -> pd.Timestamp | None:
    return None if rows.empty else rows["date_end"].max()


# ------------------------------------------------------------ age and life


def _age(own: pd.DataFrame, diary: Diary) -> tuple[float | None, float | None]:
    newest = own.sort_values(["date_end", "event"]).iloc[-1]
    today = pd.Timestamp(diary.today)
    low, high = (today - newest["date_end"]).days, (today - newest["date"]).days
    return max(0, low) / YEAR_DAYS, high / YEAR_DAYS


Life = tuple[float | None, float | None, str]
_NO_LIFE: Life = (None, None, "")


def _life(crop: str) -> Life:
    """Least and most years over all sources, and each of them in words."""
    found = load().books.seed_life(crop)
    lows = [row.low for row in found if row.low is not None]
    highs = [row.high for row in found if row.high is not None]
    if not lows or not highs:
        return _NO_LIFE
    return min(lows), max(highs), "; ".join(dict.fromkeys(_said(row) for row in found))


def _said(row: Published) -> str:
    return f"{row.printed or row.low} ({row.source}, {row.condition or 'as stored'})"


def _past(age: tuple[float | None, float | None], life: Life) -> str:
    """Whether the youngest seed is older than it is published to keep."""
    if age[0] is None or age[1] is None or life[0] is None or life[1] is None:
        return ""
    if age[1] <= life[0]:
        return "no"
    return "yes" if age[0] > life[1] else "by some sources"


# ------------------------------------------------------------ left, and what to order


def _of_a_year(bought: pd.DataFrame, diary: Diary) -> pd.DataFrame:
    """Plants do not wait for years to be planted."""
    return bought[bought["date_end"] > pd.Timestamp(diary.today) - pd.DateOffset(years=1)]


def _left(bought: pd.DataFrame, sown: pd.DataFrame) -> float | None:
    """What was bought after the last sowing; None where that is nothing, or has no number."""
    if bought.empty:
        return None
    last = _last(sown)
    unsown = bought if last is None else bought[bought["date"] > last]
    return _sum(unsown["number"])


def _order(
    key: tuple[str, str, str],
    bought: pd.DataFrame,
    sown: pd.DataFrame,
    left: float | None,
    year: int,
) -> tuple[int | None, str]:
    crop, _, unit = key
    known = load().crops.get(crop)
    of_year = sown[certain_year(sown) == year]
    if unit == PLANTS and known is not None and known.perennial:
        return 0, PERENNIAL
    if (certain_year(sown) > year).any():
        return 0, GROWN_SINCE.format(year=year)
    if of_year.empty:
        return None, NOT_GROWN.format(year=year)
    if unit == PACKETS and bought.empty:
        return None, NOT_BOUGHT
    needed = _sum(of_year["count"]) if unit == PLANTS else _packets(bought, sown, of_year)
    if needed is None:
        return None, NOT_COUNTED.format(year=year) if unit == PLANTS else NO_NUMBER
    return max(0, ceil(needed - (left or 0.0) - 1e-9)), ""


def _packets(bought: pd.DataFrame, sown: pd.DataFrame, of_year: pd.DataFrame) -> float | None:
    """Packets that what was sown in the year takes, by how far they went before; None untold."""
    until = of_year["date_end"].max()
    used = _sum(bought.loc[bought["date"] <= until, "number"])
    since = sown[(sown["date_end"] >= bought["date"].min()) & (sown["date"] <= until)]
    if used is None or since.empty:
        return None
    for column in ("length_m", "count"):
        whole, part = _sum(since[column]), _sum(of_year[column])
        if whole and part is not None:
            return used * part / whole
    return used * len(of_year) / len(since)


def seed_notes(diary: Diary) -> list[Note]:
    """Crops grown last year of which nothing says what to order."""
    frame = seed(diary)
    rows = frame[frame["order"].isna() & frame["why"].isin([NOT_BOUGHT, NO_NUMBER])]
    return [
        Note("seed", "amount", crop_words(row["crop"], row["cultivar"]), row["why"], row["year"])
        for row in rows.to_dict("records")
    ]
