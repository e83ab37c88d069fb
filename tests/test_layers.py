"""Imports run one way, and each library stays in its rooms: two tables, read against the code.

text -> syntax -> events -> reading -> tables -> diary -> studies -> charts -> report -> cli
"""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "journal"

LAYERS = {
    "resources": "",
    "source": "",
    "problems": "source",
    "reference": "resources",
    "syntax": "source problems resources",
    "events": "source problems syntax reference",
    "pages": "source problems",
    "met": "source problems reference events",
    "reading": "source problems syntax reference events met pages",
    "cache": "resources source problems events met pages reading",
    "tables": "source problems events",
    "diary": "source events cache tables",
    "studies": "source events reference tables diary",
    "charts": "studies tables diary",
    "report": "source problems diary studies charts tables",
    "questions": "source resources events reference tables diary studies",
    "cli": "source problems events cache reading tables diary studies charts report questions",
    "__init__": "diary questions",
    "__main__": "cli",
}
LIBRARIES = {
    "lark": "syntax questions",
    "rapidfuzz": "reference",
    "pandas": "tables diary studies charts report questions cli",
    "numpy": "tables studies",
    "pyarrow": "tables",
    "platformdirs": "cache cli",
    "altair": "charts report",
    "vl_convert": "charts report",
    "jinja2": "report",
    "icalendar": "report",
    "markupsafe": "report",
    "click": "cli",
    "rich": "cli",
}


def imports(module: Path) -> set[str]:
    """What a module imports, by dotted name, at its top or inside a function."""
    names = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: imports are written out in full"
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def breaches(package: Path) -> list[str]:
    """Every import that neither table allows, as `module: name`."""
    found = []
    for module in sorted(package.rglob("*.py")):
        parts = module.relative_to(package).with_suffix("").parts
        layer = parts[0]
        for name in sorted(imports(module)):
            top, _, rest = name.partition(".")
            target = rest.partition(".")[0]
            if top == package.name:
                fine = target in {layer, "__version__"} or target in LAYERS[layer].split()
            else:
                fine = top not in LIBRARIES or layer in LIBRARIES[top].split()
            if not fine:
                found.append(f"{'/'.join(parts)}: {name}")
    return found


def test_imports_run_one_way_and_libraries_stay_in_their_rooms():
    assert breaches(PACKAGE) == []


def test_the_table_names_the_rooms_that_there_are():
    rooms = {path.stem for path in PACKAGE.iterdir() if path.suffix == ".py" or _is_room(path)}
    assert rooms == set(LAYERS)


def _is_room(path: Path) -> bool:
    return (path / "__init__.py").is_file()


def test_a_later_layer_uses_earlier_ones_only():
    order = list(LAYERS)[:-2]
    for layer, allowed in LAYERS.items():
        if layer in order:
            assert all(order.index(name) < order.index(layer) for name in allowed.split()), layer


@pytest.mark.parametrize(
    ("module", "line", "breach"),
    [
        ("syntax/parse.py", "from journal.events.model import Event", "journal.events.model.Event"),
        ("reading.py", "import pandas as pd", "pandas"),
        ("studies/harvest.py", "def f():\n    import altair.vegalite", "altair.vegalite"),
        ("source.py", "from journal import reading", "journal.reading"),
        ("cli/check.py", "import lark", "lark"),
    ],
)
def test_a_line_that_breaks_a_table_is_found(tmp_path: Path, module: str, line: str, breach: str):
    file = tmp_path / "journal" / module
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(line + "\n", encoding="utf-8")
    assert breaches(tmp_path / "journal") == [f"{module.removesuffix('.py')}: {breach}"]
