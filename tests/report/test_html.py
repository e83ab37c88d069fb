"""The season page as text: whole, self-contained, safe, and in order."""

import json
import re
from base64 import b64encode
from hashlib import sha256
from html import unescape
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from support.garden import garden
from support.hand_made import diary, happened, picked

import journal
from journal.charts.theme import DARK, LIGHT
from journal.charts.words import curly
from journal.report.html import season_page
from journal.report.told import said
from journal.studies.headlines import Headline, headlines


class Page(HTMLParser):
    """The parts of a page that tests ask for."""

    VOID = frozenset({"meta", "link", "br", "img", "path", "rect", "use", "line", "circle"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.headings: list[tuple[int, str]] = []
        self.addresses: list[str] = []
        self.ids: list[str] = []
        self.pictures: list[tuple[str, str]] = []
        self.specs: list[str] = []
        self.words = ""
        self._open = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        own = dict(attrs)
        self._open = f"data:{own['data-chart']}" if own.get("data-chart") else tag
        self.addresses += [
            str(own[name]) for name in ("src", "href", "xlink:href") if own.get(name)
        ]
        self.ids += [str(own["id"])] if own.get("id") else []
        if own.get("role") == "img":
            self.pictures.append((str(own["aria-labelledby"]), str(own["aria-describedby"])))
        if re.fullmatch("h[1-6]", tag):
            self.headings.append((int(tag[1]), ""))

    def handle_data(self, data: str) -> None:
        if re.fullmatch("h[1-6]", self._open):
            level, text = self.headings[-1]
            self.headings[-1] = (level, text + data.strip())
        elif self._open.startswith("data:"):
            self.specs.append(data)
        elif self._open not in {"script", "style"}:
            self.words += data

    def handle_endtag(self, tag: str) -> None:
        self._open = ""


@pytest.fixture(scope="module")
def text() -> str:
    return season_page(garden(12), 2025)


@pytest.fixture(scope="module")
def page(text: str) -> Page:
    return Page(text)


def test_the_page_asks_nothing_of_the_network(page: Page, text: str) -> None:
    assert all(address.startswith(("#", "data:")) for address in page.addresses)
    assert not re.search(r"@import|url\(\s*['\"]?https?:", text)


def test_vega_stands_in_it_once(text: str) -> None:
    assert text.count("window.vegaEmbed =") + text.count("window.vegaEmbed=") == 1


def test_headings_are_in_order(page: Page) -> None:
    levels = [level for level, _ in page.headings]
    assert page.headings[0] == (1, "2025")
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert all(words for _, words in page.headings)


def test_every_picture_has_a_text_alternative_and_a_document(page: Page) -> None:
    assert len(page.pictures) == len(page.specs) >= 10
    assert all(name in page.ids for names in page.pictures for name in names)
    for spec in page.specs:
        document = json.loads(spec)
        assert document["width"] == "container"
        assert document["datasets"]
        assert "title" not in document


def test_no_name_stands_for_two_things(page: Page) -> None:
    assert len(page.ids) == len(set(page.ids))


def test_the_headline_figures_are_the_studys(page: Page) -> None:
    for line in headlines(garden(12), 2025):
        assert said(line) in page.words
        assert curly(line.about) in page.words


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (Headline("", 12.44, "kg", ""), "12.4 kg"),
        (Headline("", 1.256, "kg/m2", ""), "1.26 kg/m²"),
        (Headline("", 150.0, "min", ""), "2 h 30 min"),
        (Headline("", -12.4, "%", ""), "−12 %"),
        (Headline("", 1204.0, "", ""), "1,204"),
    ],
)
def test_figures_are_said_with_their_units(line: Headline, words: str) -> None:
    assert said(line) == words


def test_a_name_that_looks_like_markup_stays_a_name() -> None:
    name = "</script><script>alert(1)</script><b>&"
    text = season_page(diary([picked(name, "2025-01-01", 1.0, place=name)]), 2025)
    assert "<script>alert(1)" not in text
    assert "<b>&" not in text
    assert name in Page(text).words


def test_a_year_without_a_chart_carries_no_vega() -> None:
    text = season_page(diary([happened("sighting", "see", "2025-01-01")]), 2025)
    assert "window.vegaEmbed =" not in text
    assert len(text) < 40_000


def test_a_first_year_with_one_variety_is_a_page_too() -> None:
    page = Page(season_page(garden(1, years=[2025]), 2025))
    titles = [words for level, words in page.headings if level == 2]
    assert "The harvest" in titles and "The work" in titles
    assert "Beside other years" not in titles


def test_forty_varieties_all_stand_on_the_page() -> None:
    page = Page(season_page(garden(40), 2025))
    spec = next(spec for spec in page.specs if "kg_per_plant" in spec)
    assert len(next(iter(json.loads(spec)["datasets"].values()))) == 40


def test_the_problems_stand_on_the_page_with_their_lines(tmp_path: Path) -> None:
    (tmp_path / "page.txt").write_text(
        "1 June 2025\n- pick 2 kg kale <i> frm Long 1\n- pick 3 kg leek\n"
    )
    one = journal.read(tmp_path)
    assert (one.problems["severity"] != "hint").any()
    page = Page(season_page(one, 2025))
    assert "What could not be read" in [words for _, words in page.headings]
    assert "page.txt:2 - pick 2 kg kale <i> frm Long 1" in page.words


def test_night_has_a_colour_for_every_colour_of_the_charts(text: str) -> None:
    for name, colour in LIGHT.items():
        assert f"--{name}: {colour};" in text
        assert f"--{name}: {DARK[name]};" in text
        for part in ("fill", "stroke"):
            assert f".live [{part}='{colour}'], .piece [{part}='{colour}']" in text


def test_the_policy_allows_what_stands_in_the_page_and_nothing_else(text: str) -> None:
    policy = unescape(re.search(r'Content-Security-Policy" content="([^"]+)"', text).group(1))
    held = [found.group(2) for found in re.finditer(r"<(script|style)>(.*?)</\1>", text, re.DOTALL)]
    hashes = [b64encode(sha256(each.encode()).digest()).decode() for each in held]
    assert len(hashes) == 3
    assert re.findall("sha256-([^']+)'", policy) == [*hashes[1:], hashes[0]]
    assert "unsafe" not in policy
    assert not re.search(r"<[^>]+ (style|on\w+)=", text.split("<script>")[0])


def test_the_page_is_the_same_twice() -> None:
    assert season_page(garden(3), 2025) == season_page(garden(3), 2025)
