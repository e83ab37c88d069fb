"""The ledger of a diary: its events booked in the order of their days."""

from collections.abc import Callable, Iterable
from datetime import date

from journal.events.model import Event
from journal.studies.ledger import raising, taking
from journal.studies.ledger.booking import Booking, order
from journal.studies.ledger.books import Books
from journal.studies.ledger.grounds import Grounds

_Book = Callable[[Booking], None]
_BY_VERB: dict[str, _Book] = {
    "up": raising.up,
    "prick out": raising.prick_out,
    "pot on": raising.pot_on,
    "pot up": raising.pot_on,
    "harden off": raising.harden_off,
    "thin": raising.thin,
    "fail": taking.fail,
}
_BY_KIND: dict[str, _Book] = {
    "sowing": raising.sow,
    "planting": raising.plant,
    "moving": raising.move,
    "harvest": taking.harvest,
    "loss": taking.lose,
    "stock check": taking.count,
    "end": taking.clear,
    "kitchen": taking.give_away,
    "feed": taking.feed,
}


def _book_of(event: Event) -> _Book | None:
    if event.kind in {"raising", "loss"} and event.verb in _BY_VERB:
        return _BY_VERB[event.verb]
    book = _BY_KIND.get(event.kind)
    # a bed is cleared and fed whole; everything else is done to a crop
    return book if event.crop or event.kind in {"end", "feed"} else None


def keep(events: Iterable[Event], grounds: Grounds, day: date) -> Books:
    """The books of these events, in the order of their days, as they stand on a day."""
    books = Books(grounds)
    booked = [(event, book) for event in events if (book := _book_of(event)) is not None]
    for event, _ in booked:
        if event.date is None and event.kind not in {"feed", "kitchen"}:
            books.leave_out(event, "it has no day")
    dated = [pair for pair in booked if pair[0].date is not None]
    for event, book in sorted(dated, key=lambda pair: order(pair[0])):
        if _of_none(event):
            books.leave_out(event, "none were sown or planted", 0.0)
        else:
            book(Booking(books, event))
    books.finish(day)
    return books


def _of_none(event: Event) -> bool:
    """Whether a sowing or planting says that it was of 0: it begins no batch and moves none."""
    begins = event.kind in {"sowing", "planting"}
    return begins and event.count == 0 and not event.high


def until(events: Iterable[Event], day: date) -> list[Event]:
    """The events up to and with a day, and those without one."""
    return [event for event in events if event.date is None or order(event)[0] <= day]
