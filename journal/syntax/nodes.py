"""The pieces of a page as frozen values: lines, entries, declarations, and the parts of an entry.

Spans are left out of equality, so that tests compare meaning. The spans of parts count from the
start of their entry's text; `Entry.at` moves one into the file.
"""

from dataclasses import dataclass, field
from typing import TypeAlias

from journal.source import Source, Span

NOWHERE = Span(0, 0)


# ---------------------------------------------------------------- parts


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as written: `low` and `high` differ for `2-3` and `5 or 6`."""

    low: float
    high: float
    approximate: bool = False

    @property
    def middle(self) -> float:
        """The figure itself, or the middle of its range."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Quantity:
    """`24`, `1.2 kg`, `2 lb 4 oz`, `about 3 barrows`, `a trug`: a figure with its unit as written.

    `unit` is lower case, "" for a bare number; `minor` and `minor_unit` are the `4 oz`.
    """

    figure: Figure
    unit: str = ""
    minor: Figure | None = None
    minor_unit: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Product:
    """`15 x 30 cm`, `2 x 500 g`, `1h30 x 2`, `1.2 x 1.2 x 1 m`."""

    factors: tuple[Quantity, ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PartOf:
    """`36 of 40`."""

    part: Quantity
    whole: Quantity
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Rows:
    """`3 rows`, `3 rows of 4 m`; without a number, the word `rows` alone."""

    count: Figure | None
    length: Quantity | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Ratio:
    """`1:200`: `one` part to `water` parts of water."""

    one: float
    water: float
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Crop:
    """A crop or group as written."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Cultivar:
    """`'Musselburgh'`, without its quotes; `quoted` is false for one known from elsewhere."""

    name: str
    quoted: bool = True
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Label:
    """`[second]`, without its brackets."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PlaceName:
    """One place as written; `known` when the plot sheet has it."""

    text: str
    known: bool
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Place:
    """`in North 2`, `from Frame`, `North 1, 2 and 4`; `preposition` is "" for a bare name.

    `from Bed 1 to 4` is a move or a row of beds, as the verb has it: `to` is where it would go and
    `row` all the beds from the first to the last.
    """

    preposition: str
    names: tuple[PlaceName, ...]
    to: tuple[PlaceName, ...] = ()
    row: tuple[PlaceName, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Inside:
    """`in 5 l`, `in 2 sacks`, `into 9 cm pots`, `in modules`."""

    preposition: str
    quantity: Quantity | None
    vessel: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Cover:
    """`under fleece`."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Companion:
    """`under sweetcorn`, `between leeks`: sown or planted among another crop.

    `on broad bean`, `to carrot fly` name the crop itself, or a part of what an entry was lost to;
    `crops` are its nodes, and `text` is the whole with its preposition.
    """

    text: str
    preposition: str = ""
    crops: "tuple[Crop | Cultivar | Form, ...]" = ()
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Material:
    """A feed, dressing, product or thing as written."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class With:
    """`with NAME`: what follows it (amounts, a material) belongs to what was used.

    `kind` is "material", "person", "crop", "place", "vessel", "cover", "words" or "" when the name
    stands further on (`with 3 barrows compost`).
    """

    name: str
    kind: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Party:
    """`to Ines`, `from Walter`: a person of the sheet after a preposition."""

    preposition: str
    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Money:
    """`£4.50`, `50p`, `4.50 EUR`, `£1.20 each`, `£3 per kg`; `currency` is an ISO 4217 code.

    `per` is the unit that a price is for, "" for a total or a price of each.
    """

    value: float
    currency: str
    each: bool = False
    per: str = ""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Tail:
    """A word that says what the amount before it is.

    `kind`: deep, apart, between_rows, per_area, per_row, each, altogether, or_so. `ground` is the
    area in square metres that a rate is for, 0 for any other kind.
    """

    kind: str
    text: str
    ground: float = 0.0
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Form:
    """What a bought or counted thing is: plugs, sets, packets, seed, plants."""

    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Vague:
    """`a few`, `all morning`: an amount that stays as written."""

    text: str
    time: bool
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Moment:
    """`on 5 Nov`, `by 28 March`, `in 2 weeks`, `every 2 weeks`, `until August`, `in April`.

    `kind`: on, by, within, after, every, until; `text` is what stands after the small word.
    """

    kind: str
    text: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Times:
    """`twice`, `3 times`; with `people`, so many pairs of hands."""

    count: int
    people: bool = False
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Duration:
    """`for 2 hours`."""

    quantity: Quantity
    span: Span = field(default=NOWHERE, compare=False)


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
    """An unfinished part; `kind`: place (`from` alone), times, of, rows, for, price, per, quote."""

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

    `shape`: day, about, month, season, stretch. `part`: early, mid, late or "". For `shape` season
    `name` is the season and `year2` the second year of `winter 2025/26`. `numeric` is true when day
    and month stand as figures, so that the sheet's order decides.
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
class Prose:
    """A paragraph: lines that are neither dated nor entries, word for word.

    `dash_word` is the first word of a dash line that opens with no verb; `near` is a date at a
    line's head that is no day line.
    """

    text: str
    dash_word: str = ""
    dash_span: Span = field(default=NOWHERE, compare=False)
    span: Span = field(default=NOWHERE, compare=False)
    near: Span | None = field(default=None, compare=False)


Line: TypeAlias = DayLine | YearLine | Entry | Declaration | Prose


@dataclass(frozen=True, slots=True)
class Document:
    """One file as its lines in order."""

    source: Source
    lines: tuple[Line, ...]
