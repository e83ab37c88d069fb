"""lark's LALR parser with its two inner loops, of tokens and of actions, made one.

The tables, the patterns and the callbacks are lark's. A text that cannot be parsed goes to lark
itself, so that the error is lark's too. Tokens know their offsets, but neither line nor column.
"""

from collections.abc import Callable
from re import Match
from typing import Any

from lark import Token
from lark.lexer import ContextualLexer, LexerThread
from lark.parsers.lalr_analysis import Shift
from lark.parsers.lalr_parser import LALR_Parser

_END = "$END"
Action = tuple[int, Any, str]  # states to take back, what is made of them, and its name
Matcher = Callable[[str, int], Match[str] | None]
_SHIFT = -1


class QuickParser(LALR_Parser):
    """Parses whole texts as lark does, with the contextual lexer."""

    def __init__(self, *conf: Any, **options: Any):
        """Takes what lark gives its own."""
        super().__init__(*conf, **options)
        self._actions: dict[int, dict[str, Action]] = {}
        self._matchers: dict[int, tuple[Matcher, dict[str, Any]]] = {}
        self._ignored: frozenset[str] = frozenset()

    def parse(self, lexer: LexerThread, start: str, on_error: Any = None) -> Any:
        """What the start rule's callback makes of the text."""
        if not self._actions:
            self._prepare(lexer.lexer)
        state: Any = lexer.state
        made = self._run(state.text.text, start)
        if made is not None:
            return made[0]
        return super().parse(lexer, start, on_error)  # type: ignore[no-untyped-call] # lark's own

    def _prepare(self, lexer: Any) -> None:
        """Puts each state's actions and the callbacks of its rules together."""
        assert isinstance(lexer, ContextualLexer)
        callbacks = self.parser_conf.callbacks
        self._lexers = lexer.lexers
        self._ignored = frozenset(lexer.root_lexer.ignore_types)  # type: ignore[attr-defined]
        table: Any = self._parse_table
        for state, row in table.states.items():
            self._actions[state] = {
                name: (_SHIFT, to, "")
                if action is Shift
                else (len(to.expansion), callbacks[to], to.origin.name)
                for name, (action, to) in row.items()
            }

    def _matcher(self, state: int) -> tuple[Matcher, dict[str, Any]]:
        """The pattern of what may stand in a state, compiled when it is first met."""
        lexer: Any = self._lexers[state]
        scanner = lexer.scanner
        assert len(scanner._mres) == 1, "one pattern holds at most a hundred terminals"
        found = self._matchers[state] = (scanner._mres[0].match, lexer.callback)
        return found

    def _run(self, text: str, start: str) -> tuple[Any] | None:
        """What was made of the text, None where lark has to say what is wrong with it."""
        actions, matchers, ignored = self._actions, self._matchers, self._ignored
        table: Any = self._parse_table
        states, last = [table.start_states[start]], table.end_states[start]
        values: list[Any] = []
        kind: Any
        at, end = 0, len(text)
        while True:
            state = states[-1]
            if at < end:
                match, callbacks = matchers.get(state) or self._matcher(state)
                found = match(text, at)
                if found is None:
                    return None
                kind, begin, at = found.lastgroup, at, found.end()
                if kind in ignored:
                    continue
                token = _token(kind, found[0], begin, at)
                if kind in callbacks:
                    token = callbacks[kind](token)
                name = token.type
            else:
                name, token = _END, None
            while True:
                action = actions[state].get(name)
                if action is None:
                    return None
                size, made, origin = action
                if size == _SHIFT:
                    states.append(made)
                    values.append(token)
                    break
                children = values[-size:] if size else []
                if size:
                    del states[-size:], values[-size:]
                values.append(made(children))
                state = actions[states[-1]][origin][1]
                states.append(state)
                if token is None and state == last:
                    return (values[-1],)


def _token(kind: str, text: str, start: int, end: int) -> Token:
    token = str.__new__(Token, text)
    token.type, token.value = kind, text
    token.start_pos, token.end_pos = start, end
    token.line = token.column = token.end_line = token.end_column = None
    return token


PLUGINS: dict[str, Any] = {"LALR_Parser": QuickParser}
