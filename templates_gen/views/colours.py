"""Colours of a cake on pictures, and what is shown where none is given.

One place for the page, the cover and the command ``picture``.
"""

from __future__ import annotations

from templates_gen.drawing.colour_words import from_hex, shade_of
from templates_gen.drawing.drawing import Colour

TINTS = ("fcf4ea", "f9e4df", "e5ecdf", "e9e3f0", "dfeaf1", "faf0d4")
"""Paste of tiers without a colour, from the bottom up: pale, to tell them apart."""
BUTTERCREAM = "fbeecd"
DRIPS = "5a3b2c"
LUSTRE = "cda349"
LETTERS = "7a4a3c"
RIBBON = "d9a5a0"
DRUM = "f4f2ee"
BOARD = "cfd2d6"
PILLAR = "eceae4"
BEHIND = "ffffff"
"""What is seen behind a cake, through its hole."""
INSIDE = "f0e4d4"
"""Of a hole: its lining."""


def to_hex(colour: Colour) -> str:
    """Return a colour as CSS and SVG have it."""
    return "#{:02x}{:02x}{:02x}".format(*colour)


def deeper(colour: Colour, power: float) -> Colour:
    """Return a fuller colour: pale ones by a power of their light, where black would grey them."""
    red, green, blue = (round(255 * (0.97 * each / 255) ** power) for each in colour)
    return red, green, blue


def colour_of(words: str | None, otherwise: str) -> Colour:
    """Return the colour that words name, else another, as six digits."""
    return shade_of(words or "") or from_hex(otherwise)
