"""`haulm chart`: one chart of a year to SVG, PNG, PDF, HTML or JSON."""

from datetime import date
from difflib import get_close_matches
from pathlib import Path

import click
import pandas as pd

from journal.charts.catalog import CHARTS
from journal.charts.files import WRITERS, write_chart
from journal.charts.theme import panel_words
from journal.charts.words import year_list
from journal.cli.output import diary_options, load_diary
from journal.cli.targets import refuse_met_file, refuse_target, written_or_told


@click.command(
    short_help="Draw one chart to SVG, PNG, PDF, HTML or JSON.",
    epilog=f"""\b
Examples:
  haulm chart harvest --out harvest.svg
      what each crop gave in the last year that has ended
  haulm chart years --year 2024 --out 2024.pdf
      another year beside the years before it

Charts: {", ".join(CHARTS)}.""",
)
@diary_options
@click.argument("words", metavar="NAME", nargs=-1)
@click.option(
    "--out",
    type=click.Path(path_type=Path, readable=False),
    metavar="FILE",
    required=True,
    help=f"Where to; the ending says the format: {' '.join(WRITERS)}.",
)
@click.option("--year", type=int, help="Else the last year with something to draw that has ended.")
def chart(
    diary_path: Path, today: date, words: tuple[str, ...], out: Path, year: int | None
) -> None:
    """Draw one chart to SVG, PNG, PDF, HTML or JSON."""
    name = _known_name(" ".join(words))
    if out.suffix.lower() not in WRITERS:
        raise click.UsageError(f"`{out}` ends in no format of {', '.join(WRITERS)}")
    picture = CHARTS[name]
    refuse_target(out, diary_path)
    diary = load_diary(diary_path, today)
    refuse_met_file(out, diary, diary_path)
    frame = picture.study(diary)
    wanted = _latest(frame, today) if year is None else year
    drawn = picture.drawn(frame, wanted, today)
    with written_or_told(out):
        write_chart(drawn, out)
    click.echo("\n".join([*panel_words(drawn), f"The chart is {out}"]))


def _known_name(words: str) -> str:
    """The chart of this name; UsageError with the near names where there is none."""
    by_words = {name.replace("_", " "): name for name in CHARTS}
    wanted = " ".join(words.lower().replace("_", " ").split())
    if not wanted:
        raise click.UsageError(f"name a chart: {', '.join(CHARTS)}")
    if wanted in by_words:
        return by_words[wanted]
    near = [f"`{each}`" for each in get_close_matches(wanted, CHARTS, n=3)]
    hint = f"did you mean {' or '.join(near)}?" if near else f"there are {', '.join(CHARTS)}"
    raise click.UsageError(f"there is no chart `{words}`; {hint}")


def _latest(frame: pd.DataFrame, today: date) -> int:
    """The last year of the frame that has ended, else its last, else the year before today's."""
    years = year_list(frame) if "year" in frame else []
    ended = [year for year in years if year < today.year]
    return (ended or years or [today.year - 1])[-1]
