"""The parts of one entry to its items: what belongs to which crop or place.

Decides by the shape of the entry and its verb alone; names, units and dates are settled later.
"""

from dataclasses import dataclass, field
from typing import Any

from journal.source import Span
from journal.syntax import nodes as n
from journal.syntax.build import fellows
from journal.syntax.verbs import DEALINGS, Verb

AmountNode = n.Quantity | n.Product | n.PartOf | n.Rows | n.Vague | n.Ratio


@dataclass(frozen=True, slots=True)
class Measured:
    """An amount with the words that say what it is (`deep`, `apart`, `each`).

    `own` is false for what was said after its item's head, so that it may serve every item.
    """

    node: AmountNode
    tails: frozenset[str]
    span: Span
    own: bool = True
    used: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """A run of words that no rule claims, as written."""

    text: str
    span: Span


@dataclass(slots=True)
class Item:
    """What one event (or one for each of its places) is made from; filled while grouping."""

    crop: n.Crop | None = None
    undeclared: Words | None = None
    cultivar: n.Cultivar | None = None
    label: str = ""
    amounts: list[Measured] = field(default_factory=list)
    places: list[n.PlaceName] = field(default_factory=list)
    sources: list[n.PlaceName] = field(default_factory=list)
    place_preposition: str = ""
    times: list[Measured] = field(default_factory=list)
    money: list[tuple[n.Money, bool]] = field(default_factory=list)
    with_: n.With | None = None
    material: Words | None = None
    vessel: str = ""
    cover: str = ""
    party: str = ""
    subject: list[Words] = field(default_factory=list)
    form: str = ""
    dilution: tuple[n.Quantity, n.Quantity] | None = None

    @property
    def headed(self) -> bool:
        """Whether a crop, cultivar or place has been said."""
        named = self.crop or self.undeclared or self.cultivar
        return bool(named or self.places or self.material or self.subject)


@dataclass(slots=True)
class Grouped:
    """An entry's items with what belongs to the whole of it."""

    items: list[Item] = field(default_factory=list)
    moments: list[n.Moment] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    task: list[Span] = field(default_factory=list)
    helpers: list[str] = field(default_factory=list)
    repeat: int = 1
    altogether: Measured | None = None
    # code, span, words for the message
    faults: list[tuple[str, Span, dict[str, object]]] = field(default_factory=list)


_CROP_KINDS = frozenset(
    {
        "sowing",
        "raising",
        "planting",
        "moving",
        "harvest",
        "loss",
        "stock check",
        "kitchen",
        "purchase",
        "verdict",
    }
)
_STUFF_KINDS = frozenset({"feed", "water", "dressing", "treatment", "heap", "structure"})
_LENGTH_WORDS = frozenset({"apart", "deep", "long", "wide", "thick", "high", "tall", "square"})
_INTO = frozenset({"in", "into", "on", "onto", "to", "at", "under", "underneath", "beneath"})
_INTO |= {"inside", "among", "amongst", "between"}


