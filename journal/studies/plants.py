"""The plant ledger as frames: every batch from sowing or planting to its end."""

from collections.abc import Iterable
from datetime import date
from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.events.dates import Days
from journal.studies.ledger.batches import Batch, Number, Part, Stay, Totals
from journal.studies.ledger.books import Books
from journal.studies.ledger.grounds import Grounds
from journal.studies.ledger.keep import keep, until
from journal.studies.ledger.kept import put_books, take_books
from journal.studies.notes import Note, crop_words
from journal.studies.once import once_a_diary
from journal.studies.seasons import certain_year
from journal.tables.schema import TABLES, make_frame

COUNTS = ("sown", "up", "pricked_out", "potted_on", "planted")
FATES = ("not_up", "discarded", "lost", "harvested", "cleared")


@once_a_diary
def books_of(diary: Diary) -> Books:
    """The ledger of a diary as of its today: as it was kept, or kept anew."""
    aside = diary.reading.aside
    if aside is None:
        return books_on(diary, diary.today)
    books = take_books(aside, Grounds(diary.sheet))
    if books is None:
        books = books_on(diary, diary.today)
        put_books(aside, books)
    return books


def books_on(diary: Diary, day: date) -> Books:
    """The ledger as it stood on any day: of the events up to and with it."""
    day = min(day, diary.today)
    return keep(until(diary.reading.events, day), Grounds(diary.sheet), day)


@once_a_diary
def plants(diary: Diary) -> pd.DataFrame:
    """The plant ledger, one row a batch and stage reached: the columns of the table `plants`.

    A batch is one sowing or planting; where some of it were moved on and others left behind, it
    has a row for each stage and place. The counts of a row are those of the whole batch as they
    stood when the row's stage was left (today, for one that stands): sown = alive + not_up +
    discarded + lost + harvested + cleared + unknown, where `alive` is summed over the batch's
    places and is `alive_low` where the diary leaves a range; a batch that was not sown by number
    begins with the first count of its plants instead.

    - `up`, `pricked_out`, `potted_on`, `planted`: how many reached that stage, as counted;
      `not_up` = seeds less seedlings, `discarded` = seedlings left at pricking out.
    - `lost` = what `lose` counts and the shortfall at `count`; `harvested` = plants taken whole,
      by number; `cleared` = those alive when their bed was cleared.
    - `unknown` = what no line accounts for, so that the sum holds.
    - `alive` is the plants of the row's stage and place; blank where `alive_low` to `alive_high`
      is a range, and `alive_high` blank where nothing bounds it. Seeds count as alive until a
      line says how many came up.
    - `date`, `started`, `days_in_stage`: blank where the diary leaves a choice of days.
    - `ended`: `cleared`, `harvested`, `lost`, `failed`, or `assumed` for an annual 180 days after
      its last picking, or two years after its sowing; blank while any of the batch stands.

    Events join the oldest living batch of their crop, cultivar, label and place; a blank matches
    any. Counting plants in and out needs no source; the 180 days are common practice, no
    published source.
    """
    books = books_of(diary)
    rows = [row for batch in books.batches for row in _rows(batch, diary.today)]
    names = TABLES["plants"].column_names
    return make_frame("plants", {name: [row[name] for row in rows] for name in names})


def _rows(batch: Batch, today: date) -> Iterable[dict[str, Any]]:
    open_parts = {id(part.stay): part for part in batch.parts}
    for stay in sorted(batch.stays, key=lambda stay: stay.since.first):
        yield _named(batch) | _row(batch, stay, open_parts.get(id(stay)), today)


def _named(batch: Batch) -> dict[str, Any]:
    return {
        "batch": batch.number,
        "crop": batch.crop,
        "cultivar": batch.cultivar,
        "label": batch.label,
        "started": certain(batch.started),
        "how_started": batch.how,
        "ended": batch.ended,
    }


def _row(batch: Batch, stay: Stay, part: Part | None, today: date) -> dict[str, Any]:
    if part is not None:
        alive, totals, unknown = part.alive, batch.totals, batch.unknown
    else:
        alive, unknown = stay.alive or Number(0.0, 0.0), stay.unknown
        totals = stay.totals or batch.totals
    left = Days(today, today) if part is not None else stay.until
    return {
        "place": stay.place,
        "stage": stay.stage,
        "date": certain(stay.since),
        "days_in_stage": None if stay.stage == "ended" else days_between(stay.since, left),
        "unknown": unknown,
        **alive_columns(alive),
        **_told(totals),
    }


