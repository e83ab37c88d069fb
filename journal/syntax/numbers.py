"""Written figures and names as they are looked up: `1 1/2`, `half a`, `two dozen`, `North  1`."""

_FRACTIONS = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3}
_FRACTIONS |= {"⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}
NUMBER_WORDS = {
    word: float(value)
    for value, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve".split(), start=1
    )
}
_PHRASES = {"a": 1.0, "an": 1.0, "half": 0.5, "half a": 0.5, "half an": 0.5, "a half": 0.5}
_PHRASES |= {"a couple": 2.0, "a couple of": 2.0}
_PHRASES |= {"a dozen": 12.0, "one dozen": 12.0}
_MAX_FIGURE = 1e12


def squeeze(text: str) -> str:
    """Lower case with single spaces: how units and names are looked up."""
    return " ".join(text.lower().split())


def number(text: str) -> float:
    """`24`, `1½`, `1 1/2`, `4/5`, `half a`, `two`, `1,200` as a figure.

    A figure with too many digits to mean anything is read as infinite, which the events refuse.
    """
    words = squeeze(text)
    if words in _PHRASES:
        return _PHRASES[words]
    if words in NUMBER_WORDS:
        return NUMBER_WORDS[words]
    if "quarter" in words:
        return 0.75 if words.startswith("three") else 0.25
    if words.endswith(" and a half"):
        return number(words.removesuffix(" and a half")) + 0.5
    if words[-1] in _FRACTIONS:
        return float(words[:-1].strip() or 0) + _FRACTIONS[words[-1]]
    if "/" in words:
        whole, _, fraction = words.rpartition(" ")
        upper, lower = fraction.split("/")
        part = float(upper[:15]) / float(lower[:15]) if float(lower[:15]) else float("inf")
        return float(whole or 0) + part
    plain = words.replace(",", "")
    value = float(plain) if len(plain) < 40 else float("inf")  # `1e999` is infinite too
    return value if value <= _MAX_FIGURE else float("inf")
