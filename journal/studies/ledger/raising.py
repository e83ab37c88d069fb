"""Sowing, raising, planting and moving: how a batch begins and goes from stage to stage."""

from datetime import timedelta

from journal.studies.ledger.batches import RANK, Batch, Number, Part, number
from journal.studies.ledger.booking import Booking, Drawn
from journal.studies.ledger.habits import UP_BY_DAYS
from journal.studies.ledger.joining import SEEDLINGS, YOUNG

# Seedlings left at pricking out are still there to be pricked out for so long, and a sowing of
# which nothing showed may still come (common practice, no published source).
SECOND_CHANCE = timedelta(days=UP_BY_DAYS)
# No sowing is fit to be planted out sooner (common practice, no published source).
SOON_UP = timedelta(days=14)


def sow(booking: Booking) -> None:
    """A new batch of seeds."""
    part = booking.books.open(booking.event, "sown", booking.count)
    if booking.count is not None:
        part.batch.add("sown", booking.count.high or 0.0)
    booking.books.join(part, booking.event, "sown", booking.count)


def up(booking: Booking) -> None:
    """Seedlings show: the count is of all that show that day."""
    waiting = booking.fitting_moved(lambda part: part.stage in SEEDLINGS)
    parts = _of_this_sowing(booking, waiting)
    part = parts[0] if parts else _given_up_too_soon(booking)
    if part is None:
        booking.nothing_fits("no sowing of it was waiting to come up")
        return
    booking.books.place(part, booking.event)
    _learn_sown(part, booking.event.count_of)
    _show(booking, part)


def _of_this_sowing(booking: Booking, parts: list[Part]) -> list[Part]:
    """First what was sown with as many as the entry says, then what has not shown and can."""
    of, count = booking.event.count_of, booking.count
    same = [part for part in parts if of is not None and part.batch.totals.sown == of]
    able = [part for part in parts if count is None or _room(part).holds(count)]
    unseen = [part for part in able if part.stage == "sown"]
    return same or unseen or able or parts


def _room(part: Part) -> Number:
    """How many can show: those alive, and the seeds that had not come up."""
    return part.alive.more(number(part.batch.totals.not_up or 0.0))


def _learn_sown(part: Part, sown: float | None) -> None:
    """`up 16 of 20` tells how many were sown where the sowing did not."""
    batch = part.batch
    if sown is not None and batch.totals.sown is None and part.alive.high is None:
        batch.add("sown", sown)
        batch.add("entered", sown)
        part.alive = number(sown)


def _show(booking: Booking, part: Part) -> None:
    books, batch, before = booking.books, part.batch, booking.books.before(part)
    shown, room = booking.count, _room(part).high
    if shown is not None and room is not None and shown.low > room:
        booking.too_many(part, shown.low - room)
        shown = None
    if part.stage == "sown" and (shown is None or shown.high != 0):
        books.pass_on(part, booking.event, "up", part.place, before)
    books.join(part, booking.event, "up", shown)
    part.seen = True
    if shown is None:
        part.alive = _more_may_show(part) if batch.counted_up else part.alive.some()
    elif batch.counted_up:
        _show_again(booking, part, shown)
    else:
        _show_first(part, shown)
        if part.alive.none_left:
            books.end(part, booking.days, "failed", booking.event.event, before)


def _more_may_show(part: Part) -> Number:
    """More than were counted before, and nobody says how many."""
    seeds = part.batch.totals.not_up or 0.0
    if seeds:
        part.batch.add("not_up", -seeds)
    return part.alive.more(Number(0.0, seeds))


def _show_first(part: Part, shown: Number) -> None:
    batch, high = part.batch, shown.high or 0.0
    if part.alive.high is None:
        batch.add("entered", high)
    else:
        batch.add("not_up", part.alive.high - high)
    batch.add("up", high)
    batch.counted_up = True
    part.alive = shown


def _show_again(booking: Booking, part: Part, shown: Number) -> None:
    high = part.alive.high or 0.0
    if shown.low > high:
        booking.books.late(part, shown.low - high)
    booking.books.recount(part, shown, booking.event)