def alive_columns(alive: Number) -> dict[str, float | None]:
    """How many are alive, as the three columns that tables give it."""
    return {"alive": alive.exact, "alive_low": alive.low, "alive_high": alive.high}


def _told(totals: Totals) -> dict[str, float | None]:
    return {name: getattr(totals, name) for name in (*COUNTS, *FATES)}


def certain(days: Days | None) -> date | None:
    """The day where the diary leaves no choice of days."""
    return days.first if days is not None and days.first == days.last else None


def days_between(since: Days | None, until: Days | None) -> int | None:
    """Whole days from one day to another; None where either is not certain."""
    first, last = certain(since), certain(until)
    return (last - first).days if first is not None and last is not None else None


# ---------------------------------------------------------------- frames beside the table


@once_a_diary
def batches(diary: Diary) -> pd.DataFrame:
    """One row a batch: its counts and days, the per cent up and planted, and where it was written.

    `pct_up` = 100 up / sown and `pct_planted` = 100 planted / sown, blank where either was not
    counted. `up_on`, `planted_on`, `first_picking`, `last_picking` and `ended_on` are blank where
    the diary leaves a choice of days; the `days_to_` figures count from the start. `event`, `file`
    and `line` are those of the sowing or planting.
    """
    located = events_located(diary)
    rows = [_batch_row(batch) for batch in books_of(diary).batches]
    frame = pd.DataFrame(rows, columns=_BATCH_COLUMNS)
    whole = typed(frame, _BATCH_WORDS, _BATCH_DAYS).merge(located, on="event", how="left")
    return make_frame("plants batches", whole)


_BATCH_WORDS = ("crop", "cultivar", "label", "how_started", "ended")
_BATCH_DAYS = ("started", "up_on", "planted_on", "first_picking", "last_picking", "ended_on")
_BATCH_COLUMNS = [
    "batch",
    "crop",
    "cultivar",
    "label",
    "how_started",
    *_BATCH_DAYS,
    *COUNTS,
    *FATES,
    "unknown",
    "alive",
    "alive_low",
    "alive_high",
    "pct_up",
    "pct_planted",
    "days_to_up",
    "days_to_planted",
    "days_to_picking",
    "ended",
    "event",
]


def _batch_row(batch: Batch) -> dict[str, Any]:
    up, planted = reached(batch, "up"), reached(batch, "planted")
    totals = batch.totals
    return {
        **_named(batch),
        "up_on": certain(up),
        "planted_on": certain(planted),
        "first_picking": certain(batch.first_harvest),
        "last_picking": certain(batch.last_harvest),
        "ended_on": certain(batch.ended_on) if batch.ended else None,
        **_told(totals),
        "unknown": batch.unknown,
        **alive_columns(batch.alive),
        "pct_up": per_cent(totals.up, totals.sown),
        "pct_planted": per_cent(totals.planted, totals.sown),
        "days_to_up": days_between(batch.started, up),
        "days_to_planted": days_between(batch.started, planted),
        "days_to_picking": days_between(batch.started, batch.first_harvest),
        "event": batch.event,
    }


def reached(batch: Batch, stage: str) -> Days | None:
    """The first time that any of the batch reached a stage."""
    found = [stay.since for stay in batch.stays if stay.stage == stage]
    return min(found, key=lambda days: days.first) if found else None


def per_cent(part: float | None, whole: float | None) -> float | None:
    """100 part / whole; None where either is not known or the whole is nothing."""
    return 100 * part / whole if part is not None and whole else None


@once_a_diary
def plant_events(diary: Diary) -> pd.DataFrame:
    """One row an event that a batch took in: what it did to how many of which batch, and why.

    `count` is blank where the diary counts none; `reason` is that of a loss. The evidence behind
    every figure of the ledger.
    """
    rows = [
        {
            "batch": joined.batch,
            "event": joined.event,
            "what": joined.what,
            "stage": joined.stage,
            "place": joined.place,
            "count": joined.count.exact if joined.count is not None else None,
            "low": joined.count.low if joined.count is not None else None,
            "high": joined.count.high if joined.count is not None else None,
            "reason": joined.reason,
        }
        for joined in books_of(diary).joined
    ]
    names = ["batch", "event", "what", "stage", "place", "count", "low", "high", "reason"]
    frame = typed(pd.DataFrame(rows, columns=names), ("what", "stage", "place", "reason"))
    named = batches(diary)[["batch", "crop", "cultivar", "label"]]
    whole = frame.merge(named, on="batch").merge(events_located(diary), on="event")
    return make_frame("plants events", whole)


