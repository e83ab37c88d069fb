"""What holds of every text: the grammar is total, nothing is lost, damage stays where it is."""

import tempfile
from collections.abc import Iterable
from datetime import date, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import assume, given
from hypothesis import strategies as st
from support.corpus import day_meant
from support.invariants import broken_promises, document_faults
from support.strategies import (
    CROPS,
    PLACES,
    SHEET,
    TODAY,
    TOKENS,
    Page,
    any_page,
    any_text,
    damaged,
    entries_of_anything,
    good_entries,
    pages,
    written,
)
from support.texts import event_text, weather_text

from journal.cli.main import cli
from journal.diary import Diary
from journal.events.model import Event
from journal.problems.codes import Severity
from journal.reading import Reading, read_folder, read_sources
from journal.reference.units import unit_table
from journal.source import Source, decode
from journal.studies.harvest import harvest
from journal.syntax.nodes import DayLine, Declaration, Entry, Line, YearLine
from journal.syntax.parse import parse
from journal.syntax.words import Words

WORDS = Words(
    crops=frozenset(CROPS),
    places=frozenset(place.lower() for place in PLACES),
    units=frozenset(unit_table()),
)
PLOT = Source("plot.txt", SHEET)


def read_page(text: str) -> Reading:
    return read_sources([PLOT, Source("page.txt", text)], TODAY)


def events_of(text: str) -> list[Event]:
    """The events of a page's own lines."""
    return [event for event in read_page(text).events if event.source.path == "page.txt"]


def told(reading: Reading) -> list[str]:
    """What a reading says, without the numbers and places of its lines."""
    return sorted([*map(event_text, reading.events), *map(weather_text, reading.weather)])


def on_lines(rows: Iterable[Event], lines: set[int]) -> list[str]:
    return [
        event_text(row)
        for row in rows
        if row.source.path == "page.txt" and row.source.line_number(row.span.start) in lines
    ]


# 1. The grammar is total.


@given(entries_of_anything)
def test_anything_after_a_verb_is_one_entry(entry: str):
    lines = parse(Source("page.txt", f"- {entry}\n"), WORDS).lines
    # `store Long 1` declares a store of that name
    assert len(lines) == 1 and isinstance(lines[0], Entry | Declaration)


@given(st.sampled_from(TOKENS), st.sampled_from(TOKENS), st.sampled_from(TOKENS))
def test_any_three_pieces_after_a_verb_are_one_entry(first: str, second: str, third: str):
    text = f"- pick {first} {second}{third}\n"
    (line,) = parse(Source("page.txt", text), WORDS).lines
    assert isinstance(line, Entry) and line.verb == "pick"


WEATHER = (
    "min max soil rain snow sun wind gale force frost fog no nil trace 5 -1 3.5 1/2 to - / C F mm "
    "cm h inch mph SW from at in with Tunnel outside overnight very , ( ) : £ é"
).split()


@given(st.lists(st.sampled_from(WEATHER), max_size=9), st.sampled_from(["", " "]))
def test_any_pieces_of_weather_are_one_entry(pieces: list[str], gap: str):
    text = f"- weather {gap.join(pieces)}\n"
    (line,) = parse(Source("page.txt", text), WORDS).lines
    assert isinstance(line, Entry) and line.verb == "weather"


# 2. Nothing raises.


@given(st.one_of(any_text, any_page))
def test_any_text_is_read_and_none_of_it_is_lost(text: str):
    document = parse(Source("page.txt", text), WORDS)
    assert list(document_faults(document)) == []


@given(any_page)
def test_any_page_keeps_every_promise(text: str):
    assert broken_promises([PLOT, Source("page.txt", text)], TODAY) == []


@given(any_page)
def test_any_sheet_keeps_every_promise(text: str):
    assert broken_promises([Source("plot.txt", text)], TODAY) == []


