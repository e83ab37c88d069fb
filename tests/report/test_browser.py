"""The season page in a browser without a network: it draws, fits a phone, and prints."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from support.garden import garden

from journal.report.html import season_page

CHROMIUM = (
    shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
)
sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")

MARKS = """charts => charts.map(chart =>
  chart.querySelectorAll('.live [class*="mark-"] path, .live [class*="mark-"] text').length)"""
EDGES = """all => all.map(each => each.getBoundingClientRect())
  .map(box => [box.left, box.right])"""


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with sync_api.sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    path: Path = tmp_path_factory.mktemp("page") / "season-2025.html"
    path.write_text(season_page(garden(40), 2025), encoding="utf-8")
    return path.as_uri()


def opened(browser: Any, address: str, **context: Any) -> tuple[Any, list[str]]:
    """The page with the network cut and its charts drawn, and everything that went wrong."""
    wrong: list[str] = []
    place = browser.new_context(offline=True, **context)
    page = place.new_page()
    page.on("console", lambda said: wrong.append(said.text) if said.type != "log" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "request", lambda asked: wrong.append(asked.url) if asked.url.startswith("http") else None
    )
    page.goto(address)
    if context.get("java_script_enabled", True):
        page.wait_for_selector("html[data-drawn]", timeout=60_000)
    return page, wrong


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 768, 1280])
def test_every_chart_is_drawn_and_nothing_goes_wrong(
    browser: Any, address: str, width: int, scheme: str
) -> None:
    page, wrong = opened(
        browser, address, viewport={"width": width, "height": 844}, color_scheme=scheme
    )
    assert wrong == []
    marks = page.eval_on_selector_all(".chart", MARKS)
    assert len(marks) == 6
    assert min(marks) > 10
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_chart_fills_the_width_of_a_phone_and_no_more(browser: Any, address: str) -> None:
    page, _ = opened(browser, address, viewport={"width": 390, "height": 844})
    boxes = page.eval_on_selector_all(".live svg", EDGES)
    assert all(left >= 0 and 340 <= right <= 390 for left, right in boxes)


def test_night_changes_the_colours_of_the_charts(browser: Any, address: str) -> None:
    page, _ = opened(browser, address, color_scheme="dark")
    colours = page.eval_on_selector_all(
        ".live svg .mark-text text",
        "all => [...new Set(all.map(each => each.getAttribute('fill')))]",
    )
    assert "#ece7da" in colours
    assert "#23302f" not in colours


def test_the_page_prints_with_its_still_pictures(browser: Any, address: str) -> None:
    page, _ = opened(browser, address)
    page.emulate_media(media="print")
    assert page.eval_on_selector_all(".live", "all => all.every(each => each.offsetHeight === 0)")
    heights = page.eval_on_selector_all(
        ".still .piece", "all => all.map(each => each.getBoundingClientRect().height)"
    )
    assert len(heights) >= 8
    assert min(heights) > 20
    assert page.locator("td").first.is_visible()
    paper = page.pdf(prefer_css_page_size=True)
    assert paper.startswith(b"%PDF-")
    assert paper.count(b"/Type /Page") > 3


def test_without_scripts_the_still_pictures_stand_in(browser: Any, address: str) -> None:
    page, _ = opened(
        browser, address, java_script_enabled=False, viewport={"width": 390, "height": 844}
    )
    assert page.locator(".still .piece").first.is_visible()
    assert page.locator(".still use").count() == page.locator(".still .piece").count()
