"""`haulm season` and `haulm chart` on a diary in a folder: what they write, print and refuse."""

import json
import webbrowser
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from journal.cli.chart import chart
from journal.cli.season import season

DIARY = """\
- plot Cold Lane
- bed Long 1, 1 x 4 m

1 July 2024
- pick 2 kg kale from Long 1

3 August 2025
- pick 3 kg kale from Long 1
- weed Long 1 45 min
"""
TODAY = ("--today", "2026-03-01")


@pytest.fixture(autouse=True)
def folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    (tmp_path / "garden").mkdir()
    (tmp_path / "garden" / "pages.txt").write_text(DIARY, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(command: object, *arguments: str) -> Result:
    return CliRunner().invoke(command, [*arguments, "-d", "garden", *TODAY])


def test_the_last_year_that_has_ended_is_written_and_told(folder: Path) -> None:
    result = run(season)
    assert result.exit_code == 0, result.output
    assert (folder / "season-2025.html").read_text(encoding="utf-8").startswith("<!doctype html>")
    assert [line.split() for line in result.stdout.splitlines()][:2] == [
        ["2025", "at", "Cold", "Lane"],
        ["picked", "3", "kg", "1", "picking", "of", "1", "crop"],
    ]
    assert "+50 %" in result.stdout
    assert "\x1b" not in result.stdout
    assert result.stdout.splitlines()[-1] == "The page is season-2025.html"


def test_another_year_goes_under_another_name(folder: Path) -> None:
    result = run(season, "2024", "--out", "shed.html")
    assert result.exit_code == 0, result.output
    assert (folder / "shed.html").exists()
    assert not (folder / "season-2024.html").exists()


def test_the_same_figures_come_as_json() -> None:
    told = json.loads(run(season, "--format", "json").stdout)
    assert (told["year"], told["file"]) == (2025, "season-2025.html")
    assert told["figures"][0] == {
        "name": "picked",
        "value": 3.0,
        "unit": "kg",
        "about": "1 picking of 1 crop",
    }
    assert {figure["name"]: figure["value"] for figure in told["figures"]}["against 2024"] == 50.0


def test_the_whole_page_comes_as_markdown() -> None:
    told = run(season, "--format", "md").stdout
    assert told.startswith("# 2025 at Cold Lane\n")
    assert "## The harvest" in told
    assert "\x1b" not in told


def test_a_part_of_the_year_has_its_own_name_and_figures(folder: Path) -> None:
    result = run(season, "--from", "1 Aug", "--to", "2025-08-31")
    assert result.exit_code == 0, result.output
    assert (folder / "season-2025-08-01-to-08-31.html").exists()
    assert result.stdout.startswith("1 August to 31 August 2025 at Cold Lane\n")
    assert "3 kg" in result.stdout
    assert "against" not in result.stdout


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--against", "2025"), "`--against 2025` is not before 2025"),
        (("--against", "2019"), "nothing was picked in 2019; there is 2024"),
        (("--from", "spring"), "`--from spring` is no day; write it as `04-01`"),
        (("--from", "1-4"), "`--from 1-4` is no day; write it as `04-01` or `1 April`"),
        (("--from", "3 foo"), "`--from 3 foo` is no day; write it as `04-01` or `1 April`"),
        (("--from", "30 feb"), "`--from 30 feb` is a day that cannot be"),
        (("--from", "02-30"), "`--from 02-30` is a day that cannot be"),
        (("--to", "2024-05-01"), "`--to 2024-05-01` is not in 2025"),
        (("--from", "06-01", "--to", "05-01"), "`--from 06-01` lies after `--to 05-01`"),
    ],
)
def test_what_a_season_cannot_be_is_said(
    arguments: tuple[str, ...], words: str, folder: Path
) -> None:
    result = run(season, *arguments)
    assert result.exit_code == 2
    assert words in result.stderr
    assert [each.name for each in folder.iterdir()] == ["garden"]


def test_an_empty_year_is_said_and_nothing_is_written(folder: Path) -> None:
    result = run(season, "2019")
    assert result.exit_code == 1
    assert result.stdout == ""
    assert result.stderr == (
        "the diary holds nothing of 2019: it holds 2024 and 2025; try `haulm season 2025`\n"
    )
    assert not (folder / "season-2019.html").exists()


def test_a_page_of_the_diary_is_never_written_over(folder: Path) -> None:
    result = run(season, "--out", "garden/pages.txt")
    assert result.exit_code == 2
    assert "does not end in `.html`" in result.stderr
    assert (folder / "garden" / "pages.txt").read_text(encoding="utf-8") == DIARY


def test_a_folder_that_is_not_there_is_said() -> None:
    result = run(season, "--out", "nowhere/season.html")
    assert result.exit_code == 1
    assert "there is no folder `nowhere`" in result.stderr


def test_the_page_is_opened_when_asked(monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    opened: list[str] = []
    monkeypatch.setattr(webbrowser, "open", opened.append)
    assert run(season, "--open").exit_code == 0
    assert opened == [(folder / "season-2025.html").as_uri()]


def test_a_chart_is_written_and_said_in_a_sentence(folder: Path) -> None:
    result = run(chart, "harvest", "--out", "harvest.svg")
    assert result.exit_code == 0, result.output
    assert (folder / "harvest.svg").read_text(encoding="utf-8").startswith("<svg")
    assert result.stdout.splitlines() == [
        "All that was picked in 2025 is kale · Long 1, 3 kg.",
        "The chart is harvest.svg",
    ]


def test_a_chart_of_a_named_year_draws_that_year(folder: Path) -> None:
    assert run(chart, "harvest", "--year", "2024", "--out", "harvest.json").exit_code == 0
    document = json.loads((folder / "harvest.json").read_text(encoding="utf-8"))
    (rows,) = document["datasets"].values()
    assert [(row["year"], row["kg"]) for row in rows] == [(2024, 2.0)]


def test_a_chart_without_anything_to_draw_is_a_sentence() -> None:
    result = run(chart, "labour", "--year", "2024", "--out", "labour.svg")
    assert result.exit_code == 0
    assert result.stdout.startswith("No work was timed.")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("harvets", "--out", "a.svg"), "there is no chart `harvets`; did you mean `harvest`?"),
        (("zzz", "--out", "a.svg"), "there is no chart `zzz`; there are harvest, labour, years"),
        (("harvest", "--out", "a.gif"), "`a.gif` ends in no format of .svg, .png, .pdf"),
        (("harvest",), "Missing option '--out'"),
    ],
)
def test_what_a_chart_cannot_be_is_said(
    arguments: tuple[str, ...], words: str, folder: Path
) -> None:
    result = run(chart, *arguments)
    assert result.exit_code == 2
    assert words in result.stderr
    assert [each.name for each in folder.iterdir()] == ["garden"]
