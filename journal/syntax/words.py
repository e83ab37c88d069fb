"""`Words`: the names known for one diary, by kind; a plain value that the caller hands in."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """Written forms in lower case, as the lexer must know them.

    `places` and `persons` come from the plot sheet, `crops`, `materials` and `units` from the
    reference tables and the sheet, `measures` from the sheet, `cultivars` from every pair of
    quotes in the diary.
    """

    crops: frozenset[str] = frozenset()
    places: frozenset[str] = frozenset()
    materials: frozenset[str] = frozenset()
    measures: frozenset[str] = frozenset()
    units: frozenset[str] = frozenset()
    persons: frozenset[str] = frozenset()
    cultivars: frozenset[str] = frozenset()
