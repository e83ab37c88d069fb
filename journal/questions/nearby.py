"""What was understood of a refused question to questions near it that the diary can answer.

Each is made of names, acts and days that the diary has entries of; none is offered unread.
"""

from collections.abc import Callable, Iterator, Sequence

from journal.questions.heard import Heard
from journal.questions.offer import WORTH, Offer
from journal.questions.offers_of_crops import (
    offers_of_crop,
    offers_of_crop_there,
    offers_of_two,
)
from journal.questions.offers_of_names import (
    offers_of_material,
    offers_of_person,
    offers_of_place,
    offers_of_subject,
)
from journal.questions.offers_of_words import offers_of_words, stock

OFFERED = 3
# an offer that asks again of the same name, or again in the same way, tells less
_AGAIN = 0.6


def near_questions(heard: Heard, reads: Callable[[str], bool]) -> list[str]:
    """The nearest first; what holds nothing that was understood comes last."""
    found: list[Offer] = []
    _choose([*_of_names(heard), *offers_of_words(heard)], found, reads)
    if len(found) < OFFERED:
        _choose(list(stock(heard)), found, reads)
    return [offer.text for offer in found]


def _choose(made: Sequence[Offer], found: list[Offer], reads: Callable[[str], bool]) -> None:
    """Adds the best that are read, until there are enough."""
    left = list({offer.text: offer for offer in reversed(made)}.values())[::-1]
    while left and len(found) < OFFERED:
        best = max(left, key=lambda offer: _beside(offer, found))
        left.remove(best)
        if all(best.text != each.text for each in found) and reads(best.text):
            found.append(best)


def _beside(offer: Offer, found: Sequence[Offer]) -> float:
    again = sum((each.about == offer.about) + (each.way == offer.way) for each in found)
    return offer.worth - _AGAIN * again


def _of_names(heard: Heard) -> Iterator[Offer]:
    crops = heard.of_kind("cultivar", "crop", "group")
    places = heard.of_kind("place")
    for crop in crops:
        yield from offers_of_crop(heard, crop, WORTH["name"])
        for place in places:
            yield from offers_of_crop_there(heard, crop, place)
    if len(crops) > 1:
        yield from offers_of_two(heard, *crops[:2])
    for place in places:
        yield from offers_of_place(heard, place, WORTH["name"])
    for person in heard.of_kind("person"):
        yield from offers_of_person(heard, person)
    for material in heard.of_kind("material"):
        yield from offers_of_material(heard, material)
    for subject in heard.of_kind("subject"):
        yield from offers_of_subject(heard, subject)
