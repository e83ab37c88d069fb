"""The beds and pots that are past readily available water, as lines for `haulm now`."""

from typing import Any

import pandas as pd

from journal.charts.words import number
from journal.diary import Diary
from journal.studies.et0 import et0_notes
from journal.studies.water_need import thirsty

Thirst = tuple[str, str, dict[str, Any]]
ASIDE = "By FAO-56 (1998) from rain, warmth and waterings; feel the soil before you carry cans."


def thirst_lines(diary: Diary) -> list[Thirst]:
    """Each thirsty place: its name, what is said of it, and the same as a row for programs.

    `Platform 2`, `french bean, potato: 130 l past what they take up easily, 253 l to fill`.
    """
    return [_line(row) for row in thirsty(diary).to_dict("records")]


def thirst_aside(diary: Diary) -> str:
    """What stands below the lines: the method, and its caveat far from the equator."""
    caveats = [note.reason for note in et0_notes(diary) if diary.plot.latitude is not None]
    return " ".join([ASIDE, *(f"{words[0].upper()}{words[1:]}." for words in caveats)])


def _line(row: dict[Any, Any]) -> Thirst:
    several = "," in row["crops"]
    takes = "they take" if several else "it takes"
    if pd.isna(row["past_l"]):
        past = row["depletion_low_mm"] - row["readily_mm"]
        says = f"{number(past, 0)} mm past what {takes} up easily"
    else:
        says = f"{_litres(row['past_l'])} past what {takes} up easily, "
        says += f"{_litres(row['fill_l'])} to fill"
    told = {
        "place": row["place"],
        "crops": row["crops"].split(", "),
        "date": row["date"].date().isoformat(),
        "past_l": None if pd.isna(row["past_l"]) else row["past_l"],
        "fill_l": None if pd.isna(row["fill_l"]) else row["fill_l"],
    }
    return row["place"], f"{row['crops']}: {says}", told


def _litres(value: float) -> str:
    """Litres as a can measures them: `4.4 l`, `130 l`."""
    return f"{number(value, 0 if value >= 10 else 1)} l"
