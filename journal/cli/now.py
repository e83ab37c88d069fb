"""`haulm now`: what stands, what is due, overdue or forgotten, and a calendar of it."""

import json
from datetime import date
from pathlib import Path

import click
from rich.console import Console
from rich.text import Text

from journal.cli.output import console, counted, diary_options, load_diary
from journal.cli.targets import refuse_met_file, refuse_target, written_or_told
from journal.report.due_calendar import due_calendar
from journal.report.now import Glance, Group, glance
from journal.tables.whole import write_whole


@click.command(
    short_help="What stands, what is due, and what was forgotten.",
    epilog="""\b
Examples:
  haulm now
      what is in the ground and under cover, ready, due or forgotten
  haulm now --ics plot.ics
      the same, and what is due as a calendar for a phone""",
)
@diary_options
@click.option(
    "--ics",
    type=click.Path(path_type=Path, readable=False),
    metavar="FILE",
    help="Write plans and due days as a calendar too (RFC 5545).",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="For people or for programs.",
)
def now(diary_path: Path, today: date, ics: Path | None, form: str) -> None:
    """What stands, what is due, and what was forgotten.

    What is in the ground and under cover today, by place; what is ready or past its time, due this
    week or overdue; beds standing empty, and young plants that have waited longest.
    """
    if ics is not None:
        refuse_target(ics, diary_path)
    diary = load_diary(diary_path, today)
    if ics is not None:
        refuse_met_file(ics, diary, diary_path)
        # before anything is printed, since whoever reads that may leave
        with written_or_told(ics):
            write_whole(ics, due_calendar(diary))
    seen = glance(diary)
    if form == "json":
        click.echo(json.dumps(_as_json(seen), ensure_ascii=False, indent=1))
    else:
        _print(seen, console())
    if ics is not None:
        click.echo(f"The calendar is {ics}", err=form == "json")


def _as_json(seen: Glance) -> dict[str, object]:
    found: dict[str, object] = {"today": seen.today.isoformat(), "plot": seen.plot}
    for group in seen.groups:
        found[group.key] = [line.row for line in group.lines]
    found["unplaced"] = seen.unplaced
    found["contradictions"] = list(seen.contradictions)
    found["cautions"] = list(seen.cautions)
    return found


def _print(seen: Glance, to: Console) -> None:
    day = f"{seen.today:%A} {seen.today.day} {seen.today:%B %Y}"
    to.print(Text(f"{day}, {seen.plot}" if seen.plot else day, "bold"))
    told = [group for group in seen.groups if group.lines]
    for group in told:
        _print_group(group, to)
    if not told:
        to.print("Nothing stands, is due or was planned, as far as the diary tells.")
    if seen.cautions:
        to.print()
    for caution in seen.cautions:
        to.print(Text(caution, "yellow"))
    if seen.unplaced:
        verb = "fits" if seen.unplaced == 1 else "fit"
        to.print()
        to.print(
            f"{counted(seen.unplaced, 'entry')} {verb} no batch; "
            "`haulm table plants unplaced` says which"
        )
    for words in seen.contradictions:
        to.print(Text(f"  {words}"))


def _print_group(group: Group, to: Console) -> None:
    to.print()
    to.print(Text(group.title, "bold green"))
    places = max(len(line.place) for line in group.lines)
    width = max(len(line.subject) for line in group.lines)
    last = ""
    for line in group.lines:
        place = "" if line.place == last else line.place
        last = line.place
        gap = "  " if places else ""
        subject = "  " + place.ljust(places) + gap + line.subject.ljust(width)
        to.print(Text.assemble(subject, ("  " + line.says, "dim")))
    if group.aside:
        to.print(Text("  " + group.aside, "dim italic"))
