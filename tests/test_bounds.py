"""Each library that the program imports is asked for, between two versions."""

import sys
from importlib.metadata import packages_distributions, version
from pathlib import Path

import pytest
from packaging.version import Version
from support.bounds import bounds
from test_layers import imports

PACKAGE = Path(__file__).parent.parent / "journal"
# rich's: asked for so that no release with an advisory is taken
NOT_IMPORTED = {"pygments"}


def imported() -> set[str]:
    """The libraries that the package imports, by the names they are installed under."""
    names = {name.partition(".")[0] for file in PACKAGE.rglob("*.py") for name in imports(file)}
    libraries = names - sys.stdlib_module_names - {PACKAGE.name}
    installed = packages_distributions()
    return {each.lower() for name in libraries for each in installed[name]}


def test_what_is_imported_is_asked_for_and_nothing_else_is():
    assert imported() | NOT_IMPORTED == set(bounds())


@pytest.mark.parametrize("name", bounds())
def test_the_library_that_is_here_lies_between_its_bounds(name: str):
    floor, ceiling = bounds()[name]
    assert Version(floor) <= Version(version(name)) < Version(ceiling)
