"""What was probably meant by a piece of a declaration, and pieces of feeds and prices."""

from journal.problems.model import Problem, make
from journal.reference.crops import nearest
from journal.source import Source
from journal.syntax.nodes import Declaration, Field


def size_in_name(line: Declaration, source: Source) -> Problem:
    """`Barrel 200 litres`."""
    name, figure, unit = line.name.rsplit(" ", 2)
    size = f"{figure} {unit}"
    return make("J608", source, line.name_span, word=line.name, name=name, size=size)


def comma_before_size(name: str) -> str | None:
    """The mend for `barrow 80 l` or `barrow = 80 l`, a size that no comma parts from its name."""
    head, space, tail = name.partition(" ")
    while space and not tail[:1].isdigit():
        more, space, tail = tail.partition(" ")
        head = f"{head} {more}"
    head = head.rstrip(" =:")
    return f"write `- measure {head}, {tail}`" if space and head else None


def likely_piece(piece: Field, known: tuple[str, ...]) -> str:
    """The known piece that opens with the same word, or one close to it."""
    word = piece.text.split()[0].lower()
    heads = {example.split()[0]: example for example in known}
    likely = [word] if word in heads else nearest(word, heads, 1)
    if likely:
        return f"write it like `{heads[likely[0]]}`"
    return "put it in (brackets) if it is a remark"


def density(words: str) -> float | None:
    """`density 1.1` or `density 1.1 kg per l`: kg a litre; None for anything else."""
    name, _, rest = words.lower().partition(" ")
    figure = rest.removesuffix("kg per l").removesuffix("kg/l").strip()
    if name != "density":
        return None
    try:
        value = float(figure)
    except ValueError:
        return None
    return value if 0 < value < 25 else None


def split_cultivar(name: str) -> tuple[str, str]:
    """`potato 'Charlotte'` as its crop and its cultivar."""
    for quote in "'‘\"“":
        if quote in name:
            crop, _, rest = name.partition(quote)
            return crop.strip(), rest.strip().rstrip("'’\"”")
    return name, ""
