"""A chart to an SVG, PNG, PDF, HTML or JSON file: written whole or not at all, no network."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import altair as alt
import vl_convert

from journal.charts.theme import AnyChart
from journal.tables.whole import write_whole

VEGA_LITE = ".".join(alt.SCHEMA_VERSION.lstrip("v").split(".")[:2])
_SIDES = re.compile(r'\b(?:width|height)="([\d.]+)"')
SCALE = 2
MOST_PIXELS = 8000  # of the longer side of a PNG: beyond, viewers and messengers give up


def chart_spec(chart: AnyChart, *, validate: bool = True) -> dict[str, Any]:
    """The chart as a Vega-Lite document with its data in it.

    `validate` holds it to the Vega-Lite schema, which takes longer than all else; a page of many
    charts that tests have held to it goes without.
    """
    spec: dict[str, Any] = chart.to_dict(validate=validate)
    return spec


def chart_svg(spec: dict[str, Any]) -> str:
    """A Vega-Lite document as a still SVG picture."""
    picture: str = vl_convert.vegalite_to_svg(spec, vl_version=VEGA_LITE)
    return picture


def _png(spec: dict[str, Any]) -> bytes:
    """Two pixels for one, and fewer where the picture would be too long to be opened."""
    svg = chart_svg(spec)
    longest = max(float(side) for side in _SIDES.findall(svg[: svg.index(">")]))
    picture: bytes = vl_convert.svg_to_png(svg, scale=min(SCALE, MOST_PIXELS / longest))
    return picture


def _html(spec: dict[str, Any]) -> bytes:
    page: str = vl_convert.vegalite_to_html(spec, vl_version=VEGA_LITE, bundle=True)
    return page.encode()


WRITERS: dict[str, Callable[[dict[str, Any]], bytes]] = {
    ".svg": lambda spec: chart_svg(spec).encode(),
    ".png": _png,
    ".pdf": lambda spec: vl_convert.vegalite_to_pdf(spec, vl_version=VEGA_LITE),
    ".html": _html,
    ".json": lambda spec: (json.dumps(spec, indent=1, sort_keys=True) + "\n").encode(),
}


def write_chart(chart: AnyChart, path: Path) -> None:
    """Writes the chart in the format of the path's suffix; KeyError where there is none such."""
    write_whole(path, WRITERS[path.suffix.lower()](chart_spec(chart)))
