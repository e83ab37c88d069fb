"""Which ground suits a crop next, which beds want water, and what seed is left or to be ordered."""

from typing import Any

import pandas as pd

from journal.diary import Diary
from journal.questions.acting import all_going_in, done_events
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import (
    evidence_of,
    numbered_evidence,
    place_evidence,
    record_words,
    table_rows,
)
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.saying import capital, counted, crop_one, crop_said, listed
from journal.questions.topic import take_topic
from journal.studies.ground_next import where_next
from journal.studies.notes import Note
from journal.studies.seed import order_year, seed
from journal.studies.water_need import ENOUGH, thirsty, water_notes, water_now

_MOST = 4
_FITS = {
    "yes": "by every source",
    "by some sources": "by some sources",
    "as far as the diary goes": "as far as the diary goes",
}


def answer_where_next(asked: Asked) -> Answer:
    """`where can onions go next year`: the beds with what speaks for and against each."""
    if not asked.take("head", "where"):
        asked.need("head", "which", "what")
        asked.need("noun", "beds", "places")
    asked.need("aux", "can", "will", "do")
    asked.take("act", "go", "go_in", "plant", "sow", "put")
    asked.take("aux", "grow")
    asked.pass_over("is")
    asked.take("kind", "rotation")
    asked.take_all("preposition", "in")
    topic = take_topic(asked, batches=False)
    period = asked.take("period")
    asked.done()
    if len(topic.crops) != 1 or topic.places:
        raise RefusedError("ask it of one crop")
    year = order_year(asked.diary) + 1
    if period is not None:
        assert period.period is not None
        if period.period.year not in (asked.clock.today.year, asked.clock.today.year + 1):
            raise RefusedError("where a crop can go is told of this year and the next")
        year = period.period.year
    frame = where_next(asked.diary, topic.crops[0], year)
    if frame.empty:
        return nothing(f"The sheet has no beds to choose from; {record_words(asked.diary)}.")
    return _where_next(asked.diary, topic.said, frame, year)


def _family_lines(diary: Diary, frame: pd.DataFrame) -> tuple[Evidence, ...]:
    """What of the family stood last in each bed; the bed's own line where none ever did."""
    stood = frame["events"] != ""
    never = place_evidence(diary, list(frame.loc[~stood, "place"]))
    return (*never, *numbered_evidence(diary, list(frame.loc[stood, "events"])))


def _where_next(diary: Diary, said: str, frame: pd.DataFrame, year: int) -> Answer:
    groups = []
    for fits, words in _FITS.items():
        rows = frame[frame["fits"] == fits]
        if len(rows):
            groups.append(f"{words} in {listed(list(rows['place']))}")
    none = f"no bed has been without the family long enough for {said} in {year}"
    sentence = f"in {year} {said} can go {'; '.join(groups)}" if groups else none
    against = [
        f"{row['place']}: {row['reasons_against']}"
        for row in frame.to_dict("records")
        if row["reasons_against"] and row["fits"] != "no"
    ]
    return Answer(
        True,
        capital(f"{sentence}."),
        rows=table_rows(frame),
        evidence=_family_lines(diary, frame),
        caveats=(
            "by how long its family was away; shade, drainage and your plans are not weighed",
            *against,
        ),
    )


def answer_thirsty(asked: Asked) -> Answer:
    """`what needs water`: beds and pots past readily available water, by the diary's weather."""
    asked.need("head", "what", "which")
    asked.take("noun", "beds", "crops", "plants", "places")
    asked.need("aux", "need")
    asked.need("act", "water")
    asked.pass_over("do", "is")
    today = asked.take("period")
    asked.done()
    if today is not None and (today.period is None or today.period.first != asked.clock.today):
        raise RefusedError("what needs water is told of today")
    rows = thirsty(asked.diary)
    reckoned = water_now(asked.diary)
    left = [f"{note.subject}: {note.reason}" for note in _unreckoned(asked.diary)]
    if reckoned.empty:
        return nothing("Nothing tells which beds are short of water today.", tuple(left))
    if rows.empty:
        return nothing(_none_short(reckoned), tuple(left))
    words = [f"{row['place']} ({crop_said(str(row['crop']))})" for row in rows.to_dict("records")]
    return Answer(
        True,
        f"Short of readily available water by now: {listed(words)}.",
        rows=table_rows(rows),
        evidence=_thirst_lines(asked.diary, rows),
        caveats=("reckoned from the temperatures and rain that were read, FAO-56", *left),
    )


