"""A chart's still picture to pieces that print can break between: one drawing, several windows.

Cuts between the rows of the charts only; a picture no taller than a piece stays whole.
"""

import re
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from journal.charts.files import chart_svg
from journal.charts.rows import ROW

ROWS_A_PIECE = 8
_ROOT = re.compile(r'<svg[^>]* width="(?P<width>[\d.]+)" height="(?P<height>[\d.]+)"[^>]*>')

_ID = re.compile(r' id="([^"]+)"')


@dataclass(frozen=True, slots=True)
class Still:
    """One drawing, known on the page as `name`, and the windows (`viewBox`) to show it through."""

    name: str
    drawing: Markup
    windows: tuple[str, ...]


def still(name: str, spec: dict[str, Any]) -> Still:
    """The still picture of a Vega-Lite document without padding at its top."""
    svg = chart_svg(spec)
    root = _ROOT.match(svg)
    if root is None:
        raise ValueError("the picture does not open with its size")
    inner = _own_names(svg[root.end() :].removesuffix("</svg>"), name)
    width, height = root["width"], float(root["height"])
    windows = (f"0 {top:g} {width} {tall:g}" for top, tall in _cuts(height, spec["height"]))
    return Still(name, Markup(inner), tuple(windows))


def _own_names(drawing: str, name: str) -> str:
    """The drawing's ids counted from 1 under its own name, so that no two of a page are one."""
    for number, known in enumerate(_ID.findall(drawing), 1):
        own = f"{name}-{number}"
        drawing = drawing.replace(f'id="{known}"', f'id="{own}"')
        drawing = drawing.replace(f"url(#{known})", f"url(#{own})")
    return drawing


def _cuts(height: float, rows_height: float) -> list[tuple[float, float]]:
    """Top and height of each piece; what stands below the rows stays with the last."""
    size = ROWS_A_PIECE * ROW
    tops = [float(top) for top in range(0, int(rows_height), size)] or [0.0]
    ends = [*tops[1:], height]
    return [(top, end - top) for top, end in zip(tops, ends, strict=True)]
