"""What only shows across entries: the first sight of a name told once, and places given up."""

from collections.abc import Iterable

from journal.events.model import Event, Sheet
from journal.problems.model import Problem, Related, make

_FIRST_SIGHTS = frozenset({"J302", "J303"})


def check(events: Iterable[Event], sheet: Sheet, problems: list[Problem]) -> list[Problem]:
    """The problems of all entries, with each undeclared name told at its first sight only."""
    return _once(problems) + _after_the_end(events, sheet)


def _once(problems: list[Problem]) -> list[Problem]:
    kept: list[Problem] = []
    told: set[tuple[str, str]] = set()
    ordered = sorted(problems, key=lambda problem: problem.key)
    for problem in ordered:
        if problem.code in _FIRST_SIGHTS:
            sight = (problem.code, problem.message.lower())
            if sight in told:
                continue
            told.add(sight)
        kept.append(problem)
    return kept


def _after_the_end(events: Iterable[Event], sheet: Sheet) -> list[Problem]:
    """A place that was split, renamed or given up and is still used by its old name."""
    ended = {place.name: place for place in sheet.places if place.ended and place.date}
    if not ended:
        return []
    made: list[Problem] = []
    told: set[str] = set()
    for event in events:
        for name in (event.place, event.place_from):
            place = ended.get(name)
            if (
                place is None
                or name in told
                or event.date is None
                or event.kind in {"intention", "sheet"}
            ):
                continue
            held = sheet.place_on(name, event.date)
            if held is None or not held.ended:
                continue
            told.add(name)
            new = " or ".join(f"`{part}`" for part in held.became)
            related = (Related(place.source, place.span, "given up here"),)
            mend = f"write {new}" if new else None
            made.append(
                make("J501", event.source, event.span, mend=mend, related=related, word=name)
            )
    return made
