"""Two years, crops or places side by side in weight, time, days or rain, and the difference."""

from dataclasses import replace
from datetime import date

import pandas as pd

from journal.questions.acting import act_events, all_pickings, done_events, settled_act
from journal.questions.acts import ACTS, SAME_ACT, Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.compared import (
    RATE_WORDS,
    Found,
    Side,
    Sought,
    comparison,
    side_amount,
)
from journal.questions.evidence import dated, evidence_of, first_days, record_words, surely_in
from journal.questions.model import Answer, Evidence, nothing
from journal.questions.parts import Part
from journal.questions.periods import stretch_words
from journal.questions.readings import air_rows, weather_lines
from journal.questions.saying import capital, counted, money
from journal.questions.sides import sides_of
from journal.studies import weather_spans
from journal.studies.money import priced_events
from journal.studies.rankings import occasions, yield_ranking
from journal.studies.season_shift import warmth_apart
from journal.studies.seasons import season_day, to_day_of_season
from journal.studies.spring_shift import median_shift, spring_shift
from journal.studies.tallies import tally

_RATES = {"square_metre": "kg_per_m2", "plants": "kg_per_plant", "metre": "kg_per_m"}


_UNITS = {
    "kg": "kg", "minutes": "min", "days": "days", "rain": "mm", "frost": "days", "sun": "h",
}  # fmt: skip


def answer_compare(asked: Asked) -> Answer:
    """`runner beans 2024 against 2025`, `did we pick more courgettes this year than last`."""
    words = asked.take_all("compare")
    if not words:
        raise NotThisKindError
    if any(part.name in ("warmer", "colder") for part in words):
        raise NotThisKindError
    lean = next((_LEANS[part.name] for part in words if part.name in _LEANS), "")
    either = any(asked.words(part).lower() == "or" for part in words)
    yes_or_no = bool(lean) and asked.parts[0].kind == "aux" and not either
    head = asked.take("head", "how_much", "which", "what", "how_many", "who")
    asked.take_all("unit", "kg", "hour")
    paid = _money(asked)
    timed = any([asked.take("noun", "times", "jobs"), asked.take("aux", "take", "spend")])
    weather = asked.take("kind", "rain", "frost", "sun")
    if lean in ("later", "earlier"):
        asked.take("order", "first")
    asked.take_all("self", "it")
    asked.take_all("kind", "weight")
    per = asked.take("per", *_RATES)
    asked.pass_over("did", "was", "have", "is", "do", "done", "get", "come", "grow")
    asked.take_all("preposition", "for", "in", "on", "from", "between")
    asked.take("noun", "crops", "seeds" if paid == "seed" else "crops")
    _take_their_noun(asked)
    if not asked.has("self") and not asked.has("person"):
        asked.take("act", "give")
    act = _act(asked)
    sides = sides_of(asked, act, words)
    asked.done()
    numbers = head is not None and head.name == "how_many"
    said_of = next((_WEATHER[part.name] for part in words if part.name in _WEATHER), "")
    measure = paid or _measure(lean, act, timed, weather.name if weather else said_of, per)
    if measure == "times" and act is not None and (numbers or act.name in _COUNTED):
        measure = "count"
    return _compare(asked, Sought(act, measure, lean, yes_or_no), sides)


_LEANS = {
    "more": "more", "less": "less", "later": "later", "earlier": "earlier", "better": "better",
    "worse": "worse", "wetter": "more", "drier": "less", "sunnier": "more", "beat": "better",
    "ahead": "more", "behind": "less",
}  # fmt: skip
_WEATHER = {"wetter": "rain", "drier": "rain", "sunnier": "sun"}


# of what is put into the ground the number is meant, not how often it was done
_COUNTED = ("sow", "plant", "go_in", "plant_out", "lose", "buy")
_SIDES = 2


def _take_their_noun(asked: Asked) -> None:
    """`which bed gave more, Platform 1 or Platform 2`: both sides are what the noun says."""
    counts = {kind: len([p for p in asked.left if p.kind == kind]) for kind in ("place", "thing")}
    if counts["place"] == _SIDES:
        asked.take("noun", "beds", "places")
    elif counts["thing"] >= _SIDES:
        asked.take("noun", "varieties")


