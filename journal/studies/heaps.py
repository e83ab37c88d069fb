"""The compost bays: what each holds, how old it is, what it is made of, when it may be ready."""

from collections.abc import Sequence
from datetime import date, timedelta
from statistics import median
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.model import Event
from journal.reference.load import load
from journal.reference.stuff import is_raw_manure
from journal.studies.bays import Bay, BayBooks, Heap
from journal.studies.compost_mix import mix
from journal.studies.notes import Note, counted
from journal.studies.once import once_a_diary
from journal.studies.products import cover_litres
from journal.tables.schema import TABLES, make_frame

COVER_M = 0.05

NO_BEFORE = (
    "how much was in it to begin with is not told, so it holds at least that, and some may be older"
)
OLD_STUFF = "it holds stuff from before the diary tells"
TOO_FULL = "more than the bay holds, so it has settled since"
NO_SIZE = "the bay has no size on the sheet"
NO_PAST = "no heap of this diary was used yet, so nothing says when it may be ready"
UNMEASURED = "not all that went in or out was measured"
HYGIENE = (
    "manure: 7 CFR 205.203(c)(2) asks for 55 C on 3 days in a vessel, or on 15 days and 5 turns "
    "of a windrow; here {days} and {turns} are noted"
)


@once_a_diary
def bay_books(diary: Diary) -> BayBooks:
    """The books of the diary's bays as of its today."""
    books = BayBooks(diary.sheet)
    books.book(diary.reading.events, diary.today)
    return books


@once_a_diary
def heaps(diary: Diary) -> pd.DataFrame:
    """Each compost bay as it stands, one row a bay: the columns of the table `heaps`.

    - `size_l`: length x width x height of the sheet (2 x 1 x 1.5 m hold 3 m3, common practice,
      no published source), or its volume.
    - `held_l_low` to `held_l_high`: what `level` last said (a depth by the bay's area), plus what
      was filled or moved in, less what was moved out or taken, since. A heap settles unseen, so
      this is a book figure until the diary says again; `held_l_high` is empty until the first
      `level` or `empty`, for what was there before is not told, and after a filling of no written
      amount. `covers_m2` = litres / (0.05 m
      x 1000).
    - `oldest`, `newest`: days of the stuff that is left, taken to go out oldest first (assumed);
      settling shrinks all of it alike. `oldest` is empty where some is older than the diary.
    - The heap in the making begins with the first `fill` after the bay last gave compost of its
      own (`move` of compost, a dressing `from` it, `empty`, `sieve`; compost moved in from another
      bay goes out first); moved whole to another bay it goes on there. `turns`, `hot_days` (days
      with 55 C or more read) and the mix are its own.
    - `c_to_n`, `moisture_pct`: Cornell's sums on dry and wet mass (`studies.compost_mix`) of all
      fillings as they went in, over every published analysis; empty where one has none.
    - `ready` = `started` + the median days of past heaps of this bay, else of all bays;
      `ready_low`, `ready_high` by the shortest and longest. The diary's own, no published source.

    Litres, m2, C. `why` says what is empty or only a book figure.
    """
    books = bay_books(diary)
    past = [heap for bay in books.bays.values() for heap in bay.past]
    rows = [_bay_row(bay, past, diary) for _, bay in sorted(books.bays.items())]
    names = TABLES["heaps"].column_names
    return make_frame("heaps", {name: [row[name] for row in rows] for name in names})


def _bay_row(bay: Bay, past: list[Heap], diary: Diary) -> dict[str, Any]:
    declared = diary.sheet.place_on(bay.place, diary.today)
    size = declared.volume_l if declared is not None else None
    heap = bay.heap
    made = _made_of(heap)
    row = {
        "place": bay.place,
        "size_l": size,
        "held_l_low": bay.low,
        "held_l_high": bay.high,
        "measured": bay.measured.date_end if bay.measured else None,
        "full_pct": 100 * bay.low / size if size else None,
        "covers_m2": bay.low / cover_litres(1, COVER_M),
        **_ages(bay, diary.today),
        "started": heap.started.date if heap else None,
        "started_end": heap.started.date_end if heap else None,
        **made,
        "probed": bay.probed.date_end if bay.probed else None,
        "temperature_c": bay.probed.temperature_c if bay.probed else None,
        **_ready(heap, past),
        "events": ", ".join(str(event) for event in heap.events) if heap else "",
    }
    return row | {"why": _reasons(bay, row, made["why"])}


def _reasons(bay: Bay, row: dict[str, Any], of_heap: str) -> str:
    said = [
        "" if bay.told else NO_BEFORE,
        UNMEASURED if bay.unmeasured else "",
        OLD_STUFF if row["oldest"] is None and bay.layers else "",
        NO_SIZE if row["size_l"] is None else "",
        TOO_FULL if row["size_l"] and bay.low > row["size_l"] else "",
        NO_PAST if bay.heap is not None and not row["heaps_before"] else "",
        of_heap,
    ]
    return "; ".join(filter(None, said))


def _ages(bay: Bay, today: date) -> dict[str, Any]:
    firsts = [layer.first for layer in bay.layers]
    lasts = [layer.last for layer in bay.layers if layer.last is not None]
    known = [first for first in firsts if first is not None]
    oldest = min(known) if known and len(known) == len(firsts) else None
    newest = max(lasts, default=None)
    return {
        "oldest": oldest,
        "oldest_days": None if oldest is None else (today - oldest).days,
        "newest": newest,
        "newest_days": None if newest is None else max(0, (today - newest).days),
    }


