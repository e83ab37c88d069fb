"""What the documents print is what the program says: codes, columns, verbs, a first session.

`PYTHONPATH=.:tests python tests/support/printed.py` writes them anew.
"""

import re
import tomllib
from datetime import date

import pytest
from support.printed import (
    CHECKOUT,
    GUIDE,
    PRINTED,
    README,
    session,
    with_printed,
    with_session,
)

from journal.charts.catalog import CHARTS
from journal.reading import read_sources
from journal.source import Source
from journal.syntax.verbs import BY_NAME


@pytest.mark.parametrize("place", PRINTED, ids=[f"{file.name} {what}" for file, what, _ in PRINTED])
def test_a_printed_section_says_what_the_program_says(place):
    file, heading, body = place
    text = file.read_text(encoding="utf-8")
    assert text == with_printed(text, heading, body())


def test_the_first_session_of_the_readme_prints_what_it_shows():
    text = README.read_text(encoding="utf-8")
    assert text == with_session(text, session())


def test_the_guide_shows_every_verb_in_an_example():
    text = (GUIDE / "verbs.md").read_text(encoding="utf-8")
    blocks = re.findall(r"^```(?:plot|diary)\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    reading = read_sources([Source("2026.txt", "\n".join(blocks))], date(2026, 11, 25))
    shown = {event.verb for event in reading.events if event.kind != "sheet"}
    assert set(BY_NAME) - shown == set()


def test_the_guide_names_every_chart():
    text = (GUIDE / "charts.md").read_text(encoding="utf-8")
    assert [name for name in CHARTS if f"**{name}**" not in text] == []


def test_every_dependency_has_its_reason():
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = [name for names in project["optional-dependencies"].values() for name in names]
    reasons = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for wanted in (*project["dependencies"], *extras):
        name = re.match(r"[\w-]+", wanted)
        assert name is not None and re.search(rf"\b{name[0]}\b", reasons), wanted
