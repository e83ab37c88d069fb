"""Harvests, losses, stock checks and clearings: how plants leave their batch."""

from journal.studies.ledger.batches import RANK, Number, Part, number
from journal.studies.ledger.booking import Booking
from journal.studies.ledger.habits import is_perennial, taking
from journal.studies.ledger.joining import SEEDLINGS, YOUNG

_GIVEN = frozenset({"give", "sell", "swap"})


def harvest(booking: Booking) -> None:
    """A picking: of what is taken whole, so many plants; of the rest it takes none."""
    if not booking.event.crop:
        return
    parts = _pickable(booking)
    if not parts:
        _pick_what_was_there(booking)
        return
    whole = [part for part in parts if _way(booking, part) == "whole"]
    if booking.count is None or not whole:
        _pick_some(booking, parts[0])
        return
    for part, count in _share(booking, whole):
        _pick(booking, part, count)
        booking.books.take(part, "harvested", count, booking.event, "harvested")


def _way(booking: Booking, part: Part) -> str:
    return taking(part.batch.crop, booking.event.verb)


def _pickable(booking: Booking) -> list[Part]:
    """What stands there to be picked; plants in pots and trays only where the entry says so."""
    here = booking.fitting_there()
    grown = [part for part in here if not booking.is_raised(part)]
    if grown:
        return grown
    if not booking.ground:
        return [part for part in here if not part.vessel and part.stage in SEEDLINGS]
    there = [part for part in here if part.ground & booking.ground]
    return [part for part in there if part.stage != "sown" or not part.vessel]


def _pick_what_was_there(booking: Booking) -> None:
    """A picking on the day of the clearing, or on one that may have been before it."""
    for batch in booking.over():
        ended = batch.ended_on
        if ended is not None and ended.last >= booking.days.first and booking.there_before(batch):
            booking.books.confirm(batch, booking.event, "harvested")
            return
    booking.nothing_fits("none of it stood there")


def _pick_some(booking: Booking, part: Part) -> None:
    """A picking that counts no plants: of what is not picked in parts, any number may be gone."""
    _pick(booking, part, booking.count)
    if _way(booking, part) != "parts":
        booking.books.doubt(part, booking.count)


def _pick(booking: Booking, part: Part, count: Number | None) -> None:
    books = booking.books
    if not part.ground:
        books.place(part, booking.event)
    if part.stage != "cropping":
        books.pass_on(part, booking.event, "cropping", part.place, books.before(part))
    books.join(part, booking.event, "harvested", count)
    books.harvest(part.batch, booking.days, booking.last_days())


def lose(booking: Booking) -> None:
    """So many are lost; without a number, any number may be.

    Without a place, of those that are farthest on.
    """
    parts = booking.fitting_moved()
    if not booking.ground:
        parts = sorted(parts, key=lambda part: (*booking.wanted.by_age(part), -RANK[part.stage]))
    reason = booking.event.subject or booking.event.remark
    if not parts:
        booking.nothing_fits("none of it stood there")
        return
    booking.books.place(parts[0], booking.event)
    if booking.event.count_of is not None:
        booking.books.recount(parts[0], number(booking.event.count_of), booking.event)
    if booking.count is None:
        booking.books.join(parts[0], booking.event, "lost", None, reason)
        booking.books.doubt(parts[0])
        return
    for part, count in _share(booking, parts):
        booking.books.join(part, booking.event, "lost", count, reason)
        booking.books.take(part, "lost", count, booking.event, "lost")


def _share(booking: Booking, parts: list[Part]) -> list[tuple[Part, Number]]:
    """The entry's count over the parts, the oldest first; what is too many is left out."""
    assert booking.count is not None
    if booking.count.exact is None:
        return [(parts[0], booking.count.capped(parts[0].alive.high))]
    drawn, left = booking.one_by_one(parts, booking.count.exact)
    if left:
        booking.too_many(parts[0], left)
    return [(part, count) for part, count in drawn if count is not None]


def fail(booking: Booking) -> None:
    """A whole sowing comes to nothing."""
    if booking.count is not None:
        lose(booking)
        return
    reason = booking.event.subject or booking.event.remark
    parts = booking.fitting_moved()
    parts = sorted(parts, key=lambda part: part.stage not in SEEDLINGS)
    if not parts:
        _confirm_failure(booking)
        return
    for part in [part for part in parts if part.batch is parts[0].batch]:
        before = booking.books.before(part)
        booking.books.place(part, booking.event)
        booking.books.join(part, booking.event, "failed", None, reason)
        column = "not_up" if part.stage == "sown" else "lost"
        if part.alive.high is not None and (column == "not_up" or part.alive.exact is not None):
            part.batch.add(column, part.alive.high)
        booking.books.end(part, booking.days, "failed", booking.event.event, before)