def _none_short(reckoned: pd.DataFrame) -> str:
    """`By the diary's weather Alder had water enough, and Birch may need it.`"""
    enough = reckoned["state"] == ENOUGH
    sure, perhaps = (sorted(set(reckoned.loc[held, "place"])) for held in (enough, ~enough))
    said = [f"{listed(sure, most=_MOST)} had water enough"] if sure else []
    said += [f"{listed(perhaps, most=_MOST)} may need water"] if perhaps else []
    return f"By the diary's weather {', and '.join(said)}."


def _unreckoned(diary: Diary) -> list[Note]:
    """What makes all of it doubtful, and the crops of this year that cannot be reckoned."""
    notes = [note for note in water_notes(diary) if note.year in (None, diary.today.year)]
    return notes[:_MOST]


def _thirst_lines(diary: Diary, rows: pd.DataFrame) -> tuple[Evidence, ...]:
    """What put each crop where it stands, and the last water that it was given there."""
    begun, done = all_going_in(diary), done_events(diary)
    wanted: list[int] = []
    for place, crop in zip(rows["place"], rows["crop"], strict=True):
        stands = begun[begun["place"].eq(place) & begun["crop"].eq(crop) & begun["date"].notna()]
        latest = stands[stands["date"] == stands["date"].max()]
        wanted += [int(event) for event in latest["event"]]
        given = done[done["place"].eq(place) & done["verb"].eq("water") & done["date"].notna()]
        since = given[given["date"] >= latest["date"].max()] if len(latest) else given.iloc[0:0]
        wanted += [int(event) for event in since.sort_values("date")["event"].tail(1)]
    return evidence_of(diary, diary.events[diary.events["event"].isin(wanted)])


def answer_seed(asked: Asked) -> Answer:
    """`how much carrot seed is left`, `what seed do I need to order`."""
    opens = asked.parts[0].kind == "aux" and asked.parts[0].name in ("do", "have", "is")
    if not opens:
        asked.need("head", "how_much", "how_many", "what", "which")
    asked.take("unit", "packets")
    asked.need("noun", "seeds")
    need = asked.take("aux", "need", "can")
    asked.pass_over("is", "have", "do", "get")
    asked.take("preposition", "to", "for")
    order = asked.take("act", "order", "buy")
    if not (need and order) and not asked.take("state", "left"):
        raise NotThisKindError
    topic = take_topic(asked, batches=False)
    period = asked.take("period")
    asked.done()
    if period is not None and (period.period is None or not period.period.ahead):
        raise RefusedError("seed is told of as it is now")
    frame = seed(asked.diary)
    if topic.things:
        frame = topic.rows(frame.assign(label=""))
    column = "order" if need and order else "left"
    rows = frame[(frame["unit"] == "packets") & frame[column].notna() & (frame[column] > 0)]
    crops = [crop_one(thing.said, thing.crops[-1]) for thing in topic.things if thing.crops]
    return _seed(asked, listed(crops), rows, column)


def _seed(asked: Asked, said: str, rows: pd.DataFrame, column: str) -> Answer:
    what = f"{said} seed".strip()
    if rows.empty:
        done = "needs ordering" if column == "order" else "is left unopened"
        return nothing(f"By the diary no {what} {done}; {record_words(asked.diary)}.")
    words = [_packets(row, column) for row in rows.to_dict("records")]
    done = "to order" if column == "order" else "left unopened"
    bought = asked.diary.events
    mine = bought["verb"].eq("buy") & bought["crop"].isin(list(rows["crop"]))
    mine &= bought["cultivar"].isin(list(rows["cultivar"]))
    return Answer(
        True,
        f"{capital(listed(words))} {done}.",
        value=float(rows[column].iloc[0]) if len(rows) == 1 else None,
        rows=table_rows(rows),
        evidence=evidence_of(asked.diary, bought[mine]),
        caveats=("a packet once sown from is neither full nor empty, and is not counted",),
    )


def _packets(row: dict[Any, Any], column: str) -> str:
    name = f"{row['crop']} '{row['cultivar']}'" if row["cultivar"] else str(row["crop"])
    return f"{counted(float(row[column]), 'packet')} of {name}"