def _given_up_too_soon(booking: Booking) -> Part | None:
    """A sowing of which nothing had shown shows after all."""
    if booking.count is None or booking.count.low == 0:
        return None
    for batch in booking.over():
        recent = _recent(batch, booking) and booking.there_before(batch)
        if batch.ended == "failed" and recent and batch.totals.up == 0:
            part = booking.books.reopen(batch, booking.event, number(batch.totals.not_up or 0.0))
            batch.counted_up, batch.totals = False, batch.totals.plus("not_up", -part.alive.low)
            return part
    return None


def _recent(batch: Batch, booking: Booking) -> bool:
    return batch.ended_on is not None and booking.day - batch.ended_on.last <= SECOND_CHANCE


def prick_out(booking: Booking) -> None:
    """So many seedlings go on; the others are left, and that is the end of them."""
    parts = booking.fitting_moved(lambda part: part.stage in SEEDLINGS)
    if not parts:
        _prick_out_more(booking)
        return
    drawn = booking.draw(parts)
    for part, count in drawn:
        before = booking.books.before(part)
        moved = _go_on(booking, part, count, "pricked out", "pricked_out")
        if count is None:
            moved.alive = _some_of(moved, drawn)
        elif moved is not part:
            _leave_the_rest(booking, part)
            booking.books.drop(part, booking.days, before)


def _leave_the_rest(booking: Booking, part: Part) -> None:
    if part.batch.counted_up and part.alive.high is not None:
        part.batch.add("discarded", part.alive.low)


def _prick_out_more(booking: Booking) -> None:
    """Seedlings left a while ago are pricked out after all."""
    count = booking.count.exact if booking.count is not None else None
    for part in booking.fitting(lambda part: part.stage == "pricked out"):
        batch = part.batch
        recent = booking.day - part.stay.since.last <= SECOND_CHANCE
        if count is not None and recent and count <= (batch.totals.discarded or 0.0):
            batch.add("discarded", -count)
            batch.add("pricked_out", count)
            part.alive = part.alive.more(number(count))
            booking.books.join(part, booking.event, "pricked out", booking.count)
            return
    booking.nothing_fits("no seedlings of it were there to prick out")


def pot_on(booking: Booking) -> None:
    """So many get bigger pots; potting up what no batch holds begins one."""
    young = booking.fitting_moved(lambda part: part.stage in YOUNG)
    parts = sorted(young, key=_least_raised)
    if not parts and booking.event.verb == "pot up":
        part = booking.books.open(booking.event, "potted on", booking.count)
        if booking.count is not None:
            part.batch.add("potted_on", booking.count.high or 0.0)
        booking.books.join(part, booking.event, "potted on", booking.count)
        return
    _raise(booking, parts, "potted on", "potted_on")


def harden_off(booking: Booking) -> None:
    """So many are put out to harden."""
    young = booking.fitting_moved(lambda part: part.stage in YOUNG)
    _raise(booking, sorted(young, key=_least_raised), "hardened off")


def _least_raised(part: Part) -> tuple[bool, object, int, int]:
    """The oldest batch first, and of it what is least far on."""
    return part.remnant, part.batch.started.first, part.batch.number, RANK[part.stage]


def _raise(booking: Booking, parts: list[Part], stage: str, column: str = "") -> None:
    if not parts:
        booking.nothing_fits("no young plants of it were there")
        return
    for part, count in booking.draw(parts):
        if RANK[part.stage] >= RANK[stage]:
            booking.books.place(part, booking.event)
            booking.books.join(part, booking.event, stage, count)
            part.tended = booking.days
        else:
            booking.books.merge(_go_on(booking, part, count, stage, column))


def thin(booking: Booking) -> None:
    """Some are taken out, nobody counts how many: one at least is left."""
    parts = booking.fitting_moved(lambda part: part.stage != "cropping")
    if not parts:
        booking.nothing_fits("nothing of it stood there to thin")
        return
    for part in (part for part in parts if part.batch is parts[0].batch):
        booking.books.place(part, booking.event)
        booking.books.join(part, booking.event, "thinned", booking.count)
        part.alive = part.alive.some()


