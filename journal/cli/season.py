"""`haulm season`: a year's summary as one page, and its figures on the terminal."""

import json
import re
import webbrowser
from calendar import month_name
from datetime import date
from pathlib import Path

import click
from rich.text import Text

from journal.charts.words import listed
from journal.cli.output import (
    console,
    diary_options,
    load_diary,
)
from journal.cli.targets import refuse_met_file, refuse_target, written_or_told
from journal.diary import Diary
from journal.report.html import page_of
from journal.report.outline import season_markdown, season_values
from journal.report.told import LAST_DAY, Season, Told, said, tell
from journal.studies.beside import years_beside
from journal.studies.headlines import years_written
from journal.studies.part_of_year import Part
from journal.tables.whole import write_whole

EMPTY = 1
_DAY = re.compile(r"(?:(?P<year>\d{4})-)?(?P<month>\d{2})-(?P<day>\d{2})")
_NAMED = re.compile(r"(?P<day>\d{1,2}) (?P<name>[a-z]{3,9})(?: (?P<year>\d{4}))?")
_NAMES = [name.lower() for name in month_name]


@click.command(
    short_help="Write a year's summary as one page to keep or print.",
    epilog="""\b
Examples:
  haulm season 2025 --against 2023 --out shed.html --open
      set beside another year, under another name, opened in the browser
  haulm season 2025 --from 04-01 --to 06-30
      a part of the year, beside the same part of other years""",
)
@diary_options
@click.argument("year", type=int, required=False)
@click.option(
    "--out",
    type=click.Path(path_type=Path, readable=False),
    metavar="FILE",
    help="Else season-YEAR.html.",
)
@click.option(
    "--against", type=int, metavar="YEAR", help="The earlier year it is set beside; else the last."
)
@click.option(
    "--from",
    "first",
    metavar="DAY",
    help="First day of a part: `04-01`, month first, or `1 April`.",
)
@click.option("--to", "last", metavar="DAY", help="Last day of a part of the year.")
@click.option("--open", "show", is_flag=True, help="Open the page in the browser.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "md"]),
    default="text",
    help="How the figures are printed: the headlines, or all of the page as JSON or Markdown.",
)
@click.pass_context
def season(
    ctx: click.Context,
    diary_path: Path,
    today: date,
    year: int | None,
    out: Path | None,
    against: int | None,
    first: str | None,
    last: str | None,
    show: bool,
    form: str,
) -> None:
    """Write a year's summary as one page to keep or print: the last year that has ended, or YEAR.

    The page opens without a network. Its headline figures are printed too.
    """
    wanted = today.year - 1 if year is None else year
    part = _part(wanted, first, last)
    page = out or Path(_name(wanted, part))
    if page.suffix.lower() not in {".html", ".htm"}:
        raise click.UsageError(f"`{page}` does not end in `.html`")
    refuse_target(page, diary_path)
    diary = load_diary(diary_path, today)
    refuse_met_file(page, diary, diary_path)
    if wanted not in years_written(diary):
        click.echo(_nothing(diary, wanted), err=True)
        ctx.exit(EMPTY)
    _check_against(diary, wanted, against)
    folder = diary_path if diary_path.is_dir() else diary_path.parent
    told = tell(diary, Season(wanted, against, part, folder, page))
    with written_or_told(page):
        write_whole(page, page_of(diary, told).encode())
    _print(told, page, form)
    if show:
        webbrowser.open(page.resolve().as_uri())


def _part(year: int, first: str | None, last: str | None) -> Part | None:
    """The part of the year that was asked for; None for all of it."""
    if first is None and last is None:
        return None
    part = Part(_day(year, first, "--from") or (1, 1), _day(year, last, "--to") or (12, 31))
    if part.first > part.last:
        raise click.UsageError(f"`--from {first}` lies after `--to {last}`")
    return part


def _day(year: int, written: str | None, option: str) -> tuple[int, int] | None:
    if written is None:
        return None
    words = " ".join(written.lower().split())
    found = _DAY.fullmatch(words) or _NAMED.fullmatch(words)
    month = _month(found) if found else 0
    if found is None or not month:
        raise click.UsageError(f"`{option} {written}` is no day; write it as `04-01` or `1 April`")
    day = int(found["day"])
    if month not in LAST_DAY or not 1 <= day <= LAST_DAY[month] + (month == 2):
        raise click.UsageError(f"`{option} {written}` is a day that cannot be")
    if found["year"] and int(found["year"]) != year:
        raise click.UsageError(f"`{option} {written}` is not in {year}")
    return month, day


def _month(found: re.Match[str]) -> int:
    """The number of the month, which may be named by its first letters; 0 for no such name."""
    named = found.groupdict().get("name")
    if named is None:
        return int(found["month"])
    return next((at for at, name in enumerate(_NAMES) if name and name.startswith(named)), 0)


def _name(year: int, part: Part | None) -> str:
    if part is None:
        return f"season-{year}.html"
    ends = "-to-".join(f"{month:02d}-{day:02d}" for month, day in (part.first, part.last))
    return f"season-{year}-{ends}.html"


def _check_against(diary: Diary, year: int, against: int | None) -> None:
    """UsageError for a year that this one cannot be set beside."""
    if against is None:
        return
    if against >= year:
        raise click.UsageError(f"`--against {against}` is not before {year}")
    held = years_beside(diary, year)
    if against not in held:
        rest = f"there is {listed([str(each) for each in held])}" if held else "there is no other"
        raise click.UsageError(f"nothing was picked in {against}; {rest}")


def _nothing(diary: Diary, year: int) -> str:
    held = [str(each) for each in years_written(diary)]
    rest = f"it holds {listed(held)}; try `haulm season {held[-1]}`" if held else "it is empty"
    return f"the diary holds nothing of {year}: {rest}"


def _print(told: Told, page: Path, form: str) -> None:
    if form == "json":
        click.echo(json.dumps({"file": str(page), **season_values(told)}, ensure_ascii=False))
    elif form == "md":
        click.echo(season_markdown(told), nl=False)
    else:
        _print_headlines(told, page)


def _print_headlines(told: Told, page: Path) -> None:
    to = console()
    when = " ".join(filter(None, [told.span, str(told.year)]))
    to.print(Text(f"{when} at {told.plot}" if told.plot else when, "bold"))
    names = max((len(line.name) for line in told.headlines), default=0)
    values = max((len(said(line)) for line in told.headlines), default=0)
    for line in told.headlines:
        to.print(
            Text.assemble(
                (line.name.ljust(names), "dim"),
                ("  " + said(line).rjust(values), "bold green"),
                "  " + line.about,
            )
        )
    to.print(f"The page is {page}")