def _money(asked: Asked) -> str:
    """The measure where money is compared: `spent`, `seed` that was spent on seed, or `earned`."""
    if asked.take("kind", "earn"):
        asked.take("preposition", "from")
        return "earned"
    timed = asked.has("noun", "times", "jobs") or asked.has("unit", "hour")
    timed = timed or (asked.has("act") and not asked.has("act", "pay"))
    if timed or not (asked.take("kind", "cost") or asked.take("aux", "spend")):
        return ""
    asked.take("act", "pay")
    asked.take("kind", "cost")
    return "seed" if asked.has("noun", "seeds") else "spent"


def _act(asked: Asked) -> Act | None:
    part = asked.take("act")
    if part is None:
        return None
    if asked.has("act"):
        raise NotThisKindError
    return ACTS[SAME_ACT.get(part.name, part.name)]


def _measure(lean: str, act: Act | None, timed: bool, weather: str, per: Part | None) -> str:
    if weather:
        return weather
    if per is not None:
        return _RATES[per.name]
    if lean in ("later", "earlier"):
        return "days"
    if timed:
        return "minutes"
    if act is None or act.name == "harvest":
        return "kg"
    return "times"


# ---------------------------------------------------------------- working it out


def _compare(asked: Asked, sought: Sought, sides: tuple[Side, Side]) -> Answer:
    topic = sides[0].topic
    if sought.measure == "days" and not topic.crops and sought.act is None:
        return _season(asked, sought, sides)
    sought = replace(sought, to_day=_to_day(asked, sides, sought))
    found = [_found(asked, sought, side) for side in sides]
    missing = [side for side, each in zip(sides, found, strict=True) if each.value is None]
    if missing:
        what = " ".join(filter(None, [topic.what if missing[0].period else missing[0].said]))
        said = f" {missing[0].period.said}" if missing[0].period else ""
        return nothing(
            f"Nothing is written to compare for {what or 'it'}{said}; {record_words(asked.diary)}."
        )
    currency = _currency(pd.concat([each.rows for each in found]), sought) or ""
    return _answer(asked, replace(sought, currency=currency), sides, found)


def _to_day(asked: Asked, sides: tuple[Side, Side], sought: Sought) -> date | None:
    """A year that is still open is compared to the same day of the other."""
    if sought.measure == "days":
        return None
    today = asked.clock.today
    years = [side.period.year if side.period else None for side in sides]
    return today if None not in years and today.year in years and years[0] != years[1] else None


def _found(asked: Asked, sought: Sought, side: Side) -> Found:
    if sought.measure in ("rain", "frost", "sun"):
        return _weather(asked, sought, side)
    events = _events(asked, sought, side)
    rows = surely_in(dated(events), side.period)
    if sought.measure == "days":
        return _first_day(rows)
    if sought.to_day is None:
        return _amount(asked, sought, events, rows)
    so_far = to_day_of_season(rows, sought.to_day.month, sought.to_day.day)
    found = _amount(asked, sought, events, so_far)
    whole = _amount(asked, sought, events, rows).value
    if len(so_far) == len(rows) or not whole:
        return found
    return replace(found, whole=f"{side.said} came to {side_amount(sought, whole)}")


def _amount(asked: Asked, sought: Sought, events: pd.DataFrame, rows: pd.DataFrame) -> Found:
    """Nothing in the days of a side is nothing only where the diary knows of it at all."""
    if rows.empty:
        return Found(None if dated(events).empty else 0.0, rows)
    if sought.measure == "times":
        return Found(float(occasions(rows)), rows)
    if sought.measure in RATE_WORDS:
        values = yield_ranking(asked.diary, rows, ["crop"])[sought.measure]
        known = len(values) == 1 and values.notna().all()
        return Found(float(values.iloc[0]) if known else None, rows)
    if sought.measure in ("spent", "seed", "earned"):
        column = "earned" if sought.measure == "earned" else "spent"
        rows = rows[rows["currency"] == _main_currency(events)]
        return Found(tally(rows, column).total, rows)
    if sought.measure == "count":
        numbers = tally(rows, "count")
        if numbers.missing or numbers.total is None:
            raise RefusedError("not all of it is written by number; ask how many of each")
        return Found(numbers.total, rows)
    total = tally(rows, "mass_kg" if sought.measure == "kg" else "minutes")
    return Found(total.total, rows, total.missing if sought.measure == "kg" else 0)


