"""What stands in the ground and under cover today, how long, and whether its time has come."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.studies.ledger.batches import Batch, Part
from journal.studies.ledger.books import Books
from journal.studies.ledger.habits import is_perennial
from journal.studies.ledger.joining import SEEDLINGS, YOUNG
from journal.studies.once import once_a_diary
from journal.studies.perennials import picking_windows
from journal.studies.plants import (
    alive_columns,
    books_of,
    certain,
    events_located,
    reached,
    typed,
)
from journal.studies.usual import (
    ENOUGH,
    Usual,
    batch_season,
    is_south,
    lasted,
    own_time,
    usual_time,
)
from journal.tables.schema import TABLES, make_frame

UNDER_COVER = frozenset({"house", "frame"})


@once_a_diary
def standing(diary: Diary) -> pd.DataFrame:
    """Every batch that stands today, one row a stage and place: the columns of `standing`.

    `since` is the day it reached the stage, `days` those since then, `due` the day its next stage
    is due: the start of the batch plus the usual days to coming up, planting out or first picking
    (`outlook` says which, and whose days they are). `state`:

    - `growing`: its next stage is not due, or nothing tells when it is;
    - `ready`: it is being picked, or today is within the usual days to the first picking;
    - `past its time`: past the most days to its next stage or to its last picking;
    - `forgotten`: planted or sown in its place, never picked nor cleared, and past the most days
      to its first picking.

    Usual days are those of the diary's own batches of the crop, of the same cultivar where two of
    it are known; with fewer than two the published ones; else of the only one. What may be left
    of plants that were moved on, without a line that says so, stands in `outlook` alone. Plain
    differences of days, no published source but those that `outlook` names.
    """
    frame = outlook(diary)
    shown = frame[~frame["may_be_left"]]
    return make_frame("standing", {name: shown[name] for name in TABLES["standing"].column_names})


@once_a_diary
def outlook(diary: Diary) -> pd.DataFrame:
    """The rows of `standing` with what they rest on, and what may be left besides.

    `next` is the stage that is due between `due_low` and `due_high`, by `source`; `raised` is
    true for what waits to be planted out, `under_cover` for what a house or frame covers,
    `tended` is when it was last sown, moved, potted or fed, `tended_days` ago; `last_picked` is
    the certain day of the last picking. `event`, `file` and `line` are those of the batch's
    beginning.
    """
    view = _View(diary)
    rows = [view.row(part) for batch in books_of(diary).batches for part in batch.parts]
    frame = typed(pd.DataFrame(rows, columns=_COLUMNS), _WORDS, _DAYS, _FLAGS)
    located = events_located(diary)[["event", "file", "line"]]
    return frame.merge(located, on="event", how="left")


_WORDS = ("crop", "cultivar", "label", "place", "stage", "state", "next", "source")
_DAYS = ("since", "due", "due_low", "due_high", "tended", "started", "last_picked")
_FLAGS = ("raised", "under_cover", "may_be_left", "own")
_COLUMNS = [
    "batch",
    *TABLES["standing"].column_names,
    "next",
    "due_low",
    "due_high",
    "source",
    "own",
    "started",
    "raised",
    "under_cover",
    "tended",
    "tended_days",
    "last_picked",
    "may_be_left",
    "event",
]


@dataclass(frozen=True, slots=True)
class _Due:
    """What is due next, and from when until when."""

    stage: str = ""
    day: date | None = None
    low: date | None = None
    high: date | None = None
    source: str = ""
    own: bool = False


class _View:
    """A diary's standing parts seen from its today."""

    def __init__(self, diary: Diary):
        self.today = diary.today
        self.sheet = diary.sheet
        self.south = is_south(diary)
        self.lasted = lasted(diary)
        self.windows = picking_windows(diary)

    def row(self, part: Part) -> dict[str, Any]:
        batch = part.batch
        due = self.due(part)
        since, tended = certain(part.stay.since), certain(part.tended)
        return {
            "batch": batch.number,
            "crop": batch.crop,
            "cultivar": batch.cultivar,
            "label": batch.label,
            "place": ", ".join(sorted(part.ground)) or part.place,
            "stage": part.stage,
            **alive_columns(part.alive),
            "since": since,
            "days": None if since is None else (self.today - since).days,
            "due": due.day,
            "state": self.state(part, due),
            "next": due.stage,
            "due_low": due.low,
            "due_high": due.high,
            "source": due.source,
            "own": due.own,
            "started": certain(batch.started),
            "raised": self.is_raised(part),
            "under_cover": self.kind(part) in UNDER_COVER,
            "tended": tended,
            "tended_days": None if tended is None else (self.today - tended).days,
            "last_picked": certain(batch.last_harvest),
            "may_be_left": part.remnant and part.alive.low == 0,
            "event": batch.event,
        }

    def kind(self, part: Part) -> str:
        """What the sheet declares the part's place to be; "" where it does not."""
        for name in sorted(part.ground) or [part.place]:
            held = self.sheet.place_on(name, self.today)
            if held is not None:
                return held.kind
        return ""

    def is_raised(self, part: Part) -> bool:
        """Whether the part waits to be planted out."""
        if part.stage == "planted":
            return part.vessel != ""
        if part.stage not in SEEDLINGS:
            return part.stage in YOUNG
        return part.vessel != "" or self.kind(part) == "frame"

    # ------------------------------------------------------------ what is due

    def due(self, part: Part) -> _Due:
        """The next stage of a part, and when."""
        batch = part.batch
        if is_perennial(batch.crop):
            return self._window(batch)
        season = batch_season(batch, self.south)
        if part.stage == "cropping":
            return self._last_picking(batch, season)
        if self.is_raised(part):
            return self._raising(part, season)
        showing = self._own(batch, season, "sown", "up") if part.unseen else None
        found = _from(batch, showing, "up")
        if found.high is not None and self.today <= found.high:
            return found
        return self._picking(part, season)

    def _own(self, batch: Batch, season: str, start: str, stage: str) -> Usual | None:
        return own_time(self.lasted, batch, season, start, stage)

    def _raising(self, part: Part, season: str) -> _Due:
        if part.stage == "planted":
            return _Due("planted")
        stage = "up" if part.unseen else "planted"
        return _from(part.batch, self._own(part.batch, season, "sown", stage), stage)

    def _picking(self, part: Part, season: str) -> _Due:
        batch = part.batch
        raised = batch.how == "sow" and part.stage == "planted"
        start = "planted" if raised or batch.how != "sow" else "sown"
        return _from(batch, usual_time(self.lasted, batch, season, start, raised), "picking")

    def _last_picking(self, batch: Batch, season: str) -> _Due:
        start = "sown" if batch.how == "sow" else "planted"
        usual = self._own(batch, season, start, "last picking")
        enough = usual is not None and not usual.source.endswith("1 batch")
        return _from(batch, usual if enough else None, "last picking")

    def _window(self, batch: Batch) -> _Due:
        window = self.windows.get((batch.crop, batch.cultivar)) or self.windows.get(
            (batch.crop, "")
        )
        if window is None or window.years < ENOUGH:
            return _Due()
        first, last = window.around(self.today)
        source = f"{window.years} years of this diary"
        return _Due("picking", first, first, last, source, True)

    # ------------------------------------------------------------ its state

    def state(self, part: Part, due: _Due) -> str:
        """Growing, ready, past its time or forgotten."""
        late = due.high is not None and self.today > due.high
        if is_perennial(part.batch.crop):
            open_now = due.low is not None and due.low <= self.today and not late
            return "ready" if open_now else "growing"
        if part.stage == "cropping":
            return "past its time" if late else "ready"
        if due.stage == "picking" and part.batch.first_harvest is None and late:
            return "forgotten"
        if late:
            return "past its time"
        due_now = due.low is not None and self.today >= due.low
        return "ready" if due_now and due.stage == "picking" else "growing"


