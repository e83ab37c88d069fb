"""A folder of diary pages read whole: sources, sheet, events, weather, prose and problems.

Two passes: the plot sheet first, then the pages with the words that it gave. No pandas: `haulm
check` stops here.
"""

import gc
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from journal.events.amounts import Measures
from journal.events.checks import check
from journal.events.dashes import no_verb
from journal.events.dates import Calendar, Days
from journal.events.day_lines import DatedLines, date_lines
from journal.events.model import Event, Paragraph, Plot, WeatherReading
from journal.events.names import Names, known_names, words_of
from journal.events.reading import Reading, Watch
from journal.events.resolve import Resolver
from journal.events.rows import Gathering, Rows
from journal.events.settle import Known
from journal.events.sheet import SheetBuilder
from journal.met.files import read_met_files
from journal.pages import Pages, open_pages
from journal.problems.model import Problem, make, sort_problems
from journal.reference.load import Reference, load
from journal.reference.units import unit_table
from journal.source import Source, Span
from journal.syntax import nodes as n
from journal.syntax.lines import DashLine
from journal.syntax.parse import Outline, completed, entry_parser, outline
from journal.syntax.words import Words

_QUOTED = re.compile(r"(?<![^\W_])['‘](?![\s'’])((?:[^'‘’\n]|['’](?=[^\W_])){1,80})['’](?![^\W_])")

_QUOTE = re.compile(r"['‘’“”\"]")


def read_folder(path: Path, today: date) -> Reading:
    """A diary file, or every `.txt` and `.md` below a folder, in path order.

    Raises FileNotFoundError when there is no such path; whatever is wrong inside is a problem.
    """
    pages = open_pages(path)
    return _with_met_files(read_sources(pages.sources, today, pages.problems), pages.root, today)


def read_pages(pages: Pages, today: date, watch: Watch | None = None) -> Reading:
    """The reading of a folder's pages, with the met files that their sheet names beside them.

    Its documents are left out: they would hold as much memory as all the rest.
    """
    with _uncollected():
        reading = _read(pages.sources, today, pages.problems, watch, keep=False)
        return _with_met_files(reading, pages.root, today)


def _with_met_files(reading: Reading, folder: Path, today: date) -> Reading:
    """The reading with the readings of the sheet's met files behind its own."""
    if not reading.sheet.mets:
        return reading
    sheet = reading.sheet
    sources, weather, problems = read_met_files(sheet.mets, folder, sheet.plot, date.max)
    told = [row for row in weather if row.date is None or row.date <= today]
    same_from, same_until = _same_days({row.date for row in weather if row.date}, today)
    return replace(
        reading,
        weather=Rows.of(WeatherReading, (*reading.weather, *told), (*reading.sources, *sources)),
        problems=sort_problems([*reading.problems, *problems]),
        met_sources=sources,
        same_from=max(reading.same_from, same_from),
        same_until=min(reading.same_until, same_until),
    )


def _same_days(days: set[date], today: date) -> tuple[date, date]:
    """From which day to before which other one the same of `days` are yet to come."""
    come = max((day for day in days if day <= today), default=date.min)
    return come, min((day for day in days if day > today), default=date.max)


def read_sources(sources: Sequence[Source], today: date, found: Iterable[Problem] = ()) -> Reading:
    """The reading of texts in memory; their order changes nothing but event numbers.

    `found` are problems that were met while the files were opened.
    """
    with _uncollected():
        return _read(sources, today, found)


