"""Lark's tree of one entry to nodes, as the parser goes; spans count from the entry's text."""

import re
from typing import Any, TypeAlias

from lark import Token, Transformer

from journal.source import Span
from journal.syntax import nodes
from journal.syntax.marks import VESSELS
from journal.syntax.nodes import Figure, Quantity

Child: TypeAlias = Any  # lark hands over tokens and the nodes made so far

_FRACTIONS = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3}
_FRACTIONS |= {"⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}
NUMBER_WORDS = {
    word: float(value)
    for value, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve".split(), start=1
    )
}
_PHRASES = {"a": 1.0, "an": 1.0, "half": 0.5, "half a": 0.5, "half an": 0.5, "a half": 0.5}
_PHRASES |= {"a couple": 2.0, "a couple of": 2.0}
_PHRASES |= {"a dozen": 12.0, "one dozen": 12.0}
_UNDER = {"under", "underneath", "beneath", "between", "among", "amongst"}
_TAILS = {
    "DEEP": "deep",
    "LONG": "long",
    "APART": "apart",
    "BETWEEN_ROWS": "between_rows",
    "PER_AREA": "per_area",
    "PER_ROW": "per_row",
    "EACH": "each",
    "ALTOGETHER": "altogether",
}
_MOMENTS = {
    "ON_DATE": "on",
    "BY_DATE": "by",
    "IN_SPAN": "within",
    "IN_MONTH": "in",
    "EVERY": "every",
    "UNTIL": "until",
    "NEXT": "next",
}
_SYMBOLS = {"£": "GBP", "$": "USD", "€": "EUR"}
# Weights and Measures Act 1985, Schedule 1.
_YARD, _FOOT = 0.9144, 0.3048
_MAX_FIGURE = 1e12


def squeeze(text: str) -> str:
    """Lower case with single spaces: how units and names are looked up."""
    return " ".join(text.lower().split())


def number(text: str) -> float:
    """`24`, `1½`, `1 1/2`, `4/5`, `half a`, `two`, `1,200` as a figure.

    A figure with too many digits to mean anything is read as infinite, which the events refuse.
    """
    words = squeeze(text)
    if words in _PHRASES:
        return _PHRASES[words]
    if words in NUMBER_WORDS:
        return NUMBER_WORDS[words]
    if "quarter" in words:
        return 0.75 if words.startswith("three") else 0.25
    if words.endswith(" and a half"):
        return number(words.removesuffix(" and a half")) + 0.5
    if words[-1] in _FRACTIONS:
        return float(words[:-1].strip() or 0) + _FRACTIONS[words[-1]]
    if "/" in words:
        whole, _, fraction = words.rpartition(" ")
        upper, lower = fraction.split("/")
        part = float(upper[:15]) / float(lower[:15]) if float(lower[:15]) else float("inf")
        return float(whole or 0) + part
    plain = words.replace(",", "")
    value = float(plain) if len(plain) < 40 else float("inf")  # `1e999` is infinite too
    return value if value <= _MAX_FIGURE else float("inf")


def _span(children: list[Child]) -> Span:
    return Span(_start(children[0]), _end(children[-1]))


def _start(child: Child) -> int:
    """Where a token, a node or a figure with its span begins."""
    if isinstance(child, Token):
        return child.start_pos or 0
    start: int = (child[1] if isinstance(child, tuple) else child.span).start
    return start


def _end(child: Child) -> int:
    if isinstance(child, Token):
        return child.end_pos or 0
    end: int = (child[1] if isinstance(child, tuple) else child.span).end
    return end


def _tokens(children: list[Child], kind: str) -> list[Token]:
    return [child for child in children if isinstance(child, Token) and child.type == kind]


