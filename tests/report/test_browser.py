"""The season page in a browser without a network: drawn, used, read aloud, on a phone, on paper."""

import re
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from support.garden import garden

from journal import reading
from journal.diary import Diary
from journal.report.html import page_of, season_page
from journal.report.told import Season, tell

CHROMIUM = (
    shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
)
AXE = Path(__file__).parent.parent / "vendored" / "axe-core" / "axe.min.js"
sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")

SAMPLE_TODAY = date(2026, 3, 1)
# milliseconds, for a machine that is busy with other things; nothing waits for it to pass
PATIENCE = 300_000

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")

MARKS = """charts => charts.map(chart =>
  chart.querySelectorAll('.live [class*="mark-"] path, .live [class*="mark-"] text').length)"""
EDGES = """all => all.map(each => each.getBoundingClientRect())
  .map(box => [box.left, box.right])"""
# pieces of a chart that begin where the one before ends, and words that a cut goes through
PIECES = """charts => charts.map(chart => {
  const boxes = [...chart.querySelectorAll('.piece')]
    .map(piece => piece.getAttribute('viewBox').split(' ').map(Number));
  const svg = chart.querySelector('.live svg');
  const top = svg.getBoundingClientRect().top;
  const texts = [...svg.querySelectorAll('text')].map(t => t.getBoundingClientRect())
    .filter(b => b.height > 0).map(b => [b.top - top, b.bottom - top]);
  const inner = boxes.slice(1).map(b => b[1]);
  return {
    whole: boxes.reduce((sum, b) => sum + b[3], 0),
    height: Number(svg.getAttribute('viewBox').split(' ')[3]),
    tallest: Math.max(...boxes.map(b => b[3])),
    cut: texts.filter(([a, b]) => inner.some(at => a < at - 0.5 && at + 0.5 < b)).length,
  };
})"""


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with sync_api.sync_playwright() as playwright:
        try:
            opened = playwright.chromium.launch(
                executable_path=CHROMIUM, args=["--no-sandbox"], timeout=PATIENCE
            )
        except sync_api.Error as wrong:
            pytest.skip(f"chromium does not start here: {str(wrong).splitlines()[0]}")
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory, sample: reading.Reading) -> str:
    """The page of the sample diary's last whole year: every section, every kind of chart."""
    path: Path = tmp_path_factory.mktemp("page") / "season-2025.html"
    one = Diary(sample, SAMPLE_TODAY)
    path.write_text(page_of(one, tell(one, Season(2025))), encoding="utf-8")
    return path.as_uri()


def opened(browser: Any, address: str, **context: Any) -> tuple[Any, list[str]]:
    """The page with the network cut and its charts drawn, and everything that went wrong."""
    wrong: list[str] = []
    place = browser.new_context(offline=True, **context)
    place.set_default_timeout(PATIENCE)
    page = place.new_page()
    page.on("console", lambda said: wrong.append(said.text) if said.type != "log" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "request", lambda asked: wrong.append(asked.url) if asked.url.startswith("http") else None
    )
    page.goto(address)
    if context.get("java_script_enabled", True):
        page.wait_for_selector("html[data-drawn]")
    return page, wrong


@pytest.mark.parametrize(
    ("width", "scheme"), [(390, "light"), (768, "dark"), (1280, "light"), (1280, "dark")]
)
def test_every_chart_is_drawn_nothing_goes_wrong_and_nothing_keeps_anyone_out(
    browser: Any, address: str, width: int, scheme: str
) -> None:
    page, wrong = opened(
        browser, address, viewport={"width": width, "height": 844}, color_scheme=scheme
    )
    assert wrong == []
    marks = page.eval_on_selector_all(".chart", MARKS)
    assert len(marks) >= 10
    assert min(marks) > 4
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run()")
    assert [(each["id"], each["nodes"][0]["html"]) for each in found["violations"]] == []
    assert len(found["passes"]) > 30
    assert wrong == []