@given(st.one_of(st.binary(max_size=200), any_page.map(str.encode)), st.binary(max_size=4))
def test_any_bytes_are_read_and_bad_ones_are_one_problem_a_file(content: bytes, spoiler: bytes):
    content += spoiler
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "page.txt").write_bytes(content)
        reading = read_folder(Path(folder), TODAY)
    _, damage = decode("page.txt", content)
    about_bytes = [problem for problem in reading.problems if problem.code.startswith("J0")]
    assert len(about_bytes) == (damage is not None)


# 5. What was read can be written, and reads the same.


@given(pages())
def test_a_page_written_from_its_lines_reads_to_the_same_lines(page: Page):
    document = parse(Source("page.txt", page.text), WORDS)
    text = written(document)
    again = parse(Source("page.txt", text), WORDS)
    assert again.lines == document.lines
    assert written(again) == text


# 6. Damage stays where it is.

# No quotes: a quoted name anywhere in a diary makes a cultivar known everywhere in it.
_junk = st.lists(st.sampled_from([t for t in TOKENS if not set("'’‘\"") & set(t)]), max_size=6)


@given(pages(), st.data(), _junk)
def test_damage_to_one_entry_changes_only_that_entry(page: Page, data: st.DataObject, junk):
    index = data.draw(st.integers(0, len(page.entries) - 1))
    entry = page.entries[index]
    damaged = page.with_entry(index, f"{entry.split()[0]} {' '.join(junk)}")
    number = _line_of(page, index)
    others = set(range(1, page.text.count("\n") + 2)) - {number}
    before, after = read_page(page.text), read_page(damaged.text)
    assert on_lines(before.events, others) == on_lines(after.events, others)
    elsewhere = _problems_outside(after, number)
    assert elsewhere <= _problems_outside(before, number)


@given(pages(), st.data())
def test_damage_to_one_line_changes_only_that_line_and_what_hangs_on_its_day(
    page: Page, data: st.DataObject
):
    lines = page.text.split("\n")
    number = data.draw(st.integers(1, len(lines)))
    hurt = data.draw(damaged(lines[number - 1]))
    text = "\n".join([*lines[: number - 1], hurt, *lines[number:]])
    kinds = {type(line) for line in lines_at(lines[number - 1]) + lines_at(hurt)}
    assume(not kinds & {Declaration, YearLine})
    others = set(range(1, len(lines) + 1)) - entry_around(lines, number)
    if DayLine in kinds:
        # all that stands under the day goes with it, up to the next day line
        days = [n for n in range(number + 1, len(lines) + 1) if _opens_day(lines[n - 1])]
        others -= set(range(number, days[0] if days else len(lines) + 1))
    assert on_lines(read_page(page.text).events, others) == on_lines(read_page(text).events, others)


def entry_around(lines: list[str], number: int) -> set[int]:
    """A line, and the lines above it up to the one that an indented line here would belong to."""
    above = number - 1
    while above and lines[above - 1].startswith((" ", "\t", "\u00a0")) and lines[above - 1].strip():
        above -= 1
    return set(range(max(above, 1), number + 1))


def lines_at(line: str) -> tuple[Line, ...]:
    """What a line is by itself, below an empty one."""
    return parse(Source("page.txt", line), WORDS).lines


def _opens_day(line: str) -> bool:
    return any(isinstance(each, DayLine) for each in lines_at(line))


def _line_of(page: Page, index: int) -> int:
    """The line of an entry; it stays the same whatever the entry says."""
    marked = page.with_entry(index, "MARK").text.split("\n")
    return marked.index(f"{page.dash} MARK") + 1


def _problems_outside(reading: Reading, number: int) -> set[tuple[str, int]]:
    """Codes and lines, but for those that only show across entries."""
    found = set()
    for problem in reading.problems:
        line = problem.source.line_number(problem.span.start)
        if line != number and not problem.code.startswith("J5"):
            found.add((problem.code, line))
    return found


