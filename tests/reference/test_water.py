"""Soil, crop, roof and base figures against the transcription that they were read in."""

import shutil
from pathlib import Path

import pyfao56.tools.tables as printed
import pytest

from journal.reference.load import load
from journal.reference.rows import read_rows
from journal.reference.water import (
    BASE_COLUMNS,
    COEFFICIENT_COLUMNS,
    STAGE_COLUMNS,
    load_water,
    read_water,
)
from journal.resources import shared_folder

# pyfao56 1.4.3 (USDA-ARS) transcribes Tables 11, 12 and 22 of FAO-56 (1998); its names of them.
TABLES = printed.FAO56Tables()
NAMES = {
    "Brussels sprouts": "brussel sprouts",
    "onions, dry": "onions dry",
    "onions, green": "onions green",
    "egg plant": "eggplant",
    "sweet peppers (bell)": "sweet peppers bell",
    "cucumber, fresh market": "cucumber fresh market",
    "pumpkin, winter squash": "pumpkin winter squash",
    "squash, zucchini": "squash zucchini",
    "beets, table": "beets table",
    "turnip and rutabaga": "turnip rutabaga",
    "beans, green": "beans green",
    "beans, dry and pulses": "beans dry pulses",
    "faba bean (broad bean), fresh": "faba bean broad fresh",
    "peas, fresh": "peas fresh",
    "maize, sweet corn, fresh": "maize sweet corn fresh",
    "berries (bushes)": "berries bushes",
    "radishes": "radish",
}
NAMES_22 = {
    "onions, green": "onoins green",
    "radishes": "radishes",
    "maize, sweet corn, fresh": "maize sweet corn",
}
NAMES_11 = {
    "onion, dry": "onion dry",
    "onion, green": "onion green",
    "egg plant": "eggplant",
    "beans, dry": "beans dry",
    "faba bean (broad bean)": "faba bean broad",
    "maize, sweet": "maize sweet",
}


def row_of(table, name: str) -> list[float]:
    (row,) = table[table["Crop"] == name].to_numpy().tolist()
    return [float(cell) for cell in row[1:]]


@pytest.mark.parametrize(
    "row",
    list(read_rows(shared_folder() / "crop_coefficients.csv", COEFFICIENT_COLUMNS)),
    ids=lambda row: row.cells["crop_in_source"],
)
def test_coefficients_and_roots_are_those_of_the_1998_tables(row):
    name = row.cells["crop_in_source"]
    kc = [float(row.cells[column]) for column in ("kc_ini", "kc_mid", "kc_end", "height_m")]
    roots = [float(row.cells[column]) for column in ("root_low_m", "root_high_m", "depletion")]
    assert kc == row_of(TABLES.table12, NAMES.get(name, name))
    assert roots == row_of(TABLES.table22, NAMES_22.get(name, NAMES.get(name, name)))


@pytest.mark.parametrize(
    "row",
    list(read_rows(shared_folder() / "crop_stages.csv", STAGE_COLUMNS)),
    ids=lambda row: row.cells["crop_in_source"],
)
def test_stage_lengths_are_one_row_of_the_1998_table(row):
    name = row.cells["crop_in_source"]
    name = NAMES_11.get(name, NAMES.get(name, name))
    days = [row.cells[column] for column in STAGE_COLUMNS[2:6]]
    printed_rows = TABLES.table11[TABLES.table11["Crop"] == name]
    assert days in printed_rows[["Lini", "Ldev", "Lmid", "Llate"]].to_numpy().tolist()


def test_the_soils_are_the_nine_textures_of_the_table_and_no_other():
    soils = load_water().soils
    assert len(soils) == 9
    assert "clay loam" not in soils and "sandy clay loam" not in soils
    # Table 19 (1998), in transcription: sandy loam 0.11 to 0.15, clay 0.12 to 0.20
    assert soils["sandy loam"].available == pytest.approx(0.13)
    assert soils["clay"].available == pytest.approx(0.16)


def test_a_base_in_celsius_is_the_printed_one_in_fahrenheit():
    for row in read_rows(shared_folder() / "base_temperatures.csv", BASE_COLUMNS):
        for ours, theirs in (("base_c", "printed_base"), ("cutoff_c", "printed_cutoff")):
            if row.cells[theirs]:
                celsius = (float(row.cells[theirs]) - 32) / 1.8
                assert float(row.cells[ours]) == pytest.approx(celsius, abs=0.0005)
            else:
                assert row.cells[ours] == ""


def test_every_crop_of_these_tables_is_one_that_is_known():
    water = load_water()
    assert {*water.crops, *water.bases} <= set(load().crops)


@pytest.mark.parametrize(
    ("table", "old", "new", "why"),
    [
        ("soil_water.csv", ",0.05,0.11,", ",0.15,0.11,", "available_low 0.15 is above"),
        ("soil_water.csv", ",read,", ",memory,", "basis is 'memory'"),
        ("crop_coefficients.csv", "broccoli;calabrese", "broccoli;broccoli", "stands twice"),
        ("crop_coefficients.csv", ",0.7,", ",much,", "kc_ini is 'much', not a number"),
        ("roof_runoff.csv", "BS-EN-16941-1", "BS-8515", "source BS-8515 is not in sources.csv"),
        ("crop_stages.csv", "carrot,", "oca,", "'oca'"),
    ],
)
def test_a_bad_row_is_named(tmp_path: Path, table: str, old: str, new: str, why: str):
    folder = Path(shutil.copytree(shared_folder(), tmp_path / "shared"))
    text = (folder / table).read_text(encoding="utf-8")
    assert old in text
    (folder / table).write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(ValueError, match=why):
        read_water(folder)