def losses(diary: Diary) -> pd.DataFrame:
    """The events that lost plants, by reason, stage and place: rows of `plant_events`."""
    frame = plant_events(diary)
    return frame[frame["what"].isin(["lost", "failed"])].reset_index(drop=True)


@once_a_diary
def unplaced(diary: Diary) -> pd.DataFrame:
    """Events, or so many of their plants, that no batch could take in, and why.

    `other_file` and `other_line` are the line that an event contradicts, where there is one.
    """
    rows = [
        {
            "event": left.event,
            "crop": left.crop,
            "cultivar": left.cultivar,
            "label": left.label,
            "place": left.place,
            "verb": left.verb,
            "count": left.count,
            "reason": left.reason,
            "other": left.other,
        }
        for left in books_of(diary).unplaced
    ]
    words = ("crop", "cultivar", "label", "place", "verb", "reason")
    names = ["event", *words[:5], "count", "reason", "other"]
    frame = typed(pd.DataFrame(rows, columns=names), words)
    located = events_located(diary)
    others = located.rename(columns={"event": "other", "file": "other_file", "line": "other_line"})
    found = frame.merge(located, on="event", how="left")
    whole = found.merge(others[["other", "other_file", "other_line"]], on="other", how="left")
    return make_frame("plants unplaced", whole)


def events_located(diary: Diary) -> pd.DataFrame:
    """Where each event stands and when it was: event, date, date_end, file, line and column."""
    return diary.events[["event", "date", "date_end", "file", "line", "column"]]


_WHOLE = frozenset(
    "batch event entry other closed_by days days_to_up days_to_planted days_to_picking "
    "tended_days overdue_days years".split()
)


def typed(
    frame: pd.DataFrame,
    words: Iterable[str],
    days: Iterable[str] = (),
    flags: Iterable[str] = (),
) -> pd.DataFrame:
    """A frame with the dtypes that its columns of words, days and flags have in every table."""
    kinds: dict[str, Any] = dict.fromkeys(words, "string")
    kinds |= dict.fromkeys(days, "datetime64[s]")
    kinds |= dict.fromkeys(flags, "boolean")
    for name in frame.columns:
        kinds.setdefault(str(name), "Int64" if name in _WHOLE else "Float64")
    return frame.astype(kinds)


# ---------------------------------------------------------------- what is not known


def plants_notes(diary: Diary) -> list[Note]:
    """What could not be placed, one note a year, crop, cultivar, place, verb and reason."""
    keys = ["year", "crop", "cultivar", "place", "verb", "reason"]
    frame = unplaced(diary).copy()
    frame["year"] = certain_year(frame)
    frame["many"] = frame.groupby(keys, dropna=False)["event"].transform("size")
    return [
        Note(
            "plants",
            "batch",
            f"{row['verb']} {_named_plants(row)}",
            _why(row),
            None if pd.isna(row["year"]) else int(row["year"]),
        )
        for row in frame.drop_duplicates(keys).sort_values(keys).to_dict("records")
    ]


def contradictions(diary: Diary) -> tuple[str, ...]:
    """Each count of plants that another line gainsays, in words that name both lines."""
    return tuple(
        f"{row['verb']} {crop_words(row['crop'], row['cultivar'], '')}{_there(row)}: {_why(row)}"
        for row in unplaced(diary).assign(many=1).to_dict("records")
        if not pd.isna(row["other"])
    )


def _there(row: dict[Any, Any]) -> str:
    return f" in {row['place']}" if row["place"] else ""


def _named_plants(row: dict[Any, Any]) -> str:
    return crop_words(row["crop"], row["cultivar"], row["place"])


def _why(row: dict[Any, Any]) -> str:
    more = f" and {row['many'] - 1} more" if row["many"] > 1 else ""
    where = f"{row['file']}:{row['line']}{more}"
    against = "" if pd.isna(row["other"]) else f", against {row['other_file']}:{row['other_line']}"
    return f"{row['reason']} ({where}{against})"
