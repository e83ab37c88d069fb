"""What things cost, what was spent and earned, and what the harvest was worth."""

import pandas as pd

from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.evidence import evidence_of, record_words, surely_in, table_rows
from journal.questions.model import Answer, nothing
from journal.questions.periods import Period
from journal.questions.saying import capital, counted, crop_one, listed
from journal.questions.saying import money as money_said
from journal.questions.spans import Span, span_of, take_period
from journal.questions.topic import Topic, take_topic
from journal.studies.money import priced_events
from journal.studies.money_worth import money_worth
from journal.studies.tallies import tally, tally_by

# words for a kind of money of the study
_KINDS = {"seeds": "seed", "plants": "plants"}
# jobs that stand for a kind of money
_ACT_KINDS = {"feed": "feeds and dressings", "treat": "treatments"}


def answer_money(asked: Asked) -> Answer:
    """`what did seed cost in 2025`, `how much did I spend on boards`, `how much did I earn`."""
    headed = asked.take("head", "how_much", "what", "how_many") is not None
    paid = asked.has("aux", "spend") or asked.has("act", "pay") or asked.has("kind", "cost")
    bare = paid and not asked.has("self") and asked.parts[0].kind in ("kind", "noun", "thing")
    bare = bare and not asked.has("compare")
    if not headed and not bare:
        raise NotThisKindError
    asked.take("kind", "weight")
    till = asked.take("kind", "in_money")
    earned = _take_money_word(asked, till=till is not None)
    asked.take("unit", "lb")
    each = asked.take("each", "years")
    latest = _is_price(asked) and asked.has("aux", "is") and not asked.has("period")
    noun = asked.take("noun", *_KINDS)
    asked.pass_over("did", "was", "have", "is", "get", "come")
    asked.take_all("self", "me")
    asked.take_all("preposition", "to")
    asked.take("state", "together")
    bought = asked.take("act", "buy") is not None
    sort = asked.take("act", *_ACT_KINDS) if not asked.has("thing") else None
    asked.take("preposition", "on", "for", "from", "at", "in")
    if any(sense.kind == "material" for p in asked.left if p.kind == "thing" for sense in p.senses):
        # what is bought is new
        asked.take("state", "new")
    seed_named = any(
        asked.name_words(part).lower().startswith("seed ")
        for part in asked.left
        if part.kind == "thing"
    )
    topic = take_topic(asked, "buy", people=True, batches=False)
    period = take_period(asked)
    asked.done()
    if any(thing.kind == "subject" for thing in topic.things):
        raise NotThisKindError
    rows = priced_events(asked.diary)
    rows = rows[rows["earned" if earned else "spent"].notna()]
    if till is not None and (rows["earned"].notna() & rows["party"].ne("")).any():
        raise RefusedError(f"sales went to others than `{asked.words(till)}` too; ask without it")
    if bought or (noun and topic.crops):
        rows = rows[rows["kind"].isin(["seed", "plants"]) | (rows["verb"] == "buy")]
    elif noun:
        rows = rows[rows["kind"] == _KINDS[noun.name]]
    if sort is not None:
        rows = rows[rows["kind"] == _ACT_KINDS[sort.name]]
    rows = topic.rows(rows)
    if latest:
        rows = rows[rows["date"] == rows["date"].max()]
    said = _bought_said(topic, noun.name if noun else "", seed=seed_named)
    return _sum(
        asked,
        topic,
        span_of(rows[rows["date"].notna()], period),
        earned,
        _ACT_KINDS[sort.name] if sort else said,
        bool(each),
    )


def _bought_said(topic: Topic, noun: str, *, seed: bool) -> str:
    """What was bought: `carrot seed`, `tomato plants`, `seed potatoes`."""
    if seed or (noun == "seeds" and topic.crops == ("potato",)):
        return f"seed {topic.said}"
    if not noun:
        return topic.what
    crops = [crop_one(thing.said, thing.crops[-1]) for thing in topic.things if thing.crops]
    return f"{listed(crops)} {_KINDS[noun]}".strip()


