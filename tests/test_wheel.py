"""A wheel, built from a source archive, holds the grammar, the tables and the guide."""

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The names in a wheel that went through a source archive, as an installer would see it."""
    out = tmp_path_factory.mktemp("dist")
    words = ["-m", "build", "--no-isolation", "--outdir", str(out), str(CHECKOUT)]
    built = subprocess.run([sys.executable, *words], capture_output=True, text=True)
    assert built.returncode == 0, built.stdout + built.stderr
    (file,) = out.glob("*.whl")
    return set(zipfile.ZipFile(file).namelist())


def tracked(folder: Path) -> set[str]:
    """The files below a folder by path, without what Python and its tools leave behind."""
    found = [path.relative_to(folder) for path in folder.rglob("*") if path.is_file()]
    return {
        path.as_posix()
        for path in found
        if "__pycache__" not in path.parts and not any(part.startswith(".") for part in path.parts)
    }


@pytest.mark.parametrize("name", ["grammar", "shared"])
def test_the_data_of_the_wheel_are_those_of_the_checkout(wheel: set[str], name: str):
    prefix = f"journal/_data/{name}/"
    packed = {file.removeprefix(prefix) for file in wheel if file.startswith(prefix)}
    assert packed and packed == tracked(CHECKOUT / name)


def test_the_package_of_the_wheel_is_that_of_the_checkout(wheel: set[str]):
    packed = {file.removeprefix("journal/") for file in wheel if file.startswith("journal/")}
    package = {file for file in packed if not file.startswith("_data/")}
    assert package == tracked(CHECKOUT / "journal")
    assert "py.typed" in package and any(file.startswith("guide/") for file in package)


def test_nothing_but_the_package_is_in_the_wheel(wheel: set[str]):
    tops = {file.split("/")[0] for file in wheel if ".dist-info/" not in file}
    assert tops == {"journal"}
    assert any(file.endswith(".dist-info/licenses/LICENSE") for file in wheel)


def test_a_wheel_built_elsewhere_at_another_time_is_the_same_to_the_byte(tmp_path: Path):
    built = []
    shutil.copytree(CHECKOUT, tmp_path / "checkout", ignore=_left_behind)
    for place, umask in (("here", 0o022), ("over/there", 0o077)):
        checkout = tmp_path / place
        shutil.copytree(tmp_path / "checkout", checkout)
        for file in checkout.rglob("*"):
            os.utime(file, (umask * 10**7, umask * 10**7))
        out = tmp_path / "dist" / place
        words = ["-m", "build", "--wheel", "--no-isolation", "--outdir", str(out), str(checkout)]
        done = subprocess.run([sys.executable, *words], capture_output=True, text=True, umask=umask)
        assert done.returncode == 0, done.stdout + done.stderr
        (file,) = out.glob("*.whl")
        built.append((file.name, file.read_bytes()))
    assert built[0] == built[1]


def _left_behind(folder: str, names: list[str]) -> set[str]:
    return {name for name in names if name.startswith(".") or name in {"__pycache__", "tests"}}
