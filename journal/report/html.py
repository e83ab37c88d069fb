"""A year's sections to one HTML page that needs no network and can be printed and pinned up.

Vega stands in the page once and draws every chart at the reader's width; a still picture of each
chart stands beside it for print and for readers without scripts.
"""

import json
from collections.abc import Hashable
from dataclasses import dataclass
from functools import cache
from typing import Any

import vl_convert
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from journal.charts.files import VEGA_LITE, chart_spec
from journal.charts.theme import DARK, LIGHT, SANS, SERIF, AnyChart
from journal.charts.words import counted, duration, kilograms, number
from journal.diary import Diary
from journal.report.page_tables import signed, two_places
from journal.report.sections import season_gaps, season_sections
from journal.report.stills import Still, still
from journal.studies.headlines import Headline, headlines

BUNDLE = "window.vegaEmbed = vegaEmbed;"
PADDING = {"left": 0, "top": 0, "right": 0, "bottom": 8}


@dataclass(frozen=True, slots=True)
class Figure:
    """One picture of the page: its title and key, what it shows, its Vega document, its still."""

    name: str
    title: str
    key: tuple[str, ...]
    description: str
    spec: Markup
    still: Still


def said(headline: Headline) -> str:
    """A headline's figure as a person says it: `123.4 kg`, `44 h`, `+12 %`."""
    value = headline.value
    match headline.unit:
        case "kg":
            return kilograms(value)
        case "kg/m2":
            return f"{two_places(value)} kg/m²"
        case "min":
            return duration(value)
        case "%":
            return signed(value)
        case _:
            return number(value, 0)


def season_page(diary: Diary, year: int) -> str:
    """The page of one year, whole; what the diary does not hold is not on it."""
    sections = [
        (section, _figures(section.name, section.chart)) for section in season_sections(diary, year)
    ]
    page: str = _template().render(
        year=year,
        plot=diary.plot.name,
        today=f"{diary.today.day} {diary.today:%B %Y}",
        open_year=year == diary.today.year,
        headlines=[(line, said(line)) for line in headlines(diary, year)],
        sections=sections,
        gaps=season_gaps(diary, year),
        problems=_problems(diary),
        hints=_hints(diary),
        vega=_vega() if any(figures for _, figures in sections) else "",
        colours={"light": LIGHT, "dark": DARK},
        swap=_for_script({LIGHT[name]: DARK[name] for name in LIGHT}),
        fonts={"serif": Markup(SERIF), "sans": Markup(SANS)},
    )
    return page


def _figures(name: str, chart: AnyChart | None) -> list[Figure]:
    """The panels of a chart, each a picture of its own, so that print can break between them."""
    if chart is None:
        return []
    whole = chart_spec(chart)
    around = {key: value for key, value in whole.items() if key != "vconcat"}
    panels = whole.get("vconcat", [whole])
    return [_figure(f"{name}-{at}", panel, around) for at, panel in enumerate(panels, 1)]


def _figure(name: str, panel: dict[str, Any], around: dict[str, Any]) -> Figure:
    """A panel without its title, which the page sets in its own type."""
    title = panel.get("title", {})
    key = title.get("subtitle", ())
    alone = {key: value for key, value in (around | panel).items() if key != "title"}
    used = json.dumps(alone | {"datasets": None})
    bare = alone | {
        "datasets": {own: rows for own, rows in around["datasets"].items() if own in used},
        "config": {**around["config"], "background": "transparent", "padding": PADDING},
    }
    live = {**bare, "width": "container", "autosize": {"type": "fit-x", "contains": "padding"}}
    return Figure(
        name,
        title.get("text", ""),
        (key,) if isinstance(key, str) else tuple(key),
        panel["description"],
        _for_script(live),
        still(name, bare),
    )


def _for_script(value: Any) -> Markup:
    """JSON that cannot end the script element that it stands in."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c").replace("\u2028", "\\u2028"))


@cache
def _vega() -> Markup:
    bundle: str = vl_convert.javascript_bundle(BUNDLE, vl_version=VEGA_LITE)
    return Markup(bundle.replace("</script", "<\\/script"))


def _problems(diary: Diary) -> list[dict[Hashable, Any]]:
    frame = diary.problems
    told = frame[frame["severity"] != "hint"]
    lines = [diary.line(*place) for place in zip(told["file"], told["line"], strict=True)]
    return told.assign(text=lines).to_dict("records")


def _hints(diary: Diary) -> str:
    hints = int((diary.problems["severity"] == "hint").sum())
    return counted(hints, "hint") if hints else ""


@cache
def _template() -> Any:
    place = PackageLoader("journal.report", ".")
    environment = Environment(
        loader=place,
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("season.html.jinja")
