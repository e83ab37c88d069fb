"""The labour study drawn: the hours of each month, of each place and of each job."""

import altair as alt
import pandas as pd

from journal.charts.rows import (
    MARK_OFFSET,
    amount_axis,
    bar_rows,
    numbered,
    row_panel,
    row_track,
    row_words,
)
from journal.charts.theme import LIGHT, WIDTH, AnyChart, sentence, stacked, title
from journal.charts.words import MONTHS, duration, listed, running, year_list
from journal.studies.labour import labour_totals
from journal.studies.notes import counted

NOTHING = "No work was timed."
UNIT = "person-hours"
REST = "other jobs"
ODD = "odd jobs"  # what is written as `job` in words of its own
SHADES = ("slate", "moss", "clay", "straw", "mute")
JOBS_DRAWN = 14


def labour_chart(frame: pd.DataFrame) -> AnyChart:
    """The labour study's frame as hours by month, place and job; the sums are the study's."""
    frame = frame[frame["year"].notna()]
    if frame.empty:
        return sentence(NOTHING)
    frame = frame.assign(job=[ODD if verb == "job" else running(verb) for verb in frame["verb"]])
    when = listed([str(year) for year in year_list(frame)])
    months: list[alt.LayerChart] = [_months(frame, when)] if frame["month"].notna().any() else []
    places = _places(frame, when)
    return stacked([*months, places, _jobs(frame, when)])


def _months(frame: pd.DataFrame, when: str) -> alt.LayerChart:
    """Twelve columns; time whose month is not certain stands in none."""
    dated = labour_totals(frame[frame["month"].notna()], ["month"])
    dated["name"] = [MONTHS[month - 1] for month in dated["month"]]
    dated["says"] = [duration(minutes) for minutes in dated["minutes"]]
    dated["short"] = [
        f"{hours:.1f}" if hours < 9.95 else f"{hours:.0f}" for hours in dated["hours"]
    ]
    scale = alt.Scale(domain=list(MONTHS), paddingInner=0.35, paddingOuter=0.1)
    months = alt.X("name:N", title=None, scale=scale, axis=alt.Axis(labelAngle=0, grid=False))
    tooltip = [alt.Tooltip("name:N", title="month"), alt.Tooltip("says:N", title="time")]
    base = alt.Chart(dated).encode(x=months, y=alt.Y("hours:Q", axis=None), tooltip=tooltip)
    columns = base.mark_bar(color=LIGHT["slate"], cornerRadiusEnd=2)
    figures = base.mark_text(baseline="bottom", dy=-4, fontSize=12, color=LIGHT["mute"])
    longest = pd.Timestamp(2001, int(dated["month"].iloc[0]), 1)
    most = f"{longest:%B} with {dated['says'].iloc[0]}"
    undated = frame.loc[frame["month"].isna(), "minutes"].sum()
    rest = f"; {duration(undated)} more lie in no certain month" if undated else ""
    return alt.LayerChart(
        layer=[columns, figures.encode(text="short:N")],
        width=WIDTH,
        height=150,
        title=title(f"Hours by month, {when}", "Person-hours: two people for an hour are two."),
        description=f"Columns of person-hours in each month of {when}; the most is {most}{rest}.",
    )


def _jobs(frame: pd.DataFrame, when: str) -> alt.LayerChart:
    """A bar a job, the small ones together in one that says how many they are."""
    jobs = labour_totals(frame, ["job"])["job"].tolist()
    small = jobs[JOBS_DRAWN:] if len(jobs) > JOBS_DRAWN + 1 else []
    rest = f"{len(small)} {REST}"
    drawn = frame.assign(job=frame["job"].mask(frame["job"].isin(small), rest))
    return _rows(drawn, "job", f"Hours by job, {when}", "", last=rest, count=len(jobs))


def _places(frame: pd.DataFrame, when: str) -> alt.LayerChart:
    """A bar a place, stacked by its jobs: the four that take most time in places, the rest."""
    placed = frame[frame["place"] != ""]
    jobs = labour_totals(frame if placed.empty else placed, ["job"])["job"].tolist()
    named = [*jobs[: len(SHADES) - 1], REST]
    shares = frame.assign(job=frame["job"].where(frame["job"].isin(named), REST))
    named = [job for job in named if (shares["job"] == job).any()]
    shares = labour_totals(shares, ["place", "job"])
    shares["order"] = shares["job"].map(named.index)
    shares = shares.sort_values(["place", "order"])
    shares["until"] = shares.groupby("place")["hours"].cumsum()
    shares["since"] = shares["until"] - shares["hours"]
    rows = {place: at for at, place in enumerate(_ordered(frame, "place", "")["place"])}
    shares["row"] = shares["place"].map(rows)
    shares["says"] = [duration(minutes) for minutes in shares["minutes"]]
    return _rows(frame, "place", f"Hours by place, {when}", "no place written", (shares, named))


def _stack(shares: pd.DataFrame, jobs: list[str], axis: alt.X) -> alt.Chart:
    shades = [SHADES[-1] if job == REST else SHADES[at] for at, job in enumerate(jobs)]
    scale = alt.Scale(domain=jobs, range=[LIGHT[name] for name in shades])
    legend = alt.Legend(title=None, orient="top", offset=6)
    bars = alt.Chart(shares[["row", "job", "since", "until", "says"]]).mark_bar(
        height=9, yOffset=MARK_OFFSET
    )
    x = axis.copy()
    x.shorthand = "since:Q"
    stack: alt.Chart = bars.encode(
        y=alt.Y("row:O", axis=None, sort=None, scale=alt.Scale(paddingInner=0, paddingOuter=0)),
        x=x.stack(None),
        x2="until:Q",
        color=alt.Color("job:N", scale=scale, legend=legend, sort=None),
        tooltip=[alt.Tooltip("job:N"), alt.Tooltip("says:N", title="time")],
    )
    return stack


def _rows(
    frame: pd.DataFrame,
    column: str,
    heading: str,
    unnamed: str,
    stack: tuple[pd.DataFrame, list[str]] | None = None,
    *,
    last: str = "",
    count: int | None = None,
) -> alt.LayerChart:
    """A bar for each word of a column; `last` goes below the others, `count` is how many in all."""
    totals = _ordered(frame, column, last)
    named = totals.assign(
        name=totals[column].where(totals[column] != "", unnamed),
        says=[duration(minutes) for minutes in totals["minutes"]],
    )
    axis = amount_axis("hours", UNIT, float(named["hours"].max()))
    tooltip = [alt.Tooltip("name:N", title=column), alt.Tooltip("says:N", title="time")]
    panel = {"title": title(heading), "description": _words(named, column, unnamed, count)}
    if stack is None:
        return bar_rows(named, axis, "slate", tooltip, **panel)
    base = numbered(named).encode(tooltip=tooltip)
    layers = [row_track(base, 9), _stack(*stack, axis), *row_words(base)]
    return row_panel(layers, len(named), **panel)


def _ordered(frame: pd.DataFrame, column: str, last: str) -> pd.DataFrame:
    """The sums of each word, the most first and one of them last."""
    totals = labour_totals(frame, [column])
    return totals.sort_values(column, key=lambda words: words == last, kind="stable")


def _words(named: pd.DataFrame, column: str, unnamed: str, count: int | None) -> str:
    told, rest = named[named[column] != ""], named[named[column] == ""]
    words = f"Bars of {UNIT} for {counted(count or len(told), column)}"
    if len(told):
        words += f"; {told['name'].iloc[0]} took most, {told['says'].iloc[0]}"
    if len(rest):
        words += f"; {rest['says'].iloc[0]} with {unnamed}"
    return f"{words}."
