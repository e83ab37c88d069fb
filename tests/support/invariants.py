"""What holds of every reading, whatever the text: checked on each corpus case and by hypothesis."""

import dataclasses
from collections.abc import Iterator, Sequence
from datetime import date
from itertools import pairwise

from journal.problems.codes import Severity
from journal.problems.model import sort_problems
from journal.reading import Reading, read_sources
from journal.source import Source, Span
from journal.syntax.nodes import Declaration, Document, Entry


def broken_promises(sources: Sequence[Source], today: date) -> list[str]:
    """Each promise that the reading of these sources breaks, in words; none when all is well."""
    return list(reading_faults(read_sources(list(sources), today)))


def reading_faults(reading: Reading) -> Iterator[str]:
    """Each promise that a reading breaks, in words."""
    yield from _problems_in_order(reading)
    yield from _days_run_forward(reading)
    yield from _places_lie_inside(reading)
    for document in reading.documents:
        yield from document_faults(document)


def _problems_in_order(reading: Reading) -> Iterator[str]:
    if tuple(reading.problems) != sort_problems(reading.problems):
        yield "problems are sorted and each stands once"
    errors = any(problem.severity is Severity.ERROR for problem in reading.problems)
    if errors != reading.has_errors:
        yield "there are errors if and only if the reading says so"


def _days_run_forward(reading: Reading) -> Iterator[str]:
    for row in (*reading.events, *reading.weather, *reading.prose):
        if (row.date is None) != (row.date_end is None):
            yield f"a first day goes with a last day: {row}"
        elif row.date is not None and row.date_end is not None and row.date > row.date_end:
            yield f"the first day is not after the last: {row}"
    for event in reading.events:
        if event.low is not None and event.high is not None and event.low > event.high:
            yield f"the low end of an amount is not above the high end: {event}"
        if not event.date and event.due and event.due_end and event.due > event.due_end:
            yield f"an intention's first day is not after its last: {event}"


def _places_lie_inside(reading: Reading) -> Iterator[str]:
    for problem in reading.problems:
        if problem.span.end > len(problem.source.text):
            yield f"a problem lies in its text: {problem}"
        for related in problem.related:
            if related.span.end > len(related.source.text):
                yield f"a related place lies in its text: {problem}"
    for row in (*reading.events, *reading.weather, *reading.prose):
        if row.source.path and row.span.end > len(row.source.text):
            yield f"a row lies in its text: {row}"
    for paragraph in reading.prose:
        if paragraph.text not in paragraph.source.text:
            yield f"prose is kept word for word: {paragraph.text!r}"


def document_faults(document: Document) -> Iterator[str]:
    """The lines make up the text, each where the one before ends; a line encloses its parts."""
    at = 0
    for line in document.lines:
        if line.span.start != at:
            yield f"every character belongs to exactly one line: {at} to {line.span.start}"
        at = line.span.end
        yield from _line_faults(line)
    if at != len(document.source.text):
        yield f"every character belongs to exactly one line: {at} to the end"


def _line_faults(line: object) -> Iterator[str]:
    if isinstance(line, Entry):
        spans = [line.verb_span, *(part.span for part in (*line.lead, *line.parts))]
        yield from _sibling_faults(line.span, sorted(line.at(span) for span in spans))
        for part in (*line.lead, *line.parts):
            yield from _nested_faults(part)
    elif isinstance(line, Declaration):
        spans = [field.span for field in line.fields]
        yield from _sibling_faults(line.span, [line.name_span, *spans])


def _nested_faults(node: object) -> Iterator[str]:
    """A part encloses the parts that it is made of."""
    for field in dataclasses.fields(node):  # type: ignore[arg-type]
        value = getattr(node, field.name)
        children = value if isinstance(value, tuple) else (value,)
        for child in children:
            if hasattr(child, "span"):
                if not node.span.encloses(child.span):  # type: ignore[attr-defined]
                    yield f"a part encloses what it is made of: {node}"
                yield from _nested_faults(child)


def _sibling_faults(whole: Span, spans: list[Span]) -> Iterator[str]:
    for span in spans:
        if not whole.encloses(span):
            yield f"a part lies in its line: {span} in {whole}"
    for before, after in pairwise(spans):
        if before.end > after.start:
            yield f"parts rise and do not overlap: {before} and {after}"