def _made_of(heap: Heap | None) -> dict[str, Any]:
    """Materials, mix, turns and heat of a heap, and why its mix has no figure."""
    if heap is None:
        blank = dict.fromkeys(["manure", *_MIX, "hottest_c"])
        return {"materials": "", "turns": 0, "hot_days": 0, "why": "", **blank}
    found = mix(heap.fillings)
    figures = [*(found.c_to_n or (None, None)), *(found.moisture_pct or (None, None))]
    manure = any(is_raw_manure(name, load()) for name in heap.materials)
    said = [found.lack and f"no C:N: {found.lack}", _hygiene(heap) if manure else ""]
    return {
        "materials": ", ".join(heap.materials),
        "manure": manure,
        "turns": heap.turns,
        **dict(zip(_MIX, figures, strict=True)),
        "hot_days": heap.hot_days,
        "hottest_c": max(heap.heats.values(), default=None),
        "why": "; ".join(filter(None, said)),
    }


_MIX = ("c_to_n_low", "c_to_n_high", "moisture_pct_low", "moisture_pct_high")


def _hygiene(heap: Heap) -> str:
    return HYGIENE.format(days=counted(heap.hot_days, "day"), turns=counted(heap.turns, "turn"))


def _ready(heap: Heap | None, past: Sequence[Heap]) -> dict[str, Any]:
    """The likely days by the past heaps of the same bay, else of all bays."""
    own = [each for each in past if heap is not None and each.place == heap.place] or past
    spans = [span for each in own if (span := _span(each)) is not None]
    if heap is None or not spans or heap.started.date is None or heap.started.date_end is None:
        nothing = dict.fromkeys(["ready_low", "ready", "ready_high"])
        return {**nothing, "heaps_before": len(spans) if heap is not None else 0}
    usual = median((low + high) / 2 for low, high in spans)
    return {
        "ready_low": heap.started.date + timedelta(days=min(low for low, _ in spans)),
        "ready": heap.started.date + timedelta(days=round(usual)),
        "ready_high": heap.started.date_end + timedelta(days=max(high for _, high in spans)),
        "heaps_before": len(spans),
    }


def _span(heap: Heap) -> tuple[int, int] | None:
    """Fewest and most days from the first filling to when it was taken out."""
    if heap.ended is None:
        return None
    start, end = _days(heap.started), _days(heap.ended)
    if start is None or end is None:
        return None
    return max(0, (end[0] - start[1]).days), (end[1] - start[0]).days


def _days(event: Event) -> tuple[date, date] | None:
    if event.date is None or event.date_end is None:
        return None
    return event.date, event.date_end


@once_a_diary
def heaps_past(diary: Diary) -> pd.DataFrame:
    """Every heap that was used, from its first filling to when it was taken out as compost.

    The table `heaps past`, one row a heap: what `heaps` says of the one in the making, and
    `days_low` to `days_high` between first filling and taking. The diary's own, no published
    source. `why` says what has no figure, and for manure what the record of heat amounts to.
    """
    bays = bay_books(diary).bays.values()
    rows = [_past_row(heap) for bay in bays for heap in bay.past]
    rows.sort(key=lambda row: (row["taken"], row["place"]))
    names = TABLES["heaps past"].column_names
    return make_frame("heaps past", {name: [row[name] for row in rows] for name in names})


def _past_row(heap: Heap) -> dict[str, Any]:
    span = _span(heap) or (None, None)
    assert heap.ended is not None
    return {
        "place": heap.place,
        "started": heap.started.date,
        "started_end": heap.started.date_end,
        "taken": heap.ended.date,
        "taken_end": heap.ended.date_end,
        "days_low": span[0],
        "days_high": span[1],
        **_made_of(heap),
        "events": ", ".join(str(event) for event in [*heap.events, heap.ended.event]),
    }


@once_a_diary
def heaps_log(diary: Diary) -> pd.DataFrame:
    """Everything that was done to each bay, and what it held after: the table `heaps log`.

    Litres by the same books as `heaps`; an empty `change_l` was not measured. Rows stand in the
    order of their days.
    """
    changes = bay_books(diary).changes
    columns: dict[str, list[Any]] = {
        "place": [change.place for change in changes],
        "date": [change.event.date for change in changes],
        "date_end": [change.event.date_end for change in changes],
        "what": [change.what for change in changes],
        "material": [change.material for change in changes],
        "change_l": [change.litres for change in changes],
        "held_l_low": [change.held_low for change in changes],
        "held_l_high": [change.held_high for change in changes],
        "temperature_c": [change.temperature_c for change in changes],
        "event": [change.event.event for change in changes],
    }
    return make_frame("heaps log", columns)


def heaps_notes(diary: Diary) -> list[Note]:
    """What of the bays has no figure, each with the reason."""
    rows = heaps(diary)
    return [
        Note("heaps", "amount", row["place"], reason)
        for row in rows.to_dict("records")
        for reason in row["why"].split("; ")
        if reason and not reason.startswith("manure:")
    ]
