"""A season told as Markdown or as values for JSON: the page's words and figures, elsewhere."""

import re
from typing import Any

from journal.report.page_tables import PageTable
from journal.report.told import Told, said

_MARKS = re.compile(r"([\\`*_\[\]<>|#&])")


def season_values(told: Told) -> dict[str, Any]:
    """The season as plain values; figures of tables as they are said, headline figures as numbers.

    The figures of a table as numbers are the study's: `haulm table` prints them.
    """
    return {
        "year": told.year,
        "part": told.span or None,
        "against": told.against if told.against in told.others else None,
        "sentences": list(told.sentences),
        "figures": [
            {"name": line.name, "value": line.value, "unit": line.unit, "about": line.about}
            for line in told.headlines
        ],
        "sections": [
            {
                "name": section.name,
                "title": section.title,
                "words": section.words,
                "items": list(section.items),
                "caution": section.caution or None,
                "tables": [_values(table) for table in _tables(told, section.tables)],
            }
            for section in told.sections
        ],
        "not_told": [{"title": gap.title, "notes": list(gap.notes)} for gap in told.gaps],
    }


def _values(table: PageTable) -> dict[str, Any]:
    return {
        "caption": table.caption,
        "heads": list(table.heads),
        "rows": [list(row) for row in table.rows],
    }


def _tables(told: Told, tables: tuple[PageTable, ...]) -> list[PageTable]:
    """Without those that set the year beside another year than the one asked for."""
    return [table for table in tables if table.against in (None, told.against)]


def season_markdown(told: Told) -> str:
    """The season as Markdown (CommonMark with pipe tables); words of the diary stay words."""
    title = " ".join(filter(None, [told.span, str(told.year)]))
    lines = [f"# {title}{f' at {_plain(told.plot)}' if told.plot else ''}", ""]
    for sentence in told.sentences:
        lines += [_plain(sentence), ""]
    lines += [
        f"- **{_plain(line.name)}** {said(line)}, {_plain(line.about)}" for line in told.headlines
    ]
    for section in told.sections:
        lines += ["", f"## {_plain(section.title)}", "", _plain(section.words)]
        if section.items:
            lines += ["", *(f"- {_plain(item)}" for item in section.items)]
        if section.caution:
            lines += ["", f"> {_plain(section.caution)}"]
        for table in _tables(told, section.tables):
            lines += ["", f"### {_plain(table.caption)}", "", *_table(table)]
    if told.gaps:
        lines += ["", "## What the pages do not tell"]
    for gap in told.gaps:
        lines += ["", f"### {_plain(gap.title)}", "", *(f"- {_plain(note)}" for note in gap.notes)]
    return "\n".join(lines) + "\n"


def _table(table: PageTable) -> list[str]:
    rules = ["---:" if figure else "---" for figure in table.figures]
    rows = [table.heads, rules, *table.rows]
    return [
        f"| {' | '.join(cell if row is rules else _plain(cell) for cell in row)} |" for row in rows
    ]


def _plain(words: str) -> str:
    return _MARKS.sub(r"\\\1", " ".join(words.split()))
