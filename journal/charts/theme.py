"""The look of every chart: slate, moss, clay and straw on paper, and the one configuration.

Colours keep apart for colour-blind eyes and stand out from the paper (tested); none is the only
sign of anything. `DARK` has a colour for each of `LIGHT`, so that a page can swap them.
"""

from collections.abc import Callable
from typing import Any

import altair as alt

LIGHT = {
    "paper": "#fbf8f1",
    "ink": "#23302f",
    "mute": "#5f665f",
    "rule": "#ded7c7",
    "band": "#ecdfba",
    "slate": "#54788f",
    "moss": "#3b5016",
    "clay": "#c0653a",
    "straw": "#a98622",
}
DARK = {
    "paper": "#191f1f",
    "ink": "#ece7da",
    "mute": "#a9aca2",
    "rule": "#3a4242",
    "band": "#474029",
    "slate": "#7fa6bf",
    "moss": "#c3d98a",
    "clay": "#d97b4f",
    "straw": "#d2ab3c",
}
SERIF = "'Iowan Old Style', 'Palatino Linotype', Palatino, 'Book Antiqua', Georgia, serif"
SANS = "system-ui, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif"
WIDTH = 640

AnyChart = alt.Chart | alt.LayerChart | alt.VConcatChart

# altair's own wrappers of fixed places carry no types.
x_value: Callable[..., Any] = alt.XValue
x2_value: Callable[..., Any] = alt.X2Value


def themed(chart: AnyChart, description: str) -> AnyChart:
    """A chart with the house's look and its description, one sentence for who cannot see it."""
    config: dict[str, Any] = {
        "background": LIGHT["paper"],
        "font": SANS,
        "padding": 12,
        "view": {"stroke": None},
        "concat": {"spacing": 28},
        "axis": {
            "domain": False,
            "ticks": False,
            "gridColor": LIGHT["rule"],
            "labelColor": LIGHT["mute"],
            "labelFontSize": 12,
            "labelPadding": 6,
            "titleColor": LIGHT["mute"],
            "titleFontSize": 12,
            "titleFontWeight": "normal",
            "titlePadding": 8,
        },
        "legend": {
            "labelColor": LIGHT["mute"],
            "labelFontSize": 12,
            "titleColor": LIGHT["mute"],
            "titleFontSize": 12,
            "titleFontWeight": "normal",
            "symbolType": "square",
        },
        "text": {"color": LIGHT["ink"], "fontSize": 13},
        "title": {
            "anchor": "start",
            "frame": "group",
            "font": SERIF,
            "fontSize": 20,
            "fontWeight": "normal",
            "color": LIGHT["ink"],
            "subtitleFont": SANS,
            "subtitleFontSize": 12.5,
            "subtitleColor": LIGHT["mute"],
            "subtitlePadding": 5,
            "offset": 14,
        },
    }
    return chart.properties(description=description, config=config)


def title(text: str, subtitle: str | list[str] = "") -> alt.TitleParams:
    """A chart's title with a line or two below that say what the marks are."""
    return alt.TitleParams(text=text, subtitle=subtitle) if subtitle else alt.TitleParams(text=text)


_OWN_KEYS = alt.Resolve(
    scale=alt.ScaleResolveMap(color="independent"), legend=alt.LegendResolveMap(color="independent")
)


def stacked(panels: list[alt.LayerChart]) -> AnyChart:
    """Panels one below the other, each with its own title and description."""
    words = " ".join(str(panel.description) for panel in panels)
    return themed(alt.VConcatChart(vconcat=panels, resolve=_OWN_KEYS), words)


def panel_words(chart: AnyChart) -> list[str]:
    """What each panel of a chart shows, a sentence each."""
    panels = chart.vconcat if isinstance(chart, alt.VConcatChart) else [chart]
    return [str(panel.description) for panel in panels]


def sentence(text: str) -> AnyChart:
    """What stands in a chart's place when there is nothing to draw."""
    nothing = alt.Chart(alt.InlineData(values=[{"text": text}]))
    words = nothing.mark_text(align="left", fontSize=15, color=LIGHT["mute"]).encode(
        x=x_value(0), text="text:N"
    )
    return themed(words.properties(width=WIDTH, height=40), text)