def _events(asked: Asked, sought: Sought, side: Side) -> pd.DataFrame:
    if sought.measure == "minutes":
        done = done_events(asked.diary)
        rows = side.topic.rows(sought.act.rows(done) if sought.act else done)
        return rows[rows["minutes"].notna()]
    if sought.measure in ("spent", "seed", "earned"):
        priced = priced_events(asked.diary)
        if sought.measure == "seed":
            priced = priced[priced["kind"] == "seed"]
        column = "earned" if sought.measure == "earned" else "spent"
        return side.topic.rows(priced[priced[column].notna()])
    if sought.measure == "kg":
        return side.topic.rows(all_pickings(asked.diary))
    return act_events(asked, settled_act(sought.act or ACTS["harvest"], side.topic), side.topic)


def _first_day(rows: pd.DataFrame) -> Found:
    if rows.empty:
        return Found(None, rows)
    first, last = first_days(rows)
    if first != last:
        raise RefusedError(
            f"the diary is not certain of the first day: {stretch_words(first, last)}"
        )
    stamp = pd.Series([pd.Timestamp(first)])
    on_day = rows[rows["date"] == pd.Timestamp(first)]
    return Found(float(season_day(stamp).iloc[0]), on_day)


def _weather(asked: Asked, sought: Sought, side: Side) -> Found:
    if side.topic.things or side.topic.places or side.period is None:
        raise NotThisKindError
    first, last = side.period.first, side.period.last
    if sought.to_day is not None and last is not None:
        last = min(last, date(last.year, sought.to_day.month, sought.to_day.day))
    if sought.measure in ("rain", "sun"):
        total = weather_spans.total(asked.diary, sought.measure, first, last)
        rows = air_rows(asked, _days(first, last), (sought.measure,))
        return Found(total.value, rows[rows["value"] > 0], total.unread)
    minima = weather_spans.readings(asked.diary, "t_min", first, last)
    if not minima.notna().any():
        return Found(None, asked.diary.weather.iloc[:0])
    frosts = weather_spans.frosts(asked.diary, first, last)
    rows = air_rows(asked, frosts.index, ("t_min",))
    return Found(float(len(frosts)), rows, int(minima.isna().sum()))


def _days(first: date | None, last: date | None) -> pd.DatetimeIndex:
    return pd.date_range(first, last) if first and last else pd.DatetimeIndex([])


def _answer(asked: Asked, sought: Sought, sides: tuple[Side, Side], found: list[Found]) -> Answer:
    one, other = (float(each.value or 0.0) for each in found)
    gap = one - other
    rows = pd.concat([each.rows for each in found])
    lines = evidence_of(asked.diary, rows) if len(rows) else ()
    if sought.measure in ("rain", "sun", "frost"):
        lines = weather_lines(asked, rows)
    return Answer(
        True,
        comparison(sought, sides, (one, other), found),
        value=round(gap, 6),
        unit=_UNITS.get(sought.measure) or _currency(rows, sought),
        rows=tuple(
            {"side": side.said, sought.measure: _cell(sought, side, each)}
            for side, each in zip(sides, found, strict=True)
        ),
        evidence=lines,
        caveats=(
            *_caveats(sought, sides, found),
            *_by_warmth(asked, sought, sides, found),
            *_other_money(asked, sought, sides),
        ),
    )


def _main_currency(events: pd.DataFrame) -> str:
    """The currency of most entries; another is told apart, never added."""
    return str(events["currency"].mode().iloc[0])


def _other_money(asked: Asked, sought: Sought, sides: tuple[Side, Side]) -> tuple[str, ...]:
    if not sought.currency:
        return ()
    found = []
    for side in sides:
        events = _events(asked, sought, side)
        rows = surely_in(dated(events), side.period)
        rows = rows[rows["currency"] != sought.currency]
        column = "earned" if sought.measure == "earned" else "spent"
        for currency, own in rows.groupby("currency"):
            found.append(f"{side.said}: {money(float(own[column].sum()), str(currency))} besides")
    return tuple(found)


