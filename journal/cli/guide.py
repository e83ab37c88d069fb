"""`haulm guide`: the user's guide, page by page, from inside the package."""

from difflib import get_close_matches
from importlib.resources import files
from importlib.resources.abc import Traversable

import click
from rich.markdown import Markdown

from journal.cli.output import console


def guide_pages() -> dict[str, Traversable]:
    """The guide's pages by topic, in the order of their names."""
    folder = files("journal") / "guide"
    pages = {page.name.removesuffix(".md"): page for page in folder.iterdir()}
    return {topic: pages[topic] for topic in sorted(pages) if pages[topic].name.endswith(".md")}


def _title(page: Traversable) -> str:
    return page.read_text(encoding="utf-8").partition("\n")[0].lstrip("# ").strip()


@click.command(
    short_help="Read the user's guide, offline.",
    epilog="""\b
Examples:
  haulm guide
      lists the topics
  haulm guide entries | less
      the page on entries, a screen at a time""",
)
@click.argument("topic", required=False)
def guide(topic: str | None) -> None:
    """Read the user's guide, offline.

    Without a TOPIC the topics are listed.
    """
    pages = guide_pages()
    if topic is None:
        width = max(map(len, pages), default=0)
        for name, page in pages.items():
            click.echo(f"{name:{width}}  {_title(page)}")
        click.echo("\nType `haulm guide TOPIC` to read one.")
        return
    if topic not in pages:
        near = get_close_matches(topic.lower(), pages, n=1)
        hint = f"did you mean `haulm guide {near[0]}`?" if near else "`haulm guide` lists them"
        raise click.UsageError(f"the guide has no topic `{topic}`; {hint}")
    text = pages[topic].read_text(encoding="utf-8")
    to = console()
    if to.is_terminal:
        to.print(Markdown(text), soft_wrap=False)
    else:
        click.echo(text, nl=False)
