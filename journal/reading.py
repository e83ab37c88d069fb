"""A folder of diary pages read whole: sources, sheet, events, weather, prose and problems.

Two passes: the plot sheet first, then the pages with the words that it gave. No pandas: `haulm
check` stops here.
"""

import gc
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
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
from journal.events.rows import Rows
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
from journal.syntax.parse import Outline, complete, entry_parser, outline
from journal.syntax.words import Words

_QUOTED = re.compile(r"(?<![^\W_])['‘](?![\s'’])((?:[^'‘’\n]|['’](?=[^\W_]))+)['’](?![^\W_])")


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
        weather=Rows(WeatherReading, (*reading.sources, *sources), made=(*reading.weather, *told)),
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
    passed = watch.passed if watch else iter
    if watch:
        watch.expect(2 * sum(map(len, outlines)))
    documents = [
        complete(source, lines, words, passed)
        for source, lines in zip(ordered, outlines, strict=True)
    ]
    _note_cultivars(documents, names)
    kept = tuple(documents) if keep else ()
    if not keep:
        outlines.clear()
        entry_parser(words).known.clear()
    measures = Measures(units, sheet.measures, plot.fahrenheit)
    resolver = Resolver(Known(sheet, names, measures, calendar))
    prose, problems = _walk(documents, dated, resolver, passed)
    problems = [*found, *builder.problems, *problems, *resolver.problems]
    for lines in dated:
        problems.extend(lines.problems)
    return Reading(
        tuple(ordered),
        sheet,
        Rows(Event, ordered, made=resolver.events),
        Rows(WeatherReading, ordered, made=resolver.weather),
        Rows(Paragraph, ordered, made=prose),
        sort_problems(check(resolver.events, sheet, problems)),
        kept,
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


def _note_cultivars(documents: list[n.Document], names: Names) -> None:
    for document in documents:
        for line in document.lines:
            if isinstance(line, n.Entry):
                _note_entry(line, names)
    names.settle_cultivars()


def _note_entry(entry: n.Entry, names: Names) -> None:
    crop = ""
    for part in (*entry.lead, *entry.parts):
        if isinstance(part, n.Crop):
            crop = names.crop(part.name) or part.name
        elif isinstance(part, n.Cultivar) and part.quoted:
            names.note(crop, part.name)


def _walk(
    documents: list[n.Document],
    dated: list[DatedLines],
    resolver: Resolver,
    passed: Callable[[Iterable[n.Line]], Iterable[n.Line]],
) -> tuple[list[Paragraph], list[Problem]]:
    prose: list[Paragraph] = []
    problems: list[Problem] = []
    for at, days in enumerate(dated):
        source, lines = documents[at].source, passed(_let_go(list(documents[at].lines)))
        documents[at] = n.Document(source, ())
        for line, day, before in zip(lines, days.days, days.before_any, strict=False):
            if isinstance(line, n.Entry):
                if before:
                    problems.append(_undated(line, source))
                resolver.add(line, day, source)
            elif isinstance(line, n.Declaration):
                resolver.declare(line, day, source)
            elif isinstance(line, n.Prose):
                problems.extend(no_verb(line, source))
                if line.near is not None:
                    word = source.slice(line.near)
                    problems.append(make("J210", source, line.near, word=word))
                _add_prose(prose, day, source, line.span)
            elif isinstance(line, n.DayLine) and line.text:
                at = source.text.find(line.text, line.date_span.end)
                _add_prose(prose, day, source, Span(at, at + len(line.text)))
    return prose, problems


def _let_go(lines: list[n.Line]) -> Iterator[n.Line]:
    """The lines in order, each forgotten here once it is handed on."""
    lines.reverse()
    while lines:
        yield lines.pop()


def _add_prose(prose: list[Paragraph], day: Days | None, source: Source, span: Span) -> None:
    """A paragraph word for word, without the blank lines around it."""
    text = source.slice(span)
    tidy = text.strip("\r\n")
    if not tidy.strip():
        return
    start = span.start + text.index(tidy)
    first, last = (day.first, day.last) if day else (None, None)
    prose.append(Paragraph(first, last, tidy, source, Span(start, start + len(tidy))))


def _undated(line: n.Entry, source: Source) -> Problem:
    span = line.at(Span(0, len(line.text)))
    return make("J208", source, span)
