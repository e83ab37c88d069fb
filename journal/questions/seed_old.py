"""Which seed is past the life that published tables give its crop."""

from typing import Any

from journal.questions.asked import Asked
from journal.questions.evidence import numbered_evidence, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.saying import capital, crop_one, figure, listed
from journal.questions.topic import take_topic
from journal.studies.seed import seed

_COLUMNS = [
    "crop", "cultivar", "bought_last", "saved_last", "age_years_low", "age_years_high",
    "life_years_low", "life_years_high", "past", "left",
]  # fmt: skip
_SAID = {"yes": "past the life that every source gives", "by some sources": "by some sources only"}


def answer_seed_too_old(asked: Asked) -> Answer:
    """`which seed is too old`, `is the carrot seed past its best`: by age and published lives."""
    asked.need("state", "too_old")
    asked.need("noun", "seeds")
    asked.take("head", "which", "what")
    asked.pass_over("is", "have", "do", "get")
    asked.take("unit", "packets")
    asked.take("act", "sow")
    asked.take("preposition", "to")
    topic = take_topic(asked, batches=False)
    asked.done()
    frame = seed(asked.diary)
    if topic.things:
        frame = topic.rows(frame.assign(label=""))
    frame = frame[(frame["unit"] == "packets") & frame["past"].notna() & (frame["past"] != "")]
    crops = [crop_one(thing.said, thing.crops[-1]) for thing in topic.things if thing.crops]
    what = f"{listed(crops)} seed".strip()
    if frame.empty:
        return nothing(f"The age of no {what} can be told; {record_words(asked.diary)}.")
    old = frame[frame["past"].isin(list(_SAID))]
    told = [
        f"{words}: {listed([_packet(row) for row in rows.to_dict('records')])}"
        for past, words in _SAID.items()
        if len(rows := old[old["past"] == past])
    ]
    sentence = "; ".join(told) if told else f"no {what} is past the life that sources give"
    return Answer(
        True,
        capital(f"{sentence}."),
        rows=table_rows((old if told else frame)[_COLUMNS]),
        evidence=numbered_evidence(asked.diary, list((old if told else frame)["events"])),
        caveats=(
            "the age counts from buying or saving, and is at least that",
            "the diary does not tell whether a packet once sown from is used up",
        ),
    )


def _packet(row: dict[Any, Any]) -> str:
    name = f"{row['crop']} '{row['cultivar']}'" if row["cultivar"] else str(row["crop"])
    return f"{name} ({figure(float(row['age_years_low']))} years)"