@contextmanager
def _uncollected() -> Iterator[None]:
    """Keeps the garbage collector away: all that a reading makes lives on, and looking for rubbish
    among it again and again costs an eighth of the time.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _read(
    sources: Sequence[Source],
    today: date,
    found: Iterable[Problem],
    watch: Watch | None = None,
    *,
    keep: bool = True,
) -> Reading:
    reference = load()
    ordered = sorted(sources, key=lambda source: source.path)
    base = _base_words(reference)
    outlines = [outline(source, base) for source in ordered]
    plot = _plot(outlines, ordered, reference)
    calendar = Calendar(plot.month_first, (plot.latitude or 0) < 0)
    drafted = [n.Document(source, ()) for source in ordered]
    dated = [
        date_lines(n.Document(document.source, tuple(lines)), calendar, today)  # type: ignore[arg-type]
        for document, lines in zip(drafted, outlines, strict=True)
    ]
    builder = _sheet(outlines, dated, ordered, reference)
    sheet = builder.sheet()
    names = known_names(sheet, reference)
    units = unit_table(plot.us_units)
    words = words_of(sheet, names, frozenset(units), _cultivars(outlines))
    _note_cultivars(outlines, words, names)
    measures = Measures(units, sheet.measures, plot.fahrenheit)
    resolver = Resolver(
        Known(sheet, names, measures, calendar),
        Gathering(Event, ordered),
        Gathering(WeatherReading, ordered),
    )
    walk = _Walk(resolver, Gathering(Paragraph, ordered), list(found), keep)
    if watch:
        watch.expect(sum(map(len, outlines)))
    for source, lines, days in zip(ordered, outlines, dated, strict=True):
        walk.page(source, completed(source, lines, words), days, watch)
        lines.clear()
    entry_parser(words).known.clear()
    events = resolver.events.rows()
    problems = [*builder.problems, *walk.problems, *resolver.problems]
    return Reading(
        tuple(ordered),
        sheet,
        events,
        resolver.weather.rows(),
        walk.prose.rows(),
        sort_problems(check(events, sheet, problems)),
        tuple(walk.documents),
        (),
        *_same_days({days.first for lines in dated for days in lines.days if days}, today),
    )


def _base_words(reference: Reference) -> Words:
    """The words of every diary, before its own sheet is known."""
    return Words(
        crops=frozenset(reference.crop_spellings),
        materials=frozenset(reference.material_spellings),
        units=frozenset(unit_table()),
    )


def _plot(outlines: list[Outline], sources: list[Source], reference: Reference) -> Plot:
    builder = SheetBuilder(reference)
    for source, lines in zip(sources, outlines, strict=True):
        for line in lines:
            if isinstance(line, n.Declaration) and line.word == "plot":
                builder.add(line, None, source)
    return builder.plot


# `measure punnet tomato` needs the crops, everything needs the plot's units.
_SHEET_ORDER = {"plot": 0, "crop": 1, "measure": 2}


def _sheet(
    outlines: list[Outline],
    dated: list[DatedLines],
    sources: list[Source],
    reference: Reference,
) -> SheetBuilder:
    found: list[tuple[date, int, int, n.Declaration, date | None, Source]] = []
    for source, lines, days in zip(sources, outlines, dated, strict=True):
        for at, line in enumerate(lines):
            if isinstance(line, n.Declaration):
                day = days.days[at]
                first = day.first if day else None
                order = _SHEET_ORDER.get(line.word, 3)
                found.append((first or date.min, order, len(found), line, first, source))
    builder = SheetBuilder(reference)
    for _, _, _, line, first, source in sorted(found, key=lambda row: row[:3]):
        builder.add(line, first, source)
    return builder


def _cultivars(outlines: list[Outline]) -> frozenset[str]:
    """Every name in quotes on a dash line, so that it is known without them."""
    found: set[str] = set()
    for lines in outlines:
        for line in lines:
            if isinstance(line, DashLine):
                found.update(_QUOTED.findall(line.text))
            elif isinstance(line, n.Declaration):
                found.update(_QUOTED.findall(line.name))
    return frozenset(" ".join(name.lower().split()) for name in found)


def _note_cultivars(outlines: list[Outline], words: Words, names: Names) -> None:
    """The spelling of each cultivar, before any entry is settled: only quotes tell of one."""
    parser = entry_parser(words)
    for lines in outlines:
        for line in lines:
            if isinstance(line, DashLine) and _QUOTE.search(line.text):
                entry = parser.parse(line.text)
                if entry is not None:
                    _note_entry(entry, names)
    names.settle_cultivars()


def _note_entry(entry: n.Entry, names: Names) -> None:
    crop = ""
    for part in (*entry.lead, *entry.parts):
        if isinstance(part, n.Crop):
            crop = names.crop(part.name) or part.name
        elif isinstance(part, n.Cultivar) and part.quoted:
            names.note(crop, part.name)


@dataclass(slots=True)
class _Walk:
    """The pages walked line by line; a line is forgotten behind it unless documents are kept."""

    resolver: Resolver
    prose: Gathering[Paragraph]
    problems: list[Problem]
    keep: bool
    documents: list[n.Document] = field(default_factory=list)

    def page(
        self, source: Source, lines: Iterator[n.Line], dated: DatedLines, watch: Watch | None
    ) -> None:
        """Takes the lines of a page with the days of each."""
        kept: list[n.Line] = []
        passed = watch.passed(lines) if watch else lines
        # the days first: an empty page has a line without one, which must not be lost
        for day, before, line in zip(dated.days, dated.before_any, passed, strict=False):
            self._line(line, day, before, source)
            if self.keep:
                kept.append(line)
        if self.keep:
            self.documents.append(n.Document(source, (*kept, *lines)))
        self.problems.extend(dated.problems)

    def _line(self, line: n.Line, day: Days | None, before: bool, source: Source) -> None:
        if isinstance(line, n.Entry):
            if before:
                self.problems.append(_undated(line, source))
            self.resolver.add(line, day, source)
        elif isinstance(line, n.Declaration):
            self.resolver.declare(line, day, source)
        elif isinstance(line, n.Prose):
            self.problems.extend(no_verb(line, source))
            if line.near is not None:
                span, mend = line.near.span, line.near.mend or None
                word = source.slice(span)
                self.problems.append(make(line.near.code, source, span, mend=mend, word=word))
            self._add_prose(day, source, line.span)
        elif isinstance(line, n.DayLine) and line.text:
            at = source.text.find(line.text, line.date_span.end)
            self._add_prose(day, source, Span(at, at + len(line.text)))

    def _add_prose(self, day: Days | None, source: Source, span: Span) -> None:
        """A paragraph word for word, without the blank lines around it."""
        text = source.slice(span)
        tidy = text.strip("\r\n")
        if not tidy.strip():
            return
        start = span.start + text.index(tidy)
        first, last = (day.first, day.last) if day else (None, None)
        self.prose.append(Paragraph(first, last, tidy, source, Span(start, start + len(tidy))))


def _undated(line: n.Entry, source: Source) -> Problem:
    span = line.at(Span(0, len(line.text)))
    return make("J208", source, span)