def test_a_chart_fills_the_width_of_a_phone_and_no_more(browser: Any, address: str) -> None:
    page, _ = opened(browser, address, viewport={"width": 390, "height": 844})
    boxes = page.eval_on_selector_all(".live svg", EDGES)
    assert all(left >= 0 and 340 <= right <= 390 for left, right in boxes)


def test_night_changes_the_colours_of_the_charts(browser: Any, address: str) -> None:
    page, _ = opened(browser, address, color_scheme="dark")
    colours = page.eval_on_selector_all(
        ".live svg .mark-text text",
        "all => [...new Set(all.map(each => getComputedStyle(each).fill))]",
    )
    assert "rgb(236, 231, 218)" in colours
    assert "rgb(35, 48, 47)" not in colours


def test_a_table_that_is_a_list_on_a_phone_cuts_no_figure(browser: Any, address: str) -> None:
    page, _ = opened(browser, address, viewport={"width": 390, "height": 844})
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
    beyond = """all => all.filter(each => each.getBoundingClientRect().right > innerWidth)
      .map(each => each.textContent)"""
    assert page.locator(".wordy td").count() > 0
    assert page.eval_on_selector_all(".wordy td", beyond) == []


def test_what_the_pointer_is_on_is_told(browser: Any, address: str) -> None:
    page, wrong = opened(browser, address, viewport={"width": 1280, "height": 844})
    assert page.locator("#hover").is_hidden()
    page.locator("#harvest-1 .mark-rect path").nth(1).hover(force=True)
    page.wait_for_selector("#hover:not([hidden])")
    assert "kg" in page.locator("#hover").inner_text()
    page.mouse.move(2, 2)
    page.wait_for_selector("#hover", state="hidden")
    assert wrong == []


def test_another_year_can_be_set_beside(browser: Any, address: str) -> None:
    page, wrong = opened(browser, address)
    shown = """name => [...document.querySelectorAll('#years-1 .mark-text text')]
      .filter(each => getComputedStyle(each).opacity !== '0').map(each => each.textContent)"""
    before = page.evaluate(shown)
    assert page.locator("#against").input_value() == "2024"
    page.locator("#against").select_option("2022")
    page.wait_for_function(f"({shown})().join() !== {','.join(before)!r}")
    open_tables = page.eval_on_selector_all(
        "[data-against]",
        "all => all.filter(each => !each.hidden).map(each => each.dataset.against)",
    )
    assert set(open_tables) == {"2022"}
    assert wrong == []


def test_the_plan_tells_what_stood_on_the_chosen_day_from_the_keyboard(
    browser: Any, address: str
) -> None:
    page, _ = opened(browser, address)
    says, first = page.locator("#plot-says"), page.locator("[data-list='2']")
    assert (says.inner_text(), first.inner_text()) == ("24 June", "potato")
    page.locator("#plot-day").focus()
    page.keyboard.press("Home")
    assert says.inner_text() == "1 January"
    assert first.inner_text() == "nothing known"
    assert page.locator("[data-shape='2']").get_attribute("class") == ""


def test_everything_can_be_reached_from_the_keyboard(browser: Any, address: str) -> None:
    page, _ = opened(browser, address)
    reached = set()
    for _ in range(page.locator("a, select, input, summary, [tabindex]").count()):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement.tagName"))
    assert {"A", "SELECT", "INPUT", "SUMMARY", "DIV"} <= reached


def test_nothing_moves_for_those_who_asked_for_stillness(browser: Any, address: str) -> None:
    still, _ = opened(browser, address, reduced_motion="reduce", java_script_enabled=False)
    moving, _ = opened(browser, address, reduced_motion="no-preference", java_script_enabled=False)
    behaviour = "() => getComputedStyle(document.documentElement).scrollBehavior"
    assert (still.evaluate(behaviour), moving.evaluate(behaviour)) == ("auto", "smooth")
    moves = """() => [...document.querySelectorAll('*')].filter(each => {
      const style = getComputedStyle(each);
      return style.animationName !== 'none' || parseFloat(style.transitionDuration) > 0;
    }).length"""
    assert still.evaluate(moves) == 0


