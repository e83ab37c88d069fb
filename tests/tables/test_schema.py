"""The columns are a contract: this file repeats it word for word, so that no change is silent."""

import re
from datetime import date
from typing import Any

import numpy as np
import pandas as pd
import pytest

from journal.tables.schema import DIARY_TABLES, TABLES, check_frame, make_frame

EVENTS_CONTRACT = """
| `event` | running number, stable for an unchanged diary |
| `entry` | number of the entry the event came from |
| `date` `date_end` | first and last possible day, ISO 8601 |
| `kind` | sowing, raising, planting ... |
| `verb` | the canonical verb |
| `crop` `cultivar` `label` | canonical crop name ... |
| `family` | botanical family of the crop |
| `place` | where it happened or ended up |
| `place_from` | the place after `from`, where plants or materials moved |
| `vessel` | pots, trays, modules, sacks, with size and number as written |
| `party` | person or shop |
| `cover` | fleece, glass, net |
| `material` | feed, dressing, product or thing fitted |
| `count` | plants, seeds, tubers, fruits: a bare number |
| `count_of` | for `36 of 40`, the 40 |
| `mass_kg` `volume_l` `length_m` `area_m2` `depth_m` `spacing_m` `row_spacing_m` | SI amounts |
| `dose_l` `dose_kg` | concentrate used, computed from dose and dilution |
| `minutes` | person-minutes, this event's share of its entry |
| `cost` `currency` | money, this event's share |
| `temperature_c` | a heap's heat |
| `task` | the words of a `job` entry |
| `score` | verdict, 0 to 1 |
| `approximate` `low` `high` | true where the diary said `about` or a range |
| `amount_text` | the amount as written |
| `subject` | what was seen (`blackfly`), lost to, or is meant by a plan |
| `due` `due_end` | for an intention: when |
| `packets` | packets of seed bought |
| `spread` | true where the entry's days are a stretch it went on over |
| `remark` | remark in brackets and indented lines |
| `file` `line` `column` | where it stands; line and column count from 1 |
"""

CONTRACT = {
    "weather": "date date_end place variable value unit source file line",
    "places": (
        "date kind name also length_m width_m height_m area_m2 volume_l feeds soil raised x_m y_m "
        "ended became file line"
    ),
    "crops": "date name also family group file line",
    "materials": "date kind name also n_pct p2o5_pct k2o_pct basis dilution kg_per_l file line",
    "prices": "date crop cultivar price currency per per_kg file line",
    "prose": "date date_end text file line",
    "problems": "code severity file line column column_end message mend",
    "harvest": (
        "year crop cultivar place kg count pickings unweighed first last days area_m2 kg_per_m2 "
        "plants kg_per_plant row_m kg_per_m"
    ),
    "labour": "year month place verb crop minutes",
    "labour worth": "year place crop hours kg area_m2 hours_per_kg hours_per_m2",
    "years": (
        "measure crop cultivar place year value unit before change change_pct mean_before "
        "low_before high_before years_before"
    ),
    "climate": "year measure value unit date date_end",
    "plants": (
        "batch crop cultivar label started how_started place stage date sown up pricked_out "
        "potted_on planted not_up discarded lost harvested cleared unknown alive alive_low "
        "alive_high ended days_in_stage"
    ),
    "standing": ("crop cultivar label place stage alive alive_low alive_high since days due state"),
}


def price_rows(**columns: Any) -> dict[str, list[Any]]:
    row = {
        "date": None,
        "crop": "kale",
        "cultivar": "",
        "price": 1.1,
        "currency": "GBP",
        "per": "kg",
        "per_kg": None,
        "file": "plot.txt",
        "line": 1,
    }
    return {name: [value] for name, value in (row | columns).items()}


def test_the_events_table_has_the_columns_of_the_contract_in_its_order() -> None:
    first_cells = [line.split("|")[1] for line in EVENTS_CONTRACT.strip().splitlines()]
    assert TABLES["events"].column_names == tuple(re.findall(r"`(\w+)`", " ".join(first_cells)))


@pytest.mark.parametrize("name", CONTRACT)
def test_every_other_table_has_the_columns_of_the_contract_in_its_order(name: str) -> None:
    assert TABLES[name].column_names == tuple(CONTRACT[name].split())