def _currency(rows: pd.DataFrame, sought: Sought) -> str | None:
    if sought.measure not in ("spent", "seed", "earned") or rows.empty:
        return None
    return str(rows["currency"].iloc[0])


def _cell(sought: Sought, side: Side, found: Found) -> float | date | None:
    if sought.measure != "days" or found.value is None:
        return found.value
    stamp = found.rows["date"].iloc[0]
    return date(stamp.year, stamp.month, stamp.day)


def _caveats(sought: Sought, sides: tuple[Side, Side], found: list[Found]) -> tuple[str, ...]:
    unread = ("rain", "sun", "frost")
    noun = {"kg": "picking had no weight"} | dict.fromkeys(unread, "day was not read")
    many = {"kg": "pickings had no weight"} | dict.fromkeys(unread, "days were not read")
    whole = _whole_years(sought, found)
    return whole + tuple(
        f"{side.said}: {counted(each.missing, noun[sought.measure], many[sought.measure])}"
        for side, each in zip(sides, found, strict=True)
        if each.missing and sought.measure in noun
    )


def _by_warmth(
    asked: Asked, sought: Sought, sides: tuple[Side, Side], found: list[Found]
) -> tuple[str, ...]:
    """How far apart two first pickings of a crop were in degree days, where every day was read."""
    topic = sides[0].topic
    if sought.measure != "days" or topic != sides[1].topic or len(topic.things) != 1:
        return ()
    (thing,) = topic.things
    if sought.act is not None and sought.act.name != "harvest":
        return ()
    days = [_cell(sought, side, each) for side, each in zip(sides, found, strict=True)]
    if len(thing.crops) != 1 or topic.places or topic.label or topic.parties:
        return ()
    one, other = (day for day in days if isinstance(day, date))
    apart = warmth_apart(asked.diary, thing.crops[0], thing.cultivar, (one, other))
    if apart is None or apart[0] != apart[1]:
        return ()
    warmth, _, base = apart
    way = "more" if warmth > 0 else "fewer"
    return (
        f"by the warmth of the year it took {abs(warmth):.0f} degree days {way}, over {base:g} C",
    )


def _whole_years(sought: Sought, found: list[Found]) -> tuple[str, ...]:
    """What a year came to after the day that the open one has reached."""
    if sought.to_day is None or sought.measure not in ("kg", "minutes", "times"):
        return ()
    return tuple(f"all of {each.whole}" for each in found if each.whole)


def _season(asked: Asked, sought: Sought, sides: tuple[Side, Side]) -> Answer:
    """`is this spring later than last`: by what came first in its year in both."""
    spans = []
    for side in sides:
        period = side.period
        if period is None or period.first is None or period.last is None:
            raise NotThisKindError
        spans.append((period.first, period.last))
    frame = spring_shift(asked.diary, spans[0], spans[1])
    shift = median_shift(frame)
    names = f"{sides[0].said} and {sides[1].said}"
    if shift is None:
        return nothing(
            f"Nothing that is written came first in both {names}; {record_words(asked.diary)}."
        )
    yes = shift < 0 if sought.lean == "earlier" else shift > 0
    reply = ("yes, " if yes else "no, ") if sought.yes_or_no else ""
    way = "later" if shift > 0 else "earlier" if shift < 0 else "at the same time"
    amount = f"{counted(abs(shift), 'day')} {way}" if shift else way
    return Answer(
        True,
        capital(
            f"{reply}{sides[0].said} came {amount} than {sides[1].said}, by the middle of "
            f"{counted(len(frame), 'thing')} that first came in both."
        ),
        value=shift,
        unit="days",
        rows=tuple(
            {key: row[key] for key in ("verb", "crop", "subject", "one", "other", "shift")}
            for row in frame.to_dict("records")
        ),
        evidence=_shift_lines(asked, frame),
    )


def _shift_lines(asked: Asked, frame: pd.DataFrame) -> tuple[Evidence, ...]:
    wanted = {*frame["event_one"], *frame["event_other"]}
    events = asked.diary.events
    return evidence_of(asked.diary, events[events["event"].isin(wanted)])
