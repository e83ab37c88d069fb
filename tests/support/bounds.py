"""The oldest version of each library that pyproject.toml admits, printed as pip's constraints.

`make bounds` installs these and runs the tests.
"""

import re
import tomllib
from pathlib import Path

PROJECT = Path(__file__).parent.parent.parent / "pyproject.toml"
_BOUND = re.compile(r"(?P<name>[\w-]+)>=(?P<floor>[\d.]+),<(?P<ceiling>[\d.]+)")


def declared() -> list[str]:
    """What the program asks for, as written."""
    project = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]
    written: list[str] = project["dependencies"]
    return written


def bounds() -> dict[str, tuple[str, str]]:
    """Each library with its floor and its ceiling; ValueError for one that lacks either."""
    found = {}
    for written in declared():
        bound = _BOUND.fullmatch(written)
        if bound is None:
            raise ValueError(f"{written}: write it as name>=floor,<ceiling")
        found[bound["name"]] = (bound["floor"], bound["ceiling"])
    return found


if __name__ == "__main__":
    for name, (floor, _) in bounds().items():
        print(f"{name}=={floor}")