class Grouper:
    """Walks an entry's parts once, in order, and puts each where it belongs."""

    def __init__(self, text: str, verb: Verb, parts: tuple[Any, ...], time_units: frozenset[str]):
        """`verb` is the planned verb where the entry is an intention."""
        self.text = text
        self.verb = verb
        self.parts = _with_tails(_run_words(parts, text))
        self.time_units = time_units
        self.on_crops = verb.kind in _CROP_KINDS
        self.out = Grouped(items=[Item()])
        self.with_open = False
        self.at = 0
        self.before: Any = None

    @property
    def item(self) -> Item:
        """The item that is being filled."""
        return self.out.items[-1]

    def group(self, lead: tuple[Any, ...] = ()) -> Grouped:
        """The entry's items; `lead` is the crop that stood before its verb."""
        for part in lead:
            self._take(part)
        while self.at < len(self.parts):
            part = self.parts[self.at]
            self.before = self.parts[self.at - 1] if self.at else None
            self.at += 1
            self._take(part)
        return self.out

    def _next(self, ahead: int = 0) -> Any:
        at = self.at + ahead
        return self.parts[at] if at < len(self.parts) else None

    def _fault(self, code: str, span: Span, **words: object) -> None:
        self.out.faults.append((code, span, words))

    # ------------------------------------------------------------ where a part goes

    def _take(self, part: Any) -> None:
        handler = _HANDLERS.get(type(part))
        if handler is not None:
            handler(self, part)

    def _separator(self, part: n.Separator) -> None:
        while isinstance(self._next(), n.Separator):
            self.at += 1
        if self._begins_item():
            again = isinstance(self._next(), Measured) and isinstance(self._next(1), n.Place)
            again = again and self.on_crops
            before = self.item
            self._open_item()
            if again and self.item is not before:
                self.item.crop, self.item.undeclared = before.crop, before.undeclared
                self.item.cultivar, self.item.label = before.cultivar, before.label

    def _begins_item(self) -> bool:
        first = self._next()
        if isinstance(first, n.Crop | n.Cultivar):
            return True
        if isinstance(first, n.Place) and not first.preposition:
            return self._place_begins_item()
        if isinstance(first, Measured) and _counts(first):
            second = self._next(1)
            if isinstance(second, n.Form):
                second = self._next(2)
            if isinstance(second, n.Crop | n.Cultivar):
                return True
            if isinstance(second, n.Place) and not second.preposition:
                return not self.on_crops
            if isinstance(second, n.Place):
                return self._amount_elsewhere(first)
            if isinstance(second, Words | n.Material) and not self._is_time(first):
                return self.on_crops or (self.verb.object == "material" and self.item.headed)
        return False

    def _amount_elsewhere(self, amount: Measured) -> bool:
        """`3 kg from Long 3, 2 kg from Long 1`: the same crop again, in another place."""
        item = self.item
        placed = item.places or item.sources
        return bool(placed and item.amounts) and self.on_crops and not self._is_time(amount)

    def _place_begins_item(self) -> bool:
        """`Sack 1 10 l, Sack 2` begins anew; `weed Long 1, Long 2` goes on with a list."""
        item = self.item
        if self.on_crops and not item.places:
            return False
        settled = [m for m in (*item.amounts, *item.times) if not m.used and not m.own]
        return bool(settled) and not self.on_crops and bool(item.places)

    def _open_item(self) -> None:
        if self.item.headed or self.item.amounts:
            self.out.items.append(Item())
        self.with_open = False

    def _crop(self, part: n.Crop) -> None:
        if self.verb.object == "material" and self._joins_material(part):
            return
        if self.verb.object == "subject" and self._joins_subject(part.span):
            self._subject(self._written(part.span))
            return
        if self.item.crop is not None or self.item.undeclared is not None:
            self._open_item()
        self.with_open = False
        self.item.crop = part
        self._join_task(part.span)

    def _written(self, span: Span) -> Words:
        return Words(" ".join(self.text[span.start : span.end].split()), span)

    def _beside(self, first: Span, second: Span) -> bool:
        """Whether two parts stand side by side, the second after the first."""
        return first.end <= second.start and _adjacent_in(self.text, first, second)

    def _beside_next(self, span: Span, *kinds: type) -> bool:
        following = self._next()
        return isinstance(following, kinds) and self._beside(span, following.span)

    def _joins_subject(self, span: Span) -> bool:
        """`carrot fly`, `club root`: a known name beside loose words is part of what was seen."""
        held = self.item.subject
        if held and self._beside(held[-1].span, span):
            return True
        return self._beside_next(span, Words, n.Crop, n.Material, n.Form)

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
        if part.preposition in {"from", "off"}:
            self.item.sources.extend(part.names)
            return
        if self.verb.name == "job" and not name.known and not _looks_like_place(name.text):
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
        if part.preposition and item.places and not isinstance(self.before, n.Separator):
            if not item.place_preposition and part.preposition in {"to", "into"}:
                item.sources.extend(item.places)  # `empty Bay A to Long 1`
            item.places = []
        item.places.extend(part.names)
        item.place_preposition = part.preposition or item.place_preposition

    def _goes_on_from(self, part: n.Place) -> bool:
        """`from Long 1 and Long 2`: a bare place after a comma goes on with the list."""
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
        if self.verb.name not in DEALINGS or name.known or part.preposition not in {"to", "from"}:
            return False
        self.item.party = name.text
        return True

    def _lost_to(self, part: n.Place) -> bool:
        if self.verb.kind != "loss" or part.preposition != "to" or part.names[0].known:
            return False
        self.item.subject.append(Words(part.names[0].text, part.names[0].span))
        return True

    def _party(self, part: n.Party) -> None:
        self.item.party = part.name

    def _inside(self, part: n.Inside) -> None:
        quantity = part.quantity
        if part.vessel:
            self.item.vessel = part.vessel
        elif quantity is not None and quantity.unit in self.time_units:
            text = self.text[part.span.start : part.span.end]
            self.out.moments.append(n.Moment("within", text, part.span))
        elif quantity is not None and self._dilutes(quantity):
            return
        elif quantity is not None:
            self._fault("J101", part.span, word=self.text[part.span.start : part.span.end])

    def _dilutes(self, water: n.Quantity) -> bool:
        """`20 ml in 5 l`."""
        before = self.item.amounts[-1] if self.item.amounts else None
        if before is None or not isinstance(before.node, n.Quantity) or not before.node.unit:
            return False
        self.item.dilution = (before.node, water)
        self.item.amounts.pop()
        return True

    def _cover(self, part: n.Cover) -> None:
        self.item.cover = part.name

    def _companion(self, part: n.Companion) -> None:
        self.out.remarks.append(part.text)

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
        if self.with_open and self.item.with_ is not None and not self.item.with_.name:
            self.item.with_ = n.With(part.name, "material", part.span)
        elif self.verb.object == "subject":
            self._subject(words)
        elif self.verb.object == "task" and self._is_task(words.span):
            self.out.task.append(words.span)
        else:
            self._stuff(words)

    def _is_task(self, span: Span) -> bool:
        """`rebuild the lid`: for a job a known thing beside other words is part of the task."""
        among = bool(self.out.task) and self._beside(self.out.task[-1], span)
        return self.verb.name == "job" or among or self._beside_next(span, Words)

    def _stuff(self, words: Words) -> None:
        held = self.item.material
        if held is not None and self._beside(held.span, words.span):
            words = self._written(Span(held.span.start, words.span.end))
        elif held is not None:
            self.out.items.append(Item())
        self.item.material = words

    def _subject(self, words: Words) -> None:
        held = self.item.subject
        if held and self._beside(held[-1].span, words.span):
            words = self._written(Span(held.pop().span.start, words.span.end))
        held.append(words)

    # ------------------------------------------------------------ loose words

    def _words(self, part: Words) -> None:
        if self._slip_of_unit(part) or self._another_helper(part):
            return
        if self.with_open and self.item.with_ is not None and not self.item.with_.name:
            self.item.with_ = n.With(part.text, "words", part.span)
            return
        target = self.verb.object
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
        if self.item.places or self.out.task or not part.text[:1].isalpha():
            return False
        if not _is_bare(following) or not self._beside(part.span, following.span):
            return False
        if self.verb.name == "job" or isinstance(self._next(1), n.Crop | Words | n.Material):
            return False
        self.at += 1
        low, high = int(following.node.figure.low), int(following.node.figure.high)
        first = n.PlaceName(f"{part.text} {low}", False, Span(part.span.start, following.span.end))
        self.item.places = [first]
        if high > low:
            self.item.places += fellows(first, f"to {high}", following.span)
        while isinstance(self._next(), n.Separator) and self._is_fellow(self._next(1)):
            number = self._next(1)
            self.at += 2
            self.item.places += fellows(first, f"{number.node.figure.low:g}", number.span)
        return True

    def _is_fellow(self, part: Any) -> bool:
        beyond = self._next(2)
        return _is_bare(part) and (beyond is None or isinstance(beyond, n.Separator | n.Remark))

    def _another_helper(self, part: Words) -> bool:
        """`with Edie and Tom`."""
        listed = isinstance(self.before, n.Separator) and self.at > 2
        if not listed or not isinstance(self.parts[self.at - 3], n.With) or not self.out.helpers:
            return False
        if not part.text[:1].isupper():
            return False
        self.out.helpers.append(part.text)
        return True

    def _slip_of_unit(self, part: Words) -> bool:
        """`1.2 kgs kale`: a word close to a unit right after a bare figure."""
        before = self.item.amounts[-1] if self.item.amounts else None
        if before is None or not isinstance(before.node, n.Quantity) or before.node.unit:
            return False
        if not self._beside(before.span, part.span):
            return False
        first, _, rest = part.text.partition(" ")
        unit = _SLIPS.get(first.lower().rstrip("."))
        if unit is None:
            return False
        where = Span(part.span.start, part.span.start + len(first))
        self._fault("J401", where, word=first, cure=f"write `{unit}`", edit=unit)
        self.item.amounts.pop()
        if rest:
            lead = part.span.start + len(first) + (len(part.text) - len(first) - len(rest))
            self._words(Words(rest, Span(lead, part.span.end)))
        return True

    def _crop_words(self, part: Words) -> None:
        item = self.item
        following = self._next()
        beside = isinstance(following, n.Crop) and self._beside(part.span, following.span)
        free = item.crop is None and item.undeclared is None and item.cultivar is None
        if free and not beside and not item.headed:
            item.undeclared = part
            return
        if free and not beside and self.verb.name == "buy":
            item.undeclared = part
            return
        crop = following if beside else item.crop
        near = crop is not None and (beside or self._beside(crop.span, part.span))
        if near and isinstance(crop, n.Crop):
            self._fault("J109", part.span, word=part.text, crop=crop.name)
        else:
            self._fault("J101", part.span, word=part.text)

    def _place_words(self, part: Words) -> None:
        if self.item.places or self.item.crop:
            self._fault("J101", part.span, word=part.text)
            return
        self.item.places.append(n.PlaceName(part.text, False, part.span))

    def _task_words(self, part: Words) -> None:
        bare = not self.item.places and not self.out.task
        if self.verb.name not in {"job", "pay"} and bare and _looks_like_place(part.text):
            self.item.places.append(n.PlaceName(part.text, False, part.span))
            return
        self.out.task.append(part.span)

    # ------------------------------------------------------------ amounts

    def _measured(self, part: Measured) -> None:
        if "altogether" in part.tails and not self._is_time(part):
            self.out.altogether = part
            return
        if self._is_time(part):
            self.item.times.append(self._placed(part))
            return
        if self._opens_by_amount(part):
            self._open_item()
        self.item.amounts.append(self._placed(part))
        if self.verb.name == "job":
            self.out.task.append(part.span)

    def _opens_by_amount(self, part: Measured) -> bool:
        """`1 kg kale 400 g leek`: an amount before a second crop, where a comma was forgotten."""
        following = self._next()
        if self.item.crop is None or not _counts(part) or not isinstance(following, n.Crop):
            return False
        return bool(self.item.amounts) and self._beside(part.span, following.span)

    def _placed(self, part: Measured) -> Measured:
        head = self._head_end()
        bare = isinstance(part.node, n.Quantity) and not part.node.unit
        close = head is not None and bare and self._beside(Span(0, head), part.span)
        own = not self.item.headed or close or isinstance(part.node, n.PartOf)
        return Measured(part.node, part.tails, part.span, own, self.with_open)

    def _head_end(self) -> int | None:
        item = self.item
        heads = [part.span.end for part in (item.crop, item.undeclared, item.cultivar) if part]
        return max(heads) if heads else None

    def _is_time(self, part: Measured) -> bool:
        node = part.node
        if isinstance(node, n.Vague):
            return node.time
        if isinstance(node, n.Product):
            return any(factor.unit in self.time_units for factor in node.factors)
        return isinstance(node, n.Quantity) and node.unit in self.time_units

    def _form(self, part: n.Form) -> None:
        if self.verb.object == "subject" and self._joins_subject(part.span):
            self._subject(self._written(part.span))
            return
        if self.verb.object == "material" and self.item.crop is None:
            self._stuff(self._written(part.span))
            return
        self._join_task(part.span)
        self.item.form = part.text

    def _duration(self, part: n.Duration) -> None:
        measured = Measured(part.quantity, frozenset(), part.quantity.span)
        if self._is_time(measured):
            self.item.times.append(self._placed(measured))
        else:
            self.out.remarks.append(self.text[part.span.start : part.span.end])

    def _money(self, part: n.Money) -> None:
        self.item.money.append((part, not self.item.headed))

    # ------------------------------------------------------------ the rest

    def _moment(self, part: n.Moment) -> None:
        self.out.moments.append(part)

    def _times(self, part: n.Times) -> None:
        self.out.repeat = part.count

    def _remark(self, part: n.Remark) -> None:
        self.out.remarks.append(part.text)
        if not part.closed:
            self._fault("J104", Span(part.span.start, part.span.start + 1))

    def _aside(self, part: n.Aside) -> None:
        self.out.remarks.append(part.text)

    def _tail(self, part: n.Tail) -> None:
        amounts = self.item.amounts or self.item.times
        if part.kind == "or_so" and amounts:
            last = amounts.pop()
            tails = last.tails | {"or_so"}
            amounts.append(Measured(last.node, tails, last.span, last.own, last.used))
            return
        self._fault("J101", part.span, word=part.text)

    def _stray(self, part: n.Stray) -> None:
        if part.text in {".", "!", "…"} and self.at >= len(self.parts):
            return
        self._fault("J105", part.span, word=part.text)

    def _unfinished(self, part: n.Fault) -> None:
        if part.kind == "comma":
            self._fault(
                "J402", part.span, word=part.text, cure=f"write `{part.text.replace(',', '.')}`"
            )
            return
        code = {"place": "J102", "for": "J102"}.get(part.kind, "J107")
        self._fault(code, part.span, word=part.text)


