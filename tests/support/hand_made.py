"""Diaries made from values, for studies that are tested without any text."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from journal.diary import Diary
from journal.events.model import Event, PlaceDeclared, Sheet
from journal.reading import Reading
from journal.source import Source

TODAY = date(2026, 3, 1)


def day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def happened(
    kind: str, verb: str, when: str | None, until: str | None = None, **columns: Any
) -> dict[str, Any]:
    """An event of one entry; `until` is its last possible day when that is not `when`."""
    return {"kind": kind, "verb": verb, "date": day(when), "date_end": day(until or when)} | columns


def picked(
    crop: str, when: str | None, kg: float | None = None, until: str | None = None, **columns: Any
) -> dict[str, Any]:
    return happened("harvest", "pick", when, until, crop=crop, mass_kg=kg, **columns)


def bed(name: str, area_m2: float | None, since: str | None = None) -> PlaceDeclared:
    return PlaceDeclared(day(since), "bed", name, area_m2=area_m2)


def diary(
    events: Sequence[dict[str, Any]],
    places: Sequence[PlaceDeclared] = (),
    today: date = TODAY,
    **sheet: Any,
) -> Diary:
    """A diary that holds these events; each is an entry of its own unless it names another."""
    page = Source("page.md", "")
    rows = tuple(
        Event(event=at, source=page, **({"entry": at} | columns))
        for at, columns in enumerate(events, 1)
    )
    return Diary(Reading((), Sheet(places=tuple(places), **sheet), rows, (), (), ()), today)