def test_the_contract_names_every_table() -> None:
    # Studies whose columns the guide states come on top of the contract's own.
    assert set(DIARY_TABLES) | set(CONTRACT) <= set(TABLES)
    assert ("events", *list(CONTRACT)[:7]) == DIARY_TABLES


@pytest.mark.parametrize("name", TABLES)
def test_every_column_says_in_one_line_what_it_means(name: str) -> None:
    for column in TABLES[name].columns:
        assert column.meaning and "\n" not in column.meaning, column.name


@pytest.mark.parametrize("name", TABLES)
def test_a_unit_in_a_name_belongs_to_a_figure(name: str) -> None:
    units = re.compile(r"_(kg|l|m|m2|c|pct|per_kg|per_m2|per_m|per_plant)$")
    found = {c.name: c.dtype for c in TABLES[name].columns if units.search(c.name)}
    assert set(found.values()) <= {"Float64"}, found


@pytest.mark.parametrize("name", TABLES)
def test_a_table_without_rows_keeps_its_dtypes(name: str) -> None:
    frame = make_frame(name, {})
    check_frame(frame, name)
    assert [str(dtype) for dtype in frame.dtypes] == [c.dtype for c in TABLES[name].columns]


def test_missing_values_are_empty_words_no_day_and_no_figure() -> None:
    rows = price_rows(cultivar=None)
    frame = make_frame("prices", rows)
    check_frame(frame, "prices")
    assert frame.loc[0, "cultivar"] == ""
    assert frame.loc[0, "date"] is pd.NaT
    assert frame.loc[0, "per_kg"] is pd.NA


def test_a_frame_with_its_own_index_and_dtypes_takes_the_tables() -> None:
    rough = pd.DataFrame(price_rows(date=pd.Timestamp(2026, 3, 14), line=np.int32(4)), index=[7])
    frame = make_frame("prices", {name: rough[name] for name in reversed(rough.columns)})
    check_frame(frame, "prices")
    assert list(frame.index) == [0]
    assert frame.loc[0, "date"].date() == date(2026, 3, 14)


def test_a_column_too_few_or_too_many_is_named() -> None:
    rows = price_rows()
    del rows["per"]
    with pytest.raises(KeyError, match="per"):
        make_frame("prices", rows)
    with pytest.raises(KeyError, match="pence"):
        make_frame("prices", price_rows(pence=110))


@pytest.mark.parametrize(
    ("drift", "told"),
    [
        (lambda frame: frame.drop(columns="per"), "has the columns"),
        (lambda frame: frame[list(reversed(frame.columns))], "has the columns"),
        (lambda frame: frame.assign(price=frame["price"].astype("float64")), "`price`"),
        (lambda frame: frame.assign(crop=frame["crop"].astype("object")), "`crop`"),
        (
            lambda frame: frame.assign(crop=frame["crop"].astype(pd.StringDtype(na_value=np.nan))),
            "`crop`",
        ),
        (lambda frame: frame.assign(date=frame["date"].astype("datetime64[ns]")), "`date`"),
        (lambda frame: frame.assign(line=frame["line"].astype("int64")), "`line`"),
        (lambda frame: frame.assign(crop=pd.array([""], dtype="string")), "`crop`.*empty"),
        (lambda frame: frame.assign(crop=pd.array([None], dtype="string")), "`crop`.*missing"),
        (lambda frame: frame.assign(price=pd.array([None], dtype="Float64")), "`price`.*empty"),
        (lambda frame: frame.assign(price=pd.array([np.inf], "Float64")), "`price`.*without end"),
    ],
)
def test_a_frame_that_drifted_is_refused(drift: Any, told: str) -> None:
    frame = make_frame("prices", price_rows())
    check_frame(frame, "prices")
    with pytest.raises(ValueError, match=told):
        check_frame(drift(frame), "prices")


def test_two_events_with_one_number_are_refused() -> None:
    columns = TABLES["events"].columns
    given: dict[str, Any] = {"string": "word", "boolean": False, "Int64": 1}
    twice = {column.name: [given.get(column.dtype)] * 2 for column in columns}
    with pytest.raises(ValueError, match="same event"):
        check_frame(make_frame("events", twice), "events")
