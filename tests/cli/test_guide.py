"""`haulm guide`: its topics and its pages."""

import pytest
from click.testing import CliRunner, Result

from journal.cli.guide import guide_pages
from journal.cli.main import cli


def guide(*words: str, **variables: str) -> Result:
    return CliRunner().invoke(cli, ["guide", *words], env=variables)


def test_the_topics_are_listed_with_their_titles():
    shown = guide()
    assert shown.exit_code == 0 and guide_pages()
    for topic, page in guide_pages().items():
        title = page.read_text(encoding="utf-8").split("\n")[0].removeprefix("# ")
        assert any(
            line.split()[0] == topic and line.endswith(title)
            for line in shown.output.splitlines()
            if line
        )


@pytest.mark.parametrize("topic", guide_pages())
def test_a_page_opens_with_its_title_and_goes_into_a_pipe_as_it_is(topic: str):
    text = guide_pages()[topic].read_text(encoding="utf-8")
    assert text.startswith("# ")
    assert guide(topic).output == text


def test_a_terminal_gets_the_page_set_and_not_its_marks():
    topic, page = next(iter(guide_pages().items()))
    title = page.read_text(encoding="utf-8").split("\n")[0].removeprefix("# ")
    shown = guide(topic, FORCE_COLOR="1", TERM="xterm").output
    assert title in shown and f"# {title}" not in shown


def test_an_unknown_topic_is_answered_with_the_nearest():
    topic = next(iter(guide_pages()))
    shown = guide(topic + "x")
    assert shown.exit_code == 2
    assert f"the guide has no topic `{topic}x`; did you mean `haulm guide {topic}`?" in shown.stderr
