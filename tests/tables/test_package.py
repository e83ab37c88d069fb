"""The Data Package is judged by the `frictionless` library, which shares no code with ours."""

import json
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import frictionless
import pandas as pd
import pytest
from support.full_diary import full_reading

from journal.tables.build import build_tables
from journal.tables.package import DESCRIPTOR, write_package
from journal.tables.schema import TABLES, make_frame

ONE = {"labour worth": make_frame("labour worth", {})}


def all_frames() -> dict[str, pd.DataFrame]:
    studies = {name: make_frame(name, {}) for name in TABLES if name in {"harvest", "labour worth"}}
    return build_tables(full_reading()) | studies


def descriptor(folder: Path) -> dict[str, Any]:
    text = (folder / DESCRIPTOR).read_text(encoding="utf-8")
    loaded: dict[str, Any] = json.loads(text)
    return loaded


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


@pytest.fixture
def package(tmp_path: Path) -> Path:
    folder = tmp_path / "tables"
    write_package(all_frames(), folder, "Cutler's Rise")
    return folder


def test_frictionless_finds_nothing_wrong_with_it(package: Path) -> None:
    report = frictionless.validate(package / DESCRIPTOR)
    assert report.valid, report.flatten(["title", "message"])
    assert len(report.tasks) == len(all_frames())


def test_frictionless_sees_a_cell_that_breaks_the_schema(package: Path) -> None:
    weather = package / "weather.csv"
    weather.write_text(weather.read_text("utf-8").replace("2.5", "wet"), "utf-8", newline="\n")
    report = frictionless.validate(package / DESCRIPTOR)
    assert "type-error" in {error for (error,) in report.flatten(["type"])}


def test_frictionless_reads_the_values_in_their_types(package: Path) -> None:
    rows = frictionless.Package(package / DESCRIPTOR).get_resource("events").read_rows()
    first = rows[0]
    assert first["event"] == 1
    assert first["date"] == date(2026, 3, 14)
    assert first["mass_kg"] == Decimal("0.3")
    assert first["approximate"] is True
    assert first["cost"] is None and first["due"] is None
    assert rows[1]["cost"] == 0
    assert len(rows) == len(full_reading().events)


def test_every_frame_is_a_file_and_a_resource_with_every_column(package: Path) -> None:
    resources = {resource["name"]: resource for resource in descriptor(package)["resources"]}
    assert names(package) == {f"{name}.csv" for name in resources} | {DESCRIPTOR}
    assert {"labour_worth", "harvest"} < set(resources)
    for name, frame in all_frames().items():
        fields = resources[name.replace(" ", "_")]["schema"]["fields"]
        assert [field["name"] for field in fields] == list(frame.columns)


def test_the_descriptor_tells_keys_missing_values_meanings_and_the_plot(package: Path) -> None:
    told = descriptor(package)
    events = told["resources"][0]
    assert told["title"] == "Cutler's Rise"
    assert events["schema"]["primaryKey"] == ["event"]
    assert events["schema"]["missingValues"] == [""]
    mass = next(field for field in events["schema"]["fields"] if field["name"] == "mass_kg")
    assert mass == {
        "name": "mass_kg",
        "type": "number",
        "format": "default",
        "description": "mass in kg",
    }


def test_writing_it_again_gives_the_same_bytes(package: Path) -> None:
    before = {path.name: path.read_bytes() for path in package.iterdir()}
    write_package(all_frames(), package, "Cutler's Rise")
    assert {path.name: path.read_bytes() for path in package.iterdir()} == before


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    write_package(ONE, tmp_path)
    assert names(tmp_path) == {"labour_worth.csv", DESCRIPTOR}


@pytest.mark.parametrize("name", ["met.csv", DESCRIPTOR])
def test_a_folder_with_other_files_is_left_alone(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text('{"name": "another"}', encoding="utf-8")
    with pytest.raises(FileExistsError, match="haulm did not write"):
        write_package(ONE, tmp_path)
    assert names(tmp_path) == {name}


def test_a_file_is_not_taken_for_a_folder(tmp_path: Path) -> None:
    (tmp_path / "tables").touch()
    with pytest.raises(FileExistsError, match="is a file"):
        write_package(ONE, tmp_path / "tables")


def test_when_one_file_fails_no_folder_appears(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = Path.write_bytes

    def fill_up(self: Path, content: bytes) -> int:
        if self.name == DESCRIPTOR:
            raise OSError(28, "No space left on device", str(self))
        return whole(self, content)

    monkeypatch.setattr(Path, "write_bytes", fill_up)
    with pytest.raises(OSError, match="No space left"):
        write_package(all_frames(), tmp_path / "tables")
    assert names(tmp_path) == set()


def test_when_one_file_fails_an_earlier_package_is_untouched(
    package: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = {path.name: path.read_bytes() for path in package.iterdir()}

    def refuse(self: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device", str(self))

    monkeypatch.setattr(Path, "write_bytes", refuse)
    with pytest.raises(OSError, match="No space left"):
        write_package(ONE, package)
    assert {path.name: path.read_bytes() for path in package.iterdir()} == before


def test_a_frame_that_drifted_makes_no_folder(tmp_path: Path) -> None:
    drifted = make_frame("harvest", {}).drop(columns="kg")
    with pytest.raises(ValueError, match="has the columns"):
        write_package(ONE | {"harvest": drifted}, tmp_path / "tables")
    assert names(tmp_path) == set()