def _with_tails(parts: list[Any]) -> list[Any]:
    """Puts the words that qualify an amount (`deep`, `each`) together with it."""
    made: list[Any] = []
    for part in parts:
        amount = isinstance(part, AmountNode)
        if amount:
            made.append(Measured(part, frozenset(), part.span))
        elif isinstance(part, n.Tail) and made and _is_spacing(made[-1], part):
            # `thin to 5 cm apart`
            inside = made.pop()
            made.append(Measured(inside.quantity, frozenset({part.kind}), inside.quantity.span))
        elif isinstance(part, n.Tail) and made and isinstance(made[-1], Measured):
            last = made[-1]
            span = Span(last.span.start, part.span.end)
            made[-1] = Measured(last.node, last.tails | {part.kind}, span)
        else:
            made.append(part)
    return made


def _is_spacing(part: Any, tail: n.Tail) -> bool:
    plain = isinstance(part, n.Inside) and part.quantity is not None and not part.vessel
    return plain and tail.kind in {"apart", "deep", "between_rows"}


def _run_words(parts: tuple[Any, ...], text: str) -> list[Any]:
    """Puts neighbouring words that no rule claims together into runs."""
    made: list[Any] = []
    for part in parts:
        if not isinstance(part, n.Unread):
            made.append(part)
            continue
        span = part.span
        if made and isinstance(made[-1], Words) and _adjacent_in(text, made[-1].span, span):
            span = Span(made.pop().span.start, span.end)
        made.append(Words(" ".join(text[span.start : span.end].split()), span))
    return made