class Build(Transformer[Token, Any]):
    """Turns each rule of diary.lark into its node; `text` is set to the entry's before parsing."""

    text: str = ""

    def _slice(self, span: Span) -> str:
        return self.text[span.start : span.end]

    def _word(self, token: Token) -> str:
        """A token as written; the token itself may hold a mark."""
        return self.text[token.start_pos : token.end_pos]

    # ------------------------------------------------------------ amounts

    def figure(self, children: list[Child]) -> tuple[Figure, Span]:
        """`24`, `2-3`."""
        figures = [number(self._word(token)) for token in _tokens(children, "NUMBER")]
        word = squeeze(self._word(children[0]))
        return (
            Figure(min(figures), max(figures), len(figures) > 1 or word.startswith("a couple")),
            _span(children),
        )

    def quantity(self, children: list[Child]) -> Quantity:
        """A figure with its unit."""
        span = _span(children)
        kinds = {child.type for child in children if isinstance(child, Token)}
        about = bool(kinds & {"APPROX", "OR_SO"})
        if "HOURS_MINUTES" in kinds:
            hours, minutes = re.findall(r"\d+", self._word(_tokens(children, "HOURS_MINUTES")[0]))
            return Quantity(
                Figure(float(hours), float(hours), about),
                "h",
                Figure(float(minutes), float(minutes)),
                "min",
                span=span,
            )
        figures = [child[0] for child in children if isinstance(child, tuple)]
        first = _hedged(figures[0], about)
        if "AND_HALF" in kinds:
            first = Figure(first.low + 0.5, first.high + 0.5, first.approximate)
        units = [squeeze(self._word(t)) for t in children if _is_unit(t)]
        if "MAJOR" in kinds:
            major = units[0].removesuffix(" and")
            minor_unit = units[1] if len(units) > 1 else ""
            return Quantity(
                first, major, figures[1] if len(figures) > 1 else None, minor_unit, span=span
            )
        return _dozens(Quantity(first, units[0] if units else "", span=span))

    def product(self, children: list[Child]) -> nodes.Product | nodes.Fault:
        """`15 x 30 cm`."""
        span = _span(children)
        if isinstance(children[-1], Token):
            return nodes.Fault("times", self._slice(span), span)
        first, last = children[0], children[-1]
        if isinstance(first, nodes.Fault):
            return first
        head = first.factors if isinstance(first, nodes.Product) else (first,)
        return nodes.Product((*head, last), span)

    def part_of(self, children: list[Child]) -> nodes.PartOf | nodes.Fault:
        """`36 of 40`."""
        span = _span(children)
        if isinstance(children[-1], Token):
            return nodes.Fault("of", self._slice(span), span)
        return nodes.PartOf(children[0], children[-1], span)

    def rows(self, children: list[Child]) -> nodes.Rows | nodes.Fault:
        """`3 rows of 4 m`."""
        span = _span(children)
        last = children[-1].type if isinstance(children[-1], Token) else ""
        if last == "ROWS_OF":
            return nodes.Fault("rows", self._slice(span), span)
        if last == "BARE_ROWS":
            return nodes.Rows(None, None, span)
        head: Quantity = children[0]
        if head.unit:  # `a 4 m row`
            return nodes.Rows(Figure(1, 1), head, span)
        length = children[-1] if isinstance(children[-1], Quantity) and len(children) > 2 else None
        return nodes.Rows(head.figure, length, span)

    def ratio(self, children: list[Child]) -> nodes.Ratio:
        """`1:200`."""
        one, water = self._word(children[0]).split(":")
        return nodes.Ratio(float(one), float(water), _span(children))

    def counted(self, children: list[Child]) -> tuple[Any, ...] | nodes.Form:
        """`2 packets`."""
        form = nodes.Form(squeeze(self._word(children[-1])), _span(children[-1:]))
        return form if len(children) == 1 else (children[0], form)

    def tail(self, children: list[Child]) -> nodes.Tail:
        """`deep`, `apart`, `each`."""
        token = children[0]
        kind, word = _TAILS[token.type], self._word(token)
        ground = _ground(squeeze(word)) if kind == "per_area" else 0.0
        return nodes.Tail(kind, word, ground, _span(children))

    def hedge(self, children: list[Child]) -> nodes.Tail:
        """`or so`, `each`, `altogether`, apart from its amount."""
        kind = _TAILS.get(children[0].type, "or_so")
        return nodes.Tail(kind, self._word(children[0]), span=_span(children))

    # ------------------------------------------------------------ names

    def crop_part(self, children: list[Child]) -> tuple[Any, ...]:
        """A crop with what stands beside it: a known cultivar, or plugs, sets, seed."""
        made: list[Any] = []
        for token in children:
            span = _span([token])
            if token.type == "CROP":
                made.append(nodes.Crop(squeeze(self._word(token)), span))
            elif token.type == "FORM":
                made.append(nodes.Form(squeeze(self._word(token)), span))
            else:
                made.append(nodes.Cultivar(self._word(token), False, span))
        return tuple(made)

    def cultivar(self, children: list[Child]) -> nodes.Cultivar:
        """`'Musselburgh'`."""
        return nodes.Cultivar(self._word(children[0])[1:-1].strip(), True, _span(children))

    def label(self, children: list[Child]) -> nodes.Label:
        """`[second]`."""
        return nodes.Label(self._word(children[0])[1:-1].strip(), _span(children))

    def lead(self, children: list[Child]) -> tuple[Any, ...]:
        """The crop that stands before its verb."""
        return _flat(children)

    def name(self, children: list[Child]) -> nodes.PlaceName:
        """An undeclared name, from its first word to its last."""
        span = _span(children)
        return nodes.PlaceName(" ".join(self._slice(span).split()), False, span)

    numbered = name

    def place(self, children: list[Child]) -> nodes.Place:
        """`in North 2`; `from Bed 1 to 4` may be a move or a row of beds."""
        first = children[0]
        if not (isinstance(first, Token) and first.type == "PREP"):
            return nodes.Place("", self._place_names(children), span=_span(children))
        preposition, last = squeeze(self._word(first)), children[-1]
        if preposition == "from" and len(children) > 2 and self._word(last)[:2].lower() == "to":
            names = self._place_names(children[1:-1])
            target = _fellows(list(names), last, self._word(last)[2:])
            whole = _fellows(list(names), last, self._word(last))
            return nodes.Place(preposition, names, tuple(target), (*names, *whole), _span(children))
        return nodes.Place(preposition, self._place_names(children[1:]), span=_span(children))

    def _place_names(self, children: list[Child]) -> tuple[nodes.PlaceName, ...]:
        first = children[0]
        found = [first] if isinstance(first, nodes.PlaceName) else [self._known(first)]
        for token in children[1:]:
            found.extend(_fellows(found, token, self._word(token)))
        return tuple(found)

    def _known(self, token: Token) -> nodes.PlaceName:
        return nodes.PlaceName(" ".join(self._word(token).split()), True, _span([token]))

    def party(self, children: list[Child]) -> nodes.Party:
        """`to Ines`, or the name alone."""
        preposition = squeeze(self._word(children[0])) if len(children) > 1 else ""
        return nodes.Party(preposition, self._word(children[-1]), _span(children))

    def material(self, children: list[Child]) -> nodes.Material:
        """`leaf mould`."""
        return nodes.Material(squeeze(self._word(children[-1])), _span(children[-1:]))

    # ------------------------------------------------------------ phrases

    def inside(self, children: list[Child]) -> nodes.Inside:
        """`into 9 cm pots`; `per litre` is in a litre."""
        span = _span(children)
        if isinstance(children[0], Token) and children[0].type == "PER_LITRE":
            unit = squeeze(self._word(children[0])).split()[-1]
            return nodes.Inside("in", Quantity(Figure(1, 1), unit, span=span), span=span)
        preposition = squeeze(self._word(children[0])) if isinstance(children[0], Token) else ""
        quantity = next((child for child in children if isinstance(child, Quantity)), None)
        vessel = ""
        if isinstance(children[-1], Token) and children[-1].type == "VESSEL":
            start = quantity.span.start if quantity else children[-1].start_pos
            vessel = " ".join(self.text[start : span.end].split())
        elif preposition and quantity is not None and quantity.unit in VESSELS:
            vessel = " ".join(self._slice(quantity.span).split())
        return nodes.Inside(preposition, quantity, vessel, span)

    def cover(self, children: list[Child]) -> nodes.Cover:
        """`under fleece`."""
        words = squeeze(self._word(children[-1]))
        return nodes.Cover(re.sub(r"^(?:an?|the) ", "", words), _span(children))

    def companion(self, children: list[Child]) -> nodes.Companion:
        """`under sweetcorn` is a neighbour; `on broad bean` is the crop itself."""
        preposition, crops = squeeze(self._word(children[0])), tuple(children[1])
        span = Span(children[0].start_pos, max(node.span.end for node in crops))
        text = " ".join(self._slice(span).split())
        if preposition in _UNDER:
            return nodes.Companion(text, "under", span=span)
        return nodes.Companion(text, preposition, crops, span)

    def with_(self, children: list[Child]) -> nodes.With | tuple[Any, ...]:
        """`with chicken pellets`, `with Ines`."""
        if len(children) == 1:
            return nodes.With("", "", _span(children))
        rest = children[1:]
        first = rest[0]
        start = children[0].start_pos
        if isinstance(first, tuple):
            last = max(node.span.end for node in first)
            inner = Span(min(node.span.start for node in first), last)
            return nodes.With(squeeze(self._slice(inner)), "crop", Span(start, last))
        span = Span(start, _span(rest).end)
        inner = Span(_span(rest).start, span.end)
        if isinstance(first, nodes.PlaceName):
            return nodes.With(first.text, "words", span)
        kinds = {"MATERIAL": "material", "PERSON": "person", "COVER": "cover", "VESSEL": "vessel"}
        kind = kinds.get(first.type, "place")
        text = " ".join(self._slice(inner).split())
        return nodes.With(text if kind in {"person", "place"} else squeeze(text), kind, span)

    def duration(self, children: list[Child]) -> nodes.Duration | nodes.Fault:
        """`for 2 hours`."""
        if len(children) == 1:
            return nodes.Fault("for", self._word(children[0]), _span(children))
        return nodes.Duration(children[1], _span(children))

    def aside(self, children: list[Child]) -> nodes.Aside:
        """`along the path`."""
        span = _span(children)
        return nodes.Aside(" ".join(self._slice(span).split()), span)

    def vague(self, children: list[Child]) -> nodes.Vague:
        """`a few`."""
        token = children[0]
        return nodes.Vague(
            " ".join(self._word(token).split()), token.type == "VAGUE_TIME", _span(children)
        )

    def moment(self, children: list[Child]) -> nodes.Moment:
        """`on 5 Nov`."""
        token = children[0]
        return nodes.Moment(
            _MOMENTS[token.type], " ".join(self._word(token).split()), _span(children)
        )

    def times(self, children: list[Child]) -> nodes.Times:
        """`twice`, `2 people`."""
        if children[0].type == "PEOPLE":
            number_of = re.match(r"\d+|\w+", self._word(children[0]))
            people = int(number(number_of[0])) if number_of else 1
            return nodes.Times(max(1, people), True, _span(children))
        words = squeeze(self._word(children[0])).split()
        counts = {"twice": 2, "thrice": 3}
        count = counts.get(words[0]) or int(number(words[0]))
        return nodes.Times(max(1, min(count, 31)), False, _span(children))

    def money(self, children: list[Child]) -> nodes.Money | nodes.Fault:
        """`£4.50`, and `each` before or after it."""
        span = _span(children)
        amount = _tokens(children, "MONEY")
        if not amount:
            return nodes.Fault("price", self._word(children[0]), span)
        kinds = [child.type for child in children]
        if kinds[-1] == "PER":
            return nodes.Fault("per", self._slice(span), span)
        if "PER" in kinds:
            return _money(self._word(amount[0]), False, span, squeeze(self._word(children[-1])))
        return _money(self._word(amount[0]), len(children) > 1, span)

    def remark(self, children: list[Child]) -> nodes.Remark:
        """`(wind-rocked)`."""
        token = children[0]
        closed = token.type == "REMARK"
        text = self._word(token)[1:-1] if closed else self._word(token)[1:]
        return nodes.Remark(text.strip(), closed, _span(children))

    def separator(self, children: list[Child]) -> nodes.Separator:
        """A comma or `and`."""
        return nodes.Separator(squeeze(self._word(children[0])), _span(children))

    def unread(self, children: list[Child]) -> nodes.Unread:
        """A word of no rule."""
        return nodes.Unread(self._word(children[0]), _span(children))

    def loose(self, children: list[Child]) -> nodes.Unread:
        """`rows` or `x` behind a part that has no use for it."""
        return nodes.Unread(self._word(children[0]), _span(children))

    loose_times = loose

    def stray(self, children: list[Child]) -> nodes.Stray:
        """A sign without meaning here."""
        return nodes.Stray(self._word(children[0]), _span(children))

    def fault(self, children: list[Child]) -> nodes.Fault:
        """A preposition with nothing behind it, a comma for a point, a quote that never closes."""
        kinds = {"PREP": "place", "OPEN_QUOTE": "quote"}
        kind = kinds.get(children[0].type, "comma")
        return nodes.Fault(kind, self._word(children[0]), _span(children))

    def entry(self, children: list[Child]) -> tuple[list[Token], tuple[Any, ...], tuple[Any, ...]]:
        """The verb tokens, the crop before them, and the parts after them, flat."""
        tokens = [child for child in children if isinstance(child, Token)]
        first = children[0]
        lead: tuple[Any, ...] = () if isinstance(first, Token) else first
        rest = children[0 if isinstance(first, Token) else 1 :]
        return tokens, lead, _flat([child for child in rest if not isinstance(child, Token)])


