"""The tables of `shared/` load whole, and a bad one stops the program naming file and row."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from journal import resources
from journal.reference.load import load, read_reference
from journal.resources import shared_folder


@pytest.fixture
def tables(tmp_path: Path) -> Path:
    """A copy of the tables that a test may spoil."""
    return Path(shutil.copytree(shared_folder(), tmp_path / "shared"))


def _spoil(path: Path, row: int, old: str, new: str) -> None:
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    assert old in lines[row - 1]
    lines[row - 1] = lines[row - 1].replace(old, new, 1)
    path.write_text("".join(lines), encoding="utf-8")


def _row_of(path: Path, start: str) -> int:
    lines = path.read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if line.startswith(start))


def test_the_tables_are_read_once():
    assert load() is load()
    assert load().books is load().books


def test_a_copy_of_the_tables_reads_the_same(tables: Path):
    copy = read_reference(tables)
    assert copy.crops == load().crops
    assert copy.groups == load().groups
    assert copy.materials == load().materials
    assert copy.books == load().books


@pytest.mark.parametrize(
    ("table", "start", "old", "new", "why"),
    [
        ("crops.csv", "leek,", "leek,", ",", "name is empty"),
        ("crops.csv", "lentil,", "lentil,", "leek,", "leek stands twice"),
        ("crops.csv", "leek,", ",planted,", ",dropped,", "put_in is 'dropped'"),
        ("crops.csv", "leek,", ",no,", ",never,", "perennial is 'never'"),
        ("crops.csv", "leek,", ",in_soil,", ",buried,", "soil_contact is 'buried'"),
        ("crops.csv", "leek,", ",allium,allium,", ",allium,onions,", "rotation_group is 'onions'"),
        ("crops.csv", "leek,", "leek,", "leek,,", "16 cells, not 15"),
        ("materials.csv", "manure,", ",dressing,", ",topping,", "role is 'topping'"),
        ("crop_groups.csv", "allium,", "allium,", "onions,", "onions stands twice, is a crop, or"),
    ],
)
def test_a_bad_row_is_named(tables: Path, table: str, start: str, old: str, new: str, why: str):
    row = _row_of(tables / table, start)
    _spoil(tables / table, row, old, new)
    with pytest.raises(ValueError, match=f"^{table}, row {row}: {why}"):
        read_reference(tables)


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ("asparagus,", "asparagrass,", "asparagrass is no crop of crops.csv"),
        (",read", ",memory", "basis is 'memory', not one of"),
        ("ISU-SEED", "ISU-SEEDS", "source ISU-SEEDS is not in sources.csv"),
        (",3,3,years,3", ",three,3,years,3", "low is 'three', not a number"),
        (",3,3,years,3", ",nan,3,years,3", "low is 'nan', not a number"),
        (",3,3,years,3", ",4,3,years,3", "low 4.0 is above high 3.0"),
        (",years,", ",,", "unit is empty"),
    ],
)
def test_a_bad_figure_is_named(tables: Path, old: str, new: str, why: str):
    _spoil(tables / "seed_viability.csv", 2, old, new)
    with pytest.raises(ValueError, match=rf"^seed_viability\.csv, row 2: {why}"):
        _ = read_reference(tables).books


def test_a_table_with_other_columns_is_named(tables: Path):
    _spoil(tables / "materials.csv", 1, "role", "rule")
    with pytest.raises(ValueError, match=r"^materials\.csv, row 1: columns are"):
        read_reference(tables)


def test_an_empty_table_is_named(tables: Path):
    (tables / "crops.csv").write_text("", encoding="utf-8")
    with pytest.raises(ValueError, match=r"^crops\.csv, row 1: columns are"):
        read_reference(tables)


def test_a_group_that_no_table_lists_is_named(tables: Path):
    row = _row_of(tables / "crops.csv", "leek,")
    _spoil(tables / "crops.csv", row, ",allium,allium,", ",smelly,allium,")
    with pytest.raises(ValueError, match=r"^crops\.csv: groups \['smelly'\]"):
        read_reference(tables)


def test_a_missing_table_is_an_error(tables: Path):
    (tables / "weights.csv").unlink()
    with pytest.raises(FileNotFoundError, match=r"weights\.csv"):
        _ = read_reference(tables).books


def test_checking_names_loads_neither_frames_nor_spelling_search():
    code = (
        "import sys; from journal.reference.load import load; load(); "
        "print({'pandas', 'rapidfuzz', 'numpy'} & set(sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": str(Path(resources.__file__).parent.parent)},
    )
    assert done.stdout == "set()\n"


def test_a_missing_folder_says_where_it_was_looked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(resources, "_PACKAGE", tmp_path / "journal")
    monkeypatch.setattr(resources, "_CHECKOUT", tmp_path)
    with pytest.raises(FileNotFoundError, match=r"crop_families\.csv .*reinstall the package"):
        resources.shared_folder()


def test_a_folder_without_its_marker_is_not_ours(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "shared").mkdir()
    ours = tmp_path / "journal" / "_data" / "shared"
    ours.mkdir(parents=True)
    (ours / "crop_families.csv").touch()
    monkeypatch.setattr(resources, "_PACKAGE", tmp_path / "journal")
    monkeypatch.setattr(resources, "_CHECKOUT", tmp_path)
    assert resources.shared_folder() == ours
