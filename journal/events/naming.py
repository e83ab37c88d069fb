"""Names to their items: crops, cultivars, places, people, what a thing was done with.

Decides by the shape of the entry and its verb alone; what a name means is settled later.
"""

from dataclasses import replace

from journal.events.items import Item, Measured, Words
from journal.events.runs import looks_like_place
from journal.events.walk import Walk
from journal.reference.crops import nearest
from journal.source import Span
from journal.syntax import nodes as n
from journal.syntax.build_names import fellows
from journal.syntax.days import MONTH_NAMES
from journal.syntax.marks import FORMS
from journal.syntax.verbs import DEALINGS

_MOVING_KINDS = frozenset({"moving", "planting", "raising", "heap", "dressing", "kitchen"})
_STUFF_KINDS = frozenset({"feed", "water", "dressing", "treatment", "heap", "structure"})
# What is done to a place and carries nothing away.
_ON_THE_SPOT = frozenset(
    "weed hoe dig fork rake mow edge tidy clean net cover uncover shade prune stake water "
    "clear".split()
)
_WATERED = frozenset({"feed", "water", "treatment"})
_LENGTH_WORDS = frozenset({"apart", "deep", "long", "wide", "thick", "high", "tall", "square"})


class NameGrouper(Walk):
    """Puts each name of an entry where it belongs."""

    def _crop(self, part: n.Crop) -> None:
        if self.verb.object == "material" and self._joins_material(part):
            return
        if self.verb.object == "subject" and self._joins_subject(part.span):
            self._subject(self._written(part.span))
            if self._is_first(part.span):
                self.item.crop = part
            return
        if self.item.crop is not None or self.item.undeclared is not None:
            self._open_item()
        self.with_open = False
        self.item.crop = part
        self._join_task(part.span)

    def _joins_subject(self, span: Span) -> bool:
        """`carrot fly`, `club root`: a known name beside loose words is part of what was seen."""
        held = self.item.subject
        if held and self._beside(held[-1].span, span):
            return True
        return self._beside_next(span, Words, n.Crop, n.Material, n.Form)

    def _is_first(self, span: Span) -> bool:
        """`first ripe tomato`, `first flower broad bean`: the crop whose first one was seen."""
        first = self.item.subject[-1].text.lower().startswith("first ")
        further = isinstance(self._next(), n.Crop) or self._beside_next(span, Words, n.Material)
        return first and not further

    def _join_task(self, span: Span) -> None:
        """A known name is part of a job's words where it stands among them."""
        task = self.out.task
        among = bool(task) and self._beside(task[-1], span)
        if self.verb.object == "task" and (
            self.verb.name == "job" or among or self._beside_next(span, Words)
        ):
            task.append(span)

    def _joins_material(self, part: n.Crop) -> bool:
        """`fit bean poles`: a crop right before or after loose words is part of a thing's name."""
        following = self._next()
        if isinstance(following, Words | n.Material) and self._beside(part.span, following.span):
            self._stuff(self._written(part.span))
            return True
        return False

    def _cultivar(self, part: n.Cultivar) -> None:
        following = self._next()
        if not part.quoted and isinstance(following, n.Crop):
            # `gardeners delight tomato`
            self.at += 1
            self._crop(following)
        if self.item.cultivar is not None:
            self._open_item()
        if self.item.crop is None and self.item.undeclared is None and len(self.out.items) > 1:
            before = self.out.items[-2]
            self.item.crop, self.item.undeclared = before.crop, before.undeclared
        self.item.cultivar = part

    def _label(self, part: n.Label) -> None:
        self.item.label = part.text

    def _place(self, part: n.Place) -> None:
        name = part.names[0]
        if not name.known and self._is_inches(part):
            return
        if self._to_party(part) or self._lost_to(part):
            return
        if part.to and self.verb.kind not in _MOVING_KINDS:
            self.item.sources.extend(part.row)
            return
        if part.preposition in {"from", "off"}:
            self.item.sources.extend(part.names)
            self.item.places.extend(part.to)
            return
        if self.verb.name == "job" and not name.known and not looks_like_place(name.text):
            self.out.task.append(part.span)
            return
        if self._goes_on_from(part):
            self.item.sources.extend(part.names)
            return
        if not part.preposition:
            self._join_task(part.span)
        self._add_places(part)

    def _add_places(self, part: n.Place) -> None:
        """A list goes on after a comma; otherwise the last place said is the place."""
        item = self.item
        if self._is_row_end(part) or self._is_stretch_of_places(part):
            return
        onto = part.preposition in {"to", "into"}
        onto = onto or (self.verb.name == "empty" and part.preposition in {"onto", "on"})
        if onto and item.places and not item.sources:
            item.sources.extend(item.places)  # `empty Bay A to North 1`
            item.places = []
        elif part.preposition and item.places and not isinstance(self.before, n.Separator):
            item.places = []
        item.places.extend(part.names)
        item.place_preposition = part.preposition or item.place_preposition

    def _is_row_end(self, part: n.Place) -> bool:
        """`water North 1 to North 3`: where nothing moves, the beds from the first to the last."""
        held = self.item.places or self.item.sources
        moves = self.verb.kind in _MOVING_KINDS or self.verb.name == "fetch"
        if part.preposition != "to" or moves or not held:
            return False
        first, last = held[-1], part.names[0]
        stem = first.text.rstrip("0123456789")
        row = fellows(first, f"to {last.text[len(stem) :]}", part.span)
        if not last.text.lower().startswith(stem.lower()) or len(row) < 1 or not stem.strip():
            return False
        if row[-1].text.lower() != last.text.lower():
            return False
        held.extend(row)
        return True

    def _is_stretch_of_places(self, part: n.Place) -> bool:
        """`weed North 1 to Weir bed`: which beds lie between is nobody's to guess."""
        held = self.item.places
        if part.preposition != "to" or self.verb.name not in _ON_THE_SPOT or not held:
            return False
        if not self._beside(held[-1].span, part.span):
            return False
        span = Span(held[-1].span.start, part.span.end)
        cure = f"name every place: `{held[-1].text}, {part.names[0].text}`"
        self._fault("J101", span, word=self._written(span).text, cure=cure)
        return True

    def _goes_on_from(self, part: n.Place) -> bool:
        """`from North 1 and North 2`: a bare place after a comma goes on with the list."""
        if part.preposition or not isinstance(self.before, n.Separator):
            return False
        listed = self.parts[self.at - 3] if self.at > 2 else None
        return isinstance(listed, n.Place) and listed.preposition in {"from", "off"}

    def _is_inches(self, part: n.Place) -> bool:
        """`9 in apart`: `in` is never inches."""
        before = self.item.amounts[-1] if self.item.amounts else None
        word = part.names[0].text.lower()
        if part.preposition != "in" or word.split()[0] not in _LENGTH_WORDS or before is None:
            return False
        if not (isinstance(before.node, n.Quantity) and not before.node.unit):
            return False
        figure = self.text[before.span.start : before.span.end].strip()
        where = Span(part.span.start, part.span.start + 2)
        self._fault("J401", where, word="in", cure=f"write `{figure} inch {word}`")
        self.item.amounts.pop()
        return True

    def _to_party(self, part: n.Place) -> bool:
        name = part.names[0]
        if self.verb.name not in DEALINGS or name.known:
            return False
        shop = part.preposition == "at" and self.verb.name in {"buy", "pay"}
        if part.preposition not in {"to", "from"} and not shop:
            return False
        self.item.party = name.text
        return True

    def _lost_to(self, part: n.Place) -> bool:
        if self.verb.kind != "loss" or part.preposition != "to" or part.names[0].known:
            return False
        self.item.subject.append(Words(part.names[0].text, part.names[0].span))
        return True

    def _party(self, part: n.Party) -> None:
        if part.preposition or self.verb.name in DEALINGS:
            self.item.party = part.name
        elif self.verb.kind == "job" and isinstance(self.before, n.Separator | n.Place | Measured):
            self.out.helpers.append(part.name)  # `weed North 1, Ines 30 min`
        else:
            self._words(self._written(part.span))

    def _words(self, part: Words) -> None:
        """Loose words; the next grouper says what they are."""
        raise NotImplementedError

    def _inside(self, part: n.Inside) -> None:
        quantity = part.quantity
        if part.vessel:
            self.item.vessel = part.vessel
            counted = quantity is not None and not quantity.unit
            self.item.vessels = quantity.figure.middle if quantity and counted else None
        elif quantity is not None and quantity.unit in self.time_units:
            text = self.text[part.span.start : part.span.end]
            self.out.moments.append(n.Moment("within", text, part.span))
        elif quantity is not None and part.preposition == "at" and self.verb.kind == "heap":
            self.item.amounts.append(Measured(quantity, frozenset({"deep"}), quantity.span))
        elif quantity is not None and self._dilutes(part, quantity):
            return
        elif quantity is not None and self.verb.name == "thin" and part.preposition == "to":
            self.item.amounts.append(Measured(quantity, frozenset({"apart"}), quantity.span))
        elif quantity is not None and quantity.unit and self.verb.kind in _WATERED:
            self.item.amounts.append(Measured(quantity, frozenset(), quantity.span))
        elif quantity is not None and self._is_day(part, quantity):
            return
        elif quantity is not None:
            self._fault("J101", part.span, word=self.text[part.span.start : part.span.end])

    def _is_day(self, part: n.Inside, quantity: n.Quantity) -> bool:
        """`on 5 Jnue`: a month that is misspelt."""
        following = self._next()
        if quantity.unit or not isinstance(following, Words):
            return False
        first = following.text.split()[0]
        near = nearest(first, MONTH_NAMES, 1)
        if not near or not self._beside(part.span, following.span):
            return False
        self.at += 1
        span = Span(following.span.start, following.span.start + len(first))
        self._fault("J101", span, word=first, cure=f"write `{near[0]}`")
        return True

    def _dilutes(self, inside: n.Inside, water: n.Quantity) -> bool:
        """`20 ml in 5 l`; `1 in 10` may mean a tenth or an eleventh and is asked."""
        before = self.item.amounts[-1] if self.item.amounts else None
        if before is None or not isinstance(before.node, n.Quantity):
            return False
        if not before.node.unit:
            if self.verb.kind not in {"feed", "treatment"} or water.unit:
                return False
            span = Span(before.span.start, inside.span.end)
            one, parts = before.node.figure.middle, water.figure.middle
            self._fault(
                "J101", span, word=self._written(span).text, cure=f"write `{one:g}:{parts:g}`"
            )
            self.item.amounts.pop()
            return True
        if inside.preposition in {"/", "per"}:
            water = replace(water, span=inside.span)  # a strength, and not what was used
        self.item.dilution = (before.node, water)
        self.item.amounts.pop()
        return True

    def _cover(self, part: n.Cover) -> None:
        self.item.cover = part.name

    def _companion(self, part: n.Companion) -> None:
        if not part.crops:
            self.out.remarks.append(part.text)
            return
        # `lose 6 kale to cabbage root fly`
        span = Span(part.crops[0].span.start, part.span.end)
        while self._beside_next(span, Words, n.Crop, n.Material, n.Form):
            span = Span(span.start, self._next().span.end)
            self.at += 1
        self.item.subject.append(self._written(span))

    def _with(self, part: n.With) -> None:
        part = self._whole_name(part)
        if part.kind == "person" or self._is_helper(part):
            self._help(part)
            return
        self.item.with_ = part
        self.with_open = True
        if part.kind == "cover":
            self.item.cover = part.name

    def _whole_name(self, part: n.With) -> n.With:
        """`with peppermint oil`: words right behind a known name belong to it."""
        span, name_start = part.span, part.span.end - len(part.name)
        if not part.name or part.kind == "person":
            return part
        while self._beside_next(span, Words, n.Material, n.Form):
            span = Span(span.start, self._next().span.end)
            self.at += 1
        if span == part.span:
            return part
        return n.With(self._written(Span(name_start, span.end)).text, "words", span)

    def _is_helper(self, part: n.With) -> bool:
        """An undeclared proper name after a job is a helper; after a feed it is what was fed."""
        if part.kind != "words" or self.verb.kind in _STUFF_KINDS:
            return False
        return part.name[:1].isupper()

    def _help(self, part: n.With) -> None:
        if self.verb.name in DEALINGS:
            self.item.party = part.name
        else:
            self.out.helpers.append(part.name)

    def _material(self, part: n.Material) -> None:
        words = self._written(part.span)
        if self.verb.kind == "planting" and self._is_form(part):
            self.item.form = part.name
        elif self.with_open and self.item.with_ is not None and not self.item.with_.name:
            self.item.with_ = n.With(part.name, "material", part.span)
        elif self.verb.object == "subject":
            self._subject(words)
        elif self.verb.object == "task" and self._is_task(words.span):
            self.out.task.append(words.span)
        else:
            self._stuff(words)

    def _is_form(self, part: n.Material) -> bool:
        """`6 raspberry canes`, `raspberry, 6 canes`: the crop's own canes, and no bamboo."""
        crop, before = self.item.crop, self.before
        if crop is None or part.name not in FORMS or not isinstance(before, n.Crop | Measured):
            return False
        return self._beside(before.span, part.span)

    def _is_task(self, span: Span) -> bool:
        """`rebuild the lid`: for a job a known thing beside other words is part of the task."""
        among = bool(self.out.task) and self._beside(self.out.task[-1], span)
        return self.verb.name == "job" or among or self._beside_next(span, Words)

    def _stuff(self, words: Words) -> None:
        held, with_ = self.item.material, self.item.with_
        if self.with_open and with_ is not None and with_.name:
            self._with_also(with_, words)
            return
        if held is not None and self._beside(held.span, words.span):
            words = self._written(Span(held.span.start, words.span.end))
        elif held is not None:
            self.out.items.append(Item())
        self.item.material = words

    def _with_also(self, with_: n.With, words: Words) -> None:
        """`with tomato feed and seaweed`: how much of each nobody can tell, so it is asked."""
        if self.verb.kind in _WATERED:
            line = f"{self.text[: with_.span.start]}with {words.text}"
            cure = f"write it on a line of its own: `- {line}`"
            self._fault("J101", words.span, word=words.text, cure=cure)
            return
        self.item.with_ = n.With(f"{with_.name}; {words.text}", "words", with_.span)

    def _subject(self, words: Words) -> None:
        held = self.item.subject
        if held and self._beside(held[-1].span, words.span):
            words = self._written(Span(held.pop().span.start, words.span.end))
        held.append(words)
