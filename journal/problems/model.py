"""A problem as a value: its code, the narrowest text that is wrong, a sentence and a mend."""

from dataclasses import dataclass

from journal.problems.codes import CODES, Code, Severity
from journal.source import Source, Span


@dataclass(frozen=True, slots=True)
class Related:
    """Another place that explains a problem, with a label of a few words."""

    source: Source
    span: Span
    label: str


@dataclass(frozen=True, slots=True)
class Edit:
    """A cure that is certain: replace the text of `span` by `text`."""

    span: Span
    text: str
    title: str


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong with a diary, and what to type instead."""

    code: str
    source: Source
    span: Span
    message: str
    mend: str | None = None
    related: tuple[Related, ...] = ()
    edit: Edit | None = None

    @property
    def row(self) -> Code:
        """The registry's row of this problem's code."""
        return CODES[self.code]

    @property
    def severity(self) -> Severity:
        """The severity is the code's, never the single problem's."""
        return self.row.severity

    @property
    def key(self) -> tuple[str, int, int, str, str]:
        """Sorts problems as a reader meets them."""
        return (self.source.path, self.span.start, self.span.end, self.code, self.message)


_LONGEST_WORD = 36


def _quoted(word: object) -> str:
    """A written word as it stands in a message: on one line, without backticks, not too long."""
    text = _whole(word)
    return text if len(text) <= _LONGEST_WORD else text[: _LONGEST_WORD - 1] + "…"


def _whole(word: object) -> str:
    """A written word as it stands in a mend, where it must be whole to be typed."""
    return " ".join(str(word).replace("`", "'").split())


def make(
    code: str,
    source: Source,
    span: Span,
    *,
    mend: str | None = None,
    related: tuple[Related, ...] = (),
    edit: Edit | None = None,
    **words: object,
) -> Problem:
    """A problem with its code's own words; `words` fill the places in the message and the mend.

    `mend` replaces the code's mend where the cure depends on what was written.
    """
    row = CODES[code]
    filled = {key: _quoted(word) for key, word in words.items()}
    whole = {key: _whole(word) for key, word in words.items()}
    cure = mend if mend is not None else row.mend.format(**whole)
    return Problem(code, source, span, row.message.format(**filled), cure or None, related, edit)


def sort_problems(problems: "list[Problem] | tuple[Problem, ...]") -> tuple[Problem, ...]:
    """Problems in reading order, each once."""
    return tuple({problem.key: problem for problem in sorted(problems, key=_key)}.values())


def _key(problem: Problem) -> tuple[str, int, int, str, str]:
    return problem.key
