"""The diary's yields, days to harvest and seedlings of a crop beside the published figures."""

from typing import Any

import pandas as pd

from journal.questions.asked import Asked, RefusedError
from journal.questions.evidence import numbered_evidence, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, counted, figure, listed
from journal.questions.spans import take_period
from journal.questions.topic import take_topic
from journal.studies.books import books

_MOST_SAID = 6
_COLUMNS = [
    "measure", "crop", "year", "value", "value_low", "value_high", "unit", "of", "published_low",
    "published_high", "printed", "what", "condition", "source", "why",
]  # fmt: skip


def answer_books(asked: Asked) -> Answer:
    """`how do my cabbages compare with the books`: of a year, or of the latest with a figure."""
    asked.need("kind", "books")
    asked.take("head", "how", "how_well", "what")
    asked.take_all("compare", "compare", "against")
    asked.take_all("preposition", "with", "to", "by")
    asked.pass_over("did", "do", "was", "is", "have")
    asked.take("act", "harvest_noun")
    asked.take("noun", "crops")
    topic = take_topic(asked, batches=False)
    period = take_period(asked)
    asked.done()
    if len(topic.crops) != 1 or topic.places:
        raise RefusedError("ask it of one crop, without a place")
    if topic.things[0].cultivar:
        raise RefusedError("the books tell of a crop, not of its cultivars; ask about the crop")
    if period is not None and period.year is None:
        raise RefusedError("ask it of a year")
    frame = books(asked.diary)
    rows = frame[frame["crop"] == topic.crops[0]]
    if period is not None:
        rows = rows[rows["year"] == period.year]
    else:
        rows = rows[rows["year"] == rows.groupby("measure")["year"].transform("max")]
    if rows.empty:
        said = f" {period.said}" if period else ""
        return nothing(
            f"No figure of {topic.said}{said} has a published one to stand beside; "
            f"{record_words(asked.diary)}."
        )
    return _beside(asked, topic.said, rows)


def _beside(asked: Asked, said: str, rows: pd.DataFrame) -> Answer:
    told = [_words(row) for row in rows.to_dict("records")]
    if len(told) > _MOST_SAID:
        told = [*told[:_MOST_SAID], f"{counted(len(told) - _MOST_SAID, 'more figure')} in the rows"]
    whys = dict.fromkeys(str(why) for why in rows["why"] if why)
    return Answer(
        True,
        capital(f"{said}: {'; '.join(told)}."),
        rows=table_rows(rows[_COLUMNS]),
        evidence=numbered_evidence(asked.diary, [str(cell) for cell in rows["events"]]),
        caveats=(*whys, f"published by {listed(list(dict.fromkeys(rows['source'])))}"),
    )


def _words(row: dict[Any, Any]) -> str:
    """`178 days to harvest in 2025 (transplanting to harvest), published 62 to 110 days`."""
    name = row["measure"] if row["unit"] != "days" else f"days ({row['what']})"
    unit = "" if row["unit"] == "days" else f" {row['unit']}"
    measure = f"{name}: " if unit else ""
    own = f"{measure}{figure(float(row['value']))}{unit or ' ' + name} in {row['year']}"
    return f"{own}, published {_published(row)}"


def _published(row: dict[Any, Any]) -> str:
    """In the diary's unit, with what the book prints behind it where that is another."""
    printed = str(row["printed"])
    if printed.endswith(f" {row['unit']}"):
        return printed
    low, high = (figure(float(row[f"published_{end}"])) for end in ("low", "high"))
    both = low if low == high else f"{low} to {high}"
    return f"{both} {row['unit']}, in print {printed}"
