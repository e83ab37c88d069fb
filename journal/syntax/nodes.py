"""The pieces of a page as frozen values: lines, entries, declarations, and the parts of an entry.

Spans are left out of equality, so that tests compare meaning. The spans of parts count from the
start of their entry's text; `Entry.at` moves one into the file.
"""

from dataclasses import dataclass, field
from typing import TypeAlias

from journal.source import Source, Span
from journal.syntax.amount_nodes import (
    NOWHERE,
    Duration,
    Figure,
    Form,
    Moment,
    Money,
    PartOf,
    Product,
    Quantity,
    Ratio,
    Rows,
    Tail,
    Times,
    Vague,
)
from journal.syntax.name_nodes import (
    Companion,
    Cover,
    Crop,
    Cultivar,
    Inside,
    Label,
    Material,
    Party,
    Place,
    PlaceName,
    With,
)

__all__ = [
    "NOWHERE",
    "Aside",
    "Companion",
    "Cover",
    "Crop",
    "Cultivar",
    "Date",
    "DayLine",
    "Declaration",
    "Document",
    "Duration",
    "Entry",
    "Fault",
    "Field",
    "Figure",
    "Form",
    "Inside",
    "Label",
    "Line",
    "Material",
    "Moment",
    "Money",
    "Part",
    "PartOf",
    "Party",
    "Phenomenon",
    "Place",
    "PlaceName",
    "Product",
    "Prose",
    "Quantity",
    "Ratio",
    "Remark",
    "Rows",
    "Separator",
    "Stray",
    "Tail",
    "Times",
    "Unread",
    "Vague",
    "WeatherFigure",
    "With",
    "YearLine",
]


@dataclass(frozen=True, slots=True)
class Remark:
    """`(in brackets)`, without them; `closed` is false when the bracket never ends."""

    text: str
    closed: bool = True
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Aside:
    """Words that only add to the remark: `along the path`, `at 10`, `overnight`, `for the show`."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Separator:
    """A comma or `and`."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Unread:
    """A word that no rule claims; what it is, the verb decides."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Stray:
    """A sign, or a unit without a figure, that has no meaning where it stands."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Fault:
    """An unfinished part, or one that is not read.

    `kind`: place (`from` alone), times, of, rows, for, price, per, comma, quote, clock, figure.
    """

    kind: str
    text: str
    span: Span = field(default=NOWHERE, compare=False)


Part: TypeAlias = (
    Quantity
    | Product
    | PartOf
    | Rows
    | Ratio
    | Crop
    | Cultivar
    | Label
    | Place
    | Inside
    | Cover
    | Companion
    | Material
    | With
    | Party
    | Money
    | Tail
    | Form
    | Vague
    | Moment
    | Times
    | Duration
    | Remark
    | Aside
    | Separator
    | Unread
    | Stray
    | Fault
)


# ---------------------------------------------------------------- weather parts


@dataclass(frozen=True, slots=True)
class WeatherFigure:
    """`-1 to 12 C`, `rain 2.5 mm`, `wind SW 4`, `soil 9 C`.

    `variable` is the word before the figure ("" for the bare temperature), `unit` as written.
    """

    variable: str
    low: float | None
    high: float | None
    unit: str
    direction: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Phenomenon:
    """`fog`, `sleet`, `frost`."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


# ---------------------------------------------------------------- lines


@dataclass(frozen=True, slots=True)
class Date:
    """A written date, not yet settled: what stands in it, in figures.

    `shape`: day, about, month, season, stretch, either (one of its days). `part`: early, mid, late
    or "". For `shape` season `name` is the season and `year2` the second year of `winter 2025/26`.
    `numeric` is true when day and month stand as figures, so that the sheet's order decides.
    """

    shape: str
    day: int | None = None
    month: int | None = None
    year: int | None = None
    day2: int | None = None
    month2: int | None = None
    year2: int | None = None
    part: str = ""
    name: str = ""
    weekday: int | None = None
    numeric: bool = False
    weekday2: int | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class DayLine:
    """A day line; `date` is None when the line means a date but none can be read from it.

    `slip` is the word that spoils it (`Marhc`).
    """

    date: Date | None
    text: str
    slip: str = ""
    slip_span: Span = field(default=NOWHERE, compare=False)
    span: Span = field(default=NOWHERE, compare=False)
    date_span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class YearLine:
    """`2026` or `# 2026`."""

    year: int
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Entry:
    """A dash line that opens with a verb, and the indented lines below it.

    `text` is the line after its dash; `start` is where it begins in the file.
    """

    verb: str
    planned: str
    parts: tuple[Part | WeatherFigure | Phenomenon, ...]
    text: str
    notes: tuple[str, ...] = ()
    lead: tuple[Part, ...] = ()
    verb_span: Span = field(default=NOWHERE, compare=False)
    start: int = field(default=0, compare=False)
    span: Span = field(default=NOWHERE, compare=False)

    def placed(self, notes: tuple[str, ...], start: int, span: Span) -> "Entry":
        """The same entry where it stands in a file, with the lines below it."""
        return Entry(
            self.verb,
            self.planned,
            self.parts,
            self.text,
            self.notes + notes,
            self.lead,
            self.verb_span,
            start,
            span,
        )

    def at(self, span: Span) -> Span:
        """A part's span as a span of the file."""
        return span.shifted(self.start)


@dataclass(frozen=True, slots=True)
class Field:
    """One comma-separated piece of a declaration; its span is one of the file.

    `key` says what it is (size, amount, dose, ratio, label, at, price, also, soil, words ...) and
    `value` is its node, figure or text.
    """

    text: str
    key: str
    value: object
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Declaration:
    """A sheet entry: its word, the name (up to the first comma) and the pieces after it."""

    word: str
    name: str
    fields: tuple[Field, ...]
    notes: tuple[str, ...] = ()
    name_span: Span = field(default=NOWHERE, compare=False)
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Near:
    """What in a line of prose was probably meant as a day line (J210) or an entry (J113).

    `mend` is "" where the code's own will do.
    """

    code: str
    span: Span
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Prose:
    """A paragraph: lines that are neither dated nor entries, word for word.

    `dash_word` is the first word of a dash line that opens with no verb.
    """

    text: str
    dash_word: str = ""
    dash_span: Span = field(default=NOWHERE, compare=False)
    span: Span = field(default=NOWHERE, compare=False)
    near: Near | None = field(default=None, compare=False)


Line: TypeAlias = DayLine | YearLine | Entry | Declaration | Prose


@dataclass(frozen=True, slots=True)
class Document:
    """One file as its lines in order."""

    source: Source
    lines: tuple[Line, ...]
