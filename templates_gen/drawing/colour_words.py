"""The words that decorators have for colours, as RGB."""

from __future__ import annotations

import re
from collections.abc import Mapping

from templates_gen.drawing.drawing import Colour

WORDS: Mapping[str, str] = {
    "white": "ffffff", "ivory": "fbf3df", "cream": "fbefd0", "vanilla": "f8e9bf",
    "champagne": "f3dfc1", "pearl": "f4efe6", "linen": "f3e9dc", "nude": "ead0bd",
    "blush": "f5d5cd", "pink": "f4b6c2", "rose": "e39aa6", "peach": "fbcfb0",
    "apricot": "f9bf94", "salmon": "f5a58c", "coral": "f28a76", "fuchsia": "d5429a",
    "magenta": "c83a8c", "raspberry": "b8325c", "red": "c62f36", "cherry": "a91f33",
    "burgundy": "6f1d33", "wine": "722338", "plum": "6b3058", "aubergine": "43233f",
    "mauve": "c3a1b8", "lilac": "cdb7dd", "lavender": "c9bfe4", "violet": "8a6bb1",
    "purple": "77479b", "navy": "26355d", "blue": "6f9fd8", "sky": "b5d8ee",
    "duck egg": "c8e2de", "aqua": "8fd3d1", "turquoise": "4fb9b3", "teal": "2f7f82",
    "mint": "c4e6cf", "green": "7fae6a", "sage": "b7c4a5", "eucalyptus": "9db3a0",
    "olive": "8a8a4d", "moss": "75834f", "lime": "b9d25b", "emerald": "23855a",
    "forest": "2c573c", "yellow": "f7dd72", "lemon": "faeb9a", "butter": "f9e7a9",
    "mustard": "d1a32e", "honey": "e2b04a", "orange": "f0933f", "tangerine": "ef8431",
    "terracotta": "c8714f", "rust": "a9502f", "copper": "b87546", "bronze": "96703f",
    "gold": "cda349", "rose gold": "d7a08e", "silver": "c3c7cb", "grey": "a9a9a8",
    "gray": "a9a9a8", "dove": "cfccc7", "slate": "66727d", "charcoal": "45474b",
    "black": "2b292b", "caramel": "c28a4e", "coffee": "7b5a43", "chocolate": "5a3b2c",
    "milk chocolate": "7d523a", "white chocolate": "f6e7c6", "brown": "79563f",
    "beige": "e6d5bc", "sand": "e3cfa9", "taupe": "b3a294", "stone": "cdc4b5",
}  # fmt: skip
"""Colours by the words decorators have for them: our choice of shades, no source."""
SHADES: Mapping[str, float] = {
    "pale": 0.5, "light": 0.35, "soft": 0.35, "pastel": 0.45, "baby": 0.4,
    "dark": -0.35, "deep": -0.25, "bright": -0.05, "dusty": -0.1, "dusky": -0.15,
}  # fmt: skip
"""Words before a colour, and how far they take it to white, or below 0 to black."""


def from_hex(text: str) -> Colour:
    """Return the colour of six hexadecimal digits."""
    return int(text[0:2], 16), int(text[2:4], 16), int(text[4:6], 16)


def towards(colour: Colour, share: float) -> Colour:
    """Return a colour a share of the way to white; below 0, to black."""
    end = 255 if share > 0 else 0
    red, green, blue = (round(each + (end - each) * abs(share)) for each in colour)
    return red, green, blue


def shade_of(words: str) -> Colour | None:
    """Return the colour that words name, or None where they name none.

    The longest known word counts, with what stands before it: “pale duck egg”; “#c8e2de” is itself.
    """
    found = words.lower().strip()
    if re.fullmatch(r"#[0-9a-f]{6}", found):
        return from_hex(found[1:])
    known = [word for word in WORDS if _names(found, word)]
    if not known:
        return None
    colour = from_hex(WORDS[max(known, key=len)])
    for word, share in SHADES.items():
        if _names(found, word):
            colour = towards(colour, share)
    return colour


def _names(text: str, word: str) -> bool:
    return word in text and re.search(rf"\b{word}\b", text) is not None  # most are not in it
