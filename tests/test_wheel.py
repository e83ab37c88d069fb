"""A wheel, made from a source archive, holds the grammar, the tables and the guide."""

import io
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
    _, packed = _built(CHECKOUT, tmp_path_factory.mktemp("dist"))
    return set(zipfile.ZipFile(io.BytesIO(packed)).namelist())


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


def test_what_is_built_elsewhere_at_another_time_is_the_same_to_the_byte(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    shutil.copytree(CHECKOUT, tmp_path / "checkout", ignore=_left_behind)
    elsewhere = tmp_path / "over there" / "août"
    shutil.copytree(tmp_path / "checkout", elsewhere)
    for file in elsewhere.rglob("*"):
        os.utime(file, (10**9, 10**9))
        file.chmod(0o700 if file.is_dir() else 0o600)
    first = _built(tmp_path / "checkout", tmp_path / "first", umask=0o022)
    assert _built(elsewhere, tmp_path / "second", umask=0o077) == first


def test_the_source_archive_makes_the_wheel_that_the_checkout_makes(tmp_path: Path):
    _, through_archive = _built(CHECKOUT, tmp_path / "first")
    assert [through_archive] == _built(CHECKOUT, tmp_path / "second", "--wheel")


def _built(checkout: Path, out: Path, *kinds: str, umask: int = -1) -> list[bytes]:
    """The source archive and the wheel made from it, or the one kind asked for."""
    words = ["-m", "build", *kinds, "--no-isolation", "--outdir", str(out), str(checkout)]
    done = subprocess.run([sys.executable, *words], capture_output=True, text=True, umask=umask)
    assert done.returncode == 0, done.stdout + done.stderr
    return [file.read_bytes() for kind in ("*.tar.gz", "*.whl") for file in out.glob(kind)]


def _left_behind(folder: str, names: list[str]) -> set[str]:
    return {name for name in names if name.startswith(".") or name in {"__pycache__", "tests"}}
