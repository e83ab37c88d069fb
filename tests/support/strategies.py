"""Diaries and texts for hypothesis: arbitrary characters, shuffled shorthand, and whole pages."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from hypothesis import strategies as st

from journal.syntax.nodes import DayLine, Document, Entry, Line, Prose

TODAY = date(2026, 11, 25)
SHEET = """\
- plot Rise, latitude 53.8, dates day first, units metric, currency GBP
- bed Long 1, 1.2 x 4.8 m, also L1
- bed Long 2, 1.2 x 4.8 m
- bed Top bed, 14 m2
- frame Frame, 0.9 x 1.8 m
- bay Bay A, 1.2 x 1.2 x 1 m
- tank Butt, 210 l
- feed tomato feed, 4-3-8 w/w, 20 ml in 4.5 l
- material chicken pellets, 4-2-1
- measure barrow, 85 l
- person Edie
"""
PLACES = ("Long 1", "Long 2", "Top bed", "Frame")
CROPS = ("leek", "kale", "carrot", "runner bean", "potato", "purple sprouting")
AMOUNTS = ("24", "1.2 kg", "400 g", "2 lb 4 oz", "½ kg", "about 3 kg", "2-3 kg", "36 of 40")
VERBS = ("pick", "sow", "plant out", "move", "lose", "count", "clear", "feed", "water", "spread")
VERBS += ("weed", "fill", "fit", "see", "store", "buy", "rate", "plan sow", "level", "job", "up")
# One of everything that an entry may hold, and what belongs nowhere.
TOKENS = (
    *PLACES, *CROPS, *AMOUNTS, "'Eskimo'", "’Eskimo‘", "[second]", "3 rows of 4 m", "15 x 30 cm",
    "15 cm apart", "2 cm deep", "in", "on", "under", "from", "to", "into", "with", "by", "at",
    "tomato feed 20 ml in 5 l", "1:200", "60 g per m2", "1h30", "90 min x 2", "£4.50", "50p",
    "4.50 EUR", "each", "on 5 Nov", "on 31 June", "(wind-rocked)", "(", ")", "[", "'", '"', ",",
    "and", "of", "x", "--", "!", "%", "kgs", "zzqx", "9 in", "twice", "every 2 weeks",
    "until August", "in 2 weeks", "by 28 March", "modules", "9 cm pots", "fleece", "4/5",
    "altogether", "all beds", "a few", "1", "0", "1e9", "99999999999", "½", "🫘", "大根", "\t",
)  # fmt: skip

any_text = st.text(max_size=200)
any_page = st.lists(
    st.one_of(
        st.text(max_size=40),
        st.sampled_from(
            ["", "14 March 2026", "# 2026", "14/3", "31 June 2026", "    more", "* no"]
        ),
        st.lists(st.sampled_from(TOKENS), max_size=8).map(" ".join),
        st.builds(
            "- {} {}".format,
            st.sampled_from(VERBS),
            st.lists(st.sampled_from(TOKENS), max_size=8).map(" ".join),
        ),
    ),
    max_size=12,
).map("\n".join)

token_runs = st.lists(st.one_of(st.sampled_from(TOKENS), st.text(max_size=8)), max_size=12)
entries_of_anything = st.builds(
    lambda verb, tokens: f"{verb} {' '.join(tokens)}".replace("\n", " ").replace("\r", " "),
    st.sampled_from(VERBS),
    token_runs,
)


@dataclass(frozen=True, slots=True)
class Page:
    """A page that is written as the shorthand asks: days with their entries, `dash` before each."""

    days: tuple[tuple[date, tuple[str, ...]], ...]
    dash: str = "-"

    @property
    def text(self) -> str:
        """The page as a file holds it."""
        blocks = []
        for day, entries in self.days:
            lines = "".join(f"{self.dash} {entry}\n" for entry in entries)
            blocks.append(f"{day.isoformat()}\nFog till ten.\n\n{lines}")
        return "\n".join(blocks)

    @property
    def entries(self) -> list[str]:
        """Every entry in order."""
        return [entry for _, entries in self.days for entry in entries]

    def with_entry(self, index: int, entry: str) -> "Page":
        """The same page with another entry in place of one."""
        left = self.entries
        left[index] = entry
        days = []
        for day, entries in self.days:
            days.append((day, tuple(left[: len(entries)])))
            left = left[len(entries) :]
        return replace(self, days=tuple(days))


_place = st.sampled_from(PLACES)
_crop = st.sampled_from(CROPS)
_kilograms = st.integers(1, 5000).map(lambda grams: f"{grams / 1000:g} kg")
good_entries = st.one_of(
    st.builds("sow {} in {}, 3 rows of 4 m, 2 cm deep".format, _crop, _place),
    st.builds("sow {} {} in modules in {}".format, st.integers(1, 99), _crop, _place),
    st.builds("pick {} {} from {}".format, _kilograms, _crop, _place),
    st.builds("pick {} {} from {}, {} {}".format, _kilograms, _crop, _place, _kilograms, _crop),
    st.builds("weed {} {} min (bindweed)".format, _place, st.integers(1, 600)),
    st.builds("water {} {} l".format, _place, st.integers(1, 90)),
    st.builds("spread {} barrows manure on {}".format, st.integers(1, 9), _place),
    st.builds("buy {} {} £{}.50".format, _kilograms, _crop, st.integers(1, 40)),
    st.just("weather -1 to 12 C, rain 2.5 mm, fog"),
)
_days = st.integers(0, 300).map(lambda after: date(2026, 1, 1) + timedelta(days=after))


def pages(entries: st.SearchStrategy[str] = good_entries) -> st.SearchStrategy[Page]:
    """Pages of one to four days, in order, with one to four entries each."""
    blocks = st.lists(
        st.tuples(_days, st.lists(entries, min_size=1, max_size=4).map(tuple)),
        min_size=1,
        max_size=4,
        unique_by=lambda block: block[0],
    )
    return blocks.map(lambda found: Page(tuple(sorted(found))))


def written(document: Document) -> str:
    """A page whose days are whole dates, from its lines alone."""
    return "".join(f"{_written_line(line)}\n" for line in document.lines)


def _written_line(line: Line) -> str:
    if isinstance(line, DayLine) and line.date is not None:
        day = line.date
        return f"\n{day.year:04}-{day.month:02}-{day.day:02}"
    if isinstance(line, Entry):
        return f"- {line.text}"
    assert isinstance(line, Prose)
    return f"{line.text}\n"


def damaged(line: str) -> st.SearchStrategy[str]:
    """The line with a piece gone, a piece put in, or signs in place of others; never with quotes.

    A quoted name makes a cultivar known in all of a diary.
    """
    places = st.integers(0, len(line))
    junk = st.text(st.sampled_from("ab 19£½-–:,.()[]%\t\0\u200f🫘é"), max_size=6)
    return st.builds(
        lambda one, two, put: line[: min(one, two)] + put + line[max(one, two) :],
        places,
        places,
        junk,
    )
