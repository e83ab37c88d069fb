"""The lives study drawn: a line of life for each batch begun in a year, coloured by stage."""

import altair as alt
import pandas as pd

from journal.charts.rows import MARK_OFFSET, ROW, room_for, row_words
from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, stacked, title
from journal.charts.words import crop_name, year_list
from journal.studies.notes import counted

NOTHING = "Nothing was sown or planted."
# stages that are raised alike share a colour; the order along the line tells them apart
COLOURS = {
    "sown": "band",
    "up": "straw",
    "pricked out": "slate",
    "potted on": "slate",
    "hardened off": "slate",
    "planted": "moss",
    "cropping": "clay",
}
LEGEND = {
    "sown": "band",
    "up": "straw",
    "pricked out, potted on or hardened off": "slate",
    "planted": "moss",
    "cropping": "clay",
}
TOOLTIP = [
    alt.Tooltip("name:N", title="what"),
    alt.Tooltip("stage:N"),
    alt.Tooltip("place:N"),
    alt.Tooltip("begins:T", title="from", format="%-d %B %Y"),
    alt.Tooltip("ends:T", title="to", format="%-d %B %Y"),
    alt.Tooltip("alive:Q", format=",.0f"),
]


def lives_chart(frame: pd.DataFrame) -> AnyChart:
    """The lives study's rows as lines from sowing to clearing, the years one below the other."""
    panels = [_year_panel(frame[frame["year"] == year], year) for year in year_list(frame)]
    return stacked(panels) if panels else sentence(NOTHING)


def _year_panel(rows: pd.DataFrame, year: int) -> alt.LayerChart:
    order = rows.groupby("batch")["begins"].min().sort_values(kind="stable").index
    place = {batch: at for at, batch in enumerate(order)}
    drawn = rows.assign(
        row=rows["batch"].map(place),
        name=[_name(*words) for words in rows[["crop", "cultivar", "label"]].to_numpy()],
        step=rows["stage"].map(lambda stage: _legend_of(stage)),
    )
    head = drawn.sort_values("ends").drop_duplicates("batch", keep="last").sort_values("row")
    head = head.assign(says=[_says(*words) for words in head[["ended", "place"]].to_numpy()])
    standing = int((head["ended"] == "").sum())
    words = (
        f"A line of life for {counted(len(order), 'batch', 'batches')} sown or planted in {year}, "
        f"coloured by stage; {standing or 'none'} of them stood on the day of reading."
    )
    heading = title(
        f"From sowing to clearing, begun in {year}",
        "A thin line below: plants left where others were moved on. A gap: the day is not certain.",
    )
    return alt.LayerChart(
        layer=[*_lines(drawn), *row_words(_base(head), room_for(head["says"]))],
        width=WIDTH,
        height=len(order) * ROW,
        title=heading,
        description=words,
    )


def _base(rows: pd.DataFrame) -> alt.Chart:
    scale = alt.Scale(paddingInner=0, paddingOuter=0)
    return alt.Chart(rows).encode(y=alt.Y("row:O", axis=None, sort=None, scale=scale))


def _legend_of(stage: str) -> str:
    colour = COLOURS[stage]
    return next(step for step, named in LEGEND.items() if named == colour)


def _lines(rows: pd.DataFrame) -> list[alt.Chart]:
    """The main line of each batch, and thinner below it what stood at the same time."""
    axis = alt.Axis(
        title="month",
        format="%b",
        tickCount="month",
        grid=True,
        labelAlign="left",
        labelOverlap=True,
        labelSeparation=4,
    )
    scale = alt.Scale(domain=list(LEGEND), range=[LIGHT[colour] for colour in LEGEND.values()])
    legend = alt.Legend(title=None, orient="top", symbolType="square", labelLimit=400)
    encoding = {
        "x": alt.X("begins:T", axis=axis),
        "x2": "ends:T",
        "color": alt.Color("step:N", scale=scale, legend=legend),
        "tooltip": TOOLTIP,
    }
    main, beside = rows[rows["lane"] == 0], rows[rows["lane"] > 0]
    lines = [_base(main).mark_bar(height=9, yOffset=MARK_OFFSET).encode(**encoding)]
    if not beside.empty:
        thin = _base(beside).mark_bar(height=3, yOffset=MARK_OFFSET + 8)
        lines.append(thin.encode(**encoding))
    return lines


def _name(crop: str, cultivar: str, label: str) -> str:
    words = crop_name(crop, cultivar)
    return f"{words} [{label}]" if label else words


def _says(ended: str, place: str) -> str:
    words = {"": "stands", "assumed": "over, not said when"}.get(ended, ended)
    return f"{words} · {place}" if place else words
