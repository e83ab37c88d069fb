"""`haulm check` and `import journal` stay light: neither pandas nor altair is loaded."""

import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {"pandas", "numpy", "pyarrow", "altair", "vl_convert", "jinja2"}


def modules_after(code: str, folder: Path) -> set[str]:
    """The top-level modules that are loaded once `code` has run in a fresh interpreter."""
    listing = "print('\\nLOADED', *(name.split('.')[0] for name in sys.modules))"
    script = f"import sys\n{code}\n{listing}"
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=folder, capture_output=True, text=True, check=True
    )
    return set(run.stdout.rsplit("LOADED", 1)[1].split())


@pytest.fixture
def begun(tmp_path: Path) -> Path:
    (tmp_path / "plot.txt").write_text("- bed Long 1, 1.2 x 4.8 m\n", encoding="utf-8")
    page = "14 March 2026\n- pick 1.2 kg kale from Long 1\n"
    (tmp_path / "2026.txt").write_text(page, encoding="utf-8")
    return tmp_path


def command(*words: str) -> str:
    return (
        "from journal.cli.main import cli\n"
        f"assert not cli.main({list(words)!r}, standalone_mode=False)"
    )


def test_importing_the_package_loads_nothing_heavy(tmp_path: Path):
    loaded = modules_after("import journal", tmp_path)
    assert "journal" in loaded and not loaded & {*HEAVY, "lark", "click"}


def test_check_loads_no_frames_and_no_charts(begun: Path):
    loaded = modules_after(command("check", "--today", "2026-11-25"), begun)
    assert "lark" in loaded and not loaded & HEAVY


@pytest.mark.parametrize("words", [("--help",), ("guide",), ("new", "begun"), ("check", "--help")])
def test_help_guide_and_new_load_nothing_heavy(tmp_path: Path, words: tuple[str, ...]):
    assert not modules_after(command(*words), tmp_path) & HEAVY


def test_the_guard_itself_sees_what_is_loaded(begun: Path):
    assert "pandas" in modules_after("import journal; journal.read", begun)
