"""Colours of lines: dark enough on white, and told apart by eyes that lack one kind of cone."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import numpy.typing as npt
import pytest

from templates_gen.drawing.roles import Role

Vector = npt.NDArray[np.float64]

SEEN: dict[str, list[list[float]]] = {
    "usual": [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
    "protanopia": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deuteranopia": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "tritanopia": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}
"""How linear RGB is seen: Machado, Oliveira and Fernandes, A Physiologically-based Model for
Simulation of Color Vision Deficiency (IEEE TVCG 15(6), 2009, doi 10.1109/TVCG.2009.113), severity
1.0. Read in the file colour/blindness/datasets/machado2010.py of github.com/colour-science/colour
at 065e7d6 (BSD licence), which gives these figures from Machado's thesis (UFRGS, 2010)."""
TO_XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], np.float64
)
"""From linear RGB to XYZ (IEC 61966-2-1, sRGB)."""
LEAST = 20.0
"""Distance of two colours (CIE 1976) that is plain on thin lines, several times the 2.3 that is
just seen (Mahy, Van Eycken and Oosterlinck, 1994)."""
CONTRAST = 4.5
"""Of text on its ground: WCAG 2.1, success criterion 1.4.3."""


def linear(role: Role) -> Vector:
    """Return the linear red, green and blue of a role (IEC 61966-2-1)."""
    rgb = np.array(role.rgb)
    return np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)


def lab(colour: Vector) -> Vector:
    """Return a linear RGB colour in CIE 1976 L*a*b*, white as the paper is."""
    ratio = TO_XYZ @ np.clip(colour, 0, 1) / TO_XYZ.sum(axis=1)
    root = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio * (29 / 6) ** 2 / 3 + 4 / 29)
    x, y, z = root
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def distance(one: Role, other: Role, eyes: str) -> float:
    """Return how far two roles are apart for some eyes."""
    seen = [lab(np.array(SEEN[eyes]) @ linear(role)) for role in (one, other)]
    return float(np.linalg.norm(seen[0] - seen[1]))


def other_colours() -> list[tuple[Role, Role]]:
    """Return every two roles that have colours of their own."""
    return [(a, b) for a, b in combinations(Role, 2) if a.colour != b.colour]


@pytest.mark.parametrize("eyes", SEEN)
def test_colours_are_told_apart_by_all_eyes(eyes: str) -> None:
    """Two colours of lines never look alike, whichever kind of cone is lacking."""
    near = {(a.word, b.word): round(distance(a, b, eyes), 1) for a, b in other_colours()}
    assert not {pair: far for pair, far in near.items() if far < LEAST}


def test_roles_of_one_colour_are_told_apart_by_words_and_dashes() -> None:
    """Colour never carries the meaning alone: what shares one differs in dashes or in weight."""
    for one, other in combinations(Role, 2):
        if one.colour == other.colour:
            wide, thin = max(one.weight, other.weight), min(one.weight, other.weight)
            assert one.dashes != other.dashes or wide / thin >= 1.35
            assert one.says != other.says or not one.says


@pytest.mark.parametrize("role", Role)
def test_every_line_is_dark_enough_on_white(role: Role) -> None:
    """A line can be seen, and the word along it read, on white paper."""
    light = float(TO_XYZ[1] @ linear(role))
    assert 1.05 / (light + 0.05) >= CONTRAST
