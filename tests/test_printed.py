"""What the documents print is what the program says: codes, columns, verbs, a first session.

`python tests/support/printed.py` writes the codes and columns anew.
"""

import re
import shlex
import tomllib
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.printed import CHECKOUT, GUIDE, PRINTED, with_printed

from journal.cli.main import cli
from journal.reading import read_sources
from journal.source import Source
from journal.syntax.verbs import BY_NAME


@pytest.mark.parametrize("place", PRINTED, ids=[f"{file.name} {what}" for file, what, _ in PRINTED])
def test_a_printed_section_says_what_the_program_says(place):
    file, heading, body = place
    text = file.read_text(encoding="utf-8")
    assert text == with_printed(text, heading, body())


README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
DIARY = re.findall(r"^```diary\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)[0]
SESSION = re.findall(r"^```console\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)[0]
STEPS = [step.partition("\n") for step in re.split(r"^\$ haulm ", SESSION, flags=re.MULTILINE)[1:]]


@pytest.mark.parametrize("step", STEPS, ids=[command for command, _, _ in STEPS])
def test_the_first_session_of_the_readme_prints_what_it_shows(
    step: tuple[str, str, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    command, _, shown = step
    (tmp_path / "garden.txt").write_text(DIARY, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("HAULM_DIARY", raising=False)
    ran = CliRunner().invoke(cli, [*shlex.split(command), "--today", "2026-11-25"])
    assert ran.stdout == shown
    assert ran.exit_code == 0


def test_the_guide_shows_every_verb_in_an_example():
    text = (GUIDE / "verbs.md").read_text(encoding="utf-8")
    blocks = re.findall(r"^```(?:plot|diary)\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    reading = read_sources([Source("2026.txt", "\n".join(blocks))], date(2026, 11, 25))
    shown = {event.verb for event in reading.events if event.kind != "sheet"}
    assert set(BY_NAME) - shown == set()


def test_every_dependency_has_its_reason():
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = [name for names in project["optional-dependencies"].values() for name in names]
    reasons = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for wanted in (*project["dependencies"], *extras):
        name = re.match(r"[\w-]+", wanted)
        assert name is not None and re.search(rf"\b{name[0]}\b", reasons), wanted