def plant(booking: Booking) -> None:
    """Raised plants go to their place; what no batch was raising begins one."""
    parts = _to_plant(booking)
    if not parts:
        part = booking.books.open(booking.event, "planted", booking.count)
        if booking.count is not None:
            part.batch.add("planted", booking.count.high or 0.0)
        booking.books.join(part, booking.event, "planted", booking.count)
        return
    drawn = booking.draw(parts)
    for part, count in drawn:
        _stand_at_source(booking, part)
        moved = _go_on(booking, part, count, "planted", "planted")
        if count is None:
            moved.alive = _some_of(moved, drawn)
        moved.vessel = booking.event.vessel
        booking.books.merge(moved)


def _to_plant(booking: Booking) -> list[Part]:
    """The raised plants that an entry can mean, the oldest batch and its furthest on first."""
    event = booking.event
    raised = booking.fitting(lambda part: booking.is_raised(part) and _is_grown(booking, part))
    if event.place_from:
        parts = [part for part in booking.fitting() if part.ground & booking.source]
        parts = parts or booking.there(raised, booking.source) or raised
        parts = parts or booking.fitting(lambda part: _left_some(booking, part))
    elif event.verb == "heel in":
        parts = booking.fitting(lambda part: _is_lifted(booking, part))
    else:
        parts = [part for part in raised if part.ground & booking.ground] or raised
        if not parts and event.verb == "plant out":
            parts = booking.fitting(lambda part: _is_in_a_seedbed(booking, part))
    return sorted(parts, key=lambda part: (*booking.wanted.by_age(part), -RANK[part.stage]))


def _is_grown(booking: Booking, part: Part) -> bool:
    """Not just sown: what nobody saw come up is no plant in its first days."""
    return part.stage != "sown" or booking.day - part.batch.started.last >= SOON_UP


def _left_some(booking: Booking, part: Part) -> bool:
    """Planted from there without a number, so that not all may have been."""
    grounds = booking.books.grounds
    was_there = any(
        grounds.of(stay.place, stay.since.last) & booking.source for stay in part.batch.stays
    )
    return part.stage == "planted" and part.alive.exact is None and was_there


def _is_lifted(booking: Booking, part: Part) -> bool:
    """What stood elsewhere, past its seed leaves, and may be heeled in here."""
    return part.stage not in SEEDLINGS and not part.ground & booking.ground


def _is_in_a_seedbed(booking: Booking, part: Part) -> bool:
    """What was sown in another bed to be planted out of it."""
    elsewhere = part.stage in SEEDLINGS and not part.ground & booking.ground
    return elsewhere and _is_grown(booking, part)


def move(booking: Booking) -> None:
    """So many change their place, and are as far on as they were."""
    parts = [part for part in booking.fitting() if part.ground != booking.ground]
    if booking.event.place_from:
        parts = booking.there(parts, booking.source) or parts
    if not parts:
        booking.nothing_fits("nothing of it stood there to move")
        return
    for part, count in booking.draw(parts):
        _stand_at_source(booking, part)
        booking.books.merge(_go_on(booking, part, count, part.stage, "", "moved"))


def _some_of(part: Part, drawn: Drawn) -> Number:
    """One at least of an uncounted part; where others go with it, it may be empty itself."""
    alone = len(drawn) == 1 or part.alive.low > 0
    return part.alive.some() if alone else part.alive


def _stand_at_source(booking: Booking, part: Part) -> None:
    """What is moved from a place must have been brought there."""
    if booking.source and not part.ground & booking.source and part.stage != "planted":
        booking.books.put(part, booking.event, booking.event.place_from)


def _go_on(
    booking: Booking, part: Part, count: Number | None, stage: str, column: str, what: str = ""
) -> Part:
    """So many of a part, or all, reach a stage where the event says; the part that did."""
    books, event = booking.books, booking.event
    place = event.place or part.place
    high, first_time = part.alive.high, RANK[part.stage] < RANK[stage]
    if count is None or (high is not None and count.low >= high):
        books.pass_on(part, event, stage, place, books.before(part))
        moved = part
        moved.alive = moved.alive if count is None else count.capped(high)
        moved.remnant = moved.remnant and count is None
    else:
        moved = books.split(part, count, event, stage, place)
    moved.vessel = event.vessel or moved.vessel
    if column and count is not None and first_time:
        part.batch.add(column, count.high or 0.0)
    books.join(moved, event, what or stage, count)
    return moved
