"""Words that no rule claims to what the verb makes of them: a crop, a place, a task, a subject."""

from difflib import get_close_matches
from typing import Any

from journal.events.items import Measured, Words
from journal.events.naming import NameGrouper
from journal.events.runs import is_bare, looks_like_place
from journal.source import Span
from journal.syntax import nodes as n
from journal.syntax.build_names import fellows
from journal.syntax.verbs import verb_at

# Words that stand beside a crop and are no cultivar's name.
_PLAIN = frozenset(
    "first last nice all big small good short long row rows band early late new old lovely ripe "
    "fresh young large tiny final best more second third half most whole poor fine glossy".split()
)
# Kinds whose parts cannot hold a second verb, and verbs that are as often the name of a thing.
_OF_ONE_VERB = frozenset(
    ["job", "harvest", "sowing", "raising", "planting", "water", "feed", "dressing", "end", "heap"]
)
_ALSO_NOUNS = frozenset(
    "water net nets feed store lime rain frost cover stake edge fork plant plan use count train "
    "job rate shade weed waste mulch spray rake hoe lift cut dry fill level bolt thin up".split()
)
# How much of it, without a figure: `lose all lettuce`, `pick first tomato 200 g`.
_SOME = frozenset(["all", "every", "first", "last", "final"])
_SLIPS = {
    "kgs": "kg",
    "kgm": "kg",
    "klg": "kg",
    "kilogramm": "kg",
    "gms": "g",
    "gm": "g",
    "grms": "g",
    "gs": "g",
    "lbz": "lb",
    "ozs": "oz",
    "ltr": "l",
    "ltrs": "l",
    "lt": "l",
    "lts": "l",
    "liters.": "l",
    "mls": "ml",
    "cms": "cm",
    "mtr": "m",
    "mtrs": "m",
    "mts": "m",
    "ins": "inch",
    "galls": "gallons",
    "mns": "min",
    "minuts": "min",
}


_SMALL_SLIPS = {
    **dict.fromkeys(["form", "frm", "fomr", "fron", "frim", "ftom", "fro"], "from"),
    **dict.fromkeys(["wiht", "wtih", "wth", "wit", "whit"], "with"),
    **dict.fromkeys(["ni", "inn", "im"], "in"),
    **dict.fromkeys(["inot", "itno", "intp"], "into"),
    **dict.fromkeys(["adn", "nad", "amd", "ans"], "and"),
}


_PARTICLES = frozenset("up out away over off down back through round".split())


def _without_particle(part: Words) -> Words:
    """`clear up Weir bed`, `thin out carrot`: the small word right after a verb says no more."""
    first, _, rest = part.text.partition(" ")
    if first.lower() not in _PARTICLES:
        return part
    return Words(rest, Span(part.span.end - len(rest), part.span.end))


