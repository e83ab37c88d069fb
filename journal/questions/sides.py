"""The two sides of a comparison: two periods of one topic, or two crops or places of one period."""

from dataclasses import replace
from datetime import date

from journal.questions.acts import Act
from journal.questions.asked import Asked, NotThisKindError, RefusedError
from journal.questions.compared import Side, bare_period
from journal.questions.parts import Part
from journal.questions.periods import Period, season_name, year_before
from journal.questions.topic import Topic, take_topic

# words that stand between the two sides
_BETWEEN = ("than", "against", "compare", "beat", "ahead", "behind")


def sides_of(asked: Asked, act: Act | None, words: list[Part]) -> tuple[Side, Side]:
    """Takes the periods, crops and places that are set against each other."""
    periods = asked.take_all("period")
    found = [part.period for part in periods if part.period is not None]
    than = next((p for p in words if p.name in _BETWEEN and p.name != "compare"), None)
    if any(part.name == "one_before" for part in words):
        if len(found) != 1:
            raise NotThisKindError
        found.append(year_before(found[0]))
    found = _of_each_year(asked, periods, found)
    last = asked.take("order", "last")
    if last is not None and (than is None or last.start < than.start or len(found) != 1):
        raise NotThisKindError
    if last is not None:
        found.append(year_before(found[0]))
    topic = _without_their_crop(take_topic(_joined(asked, words), act.name if act else ""))
    if len(found) == 1 and than is not None and periods[0].start > than.start and not _pair(topic):
        # `more courgettes than last year` sets this year against it
        today = asked.clock.today
        found.insert(
            0, Period(date(today.year, 1, 1), date(today.year, 12, 31), f"in {today.year}")
        )
    if len(found) == 2:
        asked.take_all("joint")
        if _pair(topic) and len(topic.things) == 2:
            raise RefusedError(
                "it compares two crops and two periods at once; ask for one at a time"
            )
        one, other = (Side(bare_period(period), topic, period) for period in found)
        return one, other
    if len(found) > 2:
        raise RefusedError("it names more than two periods; ask for two")
    return _topic_sides(topic, found[0] if found else None)


def _of_each_year(asked: Asked, parts: list[Part], found: list[Period]) -> list[Period]:
    """`a wetter summer in 2024 than 2025`: the season of both years."""
    if len(found) != 3:
        return found
    named, years = parts[0], [period.year for period in found[1:]]
    words = asked.words(named).split()
    if named.period is None or len(words) > 2 or None in years:
        return found
    name = words[-1].lower()
    if season_name(name) in ("spring", "summer", "autumn", "winter"):
        return [asked.clock.season(name, year) for year in years]
    return [asked.clock.month(name, year) for year in years] if name.isalpha() else found


def _without_their_crop(topic: Topic) -> Topic:
    """`Oarsman or Musselburgh, which leek`: the crop says no more than its two cultivars."""
    own = {crop for thing in topic.things if thing.cultivar for crop in thing.crops}
    kept = tuple(t for t in topic.things if t.cultivar or not set(t.crops) or set(t.crops) - own)
    return replace(topic, things=kept) if len(kept) >= 2 else topic


def _joined(asked: Asked, words: list[Part]) -> Asked:
    """`beans than peas`: the word of comparison joins the two names."""
    if any(part.name in _BETWEEN for part in words):
        asked.lend_joint()
    return asked


def _pair(topic: Topic) -> bool:
    return len(topic.things) == 2 or len(topic.places) == 2


def _topic_sides(topic: Topic, period: Period | None) -> tuple[Side, Side]:
    if len(topic.things) == 2 and len(topic.places) < 2:
        sides = [
            Side(thing.said, replace(topic, things=(thing,)), period) for thing in topic.things
        ]
        return sides[0], sides[1]
    if len(topic.places) == 2 and len(topic.things) < 2:
        sides = [
            Side(place.said, replace(topic, places=(place,)), period) for place in topic.places
        ]
        return sides[0], sides[1]
    raise NotThisKindError
