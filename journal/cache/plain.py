"""A reading to JSON and back: columns for the rows, tagged lists for everything small.

The texts themselves are not kept: they come from the diary's files. Refuses, with a KeyError,
TypeError or ValueError, whatever is not exactly what it once wrote.
"""

import json
from collections.abc import Callable, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from operator import is_
from typing import Any

from journal.events import model as m
from journal.events.reading import Reading
from journal.events.rows import Coded, Rows
from journal.problems.model import Edit, Problem, Related
from journal.source import Source, Span

_KINDS: dict[str, type[Any]] = {
    kind.__name__: kind
    for kind in (
        *(m.Plot, m.Sheet, m.PlaceDeclared, m.CropDeclared, m.MaterialDeclared, m.MeasureDeclared),
        *(m.PriceDeclared, m.GroundChange, m.MetFileDeclared),
        *(Problem, Related, Edit, Span),
    )
}
_ROWS = {"events": m.Event, "weather": m.WeatherReading, "prose": m.Paragraph}
_CELLS = (str, float, int, bool, date, type(None))


def to_json(reading: Reading, sources: Sequence[Source]) -> str:
    """A reading, its sources numbered as they stand in `sources`; its documents are left out.

    KeyError where a part of it has another source, TypeError where it holds what JSON cannot.
    """
    numbers = {id(source): at for at, source in enumerate(sources)}
    columns = {
        name: _columns(_as_rows(kind, getattr(reading, name), sources))
        for name, kind in _ROWS.items()
    }
    small = {
        "sheet": _plain(reading.sheet, numbers),
        "problems": _plain(reading.problems, numbers),
        "same_from": reading.same_from.isoformat(),
        "same_until": reading.same_until.isoformat(),
    }
    return json.dumps(small | columns, ensure_ascii=False, separators=(",", ":"))


def _as_rows(kind: type[Any], rows: Sequence[Any], sources: Sequence[Source]) -> Rows[Any]:
    """The rows with their sources numbered as in `sources`."""
    if isinstance(rows, Rows) and all(map(is_, rows.sources, sources)):
        return rows
    return Rows.of(kind, rows, sources)


def _columns(rows: Rows[Any]) -> dict[str, Any]:
    packed = {name: _packed(column) for name, column in rows.columns.items()}
    return {"rows": len(rows), "columns": packed}


def _packed(column: Coded) -> list[Any]:
    kinds = set(map(type, column.values)) - {type(None)}
    if len(kinds) > 1 or not kinds <= set(_CELLS):
        raise TypeError(f"a column holds {sorted(kind.__name__ for kind in kinds)}")
    if kinds == {date}:
        days = [value and value.isoformat() for value in column.values]
        return ["days", days, column.packed()]
    return ["cells", list(column.values), column.packed()]


def _plain(value: Any, numbers: dict[int, int]) -> Any:
    """Tuples as lists; anything that JSON has no word for as an object of one key, its kind."""
    if isinstance(value, Source):
        return {"source": numbers[id(value)]}
    if isinstance(value, date):
        return {"day": value.isoformat()}
    if isinstance(value, tuple):
        return [_plain(each, numbers) for each in value]
    if is_dataclass(value):
        name = type(value).__name__
        own = [_plain(getattr(value, field.name), numbers) for field in fields(value) if field.init]
        return {name: own} if _KINDS[name] is type(value) else None
    if type(value) not in _CELLS:
        raise TypeError(f"{type(value).__name__} is not kept")
    return value


def from_json(text: str, sources: Sequence[Source], met_sources: Sequence[Source]) -> Reading:
    """The reading that `to_json` wrote, with the same sources in the same order.

    Its rows are columns until they are asked for.
    """
    every = (*sources, *met_sources)
    kept = json.loads(text, object_hook=_maker(every))
    events, weather, prose = (_rows(kind, kept[name], every) for name, kind in _ROWS.items())
    return Reading(
        sources=tuple(sources),
        sheet=kept["sheet"],
        events=events,
        weather=weather,
        prose=prose,
        problems=tuple(kept["problems"]),
        met_sources=tuple(met_sources),
        same_from=date.fromisoformat(kept["same_from"]),
        same_until=date.fromisoformat(kept["same_until"]),
    )


def _rows(kind: type[Any], kept: dict[str, Any], sources: Sequence[Source]) -> Rows[Any]:
    columns = {name: _unpacked(kept["rows"], *own) for name, own in kept["columns"].items()}
    return Rows(kind, sources, columns=columns)


def _unpacked(rows: int, what: str, values: list[Any], packed: str) -> Coded:
    if what == "days":
        values = [value and date.fromisoformat(value) for value in values]
    return Coded.unpacked(rows, values, packed)


def _maker(sources: Sequence[Source]) -> Callable[[dict[str, Any]], Any]:
    def made(tagged: dict[str, Any]) -> Any:
        if len(tagged) != 1:
            return tagged
        ((name, own),) = tagged.items()
        if name == "source":
            return sources[own]
        if name == "day":
            return date.fromisoformat(own)
        return _KINDS[name](*map(_tupled, own))

    return made


def _tupled(value: Any) -> Any:
    return tuple(map(_tupled, value)) if isinstance(value, list) else value
