"""Where lark's tokens and the nodes made so far stand in an entry's text."""

from functools import lru_cache
from typing import Any, TypeAlias

from lark import Token, Transformer

from journal.source import Span

Child: TypeAlias = Any  # lark hands over tokens and the nodes made so far


# within an entry the same few thousand spans come again and again: each is made once
entry_span = lru_cache(maxsize=1 << 14)(Span)


def span_of(children: list[Child]) -> Span:
    """From the first child's start to the last one's end."""
    return entry_span(_start(children[0]), _end(children[-1]))


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


def tokens_of(children: list[Child], kind: str) -> list[Token]:
    """The children that are tokens of one kind."""
    return [child for child in children if isinstance(child, Token) and child.type == kind]


class Written(Transformer[Token, Any]):
    """A transformer that looks up what stands in the text; `text` is set before each parse."""

    text: str = ""

    def _slice(self, span: Span) -> str:
        return self.text[span.start : span.end]

    def _word(self, token: Token) -> str:
        """A token as written; the token itself may hold a mark."""
        return self.text[token.start_pos : token.end_pos]