def _take_money_word(asked: Asked, *, till: bool) -> bool:
    """Whether money came in; NotThisKindError where no money is asked for."""
    if till:
        asked.take("kind", "earn")
        asked.take("act", "sell", "harvest", "fetch", "use")
        asked.take("aux", "take", "get", "come")
        return True
    got_for = any(part.kind == "thing" and part.name == "for" for part in asked.left)
    if got_for and not asked.has("act") and asked.take("aux", "get"):
        # `what price did we get for the strawberries`
        if asked.take("kind", "cost"):
            raise RefusedError("prices are told as sums; ask how much was earned with it")
        return True
    if _is_price(asked):
        asked.take("kind", "cost")
        return False
    if asked.has("thing") and asked.take("act", "fetch"):
        # `how much did the strawberries fetch`; goods are fetched, crops fetch a price
        crops = {sense.kind for part in asked.left if part.kind == "thing" for sense in part.senses}
        if not crops & {"crop", "group", "cultivar"}:
            raise NotThisKindError
        return True
    if asked.take("kind", "earn"):
        materials = {s.kind for part in asked.left if part.kind == "thing" for s in part.senses}
        if "material" in materials and not materials & {"crop", "cultivar", "group"}:
            # leaf mould is made, not earned
            raise NotThisKindError
        asked.take("act", "sell")
        asked.take("aux", "take")
        asked.take("preposition", "by", "from", "in")
        return True
    if asked.take("kind", "cost") or asked.take("act", "pay"):
        asked.take("aux", "spend")
        return False
    if asked.has("unit", "hour", "minute") or asked.has("noun", "times"):
        raise NotThisKindError
    asked.need("aux", "spend")
    return False


def _is_price(asked: Asked) -> bool:
    """`how much was the rent`: of what is no crop and has no amount but its price."""
    others = ("act", "unit", "kind", "state", "noun", "place")
    if any(asked.has(kind) for kind in others):  # type: ignore[arg-type]
        return False
    if not asked.has("aux", "was", "is", "come"):
        return False
    things = [asked.name_words(part).lower() for part in asked.left if part.kind == "thing"]
    if things and all(words.startswith("seed ") for words in things):
        return True
    names = {sense.name for part in asked.left if part.kind == "thing" for sense in part.senses}
    kinds = {sense.kind for part in asked.left if part.kind == "thing" for sense in part.senses}
    if not names or kinds & {"crop", "cultivar", "group"}:
        return False
    priced = priced_events(asked.diary)
    own = priced[["material", "task"]].isin(names).any(axis=1)
    return bool(own.any())


def _sum(asked: Asked, topic: Topic, span: Span, earned: bool, what: str, by_year: bool) -> Answer:
    column = "earned" if earned else "spent"
    if span.rows.empty:
        done = "earned" if earned else "spent"
        on = f" {'with' if earned else 'on'} {what}" if what else ""
        party = f" {'from' if earned else 'at'} {listed(topic.parties)}" if topic.parties else ""
        return nothing(
            f"No money is written as {done}{on}{party}{span.said}; {record_words(asked.diary)}.",
            span.doubts,
        )
    sums = tally_by(span.rows, column, ["currency"])
    said = [money_said(float(row[column]), row["currency"]) for row in sums.to_dict("records")]
    one = len(sums) == 1
    verb = "was" if one else "were"
    on = f" {what}" if what.startswith("on ") else f" on {what}" if what else ""
    of = f" with {what}" if what else ""
    party = f" at {listed(topic.parties)}" if topic.parties and not earned else ""
    sentence = (
        f"{listed(said)} {verb} {'earned' + of if earned else 'spent' + on + party}{span.said}"
    )
    rows = tally_by(span.rows, column, ["year", "kind", "crop", "currency"])
    years = ""
    if by_year:
        table = tally_by(span.rows, column, ["year", "currency"]).sort_values("year")
        years = ": " + listed(
            [
                f"{money_said(float(row[column]), row['currency'])} in {row['year']}"
                for row in table.to_dict("records")
                if not pd.isna(row["year"])
            ]
        )
    return Answer(
        True,
        capital(f"{sentence}{years}{_over(span) if not by_year else ''}."),
        value=round(tally(span.rows, column).total or 0.0, 6) if one else None,
        unit=str(sums["currency"].iloc[0]) if one else None,
        rows=table_rows(rows),
        evidence=evidence_of(asked.diary, span.rows),
        caveats=(*_unpriced(asked, topic, span, earned), *span.doubts),
    )


