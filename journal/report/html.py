"""A year's sections to one HTML page that needs no network and can be printed and pinned up.

Vega stands in the page once and draws every chart at the reader's width, and at the paper's for
print; without scripts the tables stand open. Nothing may run or load that the page did not bring:
its Content-Security-Policy names each script and the style by their hashes.
"""

import base64
import hashlib
import json
from collections.abc import Hashable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pandas as pd
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from journal.charts.files import chart_spec
from journal.charts.theme import DARK, LIGHT, SANS, SERIF, AnyChart
from journal.charts.words import curly
from journal.diary import Diary
from journal.report.section import Section
from journal.report.told import Season, Told, said, tell
from journal.report.vega import vega_script
from journal.studies.notes import counted

PADDING = {"left": 0, "top": 0, "right": 0, "bottom": 8}
MOST_ROWS = 200  # of a table: a page is for reading
_HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Figure:
    """One picture of the page: its title and key, what it shows, its Vega document."""

    name: str
    title: str
    key: tuple[str, ...]
    description: str
    spec: Markup


def season_page(diary: Diary, year: int) -> str:
    """The page of one year, whole; what the diary does not hold is not on it."""
    return page_of(diary, tell(diary, Season(year)))


def page_of(diary: Diary, told: Told) -> str:
    """The page of a season told; what could not be read is that of the whole diary."""
    sections = [(section, _figures(section.name, section.chart)) for section in told.sections]
    style = Markup(_palette() + _file("season.css"))
    drawn = any(figures for _, figures in sections)
    scripts = [Markup(vega_script())] if drawn else []
    scripts.append(Markup(_file("season.js")))
    page: str = _template().render(
        told=told,
        today=f"{diary.today.day} {diary.today:%B %Y}",
        open_year=told.year == diary.today.year,
        headlines=[(line, said(line), curly(line.about)) for line in told.headlines],
        sections=sections,
        chapters=_chapters(told),
        problems=_problems(diary),
        hints=_hints(diary),
        style=style,
        scripts=scripts,
        policy=_policy(style, scripts),
        days=_days(told.year),
        most_rows=MOST_ROWS,
        for_script=for_script,
    )
    return page


def _chapters(told: Told) -> dict[str, list[Section]]:
    """The sections by the chapter that they stand in, in the page's order."""
    found: dict[str, list[Section]] = {}
    for section in told.sections:
        found.setdefault(section.chapter, []).append(section)
    return found


def _days(year: int) -> list[str]:
    """The days of the year in words, from `1 January`."""
    return [f"{day.day} {day:%B}" for day in pd.date_range(f"{year}-01-01", f"{year}-12-31")]


def _figures(name: str, chart: AnyChart | None) -> list[Figure]:
    """The panels of a chart, each a picture of its own, so that print can break between them."""
    if chart is None:
        return []
    whole = chart_spec(chart, validate=False)
    # how the panels share their keys is said for all of them and means another thing within one
    around = {key: value for key, value in whole.items() if key not in {"vconcat", "resolve"}}
    panels = whole.get("vconcat", [whole])
    return [_figure(f"{name}-{at}", panel, around) for at, panel in enumerate(panels, 1)]


def _figure(name: str, panel: dict[str, Any], around: dict[str, Any]) -> Figure:
    """A panel without its title, which the page sets in its own type."""
    title = panel.get("title", {})
    key = title.get("subtitle", ())
    alone = {key: value for key, value in (around | panel).items() if key != "title"}
    used = json.dumps(alone | {"datasets": None})
    # the figure has its words on the page; names on every mark would be read out one by one
    quiet = {**around["config"], "background": None, "padding": PADDING, "aria": False}
    live = alone | {
        "datasets": {own: rows for own, rows in around.get("datasets", {}).items() if own in used},
        "config": quiet,
        "width": "container",
        "autosize": {"type": "fit-x", "contains": "padding"},
    }
    return Figure(
        name,
        title.get("text", ""),
        (key,) if isinstance(key, str) else tuple(key),
        panel["description"],
        for_script(live),
    )


def for_script(value: Any) -> Markup:
    """JSON that cannot end the script element that it stands in."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c").replace("\u2028", "\\u2028"))


def _palette() -> str:
    """The colours as properties, day and night, and every colour of a chart as one of them."""
    day, night = (
        " ".join(f"--{name}: {colour};" for name, colour in colours.items())
        for colours in (LIGHT, DARK)
    )
    charts = "\n".join(
        f".live [{part}='{colour}'], .piece [{part}='{colour}'] {{ {part}: var(--{name}); }}"
        for name, colour in LIGHT.items()
        for part in ("fill", "stroke")
    )
    fonts = f"--serif: {SERIF}; --sans: {SANS};"
    return (
        f":root {{ {day} {fonts} }}\n"
        f"@media screen and (prefers-color-scheme: dark) {{ :root {{ {night} }} }}\n{charts}\n"
    )


def _policy(style: str, scripts: list[Markup]) -> str:
    """What the page may run and show: its own scripts and style, and pictures."""
    own = " ".join(_hash(script) for script in scripts)
    return (
        f"default-src 'none'; script-src {own}; style-src {_hash(style)}; "
        "img-src 'self' file: data:; base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    digest = hashlib.sha256(text.encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"


def _problems(diary: Diary) -> list[dict[Hashable, Any]]:
    frame = diary.problems
    told = frame[frame["severity"] != "hint"]
    lines = [diary.line(*place) for place in zip(told["file"], told["line"], strict=True)]
    return told.assign(text=lines).to_dict("records")


def _hints(diary: Diary) -> str:
    hints = int((diary.problems["severity"] == "hint").sum())
    return counted(hints, "hint") if hints else ""


@cache
def _file(name: str) -> str:
    return (_HERE / name).read_bytes().decode().replace("\r\n", "\n")


@cache
def _template() -> Any:
    environment = Environment(
        loader=PackageLoader("journal.report", "."),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("season.html.jinja")