class WordGrouper(NameGrouper):
    """Gives loose words the meaning that their verb and their place allow, or reports them."""

    def _words(self, part: Words) -> None:
        if self._slip_of_unit(part) or self._another_helper(part) or self._second_verb(part):
            return
        if self.with_open and self.item.with_ is not None and not self.item.with_.name:
            self.item.with_ = n.With(part.text, "words", part.span)
            return
        if self._lost_also(part):
            return
        target = self.verb.object
        if self.at == 1 and target in {"crop", "place"}:
            part = _without_particle(part)
            if not part.text:
                return
        if self.verb.name in {"level", "probe"}:
            self._fault("J101", part.span, word=part.text)
            return
        if target in {"place", "task"} and self._numbered(part):
            return
        if target == "crop":
            self._crop_words(part)
        elif target == "place":
            self._place_words(part)
        elif target == "material":
            self._stuff(part)
        elif target == "subject":
            self._subject(part)
        elif target == "task":
            self._task_words(part)
        else:
            self._fault("J101", part.span, word=part.text)

    def _numbered(self, part: Words) -> bool:
        """`weed Bed 1, 2 and 4`: an undeclared name with its number, and its fellows."""
        following = self._next()
        listed = isinstance(self.before, n.Separator) and part.text[:1].isupper()
        if (self.item.places and not listed) or self.out.task or not part.text[:1].isalpha():
            return False
        if not is_bare(following) or not self._beside(part.span, following.span):
            return False
        if self.verb.name == "job" or isinstance(self._next(1), n.Crop | Words | n.Material):
            return False
        self.at += 1
        low, high = int(following.node.figure.low), int(following.node.figure.high)
        first = n.PlaceName(f"{part.text} {low}", False, Span(part.span.start, following.span.end))
        if self.item.places and (self.item.amounts or self.item.times):
            self._open_item()
        self.item.places.append(first)
        if high > low:
            self.item.places += fellows(first, f"to {high}", following.span)
        while isinstance(self._next(), n.Separator) and self._is_fellow(self._next(1)):
            number = self._next(1)
            self.at += 2
            self.item.places += fellows(first, f"{number.node.figure.low:g}", number.span)
        return True

    def _is_fellow(self, part: Any) -> bool:
        beyond = self._next(2)
        over = beyond is None or isinstance(beyond, n.Separator | n.Remark)
        return is_bare(part) and (over or (isinstance(beyond, Measured) and not is_bare(beyond)))

    def _another_helper(self, part: Words) -> bool:
        """`with Ines and Tom`, `to Tom and Ines`."""
        listed = isinstance(self.before, n.Separator) and self.at > 2
        if not listed or not part.text[:1].isupper():
            return False
        before = self.parts[self.at - 3]
        if isinstance(before, n.With) and self.out.helpers:
            self.out.helpers.append(part.text)
            return True
        if isinstance(before, n.Party | n.Place) and self.item.party:
            self.item.party = f"{self.item.party}, {part.text}"
            return True
        return False

    def _lost_also(self, part: Words) -> bool:
        """`to slugs and snails`: a second reason of a loss."""
        if self.verb.kind != "loss" or not self.item.subject:
            return False
        if not isinstance(self.before, n.Separator):
            return False
        held = self.item.subject.pop()
        self.item.subject.append(self._written(Span(held.span.start, part.span.end)))
        return True

    def _second_verb(self, part: Words) -> bool:
        """`weed North 1, hoe North 2`: what follows belongs to another entry and is not used."""
        said = self.item.headed or self.out.task or self.item.times
        listed = isinstance(self.before, n.Separator) and said
        if not listed or self.verb.name == "job" or self.verb.kind not in _OF_ONE_VERB:
            return False
        form = verb_at(self.text, part.span.start)
        known = isinstance(self._next(), n.Place | n.Crop | n.Inside | Measured)
        if not form or (form.lower() in _ALSO_NOUNS and not (known and form == part.text)):
            return False
        rest = [one for one in self.parts[self.at :] if not isinstance(one, n.Remark)]
        end = max([part.span.end, *(one.span.end for one in rest)])
        where = Span(part.span.start, part.span.start + len(form))
        line = self._written(Span(part.span.start, end)).text.rstrip(" ,;.")
        self._fault("J112", where, word=form, cure=f"write it on a line of its own: `- {line}`")
        self.parts[self.at :] = [one for one in self.parts[self.at :] if isinstance(one, n.Remark)]
        return True

    def _slip_of_unit(self, part: Words) -> bool:
        """`1.2 kgs kale`: a word close to a unit right after a bare figure."""
        before = self.item.amounts[-1] if self.item.amounts else None
        if before is None or not isinstance(before.node, n.Quantity) or before.node.unit:
            return False
        if not self._beside(before.span, part.span):
            return False
        first, _, rest = part.text.partition(" ")
        unit = _SLIPS.get(first.lower().rstrip(".")) or self._unit_near(first, before)
        if unit is None:
            return False
        where = Span(part.span.start, part.span.start + len(first))
        self._fault("J401", where, word=first, cure=f"write `{unit}`", edit=unit)
        self.item.amounts.pop()
        if rest:
            lead = part.span.start + len(first) + (len(part.text) - len(first) - len(rest))
            self._words(Words(rest, Span(lead, part.span.end)))
        return True

    def _unit_near(self, word: str, before: Measured) -> str | None:
        """`1.2 kq kale`: what follows a broken figure is a unit, whatever it was meant to be."""
        broken = isinstance(before.node, n.Quantity) and before.node.figure.low % 1
        if not broken or len(word) > 3 or "/" in self.text[before.span.start : before.span.end]:
            return None
        near = get_close_matches(word.lower(), ["kg", "lb", "oz", "g", "l", "ml"], 1, 0.4)
        return near[0] if near else None

    def _crop_words(self, part: Words) -> None:
        item = self.item
        following = self._next()
        beside = isinstance(following, n.Crop) and self._beside(part.span, following.span)
        free = item.crop is None and item.undeclared is None and item.cultivar is None
        if free and self._before_amount(part):
            self._fault("J101", part.span, word=part.text)
            return
        if free and not beside and not item.headed:
            item.undeclared = part
            return
        if free and not beside and self.verb.name == "buy":
            item.undeclared = part
            return
        crop = following if beside else item.crop
        near = crop is not None and (beside or self._beside(crop.span, part.span))
        plain = part.text.split()[0].lower() in _PLAIN or part.text.endswith("ly")
        if beside and self._is_measure(part, crop):
            return
        if beside and part.text.lower() in _SOME:
            item.amounts.append(
                Measured(n.Vague(part.text, False, part.span), frozenset(), part.span)
            )
            return
        slip = _SMALL_SLIPS.get(part.text.lower())
        if slip:
            self._fault("J101", part.span, word=part.text, cure=f"write `{slip}`", edit=slip)
        elif near and isinstance(crop, n.Crop) and not plain:
            self._fault("J109", part.span, word=part.text, crop=crop.name)
        else:
            self._fault("J101", part.span, word=part.text)

    def _is_measure(self, part: Words, crop: Any) -> bool:
        """`12 sprigs of mint`: a measure that nobody has heard of, and no count."""
        before = self.item.amounts[-1] if self.item.amounts else None
        of = self.text[part.span.end : crop.span.start].strip().lower() == "of"
        if before is None or not of or not is_bare(before) or " " in part.text:
            return False
        if not self._beside(before.span, part.span):
            return False
        self.item.amounts.pop()
        cure = f"add `- measure {part.text.lower()}, 10 g` to the plot sheet"
        self._fault("J401", part.span, word=part.text, cure=cure)
        return True

    def _before_amount(self, part: Words) -> bool:
        """`the first 300 g kale`: the crop is named behind the amount."""
        crop = self._next(1)
        if not isinstance(crop, n.Crop) or not isinstance(self._next(), Measured):
            return False
        return self._beside(part.span, self._next().span) and self._beside(
            self._next().span, crop.span
        )

    def _place_words(self, part: Words) -> None:
        if self.item.places or self.item.crop:
            self._fault("J101", part.span, word=part.text)
            return
        self.item.places.append(n.PlaceName(part.text, False, part.span))

    def _task_words(self, part: Words) -> None:
        bare = not self.item.places and not self.out.task
        if self.verb.name not in {"job", "pay"} and bare and looks_like_place(part.text):
            self.item.places.append(n.PlaceName(part.text, False, part.span))
            return
        self.out.task.append(part.span)