def _from(batch: Batch, usual: Usual | None, stage: str) -> _Due:
    """The days on which a stage is due, counted from the first and last day of a start."""
    if usual is None:
        return _Due(stage)
    start = batch.started if usual.start == "sown" else reached(batch, "planted")
    if start is None:
        return _Due(stage)
    middle = usual.middle if certain(start) is not None else None
    return _Due(
        stage,
        day=None if middle is None else _after(start.first, middle),
        low=None if usual.low is None else _after(start.first, usual.low),
        high=_after(start.last, usual.high),
        source=usual.source,
        own=usual.own,
    )


def _after(day: date, days: float) -> date:
    return day + timedelta(days=round(days))


# ---------------------------------------------------------------- what the keeper asks of it


def waiting(diary: Diary, days: int = 0) -> pd.DataFrame:
    """Young plants under cover that nobody potted, fed or moved for so many days, longest first."""
    frame = outlook(diary)
    young = frame["raised"] & (frame["under_cover"] | frame["place"].eq("")) & ~frame["may_be_left"]
    long = (frame["tended_days"] >= days).fillna(False)
    shown = frame[young & frame["stage"].ne("sown") & long.astype(bool)]
    return shown.sort_values(["tended_days", "crop"], ascending=[False, True], ignore_index=True)


def empty_beds(diary: Diary) -> pd.DataFrame:
    """Beds of the sheet in which nothing stands: `place`, and `since` when, as far as it is known.

    A bed from which something was picked within the year that the ledger cannot place is not
    known to be empty, and left out.
    """
    books, day = books_of(diary), diary.today
    taken = {name for batch in books.batches for part in batch.parts for name in part.ground}
    year = timedelta(days=365)
    for left in books.unplaced:
        if left.kind == "harvest" and left.day is not None and day - left.day <= year:
            taken |= books.grounds.of(left.place, left.day)
    beds = [bed for bed in beds_today(diary) if bed not in taken]
    rows = [{"place": bed, "since": _emptied(books, bed)} for bed in beds]
    return typed(pd.DataFrame(rows, columns=["place", "since"]), ("place",), ("since",))


def beds_today(diary: Diary) -> list[str]:
    """The beds that the sheet has today, in its order; what was split or renamed is none."""
    names = dict.fromkeys(place.name for place in diary.sheet.places)
    held = [(name, diary.sheet.place_on(name, diary.today)) for name in names]
    return [name for name, place in held if place and place.kind == "bed" and not place.ended]


def _emptied(books: Books, bed: str) -> date | None:
    """The day on which the last batch in a bed ended; None where it is not certain."""
    ends = [
        stay.since
        for batch in books.batches
        for stay in batch.stays
        if stay.stage == "ended" and bed in books.grounds.of(stay.place, stay.since.last)
    ]
    return certain(max(ends, key=lambda days: days.last)) if ends else None
