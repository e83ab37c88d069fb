"""`haulm season`: a year's summary as one page, and its headline figures on the terminal."""

import json
import webbrowser
from datetime import date
from pathlib import Path

import click
from rich.text import Text

from journal.charts.files import write_whole
from journal.charts.words import listed
from journal.cli.output import console, diary_options, load_diary
from journal.diary import Diary
from journal.report.html import said, season_page
from journal.studies.headlines import Headline, headlines, years_written

EMPTY = 1


@click.command(
    short_help="Write a year's summary as one page to keep or print.",
    epilog="""\b
Examples:
  haulm season
      the last year that has ended, as season-YEAR.html
  haulm season 2024 --out shed.html --open
      another year under another name, opened in the browser""",
)
@diary_options
@click.argument("year", type=int, required=False)
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="Else season-YEAR.html."
)
@click.option("--open", "show", is_flag=True, help="Open the page in the browser.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="How the headline figures are printed.",
)
@click.pass_context
def season(
    ctx: click.Context,
    diary_path: Path,
    today: date,
    year: int | None,
    out: Path | None,
    show: bool,
    form: str,
) -> None:
    """Write a year's summary as one page to keep or print: the last year that has ended, or YEAR.

    The page opens without a network. Its headline figures are printed too.
    """
    wanted = today.year - 1 if year is None else year
    page = out or Path(f"season-{wanted}.html")
    if page.suffix.lower() not in {".html", ".htm"}:
        raise click.UsageError(f"`{page}` does not end in `.html`")
    diary = load_diary(diary_path, today)
    if wanted not in years_written(diary):
        click.echo(_nothing(diary, wanted), err=True)
        ctx.exit(EMPTY)
    try:
        write_whole(page, season_page(diary, wanted).encode())
    except OSError as refused:
        raise click.ClickException(_refused(page, refused)) from refused
    figures = headlines(diary, wanted)
    if form == "json":
        click.echo(_as_json(wanted, page, figures))
    else:
        _print(diary, wanted, page, figures)
    if show:
        webbrowser.open(page.resolve().as_uri())


def _nothing(diary: Diary, year: int) -> str:
    held = [str(each) for each in years_written(diary)]
    rest = f"it holds {listed(held)}; try `haulm season {held[-1]}`" if held else "it is empty"
    return f"the diary holds nothing of {year}: {rest}"


def _refused(page: Path, refused: OSError) -> str:
    if isinstance(refused, FileNotFoundError):
        return f"there is no folder `{page.parent}` to write `{page.name}` in"
    return f"`{page}` cannot be written: {(refused.strerror or str(refused)).lower()}"


def _as_json(year: int, page: Path, figures: list[Headline]) -> str:
    rows = [
        {"name": line.name, "value": line.value, "unit": line.unit, "about": line.about}
        for line in figures
    ]
    return json.dumps({"year": year, "file": str(page), "figures": rows}, ensure_ascii=False)


def _print(diary: Diary, year: int, page: Path, figures: list[Headline]) -> None:
    to = console()
    to.print(Text(f"{year} at {diary.plot.name}" if diary.plot.name else str(year), "bold"))
    names = max((len(line.name) for line in figures), default=0)
    values = max((len(said(line)) for line in figures), default=0)
    for line in figures:
        to.print(
            Text.assemble(
                (line.name.ljust(names), "dim"),
                ("  " + said(line).rjust(values), "bold green"),
                "  " + line.about,
            )
        )
    to.print(f"The page is {page}")
