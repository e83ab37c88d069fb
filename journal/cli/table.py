"""`haulm table`: a table or study to standard output or a file, or all of them at once.

A file is written whole or not at all, and never over a page of the diary.
"""

from contextlib import nullcontext
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from pathlib import Path

import click
import pandas as pd

from journal.cli.output import (
    counted,
    diary_options,
    load_diary,
)
from journal.cli.targets import refuse_met_file, refuse_target, written_or_told
from journal.diary import Diary
from journal.studies.catalog import STUDIES
from journal.tables.files import (
    FORMS,
    Form,
    file_name,
    refuse_foreign_database,
    write_sqlite,
    write_table,
)
from journal.tables.package import refuse_foreign, write_package
from journal.tables.schema import DIARY_TABLES
from journal.tables.whole import place_of_file

NAMES = (*DIARY_TABLES, *STUDIES)
_FORM_BY_SUFFIX: dict[str, Form] = {f".{form}": form for form in FORMS}


@dataclass(frozen=True, slots=True)
class _Order:
    """What was asked for: one name or all, and where it goes."""

    name: str | None
    form: Form | None
    out: Path | None
    sqlite: Path | None
    folder: Path | None


@click.command(
    short_help="Print one table or study as CSV, JSON lines or Parquet.",
    epilog=f"""\b
Examples:
  haulm table harvest --out harvest.csv
      what each crop gave in each year, for a spreadsheet
  haulm table --all tables
      every table and study as a Data Package in the folder `tables`

Tables: {", ".join(DIARY_TABLES)}.

Studies: {", ".join(STUDIES)}.""",
)
@diary_options
@click.argument("words", metavar="NAME", nargs=-1)
@click.option(
    "--format",
    "form",
    type=click.Choice(list(FORMS)),
    help="csv, jsonl or parquet; else as the ending of FILE says, and CSV on a screen.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, readable=False),
    metavar="FILE",
    help="Write to a file.",
)
@click.option(
    "--sqlite",
    type=click.Path(path_type=Path, readable=False),
    metavar="FILE",
    help="Write an SQLite file of the table named, or of all tables and studies.",
)
@click.option(
    "--all",
    "folder",
    type=click.Path(path_type=Path, readable=False),
    metavar="DIR",
    help="Write all tables and studies as a Data Package.",
)
def table(
    diary_path: Path,
    today: date,
    words: tuple[str, ...],
    form: Form | None,
    out: Path | None,
    sqlite: Path | None,
    folder: Path | None,
) -> None:
    """Print one table or study as CSV, JSON lines or Parquet.

    In CSV a word that a spreadsheet would run as a formula has an apostrophe put before it.
    """
    order = _Order(_known_name(" ".join(words)) if words else None, form, out, sqlite, folder)
    _refuse_contradiction(order)
    target = out or sqlite or folder
    if target:
        there = refuse_foreign if folder else refuse_foreign_database if sqlite else place_of_file
        refuse_target(target, diary_path, there)
    _refuse_ending(order)
    diary = load_diary(diary_path, today)
    if target:
        refuse_met_file(target, diary, diary_path)
    names = (order.name,) if order.name else NAMES
    frames = {name: _frame_of(diary, name) for name in names}
    with written_or_told(target) if target else nullcontext():
        _write(frames, order, diary.plot.name)


def _known_name(words: str) -> str:
    """The table or study that the words name, `labour worth` or `labour_worth`.

    UsageError with the near names where there is none.
    """
    by_file_name = {file_name(name): name for name in NAMES}
    wanted = file_name(" ".join(words.lower().split()))
    if wanted in by_file_name:
        return by_file_name[wanted]
    near = [f"`{by_file_name[each]}`" for each in get_close_matches(wanted, by_file_name, n=3)]
    hint = f"did you mean {' or '.join(near)}?" if near else f"there are {', '.join(NAMES)}"
    raise click.UsageError(f"there is no table or study `{words}`; {hint}")


def _frame_of(diary: Diary, name: str) -> pd.DataFrame:
    """The frame of a table or study of `NAMES`."""
    if name in STUDIES:
        return STUDIES[name](diary)
    frame = getattr(diary, name)
    assert isinstance(frame, pd.DataFrame)
    return frame


def _refuse_contradiction(order: _Order) -> None:
    if order.folder and (order.name or order.form or order.out or order.sqlite):
        raise click.UsageError("`--all DIR` writes every table; leave the rest out")
    if order.sqlite and (order.form or order.out):
        raise click.UsageError("`--sqlite FILE` goes without `--format` and `--out`")
    if not (order.name or order.folder or order.sqlite):
        raise click.UsageError(f"name a table or study: {', '.join(NAMES)}")
    if order.form == "parquet" and not order.out:
        raise click.UsageError("Parquet is not for a screen; add `--out FILE`")


def _refuse_ending(order: _Order) -> None:
    """UsageError for a file whose ending says nothing of its form."""
    if order.out and not order.form and order.out.suffix.lower() not in _FORM_BY_SUFFIX:
        endings = ", ".join(_FORM_BY_SUFFIX)
        raise click.UsageError(
            f"`{order.out}` ends in none of {endings}; choose one, or name the form by `--format`"
        )


def _write(frames: dict[str, pd.DataFrame], order: _Order, title: str) -> None:
    if order.folder:
        write_package(frames, order.folder, title)
        click.echo(f"{counted(len(frames), 'table')} in {order.folder}")
    elif order.sqlite:
        write_sqlite(frames, order.sqlite)
        click.echo(f"{counted(len(frames), 'table')} in {order.sqlite}")
    else:
        _write_one(*frames.popitem(), order)


def _write_one(name: str, frame: pd.DataFrame, order: _Order) -> None:
    if order.out is None:
        click.echo(FORMS[order.form or "csv"](frame, name), nl=False)
        return
    form = order.form or _FORM_BY_SUFFIX.get(order.out.suffix.lower(), "csv")
    write_table(frame, name, order.out, form)
    click.echo(f"{counted(len(frame), 'row')} in {order.out}")