# the sections whose charts are on the paper
DRAWN_IN = """all => [...new Set(all.filter(each => each.getBoundingClientRect().height > 0)
  .map(each => each.closest('section').getAttribute('aria-labelledby')))]"""


def pages_of(page: Any) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True)))


def test_a_table_that_the_reader_opened_is_printed_too(browser: Any, address: str) -> None:
    page, _ = opened(browser, address)
    table = page.locator("section:has(#harvest) details")
    page.emulate_media(media="print")
    assert not page.locator("#harvest").is_visible()
    page.emulate_media(media="screen")
    table.locator("summary").click()
    page.emulate_media(media="print")
    assert page.locator("#harvest").is_visible()
    assert table.locator("td").first.is_visible()
    assert not page.locator("section:has(#harvest) .piece").first.is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_prints_in_pieces_that_cut_no_word(
    browser: Any, address: str, scheme: str
) -> None:
    page, wrong = opened(browser, address, color_scheme=scheme)
    charts = page.eval_on_selector_all(".chart", PIECES)
    for chart in charts:
        assert chart["whole"] == pytest.approx(chart["height"])
        assert chart["tallest"] < 500
        assert chart["cut"] == 0
    assert 4 <= pages_of(page) <= 7
    page.emulate_media(media="print", color_scheme=scheme)
    assert page.eval_on_selector_all(".live", "all => all.every(each => each.offsetHeight === 0)")
    assert page.eval_on_selector_all(".piece", DRAWN_IN) == ["calendar"]
    assert page.locator("section:visible").count() == 5
    # all of it, when it is asked for
    page.emulate_media(media="screen", color_scheme=scheme)
    page.locator("#whole").check()
    assert 20 < pages_of(page) < 60
    page.emulate_media(media="print", color_scheme=scheme)
    assert page.eval_on_selector_all("figure.chart", "all => all.every(e => e.offsetHeight > 0)")
    assert wrong == []
    ink = page.evaluate("getComputedStyle(document.body).color")
    assert ink == "rgb(35, 48, 47)"


def test_without_scripts_every_table_stands_open(browser: Any, address: str) -> None:
    page, _ = opened(
        browser, address, java_script_enabled=False, viewport={"width": 390, "height": 844}
    )
    assert page.locator("details").count() == page.locator("details[open]").count() > 5
    assert page.locator("td").first.is_visible()


def test_forty_varieties_are_drawn_and_print_whole(browser: Any, tmp_path: Path) -> None:
    path = tmp_path / "forty.html"
    path.write_text(season_page(garden(40), 2025), encoding="utf-8")
    page, wrong = opened(browser, path.as_uri(), viewport={"width": 390, "height": 844})
    assert wrong == []
    assert min(page.eval_on_selector_all(".chart", MARKS)) > 4
    assert all(chart["cut"] == 0 for chart in page.eval_on_selector_all(".chart", PIECES))


def test_a_name_that_looks_like_markup_runs_nothing(browser: Any, tmp_path: Path) -> None:
    name = "<script>document.title='gone'</script>"
    (tmp_path / "page.txt").write_text(
        f"- plot <img src=x onerror=alert(1)>\n- bed <b>bold</b>, 1 x 4 m, at 0 x 0 m\n"
        f"- crop {name}\n1 May 2024\n- sow {name} in <b>bold</b>\n"
        f"1 July 2024\n- pick 2 kg {name} from <b>bold</b>\n"
        f"1 June 2025\n- pick 1 kg {name} from <b>bold</b>\n![<svg onload=alert(1)>](no.jpg)\n",
        encoding="utf-8",
    )
    one = Diary(reading.read_folder(tmp_path, SAMPLE_TODAY), SAMPLE_TODAY)
    path = tmp_path / "page.html"
    path.write_text(page_of(one, tell(one, Season(2025, folder=tmp_path))), encoding="utf-8")
    page, wrong = opened(browser, path.as_uri())
    assert wrong == []
    assert page.title() != "gone"
    assert page.locator("main script:not([type])").count() == 0
    assert page.locator("main b, main img").count() == 0
    assert "<script>" in page.locator("main").inner_text()