setattr(Build, "with", Build.with_)


def _flat(children: list[Child]) -> tuple[Any, ...]:
    flat: list[Any] = []
    for child in children:
        flat.extend(child) if isinstance(child, tuple) else flat.append(child)
    return tuple(flat)


def _ground(words: str) -> float:
    """`per m2`, `per sq yd`, `per 100 sq ft` in square metres."""
    side = _YARD if "y" in words else _FOOT if "f" in words else 1.0
    figure = re.search(r"\d+(?:\.\d+)?(?!\d*$)", words)
    many = float(figure[0]) if figure and len(figure[0]) < 9 else 1.0
    return many * side**2 if many else side**2


def _is_unit(child: Child) -> bool:
    return isinstance(child, Token) and child.type in {"UNIT", "MEASURE", "MAJOR"}


def _hedged(figure: Figure, about: bool) -> Figure:
    return Figure(figure.low, figure.high, figure.approximate or about)


def _dozens(quantity: Quantity) -> Quantity:
    if quantity.unit != "dozen":
        return quantity
    figure = quantity.figure
    twelves = Figure(figure.low * 12, figure.high * 12, figure.approximate)
    return Quantity(twelves, span=quantity.span)


def _fellows(before: list[nodes.PlaceName], token: Token, written: str) -> list[nodes.PlaceName]:
    """`, 2` after `North 1` is `North 2`; `to 4` after `Bed 1` is `Bed 2`, `Bed 3`, `Bed 4`."""
    where = _span([token])
    return fellows(before[-1], written, where)


