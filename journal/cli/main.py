"""`haulm`: a command's module is loaded when the command is named, and never before.

A fault of ours ends in one sentence and where to report it, not in a traceback.
"""

import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from difflib import get_close_matches
from importlib import import_module
from typing import Any

import click

from journal import __version__
from journal.cli.start import INTERRUPTED
from journal.cli.streams import prepare_streams, refusal_of
from journal.cli.wording import in_our_words

OUR_FAULT = 70
UNPRINTED = 1


@dataclass(frozen=True, slots=True)
class Entry:
    """Where a command is and its line in `haulm --help`; the command has the module's last name."""

    module: str
    help: str


COMMANDS = {
    "new": Entry("journal.cli.new", "Begin a diary: a plot sheet and a first page to overwrite."),
    "check": Entry("journal.cli.check", "Show what could not be read, and the mend."),
    "ask": Entry("journal.cli.ask", "Answer a question, with the diary lines it rests on."),
    "now": Entry("journal.cli.now", "What stands, what is due, and what was forgotten."),
    "season": Entry("journal.cli.season", "Write a year's summary as one page to keep or print."),
    "chart": Entry("journal.cli.chart", "Draw one chart to SVG, PNG, PDF, HTML or JSON."),
    "table": Entry("journal.cli.table", "Print one table or study as CSV, JSON lines or Parquet."),
    "guide": Entry("journal.cli.guide", "Read the user's guide, offline."),
}


class Commands(click.Group):
    """The command group of `COMMANDS`; the overview is printed without loading any of them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names in the order of the table."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command, its module loaded now; None when there is no such name."""
        if cmd_name not in COMMANDS:
            return None
        command = getattr(import_module(COMMANDS[cmd_name].module), cmd_name)
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As click does, but an unknown name is answered with the nearest one."""
        name = args[0]
        if name not in COMMANDS and not name.startswith("-"):
            near = get_close_matches(name, COMMANDS, n=1)
            hint = f"did you mean `haulm {near[0]}`?" if near else "`haulm --help` lists them"
            raise click.UsageError(f"there is no command `{name}`; {hint}", ctx)
        return super().resolve_command(ctx, args)

    def invoke(self, ctx: click.Context) -> Any:
        """As click does, but what it refuses is told in our words."""
        try:
            return super().invoke(ctx)
        except click.UsageError as refused:
            raise in_our_words(refused) from refused

    def make_context(
        self,
        info_name: str | None,
        args: list[str],
        parent: click.Context | None = None,
        **extra: Any,
    ) -> click.Context:
        """As click does, in our words too."""
        try:
            return super().make_context(info_name, args, parent, **extra)
        except click.UsageError as refused:
            raise in_our_words(refused) from refused

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """One line a command, from the table alone."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, entry.help) for name, entry in COMMANDS.items()])


@click.command(
    cls=Commands,
    no_args_is_help=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="`haulm COMMAND --help` shows two worked examples of each.",
)
@click.version_option(__version__, "-V", "--version", message="haulm %(version)s")
def cli() -> None:
    """Read a garden diary kept as plain text: check it, ask it, draw its seasons."""


def main() -> None:
    """Runs a command and leaves with its exit status; no way out of it is a traceback."""
    prepare_streams()
    try:
        status = cli.main(prog_name="haulm", standalone_mode=False)
        sys.stdout.flush()
    except click.ClickException as problem:
        with suppress(OSError):
            problem.show()
        status = problem.exit_code
    except (click.Abort, KeyboardInterrupt):
        status = INTERRUPTED
    except Exception as fault:
        status = _told(fault)
    sys.exit(status if isinstance(status, int) else 0)


def _told(fault: Exception) -> int:
    """Says what stopped a command, and gives the exit status; raises it with HAULM_DEBUG."""
    if isinstance(fault, OSError) and fault.filename is None:
        # commands tell of files themselves: what is left is what they print on
        with suppress(OSError):
            click.echo(refusal_of(fault), nl=False, err=True)
        return UNPRINTED
    if os.environ.get("HAULM_DEBUG"):
        raise fault
    click.echo(_apology(fault), err=True)
    return OUR_FAULT


def _apology(fault: Exception) -> str:
    what = f"{type(fault).__name__}: {fault}".partition("\n")[0].removesuffix(": ")
    return (
        f"haulm: this is a fault of ours, not of your diary, which is untouched ({what}).\n"
        f"Please report it where you got haulm {__version__}, with what you typed and what "
        "HAULM_DEBUG=1 shows."
    )
