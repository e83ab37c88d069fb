"""Lark's tree of crops, cultivars, places, people and things to nodes."""

import re
from typing import Any

from lark import Token

from journal.source import Span
from journal.syntax import nodes
from journal.syntax.numbers import squeeze
from journal.syntax.tokens import Child, Written, span_of

_UNDER = {"under", "underneath", "beneath", "between", "among", "amongst"}


class BuildNames(Written):
    """The rules of what, where, with what and with whom."""

    def crop_part(self, children: list[Child]) -> tuple[Any, ...]:
        """A crop with what stands beside it: a known cultivar, or plugs, sets, seed."""
        made: list[Any] = []
        for token in children:
            span = span_of([token])
            if token.type == "CROP":
                made.append(nodes.Crop(squeeze(self._word(token)), span))
            elif token.type == "FORM":
                made.append(nodes.Form(squeeze(self._word(token)), span))
            else:
                made.append(nodes.Cultivar(self._word(token), False, span))
        return tuple(made)

    def cultivar(self, children: list[Child]) -> nodes.Cultivar:
        """`'Musselburgh'`."""
        return nodes.Cultivar(self._word(children[0])[1:-1].strip(), True, span_of(children))

    def label(self, children: list[Child]) -> nodes.Label:
        """`[second]`."""
        return nodes.Label(self._word(children[0])[1:-1].strip(), span_of(children))

    def name(self, children: list[Child]) -> nodes.PlaceName:
        """An undeclared name, from its first word to its last."""
        span = span_of(children)
        return nodes.PlaceName(" ".join(self._slice(span).split()), False, span)

    numbered = name

    def place(self, children: list[Child]) -> nodes.Place:
        """`in North 2`; `from Bed 1 to 4` may be a move or a row of beds."""
        first = children[0]
        if not (isinstance(first, Token) and first.type == "PREP"):
            return nodes.Place("", self._place_names(children), span=span_of(children))
        preposition, last = squeeze(self._word(first)), children[-1]
        if preposition == "from" and len(children) > 2 and self._word(last)[:2].lower() == "to":
            names = self._place_names(children[1:-1])
            target = _fellows(list(names), last, self._word(last)[2:])
            whole = _fellows(list(names), last, self._word(last))
            return nodes.Place(
                preposition, names, tuple(target), (*names, *whole), span_of(children)
            )
        return nodes.Place(preposition, self._place_names(children[1:]), span=span_of(children))

    def _place_names(self, children: list[Child]) -> tuple[nodes.PlaceName, ...]:
        first = children[0]
        found = [first] if isinstance(first, nodes.PlaceName) else [self._known(first)]
        for token in children[1:]:
            found.extend(_fellows(found, token, self._word(token)))
        return tuple(found)

    def _known(self, token: Token) -> nodes.PlaceName:
        return nodes.PlaceName(" ".join(self._word(token).split()), True, span_of([token]))

    def party(self, children: list[Child]) -> nodes.Party:
        """`to Ines`, or the name alone."""
        preposition = squeeze(self._word(children[0])) if len(children) > 1 else ""
        return nodes.Party(preposition, self._word(children[-1]), span_of(children))

    def material(self, children: list[Child]) -> nodes.Material:
        """`leaf mould`."""
        return nodes.Material(squeeze(self._word(children[-1])), span_of(children[-1:]))

    def cover(self, children: list[Child]) -> nodes.Cover:
        """`under fleece`."""
        words = squeeze(self._word(children[-1]))
        return nodes.Cover(re.sub(r"^(?:an?|the) ", "", words), span_of(children))

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
            return nodes.With("", "", span_of(children))
        rest = children[1:]
        first = rest[0]
        start = children[0].start_pos
        if isinstance(first, tuple):
            last = max(node.span.end for node in first)
            inner = Span(min(node.span.start for node in first), last)
            return nodes.With(squeeze(self._slice(inner)), "crop", Span(start, last))
        span = Span(start, span_of(rest).end)
        inner = Span(span_of(rest).start, span.end)
        if isinstance(first, nodes.PlaceName):
            return nodes.With(first.text, "words", span)
        kinds = {"MATERIAL": "material", "PERSON": "person", "COVER": "cover", "VESSEL": "vessel"}
        kind = kinds.get(first.type, "place")
        text = " ".join(self._slice(inner).split())
        return nodes.With(text if kind in {"person", "place"} else squeeze(text), kind, span)


setattr(BuildNames, "with", BuildNames.with_)


def _fellows(before: list[nodes.PlaceName], token: Token, written: str) -> list[nodes.PlaceName]:
    """`, 2` after `North 1` is `North 2`; `to 4` after `Bed 1` is `Bed 2`, `Bed 3`, `Bed 4`."""
    where = span_of([token])
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
