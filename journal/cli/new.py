"""`haulm new`: a starter diary that reads without a problem, never over what is there."""

from datetime import date
from pathlib import Path

import click

from journal.cli.output import Unreadable, today_option

_SHEET = """\
This is the plot sheet. It says once what stands where, so that the diary need not.
Lines that begin with a dash are read by haulm; everything else, like this, is for you.
Change the lines below to fit your own ground, and add to them when something is built.

- plot My plot, latitude 53.8, dates day first, units metric, currency GBP

Beds have a length and a width, or an area. Another name for a bed goes after "also".

- bed South bed, 1.2 x 4.8 m, also S1
- bed Weir bed, 14 m2

Frames, glasshouses, pots, compost bays and water tanks are places too.

- frame Frame, 0.9 x 1.8 m
- bay Compost, 1 x 1 x 1 m
- tank Butt, 210 l

Your own measures, so that "2 barrows" or "a punnet" can be counted.

- measure barrow, 85 l
- measure punnet tomato, 250 g
"""

_PAGE = """\
# {year}

{day}
This is your first page. A line with a date on it begins a day, and whatever you write
below belongs to that day, in your own words, as long or as short as you like.

A line that begins with a dash is an entry: a verb first, then what, how much and where.

- weed South bed 45 min
- pick 1.2 kg kale from Weir bed, 400 g leek (the frost sweetened them)
- sow 24 broad bean 'The Sutton' in modules in Frame
- weather 3 to 9 C, rain 2.5 mm

Write over these lines with what you did today, then type "haulm check" in this folder.
"""

# In English whatever the system speaks, as the shorthand is.
_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def starter_pages(today: date) -> dict[str, str]:
    """The files of a new diary by name: the plot sheet and the page of the month of `today`."""
    day = f"{_WEEKDAYS[today.weekday()]} {today.day} {_MONTHS[today.month - 1]}"
    return {
        "plot.txt": _SHEET,
        f"{today.year:04}-{today.month:02}.txt": _PAGE.format(year=f"{today.year:04}", day=day),
    }


def write_pages(folder: Path, pages: dict[str, str]) -> None:
    """Writes all pages or none; raises FileExistsError rather than write over one."""
    began = not folder.exists()
    folder.mkdir(parents=True, exist_ok=True)
    made: list[Path] = []
    try:
        for name, text in pages.items():
            unfinished = folder / f".{name}.unfinished"
            with unfinished.open("x", encoding="utf-8", newline="\n") as file:
                made.append(unfinished)
                file.write(text)
        for name in pages:
            if (folder / name).exists():
                raise FileExistsError(folder / name)
            (folder / f".{name}.unfinished").rename(folder / name)
            made.append(folder / name)
    except BaseException:
        for path in made:
            path.unlink(missing_ok=True)
        if began:
            folder.rmdir()
        raise


@click.command(
    short_help="Begin a diary: a plot sheet and a first page to overwrite.",
    epilog="""\b
Examples:
  haulm new garden
      makes the folder garden with plot.txt and a page for this month
  haulm new ~/Documents/plot --today 2026-03-01
      the same, its first page dated 1 March 2026""",
)
@click.argument("folder", type=click.Path(path_type=Path, readable=False))
@today_option
def new(folder: Path, today: date) -> None:
    """Begin a diary: a plot sheet and a first page to overwrite.

    FOLDER is made when it is not there. A folder that holds anything is left as it is, and the
    exit status is 1.
    """
    pages = starter_pages(today)
    try:
        if folder.exists() and not folder.is_dir():
            raise Unreadable(f"`{folder}` is a file; name a folder for the diary")
        if folder.is_dir() and any(folder.iterdir()):
            raise click.ClickException(f"`{folder}` is not empty; name a new folder for the diary")
        write_pages(folder, pages)
    except OSError as refused:
        reason = (refused.strerror or "it cannot be written").lower()
        raise Unreadable(f"`{folder}`: {reason}") from refused
    for name in pages:
        click.echo(f"wrote {folder / name}")
    click.echo("Write over them in any editor, then type `haulm check` in that folder.")
