"""Open plans and due days as a calendar file (RFC 5545) for a phone or a desk.

Each is a day or days of its own; a plan's event keeps its identity from one writing to the next,
so that a calendar that reads the file again does not show it twice.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from hashlib import sha256
from typing import Any

import pandas as pd
from icalendar import Calendar, Event

from journal import __version__
from journal.charts.words import crop_name
from journal.diary import Diary
from journal.report.now import named, plan_words
from journal.studies.ahead import ahead
from journal.studies.intentions import intentions
from journal.studies.standing import outlook

# so far ahead what is usually done goes into the calendar
WEEKS_AHEAD = 8
_STAGES = {"up": "Coming up", "planted": "Plant out", "picking": "First picking"}


@dataclass(frozen=True, slots=True)
class Entry:
    """One event of the calendar: its words, its first and last day, and what makes it itself."""

    summary: str
    first: date
    last: date
    kind: str
    description: str
    identity: str


def due_calendar(diary: Diary) -> bytes:
    """Open and overdue plans, the next stages of what stands, and what is usually done by now."""
    calendar = Calendar()
    calendar.add("prodid", f"-//haulm//{__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", diary.plot.name or "haulm")
    stamp = datetime.combine(diary.today, time(), UTC)
    seen: Counter[str] = Counter()
    for entry in (*_plans(diary), *_next_stages(diary), *_usual(diary)):
        seen[entry.identity] += 1
        calendar.add_component(_event(entry, stamp, seen[entry.identity]))
    written: bytes = calendar.to_ical()
    return written


def _event(entry: Entry, stamp: datetime, times: int) -> Event:
    event = Event()
    name = sha256(f"{entry.identity} {times}".encode()).hexdigest()[:32]
    event.add("uid", f"{name}@haulm")
    event.add("dtstamp", stamp)
    event.add("dtstart", entry.first)
    # the end of a calendar's day is the beginning of the next
    event.add("dtend", entry.last + timedelta(days=1))
    event.add("summary", entry.summary)
    event.add("description", entry.description)
    event.add("categories", [entry.kind])
    event.add("transp", "TRANSPARENT")
    return event


def _plans(diary: Diary) -> Iterator[Entry]:
    frame = intentions(diary)
    mine = frame["state"].isin(["open", "overdue"]) & frame["due"].notna()
    for row in frame[mine].to_dict("records"):
        words = plan_words(named(row))
        late = " (overdue)" if row["state"] == "overdue" else ""
        yield Entry(
            words[:1].upper() + words[1:] + late,
            row["due"].date(),
            row["due_end"].date(),
            "Plan",
            f"{diary.line(row['file'], row['line']).strip()}\n{row['file']}:{row['line']}",
            f"plan {words} {row['due'].date()} {row['due_end'].date()}",
        )


def _next_stages(diary: Diary) -> Iterator[Entry]:
    frame = outlook(diary)
    ahead_of = (frame["due_high"] >= pd.Timestamp(diary.today)) & frame["due_low"].notna()
    mine = ahead_of & frame["next"].isin(list(_STAGES)) & ~frame["may_be_left"]
    for row in frame[mine.fillna(False)].to_dict("records"):
        words = crop_name(row["crop"], row["cultivar"], row["place"])
        summary = f"{_STAGES[row['next']]}: {words}"
        yield _window(summary, row, "Due", f"{summary} {row['label']} {row['started']}")


def _usual(diary: Diary) -> Iterator[Entry]:
    """What is usually sown and planted in the coming weeks."""
    frame = ahead(diary)
    today = pd.Timestamp(diary.today)
    soon = (frame["due_high"] >= today) & (frame["due_low"] <= today + timedelta(weeks=WEEKS_AHEAD))
    mine = soon & (frame["cultivar"] == "") & frame["what"].isin(["sowing", "planting"])
    for row in frame[mine.fillna(False)].to_dict("records"):
        verb = {"sowing": "Sow", "planting": "Plant"}[row["what"]]
        yield _window(
            f"Usual time: {verb.lower()} {row['crop']}",
            row,
            "Usual",
            f"usual {verb} {row['crop']} {row['season']} {row['due_low']:%Y}",
        )


def _window(summary: str, row: dict[Any, Any], kind: str, identity: str) -> Entry:
    first, last = row["due_low"].date(), row["due_high"].date()
    return Entry(summary, first, last, kind, row["source"], identity)
