"""The colours can be told apart and read, on paper and at night."""

from itertools import combinations

import pytest

from journal.charts.theme import DARK, LIGHT

PALETTES = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
MARKS = ("slate", "moss", "clay", "straw")

# Machado, Oliveira & Fernandes (2009), IEEE TVCG 15(6), severity 1.0; values from memory
SIGHT = {
    "full": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
Triple = tuple[float, float, float]


def linear(colour: str) -> Triple:
    """sRGB to linear light, WCAG 2.1 "relative luminance"."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return red, green, blue


def luminance(colour: str) -> float:
    red, green, blue = linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.1 contrast ratio."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def seen(colour: str, sight: str) -> Triple:
    """CIE L*a*b* (D65) of a colour as these eyes see it."""
    light = linear(colour)
    red, green, blue = (
        min(1.0, max(0.0, sum(w * c for w, c in zip(row, light, strict=True))))
        for row in SIGHT[sight]
    )
    x = (0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047
    y = 0.2126729 * red + 0.7151522 * green + 0.0721750 * blue
    z = (0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883
    fx, fy, fz = (
        value ** (1 / 3) if value > 0.008856 else 7.787 * value + 16 / 116 for value in (x, y, z)
    )
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def test_the_measure_of_contrast_agrees_with_a_known_pair() -> None:
    # black on white is 21 to 1 (WCAG 2.1); #767676 on white is the well-known 4.54, from memory
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


def test_the_night_has_a_colour_for_each_of_the_day() -> None:
    assert LIGHT.keys() == DARK.keys()
    assert len(set(LIGHT.values())) == len(LIGHT)


@PALETTES
@pytest.mark.parametrize("words", ["ink", "mute"])
def test_words_stand_out_as_the_guideline_asks(palette: dict[str, str], words: str) -> None:
    assert contrast(palette[words], palette["paper"]) >= 4.5  # WCAG 2.1, 1.4.3


@PALETTES
@pytest.mark.parametrize("mark", MARKS)
def test_marks_stand_out_as_the_guideline_asks(palette: dict[str, str], mark: str) -> None:
    assert contrast(palette[mark], palette["paper"]) >= 3.0  # WCAG 2.1, 1.4.11


@PALETTES
@pytest.mark.parametrize("sight", SIGHT)
def test_marks_can_be_told_apart_by_all_eyes(palette: dict[str, str], sight: str) -> None:
    for one, other in combinations(MARKS, 2):
        pair = zip(seen(palette[one], sight), seen(palette[other], sight), strict=True)
        assert sum((a - b) ** 2 for a, b in pair) ** 0.5 >= 10, (one, other)