def fellows(previous: nodes.PlaceName, written: str, span: Span) -> list[nodes.PlaceName]:
    """The places that a bare number after a numbered place stands for."""
    digits = re.search(r"(\d+)[a-z]?$", previous.text)
    fellow = re.search(r"(\d+)([a-z]?)$", written)
    if digits is None or fellow is None:
        return []
    stem = previous.text[: digits.start()]
    where = Span(span.end - len(fellow[0]), span.end)
    first, last = int(digits[1]), int(fellow[1])
    ranged = re.match(r"to|-|–", written, re.IGNORECASE) is not None
    known = previous.known
    if ranged and first < last <= first + 100:
        return [nodes.PlaceName(f"{stem}{n}", known, where) for n in range(first + 1, last + 1)]
    return [nodes.PlaceName(f"{stem}{fellow[0]}", known, where)]


def _money(text: str, each: bool, span: Span, per: str = "") -> nodes.Money:
    figure = re.search(r"[\d.,]+", text)
    value = float(figure[0].replace(",", "")) if figure and len(figure[0]) < 20 else float("inf")
    word = re.sub(r"[\d.,\s]", "", text)
    if word.lower() in {"p", "pence"}:
        return nodes.Money(value / 100, "GBP", each, per, span)
    if word.lower().startswith("euro"):
        return nodes.Money(value, "EUR", each, per, span)
    return nodes.Money(value, _SYMBOLS.get(word, word.upper()), each, per, span)