@given(good_entries.filter(lambda entry: entry.startswith("pick")))
def test_what_was_understood_stays_understood_beside_an_unread_sign(entry: str):
    alone = read_page(f"2026-03-14\n- {entry}\n")
    beside = read_page(f"2026-03-14\n- {entry} %\n")
    assert told(alone) == told(beside)
    assert len(beside.problems) == len(alone.problems) + 1


# 7. The form of a file changes nothing.


@given(pages())
def test_line_ends_marks_and_dashes_change_no_event(page: Page):
    expected = told(read_page(page.text))
    forms = [
        page.text.replace("\n", "\r\n"),
        page.text.rstrip("\n"),
        Page(page.days, "–").text,
        Page(page.days, "•").text,
    ]
    for text in forms:
        assert told(read_page(text)) == expected
    source, damage = decode("page.txt", b"\xef\xbb\xbf" + page.text.encode())
    assert damage is None
    assert told(read_sources([PLOT, source], TODAY)) == expected


@given(st.sampled_from(CROPS), st.sampled_from(["Eskimo", "Early Nantes", "D'Anjou"]))
def test_curly_quotes_are_straight_quotes(crop: str, cultivar: str):
    def read(opening: str, closing: str) -> list[str]:
        return told(read_page(f"2026-03-14\n- sow {crop} {opening}{cultivar}{closing} in Long 1\n"))

    straight = read("'", "'")
    assert f"cultivar={cultivar}" in straight[0].replace("'", "").replace('"', "") or (
        "'" in cultivar
    )
    assert read("‘", "’") == straight


@given(st.lists(pages(), min_size=2, max_size=3), st.randoms(use_true_random=False))
def test_the_order_of_the_files_changes_nothing(written: list[Page], random):
    sources = [PLOT, *(Source(f"{n}.txt", page.text) for n, page in enumerate(written))]
    mixed = list(sources)
    random.shuffle(mixed)
    first, second = read_sources(sources, TODAY), read_sources(mixed, TODAY)
    assert told(first) == told(second)
    assert [problem.key for problem in first.problems] == [p.key for p in second.problems]


# 8. What is said once is what the items add up to.


@given(
    st.lists(st.sampled_from(PLACES), min_size=1, max_size=4, unique=True),
    st.integers(1, 600),
    st.integers(1, 9999),
)
def test_time_and_money_said_once_are_shared_out_whole(places, minutes: int, pence: int):
    named = ", ".join(places)
    entry = f"- weed {named}, {minutes} min, £{pence // 100}.{pence % 100:02}"
    events = events_of(f"2026-03-14\n{entry}\n")
    assert [event.place for event in events] == places
    assert sum(event.minutes for event in events) == pytest.approx(minutes)
    assert sum(event.cost for event in events) == pytest.approx(pence / 100)


@given(st.lists(st.sampled_from(PLACES), min_size=1, max_size=4, unique=True), st.integers(1, 40))
def test_barrows_said_once_are_shared_out_by_area(places, barrows: int):
    area = {"Long 1": 5.76, "Long 2": 5.76, "Top bed": 14, "Frame": 1.62}
    named = ", ".join(places)
    events = events_of(f"2026-03-14\n- mulch {named} with {barrows} barrows compost\n")
    whole = sum(area[place] for place in places)
    for event in events:
        share = area[event.place] / whole
        assert event.volume_l == pytest.approx(85 * barrows * share)


@given(st.lists(st.sampled_from(CROPS), min_size=1, max_size=4, unique=True), st.integers(1, 5000))
def test_items_with_their_own_weights_add_up(crops, grams: int):
    items = ", ".join(f"{grams + n} g {crop}" for n, crop in enumerate(crops))
    events = events_of(f"2026-03-14\n- pick {items} from Long 1\n")
    assert [event.crop for event in events] == [read_crop(crop) for crop in crops]
    total = sum(grams + n for n in range(len(crops))) / 1000
    assert sum(event.mass_kg for event in events) == pytest.approx(total)


def read_crop(crop: str) -> str:
    (event,) = events_of(f"2026-03-14\n- pick {crop} from Long 1\n")
    return event.crop


