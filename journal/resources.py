"""Where the grammar and the reference tables are, in a wheel and in a checkout."""

from importlib.resources import files
from pathlib import Path

_PACKAGE = Path(str(files("journal")))
_CHECKOUT = _PACKAGE.parent


def _folder(name: str, marker: str) -> Path:
    for candidate in (_PACKAGE / "_data" / name, _CHECKOUT / name):
        if (candidate / marker).is_file():
            return candidate
    raise FileNotFoundError(
        f"journal's {name}/ folder is missing: looked for {marker} in "
        f"{_PACKAGE / '_data' / name} and {_CHECKOUT / name}; reinstall the package"
    )


def grammar_folder() -> Path:
    """The folder of the lark grammars; a missing one is a broken installation."""
    return _folder("grammar", "diary.lark")


def shared_folder() -> Path:
    """The folder of the reference tables; a missing one is a broken installation."""
    return _folder("shared", "crop_families.csv")