_SMALL_WORDS = frozenset("the some of our my its a an".split())


def _adjacent_in(text: str, first: Span, second: Span) -> bool:
    """Whether only white space and words that are passed over stand between two spans."""
    between = text[first.end : second.start].lower().split()
    return all(word in _SMALL_WORDS for word in between)


def _counts(part: Measured) -> bool:
    """Whether an amount may lead an item: no depth, spacing or rate."""
    if part.tails - {"each"}:
        return False
    return not isinstance(part.node, n.Ratio | n.Rows)


def _looks_like_place(text: str) -> bool:
    return text[:1].isupper() or text[-1:].isdigit()


def _is_bare(part: Any) -> bool:
    """Whether a part is a whole number and nothing else."""
    if not isinstance(part, Measured) or part.tails or not isinstance(part.node, n.Quantity):
        return False
    figure = part.node.figure
    return not part.node.unit and figure.low == int(min(figure.low, 1e6)) and figure.high < 1e6


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

_HANDLERS: dict[type, Any] = {
    n.Separator: Grouper._separator,
    n.Crop: Grouper._crop,
    n.Cultivar: Grouper._cultivar,
    n.Label: Grouper._label,
    n.Place: Grouper._place,
    n.Party: Grouper._party,
    n.Inside: Grouper._inside,
    n.Cover: Grouper._cover,
    n.Companion: Grouper._companion,
    n.With: Grouper._with,
    n.Material: Grouper._material,
    Words: Grouper._words,
    Measured: Grouper._measured,
    n.Form: Grouper._form,
    n.Duration: Grouper._duration,
    n.Money: Grouper._money,
    n.Moment: Grouper._moment,
    n.Times: Grouper._times,
    n.Remark: Grouper._remark,
    n.Aside: Grouper._aside,
    n.Tail: Grouper._tail,
    n.Stray: Grouper._stray,
    n.Fault: Grouper._unfinished,
}