@given(pages())
def test_totals_by_any_grouping_add_up_alike(page: Page):
    events = [event for event in events_of(page.text) if event.mass_kg is not None]
    whole = sum(event.mass_kg or 0 for event in events)
    for key in ("crop", "place", "date", "kind"):
        parts: dict[object, float] = {}
        for event in events:
            name = getattr(event, key)
            parts[name] = parts.get(name, 0) + (event.mass_kg or 0)
        assert sum(parts.values()) == pytest.approx(whole)
    diary = Diary(read_page(page.text), TODAY)
    picked = sum(event.mass_kg or 0 for event in events if event.kind == "harvest")
    assert float(harvest(diary)["kg"].sum()) == pytest.approx(picked)


@given(st.sampled_from(sorted(unit_table())), st.floats(1e-6, 1e6))
def test_a_unit_there_and_back_is_the_figure_itself(name: str, figure: float):
    unit = unit_table()[name]
    assert figure * unit.factor / unit.factor == pytest.approx(figure, rel=1e-12)


# 9. Days run forward, and a wider date is never narrower.

_some_days = st.dates(date(1990, 1, 1), date(2026, 11, 1))
_MONTHS = "January February March April May June July August September October November December"


@given(_some_days)
def test_a_vaguer_date_encloses_a_surer_one(day: date):
    month = f"{_MONTHS.split()[day.month - 1]} {day.year}"
    part = "early" if day.day <= 10 else "mid" if day.day <= 20 else "late"
    sure = days_of(f"{day.day} {month}")
    about, third, whole = (
        days_of(f"about {day.day} {month}"),
        days_of(f"{part} {month}"),
        days_of(month),
    )
    assert sure == (day, day)
    assert about == (day - timedelta(days=7), day + timedelta(days=7))
    assert whole[0] <= third[0] <= day <= third[1] <= whole[1]
    year = day.year + (day.month == 12)
    season = ("winter", "spring", "summer", "autumn")[day.month % 12 // 3]
    first, last = days_of(f"{season} {year}")
    assert first <= whole[0] <= whole[1] <= last


def days_of(written: str) -> tuple[date, date]:
    first, last = day_meant([PLOT], written, 2026, TODAY)
    return date.fromisoformat(first), date.fromisoformat(last)


@given(_some_days, st.integers(0, 40))
def test_a_stretch_runs_from_its_first_day_to_its_last(day: date, days: int):
    assume(days)
    last = day + timedelta(days=days)
    names = _MONTHS.split()
    written = f"{day.day} {names[day.month - 1]} {day.year} to {last.day} {names[last.month - 1]}"
    assert days_of(f"{written} {last.year}") == (day, last)


# 10. There is an error if and only if the check says so.


@given(any_page)
def test_check_leaves_with_1_when_there_is_an_error_and_only_then(text: str):
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "page.txt").write_bytes(text.encode())
        reading = read_folder(Path(folder), TODAY)
        words = ["check", "-d", folder, "--today", str(TODAY), "--format", "json"]
        result = CliRunner().invoke(cli, words)
    errors = [problem for problem in reading.problems if problem.severity is Severity.ERROR]
    assert result.exit_code == (1 if errors else 0), result.output


# 11. A place in the text, told by line and column and looked up again, is the same place.


@given(st.text(st.sampled_from("ab\n\r\t🫘𝓴é\u2028\ufffd")), st.data())
def test_every_offset_is_found_again_by_its_line_and_column(text: str, data: st.DataObject):
    source = Source("page.txt", text)
    offset = data.draw(st.integers(0, len(text)))
    line, column = source.line_column(offset)
    assert source.starts[line - 1] + column - 1 == offset
    assert (
        "".join(
            text[start:end]
            for start, end in zip(source.starts, [*source.starts[1:], len(text)], strict=True)
        )
        == text
    )
    for number in range(1, source.line_count + 1):
        assert not set(source.line_text(number)) & {"\n", "\r"}
