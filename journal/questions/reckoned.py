"""What is reckoned from the temperatures: degree days of a stretch, and the growing season."""

import re

from journal.questions.asked import Asked, RefusedError
from journal.questions.evidence import day, record_words, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import day_words
from journal.questions.readings import air_evidence, asked_period, said_of, small_words, unread
from journal.questions.saying import capital, counted, figure
from journal.questions.topic import take_topic
from journal.studies import weather_spans
from journal.studies.degree_days import BASE_C, crop_bases
from journal.studies.degree_days_between import degree_days_between
from journal.studies.growing_season import growing_season


def answer_degree_days(asked: Asked) -> Answer:
    """`how many degree days in 2025`, `degree days above 5 degrees for potatoes this year`."""
    asked.need("noun", "degree_days")
    asked.take("head", "how_many", "how_much", "what")
    asked.take_all("kind", "weight", "temperature")
    small_words(asked)
    limit = asked.take("limit")
    asked.take_all("preposition", "for", "in", "with", "to", "at")
    topic = take_topic(asked, batches=False)
    period = asked_period(asked)
    asked.done()
    if topic.places or len(topic.crops) > 1:
        raise RefusedError("degree days are of the open air; ask for one crop's base or none")
    base, source = BASE_C, f"base {figure(BASE_C)} C"
    if limit is not None:
        base = limit_of(asked.words(limit)).value
        source = f"base {figure(base)} C"
    elif topic.crops:
        known = [each for each in crop_bases(asked.diary) if each.crop == topic.crops[0]]
        if not known:
            raise RefusedError(f"no base temperature is published here for {topic.said}; give one")
        base, source = known[0].base_c, f"base {figure(known[0].base_c)} C, {known[0].source}"
    found = degree_days_between(asked.diary, base, period.first, period.last)
    read = weather_spans.readings(asked.diary, "t_min", period.first, period.last).dropna()
    if not found.read:
        return nothing(f"No days have both extremes{said_of(period)}; {record_words(asked.diary)}.")
    return Answer(
        True,
        capital(
            f"{figure(found.total, 0)} degree days above {figure(base)} C were reached"
            f"{said_of(period)}, by the mean of each day's extremes."
        ),
        value=round(found.total, 6),
        rows=({"base_c": base, "degree_days": found.total, "days_read": found.read},),
        evidence=air_evidence(asked, read.index, ("t_min", "t_max")),
        caveats=(source, *unread(found.read, found.unread, "an extreme")),
    )


class Limit:
    """A threshold of a question: its figure, and which side of it is meant, if any."""

    def __init__(self, words: str) -> None:
        """Reads `over 30 degrees`, `below zero`."""
        low = words.lower()
        number = re.search(r"(minus |-)?(\d+(?:\.\d+)?)", low)
        self.value = 0.0
        if number is not None:
            self.value = float(number[2]) * (-1 if number[1] else 1)
        under = re.search(r"under|below|beneath|less than|colder|lower|down to|drop|fell|fall", low)
        over = re.search(
            r"over|above|past|more than|beyond|hotter|warmer|higher|at least|reach|hit"
            r"|up to|rose|rise",
            low,
        )
        self.side = "under" if under else "over" if over else ""
        self.counts_itself = bool(re.search(r"at least|reach|hit|up to|down to", low))


def limit_of(words: str) -> Limit:
    """The threshold that the words name."""
    return Limit(words)


def answer_growing_season(asked: Asked) -> Answer:
    """`how long was the growing season in 2025`, `when did the growing season begin`."""
    asked.need("kind", "growing_season")
    head = asked.need("head", "how_long", "when", "how_many", "what")
    order = asked.take("order", "first", "last")
    asked.take("noun", "days", "length")
    small_words(asked)
    period = asked.take("period")
    asked.done()
    year = period.period.year if period and period.period else asked.clock.today.year
    if year is None:
        raise RefusedError("the growing season is told of a year")
    frame = growing_season(asked.diary)
    row = next(iter(frame[frame["year"] == year].to_dict("records")), None)
    if row is None or row["begins"] is None or str(row["begins"]) == "NaT":
        return nothing(
            f"The days that were read do not tell when the growing season of {year} began; "
            f"{record_words(asked.diary)}."
        )
    begins = day(row["begins"])
    ended = str(row["ends"]) != "NaT"
    ends = day(row["ends"]) if ended else None
    wants_end = order is not None and order.name == "last"
    if (head.name != "when" and not ended) or (wants_end and not ended):
        return nothing(
            f"The growing season of {year} began on {day_words(begins)}; the days that were read "
            "do not tell when it ended."
        )
    told = f"the growing season of {year} began on {day_words(begins)}"
    if ends is not None:
        told += f" and ended on {day_words(ends)}, after {counted(int(row['days']), 'day')}"
    stamp = ends if wants_end else begins
    return Answer(
        True,
        capital(f"{told}."),
        value=int(row["days"]) if head.name != "when" else None,
        unit="days" if head.name != "when" else None,
        date=stamp,
        date_end=stamp if head.name == "when" else ends,
        rows=table_rows(frame[frame["year"] == year]),
        caveats=("by daily means above 5 C on six days running, ETCCDI",),
    )
