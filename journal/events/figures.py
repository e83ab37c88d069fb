"""The amounts of one item to figures in SI: what is shared out, what holds for each, rates."""

import re
from collections.abc import Callable
from dataclasses import replace

from journal.events.amounts import Amount, Measures, is_finite, tidy
from journal.events.items import Item, Measured
from journal.events.sums import Figures
from journal.source import Span
from journal.syntax import nodes as n
from journal.syntax.verbs import Verb

_PACKETS = frozenset({"packet", "packets", "pkt", "pkts"})
_SLASHED = re.compile(r"(\d{1,5})/(\d{1,5})$")
_HOURS_AND = re.compile(r"(\d{1,2})\.(\d\d)\s*(?:h|hrs?|hours?)$", re.IGNORECASE)
_ROWS_AT = re.compile(r"(?:rows?|drills?) at ", re.IGNORECASE)
_LAYERS = frozenset(["cm", "mm", "inch", "inches", '"', "″", "”"])
Complain = Callable[..., None]


_POURED = frozenset({"feed", "water", "treatment", "dressing"})
_WEIGHED = frozenset({"mass", "volume"})


class Reckoner:
    """Turns the written amounts of an item into `Figures`, complaining of what it cannot use."""

    def __init__(self, verb: Verb, measures: Measures, text: str, complain: Complain):
        """`complain` takes a code, a span of the text and the words of its message."""
        self.verb = verb
        self.measures = measures
        self.text = text
        self.complain = complain

    def reckon(self, item: Item, crop: str) -> Figures:
        """The figures of one item; `crop` is its canonical name, "" for none."""
        figures = Figures()
        self.crop = crop
        self.form = item.form
        amounts = list(item.amounts)
        for at, part in enumerate(amounts):
            # `3 rows 30 cm apart` is between rows, `3 rows of 4 m, 5 cm apart` between plants
            before = amounts[at - 1] if at else None
            after_rows = self._is_right_behind(before, part)
            if not self._is_of_stuff(part, item, figures):
                self._one(part, after_rows, figures)
        if item.dilution is not None:
            self._dilute(item.dilution, figures)
        if figures.per_vessel and item.vessels and "count" not in figures.totals:
            figures.add(figures.per_vessel.times(item.vessels), False, False)
        return figures

    def _is_of_stuff(self, part: Measured, item: Item, figures: Figures) -> bool:
        """`plant 2 kg potato with 5 kg manure`: the crop's weight stands, manure is none of it."""
        node, given = part.node, item.with_
        if given is None or item.crop is None or self.verb.kind in _POURED:
            return False
        if not isinstance(node, n.Quantity) or part.ground or not part.used:
            return False
        if self.measures.weigh(node, self.crop).dimension not in figures.totals.keys() & _WEIGHED:
            return False
        self.complain("J414", part.span, word=self._written(part.span))
        return True

    def minutes(self, part: Measured) -> Amount | None:
        """Person-minutes of a written time: `1h30 x 2` is 180; None for `all morning`."""
        node = part.node
        if isinstance(node, n.Vague):
            words = node.text.lower()
            found = self.measures.find(words, "") or self.measures.find(words.split()[-1], "")
            if found is None or found.minutes is None:
                return None
            minutes = found.minutes * (0.5 if words.startswith("half") else 1)
            return Amount("time", minutes, minutes, minutes)
        if isinstance(node, n.Product):
            return self._people(node)
        if isinstance(node, n.Quantity) and self._sound(node, part.span):
            return None if self._is_clock(node, part) else self.measures.weigh(node)
        return None

    def _is_clock(self, node: n.Quantity, part: Measured) -> bool:
        """`1.30 h` may be an hour and a half, or a third less of an hour: it is asked."""
        if not node.figure.low % 1:
            return False
        written = _HOURS_AND.match(self._written(node.span))
        if written is None or written[2] in {"00", "25", "50", "75"} or int(written[2]) > 59:
            return False
        cure = f"write `{written[1]}h{written[2]}`"
        self.complain("J101", part.span, word=self._written(part.span), cure=cure)
        return True

    def _people(self, node: n.Product) -> Amount | None:
        if not all(self._sound(factor, factor.span) for factor in node.factors):
            return None
        amounts = [self.measures.weigh(factor) for factor in node.factors]
        times = [amount for amount in amounts if amount.dimension == "time"]
        if len(times) != 1:
            return None
        result = times[0]
        for amount in amounts:
            if amount.dimension == "count":
                result = result.times(amount.value)
        return result

    # ------------------------------------------------------------ one amount

    def _is_right_behind(self, rows: Measured | None, part: Measured) -> bool:
        """`3 rows 30 cm apart`, and not `3 rows, 5 cm apart`."""
        if rows is None or not isinstance(rows.node, n.Rows) or rows.node.length is not None:
            return False
        return self.text[rows.span.end : part.span.start].strip().lower() in {"", "at", "of"}

    def _written(self, span: Span) -> str:
        return " ".join(self.text[span.start : span.end].split())

    def _sound(self, quantity: n.Quantity, span: Span) -> bool:
        if is_finite(quantity):
            return True
        self.complain("J403", span, word=self._written(span))
        return False

    def _one(self, part: Measured, after_rows: bool, figures: Figures) -> None:
        node = part.node
        if isinstance(node, n.Vague):
            figures.texts.append(node.text)
        elif isinstance(node, n.Ratio):
            self._ratio(node, part, figures)
        elif isinstance(node, n.Rows):
            self._rows(node, part, figures)
        elif isinstance(node, n.PartOf):
            self._part_of(node, part, figures)
        elif isinstance(node, n.Product):
            self._product(node, part, figures)
        elif (share := self._part_in_figures(node)) is not None:
            self._part_of(share, part, figures)
        elif self._sound(node, part.span):
            self._quantity(node, part, after_rows, figures)

    def _ratio(self, node: n.Ratio, part: Measured, figures: Figures) -> None:
        if self.verb.kind not in {"feed", "treatment", "dressing", "water"}:
            time = f"{node.one:g}h{node.water:02g}" if node.water < 60 else "1h30"
            cure = f"write how long it took as `{time}`"
            self.complain("J101", part.span, word=self._written(part.span), cure=cure)
            return
        if node.one <= 0 or node.water <= 0:
            self.complain("J403", part.span, word=self._written(part.span))
            return
        figures.ratio = node.one / (node.one + node.water)

    def _rows(self, node: n.Rows, part: Measured, figures: Figures) -> None:
        if node.count is None:
            return
        count = self.measures.weigh(n.Quantity(node.count))
        figures.texts.append(self._written(part.span))
        figures.rows = count
        figures.rows_serve, figures.rows_each = not part.own, "each" in part.tails
        if node.length is None:
            return
        if not node.length.unit and self.verb.kind == "planting":
            figures.per_row = self.measures.weigh(node.length)  # `3 rows of 8`
            return
        length = self.measures.length(node.length)
        if length is None or not self._sound(node.length, part.span):
            cure = None if node.length.unit else f"write `{self._written(part.span)} m` for metres"
            words = self._written(node.length.span)
            self.complain("J408", node.length.span, word=words, cure=cure)
            return
        if length < 1 and _ROWS_AT.search(self._written(part.span)):
            figures.fixed["row_spacing_m"] = tidy(length)  # `3 rows at 30 cm`
            return
        figures.add(_as_length(count.times(length)), not part.own, False)

    def _part_of(self, node: n.PartOf, part: Measured, figures: Figures) -> None:
        if not (self._sound(node.part, part.span) and self._sound(node.whole, part.span)):
            return
        count, whole = self.measures.weigh(node.part), self.measures.weigh(node.whole, self.crop)
        if count.dimension == "loose" and whole.dimension in {"mass", "volume"}:
            figures.loose = count.value  # `2 bags of 500 g`
            self._keep(whole.times(count.value), part, figures)
            return
        if count.dimension != "count" or whole.dimension != "count":
            self.complain("J101", part.span, word=self._written(part.span))
            return
        if self.verb.name == "rate" and whole.value:
            figures.fixed["score"] = count.value / whole.value
            return
        figures.add(count, False, False)
        figures.fixed["count_of"] = whole.value
        figures.texts.append(self._written(part.span))
        if count.value > whole.value:
            self.complain("J410", part.span, word=self._written(part.span))

    def _product(self, node: n.Product, part: Measured, figures: Figures) -> None:
        if not all(self._sound(factor, part.span) for factor in node.factors):
            return
        last = node.factors[-1]
        lengths = [self.measures.length(factor) for factor in node.factors]
        if lengths[-1] is not None and len(node.factors) == 2:
            self._spacing(node, lengths, figures)
        elif not any(factor.unit for factor in node.factors):
            self.complain("J106", part.span, word=self._written(part.span))
        else:
            amount = self.measures.weigh(last, self.crop)
            for factor in node.factors[:-1]:
                if factor.unit:
                    self.complain("J101", part.span, word=self._written(part.span))
                    return
                amount = amount.times(factor.figure.middle)
            self._keep(amount, part, figures)

    def _spacing(self, node: n.Product, lengths: list[float | None], figures: Figures) -> None:
        first, last = node.factors
        plant = lengths[0]
        if plant is None:
            same_unit = n.Quantity(first.figure, last.unit)
            plant = self.measures.length(same_unit)
        if plant is not None and lengths[1] is not None:
            figures.fixed["spacing_m"] = tidy(plant)
            figures.fixed["row_spacing_m"] = tidy(lengths[1])

    def _quantity(
        self, node: n.Quantity, part: Measured, after_rows: bool, figures: Figures
    ) -> None:
        tails = part.tails
        if "per_row" in tails:
            figures.per_row = self.measures.weigh(node)
            figures.texts.append(self._written(part.span))
            return
        if "per_vessel" in tails and not node.unit:
            figures.per_vessel = self.measures.weigh(node)
            figures.texts.append(self._written(part.span))
            return
        if self._is_strength(node, part):
            figures.ratio = 1 / (1 + node.figure.high)
            return
        if "each_way" in tails:
            self._length_of(node, part, "row_spacing_m", figures)
        column = self._column(node, tails, after_rows)
        if column:
            self._length_of(node, part, column, figures)
            return
        if self._is_minutes(node, part):
            return
        amount = self.measures.weigh(node, self.crop)
        if amount.dimension in {"mass", "volume"} and self.measures.find(node.unit, self.crop):
            figures.measured = node.figure.middle
        if amount.dimension == "count" and self._no_count(amount, part):
            return
        if part.ground:
            figures.rates.append(amount.times(1 / part.ground))
            figures.rate_span = part.span
            figures.texts.append(self._written(part.span))
            return
        if amount.dimension == "length":
            metres = self.measures.length(node)
            rows = figures.rows if "length" not in figures.totals else None
            if rows is not None and metres is not None:
                figures.texts.append(self._written(part.span))
                figures.add(_as_length(rows.times(metres)), not part.own, False)
                return
        self._keep(amount, part, figures)

    def _is_minutes(self, node: n.Quantity, part: Measured) -> bool:
        """`weed North 1 45'`: feet of weeding are rarer than minutes, so it is asked."""
        if self.verb.kind != "job" or node.unit not in {"'", "′", "’"} or node.minor is not None:
            return False
        if self.crop or self.text[part.span.end : part.span.end + 40].split()[:1] == ["of"]:
            return False
        written = self._written(part.span)
        cure = f"write `{node.figure.low:g} min` for a time"
        self.complain("J101", part.span, word=written, cure=cure)
        return True

    def _part_in_figures(self, node: n.Quantity) -> n.PartOf | None:
        """`up 19/24`: so many of so many, where a fraction of a plant means nothing."""
        if node.unit or not node.figure.low % 1 or self.verb.name == "rate":
            return None
        written = _SLASHED.match(self._written(node.span))
        if written is None:
            return None
        part, whole = float(written[1]), float(written[2])
        if part > whole or (self.verb.kind not in {"raising", "stock check"} and whole <= 8):
            return None
        count, of = (n.Quantity(n.Figure(one, one), span=node.span) for one in (part, whole))
        return n.PartOf(count, of, node.span)

    def _is_untimed(self, part: Measured) -> bool:
        """`weed North 1 90`: a job has no count of its own; it is probably a time."""
        after = self.text[part.span.end :].lstrip()
        if self.verb.kind != "job" or self.crop or self.verb.name == "job" or part.tails:
            return False
        if after and after[0] not in ",;(":
            return False
        written = self._written(part.span)
        self.complain("J101", part.span, word=written, cure=f"write `{written} min` for a time")
        return True

    def _no_count(self, amount: Amount, part: Measured) -> bool:
        """`30/4` is a day without its `on`, `4.50` after `buy` money without its sign."""
        if self._is_untimed(part):
            return True
        written = self._written(part.span)
        if "/" in written and amount.value > 1 and self.verb.name != "rate":
            self.complain("J101", part.span, word=written, cure=f"write `on {written}` for a day")
            return True
        if self.verb.name in {"buy", "pay", "sell"} and re.fullmatch(r"\d+\.\d\d", written):
            self.complain("J101", part.span, word=written, cure=f"write `£{written}` for money")
            return True
        return False

    def _is_strength(self, node: n.Quantity, part: Measured) -> bool:
        """`1 to 10` of what is fed or sprayed: one part to ten of water, as `1:10` is."""
        figure = node.figure
        if self.verb.kind not in {"feed", "treatment"} or node.unit or part.tails:
            return False
        return figure.low == 1 < figure.high and " to " in self._written(part.span).lower()

    def _is_layer(self, node: n.Quantity) -> bool:
        """`mulch with 5 cm compost`: a length of a dressing in small units is how thick it lies."""
        return self.verb.kind == "dressing" and node.unit in _LAYERS

    def _column(self, node: n.Quantity, tails: frozenset[str], after_rows: bool) -> str:
        if "deep" in tails or self._is_layer(node):
            return "depth_m"
        if "between_rows" in tails or ("apart" in tails and after_rows):
            return "row_spacing_m"
        return "spacing_m" if tails & {"apart", "each_way"} else ""

    def _length_of(self, node: n.Quantity, part: Measured, column: str, figures: Figures) -> None:
        metres = self.measures.length(node)
        if metres is None:
            self.complain("J408", part.span, word=self._written(part.span))
            return
        figures.fixed[column] = tidy(metres)

    def _keep(self, amount: Amount, part: Measured, figures: Figures) -> None:
        kind = self.verb.name
        if "or_so" in part.tails:
            amount = replace(amount, approximate=True)
        if kind == "probe" and amount.dimension in {"temperature", "count"}:
            value = amount.value
            if amount.dimension == "count" and self.measures.fahrenheit:
                value = (value - 32) / 1.8
            figures.fixed["temperature_c"] = value
            return
        if kind == "level" and amount.dimension == "length":
            figures.fixed["depth_m"] = amount.value
            figures.texts.append(self._written(part.span))
            return
        if kind == "rate" and amount.dimension == "count":
            self._score(amount, part, figures)
            return
        if amount.dimension == "temperature":
            self.complain("J101", part.span, word=self._written(part.span))
            return
        figures.texts.append(self._written(part.span))
        if amount.dimension == "loose":
            figures.loose = amount.value
            figures.approximate = figures.approximate or amount.approximate
            return
        if amount.dimension == "count" and self.form in _PACKETS:
            amount = Amount("packets", amount.value, amount.low, amount.high, amount.approximate)
        each = "each" in part.tails
        if each and figures.loose is not None and amount.dimension in {"mass", "volume"}:
            amount, each = amount.times(figures.loose), False  # `2 bags 500 g each`
        figures.add(amount, not part.own, each)

    def _score(self, amount: Amount, part: Measured, figures: Figures) -> None:
        if 0 <= amount.value <= 1:
            figures.fixed["score"] = amount.value
        else:
            self.complain("J409", part.span, word=self._written(part.span))

    def _dilute(self, dilution: tuple[n.Quantity, n.Quantity], figures: Figures) -> None:
        stuff, water = dilution
        if not (self._sound(stuff, stuff.span) and self._sound(water, water.span)):
            return
        amounts = self.measures.weigh(stuff), self.measures.weigh(water)
        if amounts[1].dimension != "volume" or amounts[1].value <= 0:
            self.complain("J101", water.span, word=self._written(water.span))
            return
        figures.dilution = amounts
        strength = self._written(water.span).lower().startswith(("per ", "to ", "/"))
        if "volume" not in figures.totals and not strength:
            figures.add(amounts[1], True, False)  # all that was mixed was used
        figures.texts.append(self._written(Span(stuff.span.start, water.span.end)))


def _as_length(amount: Amount) -> Amount:
    return Amount("length", amount.value, amount.low, amount.high, amount.approximate)
