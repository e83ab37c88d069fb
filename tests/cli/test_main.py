"""The command line as a whole: help, faults of ours, interruption, pipes, and the two tables."""

import os
import signal
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from journal import __version__
from journal.cli import main as command_line
from journal.cli.main import COMMANDS, cli


def commands() -> list[click.Command]:
    return [cli.get_command(click.Context(cli), name) for name in COMMANDS]  # type: ignore[misc]


def haulm(*words: str, **variables: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "journal", *words],
        capture_output=True,
        encoding="utf-8",
        env={**os.environ, **variables},
    )


def test_the_overview_names_every_command_with_its_help_line():
    shown = CliRunner().invoke(cli, ["--help"])
    assert shown.exit_code == 0
    for name, entry in COMMANDS.items():
        assert f"  {name}" in shown.output and entry.help in shown.output


@pytest.mark.parametrize("name", COMMANDS)
def test_a_help_line_is_the_commands_own(name: str):
    command = getattr(import_module(COMMANDS[name].module), name)
    assert command.name == name
    assert command.short_help == COMMANDS[name].help
    assert command.help.startswith(COMMANDS[name].help.removesuffix("."))


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_of_a_command_shows_two_worked_examples(name: str):
    shown = CliRunner().invoke(cli, [name, "--help"])
    assert shown.exit_code == 0
    examples = shown.output.split("Examples:")[1]
    assert examples.count(f"haulm {name}") == 2


def test_every_option_has_a_help_text():
    for command in commands():
        for option in command.params:
            if isinstance(option, click.Option):
                assert option.help, f"{command.name} {option.opts}"


def test_no_command_shows_the_help_and_leaves_with_2():
    shown = CliRunner().invoke(cli, [])
    assert shown.exit_code == 2 and "Commands:" in shown.output


@pytest.mark.parametrize("flag", ["--version", "-V"])
def test_the_version_is_the_packages(flag: str):
    assert CliRunner().invoke(cli, [flag]).output == f"haulm {__version__}\n"


def test_an_unknown_command_is_answered_with_the_nearest():
    shown = CliRunner().invoke(cli, ["chek"])
    assert shown.exit_code == 2
    assert "there is no command `chek`; did you mean `haulm check`?" in shown.output


def test_a_command_that_resembles_none_points_to_the_list():
    assert "`haulm --help` lists them" in CliRunner().invoke(cli, ["zzzz"]).output


def run_main(monkeypatch: pytest.MonkeyPatch, raised: BaseException) -> int:
    """`main()` with a command that ends in `raised`; its exit status."""

    def fails(**_: object) -> None:
        raise raised

    monkeypatch.setattr(command_line.cli, "main", fails)
    monkeypatch.setattr(command_line, "prepare_streams", lambda: None)
    with pytest.raises(SystemExit) as left:
        command_line.main()
    assert isinstance(left.value.code, int)
    return left.value.code


def test_a_fault_of_ours_is_one_apology_without_a_traceback(monkeypatch, capsys):
    monkeypatch.delenv("HAULM_DEBUG", raising=False)
    assert run_main(monkeypatch, KeyError("crop")) == 70
    told = capsys.readouterr().err
    assert "this is a fault of ours" in told and "KeyError: 'crop'" in told
    assert "report it" in told and "Traceback" not in told


def test_haulm_debug_shows_the_fault_itself(monkeypatch):
    monkeypatch.setenv("HAULM_DEBUG", "1")
    with pytest.raises(KeyError):
        run_main(monkeypatch, KeyError("crop"))


@pytest.mark.parametrize("raised", [KeyboardInterrupt(), click.Abort()])
def test_an_interruption_is_quiet_and_leaves_with_130(monkeypatch, capsys, raised):
    assert run_main(monkeypatch, raised) == 130
    assert capsys.readouterr() == ("", "")


def test_a_sentence_for_people_leaves_with_the_status_it_carries(monkeypatch, capsys):
    assert run_main(monkeypatch, click.UsageError("name a folder")) == 2
    assert "name a folder" in capsys.readouterr().err


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such signal")
def test_a_reader_that_leaves_early_ends_the_command_quietly(tmp_path: Path):
    (tmp_path / "page.txt").write_text("14 March 2026\n- sow %\n" * 3000, encoding="utf-8")
    words = [sys.executable, "-m", "journal", "check", "--format", "short", "-d", str(tmp_path)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None and process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        told = process.stderr.read()
    assert (process.returncode, told) == (-signal.SIGPIPE, b"")


def test_what_goes_into_a_pipe_is_utf_8_whatever_the_system_speaks(tmp_path: Path):
    page = "14 March 2026\n- sow 🫘 大根 kgs é\n"
    (tmp_path / "page.txt").write_text(page, encoding="utf-8")
    shown = haulm("check", "-d", str(tmp_path), PYTHONIOENCODING="latin-1", PYTHONUTF8="0")
    assert "🫘 大根" in shown.stdout and "Traceback" not in shown.stderr
