"""A command takes what was kept unless it is told not to, and shows a bar only where one helps."""

import sys
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from journal.cache.shelf import VARIABLE
from journal.cli.main import cli
from journal.cli.opening import Bar

PAGE = "14 March 2026\n- pick 1.2 kg kale from Long 1\n"


@pytest.fixture
def diary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(VARIABLE, str(tmp_path / "cache"))
    folder = tmp_path / "diary"
    folder.mkdir()
    (folder / "2026.txt").write_text(PAGE, encoding="utf-8")
    return folder


def run(folder: Path, *words: str) -> str:
    result = CliRunner().invoke(cli, [*words, "-d", str(folder), "--today", "2026-11-25"])
    assert result.exit_code == 0, result.output
    return result.output


def kept(folder: Path) -> list[Path]:
    return list(folder.parent.glob("cache/*"))


def test_the_second_time_says_the_same(diary: Path):
    for words in (("check", "--hints"), ("table", "events"), ("ask", "when was kale last picked?")):
        first, again = run(diary, *words), run(diary, *words)
        assert first == again == run(diary, *words, "--no-cache")
    assert len(kept(diary)) == 1


def test_without_the_cache_nothing_is_kept(diary: Path):
    run(diary, "check", "--no-cache")
    assert kept(diary) == []


class _Clock:
    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        return self.now


def shown(lines: int, seconds_a_line: float) -> bool:
    clock = _Clock()
    with Bar(clock) as bar:
        bar.expect(lines)
        for at in bar.passed(range(lines)):
            assert isinstance(at, int)
            clock.now += seconds_a_line
        return bar.drawn


def test_a_bar_is_drawn_after_a_second_and_not_before():
    assert shown(2000, 0.001)
    assert not shown(900, 0.001)
    assert not shown(0, 1.0)


def test_a_bar_passes_every_line_on():
    with Bar(_Clock()) as bar:
        assert list(bar.passed("abc")) == ["a", "b", "c"]


def test_a_bar_is_taken_away_when_a_reading_is_broken_off():
    clock = _Clock()
    bar = Bar(clock)
    with pytest.raises(KeyboardInterrupt), bar:
        for _ in bar.passed(range(5000)):
            clock.now += 0.01
            if bar.drawn:
                raise KeyboardInterrupt
    assert not bar.drawn


def test_nothing_of_a_bar_is_written_into_a_pipe(
    diary: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    from journal.cli import opening

    monkeypatch.setattr(opening, "Bar", lambda: pytest.fail("a bar was begun"))
    assert not sys.stderr.isatty()
    assert opening.open_diary(diary, date(2026, 11, 25)).events
    assert capsys.readouterr().err == ""