def _confirm_failure(booking: Booking) -> None:
    """`fail` after `up 0 of 12` says the same once more."""
    for batch in booking.over():
        if batch.ended == "failed" and booking.there_before(batch):
            booking.books.confirm(batch, booking.event, "failed")
            return
    booking.nothing_fits("none of it stood there")


def count(booking: Booking) -> None:
    """What is alive there: the shortfall is lost, and more than there can be is a contradiction."""
    parts = booking.fitting_moved()
    if not parts:
        booking.nothing_fits("none of it stood there")
        return
    if not booking.ground:
        parts = [part for part in parts if part.batch is parts[0].batch]
    elif not parts[0].ground & booking.ground:
        booking.books.place(parts[0], booking.event)
        parts = [part for part in parts if part.ground & booking.ground]
    if booking.count is None:
        booking.books.join(parts[0], booking.event, "counted")
        return
    _check(booking, parts, booking.count)


def _check(booking: Booking, parts: list[Part], seen: Number) -> None:
    total = Number(0.0, 0.0)
    for part in parts:
        total = total.more(part.alive)
    over = 0.0 if total.high is None else seen.low - total.high
    over -= booking.books.late(parts[0], over) if over > 0 else 0.0
    if over > 0:
        booking.too_many(parts[0], over)
        return
    booking.books.join(parts[0], booking.event, "counted", seen)
    if len(parts) == 1:
        booking.books.recount(parts[0], seen, booking.event)
        return
    _check_several(booking, parts, seen, total)


def _check_several(booking: Booking, parts: list[Part], seen: Number, total: Number) -> None:
    """The shortfall is the oldest's; of what the diary did not tell, no more than was seen is."""
    short = max(0.0, total.low - (seen.high or 0.0))
    for part in parts:
        part.alive = part.alive.capped(seen.high) if short == 0 else part.alive
    drawn, _ = booking.one_by_one(parts, short)
    for part, missing in drawn:
        assert missing is not None
        booking.books.take(part, "lost", missing, booking.event, "lost")


def clear(booking: Booking) -> None:
    """A bed, or one crop in it, is cleared: its batches there are over."""
    parts = _to_clear(booking)
    if not parts:
        if booking.event.crop:
            _tell_nothing_to_clear(booking)
        return
    if booking.count is not None:
        for part, cleared in _share(booking, parts):
            booking.books.join(part, booking.event, "cleared", cleared)
            booking.books.take(part, "cleared", cleared, booking.event, "cleared")
        return
    for part in parts:
        _clear_whole(booking, part)


def _to_clear(booking: Booking) -> list[Part]:
    """What stands there; without a place, the oldest batch of the crop."""
    if not booking.event.crop:
        living = booking.books.all_living(booking.day) if booking.ground else []
        return [part for batch in living for part in batch.parts if part.ground & booking.ground]
    parts = booking.fitting()
    if booking.ground:
        return booking.there(parts)
    grown = [part for part in parts if not booking.is_raised(part)] or parts
    return [part for part in grown if part.batch is grown[0].batch]


def _clear_whole(booking: Booking, part: Part) -> None:
    books, event = booking.books, booking.event
    books.join(part, event, "cleared")
    elsewhere = part.ground - booking.ground
    if booking.ground and part.ground and elsewhere:
        # the bed was split under it: what stands in the other half is not cleared
        part.ground = elsewhere
        books.doubt(part)
        return
    before = books.before(part)
    if part.stage != "sown" and part.alive.high is not None:
        part.batch.add("cleared", part.alive.low)
    books.end(part, booking.days, "cleared", event.event, before)


def _tell_nothing_to_clear(booking: Booking) -> None:
    """Clearing away what was all harvested, lost or moved on is no contradiction."""
    for batch in booking.over():
        if batch.ended != "cleared" and booking.there_before(batch):
            booking.books.confirm(batch, booking.event, "cleared")
            return
    if not booking.ground or not any(map(booking.was_there, booking.books.batches)):
        booking.nothing_fits("none of it stood there")


def give_away(booking: Booking) -> None:
    """Young plants may have been given or sold: an entry does not tell them from the produce."""
    if booking.event.verb not in _GIVEN or booking.count is None or booking.event.place_from:
        return
    if booking.event.mass_kg is not None or booking.event.volume_l is not None:
        return
    young = booking.fitting(lambda part: part.stage in YOUNG and booking.is_raised(part))
    ready = [part for part in booking.fitting() if part.stage == "cropping"]
    if young and not ready and not is_perennial(young[0].batch.crop):
        furthest = max(young, key=lambda part: RANK[part.stage])
        booking.books.join(furthest, booking.event, "given away", booking.count)
        booking.books.doubt(furthest, booking.count)


def feed(booking: Booking) -> None:
    """Feeding moves no plant; it is when they were last tended."""
    if booking.event.crop:
        parts = booking.fitting_there()
    else:
        living = booking.books.all_living(booking.day) if booking.ground else []
        parts = [part for batch in living for part in batch.parts if part.ground & booking.ground]
    for part in parts:
        part.tended = booking.days
