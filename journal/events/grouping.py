"""The parts of one entry to its items: what belongs to which crop or place.

Decides by the shape of the entry and its verb alone; names, units and dates are settled later.
"""

import re
from dataclasses import replace
from typing import Any

from journal.events.items import Grouped, Measured, Words
from journal.events.loose import WordGrouper
from journal.events.runs import is_bare, may_lead
from journal.source import Span
from journal.syntax import nodes as n


class Grouper(WordGrouper):
    """Walks an entry's parts once, in order, and puts each where it belongs."""

    def group(self, lead: tuple[Any, ...] = ()) -> Grouped:
        """The entry's items; `lead` is the crop that stood before its verb."""
        for part in lead:
            self._take(part)
        while self.at < len(self.parts):
            part = self.parts[self.at]
            self.before = self.parts[self.at - 1] if self.at else None
            self.at += 1
            self._take(part)
        self._name_before()
        if self.verb.kind in _TAKEN:
            self._keep_where_it_grew()
        return self.out

    def _keep_where_it_grew(self) -> None:
        """`clear pea from North 1 into Bay A`: it stood in North 1; where it went is a remark."""
        for item in self.out.items:
            if item.sources and item.places:
                names = ", ".join(place.text for place in item.places)
                self.out.remarks.append(f"{item.place_preposition or 'to'} {names}")
                item.places = []

    def _name_before(self) -> None:
        """`'Sungold' and 'Alicante' tomato`: the crop behind the last cultivar is that of all."""
        for item, later in zip(self.out.items[-2::-1], self.out.items[:0:-1], strict=True):
            named = item.crop or item.undeclared or not item.cultivar
            crop, cultivar = later.crop, later.cultivar
            if not named and crop and cultivar and cultivar.span.end <= crop.span.start:
                item.crop = crop

    def _take(self, part: Any) -> None:
        handler = _HANDLERS.get(type(part))
        if handler is not None:
            handler(self, part)

    def _separator(self, part: n.Separator) -> None:
        while isinstance(self._next(), n.Separator):
            self.at += 1
        if self._begins_item():
            again = isinstance(self._next(), Measured)
            again = again and isinstance(self._next(1), n.Place | n.Party)
            again = again and self.on_crops
            before = self.item
            self._open_item()
            if again and self.item is not before:
                self.item.crop, self.item.undeclared = before.crop, before.undeclared
                self.item.cultivar, self.item.label = before.cultivar, before.label

    def _begins_item(self) -> bool:
        first = self._next()
        if isinstance(first, n.Crop | n.Cultivar) or self._is_filled(first):
            return True
        if isinstance(first, n.Material | Words) and self.verb.object == "material":
            return self._is_heaped()
        if isinstance(first, Measured) and isinstance(first.node, n.Rows):
            return isinstance(self._next(1), n.Crop | n.Cultivar)  # `2 rows of beetroot`
        if isinstance(first, n.Place) and not first.preposition:
            return self._place_begins_item()
        if isinstance(first, Measured) and may_lead(first):
            second = self._next(1)
            if isinstance(second, n.Form):
                second = self._next(2)
            if isinstance(second, n.Crop | n.Cultivar):
                return True
            if isinstance(second, n.Place) and not second.preposition:
                return not self.on_crops
            if isinstance(second, n.Place | n.Party):
                return self._amount_elsewhere(first)
            if isinstance(second, Words | n.Material) and not self._is_time(first):
                if self.verb.object == "subject":
                    return bool(self.item.subject)  # `42 slugs, 13 snails`
                return self.on_crops or (self.verb.object == "material" and self.item.headed)
        return False

    def _is_heaped(self) -> bool:
        """`with grass 2 barrows, leaves 3 barrows`: what goes before is whole."""
        with_ = self.item.with_
        return self.item.headed and with_ is not None and bool(with_.name)

    def _is_filled(self, part: Any) -> bool:
        """`2 trays lettuce`: a vessel with its number begins an item of what is in it."""
        vessel = isinstance(part, n.Inside) and part.vessel and not part.preposition
        named = (self._next(1), self._next(2)) if vessel else ()
        crop = any(isinstance(one, n.Crop | n.Cultivar) for one in named[:1])
        return crop or (len(named) == 2 and is_bare(named[0]) and isinstance(named[1], n.Crop))

    def _amount_elsewhere(self, amount: Measured) -> bool:
        """`3 kg from North 3, 2 kg from North 1`: the same crop, elsewhere or to somebody else."""
        item = self.item
        placed = item.places or item.sources or item.party
        return bool(placed and item.amounts) and self.on_crops and not self._is_time(amount)

    def _place_begins_item(self) -> bool:
        """`Churn 1 10 l, Churn 2` begins anew; `weed North 1, North 2` goes on with a list."""
        item = self.item
        listed = self.parts[self.at - 2] if self.at > 1 else None
        if (self.on_crops and not item.places) or isinstance(listed, n.Place):
            return False
        settled = [m for m in (*item.amounts, *item.times) if not m.used and not m.own]
        return bool(settled) and not self.on_crops and bool(item.places)

    # ------------------------------------------------------------ amounts

    def _measured(self, part: Measured) -> None:
        if "altogether" in part.tails and not self._is_time(part):
            self.out.altogether = part
            return
        if self._is_time(part):
            self.item.times.append(self._placed(part))
            return
        if self._half_said(part):
            return
        if self._opens_by_amount(part):
            self._open_item()
        self.item.amounts.append(self._placed(part))
        if self.verb.name == "job":
            self.out.task.append(part.span)

    def _half_said(self, part: Measured) -> bool:
        """`2 lb 4 kale`: four ounces or four kale, so neither is used."""
        before = self.item.amounts[-1] if self.item.amounts else None
        if before is None or before.tails or not isinstance(before.node, n.Quantity):
            return False
        minor = _MINOR.get(before.node.unit)
        if minor is None or not is_bare(part) or not self._beside(before.span, part.span):
            return False
        span = Span(before.span.start, part.span.end)
        written = self._written(span).text
        self._fault("J107", span, word=written, cure=f"write `{written} {minor}`")
        self.item.amounts.pop()
        return True

    def _opens_by_amount(self, part: Measured) -> bool:
        """`1 kg kale 400 g leek`: an amount before a second crop, where a comma was forgotten."""
        following = self._next()
        leads = may_lead(part) or isinstance(part.node, n.Rows)
        if self.item.crop is None or not leads or not isinstance(following, n.Crop):
            return False
        return bool(self.item.amounts) and self._beside(part.span, following.span)

    def _placed(self, part: Measured) -> Measured:
        head = self._head_end()
        bare = isinstance(part.node, n.Quantity) and not part.node.unit
        close = head is not None and bare and self._beside(Span(0, head), part.span)
        own = not self.item.headed or close or isinstance(part.node, n.PartOf)
        return replace(part, own=own, used=self.with_open)

    def _head_end(self) -> int | None:
        item = self.item
        heads = [part.span.end for part in (item.crop, item.undeclared, item.cultivar) if part]
        return max(heads) if heads else None

    def _form(self, part: n.Form) -> None:
        if self.verb.object == "subject" and self._joins_subject(part.span):
            self._subject(self._written(part.span))
            return
        if self.verb.object == "material" and self.item.crop is None:
            self._stuff(self._written(part.span))
            return
        self._join_task(part.span)
        if not self.item.form.startswith(("packet", "pkt")):
            # the seed of `2 packets carrot seed` is what the packets hold
            self.item.form = part.text

    def _duration(self, part: n.Duration) -> None:
        measured = Measured(part.quantity, frozenset(), part.quantity.span)
        if self._is_time(measured):
            self.item.times.append(self._placed(measured))
            return
        span = part.span
        while self.verb.name == "swap" and self._beside_next(span, n.Crop, n.Cultivar, Words):
            span = Span(span.start, self._next().span.end)  # `swap 12 leek for 6 kale`
            self.at += 1
        self.out.remarks.append(self._written(span).text)

    def _money(self, part: n.Money) -> None:
        self.item.money.append((part, not self.item.headed))

    # ------------------------------------------------------------ the rest

    def _moment(self, part: n.Moment) -> None:
        self.out.moments.append(part)

    def _times(self, part: n.Times) -> None:
        if part.people:
            self.out.people = part.count
        else:
            self.out.repeat = part.count

    def _remark(self, part: n.Remark) -> None:
        self.out.remarks.append(part.text)
        if not part.closed:
            self._fault("J104", Span(part.span.start, part.span.start + 1))

    def _aside(self, part: n.Aside) -> None:
        self.out.remarks.append(part.text)

    def _tail(self, part: n.Tail) -> None:
        amounts = self.item.amounts or self.item.times
        if amounts:
            last = amounts.pop()
            tails = last.tails | {part.kind}
            made = replace(last, tails=tails, ground=part.ground or last.ground)
            if part.kind == "altogether" and amounts is self.item.amounts:
                self.out.altogether = made
            else:
                amounts.append(made)
            return
        if part.kind == "each" and self.item.money:
            money, own = self.item.money.pop()
            self.item.money.append((replace(money, each=True), own))
            return
        self._fault("J101", part.span, word=part.text)

    def _stray(self, part: n.Stray) -> None:
        if part.text in {".", "!", "…"} and self.at >= len(self.parts):
            return
        if part.text == "%" and self.verb.name == "rate" and self._is_per_cent():
            return
        cure = (
            None if any(map(str.isalnum, part.text)) or part.text[0] > "\u2fff" else "take it away"
        )
        self._fault("J105", part.span, word=part.text, cure=cure)

    def _is_per_cent(self) -> bool:
        """`rate tomato 80%`: eighty of a hundred."""
        last = self.item.amounts[-1] if self.item.amounts else None
        if last is None or not is_bare(last) or not isinstance(last.node, n.Quantity):
            return False
        hundred = n.Quantity(n.Figure(100, 100), span=last.span)
        self.item.amounts[-1] = replace(last, node=n.PartOf(last.node, hundred, last.span))
        return True

    def _unfinished(self, part: n.Fault) -> None:
        if part.kind == "comma":
            self._fault(
                "J402", part.span, word=part.text, cure=f"write `{part.text.replace(',', '.')}`"
            )
            return
        if part.kind == "quote":
            cure = f"write `'{part.text.strip(_QUOTES)}'`"
            self._fault("J111", part.span, word=part.text, cure=cure)
            return
        if part.kind == "figure":
            self._fault("J101", part.span, word=part.text, cure=_one_figure(part.text))
            return
        if part.text.lower() == "from" and isinstance(self._next(), n.Moment):
            return  # `every 3 weeks from 1 July`
        if part.kind == "clock":
            self._fault("J101", part.span, word=part.text, cure=f"write `{_clock(part.text)}`")
            return
        code = {"place": "J102", "for": "J102"}.get(part.kind, "J107")
        self._fault(code, part.span, word=part.text)


def _clock(text: str) -> str:
    """How long `9.30 to 11.00` is, as it may be written: `1h30`."""
    times = re.findall(r"(\d{1,2})(?:[:.](\d\d))?\s*([ap])?", text.lower())
    first, last = (int(h) % 12 * 60 + int(m or 0) for h, m, _ in times[:2])
    minutes = (last - first) % 720 or 720
    whole = f"{minutes // 60}h" if minutes >= 60 else ""
    rest = f"{minutes % 60:02d}" if minutes % 60 else ""
    return f"{whole}{rest}" if whole else f"{minutes} min"


def _one_figure(text: str) -> str:
    """The figure that `l0` was meant for; of `1.2.3` only the writer knows."""
    meant = text.translate(str.maketrans("lIO", "110"))
    return f"write `{meant}`" if meant.isdigit() else "write it as a figure, for example `1.2`"


_QUOTES = "'\"‘’“”`´"
# What was taken from where it grew.
_TAKEN = frozenset({"harvest", "loss", "end"})
_MINOR = dict.fromkeys(["lb", "lbs", "pound", "pounds"], "oz")
_MINOR |= dict.fromkeys(["ft", "foot", "feet"], "inch") | dict.fromkeys(["st", "stone"], "lb")


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