def _over(span: Span) -> str:
    if span.period is not None:
        return ""
    years = span.rows["date"].dt.year
    first, last = int(years.min()), int(years.max())
    return f", from {first} to {last}" if first != last else f", all in {first}"


def _unpriced(asked: Asked, topic: Topic, span: Span, earned: bool) -> tuple[str, ...]:
    """Purchases and sales of it with no price, which are not counted as free."""
    events = asked.diary.events
    verb = "sell" if earned else "buy"
    rows = topic.rows(events[(events["verb"] == verb) & events["cost"].isna()])
    count = len(surely_in(rows, span.period))
    noun = "sale" if earned else "purchase"
    return (f"{counted(count, f'more {noun}')} with no price",) if count else ()


def answer_worth(asked: Asked) -> Answer:
    """`what was the harvest worth`, `how much were the tomatoes worth in 2025`."""
    asked.need("head", "what", "how_much")
    asked.need("kind", "worth")
    asked.pass_over("was", "is", "did", "have")
    named = asked.take("act", "harvest_noun", "harvest")
    asked.take("state", "together")
    named = asked.take("noun", "crops") or named
    if not named and not asked.has("thing"):
        raise RefusedError("say what the worth is of: the harvest, or a crop")
    topic = take_topic(asked, batches=False)
    period = take_period(asked)
    asked.done()
    if any(thing.cultivar for thing in topic.things):
        raise RefusedError("worth is reckoned by crop; ask about the crop")
    if period is not None and period.year is None:
        raise RefusedError("worth is reckoned by calendar year; ask for a year")
    frame = money_worth(asked.diary)
    if period is not None:
        frame = frame[frame["year"] == period.year]
    rows = topic.rows(frame.assign(place_from="", kind="harvest"))
    return _worth(asked, topic, rows, period)


def _worth(asked: Asked, topic: Topic, rows: pd.DataFrame, period: Period | None) -> Answer:
    priced = rows[rows["worth"].notna()]
    what = topic.what or "the harvest"
    said = f" {period.said}" if period else ""
    if priced.empty:
        return nothing(
            f"No worth can be told for {what}{said}: no price on the sheet, or no weight."
        )
    sums = tally_by(priced, "worth", ["currency"])
    amounts = [money_said(float(row["worth"]), row["currency"]) for row in sums.to_dict("records")]
    one = len(sums) == 1
    unpriced = int(rows["unpriced"].sum())
    events = asked.diary.events
    wanted = {int(each) for cell in priced["events"] for each in str(cell).split(", ") if each}
    verb = "was" if not topic.said or topic.singular else "were"
    return Answer(
        True,
        capital(f"{what} {verb} worth {listed(amounts)}{said} at the prices of the sheet."),
        value=round(float(sums["worth"].iloc[0]), 6) if one else None,
        unit=str(sums["currency"].iloc[0]) if one else None,
        rows=table_rows(
            rows[["year", "crop", "place", "currency", "kg", "worth", "unpriced", "why"]]
        ),
        evidence=evidence_of(asked.diary, events[events["event"].isin(wanted)]),
        caveats=(f"{counted(unpriced, 'picking')} could not be priced",) if unpriced else (),
    )
