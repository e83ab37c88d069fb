"""Reads a plain-text garden diary into tidy tables, answers questions and draws the season.

`read`, `ask` and `Diary` are fetched when first named, so that importing the package stays light.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from journal.diary import Diary, read
    from journal.questions.answer import ask

__version__ = "0.1.0"
__all__ = ["Diary", "ask", "read"]


def __getattr__(name: str) -> Any:
    if name in {"read", "Diary"}:
        from journal import diary

        return getattr(diary, name)
    if name == "ask":
        from journal.questions.answer import ask

        return ask
    raise AttributeError(f"module 'journal' has no attribute {name!r}")
