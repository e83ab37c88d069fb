"""Events, weather, prose and parts as the short lines that corpus files are written in."""

import dataclasses
import re
from collections.abc import Iterable
from datetime import date

from journal.events.model import Event, Paragraph, WeatherReading
from journal.syntax.nodes import Document, Entry

_NOT_SHOWN = {"event", "entry", "date", "date_end", "kind", "verb", "crop", "source", "span"}
_FIELDS = [row.name for row in dataclasses.fields(Event) if row.name not in _NOT_SHOWN]


def days_text(first: date | None, last: date | None) -> str:
    """`2026-03-14`, `2026-03-01..2026-03-31` or `undated`."""
    if first is None and last is None:
        return "undated"
    if first == last:
        return str(first)
    return f"{first or ''}..{last or ''}"


def word_text(value: object) -> str:
    """A value as one word: in quotes when it holds a space or could be mistaken."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return format(value, ".9g")
    text = str(value).replace("\n", "\\n")
    if re.fullmatch(r"[^\s'\"=]+", text) and text != ".":
        return text
    quote = '"' if "'" in text else "'"
    return f"{quote}{text}{quote}"


def event_text(event: Event) -> str:
    """One line: days, kind, verb, crop (`.` for none), then what is not empty, as the model has it.

    For example `2026-03-14 harvest pick kale mass_kg=1.2 place='Top bed'`.
    """
    words = [days_text(event.date, event.date_end), word_text(event.kind), word_text(event.verb)]
    words.append(word_text(event.crop) if event.crop else ".")
    for name in _FIELDS:
        value = getattr(event, name)
        if value is not None and value != "" and value is not False:
            words.append(f"{name}={word_text(value)}")
    return " ".join(words)


def weather_text(row: WeatherReading) -> str:
    """One line: days, variable, value with its unit, then mark and place.

    For example `2026-03-14 t_min -1 C`, `2026-03-14 rain 0 mm mark=trace place=Tunnel`.
    """
    words = [days_text(row.date, row.date_end), word_text(row.variable)]
    if row.value is not None:
        words.append(word_text(float(row.value)))
    words += [word_text(row.unit)] if row.unit else []
    words += [f"mark={word_text(row.mark)}"] if row.mark else []
    words += [f"place={word_text(row.place)}"] if row.place else []
    return " ".join(words)


def paragraph_text(row: Paragraph) -> str:
    """The days and the words; further lines of a paragraph stand indented below."""
    return f"{days_text(row.date, row.date_end)} {row.text}".replace("\n", "\n    ")


def parts_text(document: Document) -> str:
    """Each entry's verb and parts, one a line: the name of the node and the text it came from."""
    lines: list[str] = []
    for entry in document.lines:
        if isinstance(entry, Entry):
            lines += _entry_lines(document, entry)
    return "\n".join(lines)


def _entry_lines(document: Document, entry: Entry) -> Iterable[str]:
    yield f"{entry.planned} {entry.verb}".strip() if entry.planned else entry.verb
    for part in (*entry.lead, *entry.parts):
        name = re.sub(r"(?<!^)(?=[A-Z])", "_", type(part).__name__).lower()
        kind = getattr(part, "kind", "")
        written = document.source.slice(entry.at(part.span))
        yield f"  {name}{f'/{kind}' if kind else ''} {written}"
